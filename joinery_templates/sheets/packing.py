"""Laying pieces on as few pages as possible, square to the page.

A page keeps its free space as maximal rectangles: every largest rectangle that is
still empty, overlapping one another. A piece goes into the corner of one of them;
what it covers is cut out of all. Many such runs are made; the best layout is kept.

Pieces grown by the gap to the right and to the top, on a page grown alike, may touch.
They are then a whole gap apart along one of the axes, which is what scissors want.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice, pairwise, product

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.lengths import mm_text

MOST_PLACED, MOST_RUNS = 1800, 90
"""Bounds of each half of the search, so that it is quick and the same on every machine."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A rectangle to be laid on a page, in mm; pieces that belong together share a group.

    One that may not turn lies as it is: the tiles of a pattern all lie one way.
    """

    width: Fraction
    height: Fraction
    group: str
    may_turn: bool = True


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
    page 0, and so on. The same pieces always give the same spots.

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
    table = _Table.of(pieces, width, height, gap)
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


_Size = tuple[int, int]
_Rectangle = tuple[int, int, int, int]  # left, bottom, right, top
_Place = tuple[int, int, int, bool]  # page, left, bottom, turned
_Begun = tuple[int, int, list[_Rectangle]]  # how far from the group's page, page, free space
_Layout = dict[int, _Place]  # from a piece's number to its place
_Fit = Callable[[int, int, int, int], tuple[int, ...]]
_Way = tuple[_Fit, int]  # one of `_FITS`, one of `_TURNINGS`
_Order = Callable[[_Size], tuple[int, ...]]

_FITS: tuple[_Fit, ...] = (
    lambda across, up, top, area: (min(across, up), max(across, up)),
    lambda across, up, top, area: (top,),
    lambda across, up, top, area: (area, min(across, up)),
)
"""How well a piece lies in a free rectangle, less is better: by what is left over
beside and above it, by how low its top is, by the rectangle's area."""

_ORDERS: tuple[_Order, ...] = (
    lambda size: (-size[0] * size[1],),
    lambda size: (-max(size), -min(size)),
    lambda size: (-min(size), -max(size)),
    lambda size: (-size[1], -size[0]),
    lambda size: (),
)
"""Which pieces come first: large, long, thick, high ones; or as they were given."""

_TURNINGS = _LAST, _LATE, _FREE = range(3)
"""A piece is turned where it fits no page upright, no page begun, or wherever it lies better."""


@dataclass(frozen=True, slots=True)
class _Table:
    """The task in whole parts of a mm, piece and page grown by the gap."""

    parts: int
    page: _Size
    sizes: tuple[_Size, ...]
    groups: tuple[str, ...]
    may_turn: tuple[bool, ...]

    @classmethod
    def of(
        cls, pieces: Sequence[Piece], width: Fraction, height: Fraction, gap: Fraction
    ) -> "_Table":
        sides = [side for piece in pieces for side in (piece.width, piece.height)]
        parts = math.lcm(*(length.denominator for length in (width, height, gap, *sides)))
        across, up, *grown = (int((length + gap) * parts) for length in (width, height, *sides))
        sizes = tuple(zip(grown[::2], grown[1::2], strict=True))
        groups = tuple(piece.group for piece in pieces)
        return cls(parts, (across, up), sizes, groups, tuple(piece.may_turn for piece in pieces))

    def fits(self, index: int, turned: bool) -> bool:
        across, up = _lying(self.sizes[index], turned)
        return self.may_turn[index] >= turned and across <= self.page[0] and up <= self.page[1]

    def fewest_pages(self) -> int:
        """A count that no layout can beat."""
        area = sum(across * up for across, up in self.sizes)
        # Two pieces whose shorter sides together are longer than a page never share one.
        alone = sum(2 * min(size) > max(self.page) for size in self.sizes)
        return max(1, alone, -(-area // (self.page[0] * self.page[1])))

    def worth(self, layout: _Layout) -> tuple[int, ...]:
        """What counts, in the order in which it counts; less is better."""
        pages = [place[0] for place in layout.values()]
        held: dict[str, list[int]] = {}
        for group, page in zip(self.groups, pages, strict=True):
            held.setdefault(group, []).append(page)
        spans = [max(own) - min(own) for own in held.values()]
        return (
            max(pages) + 1,
            sum(span - 1 for span in spans if span > 1),
            sum(place[3] for place in layout.values()),
            sum(before > after for before, after in pairwise(pages)),
            sum(spans),
        )


def _lying(size: _Size, turned: bool) -> _Size:
    return (size[1], size[0]) if turned else size


def _search(table: _Table) -> _Layout:
    """Few pages first; then, on no more pages, the layout that is best to work with."""
    runs = min(MOST_RUNS, MOST_PLACED // len(table.sizes))
    best = _dense(table, runs)
    pages = table.worth(best)[0]
    tries = product((True, False), _TURNINGS, _ORDERS, _FITS)
    for near, turning, order, fit in islice(tries, runs):
        if not any(table.worth(best)[1:4]):
            break
        layout = _run(table, _sorted(table, order, near), (fit, turning), near, pages)
        best = min(best, layout or best, key=table.worth)
    return best


def _dense(table: _Table, runs: int) -> _Layout:
    """A layout on few pages, whatever becomes of the groups.

    While pages might be saved, the pieces on the emptiest page, which came too late to
    find a place elsewhere, are laid earlier the next time.
    """
    ways = list(zip(_FITS, (_FREE, _LATE, _FREE), strict=True))
    trials = [(_sorted(table, order, False), way) for order in _ORDERS[:3] for way in ways]
    best: _Layout = {}
    for run in range(max(1, runs)):
        order, way = trials[run % len(trials)]
        layout = _run(table, order, way, False, len(order))
        best = min(best or layout, layout, key=table.worth)
        if table.worth(best)[0] == table.fewest_pages():
            break
        trials[run % len(trials)] = (_late_earlier(table, order, layout), way)
    return best


def _late_earlier(table: _Table, order: Sequence[int], layout: _Layout) -> list[int]:
    """The order with the pieces of the emptiest page moved ahead by a third of its length."""
    laid = [0] * len(order)
    for index, place in layout.items():
        laid[place[0]] += 1 + table.sizes[index][0] * table.sizes[index][1]
    emptiest = min((area, page) for page, area in enumerate(laid) if area)[1]
    ahead = len(order) // 3
    rank = {index: now - ahead * (layout[index][0] == emptiest) for now, index in enumerate(order)}
    return sorted(order, key=lambda index: rank[index])


def _sorted(table: _Table, order: _Order, near: bool) -> list[int]:
    """The pieces' numbers in the order to lay them; group by group when `near`."""
    first = {group: rank for rank, group in enumerate(dict.fromkeys(table.groups))}
    return sorted(
        range(len(table.sizes)),
        key=lambda index: (first[table.groups[index]] if near else 0, order(table.sizes[index])),
    )


def _run(table: _Table, order: Sequence[int], way: _Way, near: bool, most: int) -> _Layout:
    """Pieces laid in an order on pages begun as needed; empty where those are too many.

    With `near`, the pages closest to the last piece of the same group are tried first.
    """
    pages: list[list[_Rectangle]] = []
    homes: dict[str, int] = {}
    layout: _Layout = {}
    for index in order:
        home = homes.get(table.groups[index], 0) * near
        begun = sorted((abs(page - home), page, free) for page, free in enumerate(pages))
        place = _first_place(table, index, way, begun)
        if place is None:
            if len(pages) == most:
                return {}
            pages.append([(0, 0, *table.page)])
            place = _first_place(table, index, way, [(0, len(pages) - 1, pages[-1])])
        assert place is not None  # `_too_large` saw to it
        page, left, bottom, turned = place
        across, up = _lying(table.sizes[index], turned)
        pages[page] = _cut(pages[page], (left, bottom, left + across, bottom + up))
        homes[table.groups[index]] = page
        layout[index] = place
    return _numbered(layout)


def _first_place(table: _Table, index: int, way: _Way, pages: list[_Begun]) -> _Place | None:
    """The best corner on the first page that takes the piece."""
    fit, turning = way
    possible = [turned for turned in (False, True) if table.fits(index, turned)]
    possible = possible[:1] if turning == _LAST else possible
    for attitudes in [possible] if turning == _FREE else [[turned] for turned in possible]:
        lying = [(turned, *_lying(table.sizes[index], turned)) for turned in attitudes]
        for _, page, free in pages:
            found = [
                (fit(*spare, south + up, (east - west) * (north - south)), south, west, turned)
                for turned, across, up in lying
                for west, south, east, north in free
                if min(spare := (east - west - across, north - south - up)) >= 0
            ]
            if found:
                _, bottom, left, turned = min(found)
                return page, left, bottom, turned
    return None


def _cut(free: Sequence[_Rectangle], used: _Rectangle) -> list[_Rectangle]:
    """The maximal free rectangles after a piece is laid."""
    left, bottom, right, top = used
    whole: list[_Rectangle] = []
    rests: dict[_Rectangle, None] = {}
    for space in free:
        west, south, east, north = space
        if left >= east or right <= west or bottom >= north or top <= south:
            whole.append(space)
            continue
        beside = ((west, south, left, north), (right, south, east, north))
        above = ((west, south, east, bottom), (west, top, east, north))
        rests |= {rest: None for rest in beside + above if rest[0] < rest[2] and rest[1] < rest[3]}
    # A space left whole never lies in a rest: it would have lain in the space cut.
    return whole + [
        rest
        for rest in rests
        if not any(_inside(rest, other) for other in whole)
        and not any(_inside(rest, other) for other in rests if other != rest)
    ]


def _inside(one: _Rectangle, other: _Rectangle) -> bool:
    return one[0] >= other[0] and one[1] >= other[1] and one[2] <= other[2] and one[3] <= other[3]


def _numbered(layout: _Layout) -> _Layout:
    """The same layout in the pieces' order, pages in the order of the first piece on each."""
    pages = dict.fromkeys(layout[index][0] for index in sorted(layout))
    rank = {page: number for number, page in enumerate(pages)}
    return {index: (rank[layout[index][0]], *layout[index][1:]) for index in sorted(layout)}
