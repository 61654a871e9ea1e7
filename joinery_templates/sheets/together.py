"""Bringing the pieces of a group onto the same or neighbouring pages, at no cost in pages.

Pieces that stray are moved to a page of their group, or exchanged with a piece there,
as long as both pages can still be laid and the layout is worth more than before. What
still strays may come together when whole pages change their order.
"""

from collections.abc import Iterator
from itertools import islice, permutations, product

from joinery_templates.sheets.free_space import FITS, FREE, LATE, Layout, Table, laid, numbered

MOST_LAID = 9_000
"""Pieces times sharings-out tried at most: quick, and the same on every machine."""

FEW_PAGES = 6
"""Up to so many pages every order of them is tried; of more, one page is moved at a time."""

_Pages = list[list[int]]
"""The pieces' numbers on each page."""


def brought_together(table: Table, layout: Layout) -> Layout:
    """The layout, or a better one on as many pages.

    Args:
        table: the task.
        layout: of all its pieces.
    """
    best, tries = layout, 0
    most = MOST_LAID // len(table.sizes)
    while table.worth(best)[1] and tries < most:
        better = None
        for pages in islice(_neighbours(table, best), most - tries):
            tries += 1
            better = _relaid(table, best, pages)
            if better is not None:
                break
        if better is None:
            break
        best = better
    return _pages_in_order(table, best)


def _pages_in_order(table: Table, layout: Layout) -> Layout:
    """The same pages, in the order in which groups stray least."""
    best = layout
    while table.worth(best)[1]:
        better = min((_with_pages(best, order) for order in _orders(best)), key=table.worth)
        if table.worth(better) >= table.worth(best):
            break
        best = better
    return best


def _orders(layout: Layout) -> Iterator[tuple[int, ...]]:
    """New numbers for the pages: every order of few, one moved among many."""
    count = 1 + max(place[0] for place in layout.values())
    if count <= FEW_PAGES:
        yield from permutations(range(count))
        return
    for moved, to in product(range(count), repeat=2):
        others = [page for page in range(count) if page != moved]
        order = [*others[:to], moved, *others[to:]]
        yield tuple(order.index(page) for page in range(count))


def _with_pages(layout: Layout, numbers: tuple[int, ...]) -> Layout:
    return {index: (numbers[place[0]], *place[1:]) for index, place in layout.items()}


def _neighbours(table: Table, layout: Layout) -> Iterator[_Pages]:
    """Other sharings-out, in each of which one stray piece stands nearer to its group."""
    pages: _Pages = [[] for _ in range(1 + max(place[0] for place in layout.values()))]
    for index, place in layout.items():
        pages[place[0]].append(index)
    for index, (home, *_) in layout.items():
        own = {layout[i][0] for i, group in enumerate(table.groups) if group == table.groups[index]}
        if max(own) - min(own) < 2:
            continue
        for target in sorted(own - {home}):
            yield _exchanged(pages, index, home, target, None)
            for other in pages[target]:
                if table.groups[other] != table.groups[index]:
                    yield _exchanged(pages, index, home, target, other)


def _exchanged(pages: _Pages, index: int, home: int, target: int, other: int | None) -> _Pages:
    changed = [list(members) for members in pages]
    changed[home].remove(index)
    changed[target].append(index)
    if other is not None:
        changed[target].remove(other)
        changed[home].append(other)
    return changed


def _relaid(table: Table, layout: Layout, pages: _Pages) -> Layout | None:
    """The layout with the changed pages laid anew, None if they cannot be or it is no better."""
    new: Layout = {}
    for number, members in enumerate(pages):
        before = [index for index, place in layout.items() if place[0] == number]
        if sorted(members) == sorted(before):
            new |= {index: layout[index] for index in members}
            continue
        page = _one_page(table, members)
        if page is None:
            return None
        new |= {index: (number, *place[1:]) for index, place in page.items()}
    new = numbered(new)
    return new if table.worth(new) < table.worth(layout) else None


def _one_page(table: Table, members: list[int]) -> Layout | None:
    """Pieces laid on a single page, None where no trial manages it."""
    if not members:
        return {}
    area = sum(across * up for across, up in (table.sizes[index] for index in members))
    if area > table.page[0] * table.page[1]:
        return None
    order = sorted(members, key=lambda index: -table.sizes[index][0] * table.sizes[index][1])
    for turning, fit in product((LATE, FREE), FITS):
        page = laid(table, order, (fit, turning), False, 1)
        if page:
            return page
    return None
