"""The setting-out strip, and tool settings drawn as the lengths and angles that they are."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import (
    Align,
    Figure,
    Pattern,
    Role,
    Stroke,
    Text,
    box,
    cross,
    joined,
    line,
)
from joinery_templates.drawings.labels import SMALL_CAP, TINY_CAP
from joinery_templates.drawings.lettering import Lettering, Paragraph, column, wrapped
from joinery_templates.lengths import Units, length_text

MARGIN = Fraction(5)
TICK = Fraction(7)
"""How long a setting-out mark is, from the strip's edge inwards."""
NARROWEST = Fraction(70)
"""A strip's words need this much, however narrow the board."""
WORDS_ROOM = Fraction(130)
"""The words stand at the reference edge's end and are not spread over several sheets."""
CARD = Fraction(110)
"""Width of the card of tool settings, unless a length is longer or the sheet narrower."""
BEVEL_RUN = Fraction(55)
"""How far along the grain a slope is drawn."""

_UNIT_WORDS = {Units.MM: "millimetres", Units.INCH: "inches"}


class Row(Struct, frozen=True):
    """A row of marks to be set out on a board.

    Attributes:
        board: the board's name.
        line_words: which line across the board it is.
        width: the board's width.
        marks: distances from the reference edge, in order.
        waste: stretches between marks where the wood goes, as low and high.
        start: where the row is measured from.
        along_end: whether the strip is laid along a board's end.
    """

    board: str
    line_words: str
    width: Fraction
    marks: Sequence[Fraction]
    waste: Sequence[tuple[Fraction, Fraction]]
    start: str = "reference edge"
    along_end: bool = True


def strip(group: str, row: Row, units: Units, lettering: Lettering) -> Pattern:
    """A strip to lay along a board's end: every mark from the reference edge.

    The marks stand on both long edges, so that the strip serves the board's other
    end when it is turned end for end.
    """
    figures = [length_text(mark, units).replace(f" {units}", "") for mark in row.marks]
    # Figures of neighbouring marks stand on two levels, or a thin pin's two would collide.
    level = max((lettering.width(words, TINY_CAP) for words in figures), default=Fraction(0)) + 2
    name = wrapped(f"{row.board}, {row.line_words}", row.width - 2, TINY_CAP, lettering, bold=True)
    band = Fraction(4) * (len(name) + 1)
    high = MARGIN + 2 * TICK + 2 * level + band
    strokes = [*box(Role.OUTLINE, MARGIN, MARGIN, MARGIN + row.width, high)]
    texts = []
    for number, (position, words) in enumerate(zip(row.marks, figures, strict=True)):
        x = MARGIN + position
        strokes.append(line(Role.MARK, x, MARGIN, x, MARGIN + TICK))
        strokes.append(line(Role.MARK, x, high - TICK, x, high))
        at = (x + TINY_CAP / 2, MARGIN + TICK + 1 + level * (number % 2))
        texts.append(Text(words, at, TINY_CAP, Align.LEFT, 90))
    for low, end in row.waste:
        arm = min(Fraction(2), (end - low) * 2 / 5)
        for v in (MARGIN + TICK / 2, high - TICK / 2):
            strokes.extend(cross(Role.CROSS, (MARGIN + (low + end) / 2, v), arm))
    below = high - TICK - band
    for number, words in enumerate((*reversed(name), f"◄ {row.start}")):
        at = (MARGIN + 1, below + 1 + 4 * number)
        texts.append(Text(words, at, TINY_CAP, bold=True))
    return _with_words(
        group, row, units, lettering, Figure(row.width, high, tuple(strokes), tuple(texts))
    )


def _with_words(group: str, row: Row, units: Units, lettering: Lettering, drawn: Figure) -> Pattern:
    """The strip with what to do with it above, on paper that is trimmed away."""
    total = max(row.width, NARROWEST)
    lay = "lay a long edge along the end of the board, knife the marks. "
    lay += "Turn the strip end for end for the board's other end."
    if not row.along_end:
        lay = f"lay a long edge along {row.line_words}, knife the marks."
    words = column(
        (
            Paragraph(f"Setting-out strip for {row.board}", SMALL_CAP, bold=True),
            Paragraph(
                f"Figures in {_UNIT_WORDS[units]} from the {row.start}"
                f"{'; crosses stand in the waste' if row.waste else ''}. Trim along the outline, "
                f"{lay}",
                TINY_CAP,
            ),
        ),
        min(total, WORDS_ROOM),
        lettering,
    ).moved(MARGIN, drawn.height + 3)
    size = (total + 2 * MARGIN, drawn.height + 3 + words.height)
    figure = joined(*size, (drawn, words))
    return Pattern(f"strip for {row.board}", group, (figure,))


class DrawnLength(Struct, frozen=True):
    """A length that a tool is set to."""

    words: str
    length: Fraction


class DrawnSlope(Struct, frozen=True):
    """A slope that a sliding bevel is set to: leans `slope` for each mm along the side."""

    words: str
    slope: Fraction


def settings_cards(
    group: str,
    title: str,
    lengths: Sequence[DrawnLength],
    slopes: Sequence[DrawnSlope],
    sheet: tuple[Fraction, Fraction],
    lettering: Lettering,
) -> Iterator[Pattern]:
    """Cards on which dividers, gauges and the bevel are set directly.

    One card where the sheet takes it, else as many as are needed.

    Args:
        group: what the cards belong to.
        title: on the first card.
        lengths: tools set to lengths.
        slopes: bevels.
        sheet: width and height that one sheet offers.
        lettering: how wide words run.
    """
    width = max([min(CARD, *sheet), *(one.length + 4 * MARGIN for one in lengths)])
    room = width - 2 * MARGIN
    parts = [column((Paragraph(title, SMALL_CAP, bold=True),), room, lettering)]
    parts += [_length_part(length, room, lettering) for length in lengths]
    parts += [_slope_part(slope, room, lettering) for slope in slopes]
    cards: list[list[Figure]] = [[]]
    for part in parts:
        if cards[-1] and _height([*cards[-1], part]) > max(sheet):
            cards.append([])
            heading = Paragraph(f"{title}, card {len(cards)}", SMALL_CAP, bold=True)
            cards[-1].append(column((heading,), room, lettering))
        cards[-1].append(part)
    for number, card in enumerate(cards, start=1):
        name = title if number == 1 else f"{title}, card {number}"
        yield Pattern(name, group, (_card(card, width),))


def _height(parts: Sequence[Figure]) -> Fraction:
    return sum((part.height + MARGIN for part in parts), MARGIN)


def _card(parts: Sequence[Figure], width: Fraction) -> Figure:
    height = top = _height(parts)
    placed = []
    for part in parts:
        top -= part.height + MARGIN
        placed.append(part.moved(MARGIN, top + MARGIN / 2))
    frame = Figure(width, height, box(Role.TRIM, 1, 1, width - 1, height - 1))
    return joined(width, height, (frame, *placed))


def _length_part(drawn: DrawnLength, room: Fraction, lettering: Lettering) -> Figure:
    words = column((Paragraph(drawn.words, SMALL_CAP),), room, lettering)
    y, left = Fraction(3), MARGIN
    right = left + drawn.length
    strokes = (
        line(Role.DIMENSION, left, y, right, y),
        line(Role.MARK, left, 0, left, 2 * y),
        line(Role.MARK, right, 0, right, 2 * y),
        *cross(Role.PRICK, (left, y), Fraction(1)),
        *cross(Role.PRICK, (right, y), Fraction(1)),
    )
    height = 3 * y + words.height
    return joined(room, height, (Figure(room, height, strokes), words.moved(Fraction(0), 3 * y)))


def _slope_part(drawn: DrawnSlope, room: Fraction, lettering: Lettering) -> Figure:
    hint = "Lay the bevel's stock along the long line and its blade along a sloping line."
    words = column((Paragraph(drawn.words, SMALL_CAP), Paragraph(hint, TINY_CAP)), room, lettering)
    base = Fraction(2)
    above = base + _bevel_run(drawn.slope, room) + 3
    drawing = replace(words.moved(Fraction(0), above), height=above + words.height)
    strokes = tuple(_bevel_lines(drawn.slope, room, base))
    return replace(drawing, strokes=strokes)


def _bevel_lines(slope: Fraction, room: Fraction, base: Fraction) -> Iterator[Stroke]:
    """A long line, and the slope leaning to either side from a third of it."""
    run = _bevel_run(slope, room)
    yield line(Role.OUTLINE, 0, base, room, base)
    for foot, lean in ((room / 3, -slope), (room * 2 / 3, slope)):
        yield line(Role.SAW, foot, base, foot + lean * run, base + run)
        yield line(Role.GUIDE, foot, base, foot, base + run)


def _bevel_run(slope: Fraction, room: Fraction) -> Fraction:
    """How high a slope is drawn: less where it leans so much that it would leave the card."""
    return min(BEVEL_RUN, room / 3 / slope)
