"""Laying pieces on pages in the order given: each beside or below all that come before it.

Nothing stands above or to the left of what comes before it on its page. What belongs together
begins a row of its own, on what is left of a page where that saves one::

    +---------+-----+  +----+------+
    | 1       | 2   |  | 1  | 3    |
    |         +-----+  |    |      |
    |         | 3   |  +----+      |
    +------+--+-----+  | 2  +------+
    | 4    |           |    | 4    |
    +------+           +----+------+
       in rows          in columns
"""

from collections.abc import Iterator, Sequence
from itertools import product

from msgspec import Struct

from joinery_templates.exact import ZERO, Fraction

Size = tuple[Fraction, Fraction]
"""Width and height."""


class Piece(Struct, frozen=True):
    """What is to be laid.

    Attributes:
        width: as it lies unless it is turned.
        height: likewise.
        may_turn: whether it may be turned by a quarter.
    """

    width: Fraction
    height: Fraction
    may_turn: bool = False


class Spot(Struct, frozen=True):
    """Where a piece lies.

    Attributes:
        page: counted from 0.
        x: from the left of the page's usable area to the left of the piece, in mm.
        y: from the top of that area down to the top of the piece.
        turned: whether it is turned.
    """

    page: int
    x: Fraction
    y: Fraction
    turned: bool = False


Ways = Sequence[tuple[tuple[bool, ...], bool]]
_TURNS = (False,), (True,), (True, False), (False, True)
"""Which way round pieces lie; another way where the area takes them in none of these."""
WAYS: Ways = tuple(product(_TURNS, (False, True)))
"""How pieces that belong together may lie, the best first: which way round, and in columns."""
CALMEST = (WAYS[:2], WAYS[:4], WAYS)
"""Ways that all groups choose from: upright alone, then each turned one way, then mixed."""


def pack(
    groups: Sequence[Sequence[Piece]], area: Size, gap: Fraction, used: Fraction = ZERO
) -> tuple[tuple[Spot, ...], ...]:
    """A spot for every piece of every group, in the order given.

    Each group lies in a way in which it reaches fewest pages, all of it turned alike where it
    can; ways that look less calm are there only where they save a page in all. A group is parted
    only where it would be on pages of its own too, or where that saves one.

    Args:
        groups: pieces that belong together; none is larger than the area, turned if it may be.
        area: what can be used of every page.
        gap: kept between pieces; none to the edge of the area.
        used: how far down the first page is used already.
    """
    found = (tuple(_packed(groups, ways, area, gap, used)) for ways in CALMEST)
    return min(found, key=lambda laid: (laid[-1][-1].page if laid else 0, sum(map(_unlike, laid))))


def _packed(
    groups: Sequence[Sequence[Piece]], ways: Ways, area: Size, gap: Fraction, used: Fraction
) -> Iterator[tuple[Spot, ...]]:
    """The groups, each in the best of these ways."""
    known: dict[object, tuple[tuple[Spot, ...], Fraction]] = {}
    page = 0  # the last, used so far down
    for group in groups:
        key = (tuple(group), used)
        if key not in known:
            spots = _best(group, ways, used, area, gap)
            known[key] = spots, max(_bottoms(group, spots))
        spots, depth = known[key]
        yield tuple(Spot(page + one.page, one.x, one.y, one.turned) for one in spots)
        page, used = page + spots[-1].page, depth


def _best(
    group: Sequence[Piece], ways: Ways, used: Fraction, area: Size, gap: Fraction
) -> tuple[Spot, ...]:
    """The spots of a group that begins on a page used so far down, or on the next."""
    tops = [(1, ZERO), (0, used + gap)] if used else [(0, ZERO)]
    if not any(piece.may_turn for piece in group):
        ways = WAYS[:2]
    best: tuple[Spot, ...] = ()
    for page, top in tops:
        for way in ways:
            spots = tuple(_laid(group, page, top, way, area, gap))
            if not best or _dear(spots) < _dear(best):
                best = spots
            if _dear(spots) == (page, False):
                break  # better it cannot lie
    return best


def _dear(spots: Sequence[Spot]) -> tuple[int, bool]:
    return spots[-1].page, _unlike(spots)


def _unlike(spots: Sequence[Spot]) -> bool:
    """Whether some pieces are turned and some not."""
    return len({spot.turned for spot in spots}) > 1


def _laid(
    group: Sequence[Piece],
    page: int,
    top: Fraction,
    way: tuple[tuple[bool, ...], bool],
    area: Size,
    gap: Fraction,
) -> Iterator[Spot]:
    """Spots in one way, the first page used down to `top`."""
    turns, in_columns = way
    taken: list[Size] = []  # what lies on the page, and the gap past it, to the right and down
    for piece in group:
        while not (found := _first_room(_lying(piece, turns, area), taken, top, area, in_columns)):
            page, top, taken = page + 1, ZERO, []
        (x, y), turned, (width, height) = found
        taken.append((x + width + gap, y + height + gap))
        yield Spot(page, x, y, turned)


def _lying(piece: Piece, turns: Sequence[bool], area: Size) -> Sequence[tuple[bool, Size]]:
    upright = piece.width, piece.height
    if not piece.may_turn:
        return [(False, upright)]
    sizes = {False: upright, True: upright[::-1]}
    fit = [
        turned
        for turned, (width, height) in sizes.items()
        if width <= area[0] and height <= area[1]
    ]
    return [(turned, sizes[turned]) for turned in turns if turned in fit] or [
        (fit[0], sizes[fit[0]])
    ]


def _first_room(
    lying: Sequence[tuple[bool, Size]],
    taken: Sequence[Size],
    top: Fraction,
    area: Size,
    in_columns: bool,
) -> tuple[Size, bool, Size] | None:
    """The first spot with room, right of or below all that is taken: the highest, or leftmost."""
    rows = {top, *(down for _, down in taken)}
    corners = [(max((right for right, down in taken if down > y), default=ZERO), y) for y in rows]
    corners.sort(key=lambda corner: corner if in_columns else corner[::-1])
    for turned, (width, height) in lying:
        right, low = area[0] - width, area[1] - height
        for x, y in corners:
            if x <= right and y <= low:
                return (x, y), turned, (width, height)
    return None


def _bottoms(group: Sequence[Piece], spots: Sequence[Spot]) -> Iterator[Fraction]:
    """How far down the pieces of a group reach on its last page."""
    for piece, spot in zip(group, spots, strict=True):
        if spot.page == spots[-1].page:
            yield spot.y + (piece.width if spot.turned else piece.height)
