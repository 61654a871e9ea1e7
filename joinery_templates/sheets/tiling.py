"""A pattern on paper: in one piece, or cut into tiles that are taped together.

A tile shows half the overlap past each of its seams. Of two neighbours the one on
the right (or above) is trimmed along the seam and laid on the other's printed seam
line; the match marks on both then stand on each other.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from joinery_templates.drawings.figure import (
    LAYOUT_ROLES,
    Figure,
    Pattern,
    Point,
    Role,
    Stroke,
    Text,
    line,
)
from joinery_templates.drawings.lettering import Lettering, shortened, text_corners
from joinery_templates.sheets.page import Box
from joinery_templates.sheets.seams import choose_seams, tile_spans

MARK_ARM = Fraction(5, 2)
"""How far a match mark's arms reach from its middle."""
MARK_INSET = Fraction(4)
"""How far a match mark stands in from the end of its seam."""
MARK_CAP = Fraction(3)
NOTE_CAP = Fraction(19, 10)
NOTE_PITCH = Fraction(13, 5)
"""Distance of the two rows of words beside a seam."""


@dataclass(frozen=True, slots=True)
class Seam:
    """One straight seam between two tiles.

    Attributes:
        letter: what its match marks are called on both tiles.
        upright: True where the tiles lie side by side, False where one is above.
        at: its place, across it.
        low: where it starts, along it.
        high: where it ends.
        before: the number of the tile on its left, or below.
        after: the number of the tile on its right, or above.
    """

    letter: str
    upright: bool
    at: Fraction
    low: Fraction
    high: Fraction
    before: int
    after: int

    def point(self, along: Fraction, aside: Fraction = Fraction(0)) -> Point:
        """A point of the pattern from a place along the seam and a distance past it."""
        return (self.at + aside, along) if self.upright else (along, self.at + aside)


@dataclass(frozen=True, slots=True)
class Tiled:
    """A pattern with its tiles, row by row from the lower left; one tile where it fits.

    Attributes:
        pattern: the pattern.
        tiles: which part of the pattern each tile shows.
        seams: between them.
    """

    pattern: Pattern
    tiles: tuple[Box, ...]
    seams: tuple[Seam, ...]


def tile(
    pattern: Pattern,
    area: tuple[Fraction, Fraction],
    overlap: Fraction,
    given: tuple[Sequence[Fraction], Sequence[Fraction]] = ((), ()),
) -> Tiled:
    """Cut a pattern so that every tile fits the area, upright or turned.

    The fewest tiles win; upright wins a tie.

    Args:
        pattern: what to cut.
        area: width and height that a page offers.
        overlap: paper shared by two neighbours.
        given: seams named by the person, across and along the pattern.

    Raises:
        InputError: where the page is too small for any tile.
    """
    width, height = area
    if _fits(pattern, width, height) or _fits(pattern, height, width):
        whole = Box(Fraction(0), Fraction(0), pattern.width, pattern.height)
        return Tiled(pattern, (whole,), ())
    upright = _cut(pattern, width, height, overlap, given)
    turned = _cut(pattern, height, width, overlap, given)
    return turned if len(turned.tiles) < len(upright.tiles) else upright


def _fits(pattern: Pattern, width: Fraction, height: Fraction) -> bool:
    return pattern.width <= width and pattern.height <= height


def _cut(
    pattern: Pattern,
    width: Fraction,
    height: Fraction,
    overlap: Fraction,
    given: tuple[Sequence[Fraction], Sequence[Fraction]],
) -> Tiled:
    strokes = pattern.strokes
    across = choose_seams(pattern.width, width, overlap, _lines_along(strokes, 0), given[0])
    along = choose_seams(pattern.height, height, overlap, _lines_along(strokes, 1), given[1])
    columns = tile_spans(pattern.width, overlap, across)
    rows = tile_spans(pattern.height, overlap, along)
    tiles = tuple(Box(left, low, right, high) for low, high in rows for left, right in columns)
    seams = tuple(_seams(pattern, across, along))
    return Tiled(pattern, tiles, seams)


def _lines_along(strokes: Sequence[Stroke], axis: int) -> list[tuple[Fraction, Fraction]]:
    """Where layout lines stand that a seam across this axis would run beside.

    A line that the seam must cross anyway, as a baseline, is of no account.
    """
    spans: set[tuple[Fraction, Fraction]] = set()
    for stroke in strokes:
        if stroke.role in LAYOUT_ROLES:
            low, high = sorted((stroke.start[axis], stroke.end[axis]))
            rise = abs(stroke.start[1 - axis] - stroke.end[1 - axis])
            if rise >= high - low:
                spans.add((low, high))
    return sorted(spans)


def _seams(
    pattern: Pattern, across: Sequence[Fraction], along: Sequence[Fraction]
) -> Iterator[Seam]:
    """The seams between neighbouring tiles, lettered in the order in which they are taped."""
    columns, rows = len(across) + 1, len(along) + 1
    zero = Fraction(0)
    u_cuts = (zero, *across, pattern.width)
    v_cuts = (zero, *along, pattern.height)
    number = 0
    for row, (low, high) in enumerate(pairwise(v_cuts)):
        for column, at in enumerate(across):
            before = row * columns + column
            yield Seam(_letter(number), True, at, low, high, before, before + 1)
            number += 1
    for row, at in zip(range(rows - 1), along, strict=True):
        for column, (low, high) in enumerate(pairwise(u_cuts)):
            before = row * columns + column
            yield Seam(_letter(number), False, at, low, high, before, before + columns)
            number += 1


def _letter(number: int) -> str:
    """The letter of a seam: a to z, then aa, ab and so on."""
    letters = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("a") + rest) + letters
    return letters


@lru_cache(maxsize=64)
def match_marks(tiled: Tiled, overlap: Fraction) -> Figure:
    """Seam lines and match marks, the same on both neighbours, in the pattern's box.

    Three marks for each seam: two on it near its ends, one beside it, so that a tile
    laid on upside down or askew shows.
    """
    strokes: list[Stroke] = []
    texts: list[Text] = []
    for seam in tiled.seams:
        low, high = seam.low + MARK_INSET, seam.high - MARK_INSET
        start, end = seam.point(seam.low), seam.point(seam.high)
        strokes.append(Stroke(Role.SEAM, start, end))
        aside = seam.point(low + (high - low) * 4 / 5, overlap / 4)
        for at in (seam.point(low), seam.point(high), aside):
            strokes.extend(_mark(at))
            texts.append(Text(seam.letter, (at[0] + 1, at[1] + 1), MARK_CAP, bold=True))
    return Figure(tiled.pattern.width, tiled.pattern.height, tuple(strokes), tuple(texts))


def _mark(at: Point) -> Iterator[Stroke]:
    """An upright cross in a square that stands on its corner."""
    x, y = at
    arm = MARK_ARM
    yield line(Role.MATCH, x - arm, y, x + arm, y)
    yield line(Role.MATCH, x, y - arm, x, y + arm)
    inner = arm * 3 / 5
    corners = ((x + inner, y), (x, y + inner), (x - inner, y), (x, y - inner))
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        yield Stroke(Role.MATCH, start, end)


def seam_notes(
    tiled: Tiled, number: int, pages: Sequence[int], overlap: Fraction, lettering: Lettering
) -> Figure:
    """What one tile says beside its seams, on the strips that vanish when they are taped.

    Args:
        tiled: the pattern and its tiles.
        number: which tile.
        pages: for each tile, the number of the page that it is on.
        overlap: paper shared by two neighbours.
        lettering: how wide words run.
    """
    texts: list[Text] = []
    for seam in tiled.seams:
        if number == seam.before:
            lines = (f"{seam.letter}: page {pages[seam.after]}", "goes on top")
            aside = overlap / 4
        elif number == seam.after:
            lines = (f"✂ {seam.letter}: trim, lay", f"on page {pages[seam.before]}")
            aside = -overlap / 4
        else:
            continue
        start, end = _clear_stretch(tiled, seam, overlap, lettering)
        for row, words in enumerate(lines):
            fitting = shortened(words, end - start, NOTE_CAP, lettering)
            drop = (Fraction(1, 2) - row) * NOTE_PITCH - NOTE_CAP / 2
            # Turned lettering rises to the left: its rows run the other way aside.
            at = seam.point(start, aside - drop if seam.upright else aside + drop)
            texts.append(Text(fitting, at, NOTE_CAP, turn=90 if seam.upright else 0))
    return Figure(tiled.pattern.width, tiled.pattern.height, texts=tuple(texts))


def _clear_stretch(
    tiled: Tiled, seam: Seam, overlap: Fraction, lettering: Lettering
) -> tuple[Fraction, Fraction]:
    """The longest stretch beside a seam that no line, mark or word of the pattern crosses."""
    reach = overlap / 2
    spans = [_spans(stroke.start, stroke.end, seam) for stroke in tiled.pattern.strokes]
    marks = match_marks(tiled, overlap).strokes
    spans += [_spans(mark.start, mark.end, seam) for mark in marks if mark.role is Role.MATCH]
    for layer in tiled.pattern.layers:
        spans += [_spans(*text_corners(text, lettering), seam) for text in layer.texts]
    blocked = sorted(
        along for aside, along in spans if aside[0] < seam.at + reach and aside[1] > seam.at - reach
    )
    best, reached = (seam.low, seam.low), seam.low
    for low, high in (*blocked, (seam.high, seam.high)):
        if min(low, seam.high) - reached > best[1] - best[0]:
            best = (reached, min(low, seam.high))
        reached = max(reached, high)
    return best[0] + 1, max(best[0] + 1, best[1] - 1)


def _spans(
    one: Point, other: Point, seam: Seam
) -> tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]:
    """How far two corners reach across a seam and along it, each as low and high."""
    across, along = (0, 1) if seam.upright else (1, 0)
    return (
        (min(one[across], other[across]), max(one[across], other[across])),
        (min(one[along], other[along]), max(one[along], other[along])),
    )
