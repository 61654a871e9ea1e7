"""Words placed where they stand on nothing: on no line, on no mark, on no other words.

Who has something to say tells the ways to say it, the best first: at this place or that, in
smaller letters, in fewer words. The first that is clear is taken; where none is, nothing is
said, and whoever must say it makes the paper larger. Hatching may pass below words.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from itertools import product
from math import floor, inf

from joinery_templates.drawings.figure import HATCHES, Point, Stroke, Text
from joinery_templates.drawings.lettering import ASCENT, DESCENT, SHARE_BEFORE, Lettering
from joinery_templates.exact import Fraction

CLEAR = 0.45
"""Paper between words and what stands beside them, in mm: half a baseline and a little air."""
BESIDE = 3.7
"""Between words on one line that no drawn line parts, in mm: about two letters (our judgement).
Closer together they are read as one."""
CELL = 15.0
"""Side of the squares, in mm, by which what stands near is found."""

MOST_PLACES = 24
"""So many places are tried along a line, or a few more."""

_BEFORE = {align: float(share) for align, share in SHARE_BEFORE.items()}
_BELOW, _ABOVE = float(DESCENT), float(ASCENT)

Length = Fraction | float
Spot = tuple[Length, Length]
"""A point; a float is near enough."""
_Box = tuple[float, float, float, float]
"""Left, bottom, right, top."""
_Cell = tuple[int, int]


class Ground:
    """What stands on a drawing already. Floats are near enough to say what is clear.

    Args:
        lettering: how wide words run.
        strokes: lines, marks and crosses; hatching is passed over.
        texts: words.
    """

    def __init__(
        self, lettering: Lettering, strokes: Iterable[Stroke] = (), texts: Iterable[Text] = ()
    ) -> None:
        self._lettering = lettering
        self._widths: dict[tuple[str, float, bool], float] = {}
        self._lines: defaultdict[_Cell, list[tuple[_Box, bool]]] = defaultdict(list)
        self._words: defaultdict[_Cell, list[_Box]] = defaultdict(list)
        # Places are tried beside each other: what was in the way of one is first asked of the next.
        self._in_the_way: tuple[_Box, bool | None] = (inf, inf, -inf, -inf), None
        self.draw(strokes)
        self.write(texts)

    def draw(self, strokes: Iterable[Stroke]) -> None:
        """Nothing is written on these from now on."""
        for stroke in strokes:
            if stroke.role not in HATCHES:
                self.rule(stroke.start, stroke.end)

    def rule(self, start: Spot, end: Spot) -> None:
        """Nothing is written on the line between two points from now on."""
        (x, y), (x1, y1) = start, end
        x, y, x1, y1 = float(x), float(y), float(x1), float(y1)
        left, right = (x, x1) if x < x1 else (x1, x)
        low, high = (y, y1) if y < y1 else (y1, y)
        box = left, low, right, high
        rises = (x < x1) == (y < y1)
        # Slanting hatching would otherwise stand in all squares of a wide board.
        level = left == right or low == high
        for cell in _cells(box):
            if level or _reaches(_square(cell), box, rises):
                self._lines[cell].append((box, rises))

    def write(self, texts: Iterable[Text]) -> None:
        """Nothing is written on these from now on."""
        for text in texts:
            self._keep(self._written(text))

    def keep(self, one: Spot, other: Spot) -> None:
        """Nothing is written in the box between two corners from now on."""
        self._keep(_box(one, other))

    def placed(self, ways: Iterable[Text], beside: float = CLEAR) -> tuple[Text, ...]:
        """The first way to say something that is clear, written; else nothing.

        Args:
            ways: to say it, the best first.
            beside: so far it stands from other words on its line, in mm.
        """
        return self.placed_together(((way,) for way in ways), beside)

    def placed_together(
        self, ways: Iterable[tuple[Text, ...]], beside: float = CLEAR
    ) -> tuple[Text, ...]:
        """The first way all of which is clear, written; else nothing. See `placed`."""
        for way in ways:
            if all(self.allows(text, beside) for text in way):
                self.write(way)
                return way
        return ()

    def moved(self, ways: Iterable[tuple[tuple[Text, ...], Point]]) -> tuple[Text, ...]:
        """The first words all of which are clear where they are moved to, written; else nothing.

        Args:
            ways: words, and how far they go, the best first. Moved in floats until they are clear.
        """
        known: tuple[Text, ...] = ()
        boxes: list[_Box] = []
        for texts, by in ways:
            if texts is not known:
                known, boxes = texts, [self._written(text) for text in texts]
            dx, dy = float(by[0]), float(by[1])
            there = ((box[0] + dx, box[1] + dy, box[2] + dx, box[3] + dy) for box in boxes)
            if all(map(self._is_free, there)):
                moved = tuple(text.moved(*by) for text in texts)
                self.write(moved)
                return moved
        return ()

    def allows(self, text: Text, beside: float = CLEAR) -> bool:
        """Whether words are clear, and so far from others on their line."""
        return self._is_free(self._written(text), _air(text, beside))

    def is_clear(self, low: Spot, high: Spot) -> bool:
        """Whether nothing stands in the box between two corners, nor close to it."""
        return self._is_free(_box(low, high))

    def has_room(self, low: Spot, high: Spot) -> bool:
        """Whether words may stand in the box between two corners, clear of others on their line."""
        return self._is_free(_box(low, high), (BESIDE, CLEAR))

    def has_air(self, text: Text, air: float) -> bool:
        """Whether nothing stands within so many mm of words."""
        left, low, right, high = self._written(text)
        return self._is_free((left - air, low - air, right + air, high + air))

    def has_words(self, one: Spot, other: Spot) -> bool:
        """Whether words stand in the box between two corners, or close to it."""
        box = _wider(_box(one, other))
        near = (words for cell in _cells(box) for words in self._words.get(cell, ()))
        return any(_overlap(box, words) for words in near)

    def lines_in(self, one: Spot, other: Spot) -> int:
        """How many lines reach into the box between two corners, or close to it."""
        box = _wider(_box(one, other))
        near = {line for cell in _cells(box) for line in self._lines.get(cell, ())}
        return sum(_overlap(box, line) and _reaches(box, line, rises) for line, rises in near)

    def _written(self, text: Text) -> _Box:
        """The box that words fill."""
        x, y, cap = float(text.at[0]), float(text.at[1]), float(text.cap)
        of = (text.words, cap, text.bold)
        width = self._widths.get(of)
        if width is None:
            width = float(self._lettering.width(text.words, text.cap, text.bold))
            self._widths[of] = width
        left = -width * _BEFORE[text.align]
        right, low, high = left + width, -cap * _BELOW, cap * _ABOVE
        if text.turn == 0:
            return x + left, y + low, x + right, y + high
        if text.turn == 90:
            return x - high, y + left, x - low, y + right
        if text.turn == 180:
            return x - right, y - high, x - left, y - low
        return x + low, y - right, x + high, y - left

    def _keep(self, box: _Box) -> None:
        for cell in _cells(box):
            self._words[cell].append(box)

    def _is_free(self, box: _Box, air: tuple[float, float] = (CLEAR, CLEAR)) -> bool:
        """Whether nothing stands in a box, nor close to it, nor words within so much air."""
        wider = _wider(box)
        left, low, right, high = wider
        start, foot, end, top = far = _wider(box, *air)
        one, rises = self._in_the_way
        if rises is None:
            if one[0] < end and start < one[2] and one[1] < top and foot < one[3]:
                return False
        elif _overlap(one, wider) and _reaches(wider, one, rises):
            return False
        for cell in _cells(far):
            # Asked most often of all: so without a call.
            for one in self._words.get(cell, ()):
                if one[0] < end and start < one[2] and one[1] < top and foot < one[3]:
                    self._in_the_way = one, None
                    return False
            for one, rises in self._lines.get(cell, ()):
                near = one[0] < right and left < one[2] and one[1] < high and low < one[3]
                if near and _reaches(wider, one, rises):
                    self._in_the_way = one, rises
                    return False
        return True


def outwards(wish: Fraction, low: Fraction, high: Fraction) -> list[Fraction]:
    """Places from low to high in even steps of a millimetre or more, those near a wish first."""
    step = max(1, floor((high - low) / MOST_PLACES))
    first, last = -floor((wish - low) / step), floor((high - wish) / step)
    return [wish + step * number for number in sorted(range(first, last + 1), key=abs)]


def _box(one: Spot, other: Spot) -> _Box:
    x, y, x1, y1 = float(one[0]), float(one[1]), float(other[0]), float(other[1])
    left, right = (x, x1) if x < x1 else (x1, x)
    low, high = (y, y1) if y < y1 else (y1, y)
    return left, low, right, high


def _wider(box: _Box, aside: float = CLEAR, up: float = CLEAR) -> _Box:
    """A box with the air that words want round them."""
    return box[0] - aside, box[1] - up, box[2] + aside, box[3] + up


def _air(text: Text, beside: float) -> tuple[float, float]:
    """How far words stand from others, sideways and upwards, so far along their line."""
    return (CLEAR, beside) if text.turn % 180 else (beside, CLEAR)


def _cells(box: _Box) -> Iterator[_Cell]:
    """The squares that a box reaches."""
    left, low, right, high = box
    across = range(floor(left / CELL), floor(right / CELL) + 1)
    up = range(floor(low / CELL), floor(high / CELL) + 1)
    return product(across, up)


def _square(cell: _Cell) -> _Box:
    left, low = cell[0] * CELL, cell[1] * CELL
    return left, low, left + CELL, low + CELL


def _overlap(one: _Box, other: _Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _reaches(box: _Box, around: _Box, rises: bool) -> bool:
    """Whether a line reaches into a box that overlaps the one around it.

    It does unless all corners of the box are on one side of it: those two that lie farthest
    from it are asked.
    """
    left, low, right, high = around
    wide, tall = right - left, high - low
    if rises:
        above = (box[0] - left) * tall - (box[3] - low) * wide
        below = (box[2] - left) * tall - (box[1] - low) * wide
    else:
        above = (left - box[2]) * tall - (box[3] - high) * wide
        below = (left - box[0]) * tall - (box[1] - high) * wide
    return above < 0 < below
