"""Laying pieces on as few pages as possible, square to the page.

A page keeps its free space as maximal rectangles: every largest rectangle that is
still empty, overlapping one another. A piece goes into the corner of one of them;
what it covers is cut out of all. One such run is quick and rarely the best, so
several orders, fits and habits are tried and the best layout is kept.

The gap is part of piece and page: pieces grown by one gap to the right and to the
top, on a page grown alike, may touch. Two pieces are then a whole gap apart along
one of the two axes, which is what scissors want.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice, pairwise, product

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.lengths import mm_text

MOST_PLACED = 3000
"""How many pieces are laid down in all while searching: about 0.2 s, whatever the machine."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A rectangle to be laid on a page.

    Attributes:
        width: along the page's width, in mm.
        height: along the page's height, in mm.
        group: pieces that belong together have the same one.
    """

    width: Fraction
    height: Fraction
    group: str


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a piece lies.

    Attributes:
        page: counted from 0.
        x: left edge of the piece as it lies, in mm from the left of the usable area.
        y: lower edge, in mm from the bottom of the usable area.
        turned: by 90 degrees.
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
    then few pieces turned; then pages that follow the order of the pieces. Page 0
    holds piece 0, page 1 the first piece that is not on page 0, and so on. The same
    pieces always give the same spots.

    Args:
        pieces: in reading order.
        width: of the usable area of every page.
        height: of the usable area.
        gap: kept between pieces, along one of the axes; none to the edge of the area.

    Raises:
        InputError: `piece-too-large`, for every piece that fits neither way.
    """
    findings = tuple(_too_large(pieces, width, height))
    if findings:
        raise InputError(*findings)
    if not pieces:
        return ()
    table = _Table.of(pieces, width, height, gap)
    best = _search(table)
    parts = table.parts
    return tuple(
        Spot(page, Fraction(left, parts), Fraction(bottom, parts), turned)
        for page, left, bottom, turned in best
    )


def _too_large(pieces: Sequence[Piece], width: Fraction, height: Fraction) -> Iterator[Finding]:
    for index, piece in enumerate(pieces):
        upright = piece.width <= width and piece.height <= height
        if not upright and not (piece.height <= width and piece.width <= height):
            yield mistake(
                "piece-too-large",
                f"A piece of {mm_text(piece.width)} x {mm_text(piece.height)} fits neither way "
                f"on a page with {mm_text(width)} x {mm_text(height)} of usable area.",
                "Choose a larger paper or smaller margins, or let the piece be cut into tiles.",
                f"pieces[{index}]",
            )


_Size = tuple[int, int]
_Rectangle = tuple[int, int, int, int]
"""Left, bottom, right, top."""
_Place = tuple[int, int, int, bool]
"""Page, left, bottom, turned."""
_Fit = Callable[[_Rectangle, _Size], tuple[int, ...]]
_Order = Callable[[_Size], tuple[int, ...]]


def _short_side(free: _Rectangle, size: _Size) -> tuple[int, ...]:
    across, up = free[2] - free[0] - size[0], free[3] - free[1] - size[1]
    return min(across, up), max(across, up)


def _area(free: _Rectangle, size: _Size) -> tuple[int, ...]:
    across, up = free[2] - free[0], free[3] - free[1]
    return across * up, min(across - size[0], up - size[1])


def _low(free: _Rectangle, size: _Size) -> tuple[int, ...]:
    return free[1] + size[1], free[0]


_FITS: tuple[_Fit, ...] = (_short_side, _low, _area)
"""What makes a free rectangle good for a piece: the least of these."""

_ORDERS: tuple[_Order, ...] = (
    lambda size: (-size[0] * size[1],),
    lambda size: (-max(size), -min(size)),
    lambda size: (-min(size), -max(size)),
    lambda size: (-size[1], -size[0]),
    lambda size: (-size[0], -size[1]),
    lambda _: (),
)
"""Which pieces come first: large, long, thick, high, wide; or as they were given."""


@dataclass(frozen=True, slots=True)
class _Habit:
    """How one run lays its pieces.

    Attributes:
        fit: one of `_FITS`.
        turning: 0 only where the piece fits no page otherwise, 1 where it fits none of
            the pages begun, 2 wherever it fits better.
        near: tries the pages closest to the group's own first.
    """

    fit: _Fit
    turning: int
    near: bool


@dataclass(frozen=True, slots=True)
class _Table:
    """The task in whole parts of a mm, piece and page grown by the gap."""

    parts: int
    page: _Size
    sizes: tuple[_Size, ...]
    groups: tuple[str, ...]

    @classmethod
    def of(
        cls, pieces: Sequence[Piece], width: Fraction, height: Fraction, gap: Fraction
    ) -> "_Table":
        sides = [side for piece in pieces for side in (piece.width, piece.height)]
        parts = math.lcm(*(length.denominator for length in (width, height, gap, *sides)))
        across, up, *grown = (int((length + gap) * parts) for length in (width, height, *sides))
        sizes = tuple(zip(grown[::2], grown[1::2], strict=True))
        return cls(parts, (across, up), sizes, tuple(piece.group for piece in pieces))

    def numbers(self) -> range:
        """The pieces' numbers."""
        return range(len(self.sizes))

    def fits(self, index: int, turned: bool) -> bool:
        across, up = _lying(self.sizes[index], turned)
        return across <= self.page[0] and up <= self.page[1]

    def fewest_pages(self) -> int:
        """A count that no layout can beat."""
        area = sum(across * up for across, up in self.sizes)
        # Two pieces whose shorter sides together are longer than a page never share one.
        alone = sum(2 * min(size) > max(self.page) for size in self.sizes)
        return max(1, alone, -(-area // (self.page[0] * self.page[1])))


def _lying(size: _Size, turned: bool) -> _Size:
    return (size[1], size[0]) if turned else size


def _search(table: _Table) -> list[_Place]:
    """The best layout of all runs, stopping early at one that cannot be bettered."""
    count = len(table.sizes)
    aim = (table.fewest_pages(), 0, sum(not table.fits(i, False) for i in table.numbers()), 0)
    best = min(_dense(table, MOST_PLACED // count), key=lambda places: _worth(table, places))
    pages = _worth(table, best)[0]
    ways = product((True, False), (0, 1, 2), _ORDERS, _FITS)
    for near, turning, order, fit in islice(ways, MOST_PLACED // count):
        if _worth(table, best)[: len(aim)] == aim:
            break
        places = _run(table, _sorted(table, order, near), _Habit(fit, turning, near), pages)
        if places:
            best = min(best, places, key=lambda places: _worth(table, places))
    return best


def _dense(table: _Table, runs: int) -> list[list[_Place]]:
    """Layouts on few pages, whatever becomes of the groups.

    Runs that differ by a good deal come first. Then, while pages might be saved, the
    pieces of the emptiest page, which came too late to find a place, are laid earlier.
    """
    fewest = table.fewest_pages()
    habits = [_Habit(_FITS[0], 2, False), _Habit(_FITS[1], 1, False), _Habit(_FITS[2], 2, False)]
    orders = {
        (habit, order): _sorted(table, order, False) for order in _ORDERS[:3] for habit in habits
    }
    found: list[list[_Place]] = []
    last: dict = {}
    used = 0
    while used < runs and not any(_worth(table,places)[0] == fewest for places in found):
        for (habit, o), order in orders.items():
            if last.get((habit,o)):
                late = _emptiest(table, last[habit,o])
                rank = {index: place - (len(order) // 3 if index in late else 0) for place, index in enumerate(order)}
                order.sort(key=lambda index: rank[index])
            pl = _run(table, order, habit, len(order))
            found.append(pl); last[habit,o]=pl
            used += 1
            if max(q[0] for q in pl)+1==fewest or used>=runs: break
        if len(orders)>3 and used>=9:
            keep = sorted(orders, key=lambda k: (max(q[0] for q in last[k]), ))[:3]
            orders={k: orders[k] for k in keep}
    return found

def _emptiest(table, places):
    laid = {}
    for index, place in enumerate(places):
        laid[place[0]] = laid.get(place[0], 0) + math.prod(table.sizes[index])
    e = min(laid, key=lambda k: laid[k])
    return {i for i, p in enumerate(places) if p[0] == e}


def _sorted(table: _Table, order: _Order, near: bool) -> list[int]:
    """The pieces' numbers in the order to lay them; group by group when `near`."""
    first = {group: -index for index, group in reversed([*enumerate(table.groups)])}
    return sorted(
        table.numbers(),
        key=lambda index: (-first[table.groups[index]] if near else 0, order(table.sizes[index])),
    )


def _run(table: _Table, order: Sequence[int], habit: _Habit, most: int) -> list[_Place]:
    """All pieces laid once, in an order, on pages begun as needed; [] when that is too many."""
    pages: list[list[_Rectangle]] = []
    homes: dict[str, int] = {}
    places: dict[int, _Place] = {}
    for index in order:
        group = table.groups[index]
        begun = list(range(len(pages)))
        if habit.near and group in homes:
            begun.sort(key=lambda page, home=homes[group]: abs(page - home))  # type: ignore[misc]
        place = _first_place(table, index, habit, pages, begun)
        if place is None:
            if len(pages) == most:
                return []
            pages.append([(0, 0, *table.page)])
            place = _first_place(table, index, habit, pages, [len(pages) - 1])
        assert place is not None  # `_too_large` saw to it
        page, left, bottom, turned = place
        across, up = _lying(table.sizes[index], turned)
        pages[page] = _cut(pages[page], (left, bottom, left + across, bottom + up))
        homes[group] = page
        places[index] = place
    return _numbered([places[index] for index in table.numbers()])


def _first_place(
    table: _Table,
    index: int,
    habit: _Habit,
    pages: Sequence[Sequence[_Rectangle]],
    begun: Sequence[int],
) -> _Place | None:
    """The best corner on the first page that takes the piece."""
    ways = [turned for turned in (False, True) if table.fits(index, turned)]
    if habit.turning == 0:
        ways = ways[:1]
    for attitudes in [ways] if habit.turning == 2 else [[way] for way in ways]:
        for page in begun:
            found = [
                (habit.fit(free, size), free[1], free[0], turned)
                for turned in attitudes
                for size in [_lying(table.sizes[index], turned)]
                for free in pages[page]
                if size[0] <= free[2] - free[0] and size[1] <= free[3] - free[1]
            ]
            if found:
                _, bottom, left, turned = min(found)
                return page, left, bottom, turned
    return None


def _cut(free: Sequence[_Rectangle], used: _Rectangle) -> list[_Rectangle]:
    """The maximal free rectangles after a piece is laid."""
    left, bottom, right, top = used
    whole: list[_Rectangle] = []
    pieces: list[_Rectangle] = []
    for space in free:
        west, south, east, north = space
        if left >= east or right <= west or bottom >= north or top <= south:
            whole.append(space)
            continue
        if left > west:
            pieces.append((west, south, left, north))
        if right < east:
            pieces.append((right, south, east, north))
        if bottom > south:
            pieces.append((west, south, east, bottom))
        if top < north:
            pieces.append((west, top, east, north))
    new = list(dict.fromkeys(pieces))
    # A space left whole lies in no piece of another: it would have lain in that other.
    return whole + [
        one
        for one in new
        if not any(_inside(one, other) for other in whole)
        and not any(_inside(one, other) for other in new if other != one)
    ]


def _inside(one: _Rectangle, other: _Rectangle) -> bool:
    return (
        one[0] >= other[0] and one[1] >= other[1] and one[2] <= other[2] and one[3] <= other[3]
    )


def _numbered(places: Sequence[_Place]) -> list[_Place]:
    """The same layout with the pages in the order of the first piece on each."""
    rank = {page: number for number, page in enumerate(dict.fromkeys(p[0] for p in places))}
    return [(rank[page], left, bottom, turned) for page, left, bottom, turned in places]


def _worth(table: _Table, places: Sequence[_Place]) -> tuple[int, ...]:
    """What counts, in the order in which it counts; less is better."""
    pages = [place[0] for place in places]
    held: dict[str, list[int]] = {}
    for group, page in zip(table.groups, pages, strict=True):
        held.setdefault(group, []).append(page)
    spans = [max(own) - min(own) for own in held.values()]
    return (
        max(pages) + 1,
        sum(span - 1 for span in spans if span > 1),
        sum(place[3] for place in places),
        sum(before > after for before, after in pairwise(pages)),
        sum(spans),
    )
