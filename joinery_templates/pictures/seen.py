r"""What is seen of solids from one side: the line drawing.

On the paper u runs to the right and v up; w runs towards the eye. One idea does it all: what
lies behind a convex polygon, or beside it, is a convex piece of space, so of any line it holds
one stretch. Stretches, from 0 to 1 along a line, are joined and taken away from each other::

      ______________         wood on one side only     an edge
     /   face      /         waste on one side only    a line of the waste
  --/- - - - - - -/--        behind a face             not drawn
   /_____________/           paper on one side         the contour, drawn heavier
"""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Sequence
from enum import StrEnum
from itertools import chain
from math import hypot

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.pictures.solid import TORN, Flat, Ring, Spot
from joinery_templates.wood.cut import Surface

ASIDE = 1e-3
"""So far beside a line it is asked what is there, in mm on the wood."""
BEHIND = 1e-5
"""What lies less than this behind a face lies on it, in mm."""
SHORTEST = 0.03
"""A shorter piece of a line is none, in mm on the wood."""

NONE = 1e-7
"""A shorter share of a line is rounding."""

Stretches = list[tuple[float, float]]
"""Parts of a line from 0 to 1, in order, none touching the next."""
ALL: Stretches = [(0.0, 1.0)]
_Ends = frozenset[tuple[int, ...]]
Box = tuple[float, float, float, float]
"""Left, bottom, right, top."""


class Line(StrEnum):
    """What a line of a picture is."""

    CONTOUR = "contour"
    EDGE = "edge"
    TORN = "torn"
    WASTE = "waste line"
    SAWN = "sawn side of waste"
    HATCH = "hatch"
    GUIDE = "guide"
    GRAIN = "grain"


class Segment(Struct, frozen=True):
    """A line from start to end: u, v, w of both.

    Attributes:
        line: what it is.
        face: the face that it was found on, and the one beyond it, by their names.
        void: 1 where there is no wood on its left, -1 on its right, 0 inside a face.
    """

    line: Line
    start: Spot
    end: Spot
    face: tuple[str, str] = ("", "")
    void: int = 0

    @property
    def length(self) -> float:
        """On the paper."""
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])

    def part(self, low: float, high: float) -> "Segment":
        """A stretch of it."""
        if low == 0 and high == 1:
            return self
        (a, b, c), (d, e, f) = self.start, self.end
        start = (a + low * (d - a), b + low * (e - b), c + low * (f - c))
        end = (a + high * (d - a), b + high * (e - b), c + high * (f - c))
        return Segment(self.line, start, end, self.face, self.void)

    def at(self, share: float) -> tuple[float, float]:
        """The point of the paper a share of the way along."""
        (a, b, _), (d, e, _) = self.start, self.end
        return a + share * (d - a), b + share * (e - b)

    def beside(self, left: float) -> "Segment":
        """The same, so much to its left."""
        (a, b, c), (d, e, f) = self.start, self.end
        along = self.length
        du, dv = left * (b - e) / along, left * (d - a) / along
        return Segment(self.line, (a + du, b + dv, c), (d + du, e + dv, f))


class Outline(Struct, frozen=True):
    """A convex polygon on the paper: its sides as ``a u + b v <= c``, and the box around it."""

    sides: tuple[Spot, ...]
    box: Box

    def of(self, segment: Segment, depth: Spot | None = None) -> tuple[float, float] | None:
        """Which stretch of a line lies within it, or behind it (Cyrus and Beck's rule).

        Args:
            segment: the line.
            depth: the plane ``w = p u + q v + r`` that the polygon lies in, to be behind it.
        """
        (u, v, w), (u1, v1, w1) = segment.start, segment.end
        left, low, right, top = self.box
        if (
            (u < left and u1 < left)
            or (u > right and u1 > right)
            or (v < low and v1 < low)
            or (v > top and v1 > top)
        ):
            return None
        start, end = 0.0, 1.0
        if depth:
            p, q, r = depth
            before, after = w - p * u - q * v - r + BEHIND, w1 - p * u1 - q * v1 - r + BEHIND
            if before >= 0 and after >= 0:
                return None
            if before > 0:
                start = before / (before - after)
            elif after > 0:
                end = before / (before - after)
        for a, b, c in self.sides:
            before, after = a * u + b * v - c, a * u1 + b * v1 - c
            if before > 0:
                if after > 0:
                    return None
                start = max(start, before / (before - after))
            elif after > 0:
                end = min(end, before / (before - after))
        return (start, end) if start < end else None

    def contains(self, u: float, v: float) -> bool:
        """Whether a point lies in it."""
        left, low, right, high = self.box
        if not (left <= u <= right and low <= v <= high):
            return False
        return all(a * u + b * v <= c for a, b, c in self.sides)


class Seen(Struct, frozen=True):
    """A face on the paper.

    Attributes:
        name: of the board's face, or empty.
        ring: corners, each with the name of the face beyond the edge that starts there.
        outline: of the face as if nothing were taken out of it.
        holes: where nothing is left of it, each with its corners.
        waste: what is still to go.
        depth: the plane ``w = p u + q v + r`` that it lies in.
        key: what faces in one plane have in common.
    """

    name: str
    ring: Ring
    outline: Outline
    holes: tuple[tuple[Outline, Ring], ...]
    waste: tuple[tuple[Outline, Ring], ...]
    depth: Spot
    key: tuple[int, ...]

    def wood(self, segment: Segment) -> Stretches:
        """Where a line runs over the face, whatever lies before it."""
        return self._less_holes(segment, self.outline.of(segment))

    def hidden(self, segment: Segment) -> Stretches:
        """Where a line lies behind the face."""
        return self._less_holes(segment, self.outline.of(segment, self.depth))

    def lowered(self, far: float) -> "Seen":
        """The face farther from the eye, where it hides less."""
        p, q, r = self.depth
        return replace(self, depth=(p, q, r - far)) if far else self

    def height(self, u: float, v: float) -> float:
        """The w of its plane at a point of the paper."""
        p, q, r = self.depth
        return p * u + q * v + r

    def _less_holes(self, segment: Segment, whole: tuple[float, float] | None) -> Stretches:
        if whole is None:
            return []
        if not self.holes:
            return [whole]
        return less([whole], joined([hole.of(segment) for hole, _ in self.holes]))

    def to_go(self, segment: Segment) -> Stretches:
        """Where a line runs over waste."""
        return joined([waste.of(segment) for waste, _ in self.waste])

    def shows(self, u: float, v: float) -> bool:
        """Whether a point of the paper lies on the face."""
        if not self.outline.contains(u, v):
            return False
        return not (self.holes and any(hole.contains(u, v) for hole, _ in self.holes))


InFront = Sequence[tuple[Seen, float, float, float, float]]
"""Faces, each with its box: most lines lie outside most of them."""


class Frame(Struct, frozen=True):
    """Where a piece's own frame lies: paper = rows · spot + shift."""

    rows: tuple[Spot, Spot, Spot]
    shift: Spot = (0.0, 0.0, 0.0)

    @property
    def eye(self) -> Spot:
        """Towards who looks, in the piece's frame."""
        return self.rows[2]

    def spot(self, spot: Spot) -> Spot:
        """A point of the piece on the paper."""
        x, y, z = spot
        (a, b, c), (d, e, f), (g, h, i) = self.rows
        p, q, r = self.shift
        return a * x + b * y + c * z + p, d * x + e * y + f * z + q, g * x + h * y + i * z + r

    def ring(self, ring: Ring) -> Ring:
        """A polygon on the paper."""
        return tuple((self.spot(spot), name) for spot, name in ring)


def seen(flat: Flat, frame: Frame) -> Seen:
    """A face that looks towards the eye, on the paper."""
    x, y, z = flat.plane.normal
    p, q, r = ((a * x + b * y + c * z) for a, b, c in frame.rows)
    ring = frame.ring(flat.ring)
    u, v, w = ring[0][0]
    depth = (-p / r, -q / r, w + (p * u + q * v) / r)

    def within(rings: Iterable[Ring]) -> tuple[tuple[Outline, Ring], ...]:
        moved = (frame.ring(one) for one in rings)
        return tuple((_outline(one), one) for one in moved)

    key = (*(round(part * 1e5) for part in (p, q, r)), round((p * u + q * v + r * w) * 1e3))
    return Seen(
        flat.plane.name,
        ring,
        _outline(ring),
        within(flat.holes),
        within(flat.waste),
        depth,
        key,
    )


def _outline(ring: Ring) -> Outline:
    spots = [spot for spot, _ in ring]
    pairs = list(zip(spots, spots[1:] + spots[:1], strict=True))
    turn = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)
    sides = []
    for (u, v, _), (u1, v1, _) in pairs:
        a, b = (v1 - v, u - u1) if turn > 0 else (v - v1, u1 - u)
        size = hypot(a, b)
        if size > 1e-9:
            sides.append((a / size, b / size, (a * u + b * v) / size + 1e-9))
    across, up, _ = zip(*spots, strict=True)
    return Outline(tuple(sides), (min(across), min(up), max(across), max(up)))


def edges(faces: Sequence[Seen]) -> Iterator[Segment]:
    """The lines that the faces of one piece end in, and those of waste on them, each once."""
    inside = _inside_round_walls(faces)
    planes: dict[tuple[int, ...], list[Seen]] = {}
    for face in faces:
        planes.setdefault(face.key, []).append(face)
    known = set()
    for level in planes.values():
        for one in chain(_ends(level, inside), _marks(level)):
            key = _ends_of(one)
            if one.length > SHORTEST and key not in known:
                known.add(key)
                yield one


def _ends_of(segment: Segment) -> _Ends:
    """Both ends of a line in fiftieths of a millimetre: what is drawn alike has them alike."""
    return frozenset(tuple(round(x * 50) for x in spot) for spot in (segment.start, segment.end))


def _inside_round_walls(faces: Sequence[Seen]) -> set[_Ends]:
    """The sides between two flats of a round wall that are both seen: there it has no edge."""
    flats = ((face, face.ring) for face in faces if face.name == Surface.HOLE)
    sides = (_ends_of(side) for side in _borders(flats) if side.face[1] == Surface.HOLE)
    return {side for side, count in Counter(sides).items() if count > 1}


def _ends(level: Sequence[Seen], inside: Collection[_Ends]) -> Iterator[Segment]:
    """Where there is wood on one side only, of all faces in one plane."""
    rings = ((face, ring) for face in level for ring in (face.ring, *(r for _, r in face.holes)))
    for segment in _borders(rings):
        if inside and _ends_of(segment) in inside:
            continue
        left, right = (_all([face.wood(one) for face in level]) for one in _both(segment))
        for void, spans in ((1, less(right, left)), (-1, less(left, right))):
            for span in spans:
                yield replace(segment.part(*span), void=void)


def _marks(level: Sequence[Seen]) -> Iterator[Segment]:
    """Where there is waste on one side only, and wood on the other."""
    rings = ((face, ring) for face in level for _, ring in face.waste)
    for segment in _borders(rings):
        (left, right), (one, other) = (
            [_all([ask(face, beside) for face in level]) for beside in _both(segment)]
            for ask in (Seen.wood, Seen.to_go)
        )
        inside = less(left, less(left, right))
        for spans in (less(one, other), less(other, one)):
            for span in less(spans, less(ALL, inside)):
                yield replace(segment.part(*span), line=Line.WASTE)


def _both(segment: Segment) -> tuple[Segment, Segment]:
    return segment.beside(ASIDE), segment.beside(-ASIDE)


def _borders(rings: Iterable[tuple[Seen, Ring]]) -> Iterator[Segment]:
    """The sides of polygons on faces."""
    for face, ring in rings:
        for (start, beyond), (end, _) in zip(ring, ring[1:] + ring[:1], strict=True):
            line = Line.TORN if TORN in (face.name, beyond) else Line.CONTOUR
            segment = Segment(line, start, end, (face.name, beyond))
            if segment.length > SHORTEST:
                yield segment


def in_front(faces: Iterable[Seen]) -> InFront:
    """Faces that may stand in front of lines."""
    return [(face, *face.outline.box) for face in faces]


def visible(segments: Iterable[Segment], faces: InFront) -> Iterator[Segment]:
    """What is seen of lines behind faces."""
    for segment in segments:
        for span in less(ALL, _all([face.hidden(segment) for face in _near(segment, faces)])):
            one = segment.part(*span)
            if one.length > SHORTEST:
                yield one


def contoured(segments: Iterable[Segment], faces: InFront) -> Iterator[Segment]:
    """Lines; of what was taken for contour that alone against which no face shows wood."""
    for one in segments:
        if one.line is not Line.CONTOUR:
            yield one
            continue
        beyond = one.beside(one.void * 10 * ASIDE)
        covered = _all([face.wood(beyond) for face in _near(beyond, faces)])
        for line, spans in ((Line.EDGE, covered), (Line.CONTOUR, less(ALL, covered))):
            for span in spans:
                part = one.part(*span)
                if part.length > SHORTEST:
                    yield part if line is one.line else replace(part, line=line)


def _near(segment: Segment, faces: InFront) -> list[Seen]:
    """The faces whose boxes a line's box meets: the others are not asked."""
    (u, v, _), (u1, v1, _) = segment.start, segment.end
    left, right = (u, u1) if u < u1 else (u1, u)
    low, high = (v, v1) if v < v1 else (v1, v)
    return [
        face
        for face, start, foot, end, top in faces
        if start <= right and end >= left and foot <= high and top >= low
    ]


def joined(spans: Iterable[tuple[float, float] | None]) -> Stretches:
    """Stretches as one list, in order, those that touch or overlap made one."""
    return _merged([span for span in spans if span])


def _all(many: Iterable[Stretches]) -> Stretches:
    return _merged([span for spans in many for span in spans])


def _merged(known: Stretches) -> Stretches:
    if len(known) < 2:
        return known
    known.sort()
    whole = known[:1]
    for low, high in known[1:]:
        if low > whole[-1][1] + NONE:
            whole.append((low, high))
        elif high > whole[-1][1]:
            whole[-1] = (whole[-1][0], high)
    return whole


def less(spans: Stretches, gone: Stretches) -> Stretches:
    """What is left of stretches when others are taken away."""
    if not gone or not spans:
        return spans
    left: Stretches = []
    for low, high in spans:
        at = low
        for start, end in gone:
            if end <= at:
                continue
            if start >= high:
                break
            if start > at + NONE:
                left.append((at, start))
            at = end
        if at < high - NONE:
            left.append((at, high))
    return left
