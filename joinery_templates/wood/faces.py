"""Which waste and which lines stand on which face of a board's end or stretch.

A face is a slice of the board's frame; on it a point has two coordinates::

    face             first   second   where
    outside face       x       y      z = 0
    inside face        x       y      z = T
    end grain          x       z      y = 0
    reference edge     z       y      x = 0
    far edge           z       y      x = W

The end grain of a slanted end lies in that end's own plane, in true shape: the first
coordinate runs along its line on the outside face, the second square to that.

Nothing is mirrored here: how a face looks to someone who looks at it is for the
drawing to decide.
"""

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import lru_cache, reduce
from itertools import pairwise
from math import inf

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.exact import ONE, ZERO, Fraction, as_float
from joinery_templates.wood.board import BROAD, Board, Face
from joinery_templates.wood.cut import (
    BEYOND,
    Cut,
    HalfSpace,
    Part,
    Surface,
    Vector,
    at_least,
    at_most,
    dot,
)
from joinery_templates.wood.depth import depth_below, farthest
from joinery_templates.wood.polygons import (
    Edge,
    HalfPlane,
    Mouth,
    Point,
    Polygon,
    Waste,
    covered_stretch,
    rectangle,
    shared_stretch,
)
from joinery_templates.wood.slanted import EndPlane, end_plane

_AXES = {
    Face.OUTSIDE: (0, 1, 2),
    Face.INSIDE: (0, 1, 2),
    Face.END_GRAIN: (0, 2, 1),
    Face.REFERENCE_EDGE: (2, 1, 0),
    Face.FAR_EDGE: (2, 1, 0),
}
"""For each face: the axes of its first and second coordinate, and the one that is fixed."""

_BEHIND = {
    Face.OUTSIDE: Face.INSIDE,
    Face.INSIDE: Face.OUTSIDE,
    Face.REFERENCE_EDGE: Face.FAR_EDGE,
    Face.FAR_EDGE: Face.REFERENCE_EDGE,
}
"""What waste opens too where it goes right through the board; the end grain has no face behind."""

_LEAST_OPENED = {0: Fraction(1, 2), 1: Fraction(1, 8), 2: Fraction(1, 8)}
"""Waste that opens the face behind by less than this share slopes out before it, as a mitre does at
an end that stands proud: of an edge, the end grain and a broad face, by axis (our judgement). On
the end grain it is how far along the one broad face it is open, as a share of the other."""
_ALONG = 1
"""The axis along the board."""
_FAR_FACES = frozenset({Face.INSIDE, Face.FAR_EDGE})
"""The faces at the far end of their fixed coordinate: the wood lies before them."""


class FaceLayout(Struct, frozen=True):
    """What stands on one face.

    Attributes:
        face: which one.
        width: extent of the first coordinate.
        height: extent of the second coordinate.
        low: where the second coordinate begins; its least value on this face.
        sawn: where on this face a saw reaches the sides; None where it reaches all.
        waste: the waste on the face, one convex polygon for each cut that meets it.
        lines: the layout lines: the waste's edges that lie neither on the board's
            outline nor between waste and waste that leave together. What leaves earlier
            has its whole line.
        outline: the wood's own outline on the face, up to where it is shown.
    """

    face: Face
    width: Fraction
    height: Fraction
    waste: tuple[Waste, ...]
    lines: tuple[Edge, ...]
    outline: Polygon
    low: Fraction = Fraction(0)
    sawn: HalfPlane | None = None


@lru_cache(maxsize=1024)
def laid_out(end: Part, face: Face) -> FaceLayout:
    """One face as far as a drawing needs it: once for all equal parts."""
    return lay_out(end, face, end.reach + BEYOND)


def lay_out(end: Part, face: Face, length: Fraction) -> FaceLayout:
    """The waste and the lines on one face.

    Args:
        end: the board's end or stretch with its cuts.
        face: which face.
        length: up to which y the board is shown; from its end on, or from as far before
            a stretch's joint as after it, within `cut.BEYOND`. A face that the
            part has not stays empty.
    """
    if face is Face.END_GRAIN and end.slant:
        return _slanted_end_grain(end, end_plane(end.slant.end, end.board))
    outline, fixed = _whole(end, face, length), _fixed(end, face)
    (_, low), (width, high) = outline.extent
    if end.slant:
        outline = _clipped(outline, end.slant.end, face, fixed, is_outline=True) or outline
    first, second, third = (_AXES[face].index(axis) for axis in range(3))

    def point(on_face: Point) -> Vector:
        known = (*on_face, fixed)
        return known[first], known[second], known[third]

    shapes = tuple(
        _as_waste(end, number, face, shape, point)
        for number, cut in enumerate(end.cuts if face in end.faces else ())
        if (shape := _waste(outline, cut, face, fixed)) is not None
    )
    sawn = _half_plane(end.sawn, face, fixed) if end.sawn else None
    return FaceLayout(face, width, high - low, shapes, _lines(shapes), outline, low, sawn)


def _slanted_end_grain(end: Part, plane: EndPlane) -> FaceLayout:
    section = rectangle(end.board.width, end.board.thickness)

    def point(over_section: Point) -> Vector:
        x, z = over_section
        return x, plane.y(x, z), z

    shapes = []
    for number, cut in enumerate(end.cuts):
        shape: Polygon | None = section
        for half_space in cut.half_spaces:
            held = plane.half_plane(half_space)
            if shape and held is not True:
                shape = shape.clipped(held) if held else None
        if shape:
            shapes.append(_as_waste(end, number, Face.END_GRAIN, shape, point))
    outline = Polygon(plane.true_edges(section))
    (_, _), (width, height) = outline.extent
    lines = tuple(plane.true_edge(edge) for edge in _lines(tuple(shapes)))
    waste = tuple(replace(shape, edges=plane.true_edges(shape)) for shape in shapes)
    return FaceLayout(Face.END_GRAIN, width, height, waste, lines, outline)


def _as_waste(
    end: Part, number: int, face: Face, shape: Polygon, point: Callable[[Point], Vector]
) -> Waste:
    """A piece of waste on a face, by the number of its cut, with its own depth.

    It goes right through where it opens the face behind, by itself or with what has left before
    it; on the end grain, where it opens both broad faces by itself (`_opens_both`), or runs along
    the board.
    """
    cut = end.cuts[number]
    corners, mouth = shape.corners, _mouth(cut, face)
    x, y = (sum(axis, ZERO) / len(corners) for axis in zip(*corners, strict=True))
    # A hole is as deep at its rim as in its middle.
    points = [point(one) for one in ((mouth.middle,) if mouth else (*corners, (x, y)))]

    def depth(start: Face, at: Vector, gone: Iterable[Cut] = ()) -> tuple[Fraction, Fraction]:
        """How far the wood is gone on the way from a face, and how far the board reaches."""
        axis, is_far = _AXES[start][2], start in _FAR_FACES
        extent = (end.board.width, end.reach, end.board.thickness)[axis]
        way = tuple(ZERO if one != axis else -ONE if is_far else ONE for one in range(3))
        room = at[axis] if is_far else extent - at[axis]
        return depth_below(at, (way[0], way[1], way[2]), room, cut, gone), room

    def opens_behind() -> bool:
        other = _BEHIND[face]
        if opening := _opening(end, other)[number]:
            return opening.area >= shape.area * _LEAST_OPENED[_AXES[face][2]]
        earlier = [one for one in end.cuts if one.stage.number < cut.stage.number]
        gone = [one for one in earlier if not one.is_groove]
        # The middle counts: a mitre's waste opens the face behind at its corners alone.
        deep, room = depth(face, points[-1], gone)
        return deep == room

    if face is Face.END_GRAIN:
        is_through = cut.runs_along or (not cut.is_groove and _opens_both(end, number))
    else:
        is_through = not cut.is_groove and opens_behind()
    if is_through:
        return Waste(shape.edges, cut.stage, mouth=mouth)
    found = [depth(face, one)[0] for one in points]
    low, high = min(found), max(found)
    if low < high:  # it may be deepest between the points looked at
        axis, is_far = _AXES[face][2], face in _FAR_FACES
        reached = farthest((*cut.half_spaces, *_around(end)), axis, -1 if is_far else 1)
        high = abs(reached - _fixed(end, face))
    along = [one[1] for one in points]
    at_ends = {
        (deep, y) for deep, y in zip(found, along, strict=True) if y in (min(along), max(along))
    }
    deepens = low < high and at_ends == {(low, min(along)), (high, max(along))}
    return Waste(shape.edges, cut.stage, (low, high), mouth, deepens)


def _opens_both(end: Part, number: int) -> bool:
    """Whether a cut opens both broad faces, the one as far along as fits the other."""
    openings = [_opening(end, face)[number] for face in BROAD]
    spans = [opening.extent if opening else ((ZERO, ZERO), (ZERO, ZERO)) for opening in openings]
    less, more = sorted(high[_ALONG] - low[_ALONG] for low, high in spans)
    return bool(less) and less >= more * _LEAST_OPENED[_ALONG]


def _mouth(cut: Cut, face: Face) -> Mouth | None:
    """Where a hole is bored square into a face; None of any other waste."""
    bore, (first, second, third) = cut.bore, _AXES[face]
    if bore is None or bore.axis != third:
        return None
    return Mouth((bore.centre[first], bore.centre[second]), bore.diameter)


@lru_cache(maxsize=1024)
def _opening(end: Part, face: Face) -> tuple[Polygon | None, ...]:
    """Where each cut opens a face, within the joint's reach: every face before it asks."""
    whole, fixed = _whole(end, face, end.reach), _fixed(end, face)
    return tuple(_waste(whole, cut, face, fixed) for cut in end.cuts)


def _around(end: Part) -> Iterator[HalfSpace]:
    """What bounds the board as far as the joint reaches."""
    low = end.shown_from(end.reach)
    sizes = ((ZERO, end.board.width), (low, end.reach), (ZERO, end.board.thickness))
    for axis, (least, most) in enumerate(sizes):
        yield at_least(axis, least)
        yield at_most(axis, most)
    if end.slant:
        yield end.slant.end


def _whole(end: Part, face: Face, length: Fraction) -> Polygon:
    """A face as far along as told, as if the end were square."""
    first, second, _ = _AXES[face]
    extents = (end.board.width, length, end.board.thickness)
    low = end.shown_from(length) if second == _ALONG else ZERO
    return rectangle(extents[first], extents[second], low)


def _fixed(end: Part, face: Face) -> Fraction:
    """The fixed coordinate of a face."""
    if face not in _FAR_FACES:
        return ZERO
    return end.board.thickness if face is Face.INSIDE else end.board.width


def end_at(end: Part, face: Face, x: Fraction) -> Fraction:
    """The y of a board's end on a broad face, at so much from the reference edge."""
    if end.slant is None:
        return Fraction(0)
    z = end.board.thickness if face is Face.INSIDE else Fraction(0)
    return end_plane(end.slant.end, end.board).y(x, z)


def trace(plane: HalfSpace, board: Board, face: Face) -> tuple[Point, Point]:
    """Where a plane that crosses the board crosses a face, from side to side of it.

    Args:
        plane: a half-space; its normal has a y.
        board: the board.
        face: a broad face or an edge.
    """
    first, _, third = _AXES[face]
    extents = (board.width, Fraction(0), board.thickness)
    fixed = extents[third] if face in _FAR_FACES else Fraction(0)
    limit = plane.limit - plane.normal[third] * fixed
    start, end = (
        (at, (limit - plane.normal[first] * at) / plane.normal[_ALONG])
        for at in (Fraction(0), extents[first])
    )
    return start, end


@lru_cache(maxsize=256)
def section_lines(end: Part, x: Fraction, length: Fraction) -> tuple[Edge, ...]:
    """What bounds the wood of an upright section along a board, as the far edge has it at the edge.

    Args:
        end: the board's end or stretch.
        x: how far from the reference edge; at the far edge it is that edge which is seen.
        length: up to which y; where it ends there, no line is given.
    """
    face, fixed = Face.FAR_EDGE, x
    outline = rectangle(end.board.thickness, length, end.shown_from(length))
    if end.slant:
        outline = _clipped(outline, end.slant.end, face, fixed, is_outline=True) or outline
    # All waste has left: no line stands between what goes first and what goes later.
    shapes = tuple(
        Waste(shape.edges)
        for cut in end.cuts
        if (shape := _waste(outline, cut, face, fixed)) is not None
    )
    wood: list[Edge] = [edge for edge in _lines(shapes) if edge.surface is not Surface.GROOVE]
    for edge in outline.edges:
        if edge.start[1] == edge.end[1] == length:
            continue
        gone = [
            stretch
            for shape in shapes
            if not shape.is_groove
            for other in shape.edges
            if (stretch := shared_stretch(edge, other))
        ]
        wood += _remaining(edge, gone)
    return tuple(wood)


@lru_cache(maxsize=256)
def fullest_across(end: Part) -> Fraction:
    """How far from the reference edge the joint leaves most wood: in the middle of a tail, say.

    Between the lines on the broad faces, by a few points up to the reach, counted in floats.
    """
    faces = (laid_out(end, face) for face in BROAD)
    corners = {x for layout in faces for shape in layout.waste for x, _ in shape.corners}
    stops = sorted(corners | {Fraction(0), end.board.width})
    shares = [number / 8 for number in (1, 3, 5, 7)]
    reach, thickness = as_float(end.reach), as_float(end.board.thickness)
    places = [(reach * up, thickness * deep) for up in shares for deep in shares]
    middles = [(low + high) / 2 for low, high in pairwise(stops)]
    across = [as_float(middle) for middle in middles]
    cuts = [
        [(*map(as_float, h.normal), as_float(h.limit)) for h in one.half_spaces] for one in end.cuts
    ]
    gone: Counter[int] = Counter()
    for y, z in places:
        stretches = (_along_x(cut, y, z) for cut in cuts)
        gone.update(
            {
                n
                for s in stretches
                for n in range(bisect_left(across, s[0]), bisect_right(across, s[1]))
            }
        )
    return middles[min(range(len(middles)), key=gone.__getitem__)]


def _along_x(cut: Iterable[tuple[float, ...]], y: float, z: float) -> tuple[float, float]:
    """From where to where a piece of waste reaches across the board; nowhere where it is not."""
    low, high = -inf, inf
    for a, b, c, limit in cut:
        room = limit - b * y - c * z
        if a > 0:
            high = min(high, room / a)
        elif a < 0:
            low = max(low, room / a)
        elif room < 0:
            high = -inf
    return low, high


def is_waste(end: Part, x: Fraction, y: Fraction, z: Fraction) -> bool:
    """Whether the wood at a point of the board leaves it."""
    return any(all(h.contains((x, y, z)) for h in cut.half_spaces) for cut in end.cuts)


def _waste(outline: Polygon, cut: Cut, face: Face, fixed: Fraction) -> Polygon | None:
    start: Polygon | None = outline
    return reduce(
        lambda shape, half_space: (
            None if shape is None else _clipped(shape, half_space, face, fixed)
        ),
        cut.half_spaces,
        start,
    )


def _clipped(
    shape: Polygon, half_space: HalfSpace, face: Face, fixed: Fraction, is_outline: bool = False
) -> Polygon | None:
    plane = _half_plane(half_space, face, fixed, is_outline)
    if not plane.a and not plane.b:
        # A plane in the face itself: waste only where it lies on the wood's side of it.
        across = half_space.normal[_AXES[face][2]]
        into_the_wood = -across if face in _FAR_FACES else across
        return shape if plane.limit > 0 or (plane.limit == 0 and into_the_wood <= 0) else None
    return shape.clipped(plane)


def _half_plane(
    half_space: HalfSpace, face: Face, fixed: Fraction, is_outline: bool = False
) -> HalfPlane:
    """What of a face lies in a half-space: all or nothing, without a normal, beside the face."""
    first, second, third = _AXES[face]
    normal = half_space.normal
    limit = half_space.limit - normal[third] * fixed if normal[third] else half_space.limit
    a, b = normal[first], normal[second]
    surface = None if is_outline else half_space.surface
    leans = normal[third] and (a or b)
    lean = dot(normal, normal) / (a * a + b * b) if leans else ONE
    return HalfPlane(a, b, limit, surface, lean)


def _lines(shapes: tuple[Waste, ...]) -> tuple[Edge, ...]:
    lines: list[Edge] = []
    extents = [shape.extent for shape in shapes]
    for number, (shape, touched) in enumerate(zip(shapes, _neighbours(extents), strict=True)):
        # What leaves first is drawn whole: lines run on across what leaves later.
        near = [other for other in touched if shapes[other].order <= shape.order]
        for edge in shape.edges:
            if edge.surface is None:
                continue
            place = shape.order, number
            hidden = [
                stretch
                for other in near
                for earlier in [(shapes[other].order, other) < place]
                if (stretch := covered_stretch(edge, shapes[other], earlier))
            ]
            lines.extend(_remaining(edge, hidden))
    return tuple(lines)


def _neighbours(extents: Sequence[tuple[Point, Point]]) -> list[list[int]]:
    """For each of some upright rectangles the numbers of those that it touches."""
    found: list[list[int]] = [[] for _ in extents]
    begun: list[int] = []  # from left to right, without those that have ended
    for number in sorted(range(len(extents)), key=extents.__getitem__):
        left = extents[number][0][0]
        begun = [other for other in begun if extents[other][1][0] >= left]
        for other in begun:
            if _touching(extents[number], extents[other]):
                found[number].append(other)
                found[other].append(number)
        begun.append(number)
    return found


def _touching(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    """Whether two upright rectangles, each as two corners, have a point in common."""
    return all(one[0][axis] <= other[1][axis] and other[0][axis] <= one[1][axis] for axis in (0, 1))


def _remaining(edge: Edge, hidden: list[tuple[Fraction, Fraction]]) -> list[Edge]:
    shares, reached = [], Fraction(0)
    for low, high in sorted(hidden):
        if low > reached:
            shares.append((reached, low))
        reached = max(reached, high)
    if reached < 1:
        shares.append((reached, Fraction(1)))
    return [edge.part(low, high) for low, high in shares]


def ends_of(lines: tuple[Edge, ...]) -> tuple[Point, ...]:
    """The distinct ends of lines, in order: where a point is pricked through."""
    return tuple(dict.fromkeys(point for line in lines for point in (line.start, line.end)))
