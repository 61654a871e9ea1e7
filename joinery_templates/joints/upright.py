"""The piece that a rail comes to: a frame's stile, or a leg by either of its marked faces."""

from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.joints.parameter import Quantity, parameter
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import Cut
from joinery_templates.wood.placement import Placement, round_the_corner

TOP = "top end"
LEGS = (
    "reference edge on the right of its outside face",
    "reference edge on the left of its outside face",
)
"""Which of two legs that are mirror images it is, seen with its top up."""
MARKS_OF_LEGS = (
    "Stand all legs as they will stand, tops up, and write the corner's letter on each top. Mark "
    "two neighbouring faces of every leg: its outside face, which looks to the front or the back "
    "of the piece, and its reference edge, which looks towards the other leg there. On two "
    "legs it is to the right of the outside face, on the others to the left: the plan at the "
    "beginning shows it. Opposite the reference edge is the leg's far edge. The "
    "outside faces of all rails look out, and their reference edges down."
)


def on_parameter(rule: str) -> Any:
    """Which face of a leg a rail comes to."""
    return parameter(
        Quantity.CHOICE,
        "Which face of a leg the rail comes to. Corners A to D are then legs, clockwise from above "
        "and A near left: rails on the reference edge run from A to D and from B to C, those on "
        "the inside face from A to B and from C to D. What meets in a leg is told.",
        rule=rule,
        choices=("reference-edge", "inside"),
        example='"inside"',
    )


class Upright(Struct, frozen=True):
    """What such a piece and its faces are called, all as they are marked on it.

    Attributes:
        name: of the piece.
        entered: the face that the rail comes to.
        gauged: the face that mortises are gauged from, on the rail's outside.
        is_leg: whether rails may come to two faces of it.
    """

    name: str
    entered: Face
    gauged: Face
    is_leg: bool

    @property
    def beyond(self) -> Face:
        """The face that a through tenon comes out of."""
        return OPPOSITE[self.entered]

    @property
    def within(self) -> Face:
        """The face on the rail's inside."""
        return OPPOSITE[self.gauged]

    @property
    def hands(self) -> tuple[Hand, Hand]:
        """Of rail and piece: on a leg's inside face the rail's other end, for its other rails."""
        return Hand.RIGHT if self.entered is Face.INSIDE else Hand.LEFT, Hand.RIGHT

    @property
    def face(self) -> str:
        """The face that the rail comes to, with the piece."""
        return f"{self.name}'s {self.entered}"

    @property
    def end(self) -> str:
        """The end that the rail's far edge is nearer to."""
        return f"leg's {TOP}" if self.is_leg else "stile's end"

    def met(self, board: Board) -> Board:
        """The piece as the rail meets it: its width is how deep the wood is there."""
        return board.turned if self.entered is Face.INSIDE else board

    def as_marked(self, met: Board, cut: Cut) -> Cut:
        """Waste of the piece as the rail meets it, in the frame of the piece's own marks."""
        if self.entered is not Face.INSIDE:
            return cut
        half_spaces = map(round_the_corner(met).half_space, cut.half_spaces)
        return replace(cut, half_spaces=tuple(half_spaces))

    def on_rail(self, placement: Placement, board: Board) -> Placement:
        """A piece on the rail in the frame of its own marks, from where it is as met."""
        if self.entered is not Face.INSIDE:
            return placement
        return placement.of(round_the_corner(board))


OPPOSITE = {
    Face.OUTSIDE: Face.INSIDE,
    Face.INSIDE: Face.OUTSIDE,
    Face.REFERENCE_EDGE: Face.FAR_EDGE,
    Face.FAR_EDGE: Face.REFERENCE_EDGE,
}
IN_FRAME = Upright("stile", Face.REFERENCE_EDGE, Face.OUTSIDE, is_leg=False)
BY_EDGE = Upright("leg", Face.REFERENCE_EDGE, Face.OUTSIDE, is_leg=True)
BY_INSIDE = Upright("leg", Face.INSIDE, Face.FAR_EDGE, is_leg=True)
UPRIGHTS = {None: IN_FRAME, "reference-edge": BY_EDGE, "inside": BY_INSIDE}
"""By what the job says of the face."""
