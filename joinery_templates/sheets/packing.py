"""Laying pieces on as few pages as possible, square to the page.

Many layouts are made in free space kept as maximal rectangles (`free_space`); the
best is kept, and then bettered by laying group after group (`sequence`) and by bringing
groups together (`together`).
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice, product

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.lengths import mm_text
from joinery_templates.sheets.free_space import (
    FITS,
    FREE,
    LATE,
    TURNINGS,
    Layout,
    Piece,
    Size,
    Table,
    laid,
)
from joinery_templates.sheets.sequence import in_sequence
from joinery_templates.sheets.together import brought_together

MOST_PLACED, MOST_RUNS = 1800, 90
"""Bounds of each half of the search, so that it is quick and the same on every machine."""


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a piece lies: its lower left corner as it lies, in mm, on a page counted from 0.

    `turned` is by 90 degrees: the piece's height then lies along the page's width.
    """

    page: int
    x: Fraction
    y: Fraction
    turned: bool


def pack(
    pieces: Sequence[Piece], width: Fraction, height: Fraction, gap: Fraction
) -> tuple[Spot, ...]:
    """One spot for each piece, in the order given.

    As few pages as the search finds; then groups on the same or neighbouring pages;
    then few pieces turned. Page 0 holds piece 0, page 1 the first piece that is not on
    page 0, and so on, unless another order of the pages keeps groups nearer together.
    The same pieces always give the same spots.

    Args:
        pieces: in reading order.
        width: of the usable area of every page, in mm.
        height: of the usable area, in mm.
        gap: kept between pieces, along one of the axes; none to the edge of the area.

    Raises:
        InputError: `piece-too-large`, for every piece that fits neither way.
    """
    findings = tuple(_too_large(pieces, width, height))
    if findings:
        raise InputError(*findings)
    if not pieces:
        return ()
    table = Table.of(pieces, width, height, gap)
    return tuple(
        Spot(page, Fraction(left, table.parts), Fraction(bottom, table.parts), turned)
        for page, left, bottom, turned in _search(table).values()
    )


def _too_large(pieces: Sequence[Piece], width: Fraction, height: Fraction) -> Iterator[Finding]:
    for index, piece in enumerate(pieces):
        fits = piece.width <= width and piece.height <= height
        if not fits and not (piece.may_turn and piece.width <= height and piece.height <= width):
            yield mistake(
                "piece-too-large",
                f"A piece of {mm_text(piece.width)} x {mm_text(piece.height)} fits neither way "
                f"on the {mm_text(width)} x {mm_text(height)} of a page that can be used.",
                "Choose a larger paper or smaller margins, or let the piece be cut into tiles.",
                f"pieces[{index}]",
            )


_Order = Callable[[Size], tuple[int, ...]]

_ORDERS: tuple[_Order, ...] = (
    lambda size: (-size[0] * size[1],),
    lambda size: (-max(size), -min(size)),
    lambda size: (-min(size), -max(size)),
    lambda size: (-size[1], -size[0]),
    lambda size: (),
)
"""Which pieces come first: large, long, thick, high ones; or as they were given."""


def _search(table: Table) -> Layout:
    """Few pages first; then, on no more pages, the layout that is best to work with."""
    runs = min(MOST_RUNS, MOST_PLACED // len(table.sizes))
    best = _dense(table, runs)
    pages = table.worth(best)[0]
    tries = product((True, False), TURNINGS, _ORDERS, FITS)
    for near, turning, order, fit in islice(tries, runs):
        if not any(table.worth(best)[1:4]):
            break
        layout = laid(table, _sorted(table, order, near), (fit, turning), near, pages)
        best = min(best, layout or best, key=table.worth)
    return brought_together(table, in_sequence(table, best))


def _dense(table: Table, runs: int) -> Layout:
    """A layout on few pages, whatever becomes of the groups.

    While pages might be saved, the pieces on the emptiest page, which came too late to
    find a place elsewhere, are laid earlier the next time.
    """
    ways = list(zip(FITS, (FREE, LATE, FREE), strict=True))
    trials = [(_sorted(table, order, False), way) for order in _ORDERS[:3] for way in ways]
    best: Layout = {}
    for run in range(max(1, runs)):
        order, way = trials[run % len(trials)]
        layout = laid(table, order, way, False, len(order))
        best = min(best or layout, layout, key=table.worth)
        if table.worth(best)[0] == table.fewest_pages():
            break
        trials[run % len(trials)] = (_late_earlier(table, order, layout), way)
    return best


def _late_earlier(table: Table, order: Sequence[int], layout: Layout) -> list[int]:
    """The order with the pieces of the emptiest page moved ahead by a third of its length."""
    laid = [0] * len(order)
    for index, place in layout.items():
        laid[place[0]] += 1 + table.sizes[index][0] * table.sizes[index][1]
    emptiest = min((area, page) for page, area in enumerate(laid) if area)[1]
    ahead = len(order) // 3
    rank = {index: now - ahead * (layout[index][0] == emptiest) for now, index in enumerate(order)}
    return sorted(order, key=lambda index: rank[index])


def _sorted(table: Table, order: _Order, near: bool) -> list[int]:
    """The pieces' numbers in the order to lay them; group by group when `near`."""
    first = {group: rank for rank, group in enumerate(dict.fromkeys(table.groups))}
    return sorted(
        range(len(table.sizes)),
        key=lambda index: (first[table.groups[index]] if near else 0, order(table.sizes[index])),
    )
