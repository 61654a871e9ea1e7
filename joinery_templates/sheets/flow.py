"""Blocks of words and drawings stacked down a page, in columns, and on to the next."""

from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct

from joinery_templates.drawings.figure import Block, Columns, Figure, Together, joined
from joinery_templates.drawings.lettering import ASCENT, DESCENT
from joinery_templates.exact import Fraction

WIDEST_COLUMN = Fraction(190)
"""Wider lines of words are hard to read."""
GUTTER = Fraction(10)
BEFORE, AFTER = Fraction(30), Fraction(45)
"""Rows that go on over a page's end take at least so much before it, and so much after it."""

LOW = Fraction(80)
"""Rows that are no higher in all are not parted: a table of few is read on one page."""


def column_width(width: Fraction) -> Fraction:
    """The width of a column of words on a page that offers `width`."""
    count = column_count(width)
    return (width - GUTTER * (count - 1)) / count


def column_count(width: Fraction) -> int:
    """How many columns of words a page of that width has."""
    return max(1, int((width + GUTTER) // (WIDEST_COLUMN + GUTTER)))


class Stack(Struct, frozen=True):
    """Blocks laid on pages of one size, not drawn yet: that moves each of their lines.

    Attributes:
        width: of a page.
        height: of a page.
        columns: what stands in each, with its height above the foot.
        depth: how far down the last is used, in the longest of its columns.
    """

    width: Fraction
    height: Fraction
    columns: Sequence[Sequence[tuple[Figure, Fraction]]]
    depth: Fraction

    @property
    def count(self) -> int:
        """How many pages they need."""
        return -(-len(self.columns) // column_count(self.width))

    def drawn(self) -> Iterator[Figure]:
        """One figure for each page."""
        count, step = column_count(self.width), column_width(self.width) + GUTTER
        for start in range(0, len(self.columns), count):
            blocks = (
                block.moved(number * step, up)
                for number, column in enumerate(self.columns[start : start + count])
                for block, up in column
            )
            yield joined(self.width, self.height, blocks)


def stacked(
    blocks: Iterable[Block], width: Fraction, height: Fraction, used: Fraction = Fraction(0)
) -> Stack:
    """Blocks below each other in columns, on as many figures of one size as they need.

    Args:
        blocks: in order; none wider than `column_width`. One higher than a page is cut
            between two rows of its words.
        width: of a page.
        height: of a page.
        used: how far down the first page is used already.
    """
    filled = _Filled(height, used)
    for block in blocks:
        for piece in filled.parted(block):
            filled.put(piece)
    # A column of the last page that is not its last one is full.
    is_first = (len(filled.columns) - 1) % column_count(width) == 0
    return Stack(width, height, filled.columns, height - filled.top if is_first else height)


class _Filled:
    """Columns of pages that are filled from the top.

    Attributes:
        columns: what stands in each, with its height above the foot.
        top: how much of the last one is free.
    """

    def __init__(self, height: Fraction, used: Fraction) -> None:
        self._height = height
        self.columns: list[list[tuple[Figure, Fraction]]] = [[]]
        self.top = height - used

    def put(self, piece: Figure) -> None:
        """Below what stands there, or at the top of the next column."""
        if piece.height > self.top:
            self._go_on()
        self.top -= piece.height
        self.columns[-1].append((piece, self.top))

    def parted(self, block: Block) -> Iterator[Figure]:
        """A block in parts, none higher than a page; rows so that each has room when it comes."""
        if isinstance(block, Together):
            if self.top < sum(one.height for one in block.figures) <= self._height:
                self._go_on()
            for figure in block.figures:
                yield from _pieces(figure, self._height)
            return
        while isinstance(block, Columns):
            if not block.rows:
                return
            part, left = block.down_to(self.top)
            if left.rows and block.height <= LOW:
                self._go_on()
                part, left = block.down_to(self.top)
            depth = self.top
            while left.rows and left.height < AFTER and depth > BEFORE:
                depth -= AFTER / 8  # until rows go over
                part, left = block.down_to(depth)
            if part is None or (left.rows and self.top < BEFORE):
                self._go_on()
                part, left = block.down_to(self.top, least=1)
            assert part
            yield from _pieces(part, self._height)
            block = left
        yield from _pieces(block, self._height)

    def _go_on(self) -> None:
        if self.top < self._height:
            self.columns.append([])
            self.top = self._height


def _pieces(block: Figure, height: Fraction) -> Iterator[Figure]:
    """A block in as few pieces as are no higher than a page, from the top."""
    while block.height > height and (cut := _cut(block, block.height - height)) is not None:
        above, below = (
            Figure(
                block.width,
                high - low,
                tuple(s for s in block.strokes if low <= min(s.start[1], s.end[1]) < high),
                tuple(t for t in block.texts if low <= t.at[1] < high),
            ).moved(Fraction(0), -low)
            for low, high in ((cut, block.height), (Fraction(0), cut))
        )
        yield above
        block = below
    yield block


def _cut(block: Figure, lowest: Fraction) -> Fraction | None:
    """Where a block can be cut between rows of words: as low as may be; None if nowhere."""
    rows = [
        (text.at[1] - text.cap * DESCENT, text.at[1] + text.cap * ASCENT)
        for text in block.texts
        if text.turn == 0
    ]
    lines = [sorted((stroke.start[1], stroke.end[1])) for stroke in block.strokes]
    spans = [*rows, *lines]
    free = (
        low
        for low in sorted(low for low, _ in rows if low >= lowest)
        if not any(start < low < end for start, end in spans)
    )
    return next(free, None)
