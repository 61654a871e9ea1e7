"""Laying pieces on pages as words are set: in the order given, row below row, page after page.

What belongs together begins a row of its own, and shares a page with what comes before it
only where all of it has room there.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

Size = tuple[Fraction, Fraction]
"""Width and height of a piece as it lies."""
NONE = Fraction(0)


class Spot(Struct, frozen=True):
    """Where a piece lies.

    Attributes:
        page: counted from 0.
        x: from the left of the page's usable area to the left of the piece, in mm.
        y: from the top of that area down to the top of the piece.
    """

    page: int
    x: Fraction
    y: Fraction


def pack(
    groups: Sequence[Sequence[Size]], area: Size, gap: Fraction
) -> tuple[tuple[Spot, ...], ...]:
    """A spot for every piece of every group, in the order given.

    Args:
        groups: pieces that belong together; none is larger than the area.
        area: what can be used of every page.
        gap: kept between pieces; none to the edge of the area.
    """
    laid: list[tuple[Spot, ...]] = []
    page, used = 0, NONE  # the last page, and how far down it is used
    for group in groups:
        spots = tuple(_in_rows(group, Spot(page, NONE, used + gap if used else NONE), area, gap))
        if used and spots[-1].page > page:
            spots = tuple(_in_rows(group, Spot(page + 1, NONE, NONE), area, gap))
        page = spots[-1].page
        lows = (s.y + up for s, (_, up) in zip(spots, group, strict=True) if s.page == page)
        used = max(lows)
        laid.append(spots)
    return tuple(laid)


def _in_rows(group: Sequence[Size], first: Spot, area: Size, gap: Fraction) -> Iterator[Spot]:
    """Spots from left to right and row below row, the first row's top at a spot."""
    page, x, top = first.page, first.x, first.y
    low = top  # of the row so far
    for across, up in group:
        if x + across > area[0] or top + up > area[1]:
            x, top = NONE, low + gap
        if top + up > area[1]:
            page, top, low = page + 1, NONE, NONE
        yield Spot(page, x, top)
        x += across + gap
        low = max(low, top + up)
