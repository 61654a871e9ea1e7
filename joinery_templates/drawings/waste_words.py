"""What is said in waste on a face: in which stage it leaves, and how deep it goes."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import chain

from joinery_templates.drawings.face_view import Lie
from joinery_templates.drawings.figure import Align, Point, Text
from joinery_templates.drawings.labels import TINY_CAP
from joinery_templates.drawings.lettering import ASCENT, DESCENT
from joinery_templates.drawings.placing import Ground
from joinery_templates.drawings.trimming import HOLD
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Part
from joinery_templates.wood.faces import FaceLayout
from joinery_templates.wood.polygons import Waste

CAPS = (TINY_CAP, Fraction(17, 10), Fraction(7, 5))
STEP = Fraction(9, 5)
"""From row to row, in heights of a capital."""
MIDDLE = (ASCENT - DESCENT) / 2
"""From the foot of letters to the middle of the room that they take, in heights of a capital."""
_UP = {0: (0, 1), 90: (-1, 0), 180: (0, -1)}
"""Where the top of turned letters is."""
Levels = tuple[tuple[Fraction, Fraction], ...]
ONE_LEVEL: Levels = tuple((HOLD / 2, cap) for cap in CAPS)
TWO_LEVELS: Levels = tuple((HOLD * share, CAPS[-1]) for share in (Fraction(3, 8), Fraction(3, 4)))
"""How far below waste words stand, and how high they are: waste of two stages has two rows."""
SHARES = tuple(Fraction(share, 8) for share in (4, 2, 6, 1, 7))
"""Where along a long piece words are tried."""


def waste_words(
    part: Part, layout: FaceLayout, lie: Lie, units: Units, ground: Ground, turn: int = 0
) -> Iterator[Text]:
    """The words in every piece of waste of a face, or just below it; else its number alone.

    Args:
        part: the board's end or stretch.
        layout: of the face.
        lie: where it lies on the paper.
        units: of depths.
        ground: what stands on the paper; words are written on it.
        turn: 180 where the face is read upside down.
    """
    staged = len({cut.stage for cut in part.cuts if not cut.is_groove}) > 1
    levels = () if layout.face is Face.END_GRAIN else TWO_LEVELS if staged else ONE_LEVEL
    for piece in sorted(layout.waste, key=lambda piece: piece.stage.number):
        stage = (f"{piece.stage.number} {piece.stage.name}",) if staged else ()
        depth = (depth_words(piece.depth, units),) if piece.depth else ()
        said = (*stage, *depth)
        if said and not piece.is_groove:
            yield from ground.placed_together(
                chain(
                    _inside(piece, said, lie, turn),
                    _below(piece, ", ".join(said), levels, lie, turn),
                    _inside(piece, (str(piece.stage.number),), lie, turn) if staged else (),
                )
            )


def depth_words(depth: tuple[Fraction, Fraction], units: Units) -> str:
    """How deep waste goes: one depth, or from the least to the greatest."""
    low, high = (length_text(one, units) for one in depth)
    if low == high:
        return f"{high} deep"
    return f"{low.removesuffix(f' {units}')} to {high} deep" if depth[0] else f"up to {high} deep"


def _inside(piece: Waste, said: tuple[str, ...], lie: Lie, turn: int) -> Iterator[tuple[Text, ...]]:
    """In one row or in several, along the page or up it."""
    (left, low), (right, high) = piece.extent
    x, y = (sum(axis, Fraction(0)) / len(piece.edges) for axis in zip(*piece.corners, strict=True))
    broken = tuple(row for words in said for row in words.rsplit(" ", 1))
    places = [(x, y)]
    for share in SHARES:
        wide = right - left > high - low
        places.append(
            (left + share * (right - left), y) if wide else (x, low + share * (high - low))
        )
    for cap in CAPS:
        for rows in dict.fromkeys(((", ".join(said),), said, broken)):
            for turned in (turn, 90):
                for place in places:
                    yield _block(rows, lie.point(place), cap, turned)


def _block(rows: tuple[str, ...], middle: Point, cap: Fraction, turn: int) -> tuple[Text, ...]:
    """Rows about a point, on white ground."""
    across, up = _UP[turn]
    whole = " ".join(rows)
    texts = []
    for number, words in enumerate(rows):
        rise = ((len(rows) - 1) * STEP / 2 - number * STEP - MIDDLE) * cap
        at = (middle[0] + across * rise, middle[1] + up * rise)
        texts.append(Text(words, at, cap, Align.CENTRE, turn, opaque=True, paragraph=whole))
    return tuple(texts)


def _below(
    piece: Waste, said: str, levels: Levels, lie: Lie, turn: int
) -> Iterator[tuple[Text, ...]]:
    """On the wood below, with an arrow that points at the waste."""
    (left, _), (right, low) = piece.extent
    for past, cap in levels:
        u, v = lie.point(((left + right) / 2, low + past))
        at = (u, v - _UP[turn][1] * cap * MIDDLE)
        yield (Text(f"↑ {said}", at, cap, Align.LEFT, turn),)
        yield (Text(f"{said} ↑", at, cap, Align.RIGHT, turn),)
