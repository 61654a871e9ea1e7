"""Faces of board ends computed by shapely from the half-spaces, past the layout engine."""

from fractions import Fraction
from itertools import combinations, pairwise

import shapely
from shapely import LineString, MultiLineString, Polygon

from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Cut, Part
from joinery_templates.wood.faces import FaceLayout
from joinery_templates.wood.polygons import Edge

WIDTH = 12
"""Width in mm of hand-made test boards."""
_FAR = 5000.0
_NEAR = 1e-9


def outline_of_waste(end: Part, face: Face, length: Fraction) -> shapely.Geometry:
    """The boundary of all waste on a face, without what runs along the face's outline."""
    if face not in end.faces:
        return MultiLineString()
    extents = (float(end.board.width), float(length), float(end.board.thickness))
    first, second, third = {
        Face.OUTSIDE: (0, 1, 2),
        Face.INSIDE: (0, 1, 2),
        Face.END_GRAIN: (0, 2, 1),
        Face.REFERENCE_EDGE: (2, 1, 0),
        Face.FAR_EDGE: (2, 1, 0),
    }[face]
    far_side = face in (Face.INSIDE, Face.FAR_EDGE)
    # A hair under the surface: a cut that only touches the face takes no wood.
    level = extents[third] - _NEAR / 100 if far_side else _NEAR / 100
    low = float(end.shown_from(length)) if second == 1 else 0.0
    outline = shapely.box(0, low, extents[first], extents[second])
    shapes = [_slice(cut, outline, (first, second, third), level) for cut in end.cuts]
    shapes = [shapely.set_precision(s, 1e-10) for s in shapes if s.area > _NEAR]
    union = shapely.unary_union([Polygon(), *shapes], grid_size=1e-10)
    sides = [(0, 0.0), (0, extents[first]), (1, low), (1, extents[second])]
    return MultiLineString(
        [
            piece
            for ring in shapely.get_parts(union.boundary)
            for piece in pairwise(ring.coords)
            if not any(_runs_along(piece, axis, place) for axis, place in sides)
        ]
    )


def _runs_along(piece: tuple[tuple[float, ...], ...], axis: int, place: float) -> bool:
    return all(abs(point[axis] - place) < 1e-8 for point in piece)


def _slice(cut: Cut, outline: Polygon, axes: tuple[int, int, int], level: float) -> Polygon:
    shape = outline
    for half_space in cut.half_spaces:
        a, b, c = (float(half_space.normal[axis]) for axis in axes)
        limit = float(half_space.limit) - c * level
        size = (a * a + b * b) ** 0.5
        if not size:
            shape = shape if limit >= 0 else Polygon()
            continue
        # A huge square with one side on the boundary line and its body where it holds.
        a, b, limit = a / size, b / size, limit / size
        foot, along = (a * limit, b * limit), (-b * _FAR, a * _FAR)
        back = (-a * _FAR, -b * _FAR)
        corners = [
            (foot[0] + along[0], foot[1] + along[1]),
            (foot[0] - along[0], foot[1] - along[1]),
            (foot[0] - along[0] + back[0], foot[1] - along[1] + back[1]),
            (foot[0] + along[0] + back[0], foot[1] + along[1] + back[1]),
        ]
        shape = shape.intersection(Polygon(corners))
    return shape


def length_of_lines(layout: FaceLayout) -> float:
    """The length of all lines on a face, twice what stands twice."""
    return MultiLineString([_floats(line) for line in layout.lines]).length


def shared_stretches(lines: tuple[Edge, ...]) -> Fraction:
    """The length, along x or y, that lines share with each other; exact."""
    total = Fraction(0)
    for one, other in combinations(lines, 2):
        (x0, y0), (x1, y1) = one.start, one.end
        if any((x1 - x0) * (y - y0) != (y1 - y0) * (x - x0) for x, y in (other.start, other.end)):
            continue
        axis = 0 if x0 != x1 else 1
        low = max(min(line.start[axis], line.end[axis]) for line in (one, other))
        high = min(max(line.start[axis], line.end[axis]) for line in (one, other))
        total += max(high - low, Fraction(0))
    return total


def as_lines(layout: FaceLayout) -> list[LineString]:
    """The lines of a face for shapely."""
    return [LineString(_floats(line)) for line in layout.lines]


def _floats(line: Edge) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in (line.start, line.end)]
