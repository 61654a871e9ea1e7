"""A four-sided piece seen from above: which corner is where, which board's end meets which."""

from collections.abc import Sequence
from fractions import Fraction

from joinery_templates.drawings.figure import Align, Figure, Role, Text, box, joined, line
from joinery_templates.drawings.lettering import Lettering, Paragraph, column, shortened
from joinery_templates.joint import Placed

WIDTH, DEPTH = Fraction(46), Fraction(30)
BOARD = Fraction(4)
"""Thickness of the boards as sketched."""
NARROW = Fraction(130)
"""On a narrower page the words stand below the sketch."""
CAP = Fraction(9, 4)
LETTER_CAP = Fraction(4)

_PLACES = {"A": "front left", "B": "back left", "C": "back right", "D": "front right"}
"""Corners go clockwise seen from above, A at the front left."""


def corner_plan(
    corners: Sequence[tuple[Placed, Placed]], room: Fraction, lettering: Lettering
) -> Figure:
    """A sketch of the piece from above, and beside it a line for each corner.

    Args:
        corners: for each the board at the left or right, and the one at the front or back.
        room: width of the whole figure.
        lettering: how wide words run.
    """
    lines = [
        Paragraph(
            "Seen from above, reference edges down on the bench, outside faces out:", CAP, bold=True
        )
    ]
    for side, front in corners:
        letter = side.corner.letter
        ends = [f"{one.board.name} ({one.hand})" for one in (side, front)]
        lines.append(Paragraph(f"{letter}, {_PLACES[letter]}: {' meets '.join(ends)}", CAP))
    names = [one.board.name for one in corners[0]]
    letters = [one.corner.letter for one, _ in corners]
    sketch = _sketch(names[0], names[1], letters, Fraction(8), lettering)
    if room < NARROW:
        words = column(lines, room, lettering)
        height = sketch.height + words.height + 3
        return joined(room, height, (sketch.moved(Fraction(0), words.height + 3), words))
    words = column(lines, room - sketch.width - 4, lettering)
    height = max(sketch.height, words.height) + 3
    return joined(
        room,
        height,
        (
            sketch.moved(Fraction(0), height - sketch.height),
            words.moved(sketch.width + 4, height - words.height - 4),
        ),
    )


def _sketch(
    sides: str, front: str, letters: Sequence[str], beside: Fraction, lettering: Lettering
) -> Figure:
    left, low = beside, Fraction(6)
    right, high = left + WIDTH, low + DEPTH
    strokes = (
        *box(Role.FRAME, left, low, right, high),
        *box(Role.FRAME, left + BOARD, low + BOARD, right - BOARD, high - BOARD),
        *(
            line(Role.FRAME, x, y, x + dx, y)
            for x, dx in ((left, BOARD), (right - BOARD, BOARD))
            for y in (low + BOARD, high - BOARD)
        ),
    )
    places = {
        "A": (left - 2, low - 5),
        "B": (left - 2, high + 1),
        "C": (right + 2, high + 1),
        "D": (right + 2, low - 5),
    }
    texts = [
        Text(letter, places[letter], LETTER_CAP, Align.CENTRE, bold=True) for letter in letters
    ]
    across, up = WIDTH - 2 * BOARD, DEPTH - 2 * BOARD
    at_front = shortened(front, across - 4 * CAP, CAP, lettering)
    at_side = shortened(sides, up - 4 * CAP, CAP, lettering)
    middle, half_way = left + WIDTH / 2, low + DEPTH / 2
    names = (
        ("AD", Text(at_front, (middle, low + BOARD + 1), CAP, Align.CENTRE)),
        ("BC", Text(at_front, (middle, high - BOARD - 1 - CAP), CAP, Align.CENTRE)),
        ("AB", Text(at_side, (left + BOARD + 1 + CAP, half_way), CAP, Align.CENTRE, 90)),
        ("CD", Text(at_side, (right - BOARD - 1, half_way), CAP, Align.CENTRE, 90)),
    )
    texts += [name for corners, name in names if set(corners) & set(letters)]
    texts.append(Text("front", (middle, low - CAP - 1), CAP, Align.CENTRE))
    return Figure(right + beside, high + 6, strokes, tuple(texts))
