"""A pattern on paper: in one piece, or cut into tiles that are taped together.

A tile shows half the overlap past each of its seams. Of two neighbours the one on
the right (or above) is trimmed along the seam and laid on the other's printed seam
line; the match marks on both then stand on each other.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import chain, count, groupby, pairwise, product

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import (
    DIRECTION,
    HATCHES,
    LAYOUT_ROLES,
    Figure,
    Pattern,
    Point,
    Role,
    Stroke,
    Text,
)
from joinery_templates.drawings.lettering import LINE_PITCH, Lettering, text_corners, wrapped
from joinery_templates.drawings.look import NAMES
from joinery_templates.drawings.placing import Ground, outwards
from joinery_templates.sheets.page import Box
from joinery_templates.sheets.seams import (
    Interval,
    checked_seams,
    choose_seams,
    clearance,
    fewest_tiles,
    joined,
    tile_spans,
)

RIM = Fraction(4)
"""Words that are moved keep so far from the edge of the paper."""
NARROWER = (2, 3, 4)
"""Words that have no room even so are broken into rows so many times narrower."""
NEAR = Fraction(4)
"""Words that belong to a line are moved so far away from it at the most (our judgement)."""
MARK_AIR = Fraction(3)
"""Words keep so far from a seam, which is cut along and has match marks on it."""
SEAM_LETTERS = "abcdefghjkmnpqrstuvwxyz"
"""What seams are called: i, l and o beside a figure look like figures."""

KEPT_CLEAR = LAYOUT_ROLES | {Role.GUIDE, Role.FOLD, Role.OUTLINE, Role.TRIM}
"""Roles of lines that a seam keeps away from: what a tool follows, folds, edges."""

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


class _OffTheSeams(Struct, frozen=True):
    """A layer that seams cut: what all sheets share, words for one sheet alone, lost ones."""

    kept: Figure
    apart: tuple[Text, ...]
    lost: tuple[str, ...]


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
        self._cuts: dict[tuple[int, tuple[Fraction, ...]], _Cuts] = {}
        self._kept: dict[tuple[int, _Cuts], _OffTheSeams] = {}
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
        for one in off:
            for text in one.apart:
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

    def _cut_up(self, pattern: Pattern) -> tuple[bool, _Cuts]:
        """Whether a pattern is turned, and where its seams are."""
        overlap, lying = self._overlap, self._area[::-1]
        turned = _sheets(pattern, lying, overlap) < _sheets(pattern, self._area, overlap)
        key = (id(pattern.layers[0]), pattern.seams)
        if key not in self._cuts:
            self._cuts[key] = self._seams_of(pattern, *(lying if turned else self._area))
        return turned, self._cuts[key]

    def _seams_of(self, pattern: Pattern, width: Fraction, height: Fraction) -> _Cuts:
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
                yield low - MARK_AIR, high + MARK_AIR

    def _off_the_seams(
        self, layer: Figure, strokes: Sequence[Stroke], cuts: _Cuts
    ) -> "_OffTheSeams":
        """The same without waste crosses that a seam cuts, and with words moved off the seams.

        Words of one part move together to a sheet where they are clear, smaller if need be, and
        stay on their face.
        Where there is none, a copy of a label goes if another is left whole, or its paragraphs
        move one by one. A drawing that is cut alike again stays one.
        """
        known = self._kept.get((id(layer), cuts))
        if known:
            return known
        words: list[tuple[Text, ...]] = []
        cut: list[tuple[Text, ...]] = []
        for texts in _together(layer.texts, lambda text: text.part or text.paragraph or text):
            (cut if self._reach(texts, cuts, MARK_AIR) else words).append(texts)
        if cut:
            ground = Ground(self._lettering, strokes, chain.from_iterable(words))
            folds = [one.start[1] for one in strokes if one.role is Role.FOLD]

            def moved(texts: tuple[Text, ...]) -> tuple[Text, ...]:
                ways = self._moved(texts, layer, cuts)
                return ground.placed_together(way for way in ways if not _parted(texts, way, folds))

            cut.sort(key=_is_plain)
            found = [moved(texts) for texts in cut]
            copies = set(map(_said, words + found))
            for texts, whole in zip(cut, found, strict=True):
                words.append(whole)
                if not whole and _said(texts) not in copies:
                    alone = _together(texts, lambda text: text.paragraph or text)
                    words += map(moved, sorted(alone, key=_is_plain))
        half = self._overlap / 2
        shared: list[Text] = []
        apart: list[Text] = []
        for text in chain.from_iterable(words):
            (apart if self._reach((text,), cuts, half) else shared).append(text)
        said = {text.paragraph or text.words for text in chain.from_iterable(words)}
        asked = dict.fromkeys(text.paragraph or text.words for text in layer.texts)
        kept = replace(
            layer,
            strokes=tuple(
                stroke
                for stroke in layer.strokes
                if stroke.role is not Role.CROSS
                or not _reaches_seam((stroke.start, stroke.end), cuts, half)
            ),
            texts=tuple(shared),
        )
        lost = tuple(one for one in asked if one not in said)
        return self._kept.setdefault((id(layer), cuts), _OffTheSeams(kept, tuple(apart), lost))

    def _moved(
        self, texts: tuple[Text, ...], layer: Figure, cuts: _Cuts
    ) -> Iterator[tuple[Text, ...]]:
        """Words moved to where no seam cuts them: as they are, smaller, then in more rows.

        Along their line before across it.
        """
        along = texts[0].turn // 90 % 2
        forms = [
            tuple(_smaller(rows, share))
            for rows in (texts, *self._narrower(texts))
            for share in _shares(rows)
        ]
        size = layer.width, layer.height
        for small in forms:
            corners = [corner for text in small for corner in text_corners(text, self._lettering)]
            rooms = [
                _rooms([corner[axis] for corner in corners], size[axis], cuts[axis])
                for axis in (0, 1)
            ]
            for axis in (along, 1 - along):
                for aside, way in product(_nearest(rooms[1 - axis])[:2], _ways(rooms[axis])):
                    by = (aside, way) if axis else (way, aside)
                    first = texts[0]
                    if first.may_move(*by) and _belongs_there(first, by[along], by[1 - along]):
                        yield tuple(text.moved(*by) for text in small)

    def _narrower(self, texts: tuple[Text, ...]) -> Iterator[tuple[Text, ...]]:
        """Words that are said in one go over more rows, about the middle of where they stood."""
        first, words = texts[0], texts[0].paragraph or texts[0].words
        if any((text.paragraph or text.words) != words for text in texts):
            return
        cosine, sine = DIRECTION[first.turn]
        wide = max(self._lettering.width(text.words, text.cap, text.bold) for text in texts)
        for share in NARROWER:
            rows = wrapped(words, wide / share, first.cap, self._lettering, first.bold)
            if " ".join(rows) == words:  # no word is broken
                up = Fraction(len(rows) - len(texts), 2)
                depths = [first.cap * LINE_PITCH * (n - up) for n in range(len(rows))]
                yield tuple(
                    replace(first.moved(sine * depth, -cosine * depth), words=row)
                    for row, depth in zip(rows, depths, strict=True)
                )

    def _reach(self, texts: Sequence[Text], cuts: _Cuts, near: Fraction) -> bool:
        return any(_reaches_seam(text_corners(text, self._lettering), cuts, near) for text in texts)

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


def _reaches_seam(ends: tuple[Point, Point], cuts: _Cuts, near: Fraction) -> bool:
    """Whether the upright box from one point to another comes nearer than so to a seam."""
    sides = (sorted(pair) for pair in zip(*ends, strict=True))
    return any(
        bisect_right(places, low - near) < bisect_left(places, high + near)
        for places, (low, high) in zip(cuts, sides, strict=True)
    )


def _belongs_there(text: Text, along: Fraction, aside: Fraction) -> bool:
    """Whether words moved so far along and aside of their row still say what they said.

    A paragraph may stand anywhere, one that stays anywhere along the board; other words belong
    to a line that runs as they do.
    """
    if text.stays and (text.paragraph or text.part):
        return abs(aside if text.turn % 180 else along) <= NEAR
    if text.stays:
        return abs(along) <= NEAR and abs(aside) <= NEAR
    return bool(text.paragraph) or abs(aside) <= NEAR


def _parted(texts: Sequence[Text], moved: Sequence[Text], folds: Iterable[Fraction]) -> bool:
    """Whether words have come over a fold, onto another face."""
    before, after = texts[0].at[1], moved[0].at[1]
    return any((before < fold) != (after < fold) for fold in folds)


def _rooms(
    places: Sequence[Fraction], length: Fraction, cuts: Sequence[Fraction]
) -> list[Interval]:
    """How far what stands on places can be moved along a pattern to lie between two seams.

    From where to where, for each sheet that has room for it.
    """
    low, high = min(places), max(places)
    first_start, last_end = max(min(RIM, low), Fraction(0)), min(max(length - RIM, high), length)
    starts = (first_start, *(at + MARK_AIR for at in cuts))
    ends = (*(at - MARK_AIR for at in cuts), last_end)
    ways = ((start - low, end - high) for start, end in zip(starts, ends, strict=True))
    return [(first, last) for first, last in ways if first <= last]


def _nearest(rooms: Iterable[Interval]) -> list[Fraction]:
    """The shortest way into each room, not far first."""
    return sorted((min(max(Fraction(0), first), last) for first, last in rooms), key=abs)


def _ways(rooms: Iterable[Interval]) -> list[Fraction]:
    """Ways into all rooms, not far first."""
    ways = (outwards(_nearest([room])[0], *room) for room in rooms)
    return sorted(chain.from_iterable(ways), key=abs)


def _together(
    texts: Iterable[Text], belongs_to: Callable[[Text], object]
) -> list[tuple[Text, ...]]:
    """Words that follow each other and belong to the same."""
    return [tuple(group) for _, group in groupby(texts, belongs_to)]


def _is_plain(texts: Sequence[Text]) -> bool:
    """Plain words are placed last: what is bold says most, the board, corner and edge."""
    return not texts[0].bold


def _said(texts: Sequence[Text]) -> tuple[str, ...]:
    return tuple(text.words for text in texts)


def _shares(texts: Sequence[Text]) -> Iterator[Fraction]:
    """To which shares of their size words can be made smaller, so that it is a size of ours."""
    yield Fraction(1)
    (cap, *others) = {text.cap for text in texts}
    if not others:
        yield from (size / cap for size in NAMES if size < cap)


def _smaller(texts: Sequence[Text], share: Fraction) -> Iterator[Text]:
    """Words to a scale, about the place of the first of them."""
    x, y = texts[0].at
    for text in texts:
        at = (x + (text.at[0] - x) * share, y + (text.at[1] - y) * share)
        yield replace(text, at=at, cap=text.cap * share)


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
