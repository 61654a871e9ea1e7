"""Faces of board ends computed by shapely from the half-spaces, past the layout engine."""

from itertools import combinations, pairwise

import numpy as np
import shapely
from shapely import LineString, MultiLineString, Polygon

from joinery_templates.exact import Fraction
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Cut, Part
from joinery_templates.wood.faces import FaceLayout
from joinery_templates.wood.polygons import Edge

WIDTH = 12
"""Width in mm of hand-made test boards."""
_FAR = 5000.0
_NEAR = 1e-9


def outline_of_waste(end: Part, face: Face, length: Fraction) -> shapely.Geometry:
    """The boundaries on a face of what is gone after each stage, all outlines of it left out."""
    if face not in end.faces:
        return MultiLineString()
    if face is Face.END_GRAIN and end.slant:
        return _boundary(*_slanted_end(end))
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
    hair = _NEAR / 1000
    level = extents[third] - hair if far_side else hair
    low = float(end.shown_from(length)) if second == 1 else 0.0
    outline = shapely.box(0, low, extents[first], extents[second])
    if end.slant:
        outline = _slice(Cut((end.slant.end,)), outline, (first, second, third), level)
    axes = (first, second, third)
    # A groove is by itself, whatever is cut besides.
    shapes = [
        ((cut.is_groove, cut.stage.number), _slice(cut, outline, axes, level)) for cut in end.cuts
    ]
    gone = (
        _boundary(outline, [shape for number, shape in shapes if number <= stage])
        for stage in {number for number, _ in shapes}
    )
    return shapely.union_all([MultiLineString(), *gone], grid_size=1e-10)


def _slanted_end(end: Part) -> tuple[Polygon, list[Polygon]]:
    """A slanted end in its own plane, its axes by vector products; in floats."""
    normal = np.array([float(part) for part in end.slant.end.normal])
    limit = float(end.slant.end.limit)
    width, thickness = float(end.board.width), float(end.board.thickness)
    corners = [
        np.array([x, (limit - normal[0] * x - normal[2] * z) / normal[1], z])
        for x, z in ((0, 0), (width, 0), (width, thickness), (0, thickness))
    ]
    first = (corners[1] - corners[0]) / np.linalg.norm(corners[1] - corners[0])
    second = np.cross(first, normal / np.linalg.norm(normal))
    second *= np.sign(second[2])
    flat = [(float((c - corners[0]) @ first), float((c - corners[0]) @ second)) for c in corners]
    axes = np.array([first, second])
    shapes = []
    for cut in end.cuts:
        shape = Polygon(flat)
        for half_space in cut.half_spaces:
            across = np.array([float(part) for part in half_space.normal])
            left = float(half_space.limit) - across @ corners[0]
            shape = _held(shape, *map(float, axes @ across), left)
        shapes.append(shape)
    return Polygon(flat), shapes


def _boundary(outline: Polygon, shapes: list[Polygon]) -> MultiLineString:
    shapes = [shapely.set_precision(s, 1e-10) for s in shapes if s.area > _NEAR]
    union = shapely.unary_union([Polygon(), *shapes], grid_size=1e-10)
    sides = [LineString(side) for side in pairwise(outline.exterior.coords)]
    return MultiLineString(
        [
            piece
            for ring in shapely.get_parts(union.boundary)
            for piece in pairwise(ring.coords)
            if not any(_runs_along(piece, side) for side in sides)
        ]
    )


def _runs_along(piece: tuple[tuple[float, ...], ...], side: LineString) -> bool:
    return all(side.distance(shapely.Point(point)) < 1e-8 for point in piece)


def _slice(cut: Cut, outline: Polygon, axes: tuple[int, int, int], level: float) -> Polygon:
    shape = outline
    for half_space in cut.half_spaces:
        a, b, c = (float(half_space.normal[axis]) for axis in axes)
        shape = _held(shape, a, b, float(half_space.limit) - c * level)
    return shape


def _held(shape: Polygon, a: float, b: float, limit: float) -> Polygon:
    """What of a shape lies where ``a x + b y <= limit``."""
    size = (a * a + b * b) ** 0.5
    if size < 1e-12:
        return shape if limit >= 0 else Polygon()
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
    return shape.intersection(Polygon(corners))


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
