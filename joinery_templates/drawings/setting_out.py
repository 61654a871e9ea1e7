"""The setting-out strip, and tool settings drawn as the lengths and angles that they are."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

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
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.lengths import Units, length_text

MARGIN = Fraction(5)
TICK = Fraction(7)
"""How long a setting-out mark is, from the strip's edge inwards."""
LEVEL = Fraction(19)
"""Room for one row of upright figures."""
NARROWEST = Fraction(70)
"""A strip's words need this much, however narrow the board."""
WORDS_ROOM = Fraction(130)
"""The words stand at the reference edge's end and are not spread over several sheets."""
CARD = Fraction(110)
"""Width of the card of tool settings, unless a length is longer."""
_UNIT_WORDS = {Units.MM: "millimetres", Units.INCH: "inches"}

BEVEL_RUN = Fraction(55)
"""How far along the grain a slope is drawn."""


def strip(
    group: str,
    board: str,
    line_words: str,
    width: Fraction,
    marks: Sequence[Fraction],
    units: Units,
    lettering: Lettering,
) -> Pattern:
    """A strip to lay along a board's end: every mark from the reference edge.

    The marks stand on both long edges, so that the strip serves the board's other
    end when it is turned end for end.

    Args:
        group: what the strip belongs to.
        board: the board's name.
        line_words: which line across the board it is for.
        width: the board's width.
        marks: distances from the reference edge, in order.
        units: for the figures.
        lettering: how wide words run.
    """
    high = MARGIN + 2 * TICK + 2 * LEVEL
    strokes = list(box(Role.OUTLINE, MARGIN, MARGIN, MARGIN + width, high))
    figures = []
    for number, position in enumerate(marks):
        x = MARGIN + position
        strokes.append(line(Role.MARK, x, MARGIN, x, MARGIN + TICK))
        strokes.append(line(Role.MARK, x, high - TICK, x, high))
        # Figures of neighbouring marks stand on two levels, or a thin pin's two would collide.
        start = (x + TINY_CAP / 2, MARGIN + TICK + 1 + LEVEL * (number % 2))
        figure = length_text(position, units).replace(f" {units}", "")
        figures.append(Text(figure, start, TINY_CAP, Align.LEFT, 90))
    total = max(width, NARROWEST)
    words = column(
        (
            Paragraph(f"Setting-out strip: {board}, {line_words}", SMALL_CAP, bold=True),
            Paragraph(
                f"◄ reference edge · figures in {_UNIT_WORDS[units]} from there · trim along the "
                "outline, lay a long edge along the end of the board, knife the marks; turn the "
                "strip end for end for the board's other end",
                TINY_CAP,
            ),
        ),
        min(total, WORDS_ROOM),
        lettering,
    ).moved(MARGIN, high + 3)
    size = (total + 2 * MARGIN, high + 3 + words.height)
    return Pattern(
        f"strip for {board}",
        group,
        (joined(*size, (Figure(*size, tuple(strokes), tuple(figures)), words)),),
    )


@dataclass(frozen=True, slots=True)
class DrawnLength:
    """A length that a tool is set to."""

    words: str
    length: Fraction


@dataclass(frozen=True, slots=True)
class DrawnSlope:
    """A slope that a sliding bevel is set to: leans `slope` for each mm along the side."""

    words: str
    slope: Fraction


def settings_card(
    group: str,
    title: str,
    lengths: Sequence[DrawnLength],
    slopes: Sequence[DrawnSlope],
    lettering: Lettering,
) -> Pattern:
    """A card on which dividers, gauges and the bevel are set directly."""
    width = max([CARD, *(length.length + 4 * MARGIN for length in lengths)])
    room = width - 2 * MARGIN
    parts = [column((Paragraph(title, SMALL_CAP, bold=True),), room, lettering)]
    parts += [_length_part(length, room, lettering) for length in lengths]
    parts += [_slope_part(slope, room, lettering) for slope in slopes]
    height = sum((part.height + MARGIN for part in parts), MARGIN)
    placed, top = [], height
    for part in parts:
        top -= part.height + MARGIN
        placed.append(part.moved(MARGIN, top + MARGIN / 2))
    frame = Figure(width, height, box(Role.TRIM, 1, 1, width - 1, height - 1))
    return Pattern(title, group, (joined(width, height, (frame, *placed)),))


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
    hint = "Lay the bevel's stock along the base line and its blade along a sloping line."
    words = column((Paragraph(drawn.words, SMALL_CAP), Paragraph(hint, TINY_CAP)), room, lettering)
    base = Fraction(2)
    height = base + BEVEL_RUN + 3 + words.height
    strokes = tuple(_bevel_lines(drawn.slope, room, base))
    return joined(
        room,
        height,
        (Figure(room, height, strokes), words.moved(Fraction(0), base + BEVEL_RUN + 3)),
    )


def _bevel_lines(slope: Fraction, room: Fraction, base: Fraction) -> Iterator[Stroke]:
    """A base line, and the slope leaning to either side from a third of it."""
    yield line(Role.OUTLINE, 0, base, room, base)
    for foot, lean in ((room / 3, -slope), (room * 2 / 3, slope)):
        yield line(Role.SAW, foot, base, foot + lean * BEVEL_RUN, base + BEVEL_RUN)
        yield line(Role.GUIDE, foot, base, foot, base + BEVEL_RUN)
