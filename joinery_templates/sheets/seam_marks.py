"""What is drawn on and beside a seam: the line, match marks, and what to do there.

Three marks for each seam: two on it near its ends, one beside it, so that a tile laid
on upside down or askew shows. The words stand on the strips that vanish when the
sheets are taped: of the lower sheet the strip that is covered, of the upper one the
strip that is trimmed away. What a tile is stands where it stays to be read.
"""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from itertools import chain, product

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import (
    Align,
    Figure,
    Pattern,
    Point,
    Role,
    Stroke,
    Text,
    closed,
    line,
)
from joinery_templates.drawings.fingerprint import JOB
from joinery_templates.drawings.lettering import ASCENT, DESCENT, Lettering, text_corners
from joinery_templates.drawings.look import BODY
from joinery_templates.drawings.placing import BESIDE, CLEAR, Ground, outwards
from joinery_templates.exact import ZERO, Fraction, floor
from joinery_templates.lengths import INCH, Units
from joinery_templates.sheets.page import Box, part_words
from joinery_templates.sheets.tiling import Seam, Tiled

MARK_ARM = Fraction(5, 2)
"""How far a match mark's arms reach from its middle."""
WORDS_OFF = Fraction(3)
"""Words are wished so far from a match mark: closer they would be read as its sign."""
MARK_ROOM = Fraction(4)
"""A match mark keeps so far from the ends of its seam."""
SHORTEST_NOTE = Fraction(36)
"""Words beside a seam want so long a stretch between two marks."""
CHECK_GAP = Fraction(6, 5)
NAME_AIR = 2.0
"""Round a tile's name, where there is room: figures close by would be read with it."""

_PAST = MARK_ARM + Fraction(1, 2)
_ROUND = ((-1, 1), (1, 1), (-1, -1), (1, -1), (0, 1), (0, -1), (-1, 0), (1, 0))
"""Places of a sign round its mark, the best first: which way to the right, and up."""


class MatchMark(Struct, frozen=True):
    """A match mark: its middle, and its sign (`b2`: seam b's second; `b` where room is short)."""

    at: Point
    sign: tuple[Text, ...]


class Taping:
    """Where everything stands along the seams of one pattern.

    Marks and words stand on no line, on no mark and on no other words.

    Args:
        tiled: the pattern and its tiles.
        overlap: paper shared by two neighbours.
        marks: False leaves the match marks out.
        units: the check lines are whole centimetres or whole inches long.
        lettering: how wide words run.

    Attributes:
        figure: seam lines and check lines, the same on all tiles, in the pattern's box.
        marks: for every seam its match marks: two on it, one beside it.
    """

    def __init__(
        self, tiled: Tiled, overlap: Fraction, marks: bool, units: Units, lettering: Lettering
    ) -> None:
        self._tiled, self._shared, self._lettering = tiled, overlap / 2, lettering
        pattern, seams = tiled.pattern, tiled.seams
        self._words = tuple(text for layer in pattern.layers for text in layer.texts)
        self._ground = Ground(lettering, pattern.strokes, chain(self._words, *tiled.own))
        lines = [_drawn(seam) for seam in seams]
        self._ground.draw(lines)
        self._own = [list(own) for own in tiled.own]
        for length, upright in ((pattern.width, False), (pattern.height, True)):
            if any(seam.upright != upright for seam in seams):
                strokes = self._check(length, upright, units)
                self._ground.draw(strokes)
                lines += strokes
        self.figure = Figure(pattern.width, pattern.height, tuple(lines))
        crossing = len({seam.upright for seam in seams}) > 1
        self.marks = [self._marked(seam, crossing) if marks else () for seam in seams]

    def of_tiles(self, pages: Sequence[int]) -> tuple[Figure, ...]:
        """What each tile alone shows: the match marks of its seams, and words.

        Args:
            pages: for each tile, the number of the page that it is on.
        """
        texts = [[*own] for own in self._own]
        strokes: list[list[Stroke]] = [[] for _ in texts]
        for seam, marks in zip(self._tiled.seams, self.marks, strict=True):
            for mark, tile in product(marks, (seam.before, seam.after)):
                strokes[tile] += match_mark(mark.at)
                texts[tile] += mark.sign
            self._note(seam, pages, texts)
        self._name(texts)
        return tuple(
            replace(self.figure, strokes=tuple(drawn), texts=tuple(said))
            for drawn, said in zip(strokes, texts, strict=True)
        )

    def _note(self, seam: Seam, pages: Sequence[int], texts: list[list[Text]]) -> None:
        """What is done at a seam, said on both its tiles."""
        below, above = seam.before, seam.after
        # Where both lie on one sheet, its number tells neither from the other.
        is_one = pages[below] == pages[above]
        letter = f"{seam.letter}: "
        for tile, other, sign, how, last, aside in (
            (below, above, "", "under", f"{letter}under", 1),
            (above, below, "✂ ", "on", f"✂ {seam.letter}", -1),
        ):
            long, short, number = (
                ("part", "pt", other + 1) if is_one else ("sheet", "sh.", pages[other])
            )
            # The scissors alone tell which lies on top; a bare number could be read as a size.
            ways = (
                f"{sign}{letter}{how} {long} {number}",
                f"{sign}{letter}{how} {short} {number}",
                f"{sign}{letter}{short} {number}",
                last,
            )
            texts[tile] += self._beside_seam(seam, ways, aside, texts[tile])

    def _beside_seam(
        self, seam: Seam, ways: Sequence[str], side: int, own: Sequence[Text]
    ) -> tuple[Text, ...]:
        """Words on one side of a seam, the first that have room, if they can well clear of others.

        Args:
            seam: the seam.
            ways: to say it, the best first.
            side: 1 past it, -1 before it.
            own: what is said on that tile alone.
        """
        alone = Ground(self._lettering, texts=own)
        for words in ways:
            rows = [*self._rows(seam, words, side * self._shared / 2)]
            if found := self._ground.placed(rows, BESIDE):
                return found
            for text in rows:
                if self._shared_ground.allows(text, BESIDE) and alone.allows(text, BESIDE):
                    return (text,)
        return ()

    def _name(self, texts: list[list[Text]]) -> None:
        """What a tile is, where no label says it: cut loose it has no title block."""
        pattern, kept = self._tiled.pattern, [*map(self._kept, self._tiled.tiles)]
        labels = [text.at for text in self._words if JOB in text.words]
        nameless = [n for n, room in enumerate(kept) if not any(map(room.contains, labels))]
        if not nameless:
            return
        ground = self._all_tiles_show(chain.from_iterable(texts))
        for stroke in pattern.strokes:
            ground.rule(stroke.start, stroke.end)  # on hatching too it would be lost
        short = pattern.short or pattern.title
        titles = dict.fromkeys(f"{pattern.group}: {title}" for title in (pattern.title, short))
        for number in nameless:
            part = f"{part_words(number + 1, of=len(kept))} · {JOB}"
            said = (*(f"{title}, {part}" for title in (*titles, short)), part)
            for room in (_on_the_board(pattern, kept[number]), kept[number]):
                ways = [*self._named(said, room)]
                # Well apart from all else, so that it is not read as a part of it.
                aired = (one for one in ways if ground.has_air(one, NAME_AIR))
                if named := ground.placed(aired) or ground.placed(ways):
                    texts[number] += named
                    break

    def _named(self, ways: Sequence[str], room: Box) -> Iterator[Text]:
        """A tile's name in all places of a room, the fullest first."""
        for words in ways:
            half = self._lettering.width(words, BODY, bold=True) / 2
            low, high = room.bottom + BODY * DESCENT, room.top - BODY * ASCENT
            left, right = room.left + half, room.right - half
            across = outwards((room.left + room.right) / 2, left, right)
            for y in outwards((room.bottom + room.top) / 2, low, high):
                for x in across:
                    yield Text(words, (x, y), BODY, Align.CENTRE, bold=True)

    def _kept(self, tile: Box) -> Box:
        """What of a tile is left when it is trimmed and taped."""
        pattern, shared = self._tiled.pattern, self._shared
        return Box(
            tile.left + (tile.left > 0) * shared,
            tile.bottom + (tile.bottom > 0) * shared,
            tile.right - (tile.right < pattern.width) * shared,
            tile.top - (tile.top < pattern.height) * shared,
        )

    @cached_property
    def _shared_ground(self) -> Ground:
        """What stands on a tile besides the words that it alone shows."""
        return self._all_tiles_show()

    def _all_tiles_show(self, texts: Iterable[Text] = ()) -> Ground:
        """What stands on all tiles together, and some words."""
        marks = (match_mark(mark.at) for mark in chain.from_iterable(self.marks))
        strokes = chain(self._tiled.pattern.strokes, self.figure.strokes, *marks)
        return Ground(self._lettering, strokes, chain(self._words, texts))

    def _rows(self, seam: Seam, words: str, aside: Fraction) -> Iterator[Text]:
        """Words along the middle of the strip beside a seam, on white: in every place."""
        middle, turn = BODY * (ASCENT - DESCENT) / 2, 90 if seam.upright else 0
        low, high = seam.low + 1, seam.high - 1 - self._lettering.width(words, BODY)
        for start in _every_millimetre((low + high) / 2, low, high):
            # Turned lettering rises to the left.
            at = seam.point(start, aside + middle if seam.upright else aside - middle)
            yield Text(words, at, BODY, turn=turn, opaque=True, either_way=True)

    def _marked(self, seam: Seam, crossing: bool) -> tuple[MatchMark, ...]:
        """The marks of a seam: one in each third, the one in the middle beside it.

        On a short seam, so that words have room at all, they stand close to its ends, unless
        another seam crosses it there, and the one beside it close to the first.
        """
        third, middle = (seam.high - seam.low) / 3, (seam.low + seam.high) / 2
        low, high, near = seam.low + third / 2, seam.high - third / 2, third / 2 - MARK_ROOM
        if third - 2 * MARK_ROOM < SHORTEST_NOTE:
            if not crossing:
                low, high, near = seam.low + MARK_ROOM, seam.high - MARK_ROOM, Fraction(0)
            middle = min(low + 2 * MARK_ROOM, middle)
        beside = self._shared / 2
        on = (Fraction(0),)
        # On the side that stays of the sheet that is trimmed: what lies beyond is cut off.
        wishes = ((1, low, on), (3, high, on), (2, middle, (beside, *on)))
        drawn = (self._mark(seam, n, at, near, by) for n, at, by in wishes)
        return tuple(mark for mark in drawn if mark)

    def _mark(
        self, seam: Seam, number: int, wish: Fraction, near: Fraction, asides: Sequence[Fraction]
    ) -> MatchMark | None:
        """A mark with its sign, drawn in the first place where both are clear.

        Where its number has no room anywhere the letter stands alone; where that has none, the
        mark stands alone, and not at all where lines and words fill the seam.
        """

        def places() -> Iterator[Point]:
            return self._mark_places(seam, wish, near, asides)

        numbered = f"{seam.letter}{number}"
        signed = (
            MatchMark(at, words)
            for sign, far in ((numbered, BESIDE), (numbered, CLEAR), (seam.letter, CLEAR))
            for at in places()
            if (words := self._ground.placed(self._beside(seam, sign, at), far))
        )
        chosen = next(chain(signed, (MatchMark(at, ()) for at in places())), None)
        if chosen:
            self._ground.draw(match_mark(chosen.at))
            self._ground.keep(*_around(chosen.at))
        return chosen

    def _mark_places(
        self, seam: Seam, wish: Fraction, near: Fraction, asides: Sequence[Fraction]
    ) -> Iterator[Point]:
        """Clear places of a mark, near the one wished for, then anywhere on the seam."""
        inset = min(MARK_ROOM, max(MARK_ARM, (seam.high - seam.low) / 6))
        low, high = seam.low + inset, seam.high - inset
        close = outwards(wish, max(low, wish - near), min(high, wish + near))
        every = [*_every_millimetre(wish, low, high)]
        own = Ground(self._lettering, (_drawn(seam),))  # on its own seam it may stand
        for aside, (air, places) in product(
            asides, ((WORDS_OFF, close), (ZERO, close), (ZERO, every))
        ):
            for at in (seam.point(along, aside) for along in places):
                around = _around(at)
                lines = self._ground.lines_in(*around)
                is_beside = self._ground.has_words(*_around(at, MARK_ARM + air))
                if lines == own.lines_in(*around) and not is_beside:
                    yield at

    def _beside(self, seam: Seam, sign: str, at: Point) -> Iterator[Text]:
        """A mark's sign in all places round it that are on the paper that both sheets have.

        On an upright seam it may be turned, as all words there are.
        """
        low, high = seam.point(seam.low, -self._shared), seam.point(seam.high, self._shared)
        for turn, (right, up) in product((0, 90) if seam.upright else (0,), _ROUND):
            beside, rise = (Fraction(6, 5), Fraction(5, 4)) if right and up else (_PAST, _PAST)
            foot = (-BODY / 2, rise + BODY * DESCENT, -rise - BODY * ASCENT)[up]
            align = (Align.CENTRE, Align.LEFT, Align.RIGHT)[right]
            x, y = (-foot, right * beside) if turn else (right * beside, foot)
            text = Text(sign, (at[0] + x, at[1] + y), BODY, align, turn, bold=True, opaque=True)
            text = replace(text, either_way=True)
            corners = text_corners(text, self._lettering)
            if all(low[n] <= corner[n] <= high[n] for corner in corners for n in (0, 1)):
                yield text

    def _check(self, extent: Fraction, upright: bool, units: Units) -> tuple[Stroke, ...]:
        """A long line over all the taped sheets, with its length: it shows errors that add up.

        It stands on the rim of the paper, its words on one sheet, where no seam cuts them.
        """
        start, edge = Fraction(2), Fraction(4, 5)
        unit = INCH if units is Units.INCH else Fraction(10)
        length = (extent - 2 * start) // unit * unit
        edges = _outline(self._tiled.pattern)
        ends = [end[upright] for one in edges for end in (one.start, one.end)]
        if ends and length == max(ends) - min(ends):
            length -= unit  # nobody should take it for the board's size
        stated = f"{length / units.mm} {units} from tick to tick"
        ways = (f"check of the taping, not the board's size: {stated}", f"check: {stated}")
        cuts = sorted({seam.at for seam in self._tiled.seams if seam.upright != upright})
        lows = (start + 9, *(cut + self._shared + 1 for cut in cuts))
        highs = (*(cut - self._shared - 1 for cut in cuts), start + length)
        rooms = tuple(zip(lows, highs, strict=True))

        def point(along: Fraction, aside: Fraction) -> Point:
            return (aside, along) if upright else (along, aside)

        def said() -> Iterator[Text]:
            for words in ways:
                # Turned lettering stands to the left of its baseline.
                foot = edge + CHECK_GAP + (BODY if upright else 0)
                for low, high in rooms:
                    if low + self._lettering.width(words, BODY) <= high:
                        turn = 90 if upright else 0
                        yield Text(words, point(low, foot), BODY, turn=turn, either_way=True)

        ticks = (start, start + length)
        corners = (point(start, Fraction(0)), point(start + length, 2 * edge))
        if self._ground.has_words(*corners) or not (words := self._ground.placed(said())):
            return ()
        sheets_across = len({seam.at for seam in self._tiled.seams if seam.upright}) + 1
        past = bisect_left(cuts, words[0].at[upright])
        self._own[past * sheets_across if upright else past] += words
        along = Stroke(Role.DIMENSION, *(point(tick, edge) for tick in ticks))
        across = (
            Stroke(Role.DIMENSION, point(tick, Fraction(0)), point(tick, 2 * edge))
            for tick in ticks
        )
        return (along, *across)


def _outline(pattern: Pattern) -> list[Stroke]:
    return [one for one in pattern.strokes if one.role is Role.OUTLINE]


def _on_the_board(pattern: Pattern, box: Box) -> Box:
    """As much of a box as lies within the board's outline, where any goes round a face."""
    edges = _outline(pattern)
    if not edges:
        return box
    xs, ys = zip(*(end for one in edges for end in (one.start, one.end)), strict=True)
    if any(min(ys) < one.start[1] == one.end[1] < max(ys) for one in edges):
        return box  # of a walk the line itself is drawn
    return Box(
        max(box.left, min(xs)),
        max(box.bottom, min(ys)),
        min(box.right, max(xs)),
        min(box.top, max(ys)),
    )


def _every_millimetre(wish: Fraction, low: Fraction, high: Fraction) -> Iterator[Fraction]:
    """Places from low to high, those near a wish first."""
    steps = sorted(range(floor(high - low) + 1), key=lambda step: abs(low + step - wish))
    return (low + step for step in steps)


def _drawn(seam: Seam) -> Stroke:
    return Stroke(Role.SEAM, seam.point(seam.low), seam.point(seam.high))


def _around(at: Point, far: Fraction = MARK_ARM) -> tuple[Point, Point]:
    """Opposite corners of the room round a place, as much as a match mark fills or more."""
    x, y = at
    return (x - far, y - far), (x + far, y + far)


def match_mark(at: Point, arm: Fraction = MARK_ARM) -> Iterator[Stroke]:
    """An upright cross in a square that stands on its corner."""
    x, y = at
    inner = arm * 3 / 5
    yield line(Role.MATCH, x - arm, y, x + arm, y)
    yield line(Role.MATCH, x, y - arm, x, y + arm)
    corners = ((x + inner, y), (x, y + inner), (x - inner, y), (x, y - inner))
    yield from closed(Role.MATCH, corners)
