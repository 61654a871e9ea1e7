"""A pattern on paper: in one piece, or cut into tiles that are taped together.

A tile shows half the overlap past each of its seams. Of two neighbours the one on
the right (or above) is trimmed along the seam and laid on the other's printed seam
line; the match marks on both then stand on each other.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from fractions import Fraction
from itertools import count, pairwise

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import LAYOUT_ROLES, Figure, Pattern, Point, Role, Text
from joinery_templates.drawings.lettering import Lettering, text_corners
from joinery_templates.sheets.page import Box
from joinery_templates.sheets.seams import (
    Interval,
    checked_seams,
    choose_seams,
    fewest_tiles,
    tile_spans,
)

_Cuts = tuple[tuple[Fraction, ...], tuple[Fraction, ...]]
"""Places of the seams across and along a pattern."""


class Seam(Struct, frozen=True):
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


class Tiled(Struct, frozen=True):
    """A pattern with its tiles, row by row from the lower left; one tile where it fits.

    Attributes:
        pattern: the pattern.
        tiles: which part of the pattern each tile shows.
        seams: between them.
        turned: whether all of it lies on its pages by a quarter turn.
    """

    pattern: Pattern
    tiles: tuple[Box, ...]
    seams: tuple[Seam, ...] = ()
    turned: bool = False

    @property
    def sizes(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """Width and height of each tile as it lies."""
        ways = ((tile.width, tile.height) for tile in self.tiles)
        return tuple(size[::-1] if self.turned else size for size in ways)


class Scissors:
    """Cuts the patterns of one PDF, so that every tile fits a page.

    Args:
        area: width and height that a page offers.
        overlap: paper shared by two neighbours.
        lettering: how wide words run.
    """

    def __init__(
        self, area: tuple[Fraction, Fraction], overlap: Fraction, lettering: Lettering
    ) -> None:
        self._area, self._overlap, self._lettering = area, overlap, lettering
        self._letters = map(_letters, count(1))
        # By the lines' identity: equal ends share them, are cut alike, and go on sharing them.
        self._cuts: dict[tuple[int, tuple[Fraction, ...]], _Cuts] = {}
        self._kept: dict[tuple[int, _Cuts], Figure] = {}

    def cut(self, pattern: Pattern) -> Tiled:
        """A pattern's tiles; it is turned only where that takes fewer of them.

        Raises:
            InputError: where the page is too small for any tile, or a seam that the
                person gave cannot be.
        """
        overlap, lying = self._overlap, self._area[::-1]
        turned = _sheets(pattern, lying, overlap) < _sheets(pattern, self._area, overlap)
        key = (id(pattern.layers[0]), pattern.seams)
        if key not in self._cuts:
            self._cuts[key] = self._seams_of(pattern, *(lying if turned else self._area))
        across, along = cuts = self._cuts[key]
        columns = tile_spans(pattern.width, overlap, across)
        rows = tile_spans(pattern.height, overlap, along)
        if across or along:
            layers = tuple(self._without_cut_words(one, cuts) for one in pattern.layers)
            pattern = replace(pattern, layers=layers)
        tiles = (Box(left, low, right, high) for low, high in rows for left, right in columns)
        return Tiled(pattern, tuple(tiles), tuple(self._lettered(pattern, cuts)), turned)

    def _seams_of(self, pattern: Pattern, width: Fraction, height: Fraction) -> _Cuts:
        """Places of the seams, for tiles of at most this width and height."""

        def chosen(axis: int, length: Fraction, room: Fraction) -> tuple[Fraction, ...]:
            lines, shunned = _lines(pattern, axis), self._shunned(pattern, axis)
            return choose_seams(length, room, self._overlap, lines, shunned)

        given = _given(pattern, width)
        if given:
            across = checked_seams(pattern.width, width, self._overlap, given)
        else:
            across = chosen(0, pattern.width, width)
        return across, chosen(1, pattern.height, height)

    def _shunned(self, pattern: Pattern, axis: int) -> Iterator[Interval]:
        """Where waste is hatched, and where a seam with its overlap would cut words."""
        reach = self._overlap / 2
        for layer in pattern.layers:
            for stroke in layer.strokes:
                if stroke.role is Role.HATCH:
                    low, high = sorted((stroke.start[axis], stroke.end[axis]))
                    yield low, high
            for text in layer.texts:
                low, high = sorted(corner[axis] for corner in text_corners(text, self._lettering))
                yield low - reach, high + reach

    def _without_cut_words(self, layer: Figure, cuts: _Cuts) -> Figure:
        """The same without waste crosses that a seam cuts, and without copies of labels.

        A copy of a label goes whole where a seam cuts any of its words, if another copy
        is left whole; hatching still tells the waste. A drawing that is cut alike again
        stays one drawing.
        """
        known = self._kept.get((id(layer), cuts))
        if known:
            return known
        parts: dict[str, list[Text]] = {}
        for text in layer.texts:
            parts.setdefault(text.part, []).append(text)
        cut = {
            part
            for part, texts in parts.items()
            if any(self._is_cut(text_corners(t, self._lettering), cuts) for t in texts)
        }
        said = {part: tuple(text.words for text in texts) for part, texts in parts.items()}
        whole = {words for part, words in said.items() if part not in cut}
        kept = replace(
            layer,
            strokes=tuple(
                stroke
                for stroke in layer.strokes
                if stroke.role is not Role.CROSS
                or not self._is_cut((stroke.start, stroke.end), cuts)
            ),
            texts=tuple(t for t in layer.texts if t.part not in cut or said[t.part] not in whole),
        )
        return self._kept.setdefault((id(layer), cuts), kept)

    def _is_cut(self, ends: tuple[Point, Point], cuts: _Cuts) -> bool:
        """Whether the upright box from one point to another reaches the paper of a seam."""
        reach = self._overlap / 2
        sides = (sorted(pair) for pair in zip(*ends, strict=True))
        return any(
            bisect_right(places, low - reach) < bisect_left(places, high + reach)
            for places, (low, high) in zip(cuts, sides, strict=True)
        )

    def _lettered(self, pattern: Pattern, cuts: _Cuts) -> Iterator[Seam]:
        """The seams between neighbouring tiles, lettered in the order in which they are taped."""
        across, along = cuts
        columns, zero = len(across) + 1, Fraction(0)
        for row, (low, high) in enumerate(pairwise((zero, *along, pattern.height))):
            for column, at in enumerate(across):
                before = row * columns + column
                yield Seam(next(self._letters), True, at, low, high, before, before + 1)
        for row, at in enumerate(along):
            for column, (low, high) in enumerate(pairwise((zero, *across, pattern.width))):
                before = row * columns + column
                yield Seam(next(self._letters), False, at, low, high, before, before + columns)


def _letters(number: int) -> str:
    """What a seam is called, none twice in one PDF: a to z, aa, ab and so on."""
    letters = ""
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("a") + rest) + letters
    return letters


def _sheets(pattern: Pattern, area: tuple[Fraction, Fraction], overlap: Fraction) -> int:
    """How many sheets a pattern takes, upright on this area."""
    given = len(_given(pattern, area[0]))
    columns = given + 1 if given else fewest_tiles(pattern.width, area[0], overlap)
    return columns * fewest_tiles(pattern.height, area[1], overlap)


def _given(pattern: Pattern, width: Fraction) -> tuple[Fraction, ...]:
    """The person's seams, where the pattern must be cut at all."""
    return pattern.seams if pattern.width > width else ()


def _lines(pattern: Pattern, axis: int) -> Iterator[Interval]:
    """Where layout lines stand that a seam across this axis would run beside.

    A line that the seam must cross anyway, as a baseline, is of no account.
    """
    for stroke in pattern.strokes:
        if stroke.role in LAYOUT_ROLES:
            low, high = sorted((stroke.start[axis], stroke.end[axis]))
            if abs(stroke.start[1 - axis] - stroke.end[1 - axis]) >= high - low:
                yield low, high
