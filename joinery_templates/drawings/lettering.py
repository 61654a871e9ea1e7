"""Words that fit: wrapped into lines, or shortened with a mark."""

import re
import unicodedata
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import chain, pairwise
from typing import Protocol

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.direction import END, LEFT_TO_RIGHT, RIGHT_TO_LEFT, reopened
from joinery_templates.drawings.figure import DIRECTION, Align, Figure, Point, Stroke, Text
from joinery_templates.drawings.fingerprint import STANDS_FOR_IT
from joinery_templates.exact import Fraction

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

    def __hash__(self) -> int:
        """So that what was worked out with it can be kept."""
        ...


Row = tuple[str, Fraction, bool]
"""Words on one line, the height of a capital, whether bold."""

BOUND = "\0"
"""In words that are yet to be wrapped: a space that holds a name together."""
# Each begins with the space itself: what stands around it is asked at no other sign.
_CLOSE = r" (?:(?<=[\d/] )(?=\d+/\d+|(?:mm|in)\b)|(?<=[≈◄✂▲] )|(?=[►·]))"
"""Spaces that hold a figure together, or a sign to its word."""
_BINDING = re.compile(
    f"{_CLOSE}| (?:(?=×)|(?<=× )|"
    r"(?<=\bCorner )(?=[A-Z]\b)"
    r"|(?<=left-hand )(?=end)|(?<=right-hand )(?=end)|(?<=reference )(?=edge)"
    r"|(?<=▲ this )(?=end)|(?<=end )(?=up\b)"
    r"|(?<= mm )(?=deep\b)|(?<= in )(?=deep\b)|(?<=sheet )(?=\S\.)"
    r"|(?<=part )(?=\d)|(?<=\d )(?=of \d)|(?<=\d of )(?=\d)"
    f"|(?<=job )(?={STANDS_FOR_IT}))"
)
"""Spaces that hold a figure or a phrase together: 1 31/32 in, ▲ this end up, left-hand end."""


@lru_cache(maxsize=1024)
def wrapped(
    words: str, room: Fraction, cap: Fraction, lettering: Lettering, bold: bool = False
) -> tuple[str, ...]:
    """Words broken into lines no wider than `room`; a word too long for a line is broken too.

    A figure and its unit stay on one line where that is wide enough for them.
    """

    def fits(line: str) -> bool:
        return lettering.width(line, cap, bold) <= room

    bound = " ".join(words.split())
    whole = bound.replace(BOUND, " ")
    if whole and fits(whole):  # nearly always
        return (whole,)
    units = [unit.replace(BOUND, " ") for unit in _BINDING.sub(BOUND, bound).split()]
    lines = tuple(_lines(" ", units, fits))
    if too_long := {unit for unit in set(units).intersection(lines) if not fits(unit)}:
        parts = (_parts(unit, fits) if unit in too_long else (unit,) for unit in units)
        lines = tuple(_lines(" ", tuple(chain.from_iterable(parts)), fits))
    return tuple(reopened(lines))


def _parts(unit: str, fits: Callable[[str], bool]) -> Iterator[str]:
    """Words that belong together but not on one line: as single ones, or as parts of one.

    Each part is as much as fits on a line. Figures and signs come apart last.
    """
    close = (part.replace(BOUND, " ") for part in re.sub(_CLOSE, BOUND, unit).split(" "))
    for word in chain.from_iterable((part,) if fits(part) else part.split(" ") for part in close):
        yield from (word,) if fits(word) else _lines("", _letters(word), fits)


def _lines(between: str, pieces: Sequence[str], fits: Callable[[str], bool]) -> Iterator[str]:
    """Pieces joined into lines that fit; one that does not fit by itself gets a line too."""
    at, count = 0, 1
    while at < len(pieces):
        count = max(1, _most(pieces, at, between, fits, count))
        yield between.join(pieces[at : at + count])
        at += count


def _most(
    pieces: Sequence[str], at: int, between: str, fits: Callable[[str], bool], guess: int = 1
) -> int:
    """How many pieces from one on fit together; where some do not, no more of them do.

    It is looked for near a guess, in steps that double, then half way between: few are measured,
    and nothing much longer than what fits.
    """
    low, high, step = 0, len(pieces) - at + 1, 1
    count = min(guess, high - 1)
    while high - low > 1:
        if fits(between.join(pieces[at : at + count])):
            low, count = count, count + step
        else:
            high, count = count, count - step
        step *= 2
        if not low < count < high:
            count = (low + high) // 2
    return low


def _letters(word: str) -> tuple[str, ...]:
    """The letters of a word, each with the marks that stand on it."""
    signs = unicodedata.normalize("NFC", word)
    starts = [n for n, sign in enumerate(signs) if n == 0 or not _clings(signs[n - 1], sign)]
    return tuple(signs[a:b] for a, b in pairwise([*starts, len(signs)]))


def _clings(before: str, sign: str) -> bool:
    """Whether a sign stays with the one before it: a mark, or at a sign of isolation."""
    return (
        sign == END
        or before in {LEFT_TO_RIGHT, RIGHT_TO_LEFT}
        or unicodedata.category(sign).startswith("M")
    )


def largest_cap(
    words: str,
    room: Fraction,
    caps: Sequence[Fraction],
    lettering: Lettering,
    lines: int = 1,
) -> Fraction:
    """The first of `caps` at which a name takes at most `lines` lines, unbroken; else the last."""
    for cap in caps:
        unbroken = all(lettering.width(word, cap, bold=True) <= room for word in words.split())
        if unbroken and len(wrapped(words, room, cap, lettering, bold=True)) <= lines:
            return cap
    return caps[-1]


def shortened(
    words: str, room: Fraction, cap: Fraction, lettering: Lettering, bold: bool = False
) -> str:
    """The words if they fit in `room`, else as much of their start as fits, and …."""
    if lettering.width(words, cap, bold) <= room:
        return words
    letters = _letters(words)

    def fits(start: str) -> bool:
        return lettering.width(start.rstrip() + "…", cap, bold) <= room

    return "".join(letters[: _most(letters, 0, "", fits)]).rstrip() + "…"


class Paragraph(Struct, frozen=True):
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
    texts: list[Text] = []
    height = Fraction(0)
    for of in reversed((*paragraphs,)):
        pitch, left = of.cap * LINE_PITCH, width * SHARE_BEFORE[of.align]
        foot, height = pitch - of.cap, height + of.after
        for words in reversed(wrapped(of.words, width, of.cap, lettering, of.bold)):
            at = left, height + foot
            texts.append(Text(words, at, of.cap, of.align, bold=of.bold, paragraph=of.words))
            height += pitch
    return Figure(width, height, texts=tuple(reversed(texts)))


def text_corners(text: Text, lettering: Lettering) -> tuple[Point, Point]:
    """Two opposite corners of the box that words fill, descenders included."""
    width = lettering.width(text.words, text.cap, text.bold)
    left = -width * SHARE_BEFORE[text.align]
    cosine, sine = DIRECTION[text.turn]
    x, y = text.at

    def corner(along: Fraction, up: Fraction) -> Point:
        # Asked so often that multiplying exact numbers by 1 and by nothing would be felt.
        across, rise = (-up, along) if sine else (along, up)
        return (x + across, y + rise) if cosine + sine > 0 else (x - across, y - rise)

    return corner(left, -text.cap * DESCENT), corner(left + width, text.cap * ASCENT)


def turned_round(text: Text) -> Text:
    """Words that stand where they stood, and are read from the other side."""
    (x, y), (cosine, sine) = text.at, DIRECTION[text.turn]
    up = text.cap * (ASCENT - DESCENT)
    align = {Align.LEFT: Align.RIGHT, Align.RIGHT: Align.LEFT}.get(text.align, text.align)
    at = (x - up * sine, y + up * cosine)
    return replace(text, at=at, align=align, turn=(text.turn + 180) % 360)


def extent(
    strokes: Iterable[Stroke], texts: Iterable[Text], lettering: Lettering
) -> tuple[Point, Point]:
    """The lower left and the upper right corner of what is drawn and written."""
    points = [end for stroke in strokes for end in (stroke.start, stroke.end)]
    points += (corner for text in texts for corner in text_corners(text, lettering))
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


def fitted(strokes: tuple[Stroke, ...], texts: tuple[Text, ...], lettering: Lettering) -> Figure:
    """Lines and words in a box that just holds them."""
    (left, low), (right, high) = extent(strokes, texts, lettering)
    return Figure(right - left, high - low, strokes, texts).moved(-left, -low)
