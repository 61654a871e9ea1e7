"""The piece that a rail comes to: a frame's stile, or a leg by either of its marked faces."""

from msgspec import Struct

from joinery_templates.wood.board import Face

TOP = "top end"


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
    def face(self) -> str:
        """The face that the rail comes to, with the piece."""
        return f"{self.name}'s {self.entered}"

    @property
    def end(self) -> str:
        """The end that the rail's far edge is nearer to."""
        return f"leg's {TOP}" if self.is_leg else "stile's end"


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
