"""Blocks of words and drawings stacked down a page, and on to the next."""

from collections.abc import Iterable
from fractions import Fraction

from joinery_templates.drawings.figure import Figure, joined


def stacked(blocks: Iterable[Figure], width: Fraction, height: Fraction) -> tuple[Figure, ...]:
    """Blocks below each other on as many figures of one size as they need.

    Args:
        blocks: in order; none wider than `width`. One higher than a page runs over
            its lower edge: the caller keeps blocks small.
        width: of a page.
        height: of a page.
    """
    pages: list[list[Figure]] = [[]]
    top = height
    for block in blocks:
        if block.height > top and pages[-1]:
            pages.append([])
            top = height
        top -= block.height
        pages[-1].append(block.moved(Fraction(0), top))
    return tuple(joined(width, height, page) for page in pages)


def beside(figures: Iterable[Figure], gap: Fraction) -> Figure:
    """Figures side by side, their upper edges level."""
    listed = tuple(figures)
    height = max(figure.height for figure in listed)
    left, parts = Fraction(0), []
    for figure in listed:
        parts.append(figure.moved(left, height - figure.height))
        left += figure.width + gap
    return joined(left - gap, height, parts)
