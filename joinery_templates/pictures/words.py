"""What is written on a picture: names of boards, faces, the reference edge, each clear of lines."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, product
from math import cos, pi, sin

from msgspec import Struct

from joinery_templates.drawings.figure import Align
from joinery_templates.drawings.lettering import LINE_PITCH, SHARE_BEFORE, Lettering, Row
from joinery_templates.drawings.look import BODY
from joinery_templates.drawings.placing import Ground
from joinery_templates.joint import REFERENCE_EDGE
from joinery_templates.pictures.pieces import Piece
from joinery_templates.pictures.seen import Seen, Segment
from joinery_templates.wood.board import BROAD, Face

STEPS = 12
"""At so many heights, and at so many places across, it is asked where a face is seen."""
FARS = (3.0, 5.0, 8.0, 12.0, 17.0)
"""How far from what they name words may stand, in mm, when they point to it."""
WAYS = tuple((cos(pi * n / 8), sin(pi * n / 8)) for n in (0, 8, 12, 4, 14, 10, 2, 6, 13, 11, 15, 9))
INNER = 3
"""So many spots of a face come before those that are close to its arrises."""
ON_THE_WAY = 6
"""Such a line is looked at in so many parts."""
SIDEWAYS, BESIDE = 0.3, 0.8
"""A line that runs more sideways than this has its words beside its end, so far away, in mm."""

APART = 1.5
"""So much air, in mm, is wished between words that stand side by side."""

Spot = tuple[float, float]
_BEFORE = {align: float(share) for align, share in SHARE_BEFORE.items()}


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

    @property
    def middle(self) -> Spot:
        """The point half way."""
        return (self.left + self.right) / 2, self.height


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
        self.pointers: list[tuple[Spot, Spot]] = []

    def name(self, piece: Piece, ways: Iterable[Sequence[Row]]) -> None:
        """A piece's name on its largest broad face; beside it where there is no room.

        Args:
            piece: the piece.
            ways: to say it, the best first.
        """
        named = [face for face in piece.faces if face.name in BROAD]
        runs = self._runs(max(named or piece.faces, key=_size))
        spots = _spread(runs)
        for block in map(self._block, ways):
            for at in _rooms(runs, block):
                if self._has_room(block, at, Align.CENTRE):
                    self._say(block, at, Align.CENTRE)
                    return
            if self._point(block, spots, piece):
                return

    def reference_edge(self, piece: Piece, lines: Iterable[Segment]) -> None:
        """Words that point to the reference edge, or to its arris where it is not seen itself."""
        arrises = [
            line
            for line in lines
            if Face.REFERENCE_EDGE in line.face and any(face in line.face for face in BROAD)
        ]
        edges = [face for face in piece.faces if face.name == Face.REFERENCE_EDGE]
        spots = [spot for face in edges for spot in _spread(self._runs(face))]
        if not spots and arrises:
            longest = max(arrises, key=lambda line: line.length)
            spots = [self._on_paper(*longest.at(n)) for n in (0.5, 0.35, 0.65, 0.2, 0.8)]
        member, name = piece.worked.member, REFERENCE_EDGE
        of = member.reference
        if not edges and member.part.place(member.hand).on_leg:
            name += ", behind"  # or it would name the face on this side of the arris
        rows = [(words, BODY, False) for words in (name, f"= {of}" if of else "") if words]
        self._point(self._block(rows), spots, piece)

    def clear(self, lines: Iterable[tuple[Spot, Spot]]) -> Iterator[tuple[Spot, Spot]]:
        """Those that run through no words."""
        return (line for line in lines if not self._ground.has_words(*line))

    def _runs(self, face: Seen) -> list[Run]:
        """At some heights the longest stretch of a face that is seen; the middle heights first."""
        left, low, right, high = face.outline.box
        across, up = (right - left) / STEPS, (high - low) / STEPS
        others = [one for one in self._faces if one is not face and one.meets(face.outline.box)]
        found = []
        for row in range(STEPS):
            v, run, longest = low + (row + 0.5) * up, 0, (0, 0)
            level = [one for one in others if one.meets((left, v, right, v))]
            for column in range(STEPS):
                u = left + (column + 0.5) * across
                is_seen = face.shows(u, v) and not _is_hidden(face, level, u, v)
                run = run + 1 if is_seen else 0
                longest = max(longest, (run, column + 1))
            count, end = longest
            if count:
                sides = (self._scale * (left + side * across) for side in (end - count, end))
                found.append(Run(self._scale * v, *sides))
        middle = sum(run.height for run in found) / max(len(found), 1)
        return sorted(found, key=lambda run: abs(run.height - middle))

    def _on_paper(self, u: float, v: float) -> Spot:
        return u * self._scale, v * self._scale

    def _point(self, block: Block, spots: Sequence[Spot], piece: Piece) -> bool:
        """Words at the end of a line from a spot of a piece: the shortest that has room there.

        If it can, the line runs over no other piece and no other such line, and the words have
        air on both sides.
        """
        own = {id(face) for face in piece.faces}
        over: tuple[Spot, Spot, tuple[Spot, Align]] | None = None
        inner, outer = (product(FARS, some, WAYS) for some in (spots[:INNER], spots[INNER:]))
        for far, (x, y), way in chain(inner, outer):
            end = x + far * way[0], y + far * way[1]
            place = _beside(block, end, way)
            # What is asked first takes least and is true least often.
            if (
                self._has_room(block, *place)
                and not self._ground.has_words((x, y), end)
                and not self._on_wood(*end)
            ):
                over = over or ((x, y), end, place)
                shares = (n / ON_THE_WAY for n in range(1, ON_THE_WAY))
                on_the_way = (
                    self._on_wood(x + share * (end[0] - x), y + share * (end[1] - y))
                    for share in shares
                )
                if (
                    all(not faces or own & faces for faces in on_the_way)
                    and not any(_cross(((x, y), end), other) for other in self.pointers)
                    and self._ground.is_clear(*_box(block, *place, APART))
                ):
                    over = (x, y), end, place
                    break
        if over is None:
            return False
        start, end, place = over
        self._say(block, *place)
        self.pointers.append((start, end))
        self._ground.rule(start, end)
        return True

    def _on_wood(self, x: float, y: float) -> set[int]:
        """The faces that a point of the paper is on, in front or behind."""
        u, v = x / self._scale, y / self._scale
        return {id(face) for face in self._faces if face.shows(u, v)}

    def _has_room(self, block: Block, at: Spot, align: Align) -> bool:
        """Whether nothing stands where words would, nor the page's edge."""
        box = _box(block, at, align)
        return self._is_on_page(*box) and self._ground.is_clear(*box)

    def _say(self, block: Block, at: Spot, align: Align) -> None:
        """Words whose middle lies at a height."""
        self._ground.keep(*_box(block, at, align))
        below = at[1] + block.height / 2
        for row in block.rows:
            below -= float(row[1] * LINE_PITCH)
            # The letters stand in the middle of their line.
            base = below + float(row[1] * (LINE_PITCH - 1) / 2)
            self.said.append(Said(row, (at[0], base), align))

    def _is_on_page(self, low: Spot, high: Spot) -> bool:
        (left, bottom), (right, top) = self._page
        return left <= low[0] and bottom <= low[1] and high[0] <= right and high[1] <= top

    def _block(self, rows: Sequence[Row]) -> Block:
        width = max(float(self._lettering.width(*row)) for row in rows)
        return Block(tuple(rows), width, sum(float(cap * LINE_PITCH) for _, cap, _ in rows))


def _cross(one: tuple[Spot, Spot], other: tuple[Spot, Spot]) -> bool:
    """Whether two lines cross."""
    return all(_side(line, a) * _side(line, b) < 0 for line, (a, b) in ((one, other), (other, one)))


def _side(line: tuple[Spot, Spot], at: Spot) -> float:
    """On which side of a line a point is: its sign tells."""
    (x, y), (x1, y1) = line
    return (x1 - x) * (at[1] - y) - (y1 - y) * (at[0] - x)


def _beside(block: Block, end: Spot, way: Spot) -> tuple[Spot, Align]:
    """Where words stand at the end of a line that runs this way."""
    x, y = end
    if abs(way[0]) < SIDEWAYS:
        up = block.height / 2 + BESIDE
        return (x, y + (up if way[1] > 0 else -up)), Align.CENTRE
    return ((x + BESIDE, y), Align.LEFT) if way[0] > 0 else ((x - BESIDE, y), Align.RIGHT)


def _box(block: Block, at: Spot, align: Align, air: float = 0.0) -> tuple[Spot, Spot]:
    """Two corners of the box that words fill, with so much air on both sides."""
    half, left = block.height / 2, at[0] - block.width * _BEFORE[align]
    return (left - air, at[1] - half), (left + block.width + air, at[1] + half)


def _rooms(runs: Sequence[Run], block: Block) -> Iterator[Spot]:
    """Middles of the places where words find room between the ends of the runs beside them."""
    for run in runs:
        near = [one for one in runs if abs(one.height - run.height) < block.height / 2]
        left, right = max(one.left for one in near), min(one.right for one in near)
        if right - left > block.width:
            yield (left + right) / 2, run.height


def _spread(runs: Sequence[Run]) -> list[Spot]:
    """Middles of some runs: half way, on both sides of it, and last the lowest and the highest."""
    middles = sorted((run.middle for run in runs), key=lambda spot: spot[1])
    last = len(middles) - 1
    return [middles[round(share * last)] for share in (0.5, 0.2, 0.8, 0.0, 1.0)] if middles else []


def _is_hidden(face: Seen, others: Iterable[Seen], u: float, v: float) -> bool:
    height = face.height(u, v)
    return any(one.height(u, v) > height and one.shows(u, v) for one in others)


def _size(face: Seen) -> float:
    left, low, right, high = face.outline.box
    return (right - left) * (high - low)
