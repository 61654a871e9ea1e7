"""Where a pattern longer than a page is cut into tiles, along one axis.

A tile reaches half the overlap beyond the seam on each side::

    0            s1            s2        length
    |=== tile 0 ====|
                |=== tile 1 =====|
                              |== tile 2 ==|

Every tile is as long as the way between its two seams plus the overlap, if the ends
of the pattern are taken as seams half an overlap inside it. The search sees only that:
rows of candidates, one row a seam, and steps from row to row. It counts in whole parts
of a millimetre, so that it is exact and quick.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.lengths import mm_text

Interval = tuple[Fraction, Fraction]
"""A layout line along the axis: low and high end, both part of it, low <= high."""

ENOUGH = Fraction(10)
"""A seam further than this from a layout line gains nothing more (our judgement)."""

MOST_TILES = 1000
"""More tiles than this is no pattern that anyone would paste together."""

_FINEST = 1_920_000
"""Parts of a mm: holds 1/64 in, thirds and thousandths of a mm exactly."""

_Rows = list[list[int]]


def choose_seams(
    length: Fraction,
    room: Fraction,
    overlap: Fraction,
    avoid: Sequence[Interval],
    given: Sequence[Fraction] = (),
) -> tuple[Fraction, ...]:
    """The positions of the seams, in order; none when the pattern fits the page.

    The choice: fewest tiles; then the greatest smallest `seam_clearance`; then the
    least difference between the longest and the shortest tile; then the leftmost.
    A seam stands on a whole mm, midway between two layout lines, or where it would
    stand if all tiles were equal. A layout line that the search's parts of a mm do
    not hold exactly is taken a millionth of a mm wider at most.

    Args:
        length: of the pattern.
        room: the longest tile a page can take.
        overlap: how far two neighbouring tiles overlap, half on each side of the seam.
        avoid: layout lines that a seam keeps away from; a prick point has no length.
        given: seams chosen by the person, checked and used as they are.

    Raises:
        InputError: `page-too-small` or `seam-impossible`.
    """
    if not given and length <= room:
        return ()
    if room <= overlap:
        raise _page_too_small(
            f"A page has room for {mm_text(room)} of the pattern, "
            f"not more than the overlap of {mm_text(overlap)}."
        )
    if given:
        return _checked(length, room, overlap, given)
    tiles = math.ceil((length - overlap) / (room - overlap))
    if tiles > MOST_TILES:
        raise _page_too_small(
            f"The pattern is {mm_text(length)} long and would take {tiles} pages "
            f"with room for {mm_text(room)} each."
        )
    strip = _Strip.of(length, room, overlap, avoid, tiles)
    rows = _clearest(strip)
    seams = min(_leftmost(rows, *steps) for steps in _most_even(rows, strip.reach))
    return tuple(Fraction(seam, strip.parts) for seam in seams)


def seam_clearance(seam: Fraction, avoid: Sequence[Interval]) -> Fraction:
    """The distance in mm from a seam to the nearest layout line (0 inside it), or `ENOUGH`."""
    distances = (max(low - seam, seam - high, Fraction(0)) for low, high in avoid)
    return min([ENOUGH, *distances])


def tile_spans(
    length: Fraction, overlap: Fraction, seams: Sequence[Fraction]
) -> tuple[Interval, ...]:
    """From where to where each tile reaches, for seams in order."""
    half = overlap / 2
    starts = [Fraction(0), *(max(Fraction(0), seam - half) for seam in seams)]
    ends = [*(min(length, seam + half) for seam in seams), length]
    return tuple(zip(starts, ends, strict=True))


def _page_too_small(message: str) -> InputError:
    remedy = "Choose a larger paper, a smaller margin or a smaller overlap."
    return InputError(mistake("page-too-small", message, remedy))


def _checked(
    length: Fraction, room: Fraction, overlap: Fraction, given: Sequence[Fraction]
) -> tuple[Fraction, ...]:
    """The person's seams in order, if every one is possible; else every mistake found."""
    order = sorted(range(len(given)), key=lambda index: given[index])
    seams = tuple(given[index] for index in order)
    findings = list(_misplaced(length, seams, order))
    if not findings:
        for tile, (start, end) in enumerate(tile_spans(length, overlap, seams)):
            if end - start > room:
                message = (
                    f"The tile from {mm_text(start)} to {mm_text(end)} is "
                    f"{mm_text(end - start)} long; a page has room for {mm_text(room)}."
                )
                # A tile is told at the seam that ends it, the last one at the last seam.
                place = f"seams[{order[min(tile, len(order) - 1)]}]"
                remedy = "Move this seam or add another one."
                findings.append(mistake("seam-impossible", message, remedy, place))
    if findings:
        raise InputError(*findings)
    return seams


def _misplaced(
    length: Fraction, seams: Sequence[Fraction], order: Sequence[int]
) -> Iterator[Finding]:
    for rank, (seam, index) in enumerate(zip(seams, order, strict=True)):
        if not 0 < seam < length:
            message = f"A seam at {mm_text(seam)} does not cut the pattern."
            remedy = f"Give a place between 0 and {mm_text(length)}."
        elif rank and seam == seams[rank - 1]:
            message = f"Two seams stand at {mm_text(seam)}."
            remedy = "Give every seam once."
        else:
            continue
        yield mistake("seam-impossible", message, remedy, f"seams[{index}]")


@dataclass(frozen=True, slots=True)
class _Strip:
    """The pattern in whole parts of a mm, with its ends half an overlap inside."""

    parts: int  # in one mm
    start: int  # where the row of seams begins
    end: int  # and where it ends
    reach: int  # the longest step from one seam to the next
    tiles: int  # how many steps
    lines: tuple[tuple[int, int], ...]  # layout lines, joined where they touch, in order

    @classmethod
    def of(
        cls,
        length: Fraction,
        room: Fraction,
        overlap: Fraction,
        avoid: Sequence[Interval],
        tiles: int,
    ) -> "_Strip":
        half = overlap / 2
        ends = math.lcm(length.denominator, room.denominator, half.denominator)
        parts = 2 * math.lcm(ends, _FINEST) * tiles
        lines: list[tuple[int, int]] = []
        # An even number of parts, so that the middle of a gap is a whole one.
        for low, high in sorted(avoid):
            first, last = 2 * math.floor(low * parts / 2), 2 * math.ceil(high * parts / 2)
            if lines and first <= lines[-1][1]:
                lines[-1] = (lines[-1][0], max(lines[-1][1], last))
            else:
                lines.append((first, last))
        start, end, reach = half * parts, (length - half) * parts, (room - overlap) * parts
        return cls(parts, int(start), int(end), int(reach), tiles, tuple(lines))

    def rows(self) -> _Rows:
        """The candidates for each seam, in order, each where enough tiles can reach it."""
        middles = [(left[1] + right[0]) // 2 for left, right in pairwise(self.lines)]
        rows = [[self.start]]
        for seam in range(1, self.tiles):
            first = max(self.start + 1, self.end - (self.tiles - seam) * self.reach)
            last = min(self.end - 1, self.start + seam * self.reach)
            whole = range(-(-first // self.parts) * self.parts, last + 1, self.parts)
            middle = middles[bisect_left(middles, first) : bisect_right(middles, last)]
            even = self.start + seam * (self.end - self.start) // self.tiles
            rows.append(sorted({*whole, *middle, even}))
        return [*rows, [self.end]]

    def clearance(self, position: int) -> int:
        """`seam_clearance` in parts."""
        found = int(ENOUGH) * self.parts
        after = bisect_right(self.lines, (position, position))
        for low, high in self.lines[max(0, after - 1) : after + 1]:
            found = min(found, max(low - position, position - high, 0))
        return found


def _clearest(strip: _Strip) -> _Rows:
    """The rows without the candidates that would make the smallest clearance smaller."""
    rows = strip.rows()
    clearances = [[strip.clearance(position) for position in row] for row in rows]
    clearances[0] = clearances[-1] = [int(ENOUGH) * strip.parts]

    def thinned(least: int) -> _Rows:
        return [
            [position for position, clearance in zip(*both, strict=True) if clearance >= least]
            for both in zip(rows, clearances, strict=True)
        ]

    def too_much(least: int) -> bool:
        longest = _least_longest(thinned(least), 1)
        return longest is None or longest > strip.reach

    levels = sorted({clearance for row in clearances for clearance in row})
    # The even seams always stand, so the lowest level is never too much.
    return thinned(levels[bisect_left(levels, True, key=too_much) - 1])


def _least_longest(rows: _Rows, shortest: int) -> int | None:
    """The longest step of the way through the rows whose longest step is least.

    No step is below `shortest` (which may be negative: see `_most_even`). None when
    there is no way. Of two reached candidates the later one is the better start for
    all that follow, unless its longest step is greater: only such pairs are kept, in
    order of both, and the best start lies where step and longest so far cross.
    """
    nothing = -4 * (abs(rows[0][0]) + abs(rows[-1][0]))
    reached = [(rows[0][0], nothing)]
    for row in rows[1:]:
        starts: list[tuple[int, int]] = []
        crossings: list[int] = []
        following: list[tuple[int, int]] = []
        seen = 0
        for position in row:
            while seen < len(reached) and reached[seen][0] <= position - shortest:
                start = reached[seen]
                seen += 1
                while starts and starts[-1][1] >= start[1]:
                    starts.pop()
                    crossings.pop()
                starts.append(start)
                crossings.append(start[0] + start[1])
            if starts:
                at = bisect_left(crossings, position)
                longest = position - starts[at - 1][0] if at else starts[0][1]
                if 0 < at < len(starts):
                    longest = min(longest, starts[at][1])
                following.append((position, longest))
        reached = following
    return reached[0][1] if reached else None


def _most_even(rows: _Rows, reach: int) -> list[tuple[int, int]]:
    """The shortest and longest step of the most even ways with no step beyond `reach`.

    Several pairs where several are equally even. Each round takes the least longest
    step for a growing shortest step, then the greatest shortest step for that longest
    one, which is the same question asked of the mirrored rows.
    """
    mirrored = [[-position for position in reversed(row)] for row in rows]
    found: list[tuple[int, int]] = []
    best: int | None = None
    shortest = 1
    while (longest := _least_longest(rows, shortest)) is not None and longest <= reach:
        negative = _least_longest(mirrored, -longest)
        assert negative is not None  # the way just found is one
        spread = longest + negative
        if best is None or spread < best:
            best, found = spread, []
        if spread == best:
            found.append((-negative, longest))
        # No later round has a smaller longest step, so nothing below is as even.
        shortest = max(-negative + 1, longest - best)
    return found


def _leftmost(rows: _Rows, shortest: int, longest: int) -> list[int]:
    """The seams of the leftmost way with no step outside the two bounds."""
    open_ends = [rows[-1]]
    for row in reversed(rows[:-1]):
        after = open_ends[-1]
        open_ends.append(
            [
                position
                for position in row
                if bisect_left(after, position + shortest) < bisect_right(after, position + longest)
            ]
        )
    at, seams = rows[0][0], []
    for row in open_ends[-2:0:-1]:
        at = row[bisect_left(row, at + shortest)]
        seams.append(at)
    return seams
