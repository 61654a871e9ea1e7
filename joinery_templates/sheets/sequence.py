"""Laying pieces group after group, page by page, so that no group strays far.

What a page leaves of the groups begun goes on the next page before anything else; only
then are further groups begun. Other sequences of the groups fill the pages otherwise.
"""

from collections.abc import Callable, Iterator
from itertools import combinations, islice, product

from joinery_templates.sheets.free_space import (
    FITS,
    FREE,
    LATE,
    Layout,
    Size,
    Table,
    Way,
    cut_out,
    first_place,
    lying,
    numbered,
)

MOST_LAID = 20_000
"""Pieces laid at most, in all sequences together: quick, and the same on every machine."""
_ORDERS: tuple[Callable[[Size], int], ...] = (
    lambda size: -size[0] * size[1],
    lambda size: -max(size),
    lambda size: -size[0],
)
"""Which pieces of a group come first: large, long, wide ones."""
MOST_BEGUN = 3
"""So many groups at most are begun on one page."""


def in_sequence(table: Table, layout: Layout) -> Layout:
    """The layout, or a better one on as many pages, of those laid group after group.

    Args:
        table: the task.
        layout: of all its pieces.
    """
    best, pages = layout, table.worth(layout)[0]
    ways = product(
        _sequences(tuple(dict.fromkeys(table.groups))),
        range(1, MOST_BEGUN + 1),
        product(FITS, (LATE, FREE)),
        _ORDERS,
    )
    for sequence, begun, way, order in islice(ways, MOST_LAID // len(table.sizes)):
        if not table.worth(best)[1]:
            break
        left = {group: _sorted(table, group, order) for group in sequence}
        laid = _laid(table, left, begun, way, pages)
        best = min(best, laid or best, key=table.worth)
    return best


def _sequences(groups: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """The groups as they come, and with two of them exchanged."""
    yield groups
    for one, other in combinations(range(len(groups)), 2):
        changed = list(groups)
        changed[one], changed[other] = changed[other], changed[one]
        yield tuple(changed)


def _laid(table: Table, left: dict[str, list[int]], begun: int, way: Way, most: int) -> Layout:
    """All pieces, at most `begun` groups begun on a page; empty where those pages are too many."""
    sequence = list(left)
    open_: list[str] = []
    layout: Layout = {}
    for page in range(most):
        free = [(0, 0, *table.page)]
        for group in [*open_, *(one for one in sequence if one not in open_)][: len(open_) + begun]:
            for index in tuple(left[group]):
                place = first_place(table, index, way, [(0, page, free)])
                if place is None:
                    continue
                _, x, y, turned = place
                across, up = lying(table.sizes[index], turned)
                free = cut_out(free, (x, y, x + across, y + up))
                left[group].remove(index)
                layout[index] = place
        sequence = [group for group in sequence if left[group]]
        open_ = [group for group in sequence if len(left[group]) < table.groups.count(group)]
        if not sequence:
            return numbered(layout)
    return {}


def _sorted(table: Table, group: str, order: Callable[[Size], int]) -> list[int]:
    members = [index for index, own in enumerate(table.groups) if own == group]
    return sorted(members, key=lambda index: order(table.sizes[index]))
