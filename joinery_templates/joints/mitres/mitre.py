"""A mitre between boards that lean or do not meet squarely in plan; glued, or with keys.

Nothing is left of the end grain: the cut goes from the arris outside to the arris inside,
and with boards of one thickness halves the angle between their faces.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.exact import square_root
from joinery_templates.joints.corners.angles import Angles, pair_of
from joinery_templates.joints.corners.closing import check_the_angle
from joinery_templates.joints.corners.pair import LeaningPair
from joinery_templates.joints.corners.work import (
    LeaningWork,
    ends_words,
    length_words,
    level_the_edges,
    prepare,
)
from joinery_templates.joints.joint import Joint, Member, Request, Role, Size, SlopeSetting, Step
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import BoardEnd, Cut
from joinery_templates.wood.faces import lay_out
from joinery_templates.wood.leaning import SQUARE, places, through_the_thickness

ROLES = (Role("first_board", "first board"), Role("second_board", "second board"))
NOYES_MITRE = (
    "Noyes, Handwork in Wood, 1910, ch. VII: the plane of a mitre halves the angle at which the "
    "members meet"
)
_WRAPPED = (Face.OUTSIDE, Face.END_GRAIN, Face.INSIDE)


@dataclass(frozen=True, slots=True)
class _Layout:
    """A mitre on two boards, and all that follows from it."""

    request: Request
    angles: Angles
    pair: LeaningPair

    @property
    def work(self) -> LeaningWork:
        """The words' figures."""
        return LeaningWork(self.pair, (ROLES[0].words, ROLES[1].words), self.request.units)

    @property
    def through(self) -> tuple[Fraction, Fraction]:
        """Both ends through the thickness, off square."""
        one, other = (through_the_thickness(self.pair.mitre_normal(n)) for n in (0, 1))
        return one, other

    def end(self, number: int) -> BoardEnd:
        """A board, all of whose end before the mitre goes."""
        board, wood = self.request.boards[number], self.pair.mitre(number)
        reach = max(places(wood.normal, wood.limit, board.width, board.thickness))
        return BoardEnd(board, (Cut((wood.turned(),)),), reach, gauged=False)

    def sizes(self) -> Iterator[Size]:
        """How wide the mitres are, and how far the ends run out of square."""
        for role, board, slope in zip(ROLES, self.request.boards, self.through, strict=True):
            width = board.thickness * square_root(1 + slope**2)
            yield Size(f"{role.words}'s mitre, from arris to arris", width)
        yield from self.work.run_outs()

    def slopes(self) -> tuple[SlopeSetting, ...]:
        """Every bevel of the corner."""
        return (*self.work.end_bevels(self.through), *self.work.edge_bevels())

    def steps(self) -> Iterator[Step]:
        """The order of work (common practice, no source)."""
        work = self.work
        angles, bevels = ("the angle", "the bevel")
        if any(self.pair.end_slope(number) for number in (0, 1)):
            angles, bevels = ("both angles", "both bevels")
        yield prepare(work)
        yield Step(
            f"Lay on {work.board(0)} and {work.board(1)}",
            "Trim each template along its outer lines and crease both folds over a rule, printed "
            "side out. Fold it over the squared end so that the fold lines sit on the arrises, "
            "its reference edge flush with the board's, tape it, and prick through the small "
            "crosses. Join them with a knife on both faces, and across the edges with the bevel.",
        )
        yield Step(
            "Saw",
            f"{ends_words(work, self.through)} {length_words(work, self.through)} Saw in the "
            "waste, a hair off the lines on both faces.",
        )
        yield Step(
            "Plane to the lines",
            f"Hold the board in a shooting board or vice that is packed to {angles}, and plane "
            f"to the lines with a fine cut. Test with {bevels}, and two boards against each "
            "other. Opposite boards must be of one length to the hair, or the last corner gapes.",
        )
        yield Step(
            "Glue",
            "Size the end grain with thin glue and let it draw in; then lay the boards in a row, "
            "outside up, arris to arris, tape the corners, turn the row over, glue, fold it up, "
            f"and {check_the_angle(work)}. End grain alone holds little: saw slots across the "
            "corners afterwards and glue keys into them.",
        )
        yield from level_the_edges(work)


def leaning_mitre(kind: tuple[str, str], request: Request, angles: Angles) -> Joint:
    """The whole layout.

    Args:
        kind: the kind's name and title.
        request: boards and units.
        angles: of the corner.

    Raises:
        InputError: where it cannot be cut.
    """
    pair = pair_of(request, angles, mitred=True)
    layout = _Layout(request, angles, pair)
    ends = layout.end(0), layout.end(1)
    faces = tuple(
        face for face in _WRAPPED if any(lay_out(end, face, end.reach + 1).lines for end in ends)
    )
    return Joint(
        kind=kind[0],
        title=kind[1],
        members=(
            Member(ROLES[0].words, ends[0], Hand.RIGHT),
            Member(ROLES[1].words, ends[1], Hand.LEFT),
        ),
        placement=pair.placement,
        filled=pair.filled(),
        allowance=Fraction(0),
        rows=(),
        sizes=tuple(layout.sizes()),
        lengths=(),
        slopes=layout.slopes(),
        rules=(),
        findings=(),
        steps=tuple(layout.steps()),
        faces=faces,
        at_corner=angles.plan == SQUARE,
    )
