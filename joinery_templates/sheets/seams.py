"""Where a pattern longer than a page is cut into tiles, along one axis.

A tile reaches half the overlap beyond the seam on each side::

    0            s1            s2        length
    |=== tile 0 ====|
                |=== tile 1 =====|
                              |== tile 2 ==|

Every tile is as long as the way between its two seams plus the overlap, if the ends
of the pattern are taken as seams half an overlap inside it.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from itertools import accumulate, pairwise

from joinery_templates.errors import Finding, InputError, mistake, refusal, refuse
from joinery_templates.exact import Fraction, ceil, floor
from joinery_templates.lengths import mm_text

Interval = tuple[Fraction, Fraction]
"""A stretch along the axis: low and high end, both part of it, low <= high."""

ENOUGH = Fraction(10)
"""A seam so far from a layout line stands well, whatever else is wished (our judgement)."""
ROOMY = Fraction(25)
"""In a tail up to twice as wide a seam stands in the middle (our judgement)."""

MOST_TILES = 1000
"""More tiles than this is no pattern that anyone would paste together."""


def fewest_tiles(length: Fraction, room: Fraction, overlap: Fraction) -> int:
    """How many tiles a pattern takes along one axis; more than `MOST_TILES` where none would do.

    Args:
        length: of the pattern.
        room: the longest tile that a page can take.
        overlap: how far two neighbouring tiles overlap, half on each side of the seam.
    """
    if length <= room:
        return 1
    if room <= overlap:
        return MOST_TILES + 1
    return ceil((length - overlap) / (room - overlap))


def choose_seams(
    length: Fraction,
    room: Fraction,
    overlap: Fraction,
    lines: Iterable[Interval],
    waste: Iterable[Interval] = (),
    words: Iterable[Interval] = (),
    rows: Iterable[Interval] = (),
) -> tuple[Fraction, ...]:
    """The positions of the seams, in order; none where the pattern fits the page.

    As few as can be. Best is wood that stays, such as a tail, between lines that the shared
    paper does not reach; else what is clearest of lines, in half millimetres. The seam that
    stands worst counts more than all better ones together. Then as few as can be go through
    words; then they stand in the middle between two lines; then near to where all tiles
    would be equal; then to the left. A seam stands on a whole mm, midway between two lines,
    or where it would stand if all tiles were equal.

    Args:
        length: of the pattern.
        room: the longest tile that a page can take.
        overlap: how far two neighbouring tiles overlap.
        lines: layout lines; a prick point has no length.
        waste: wood that goes; all between the lines on both sides of it goes too.
        words: where a seam would cut words.
        rows: those of them that run along a seam, and cannot slide out of its way: as bad as waste.

    Raises:
        InputError: `page-too-small`.
    """
    tiles = fewest_tiles(length, room, overlap)
    if tiles == 1:
        return ()
    if tiles > MOST_TILES:
        raise _page_too_small(length, room, overlap)
    avoid, shun, told = _Stretches(lines), _Stretches(words), _Stretches(rows)
    goes = avoid.gaps_with(_Stretches(waste))
    start, end, reach = overlap / 2, length - overlap / 2, room - overlap

    def grade(at: Fraction, clear: Fraction) -> int:
        is_waste = avoid.gap(at) in goes or not told.clearance(at, ENOUGH)
        steps = ceil(2 * (ENOUGH - min(clear, ENOUGH)))
        if not is_waste and clear >= min(start, ENOUGH):
            return steps
        return ceil(2 * ENOUGH) + 1 + 2 * steps + is_waste

    # From the last seam to the first, the best way from every place to the end. No place of
    # a seam is beyond one of the next, or fewer tiles would do.
    ways: list[_Way] = [(0, 0, Fraction(0), Fraction(0), (end,))]
    for seam in reversed(range(tiles)):
        even = start + seam * (end - start) / tiles
        low, high = max(start, end - (tiles - seam) * reach), start + seam * reach
        whole = (Fraction(place) for place in range(ceil(low), floor(high) + 1))
        middles = avoid.middles[bisect_left(avoid.middles, low) : bisect_right(avoid.middles, high)]
        nexts, best = [way[-1][0] for way in ways], list(accumulate(ways, min))
        ways = []
        for at in sorted({*whole, *middles, even}):
            in_reach = bisect_right(nexts, at + reach)
            if in_reach:
                burden, through, off, aside, seams = best[in_reach - 1]
                clear = avoid.clearance(at, ROOMY)
                burden += tiles ** grade(at, clear)
                through += not shun.clearance(at, ENOUGH)
                ways.append((burden, through, off - clear, aside + abs(at - even), (at, *seams)))
    return min(ways)[-1][1:-1]


_Way = tuple[int, int, Fraction, Fraction, tuple[Fraction, ...]]
"""What a way to the end costs, in the order in which it counts, and its places."""


def _page_too_small(length: Fraction, room: Fraction, overlap: Fraction) -> InputError:
    message = (
        f"A page has room for {mm_text(room)} of a template that is {mm_text(length)} long; "
        f"of that, {mm_text(overlap)} is overlap."
    )
    remedy = "Choose a larger paper, a smaller margin or a smaller overlap."
    return refusal("page-too-small", message, remedy)


def joined(stretches: Iterable[Interval]) -> list[Interval]:
    """Stretches in order, those that touch made one."""
    found: list[Interval] = []
    for low, high in sorted(stretches):
        if found and low <= found[-1][1]:
            first, last = found.pop()
            found.append((first, max(last, high)))
        else:
            found.append((low, high))
    return found


class _Stretches:
    """Stretches along the axis, joined where they touch.

    A gap before each and one after the last are numbered from 0; `middles` are those of the
    gaps between two.
    """

    def __init__(self, given: Iterable[Interval]) -> None:
        self._joined = joined(given)
        self._lows = [low for low, _ in self._joined]
        self.middles = [(left[1] + right[0]) / 2 for left, right in pairwise(self._joined)]

    def clearance(self, at: Fraction, most: Fraction) -> Fraction:
        """From a place to the nearest of them, at most so much; 0 inside one."""
        after = self.gap(at)
        near = self._joined[max(0, after - 1) : after + 1]
        return min([most, *(max(low - at, at - high, Fraction(0)) for low, high in near)])

    def gap(self, at: Fraction) -> int:
        """The number of the gap that a place is in, or of the one after the stretch it is in."""
        return bisect_right(self._lows, at)

    def gaps_with(self, others: "_Stretches") -> frozenset[int]:
        """The numbers of the gaps into which other stretches reach."""
        return frozenset(
            gap
            for low, high in others._joined
            for gap in range(self.gap(low), self.gap(high) + 1)
            if self._reaches_into(gap, low, high)
        )

    def _reaches_into(self, gap: int, low: Fraction, high: Fraction) -> bool:
        begins = self._joined[gap - 1][1] if gap else low
        ends = self._joined[gap][0] if gap < len(self._joined) else high
        return max(begins, low) < min(ends, high)


def clearance(seams: Iterable[Fraction], lines: Iterable[Interval], most: Fraction) -> Fraction:
    """How near seams come to lines, at most so much."""
    avoid = _Stretches(lines)
    return min([most, *(avoid.clearance(seam, most) for seam in seams)])


def checked_seams(
    length: Fraction, room: Fraction, overlap: Fraction, given: Sequence[Fraction]
) -> tuple[Fraction, ...]:
    """The person's seams in order, if every one is possible.

    Raises:
        InputError: `seam-impossible`, for each that is not.
    """
    order = sorted(range(len(given)), key=lambda index: given[index])
    seams = tuple(given[index] for index in order)
    refuse(_misplaced(length, seams, order))
    refuse(
        mistake(
            "seam-impossible",
            f"The tile from {mm_text(start)} to {mm_text(end)} is {mm_text(end - start)} long; "
            f"a page has room for {mm_text(room)}.",
            "Move this seam or add another one.",
            # A tile is told at the seam that ends it, the last one at the last seam.
            f"seams[{order[min(tile, len(order) - 1)]}]",
        )
        for tile, (start, end) in enumerate(tile_spans(length, overlap, seams))
        if end - start > room
    )
    return seams


def _misplaced(
    length: Fraction, seams: Sequence[Fraction], order: Sequence[int]
) -> Iterator[Finding]:
    for before, seam, index in zip((None, *seams), seams, order, strict=False):
        if not 0 < seam < length:
            message = f"A seam at {mm_text(seam)} does not cut the template."
            remedy = f"Give a place between 0 and {mm_text(length)}."
        elif seam == before:
            message = f"Two seams stand at {mm_text(seam)}."
            remedy = "Give every seam once."
        else:
            continue
        yield mistake("seam-impossible", message, remedy, f"seams[{index}]")


def tile_spans(
    length: Fraction, overlap: Fraction, seams: Sequence[Fraction]
) -> tuple[Interval, ...]:
    """From where to where each tile reaches, for seams in order."""
    half = overlap / 2
    starts = [Fraction(0), *(max(Fraction(0), seam - half) for seam in seams)]
    ends = [*(min(length, seam + half) for seam in seams), length]
    return tuple(zip(starts, ends, strict=True))
