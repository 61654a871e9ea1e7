"""Free space on pages as maximal rectangles, and pieces laid into it.

A page keeps its free space as maximal rectangles: every largest rectangle that is
still empty, overlapping one another. A piece goes into the corner of one of them;
what it covers is cut out of all.

Pieces grown by the gap to the right and to the top, on a page grown alike, may touch.
They are then a whole gap apart along one of the axes, which is what scissors want.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise


@dataclass(frozen=True, slots=True)
class Piece:
    """A rectangle to be laid on a page, in mm; pieces that belong together share a group.

    One that may not turn lies as it is: the tiles of a pattern all lie one way.
    """

    width: Fraction
    height: Fraction
    group: str
    may_turn: bool = True


Size = tuple[int, int]
Rectangle = tuple[int, int, int, int]  # left, bottom, right, top
Place = tuple[int, int, int, bool]  # page, left, bottom, turned
Begun = tuple[int, int, list[Rectangle]]  # how far from the group's page, page, free space
Layout = dict[int, Place]  # from a piece's number to its place
Fit = Callable[[int, int, int, int], tuple[int, ...]]
Way = tuple[Fit, int]  # one of `FITS`, one of `TURNINGS`

FITS: tuple[Fit, ...] = (
    lambda across, up, top, area: (min(across, up), max(across, up)),
    lambda across, up, top, area: (top,),
    lambda across, up, top, area: (area, min(across, up)),
)
"""How well a piece lies in a free rectangle, less is better: by what is left over
beside and above it, by how low its top is, by the rectangle's area."""

TURNINGS = LAST, LATE, FREE = range(3)
"""A piece is turned where it fits no page upright, no page begun, or wherever it lies better."""


@dataclass(frozen=True, slots=True)
class Table:
    """The task in whole parts of a mm, piece and page grown by the gap."""

    parts: int
    page: Size
    sizes: tuple[Size, ...]
    groups: tuple[str, ...]
    may_turn: tuple[bool, ...]

    @classmethod
    def of(
        cls, pieces: Sequence[Piece], width: Fraction, height: Fraction, gap: Fraction
    ) -> "Table":
        """The task from lengths in mm."""
        sides = [side for piece in pieces for side in (piece.width, piece.height)]
        parts = math.lcm(*(length.denominator for length in (width, height, gap, *sides)))
        across, up, *grown = (int((length + gap) * parts) for length in (width, height, *sides))
        sizes = tuple(zip(grown[::2], grown[1::2], strict=True))
        groups = tuple(piece.group for piece in pieces)
        return cls(parts, (across, up), sizes, groups, tuple(piece.may_turn for piece in pieces))

    def fits(self, index: int, turned: bool) -> bool:
        """Whether a piece, upright or turned, has room on an empty page."""
        across, up = lying(self.sizes[index], turned)
        return self.may_turn[index] >= turned and across <= self.page[0] and up <= self.page[1]

    def fewest_pages(self) -> int:
        """A count that no layout can beat."""
        area = sum(across * up for across, up in self.sizes)
        # Two pieces whose shorter sides together are longer than a page never share one.
        alone = sum(2 * min(size) > max(self.page) for size in self.sizes)
        return max(1, alone, -(-area // (self.page[0] * self.page[1])))

    def worth(self, layout: Layout) -> tuple[int, ...]:
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


def lying(size: Size, turned: bool) -> Size:
    """A size as it lies."""
    return (size[1], size[0]) if turned else size


def laid(table: Table, order: Sequence[int], way: Way, near: bool, most: int) -> Layout:
    """Pieces laid in an order on pages begun as needed; empty where those are too many.

    With `near`, the pages closest to the last piece of the same group are tried first.
    """
    pages: list[list[Rectangle]] = []
    homes: dict[str, int] = {}
    layout: Layout = {}
    for index in order:
        home = homes.get(table.groups[index], 0) * near
        begun = sorted((abs(page - home), page, free) for page, free in enumerate(pages))
        place = first_place(table, index, way, begun)
        if place is None:
            if len(pages) == most:
                return {}
            pages.append([(0, 0, *table.page)])
            place = first_place(table, index, way, [(0, len(pages) - 1, pages[-1])])
        assert place is not None  # `_too_large` saw to it
        page, left, bottom, turned = place
        across, up = lying(table.sizes[index], turned)
        pages[page] = cut_out(pages[page], (left, bottom, left + across, bottom + up))
        homes[table.groups[index]] = page
        layout[index] = place
    return numbered(layout)


def first_place(table: Table, index: int, way: Way, pages: list[Begun]) -> Place | None:
    """The best corner on the first page that takes the piece."""
    fit, turning = way
    possible = [turned for turned in (False, True) if table.fits(index, turned)]
    possible = possible[:1] if turning == LAST else possible
    for attitudes in [possible] if turning == FREE else [[turned] for turned in possible]:
        ways = [(turned, *lying(table.sizes[index], turned)) for turned in attitudes]
        for _, page, free in pages:
            found = [
                (fit(*spare, south + up, (east - west) * (north - south)), south, west, turned)
                for turned, across, up in ways
                for west, south, east, north in free
                if min(spare := (east - west - across, north - south - up)) >= 0
            ]
            if found:
                _, bottom, left, turned = min(found)
                return page, left, bottom, turned
    return None


def cut_out(free: Sequence[Rectangle], used: Rectangle) -> list[Rectangle]:
    """The maximal free rectangles after a piece is laid."""
    left, bottom, right, top = used
    whole: list[Rectangle] = []
    rests: dict[Rectangle, None] = {}
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


def _inside(one: Rectangle, other: Rectangle) -> bool:
    return one[0] >= other[0] and one[1] >= other[1] and one[2] <= other[2] and one[3] <= other[3]


def numbered(layout: Layout) -> Layout:
    """The same layout in the pieces' order, pages in the order of the first piece on each."""
    pages = dict.fromkeys(layout[index][0] for index in sorted(layout))
    rank = {page: number for number, page in enumerate(pages)}
    return {index: (rank[layout[index][0]], *layout[index][1:]) for index in sorted(layout)}
