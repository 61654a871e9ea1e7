"""Convex polygons whose edges remember what made them, clipped exactly."""

from collections.abc import Iterable

from msgspec import Struct

from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.wood.cut import AT_ONCE, Stage, Surface

Point = tuple[Fraction, Fraction]


class HalfPlane(Struct, frozen=True):
    """All points with ``a x + b y <= limit`` on a face; `surface` None is the board's outline.

    `lean` is that of the edges it makes; see `Edge`.
    """

    a: Fraction
    b: Fraction
    limit: Fraction
    surface: Surface | None = None
    lean: Fraction = Fraction(1)

    def excess(self, point: Point) -> Fraction:
        """How far outside a point is, in mm times the normal's length; inside is negative."""
        return self.a * point[0] + self.b * point[1] - self.limit


class Edge(Struct, frozen=True):
    """A polygon's edge, from start to end, and the surface that it belongs to.

    `lean` is the square of how much farther two parallel surfaces are apart on the face than
    square to them: 1 where the surface stands square on the face, 2 at 45 degrees.
    """

    start: Point
    end: Point
    surface: Surface | None
    lean: Fraction = Fraction(1)

    def at(self, share: Fraction) -> Point:
        """The point a share of the way along."""
        (x, y), (x1, y1) = self.start, self.end
        return x + share * (x1 - x), y + share * (y1 - y)

    def part(self, low: Fraction, high: Fraction) -> "Edge":
        """The stretch between two shares of the way."""
        return Edge(self.at(low), self.at(high), self.surface, self.lean)

    def within(self, plane: HalfPlane | None) -> "Edge | None":
        """The stretch in a half-plane, None where it has none; where no plane is given, all."""
        if plane is None:
            return self
        before, after = plane.excess(self.start), plane.excess(self.end)
        if before <= 0 and after <= 0:
            return self
        if before >= 0 and after >= 0:
            return None
        share = before / (before - after)
        return self.part(ZERO, share) if before < 0 else self.part(share, ONE)


class Polygon(Struct, frozen=True):
    """A convex polygon as a ring of edges; the order is kept by clipping."""

    edges: tuple[Edge, ...]

    @property
    def corners(self) -> tuple[Point, ...]:
        """The corners in order."""
        return tuple(edge.start for edge in self.edges)

    @property
    def is_groove(self) -> bool:
        """Whether it is the waste of a groove or rebate along the board."""
        return any(edge.surface is Surface.GROOVE for edge in self.edges)

    @property
    def extent(self) -> tuple[Point, Point]:
        """The lower left and upper right corner of the upright rectangle around it."""
        across, up = zip(*self.corners, strict=True)
        return (min(across), min(up)), (max(across), max(up))

    @property
    def area(self) -> Fraction:
        """In square millimetres."""
        corners = self.corners
        pairs = zip(corners, corners[1:] + corners[:1], strict=True)
        twice = (x * other_y - other_x * y for (x, y), (other_x, other_y) in pairs)
        return abs(sum(twice, Fraction(0))) / 2

    @property
    def has_area(self) -> bool:
        """Whether it is no mere line."""
        return any(_left_of(self.edges[0], edge.end) for edge in self.edges[1:-1])

    def holds(self, point: Point) -> bool:
        """Whether a point lies in it, its edges included; they run anticlockwise."""
        return all(_left_of(edge, point) >= 0 for edge in self.edges)

    def clipped(self, plane: HalfPlane) -> "Polygon | None":
        """What of the polygon lies in a half-plane; None where no area is left.

        Sutherland and Hodgman's rule for one half-plane, in rationals.
        """
        excess = [plane.excess(edge.start) for edge in self.edges]
        if max(excess) <= 0:
            return self
        if min(excess) >= 0:
            return None
        kept: list[Edge] = []
        for number, edge in enumerate(self.edges, start=-len(excess)):
            start, end = excess[number], excess[number + 1]
            if start <= 0 and end <= 0:
                kept.append(edge)
            elif start < 0 or end < 0:
                crossing = edge.at(start / (start - end))
                inside = (edge.start, crossing) if start < 0 else (crossing, edge.end)
                kept.append(Edge(*inside, edge.surface, edge.lean))
        shape = Polygon(tuple(_closed(kept, plane)))
        return shape if shape.has_area else None


class Mouth(Struct, frozen=True):
    """Where a hole is bored into a face: its middle, and the diameter of the bit."""

    middle: Point
    diameter: Fraction


class Waste(Polygon, frozen=True):
    """Waste as it stands on a face.

    Attributes:
        stage: when it leaves.
        depth: its least and its greatest depth below the face, in mm; None where it goes
            right through the board.
        mouth: of a hole that is bored into the face; else None.
        deepens: whether it is least deep where it begins along the board, and deepest where it
            ends.
    """

    stage: Stage = AT_ONCE
    depth: tuple[Fraction, Fraction] | None = None
    mouth: Mouth | None = None
    deepens: bool = False

    @property
    def order(self) -> tuple[bool, int]:
        """When it leaves: a groove is ploughed by itself, after the joint."""
        return self.is_groove, self.stage.number


def rectangle(width: Fraction, high: Fraction, low: Fraction = Fraction(0)) -> Polygon:
    """A face from (0, low) to (width, high), anticlockwise; its edges are outline."""
    corners = ((ZERO, low), (width, low), (width, high), (ZERO, high))
    pairs = zip(corners, corners[1:] + corners[:1], strict=True)
    return Polygon(tuple(Edge(start, end, None) for start, end in pairs))


def _closed(edges: Iterable[Edge], plane: HalfPlane) -> Iterable[Edge]:
    """The kept edges, with the gap where the half-plane cut closed by an edge of its surface."""
    ring = [edge for edge in edges if edge.start != edge.end]
    for edge, following in zip(ring, ring[1:] + ring[:1], strict=True):
        yield edge
        if edge.end != following.start:
            yield Edge(edge.end, following.start, plane.surface, plane.lean)


def covered_stretch(
    edge: Edge, other: Polygon, other_is_earlier: bool
) -> tuple[Fraction, Fraction] | None:
    """Which stretch of a waste's edge is no line on the wood because of a neighbouring waste.

    An edge that runs inside another waste, or along its boundary from the other
    side, separates waste from waste. Where the two boundaries run the same way the
    line is real but must stand only once: the later one gives way.

    Returns:
        The stretch as two shares of the way, or None.
    """
    low, high = Fraction(0), Fraction(1)
    for side in other.edges:
        # The interior of an anticlockwise polygon lies to the left of each edge.
        start, end = _left_of(side, edge.start), _left_of(side, edge.end)
        if start == end == 0:
            same_way = _dot(side, edge) > 0
            if same_way and not other_is_earlier:
                return None
            continue
        if start < 0 and end < 0:
            return None
        if start < 0 or end < 0:
            crossing = start / (start - end)
            low, high = (max(low, crossing), high) if start < 0 else (low, min(high, crossing))
    return (low, high) if low < high else None


def shared_stretch(edge: Edge, other: Edge) -> tuple[Fraction, Fraction] | None:
    """Which stretch of an edge another one runs along too, as two shares of the way, or None."""
    if _left_of(edge, other.start) or _left_of(edge, other.end):
        return None
    whole = _dot(edge, edge)
    low, high = sorted(
        _dot(edge, Edge(edge.start, end, None)) / whole for end in (other.start, other.end)
    )
    low, high = max(low, Fraction(0)), min(high, Fraction(1))
    return (low, high) if low < high else None


def _left_of(side: Edge, point: Point) -> Fraction:
    """How far a point lies to the left of an edge, times its length."""
    (x0, y0), (x1, y1), (x, y) = side.start, side.end, point
    return (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)


def _dot(one: Edge, other: Edge) -> Fraction:
    return (one.end[0] - one.start[0]) * (other.end[0] - other.start[0]) + (
        one.end[1] - one.start[1]
    ) * (other.end[1] - other.start[1])
