"""A mitre between two boards at any angles; glued, or with what a kind lets into it.

Nothing is left of the end grain: the cut goes from the arris outside to the arris inside,
and with boards of one thickness halves the angle between their faces.
"""

from collections.abc import Iterator

from msgspec.structs import replace

from joinery_templates.exact import Fraction, square_root
from joinery_templates.joint import Joint, Pose, Size, Step, Task
from joinery_templates.joints.corners import steps
from joinery_templates.joints.corners.angles import pair_of
from joinery_templates.joints.corners.closing import check_the_angle
from joinery_templates.joints.corners.layout import CornerLayout
from joinery_templates.joints.gauge import at_most_as_a_gauge_is_set
from joinery_templates.joints.kind import Request
from joinery_templates.joints.sources import NOYES
from joinery_templates.joints.words import BESIDE, FOLD_EACH, beside
from joinery_templates.wood.cut import BoardEnd, Cut, dot
from joinery_templates.wood.placement import AS_IT_IS

OF_MITRE = Fraction(2, 3)
"""How far in slots for keys go at the most, so that none stands open inside (our judgement)."""
NOYES_MITRE = f"{NOYES}, p. 167: a mitre halves the angle at which the boards meet"


class MitreCorner(CornerLayout, frozen=True):
    """A mitre on two boards, and all that follows from it."""

    is_mitred = True

    @property
    def parts(self) -> tuple[BoardEnd, BoardEnd]:
        """Both ends."""
        return self.end(0), self.end(1)

    def end(self, number: int) -> BoardEnd:
        """A board, all of whose end before the mitre goes."""
        wood = self.pair.mitre(number)
        waste, reach = Cut((wood.turned(),)), self.pair.farthest(number, wood)
        return BoardEnd(self.boards[number], (waste,), reach, gauged=False)

    def sizes(self) -> Iterator[Size]:
        """How wide the mitres are, and how far the ends run out of square."""
        yield from self.told_of_both("mitre, from arris to arris", self.widths)
        yield from self.run_outs()

    @property
    def widths(self) -> list[Fraction]:
        """Of both mitres, from arris to arris."""
        return [
            board.thickness * square_root(1 + self.pair.end_bevel(number) ** 2)
            for number, board in enumerate(self.boards)
        ]

    @property
    def groove_kept_clear(self) -> str:
        """What keeps a groove for a bottom clear of what is cut across the corner later."""
        return ""


_ON_BOTH = (
    "Prick through the small rings and take the paper off. Join the pricks with knife and rule on "
    "both faces, and across the edges from the end of one line to that of the other."
)
_INTO_THE_CORNER = (
    " On the outside face the line runs out into a corner of the end, where there is nothing to "
    "spare: start the saw at the other edge."
)


def keeps_arris(corner: MitreCorner) -> bool:
    """Whether the outside arris of both squared ends stays: the boards are as long as they were."""
    pair = corner.pair
    return all(not pair.end_slope(number) and pair.end_bevel(number) > 0 for number in (0, 1))


def on_inside(corner: MitreCorner) -> str:
    """How the mitre is marked where the outside arris stays."""
    runs = [
        corner.text(board.thickness * corner.pair.end_bevel(number))
        for number, board in enumerate(corner.boards)
    ]
    whose = " and ".join(f"{run} on {corner.named(n)}" for n, run in enumerate(runs))
    from_end = f"{runs[0] if len(set(runs)) == 1 else whose} from the end"
    return (
        "From the outside arris of the end knife the mitre across both edges with the bevel, and "
        f"join the two by a line across the inside face, {from_end}. If that misses the pricks by "
        "a hair, the bevel counts. The outside face has no line."
    )


def shaping(corner: MitreCorner, lay_on: str = "") -> Iterator[Step]:
    """How both boards come to their mitres (common practice, no source).

    Args:
        corner: the corner.
        lay_on: how the templates are laid on, where they do not fold over the ends.
    """
    angles, bevels = ("the angle", "the bevel")
    saw = f"{steps.length_words(corner)} Saw {beside('the lines on both faces')}."
    if any(corner.pair.end_slope(number) for number in (0, 1)):
        angles, bevels = ("both angles", "both bevels")
        saw += _INTO_THE_CORNER
    rings = _ON_BOTH
    first = "First cut the boards square to their finished length, measured on the outside face. "
    if keeps_arris(corner):
        rings = (
            "Prick through the rings of the mitre, on the inside face alone, and take the paper "
            f"off. {on_inside(corner)}"
        )
        saw = f"The outside arris stays: saw from there to the line on the inside face, {BESIDE}."
    yield steps.prepare(corner)
    yield Step(
        Task.LAY_ON,
        f"Lay the templates on {corner.named(0)} and {corner.named(1)}",
        f"{first}{lay_on or f'{corner.laid_on(FOLD_EACH)} {rings}'}",
    )
    yield Step(
        Task.MITRE,
        "Saw the mitres",
        f"{steps.ends_words(corner)} {saw}",
    )
    yield Step(
        Task.FIT,
        "Plane to the lines",
        f"Hold the board in a shooting board or vice that is packed to {angles}, and plane "
        f"to the middle of the lines with a fine cut. Test with {bevels}, and two boards against "
        "each other. Boards that are to be equal must be of one length to a hair, or the last "
        "corner gapes. If a bottom or a lid is to lie in a groove, plough it now."
        f"{corner.groove_kept_clear}",
    )


def fold_up(corner: MitreCorner) -> str:
    """How a mitred piece is glued."""
    curve = "" if corner.pair.is_upright else " (they lie in a curve)"
    return (
        "Lay the boards in a row as they follow each other round the piece, outside up, arris to "
        f"arris{curve}, tape the corners, turn the row over and fold it up dry: all corners must "
        "close at once. Open it, size the end grain with thin glue and let it draw in; then glue, "
        f"fold it up, and {check_the_angle(corner)}."
    )


def _steps(corner: MitreCorner) -> Iterator[Step]:
    deepest = at_most_as_a_gauge_is_set(min(corner.widths) * OF_MITRE, corner.units)
    yield from shaping(corner)
    yield Step(
        Task.GLUE,
        "Glue",
        f"{fold_up(corner)} End grain alone holds little: saw slots across the corners afterwards, "
        f"no deeper than {corner.text(deepest)} under the corner, and glue thin keys into them.",
    )
    yield from steps.level_the_edges(corner)


class Stated(MitreCorner, frozen=True):
    """All that is stated of a mitre that is glued."""

    steps = _steps

    @property
    def pose(self) -> Pose:
        """Each end can go along an edge of either board, but not into the other end."""
        into = self.pair.mitre_normal(0)
        edges = (*AS_IT_IS, *zip(*self.placement.rows, strict=True))
        ways = [(sign * x, sign * y, sign * z) for x, y, z in edges for sign in (1, -1)]
        free = tuple(way for way in ways if dot(into, way) <= 0)
        return replace(super().pose, also=free)


def mitre_joint(request: Request) -> Joint:
    """A mitre where the boards meet at any angles.

    Raises:
        InputError: where it cannot be cut.
    """
    return Stated(request, request.given, pair_of(request, "In a mitre", mitred=True)).joint()
