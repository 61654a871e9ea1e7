"""Finding, among thousands of lines, the one nearest to a line that is looked for."""

import math
from collections import defaultdict
from collections.abc import Iterable

from joinery_templates.measure.plane import Segment

_CLOSE = 0.25
_TURN_DEG = 1.0


class Lines:
    """Found lines, sorted into squares by their middles.

    The middle of a line moves less than its ends do, so two lines that lie within
    `reach` of each other have their middles within `reach` too.
    """

    def __init__(self, found: Iterable[Segment], reach: float) -> None:
        """Args are the lines, and how far off a partner may lie (same unit)."""
        self.found = tuple(found)
        self.reach = reach
        self._close = _squares(self.found, reach * _CLOSE)
        self._far = _squares(self.found, reach)
        self._courses: dict[tuple[int, int], list[Segment]] | None = None

    def partner(self, wanted: Segment) -> Segment | None:
        """The line with both ends nearest to the wanted one, turned the same way.

        None where no line has both ends within reach. Where only a longer line
        runs over both ends (other programs join pieces that continue each other),
        the part of it between them.
        """
        for squares, reach in ((self._close, self.reach * _CLOSE), (self._far, self.reach)):
            nearest = _nearest(wanted, squares, reach)
            if nearest is not None:
                return nearest
        return self._part_of_longer(wanted)

    def _part_of_longer(self, wanted: Segment) -> Segment | None:
        if wanted.length < self.reach * _CLOSE:
            return None
        if self._courses is None:
            self._courses = defaultdict(list)
            for line in self.found:
                if line.length >= self.reach:
                    self._courses[_course(line, self.reach)].append(line)
        turn, offset = _course(wanted, self.reach)
        near = [
            part
            for turned in (turn - 1, turn, turn + 1)
            for moved in (offset - 1, offset, offset + 1)
            for line in self._courses.get((turned, moved), ())
            if (part := _overlap(wanted, line, self.reach * _CLOSE)) is not None
        ]
        return min(near, key=lambda part: farther_end(wanted, part), default=None)


def farther_end(wanted: Segment, found: Segment) -> float:
    """The larger of the two distances from end to end."""
    return max(
        math.hypot(found[0] - wanted[0], found[1] - wanted[1]),
        math.hypot(found[2] - wanted[2], found[3] - wanted[3]),
    )


def _squares(found: tuple[Segment, ...], side: float) -> dict[tuple[int, int], list[Segment]]:
    squares: dict[tuple[int, int], list[Segment]] = defaultdict(list)
    for line in found:
        squares[_square(line, side)].append(line)
    return squares


def _square(line: Segment, side: float) -> tuple[int, int]:
    return (
        math.floor((line[0] + line[2]) / 2 / side),
        math.floor((line[1] + line[3]) / 2 / side),
    )


def _nearest(
    wanted: Segment, squares: dict[tuple[int, int], list[Segment]], reach: float
) -> Segment | None:
    column, row = _square(wanted, reach)
    best, least = None, reach
    for across in (column - 1, column, column + 1):
        for along in (row - 1, row, row + 1):
            for line in squares.get((across, along), ()):
                for turned in (line, line.turned_about):
                    distance = farther_end(wanted, turned)
                    if distance <= least:
                        best, least = turned, distance
    return best


def _course(line: Segment, side: float) -> tuple[int, int]:
    """Direction in degrees and distance from the origin, both as whole steps.

    Lines near the jump from 180 to 0 degrees fall on the low side, as upright and
    level lines do not lie near it.
    """
    turn = (math.degrees(math.atan2(line.y1 - line.y0, line.x1 - line.x0)) + 45) % 180 - 45
    slope = math.radians(turn)
    offset = line.y0 * math.cos(slope) - line.x0 * math.sin(slope)
    return math.floor(turn / _TURN_DEG), math.floor(offset / side)


def _overlap(wanted: Segment, line: Segment, reach: float) -> Segment | None:
    """The feet of the wanted line's ends on a longer line, if both lie on it and near."""
    across, along, length = line.x1 - line.x0, line.y1 - line.y0, line.length
    feet: list[float] = []
    for x, y in (wanted[:2], wanted[2:]):
        share = ((x - line.x0) * across + (y - line.y0) * along) / length**2
        if not -reach <= share * length <= length + reach:
            return None
        share = min(1.0, max(0.0, share))
        feet += (line.x0 + share * across, line.y0 + share * along)
    part = Segment(*feet)
    return part if farther_end(wanted, part) <= reach else None
