"""Words that fit: wrapped into lines, or shortened with a mark."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from joinery_templates.drawings.figure import Align, Figure, Text

LINE_PITCH = Fraction(17, 10)
"""Distance of two lines of words in capital heights."""


class Lettering(Protocol):
    """What is known of the lettering: how wide words run."""

    def width(self, words: str, cap: Fraction, bold: bool = False) -> Fraction:
        """Width in mm of words whose capitals are `cap` mm high."""
        ...


def wrapped(
    words: str, room: Fraction, cap: Fraction, lettering: Lettering, bold: bool = False
) -> tuple[str, ...]:
    """Words broken into lines no wider than `room`; a word too long for a line is cut with …."""
    lines: list[str] = []
    current = ""
    for word in words.split():
        longer = f"{current} {word}".strip()
        if lettering.width(longer, cap, bold) <= room:
            current = longer
            continue
        if current:
            lines.append(current)
        current = shortened(word, room, cap, lettering, bold)
    return (*lines, current) if current else tuple(lines)


def shortened(
    words: str, room: Fraction, cap: Fraction, lettering: Lettering, bold: bool = False
) -> str:
    """The words if they fit in `room`, else as much of their start as fits, and …."""
    if lettering.width(words, cap, bold) <= room:
        return words
    low, high = 0, len(words)
    while low < high:
        middle = (low + high + 1) // 2
        if lettering.width(words[:middle].rstrip() + "…", cap, bold) <= room:
            low = middle
        else:
            high = middle - 1
    return words[:low].rstrip() + "…"


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Words to be set in a column.

    Attributes:
        words: what to print.
        cap: height of a capital letter.
        bold: heavier letters.
        align: within the column.
        one_line: shortened with … rather than broken into lines.
        after: room left below, in mm.
    """

    words: str
    cap: Fraction
    bold: bool = False
    align: Align = Align.LEFT
    one_line: bool = False
    after: Fraction = Fraction(0)


def column(paragraphs: Iterable[Paragraph], width: Fraction, lettering: Lettering) -> Figure:
    """Paragraphs below each other; the figure is as high as they need."""
    rows: list[tuple[str, Paragraph, Fraction]] = []
    depth = Fraction(0)
    for paragraph in paragraphs:
        break_up = _one_line if paragraph.one_line else wrapped
        for words in break_up(paragraph.words, width, paragraph.cap, lettering, paragraph.bold):
            rows.append((words, paragraph, depth + paragraph.cap))
            depth += paragraph.cap * LINE_PITCH
        depth += paragraph.after
    places = {Align.LEFT: Fraction(0), Align.CENTRE: width / 2, Align.RIGHT: width}
    texts = tuple(
        Text(words, (places[of.align], depth - below), of.cap, of.align, 0, of.bold)
        for words, of, below in rows
    )
    return Figure(width, depth, texts=texts)


def _one_line(
    words: str, room: Fraction, cap: Fraction, lettering: Lettering, bold: bool
) -> tuple[str, ...]:
    return (shortened(words, room, cap, lettering, bold),)
