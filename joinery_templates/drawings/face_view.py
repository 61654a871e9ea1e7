"""How a face of a board end lies on the paper.

Every face is drawn as seen by someone who looks at it, the board's end at the
top. One side is built; the other hand is its mirror image by one sign::

    left-hand end, outside face       right-hand end, outside face
    reference edge on the left        reference edge on the right
"""

from collections.abc import Iterable, Iterator

from msgspec import Struct

from joinery_templates.drawings.figure import Point, Role, Stroke, prick_point
from joinery_templates.drawings.waste import hatched
from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import Surface
from joinery_templates.wood.faces import FaceLayout, ends_of
from joinery_templates.wood.kerf import kerf_lines
from joinery_templates.wood.polygons import Edge, HalfPlane

PRICK_RADIUS = Fraction(7, 10)

_ROLE_OF_SURFACE = {
    Surface.SIDE: Role.SAW,
    Surface.WALL: Role.KNIFE,
    Surface.SHOULDER: Role.KNIFE,
    Surface.SAWN_SHOULDER: Role.KNIFE,
    Surface.GROOVE: Role.GROOVE,
    Surface.HOLE: Role.HOLE,
}

_SEEN_MIRRORED = frozenset({Face.INSIDE, Face.REFERENCE_EDGE})
"""Faces of a left-hand end whose first coordinate runs to the left for who looks at them."""


class Lie(Struct, frozen=True):
    """Carries a face's two coordinates to the paper: ``u = u0 ± first``, ``v = v0 ± second``."""

    u0: Fraction
    u_sign: int
    v0: Fraction
    v_sign: int

    def point(self, face_point: Point) -> Point:
        """A point of the face on the paper."""
        first, second = face_point
        return (
            self.u0 + first if self.u_sign > 0 else self.u0 - first,
            self.v0 + second if self.v_sign > 0 else self.v0 - second,
        )


def lie_across(left: Fraction, extent: Fraction, mirrored: bool) -> tuple[Fraction, int]:
    """`u0` and sign for a coordinate that runs over `extent` from `left` on the paper."""
    return (left + extent, -1) if mirrored else (left, 1)


def seen_mirrored(face: Face, hand: Hand) -> bool:
    """Whether a face's first coordinate runs to the left for someone who looks at it."""
    return (face in _SEEN_MIRRORED) != (hand is Hand.RIGHT)


def drawn_face(
    layout: FaceLayout,
    lie: Lie,
    to: Fraction | None = None,
    kerf: Fraction | None = None,
) -> tuple[Stroke, ...]:
    """Waste, layout lines and prick points of one face.

    Args:
        layout: the face.
        lie: where it lies on the paper.
        to: where waste and the lines of grooves break off, which may run on along the board.
        kerf: how wide the saw cuts; None where that is not to be seen.
    """
    strokes: list[Stroke] = []
    for shape in layout.waste:
        # A groove stays white: it does not go with the joint's waste; a hole shows its middle.
        shown = shape if to is None else shape.clipped(HalfPlane(ZERO, ONE, to))
        if shown and not shape.is_groove and not shape.mouth:
            corners = tuple(lie.point(corner) for corner in shown.corners)
            strokes.extend(hatched(corners, shape.depth is not None))
    lines = tuple(_broken_off(layout.lines, to))
    strokes.extend(
        Stroke(role, lie.point(edge.start), lie.point(edge.end))
        for line in lines
        for role, edge in _by_tool(line, layout.sawn)
    )
    strokes.extend(
        Stroke(Role.KERF, lie.point(edge.start), lie.point(edge.end))
        for edge in (kerf_lines(layout, kerf) if kerf else ())
    )
    straight = tuple(edge for edge in lines if edge.surface is not Surface.HOLE)
    holes = (shape.mouth.middle for shape in layout.waste if shape.mouth)
    for point in (*ends_of(straight), *holes):
        if point[1] != to:
            strokes.extend(prick_point(lie.point(point), PRICK_RADIUS))
    return tuple(strokes)


def _by_tool(line: Edge, reached: HalfPlane | None) -> Iterator[tuple[Role, Edge]]:
    """A line as it is worked: what a saw does not reach of a side is knifed and chopped."""
    if line.surface is None:
        return
    role = _ROLE_OF_SURFACE[line.surface]
    if role is not Role.SAW or reached is None:
        yield role, line
        return
    beyond = HalfPlane(-reached.a, -reached.b, -reached.limit)
    for tool, where in ((role, reached), (Role.KNIFE, beyond)):
        if part := line.within(where):
            yield tool, part


def _broken_off(lines: Iterable[Edge], to: Fraction | None) -> Iterator[Edge]:
    """The lines, those of grooves no further than told."""
    before = None if to is None else HalfPlane(ZERO, ONE, to)
    for edge in lines:
        if part := edge.within(before if edge.surface is Surface.GROOVE else None):
            yield part
