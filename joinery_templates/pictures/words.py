"""What is written on a picture: names of boards, faces, the reference edge, each clear of lines."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import product
from math import cos, dist, pi, sin

from msgspec import Struct

from joinery_templates.drawings.figure import Align
from joinery_templates.drawings.lettering import LINE_PITCH, SHARE_BEFORE, Lettering, Row
from joinery_templates.drawings.look import BODY
from joinery_templates.drawings.placing import CLEAR, Ground
from joinery_templates.exact import as_float
from joinery_templates.joint import REFERENCE_EDGE
from joinery_templates.pictures.pieces import Piece
from joinery_templates.pictures.seen import Frame, Line, Seen, Segment, in_front, less, visible
from joinery_templates.wood.board import BROAD, Face

STEPS = 12
"""At so many heights it is asked where a face is seen."""
ACROSS = (0.5, 0.3, 0.7, 0.15, 0.85)
"""So far along each of them a line may point to it."""
ON_ARRIS = (0.5, 0.35, 0.65, 0.2, 0.8)
"""So far along an arris a line may point to it."""
INSIDE = (2.0, 1.1, 0.6)
"""So far from every line a dot is wished to stand, in mm: at the least it has paper round it."""
BETWEEN = (4.0, 2.0)
"""So far a dot is wished to stand from what leads to another, in mm, and at the least."""
GROUPS = 3
"""So many sorts of spots are tried, the best first: in those after them no name found room."""
FARS, NOT_FAR = (3.0, 5.0, 8.0, 12.0, 17.0), 14.0
"""How far from what they name words may stand, in mm, when they point to it; nearer than the last
they are taken farther so that their line runs over nothing else."""
WAYS = tuple((cos(pi * n / 8), sin(pi * n / 8)) for n in (0, 8, 12, 4, 14, 10, 2, 6, 13, 11, 15, 9))
ON_THE_WAY = 6
"""Such a line is looked at in so many parts."""
SIDEWAYS, BESIDE = 0.3, 0.8
"""A line that runs more sideways than this has its words beside its end, so far away, in mm."""

DOWN = 0.5
"""An edge of which more looks down than this share lies below, and not behind, its arris."""

OVER_OTHERS, BEST = 1, 3
"""What lines are worth that run over other pieces, and over nothing but the face that they name."""

Spot = tuple[float, float]
Pointer = tuple[Spot, Spot]
"""A line from a spot of what it names to the words."""
_BEFORE = {align: as_float(share) for align, share in SHARE_BEFORE.items()}


class Block(Struct, frozen=True):
    """Rows of words, with their size in mm."""

    rows: tuple[Row, ...]
    width: float
    height: float


class Said(Struct, frozen=True):
    """One row of words: where its baseline starts, is centred or ends."""

    row: Row
    at: Spot
    align: Align


class Run(Struct, frozen=True):
    """A stretch of a face from left to right, at a height."""

    height: float
    left: float
    right: float

    def at(self, share: float) -> Spot:
        """The point a share of the way along."""
        return self.left + share * (self.right - self.left), self.height


class Writer:
    """Writes on one picture, in mm on the paper.

    Args:
        faces: of all pieces on it.
        lines: of it, each with its ends on the paper; hatching left out.
        scale: of the picture.
        page: two corners of what may be written on.
        lettering: how wide words run.
    """

    def __init__(
        self,
        faces: Sequence[Seen],
        lines: Iterable[tuple[Spot, Spot]],
        scale: float,
        page: tuple[Spot, Spot],
        lettering: Lettering,
    ) -> None:
        self._faces, self._scale, self._lettering = faces, scale, lettering
        self._page = page
        self._ground = Ground(lettering)
        for line in lines:
            self._ground.rule(*line)
        self.said: list[Said] = []
        self.pointers: list[Pointer] = []

    def name(self, piece: Piece, ways: Iterable[Sequence[Row]]) -> None:
        """A piece's name on its largest broad face; beside it where there is no room.

        Args:
            piece: the piece.
            ways: to say it, the best first.
        """
        named = [face for face in piece.faces if face.name in BROAD]
        face = max(named or piece.faces, key=_size)
        runs = self._runs(face)
        spots: list[list[Spot]] = []
        for block in map(self._block, ways):
            for at in _rooms(runs, block):
                if self._has_room(*_box(block, at, Align.CENTRE)):
                    self._say(block, at, Align.CENTRE)
                    return
            spots = spots or self._spots(face)
            if self._point(block, spots, piece, face):
                return

    def reference_edge(self, piece: Piece, frame: Frame, lines: Iterable[Segment]) -> None:
        """Words that point to the reference edge, or to its arris where it is not seen itself.

        Args:
            piece: whose edge.
            frame: where the piece stands.
            lines: of the piece, as far as they are seen.
        """
        edge = next((face for face in piece.faces if face.name == Face.REFERENCE_EDGE), None)
        of, behind = piece.worked.member.reference, ""
        said = [f"= {of}"] if of else []
        if edge:
            spots = self._spots(edge)
        else:
            arrises = [
                line
                for line in lines
                if Face.REFERENCE_EDGE in line.face and any(face in line.face for face in BROAD)
            ]
            longest = sorted(arrises, key=lambda line: line.length)[-1:]
            along = (self._on_paper(*one.at(share)) for one in longest for share in ON_ARRIS)
            spots = [[at for at in along if self._is_apart(at, BETWEEN[0])]]
            # Unless it is below, they would name the face on this side of the arris.
            if frame.rows[1][0] < DOWN:  # the edge looks to where x is less
                behind = ", behind"
        for words in ([REFERENCE_EDGE], REFERENCE_EDGE.split()):
            *rows, last = (*words, *said)
            block = self._block([(row, BODY, False) for row in (*rows, last + behind)])
            if self._point(block, spots, piece, edge):
                break

    def clear(self, lines: Iterable[tuple[Spot, Spot]]) -> Iterator[tuple[Spot, Spot]]:
        """Those that run through no words."""
        return (line for line in lines if not self._ground.has_words(*line))

    def _runs(self, face: Seen, with_waste: bool = True) -> list[Run]:
        """At some heights the longest stretch of a face that is seen; the middle heights first."""
        left, low, right, high = face.outline.box
        others = in_front(one for one in self._faces if one is not face)
        found = []
        for row in range(STEPS):
            v = low + (row + 0.5) * (high - low) / STEPS
            start, end = ((u, v, face.height(u, v)) for u in (left, right))
            level = Segment(Line.EDGE, start, end)
            wood = less(face.wood(level), [] if with_waste else face.to_go(level))
            seen = visible((level.part(*span) for span in wood), others)
            if longest := max(seen, key=lambda one: one.length, default=None):
                sides = (self._scale * at[0] for at in (longest.start, longest.end))
                found.append(Run(self._scale * v, *sides))
        middle = sum(run.height for run in found) / max(len(found), 1)
        return sorted(found, key=lambda run: abs(run.height - middle))

    def _spots(self, face: Seen) -> list[list[Spot]]:
        """Where to point to a face: well inside it, then wherever a dot stands on no line.

        Of a face all of which is waste that is still to go, on that; of one that is seen too
        narrow for a dot, along its middle.
        """
        runs = self._runs(face, with_waste=False) or self._runs(face)
        groups: defaultdict[tuple[float, float], list[Spot]] = defaultdict(list)
        for at in (run.at(share) for share in ACROSS for run in runs):
            apart = next((far for far in BETWEEN if self._is_apart(at, far)), None)
            inside = apart and next((far for far in INSIDE if self._is_inside(at, far)), None)
            if apart and inside:
                groups[apart, inside].append(at)
        clear = [_spread(groups[wish]) for wish in sorted(groups, reverse=True)[:GROUPS]]
        return clear or [[run.at(0.5) for run in runs[:3]]]

    def _is_apart(self, spot: Spot, far: float) -> bool:
        """Whether a spot is so far from every other line with a dot."""
        return all(_away(spot, *line) > far for line in self.pointers)

    def _is_inside(self, spot: Spot, far: float) -> bool:
        """Whether a spot is so far from every line and from all words."""
        (x, y), far = spot, far - CLEAR
        return self._ground.is_clear((x - far, y - far), (x + far, y + far))

    def _on_paper(self, u: float, v: float) -> Spot:
        return u * self._scale, v * self._scale

    def _point(
        self, block: Block, spots: Iterable[Sequence[Spot]], piece: Piece, face: Seen | None
    ) -> bool:
        """Words at the end of a line from a spot of a piece: the best, and of equals the shortest.

        Args:
            block: the words.
            spots: in groups, the best first.
            piece: that it points to.
            face: of it, if it is seen.
        """
        best: tuple[Pointer, tuple[Spot, Align]] | None = None
        most = -1
        for group in spots:
            for line, place in self._lines(block, group):
                worth = self._worth(line, piece, face)
                if worth > most:
                    best, most = (line, place), worth
                if worth == BEST:
                    break
            if most > OVER_OTHERS:
                break
        if best is None:
            return False
        line, place = best
        self._say(block, *place)
        self.pointers.append(line)
        self._ground.rule(*line)
        return True

    def _worth(self, line: Pointer, piece: Piece, face: Seen | None) -> int:
        """How good a line to a face of a piece is: 0 where it gets in the way of another."""
        if any(_cross(line, other) for other in self.pointers) or any(
            _away(dot, *line) < BETWEEN[1] for dot, _ in self.pointers
        ):
            return 0
        crossed = self._on_way(line)
        own = {id(one) for one in piece.faces}
        if any(faces and not own & faces for faces in crossed):
            return OVER_OTHERS
        is_direct = dist(*line) < NOT_FAR and all(faces <= {id(face)} for faces in crossed)
        return BEST if is_direct else OVER_OTHERS + 1

    def _lines(
        self, block: Block, spots: Sequence[Spot]
    ) -> Iterator[tuple[Pointer, tuple[Spot, Align]]]:
        """Lines at whose ends, beside all wood, words have room; and where these stand there."""
        places = [_beside(block, way) for way in WAYS]
        ways = [
            (*way, *_box(block, *place), place) for way, place in zip(WAYS, places, strict=True)
        ]
        for far, (x, y), (right, up, low, high, (aside, align)) in product(FARS, spots, ways):
            u, v = x + far * right, y + far * up
            # What is asked first takes least and is true least often.
            if (
                self._has_room((u + low[0], v + low[1]), (u + high[0], v + high[1]))
                and not self._ground.has_words((x, y), (u, v))
                and not self._on_wood(u, v)
            ):
                yield ((x, y), (u, v)), ((u + aside[0], v + aside[1]), align)

    def _on_way(self, line: Pointer) -> list[set[int]]:
        """The faces that some points of a line are on."""
        (x, y), (x1, y1) = line
        shares = (n / ON_THE_WAY for n in range(1, ON_THE_WAY))
        return [self._on_wood(x + share * (x1 - x), y + share * (y1 - y)) for share in shares]

    def _on_wood(self, x: float, y: float) -> set[int]:
        """The faces that a point of the paper is on, in front or behind."""
        u, v = x / self._scale, y / self._scale
        return {id(face) for face in self._faces if face.shows(u, v)}

    def _has_room(self, low: Spot, high: Spot) -> bool:
        """Whether nothing stands in the box of some words, nor the page's edge."""
        (left, bottom), (right, top) = self._page
        is_on_page = left <= low[0] and bottom <= low[1] and high[0] <= right and high[1] <= top
        return is_on_page and self._ground.has_room(low, high)

    def _say(self, block: Block, at: Spot, align: Align) -> None:
        """Words whose middle lies at a height."""
        self._ground.keep(*_box(block, at, align))
        below = at[1] + block.height / 2
        for row in block.rows:
            below -= as_float(row[1] * LINE_PITCH)
            # The letters stand in the middle of their line.
            base = below + as_float(row[1] * (LINE_PITCH - 1) / 2)
            self.said.append(Said(row, (at[0], base), align))

    def _block(self, rows: Sequence[Row]) -> Block:
        width = max(as_float(self._lettering.width(*row)) for row in rows)
        return Block(tuple(rows), width, sum(as_float(cap * LINE_PITCH) for _, cap, _ in rows))


def _cross(one: tuple[Spot, Spot], other: tuple[Spot, Spot]) -> bool:
    """Whether two lines cross."""
    return all(_side(line, a) * _side(line, b) < 0 for line, (a, b) in ((one, other), (other, one)))


def _away(spot: Spot, start: Spot, end: Spot) -> float:
    """How far a spot is from a line."""
    (x, y), (x1, y1), long = start, end, dist(start, end)
    share = ((spot[0] - x) * (x1 - x) + (spot[1] - y) * (y1 - y)) / long**2
    share = min(max(share, 0.0), 1.0)
    return dist(spot, (x + share * (x1 - x), y + share * (y1 - y)))


def _side(line: tuple[Spot, Spot], at: Spot) -> float:
    """On which side of a line a point is: its sign tells."""
    (x, y), (x1, y1) = line
    return (x1 - x) * (at[1] - y) - (y1 - y) * (at[0] - x)


def _beside(block: Block, way: Spot) -> tuple[Spot, Align]:
    """How far words stand from the end of a line that runs this way."""
    if abs(way[0]) < SIDEWAYS:
        up = block.height / 2 + BESIDE
        return (0.0, up if way[1] > 0 else -up), Align.CENTRE
    return ((BESIDE, 0.0), Align.LEFT) if way[0] > 0 else ((-BESIDE, 0.0), Align.RIGHT)


def _box(block: Block, at: Spot, align: Align) -> tuple[Spot, Spot]:
    """Two corners of the box that words fill."""
    half, left = block.height / 2, at[0] - block.width * _BEFORE[align]
    return (left, at[1] - half), (left + block.width, at[1] + half)


def _rooms(runs: Sequence[Run], block: Block) -> Iterator[Spot]:
    """Middles of the places where words find room between the ends of the runs beside them."""
    for run in runs:
        near = [one for one in runs if abs(one.height - run.height) < block.height / 2]
        left, right = max(one.left for one in near), min(one.right for one in near)
        if right - left > block.width:
            yield (left + right) / 2, run.height


def _spread(spots: Iterable[Spot]) -> list[Spot]:
    """Some of several: of the middle height, above and below it, the lowest and the highest."""
    upwards = sorted(spots, key=lambda spot: spot[1])
    last = len(upwards) - 1
    return [upwards[round(share * last)] for share in (0.5, 0.2, 0.8, 0.0, 1.0)] if upwards else []


def _size(face: Seen) -> float:
    left, low, right, high = face.outline.box
    return (right - left) * (high - low)
