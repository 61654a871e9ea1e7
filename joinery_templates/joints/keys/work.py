"""Advice on keys, and the order of work with the layout's own figures."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from joinery_templates.errors import COMMON, OURS, Finding, advice
from joinery_templates.joints.joint import Step, Task
from joinery_templates.joints.keys.key import Key
from joinery_templates.joints.keys.row import Row
from joinery_templates.joints.kind import Request
from joinery_templates.lengths import decimal_text, length_text

SLOPES = "The Technique of Furniture Making, chapter on dovetailing, of dovetails"
MOVEMENT = "Wood Handbook, FPL-GTR-190, table 13-5"
STEEPEST, FLATTEST = Fraction(1, 5), Fraction(1, 8)
THINNEST_WAIST = Fraction(2, 5)
"""A waist of less than this share of the key's width is weak (our judgement)."""
MOST_FIT = Fraction(1, 5)
"""A wider gap than 0.2 mm is too much for most glues (our judgement)."""
LONGEST_ACROSS = Fraction(100)
"""A key longer than this is glued across too much moving wood (our judgement)."""
CHERRY = Fraction(248, 100_000)
"""Black cherry, tangential: how much it moves for each percent of moisture (MOVEMENT)."""
SEASONS = 4
"""Percent of moisture between a damp and a dry season (our judgement)."""


@dataclass(frozen=True, slots=True)
class Work:
    """What the words are about.

    Attributes:
        request: the boards and units.
        key: the keys.
        row: where they stand.
        across_grain: whether the keys lie across the grain of the boards.
        line: what the joint line is called.
        limits: what it starts and ends at.
        meet: how the boards are made to meet before any key is let in.
        lay_on: how the socket templates are laid on.
    """

    request: Request
    key: Key
    row: Row
    across_grain: bool
    line: str
    limits: tuple[str, str]
    meet: str
    lay_on: str

    @property
    def count(self) -> int:
        """How many keys."""
        return len(self.row.positions)

    @property
    def thinner(self) -> Fraction:
        """Thickness of the thinner board."""
        return min(board.thickness for board in self.request.boards)

    def text(self, length: Fraction) -> str:
        """A length in the person's units."""
        return length_text(length, self.request.units)


def advise(work: Work) -> tuple[Finding, ...]:
    """What is unwise though it can be cut."""
    return (
        *_on_slope(work),
        *_on_waist(work),
        *_on_depth(work),
        *_on_places(work),
        *_on_movement(work),
        *_on_fit(work),
    )


def _on_slope(work: Work) -> Iterator[Finding]:
    slope = work.key.slope
    shown = f"The keys' sides lean 1:{decimal_text(1 / slope, 2)}"
    if slope > STEEPEST:
        yield advice(
            "slope-steep",
            f"{shown}: the corners at the keys' ends and beside the sockets' waists are short "
            "grain and break away.",
            SLOPES,
            "Take 1:5 or flatter.",
            "slope",
        )
    elif slope < FLATTEST:
        yield advice(
            "slope-flat",
            f"{shown}: so little taper holds little.",
            SLOPES,
            "Take 1:8 or steeper.",
            "slope",
        )


def _on_waist(work: Work) -> Iterator[Finding]:
    key = work.key
    if key.waist < THINNEST_WAIST * key.width:
        yield advice(
            "waist-thin",
            f"A waist of {work.text(key.waist)} in a key {work.text(key.width)} wide is where it "
            "will break, and all that holds the joint is the wood of the waist.",
            OURS,
            "Leave half of the key's width there, by a flatter slope or a shorter key.",
            "waist",
        )


def _on_depth(work: Work) -> Iterator[Finding]:
    depth, thick = work.key.depth, work.thinner
    if work.key.through:
        return
    if depth < thick / 3:
        yield advice(
            "depth-shallow",
            f"Sockets {work.text(depth)} deep in wood {work.text(thick)} thick give the keys "
            "little hold.",
            f"{COMMON}: a third to a half of the thickness",
            f"Make them at least {work.text(thick / 3)} deep.",
            "depth",
        )
    elif depth > thick * 3 / 4:
        yield advice(
            "floor-thin",
            f"Sockets {work.text(depth)} deep leave a floor of {work.text(thick - depth)}, which "
            "a chisel may break through.",
            OURS,
            "Make them half as deep as the wood is thick, or let the keys go right through.",
            "depth",
        )


def _on_places(work: Work) -> Iterator[Finding]:
    key, places = work.key, work.row.positions
    between = min((b - a - 2 * key.half_width for a, b in pairwise(places)), default=key.width)
    if between < key.width:
        yield advice(
            "keys-close",
            f"Only {work.text(between)} of wood is left between two sockets.",
            f"{OURS}: at least as much as a key is wide",
            "Give fewer or narrower keys.",
            "keys",
        )
    end = min(places[0], work.row.length - places[-1]) - key.half_width
    if end < key.width / 2:
        yield advice(
            "key-near-end",
            f"Only {work.text(max(end, Fraction(0)))} of wood is left between a socket and an end "
            f"of {work.line}; it may split away when the key is driven in.",
            f"{OURS}: at least half of a key's width",
            "Move the outermost keys further in.",
            "end_distance",
        )


def _on_movement(work: Work) -> Iterator[Finding]:
    length = work.key.length
    if work.across_grain and length > LONGEST_ACROSS:
        moved = length * CHERRY * SEASONS
        yield advice(
            "key-long-across-grain",
            f"The keys' grain crosses the boards'. Over {work.text(length)} flat-sawn black "
            f"cherry moves {work.text(moved)} when its moisture changes by {SEASONS} %, and a key "
            "does not: it may split the board or come loose.",
            f"{MOVEMENT}; the limit of {work.text(LONGEST_ACROSS)} is our judgement",
            "Take shorter keys, or more of them.",
            "key_length",
        )


def _on_fit(work: Work) -> Iterator[Finding]:
    if work.key.fit > MOST_FIT:
        yield advice(
            "fit-loose",
            f"A gap of {work.text(work.key.fit)} all round is more than glue fills well, and "
            "lets the joint open before the key holds.",
            OURS,
            "Give a smaller fit.",
            "fit",
        )


def order_of_work(work: Work) -> tuple[Step, ...]:
    """The steps, in order (common practice, no source)."""
    return (
        _prepare(work),
        _make_keys(work),
        _join(work),
        _lay_on(work),
        _mark(work),
        _chop(work),
        _glue(work),
    )


def _prepare(work: Work) -> Step:
    first, second = work.request.boards
    return Step(
        Task.PREPARE,
        "Prepare",
        f"{work.meet} Mark the outside face, from which the keys are let in, and the reference "
        f"edge of the first board ({first.name}) and of the second ({second.name}). Measure both "
        "thicknesses again: if they are not what the job says, correct the job file and print "
        "again.",
    )


def _make_keys(work: Work) -> Step:
    key = work.key
    plural = "s" if work.count > 1 else ""
    return Step(
        Task.MAKE_KEYS,
        f"Make the key{plural} first",
        f"Plane straight-grained hardwood to {work.text(key.width)} × "
        f"{work.text(key.thickness)}, its grain along the length. Square the "
        "end, glue the key's template on the face with its upper edge at the end, saw both tapers "
        "in the waste and pare to the lines, square to the face. Then saw the key off its stock at "
        f"the line across, {work.text(key.length)} from the end."
        + (f" Make {work.count} and number them." if work.count > 1 else ""),
    )


def _join(work: Work) -> Step:
    return Step(
        Task.JOIN,
        "Join the boards",
        "Glue the boards together and let the glue harden, or clamp them face up and flush so "
        "that nothing moves until every socket is marked. A key crosses a joint that fits; it "
        "does not close one that gapes.",
    )


def _lay_on(work: Work) -> Step:
    return Step(Task.LAY_ON, "Lay on the templates", work.lay_on)


def _mark(work: Work) -> Step:
    many = "Lay each key" if work.count > 1 else "Lay the key"
    own = " Give socket and key the same number and mark which way round." if work.count > 1 else ""
    return Step(
        Task.LAY_ON,
        "Mark from the key itself",
        f"{many} on its printed place with its waist on {work.line}, and knife round it: where "
        f"line and key differ, the key is right.{own}",
    )


def _chop(work: Work) -> Step:
    key = work.key
    deep = f"Take out the waste {work.text(key.depth)} deep"
    if key.through:
        deep = "Bore out the waste half way from each face"
    floor = (
        "Pare the walls square from both faces"
        if key.through
        else "Level the floor with a router plane or a gauge-set chisel, and pare the walls square"
    )
    return Step(
        Task.CUT_SECOND,
        "Chop the sockets",
        f"{deep}, a little inside the knife line, chopping across the grain before along it. "
        f"{floor}, down to the line. Keep the edges at the waist whole: they hold the joint.",
    )


def _glue(work: Work) -> Step:
    key = work.key
    they_stand, them = ("They stand", "them") if work.count > 1 else ("It stands", "it")
    proud = (
        f" {they_stand} {work.text(key.proud)} proud: plane {them} flush when the glue is hard, "
        "from the tips towards the waist."
        if key.proud
        else " Plane the face level when the glue is hard."
    )
    return Step(
        Task.GLUE,
        "Fit and glue",
        "Ease the lower arrises of each key and try it a third of the way. Peel off the paper. "
        "Glue the walls and the floor, set the key on its socket and drive it home level with a "
        f"block and a mallet, square to the face; it cannot slide in from the side.{proud}",
    )
