"""What the saw takes: a strip of the waste beside every sawn line, as wide as the kerf.

What is chopped, planed or routed has none, be it a wall or a shoulder.
"""

from collections.abc import Iterator

from joinery_templates.exact import Fraction, square_root
from joinery_templates.wood.cut import Surface
from joinery_templates.wood.faces import FaceLayout
from joinery_templates.wood.polygons import Edge, HalfPlane, Point, Polygon

SAWN = frozenset({Surface.SIDE, Surface.SAWN_SHOULDER})


def kerf_lines(layout: FaceLayout, kerf: Fraction) -> tuple[Edge, ...]:
    """The far side of each saw cut that lies wholly in the waste, with its line on the near one.

    Where the waste is narrower than the kerf there is none. A saw that leans to the face, as
    at a mitre, takes more of it than the kerf.

    Args:
        layout: a face with its waste and lines.
        kerf: width of the saw cut in mm; held within `exact.ROOT_BOUND` of it.
    """
    owners = {
        (edge.start, edge.end): (shape, edge)
        for shape in layout.waste[::-1]
        for edge in shape.edges
    }
    found: list[Edge] = []
    for line in layout.lines:
        sawn = line.within(layout.sawn) if line.surface in SAWN else None
        if sawn is None:
            continue
        owner = owners.get((line.start, line.end)) or _owner(line, layout.waste)
        if owner is not None:
            found.extend(_beside(sawn, *owner, kerf))
    return tuple(found)


def _owner(line: Edge, waste: tuple[Polygon, ...]) -> tuple[Polygon, Edge] | None:
    """The waste that a line bounds and the whole of its edge, of which a part may be hidden."""
    for shape in waste:
        for edge in shape.edges:
            low, high = _share(edge, line.start), _share(edge, line.end)
            if 0 <= low < high <= 1 and line == edge.part(low, high):
                return shape, edge
    return None


def _beside(line: Edge, shape: Polygon, edge: Edge, kerf: Fraction) -> Iterator[Edge]:
    """The waste less a strip of the kerf's width along an edge: the side that this leaves."""
    (x0, y0), (x1, y1) = edge.start, edge.end
    across, along = x1 - x0, y1 - y0
    # The waste lies to the left of its edges: this plane holds what is a kerf away or more.
    taken = kerf * square_root((across**2 + along**2) * line.lean)
    plane = HalfPlane(along, -across, along * x0 - across * y0 - taken, Surface.SIDE)
    left = shape.clipped(plane)
    for side in left.edges if left else ():
        if plane.excess(side.start) == plane.excess(side.end) == 0:
            yield from _as_far_as(line, edge, side)


def _as_far_as(line: Edge, edge: Edge, side: Edge) -> Iterator[Edge]:
    """No farther than the line itself, at an end where a part of its edge is hidden."""
    low, high = _share(edge, line.start), _share(edge, line.end)
    start, end = _share(edge, side.start), _share(edge, side.end)
    first = (low - start) / (end - start) if low > 0 else Fraction(0)
    last = (high - start) / (end - start) if high < 1 else Fraction(1)
    first, last = max(first, Fraction(0)), min(last, Fraction(1))
    if first < last:
        yield side.part(first, last)


def _share(edge: Edge, point: Point) -> Fraction:
    """How far along an edge the foot of a point lies, as a share of its length."""
    across, along = edge.end[0] - edge.start[0], edge.end[1] - edge.start[1]
    from_start = (point[0] - edge.start[0]) * across + (point[1] - edge.start[1]) * along
    return from_start / (across**2 + along**2)
