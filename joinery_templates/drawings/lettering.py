"""Words that fit: wrapped into lines, or shortened with a mark."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from joinery_templates.drawings.figure import Align, Figure, Point, Text

LINE_PITCH = Fraction(17, 10)
"""Distance of two lines of words in capital heights."""

DESCENT = Fraction(1, 3)
"""How far letters reach below their baseline, in capital heights (measured, DejaVu)."""
ASCENT = Fraction(21, 20)
"""How far letters without accents reach above it."""

SHARE_BEFORE = {Align.LEFT: Fraction(0), Align.CENTRE: Fraction(1, 2), Align.RIGHT: Fraction(1)}
"""Which share of the words stands before `Text.at`."""


class Lettering(Protocol):
    """What is known of the lettering: how wide words run."""

    def width(self, words: str, cap: Fraction, bold: bool = False) -> Fraction:
        """Width in mm of words whose capitals are `cap` mm high."""
        ...


_BINDING = re.compile(
    r"(?<=[\d/]) (?=\d+/\d+|(?:mm|in)\b)|(?<=[≈▲◄✂]) | (?=[►·])|(?<=left-hand) |(?<=right-hand) "
)
"""Spaces that hold a figure or a phrase together: 1 31/32 in, ▲ end, left-hand end."""


def wrapped(
    words: str, room: Fraction, cap: Fraction, lettering: Lettering, bold: bool = False
) -> tuple[str, ...]:
    """Words broken into lines no wider than `room`; a word too long for a line is broken too.

    A figure and its unit stay on one line where that is wide enough for them.
    """
    lines: list[str] = []
    current = ""
    for word in _pieces(words, room, cap, lettering, bold):
        longer = f"{current} {word}".strip()
        if lettering.width(longer, cap, bold) <= room:
            current = longer
            continue
        if current:
            lines.append(current)
        current = word
    return (*lines, current) if current else tuple(lines)


def _pieces(
    words: str, room: Fraction, cap: Fraction, lettering: Lettering, bold: bool
) -> Iterator[str]:
    """The words one by one, those wider than `room` in pieces that fit."""
    for word in _units(" ".join(words.split()), room, cap, lettering, bold):
        rest = word
        while lettering.width(rest, cap, bold) > room and len(rest) > 1:
            count = len(rest) - 1
            while count > 1 and lettering.width(rest[:count], cap, bold) > room:
                count -= 1
            yield rest[:count]
            rest = rest[count:]
        yield rest


def _units(
    words: str, room: Fraction, cap: Fraction, lettering: Lettering, bold: bool
) -> Iterator[str]:
    """Words, those that belong together as one where a line has room for it."""
    for unit in _BINDING.sub("\0", words).split(" "):
        together = unit.replace("\0", " ")
        if lettering.width(together, cap, bold) <= room:
            yield together
        else:
            yield from together.split(" ")


def largest_cap(
    words: str,
    room: Fraction,
    caps: Sequence[Fraction],
    lettering: Lettering,
    bold: bool = False,
    lines: int = 1,
) -> Fraction:
    """The first of `caps` at which words take at most `lines` lines, unbroken; else the last."""
    for cap in caps:
        unbroken = all(lettering.width(word, cap, bold) <= room for word in words.split())
        if unbroken and len(wrapped(words, room, cap, lettering, bold)) <= lines:
            return cap
    return caps[-1]


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
        after: room left below, in mm.
    """

    words: str
    cap: Fraction
    bold: bool = False
    align: Align = Align.LEFT
    after: Fraction = Fraction(0)


def column(paragraphs: Iterable[Paragraph], width: Fraction, lettering: Lettering) -> Figure:
    """Paragraphs below each other; the figure is as high as they need."""
    rows: list[tuple[str, Paragraph, Fraction]] = []
    depth = Fraction(0)
    for paragraph in paragraphs:
        for words in wrapped(paragraph.words, width, paragraph.cap, lettering, paragraph.bold):
            rows.append((words, paragraph, depth + paragraph.cap))
            depth += paragraph.cap * LINE_PITCH
        depth += paragraph.after
    texts = tuple(
        Text(words, (width * SHARE_BEFORE[of.align], depth - below), of.cap, of.align, 0, of.bold)
        for words, of, below in rows
    )
    return Figure(width, depth, texts=texts)


def text_corners(text: Text, lettering: Lettering) -> tuple[Point, Point]:
    """Two opposite corners of the box that words fill, descenders included."""
    width = lettering.width(text.words, text.cap, text.bold)
    left = -width * SHARE_BEFORE[text.align]
    cosine, sine = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[text.turn]
    x, y = text.at

    def corner(along: Fraction, up: Fraction) -> Point:
        return (x + cosine * along - sine * up, y + sine * along + cosine * up)

    return corner(left, -text.cap * DESCENT), corner(left + width, text.cap * ASCENT)
