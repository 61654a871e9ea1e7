"""What is told of every corner, square or not: bevels, gauges, run-outs, and marks on its ends."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from joinery_templates import joint
from joinery_templates.errors import OURS, Finding, advice, mistake
from joinery_templates.exact import ZERO, degrees_of, tangent
from joinery_templates.joint import At
from joinery_templates.joints.corners.pair import BoardPair, where_side_meets
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.layout import Layout
from joinery_templates.lengths import decimal_text
from joinery_templates.wood.board import EDGES, Face, Hand
from joinery_templates.wood.cut import HalfSpace, Part
from joinery_templates.wood.leaning import SQUARE
from joinery_templates.wood.placement import Placement

OUTSIDE = "outside face, along the end"
INSIDE = "inside face, along the end"
_CHECK_OR_KNIFE = "Mark must meet line. Without templates, knife the marks."

ASIDE = Fraction(13, 9)
"""So much more is seen of the first board's face than of the second's."""

WEAK_STRIP = Fraction(3)
"""Narrower than 3 mm, what runs on beside a space is weak (our judgement)."""
PAST_THE_END, PAST_THE_EDGE = "to the end", "to the edge"
"""Where a bevel's blade leans whose stock lies where a board is shorter, or narrower."""

Named = tuple[HalfSpace, tuple[str, bool | None, At]]
"""A side, and what begins or ends there."""


class CornerLayout(Layout, frozen=True):
    """Two boards that meet at a corner.

    Attributes:
        pair: the boards in it.
    """

    hands = (Hand.RIGHT, Hand.LEFT)
    pair: BoardPair

    def drawn(self, number: int, part: Part) -> tuple[Face, ...]:
        """Where no wrap can be folded, each face by itself.

        Edges are left out: the lines across them join those of both faces.
        """
        is_folded = self.pair.mitred or not self.pair.is_slanted
        return () if is_folded else (Face.OUTSIDE, Face.INSIDE, Face.END_GRAIN)

    @property
    def placement(self) -> Placement:
        """As the corner has it."""
        return self.pair.placement

    @property
    def at_corner(self) -> bool:
        """Whether four of these make a piece with four sides."""
        return self.pair.is_square_in_plan

    @property
    def pose(self) -> joint.Pose:
        """As the piece stands, seen from where the joint shows; apart along the second's grain."""
        angles, pair = self.pair.angles, self.pair
        x, y, z = angles.outward_of_other(0)
        outside = x, y, z - ASIDE
        inside = -x, -y, ASIDE - z
        is_hidden = bool(pair.lap(0) and pair.lap(1))
        right, along, through = angles.grain_of_second
        up = angles.frames[0].seen((ZERO, ZERO, Fraction(1)))
        return joint.Pose(up, inside if is_hidden else outside, (-right, -along, -through))

    def slopes(self) -> Iterable[joint.SlopeSetting]:
        """The ends and the edges."""
        return (*self.end_bevels(), *self.edge_bevels())

    def end_bevels(self) -> tuple[joint.SlopeSetting, ...]:
        """The ends across the faces and through the thickness."""
        pair = self.pair
        return (
            *self._merged((pair.end_slope(0), pair.end_slope(1)), _across, PAST_THE_END),
            *self._merged((pair.end_bevel(0), pair.end_bevel(1)), _through, PAST_THE_END),
        )

    def edge_bevels(self) -> Iterator[joint.SlopeSetting]:
        """The edges, where they are to lie level, and the corner inside where it is not square."""
        yield from self._merged((self.edge_bevel(0), self.edge_bevel(1)), _edges, PAST_THE_EDGE)
        plan = self.pair.angles.plan_deg
        if plan != SQUARE:
            turned = (
                f"{'opened' if plan > SQUARE else 'closed'} from square to {decimal_text(plan, 2)}°"
            )
            use = f"every corner inside, {turned}: stock on an inside face"
            yield joint.SlopeSetting(use, abs(tangent(plan - SQUARE)))

    def arrises_off(self) -> Iterator[str]:
        """Which arris of each edge is planed down, where the edges are to lie level."""
        for name, bevel in self._told_once((self.edge_bevel(0), self.edge_bevel(1))):
            low, high = _arrises_off(bevel)
            whose = "" if name.startswith("both") else f" of the {name}"
            yield (
                f"At the reference edge{whose} plane down the {low} arris, at the far edge the "
                f"{high} one."
            )

    def edge_bevel(self, number: int) -> Fraction:
        """How far a board's edges are off square to its faces, for each mm of its thickness."""
        return tangent(self.pair.angles.leans_deg[number])

    def _merged(
        self,
        slopes: tuple[Fraction, Fraction],
        words: Callable[[Fraction], str],
        leans_to: str = "",
    ) -> Iterator[joint.SlopeSetting]:
        """One setting for both boards where they are alike; none where there is no bevel."""
        for name, slope in self._told_once(slopes):
            yield joint.SlopeSetting(f"{name}: {words(slope)}", abs(slope), leans_to=leans_to)

    def _told_once(self, values: Sequence[Fraction]) -> Iterator[tuple[str, Fraction]]:
        """What each board has, by its name, or both where they are alike; nothing is not told."""
        named = zip((self.role(0), self.role(1)), values, strict=True)
        if values[0] == values[1]:
            named = zip(("both boards",), values, strict=False)
        yield from ((name, value) for name, value in named if value)

    def gauges(self) -> tuple[joint.LengthSetting, ...]:
        """From each board's end to its baseline, square to the line of the end; face by face."""
        how = "square to its end" if self.pair.is_slanted else "from its end"
        return tuple(
            gauge(f"{role.words}'s baseline{face}, {how}", length)
            for number, role in enumerate(self.roles)
            for face, length in self._gauged_on(number)
        )

    def _gauged_on(self, number: int) -> Iterator[tuple[str, Fraction]]:
        """On which faces a gauge serves at which setting."""
        bevel = self.pair.end_bevel(number)
        yield f" on the {longer_face(bevel)}" if bevel else "", self.pair.gauge(number)
        if bevel:
            yield f" on the {longer_face(-bevel)}", self.pair.gauge_over(number)

    def spaces_at_edges(self, number: int) -> tuple[bool, bool]:
        """Whether a board's waste reaches as far as both meet, at either edge."""
        return False, False

    def stopped_at(self, number: int) -> tuple[bool, bool]:
        """Whether that waste stops there at wood that runs on past the other board."""
        wood = self.pair.running_on(number)
        near, far = (
            is_space and bool(side)
            for is_space, side in zip(self.spaces_at_edges(number), wood, strict=True)
        )
        return near, far

    def open_edges(self, number: int) -> str:
        """The edges of a board that its waste runs out at, in words; empty where at none."""
        return self.flush_edges(number, self.spaces_at_edges(number))

    def flush_edges(self, number: int, those: tuple[bool, bool] = (True, True)) -> str:
        """Those edges of a board that do not stand past the other, in words; empty where none."""
        wood = self.pair.running_on(number)
        names = [
            f"the {edge}"
            for edge, is_one, side in zip(EDGES, those, wood, strict=True)
            if is_one and not side
        ]
        return "both edges" if len(names) > 1 else "".join(names)

    def with_edges(self, number: int, sides: Iterable[Named]) -> Iterator[Named]:
        """The sides on a board, and where its waste stops level with the other's edge."""
        other, (near, far) = self.role(1 - number), self.pair.running_on(number)
        stopped = self.stopped_at(number)
        if near and stopped[0]:
            yield near, (f"{other}'s {EDGES[0]}", None, At.EDGE)
        yield from sides
        if far and stopped[1]:
            yield far, (f"{other}'s {EDGES[1]}", None, At.EDGE)

    def inset_gauges(self) -> Iterator[joint.LengthSetting]:
        """Where the narrower board's edges come on the wider one."""
        narrow, wide = (self.role(n) for n in (1 - self.pair.wider, self.pair.wider))
        for inset, edge in zip(self.pair.insets, EDGES, strict=True):
            if inset:
                yield gauge(f"{narrow}'s {edge}, from the {wide}'s {edge}", inset)

    def advise_on_strips(self) -> Iterator[Finding]:
        """Wood that runs on beside a space, and is too narrow to last till the glue is hard."""
        strips = {
            (number, own)
            for number in (0, 1)
            for own, is_stopped in zip(
                self.pair.past_the_other(number), self.stopped_at(number), strict=True
            )
            if is_stopped and own < WEAK_STRIP
        }
        for number, own in sorted(strips):
            other = self.boards[1 - number].name
            yield advice(
                "strip-narrow",
                f'Past "{other}", {self.text(own)} of "{self.boards[number].name}" runs on beside '
                "a space: so narrow a strip breaks away.",
                OURS,
                "Plane the boards level at that edge, or let one stand in more.",
                "offset",
            )

    def from_edge(self, number: int) -> str:
        """Added to what stands at an edge, 0 or 1, of the narrower board."""
        narrow = self.role(1 - self.pair.wider)
        return f", from the {narrow}'s edge" if self.pair.insets[number] else ""

    def run_outs(self) -> tuple[joint.Size, ...]:
        """How far the ends run out of square over the whole width."""
        slopes = (self.pair.end_slope(number) for number in (0, 1))
        lengths = [abs(one) * board.width for one, board in zip(slopes, self.boards, strict=True)]
        return tuple(self.told_of_both("end, out of square over its width", lengths))

    def told_of_both(self, what: str, lengths: Sequence[Fraction]) -> Iterator[joint.Size]:
        """A size of each board, told once where both are alike; none where it is nothing."""
        for name, length in self._told_once(lengths):
            yield joint.Size(f"{name}'{'' if name.endswith('s') else 's'} {what}", length)

    def planed_level(self, piece: str, widths: tuple[Fraction, Fraction]) -> Iterator[joint.Size]:
        """What the first board's edges lose where they are planed level, and what is left then.

        Args:
            piece: what stands at an edge, in words.
            widths: of what stands at the reference edge and at the far edge, edges planed level.
        """
        pair = self.pair
        for lost, edge, width in zip(pair.level_edges, EDGES, widths, strict=True):
            if lost:
                what = f"{edge}, planed off the {self.role(0)}'s outside face"
                yield joint.Size(what, lost)
                before = f"{self.square_across}, before that edge is planed"
                yield joint.Size(f"{piece} at the {edge}{before}", width + lost)
        if not any(pair.level_edges):
            return
        left = self.boards[0].width - sum(pair.level_edges)
        yield joint.Size("height, edges planed level", left * pair.angles.frames[0].across[2])
        one, other = zip(self.boards, pair.angles.leans_deg, strict=True)
        if one[0].thickness != other[0].thickness or one[1] != other[1]:
            return  # the second board loses something else
        for number, board in enumerate(self.boards):
            slope = pair.end_slope(number)
            if board.length and pair.is_square_in_plan:
                # The longer edge, at which a length is measured, loses nothing outside.
                what = f"outside along the {longer_edge(-slope)}, both ends alike"
                length = board.length - 2 * abs(slope) * left
                yield joint.Size(f"{self.role(number)}, {what}, edges planed level", length)

    @property
    def end_words(self) -> str:
        """The first board's end, and whether it slants across the faces."""
        slanting = "slanting " if self.pair.end_slope(0) else ""
        return f"{self.role(0)}'s {slanting}end"

    @property
    def square_across(self) -> str:
        """Added to what is measured square to the first board's edges, where its end is not."""
        return ", square to the edges" if self.pair.end_slope(0) else ""

    @property
    def edges_level(self) -> str:
        """Added to what stands at an edge that is planed level."""
        return ", edges planed level" if any(self.pair.level_edges) else ""

    def row(
        self,
        number: int,
        title: str,
        sides: Iterable[Named],
        plane: HalfSpace | None = None,
        z: Fraction = ZERO,
        main: bool = False,
    ) -> joint.SettingOut:
        """The marks where sides meet a line across a face.

        Args:
            number: the board, in whose frame sides and plane are.
            title: of the row.
            sides: with what each `Mark` says of them, from the reference edge on.
            plane: the line's, the board's end unless given.
            z: the depth that the line lies at.
            main: whether it is drawn as a strip.
        """
        line = plane or self.pair.end_plane(number)
        marks = tuple(joint.Mark(where_side_meets(side, line, z), *said) for side, said in sides)
        stretch, width = self.pair.along_end(number), self.boards[number].width
        return joint.SettingOut(
            title, self.role(number), width, marks, main, stretch=stretch, use=_CHECK_OR_KNIFE
        )

    def flush_words(self, names: tuple[str, str]) -> str:
        """What is planed flush at the end, if anything.

        Args:
            names: what stands proud of the second board, and of the first.
        """
        proud: dict[str, list[str]] = {}
        for name, length in zip(names, self.pair.past, strict=True):
            if length > 0:
                proud.setdefault(self.text(length), []).append(f"the {name}")
        if not proud:
            return ""
        told = (f"{' and '.join(who)} stand {length} proud" for length, who in proud.items())
        words = " and ".join(told)
        return f" {words[0].upper()}{words[1:]}: plane them flush when the glue is hard."


def named_sides(
    pairs: Iterable[tuple[HalfSpace | None, HalfSpace | None]], names: Iterable[str], at: At
) -> Iterator[Named]:
    """The sides that there are, where each piece starts and ends."""
    for both, name in zip(pairs, names, strict=True):
        for side, starts in zip(both, (True, False), strict=True):
            if side:
                yield side, (name, starts, at)


def no_room(
    rows: Iterable[joint.SettingOut], what: str, remedy: str, place: str
) -> Iterator[Finding]:
    """A layout of which something comes to nothing: the first line on which marks meet.

    Args:
        rows: the marks along each line.
        what: what would come to nothing, in words.
        remedy: how to mend it.
        place: the parameter to look at.
    """
    for row in rows:
        places = [ZERO, *(mark.position for mark in row.marks), row.width]
        if any(high <= low for low, high in pairwise(places)):
            message = f"On the {row.role} ({row.title}) {what} comes to nothing."
            yield mistake("no-room", message, remedy, place)
            return


def degrees(slope: Fraction) -> str:
    """A slope as an angle."""
    return f"{round(degrees_of(abs(slope), Fraction(1)), 2):g}°"


def longer_edge(slope: Fraction) -> str:
    """Where a board is longer whose end slants across the faces."""
    return "reference edge" if slope > 0 else "far edge"


def longer_face(bevel: Fraction) -> str:
    """Where a board is longer whose end is off square through the thickness."""
    return "outside face" if bevel > 0 else "inside face"


def _across(slope: Fraction) -> str:
    longer, stock = longer_edge(slope), longer_edge(-slope)
    return f"end, across the faces; longer at the {longer}: stock on the {stock}"


def _through(bevel: Fraction) -> str:
    longer, stock = longer_face(bevel), longer_face(-bevel)
    return (
        f"end, through the thickness; longer on the {longer}: stock on the {stock}, square to the "
        "line of the end"
    )


def _edges(bevel: Fraction) -> str:
    low, high = _arrises_off(bevel)
    return (
        f"edges, to lie level: stock on the {low} face at the reference edge, on the {high} face "
        "at the far edge"
    )


def _arrises_off(bevel: Fraction) -> tuple[str, str]:
    """Which arris is planed down at the reference edge, and at the far edge."""
    low, high = (longer_face(one).removesuffix(" face") for one in (bevel, -bevel))
    return low, high
