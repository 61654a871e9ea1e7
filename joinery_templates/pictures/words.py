"""What is written on a picture: names of boards, faces, the reference edge, each clear of lines."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import product
from math import cos, hypot, pi, sin

from msgspec.structs import replace

from joinery_templates.drawings.figure import Align, Point, Role, Stroke, Text
from joinery_templates.drawings.lettering import LINE_PITCH, Lettering
from joinery_templates.drawings.placing import Ground
from joinery_templates.joint import REFERENCE_EDGE
from joinery_templates.pictures.pieces import Piece
from joinery_templates.pictures.seen import Seen, Segment
from joinery_templates.wood.board import Face

FACE_CAP = Fraction(8, 5)
BROAD = frozenset({Face.OUTSIDE, Face.INSIDE})
STEPS = 9
"""So many places across a face, and as many up it, are tried for words."""
FARS = (3.0, 5.0, 8.0, 12.0, 17.0)
"""How far from what they name words may stand, in mm, when they point to it."""
WAYS = tuple((cos(pi * n / 8), sin(pi * n / 8)) for n in (0, 8, 12, 4, 14, 10, 2, 6, 13, 11, 15, 9))

Row = tuple[str, Fraction, bool]
"""Words, the height of a capital, whether bold."""
OnPaper = Callable[[float, float], tuple[float, float]]


class Writer:
    """Writes on one picture.

    Args:
        faces: of all pieces on it.
        strokes: of it, on the paper.
        on_paper: from the picture's own u and v to the paper.
        scale: of the picture.
        lettering: how wide words run.
    """

    def __init__(
        self,
        faces: Sequence[Seen],
        strokes: Iterable[Stroke],
        on_paper: OnPaper,
        scale: float,
        lettering: Lettering,
    ) -> None:
        self._faces, self._scale = faces, scale
        self._ground = Ground(lettering, strokes)
        self._on_paper, self._lettering = on_paper, lettering
        self.texts: list[Text] = []
        self.strokes: list[Stroke] = []

    def name(self, piece: Piece, ways: Sequence[Sequence[Row]]) -> None:
        """A piece's name on its largest broad face; beside it where there is no room.

        Args:
            piece: the piece.
            ways: to say it, the best first.
        """
        named = [face for face in piece.faces if face.name in BROAD]
        largest = max(named or piece.faces, key=_size)
        spots = self._places(largest)
        blocks = (_block(rows, *self._on_paper(*spot)) for rows in ways for spot in spots)
        if not self._write(blocks):
            self._point(ways[-1], spots)

    def reference_edge(self, piece: Piece, lines: Sequence[Segment]) -> None:
        """Words that point to the reference edge, or to its arris where it is not seen itself."""
        arrises = [
            line
            for line in lines
            if Face.REFERENCE_EDGE in line.face and not BROAD.isdisjoint(line.face)
        ]
        edges = [face for face in piece.faces if face.name == Face.REFERENCE_EDGE]
        spots = [spot for face in edges for spot in self._places(face)]
        if not spots and arrises:
            longest = max(arrises, key=lambda line: line.length)
            spots = [longest.at(share) for share in (0.5, 0.35, 0.65, 0.2, 0.8)]
        of = piece.member.reference
        words = f"{REFERENCE_EDGE} = {of}" if of else REFERENCE_EDGE
        self._point(((words, FACE_CAP, False),), spots)

    def clear(self, strokes: Iterable[Stroke]) -> Iterator[Stroke]:
        """Those that run through no words."""
        return (one for one in strokes if not self._ground.has_words(one.start, one.end))

    def _places(self, face: Seen) -> list[tuple[float, float]]:
        """Points of a face that are seen, those near its middle first."""
        left, low, right, high = face.outline.box
        shares = [(number + 0.5) / STEPS for number in range(STEPS)]
        spots = [
            (left + i * (right - left), low + j * (high - low)) for i, j in product(shares, shares)
        ]
        seen = [spot for spot in spots if self._face_at(*spot) is face]
        if not seen:
            return []
        u, v = (sum(spot[axis] for spot in seen) / len(seen) for axis in (0, 1))
        return sorted(seen, key=lambda spot: hypot(spot[0] - u, spot[1] - v))

    def _face_at(self, u: float, v: float) -> Seen | None:
        """The foremost face at a point."""
        there = [face for face in self._faces if face.shows(u, v)]
        return max(there, key=lambda face: face.height(u, v), default=None)

    def _point(self, rows: Sequence[Row], spots: Sequence[tuple[float, float]]) -> bool:
        """Words beside the pieces, with a line that points to one of some spots."""
        for far in FARS:
            for u, v in spots:
                x, y = self._on_paper(u, v)
                for i, j in WAYS:
                    end = (x + far * i, y + far * j)
                    if self._ground.has_words(exact(x, y), exact(*end)) or self._face_at(u + far * i / self._scale, v + far * j / self._scale):
                        continue
                    if self._write([_beside(rows, end, (i, j))]):
                        stroke = Stroke(Role.THIN, exact(x, y), exact(*end))
                        self.strokes.append(stroke)
                        self._ground.draw([stroke])
                        return True
        return False

    def _write(self, ways: Iterable[tuple[Text, ...]]) -> bool:
        said = self._ground.placed_together(ways)
        self.texts += said
        return bool(said)


def _block(rows: Sequence[Row], x: float, y: float) -> tuple[Text, ...]:
    """Rows of words round a point."""
    height = sum(float(cap * LINE_PITCH) for _, cap, _ in rows)
    texts, top = [], y + height / 2
    for words, cap, bold in rows:
        base = top - float(cap) * 1.35
        texts.append(Text(words, exact(x, base), cap, Align.CENTRE, bold=bold))
        top -= float(cap * LINE_PITCH)
    return tuple(texts)


def _beside(
    rows: Sequence[Row], end: tuple[float, float], way: tuple[float, float]
) -> tuple[Text, ...]:
    """Rows of words at the end of a line that comes from the other side."""
    height = sum(float(cap * LINE_PITCH) for _, cap, _ in rows)
    gap = 0.8
    x = end[0] + (gap if way[0] > 0.3 else -gap if way[0] < -0.3 else 0.0)
    y = end[1] + (0.0 if abs(way[0]) > 0.3 else (height / 2 + gap) * (1 if way[1] > 0 else -1))
    align = Align.LEFT if way[0] > 0.3 else Align.RIGHT if way[0] < -0.3 else Align.CENTRE
    return tuple(replace(text, align=align) for text in _block(rows, x, y))


def _size(face: Seen) -> float:
    left, low, right, high = face.outline.box
    return (right - left) * (high - low)


def exact(x: float, y: float) -> Point:
    """A point of the paper to a thousandth of a millimetre."""
    return Fraction(round(x * 1000), 1000), Fraction(round(y * 1000), 1000)
