"""The end grain of a slanted end: laid out over the board's section, then brought to true shape.

Over the section, by x and z, everything is exact, and what coincides stays so; the true
shape stretches it along the line of the end and shears it, within `exact.ROOT_BOUND`.
"""

from msgspec import Struct

from joinery_templates.exact import Fraction, square_root
from joinery_templates.wood.board import Board
from joinery_templates.wood.cut import HalfSpace, dot
from joinery_templates.wood.polygons import Edge, HalfPlane, Point, Polygon


class EndPlane(Struct, frozen=True):
    """A slanted end as ``y = start + across · x + through · z``.

    In true shape the first coordinate runs along the line of the end on the outside face,
    the second square to it, from the outside face to the inside face.

    Attributes:
        start: the y at the reference edge, on the outside face.
        across: growth of y for each mm of x.
        through: growth of y for each mm of z.
        thickness: of the board.
    """

    start: Fraction
    across: Fraction
    through: Fraction
    thickness: Fraction

    def y(self, x: Fraction, z: Fraction) -> Fraction:
        """Where the end is."""
        return self.start + self.across * x + self.through * z

    def half_plane(self, cut: HalfSpace) -> HalfPlane | bool:
        """What of the end a half-space holds, over the section; a bool for all or nothing."""
        nx, ny, nz = cut.normal
        a, b = nx + ny * self.across, nz + ny * self.through
        limit = cut.limit - ny * self.start
        if not a and not b:
            return limit > 0
        end = (-self.across, Fraction(1), -self.through)
        lengths = dot(cut.normal, cut.normal) * dot(end, end)
        lean = lengths / (lengths - dot(cut.normal, end) ** 2)
        return HalfPlane(a, b, limit, cut.surface, lean)

    @property
    def stretch(self) -> Fraction:
        """Length on the line of the end for each mm of x."""
        return square_root(1 + self.across**2)

    @property
    def shear(self) -> Fraction:
        """How far the first coordinate goes on for each mm of z."""
        return self.across * self.through / self.stretch

    @property
    def depth(self) -> Fraction:
        """The second coordinate for each mm of z."""
        return square_root(1 + self.through**2 - self.shear**2)

    def true_point(self, point: Point) -> Point:
        """A point over the section, in true shape; no coordinate is below 0."""
        first = max(-self.shear * self.thickness, Fraction(0))
        x, z = point
        return first + x * self.stretch + z * self.shear, z * self.depth

    def true_edge(self, edge: Edge) -> Edge:
        """An edge over the section, in true shape."""
        start, end = self.true_point(edge.start), self.true_point(edge.end)
        return Edge(start, end, edge.surface, edge.lean)

    def true_edges(self, shape: Polygon) -> tuple[Edge, ...]:
        """A polygon's edges over the section, in true shape."""
        return tuple(self.true_edge(edge) for edge in shape.edges)


def end_plane(slant: HalfSpace, board: Board) -> EndPlane:
    """The end that bounds a slanted board.

    Args:
        slant: the half-space that the board lies in; its normal has a y.
        board: the board.
    """
    nx, ny, nz = slant.normal
    return EndPlane(slant.limit / ny, -nx / ny, -nz / ny, board.thickness)
