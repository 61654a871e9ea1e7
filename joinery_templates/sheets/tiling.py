"""A pattern on paper: in one piece, or cut into tiles that are taped together.

A tile shows half the overlap past each of its seams. Of two neighbours the one on
the right (or above) is trimmed along the seam and laid on the other's printed seam
line; the match marks on both then stand on each other.
"""

from bisect import bisect_right
from collections.abc import Collection, Iterator, Sequence
from itertools import count, pairwise

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import (
    HATCHES,
    LAYOUT_ROLES,
    Figure,
    Pattern,
    Point,
    Role,
    Stroke,
    Text,
)
from joinery_templates.drawings.lettering import Lettering, text_corners
from joinery_templates.exact import Fraction
from joinery_templates.sheets.page import Box
from joinery_templates.sheets.seam_words import MARK_AIR, WORD_AIR, Cuts, OffTheSeams, off_the_seams
from joinery_templates.sheets.seams import (
    Interval,
    checked_seams,
    choose_seams,
    clearance,
    fewest_tiles,
    joined,
    tile_spans,
)

SEAM_LETTERS = "abcdefghjkmnpqrstuvwxyz"
"""What seams are called: i, l and o beside a figure look like figures."""

KEPT_CLEAR = LAYOUT_ROLES | {Role.GUIDE, Role.FOLD, Role.OUTLINE, Role.TRIM}
"""Roles of lines that a seam keeps away from: what a tool follows, folds, edges."""


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
        drawn: the pattern as it was drawn.
        pattern: the same with its words off the seams.
        tiles: which part of the pattern each tile shows.
        seams: between them.
        turned: whether all of it lies on its pages by a quarter turn.
        own: for each tile, words that it alone shows: on the paper of a seam, where another
            sheet would show a part of them.
        lost: what has room nowhere beside the seams, and is said no more.
    """

    drawn: Pattern
    pattern: Pattern
    tiles: tuple[Box, ...]
    seams: tuple[Seam, ...] = ()
    turned: bool = False
    own: tuple[tuple[Text, ...], ...] = ()
    lost: tuple[str, ...] = ()

    @property
    def sizes(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """Width and height of each tile as it lies, of a pattern in one piece upright."""
        ways = ((tile.width, tile.height) for tile in self.tiles)
        return tuple(size[::-1] if self.turned and self.seams else size for size in ways)


class _InTheWay(Struct, frozen=True):
    """What stands where along one axis of a pattern; see `choose_seams`.

    Attributes:
        lines: that a seam keeps away from.
        tooled: those of them that a tool follows.
        waste: wood that goes.
        words: what is written.
        rows: those of the words that run along a seam.
    """

    lines: Sequence[Interval]
    tooled: Sequence[Interval]
    waste: Sequence[Interval]
    words: Sequence[Interval]
    rows: Sequence[Interval]


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
        self._cuts: dict[tuple[int, tuple[Fraction, ...]], Cuts] = {}
        self._kept: dict[tuple[int, Cuts], OffTheSeams] = {}
        self._in_the_way: dict[tuple[int, int], _InTheWay] = {}

    def for_area(self, area: tuple[Fraction, Fraction]) -> "Scissors":
        """Others for pages of another size, which know what stands in the way of seams."""
        others = Scissors(area, self._overlap, self._lettering)
        others._in_the_way = self._in_the_way
        return others

    def nearest_line(self, pattern: Pattern) -> Fraction:
        """How near a pattern's seams come to lines that a tool follows, at most `MARK_AIR`.

        Raises:
            InputError: as `cut` does.
        """
        _, cuts = self._cut_up(pattern)
        return min(
            clearance(seams, self._standing(pattern, axis).tooled if seams else (), MARK_AIR)
            for axis, seams in enumerate(cuts)
        )

    def cut(self, pattern: Pattern) -> Tiled:
        """A pattern's tiles; it is turned only where that takes fewer of them.

        Raises:
            InputError: where the page is too small for any tile, or a seam that the
                person gave cannot be.
        """
        turned, cuts = self._cut_up(pattern)
        overlap, (across, along) = self._overlap, cuts
        columns = tile_spans(pattern.width, overlap, across)
        rows = tile_spans(pattern.height, overlap, along)
        tiles = tuple(Box(left, low, right, high) for low, high in rows for left, right in columns)
        if not (across or along):
            return Tiled(pattern, pattern, tiles, turned=turned)
        own: list[list[Text]] = [[] for _ in tiles]
        off = [self._off_the_seams(layer, pattern.strokes, cuts) for layer in pattern.layers]
        for text in (text for one in off for text in one.apart):
            column, row = (
                bisect_right(places, at)
                for places, at in zip(cuts, text_corners(text, self._lettering)[0], strict=True)
            )
            own[row * len(columns) + column].append(text)
        return Tiled(
            pattern,
            replace(pattern, layers=tuple(one.kept for one in off)),
            tiles,
            tuple(self._lettered(pattern, cuts)),
            turned,
            tuple(map(tuple, own)),
            tuple(words for one in off for words in one.lost),
        )

    def _cut_up(self, pattern: Pattern) -> tuple[bool, Cuts]:
        """Whether a pattern is turned, and where its seams are."""
        overlap, lying = self._overlap, self._area[::-1]
        turned = _sheets(pattern, lying, overlap) < _sheets(pattern, self._area, overlap)
        key = (id(pattern.layers[0]), pattern.seams)
        if key not in self._cuts:
            self._cuts[key] = self._seams_of(pattern, *(lying if turned else self._area))
        return turned, self._cuts[key]

    def _seams_of(self, pattern: Pattern, width: Fraction, height: Fraction) -> Cuts:
        """Places of the seams, for tiles of at most this width and height."""

        def chosen(axis: int, length: Fraction, room: Fraction) -> tuple[Fraction, ...]:
            if length <= room:
                return ()
            way = self._standing(pattern, axis)
            return choose_seams(
                length, room, self._overlap, way.lines, way.waste, way.words, way.rows
            )

        given = _given(pattern, width)
        if given:
            across = checked_seams(pattern.width, width, self._overlap, given)
        else:
            across = chosen(0, pattern.width, width)
        return across, chosen(1, pattern.height, height)

    def _standing(self, pattern: Pattern, axis: int) -> _InTheWay:
        """What stands in the way of seams across an axis: looked for once, as `_cuts` are."""
        key = id(pattern.layers[0]), axis
        if key not in self._in_the_way:
            self._in_the_way[key] = _InTheWay(
                joined(_lines(pattern, axis, KEPT_CLEAR)),
                joined(_lines(pattern, axis, LAYOUT_ROLES - {Role.PRICK})),
                joined(_waste(pattern, axis)),
                joined(self._words(pattern, axis, (0, 1))),
                joined(self._words(pattern, axis, (1 - axis,))),
            )
        return self._in_the_way[key]

    def _words(self, pattern: Pattern, axis: int, along: Collection[int]) -> Iterator[Interval]:
        """Where a seam across an axis would cut words that run along one of these."""
        for layer in pattern.layers:
            for text in (one for one in layer.texts if one.turn // 90 % 2 in along):
                low, high = sorted(corner[axis] for corner in text_corners(text, self._lettering))
                yield low - WORD_AIR, high + WORD_AIR

    def _off_the_seams(self, layer: Figure, strokes: Sequence[Stroke], cuts: Cuts) -> OffTheSeams:
        """See `off_the_seams`; a drawing that is cut alike again stays one."""
        key = id(layer), cuts
        if key not in self._kept:
            half = self._overlap / 2
            self._kept[key] = off_the_seams(layer, strokes, cuts, half, self._lettering)
        return self._kept[key]

    def _lettered(self, pattern: Pattern, cuts: Cuts) -> Iterator[Seam]:
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
    """What a seam is called, none twice in one PDF: a to z without i, l and o, aa, ab and so on."""
    letters = ""
    while number:
        number, rest = divmod(number - 1, len(SEAM_LETTERS))
        letters = SEAM_LETTERS[rest] + letters
    return letters


def _sheets(pattern: Pattern, area: tuple[Fraction, Fraction], overlap: Fraction) -> int:
    """How many sheets a pattern takes, upright on this area."""
    given = len(_given(pattern, area[0]))
    columns = given + 1 if given else fewest_tiles(pattern.width, area[0], overlap)
    return columns * fewest_tiles(pattern.height, area[1], overlap)


def _given(pattern: Pattern, width: Fraction) -> tuple[Fraction, ...]:
    """The person's seams, where the pattern must be cut at all."""
    return pattern.seams if pattern.width > width else ()


def _lines(pattern: Pattern, axis: int, roles: frozenset[Role]) -> Iterator[Interval]:
    """Where lines stand that a seam across this axis would run beside.

    A line that the seam must cross anyway, as a baseline, is of no account; a mitre is.
    """
    for stroke in pattern.strokes:
        if stroke.role in roles:
            low, high = sorted((stroke.start[axis], stroke.end[axis]))
            if 2 * abs(stroke.start[1 - axis] - stroke.end[1 - axis]) >= high - low:
                yield low, high


def _waste(pattern: Pattern, axis: int) -> Iterator[Interval]:
    """Where wood goes: it is hatched, or crossed."""
    for stroke in pattern.strokes:
        if stroke.role in {*HATCHES, Role.CROSS}:
            low, high = sorted((stroke.start[axis], stroke.end[axis]))
            yield low, high
