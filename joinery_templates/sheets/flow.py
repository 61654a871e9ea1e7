"""Blocks of words and drawings stacked down a page, in columns, and on to the next."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import chain

from joinery_templates.drawings.figure import Figure, joined
from joinery_templates.drawings.lettering import ASCENT, DESCENT

WIDEST_COLUMN = Fraction(190)
"""Wider lines of words are hard to read."""
GUTTER = Fraction(10)


def column_width(width: Fraction) -> Fraction:
    """The width of a column of words on a page that offers `width`."""
    count = column_count(width)
    return (width - GUTTER * (count - 1)) / count


def column_count(width: Fraction) -> int:
    """How many columns of words a page of that width has."""
    return max(1, int((width + GUTTER) // (WIDEST_COLUMN + GUTTER)))


def stacked(blocks: Iterable[Figure], width: Fraction, height: Fraction) -> tuple[Figure, ...]:
    """Blocks below each other in columns, on as many figures of one size as they need.

    Args:
        blocks: in order; none wider than `column_width`. One higher than a page is cut
            between two rows of its words.
        width: of a page.
        height: of a page.
    """
    columns: list[list[Figure]] = [[]]
    top = height
    for block in chain.from_iterable(_pieces(block, height) for block in blocks):
        if block.height > top and columns[-1]:
            columns.append([])
            top = height
        top -= block.height
        columns[-1].append(block.moved(Fraction(0), top))
    count, step = column_count(width), column_width(width) + GUTTER
    return tuple(
        joined(
            width,
            height,
            (
                block.moved(number * step, Fraction(0))
                for number, column in enumerate(columns[start : start + count])
                for block in column
            ),
        )
        for start in range(0, len(columns), count)
    )


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
        for low, _ in rows
        if low >= lowest and not any(start < low < end for start, end in spans)
    )
    return min(free, default=None)
