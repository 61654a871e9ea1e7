"""A pattern on paper: in one piece, or cut into tiles that are taped together.

A tile shows half the overlap past each of its seams. Of two neighbours the one on
the right (or above) is trimmed along the seam and laid on the other's printed seam
line; the match marks on both then stand on each other.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import count, pairwise

from joinery_templates.drawings.figure import LAYOUT_ROLES, Pattern, Point, Stroke
from joinery_templates.sheets.page import Box
from joinery_templates.sheets.seams import choose_seams, tile_spans


@dataclass(frozen=True, slots=True)
class Seam:
    """One straight seam between two tiles.

    Attributes:
        letter: what its match marks are called on both tiles; no other seam has it.
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
        turned: whether all tiles lie on their pages by a quarter turn; a pattern in one
            piece may be laid either way.
    """

    pattern: Pattern
    tiles: tuple[Box, ...]
    seams: tuple[Seam, ...] = ()
    turned: bool = False


class Letters:
    """Hands out the letters of seams, none twice in one PDF: a to z, aa, ab and so on."""

    def __init__(self) -> None:
        self._numbers = count(1)

    def following(self) -> str:
        """The next letter."""
        number, letters = next(self._numbers), ""
        while number:
            number, rest = divmod(number - 1, 26)
            letters = chr(ord("a") + rest) + letters
        return letters


def tile(
    pattern: Pattern, area: tuple[Fraction, Fraction], overlap: Fraction, letters: Letters
) -> Tiled:
    """Cut a pattern so that every tile fits the area, upright or turned.

    The fewest tiles win; upright wins a tie.

    Args:
        pattern: what to cut.
        area: width and height that a page offers.
        overlap: paper shared by two neighbours.
        letters: for the seams.

    Raises:
        InputError: where the page is too small for any tile.
    """
    width, height = area
    if _fits(pattern, width, height) or _fits(pattern, height, width):
        return Tiled(pattern, (Box(Fraction(0), Fraction(0), pattern.width, pattern.height),))
    upright = _cuts(pattern, width, height, overlap)
    turned = _cuts(pattern, height, width, overlap)
    on_side = _tile_count(turned) < _tile_count(upright)
    across, along = turned if on_side else upright
    columns = tile_spans(pattern.width, overlap, across)
    rows = tile_spans(pattern.height, overlap, along)
    tiles = tuple(Box(left, low, right, high) for low, high in rows for left, right in columns)
    return Tiled(pattern, tiles, tuple(_seams(pattern, across, along, letters)), on_side)


def _fits(pattern: Pattern, width: Fraction, height: Fraction) -> bool:
    return pattern.width <= width and pattern.height <= height


_Cuts = tuple[tuple[Fraction, ...], tuple[Fraction, ...]]
"""Seams across and along a pattern."""


def _cuts(pattern: Pattern, width: Fraction, height: Fraction, overlap: Fraction) -> _Cuts:
    strokes = pattern.strokes
    given = pattern.seams if pattern.width > width else ()
    return (
        choose_seams(pattern.width, width, overlap, _lines_along(strokes, 0), given),
        choose_seams(pattern.height, height, overlap, _lines_along(strokes, 1)),
    )


def _tile_count(cuts: _Cuts) -> int:
    return (len(cuts[0]) + 1) * (len(cuts[1]) + 1)


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
    pattern: Pattern, across: Sequence[Fraction], along: Sequence[Fraction], letters: Letters
) -> Iterator[Seam]:
    """The seams between neighbouring tiles, lettered in the order in which they are taped."""
    columns = len(across) + 1
    zero = Fraction(0)
    for row, (low, high) in enumerate(pairwise((zero, *along, pattern.height))):
        for column, at in enumerate(across):
            before = row * columns + column
            yield Seam(letters.following(), True, at, low, high, before, before + 1)
    for row, at in enumerate(along):
        for column, (low, high) in enumerate(pairwise((zero, *across, pattern.width))):
            before = row * columns + column
            yield Seam(letters.following(), False, at, low, high, before, before + columns)
