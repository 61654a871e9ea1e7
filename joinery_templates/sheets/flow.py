"""Blocks of words and drawings stacked down a page, in columns, and on to the next."""

from collections.abc import Iterable
from fractions import Fraction

from joinery_templates.drawings.figure import Figure, joined

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
        blocks: in order; none wider than `column_width`. One higher than a page runs
            over its lower edge: the caller keeps blocks small.
        width: of a page.
        height: of a page.
    """
    columns: list[list[Figure]] = [[]]
    top = height
    for block in blocks:
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


def beside(figures: Iterable[Figure], gap: Fraction) -> Figure:
    """Figures side by side, their upper edges level."""
    listed = tuple(figures)
    height = max(figure.height for figure in listed)
    left, parts = Fraction(0), []
    for figure in listed:
        parts.append(figure.moved(left, height - figure.height))
        left += figure.width + gap
    return joined(left - gap, height, parts)
