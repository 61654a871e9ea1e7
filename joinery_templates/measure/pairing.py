"""Finding, among thousands of lines, the one nearest to a line that is looked for."""

import math
from collections import defaultdict
from collections.abc import Iterable

from joinery_templates.measure.plane import Segment

_CLOSE = 0.25
_TURN_DEG = 1.0
_MOST_PIECES = 200
_SAME_SPOT = 0.02
"""Designed lines that continue each other share their end, but for rounding."""


class Lines:
    """Found lines, sorted into squares by their middles.

    The middle of a line moves less than its ends do, so two lines that lie within
    `reach` of each other have their middles within `reach` too.
    """

    def __init__(self, found: Iterable[Segment], reach: float) -> None:
        """Args are the lines, and how far off a partner may lie (same unit)."""
        self.found = tuple(found)
        self.reach = reach
        self.close = reach * _CLOSE
        self._close = _squares(self.found, self.close)
        self._far = _squares(self.found, reach)
        self._known: dict[Segment, Segment | None] = {}
        self._courses: dict[tuple[int, int], list[Segment]] | None = None

    def partner(self, wanted: Segment) -> Segment | None:
        """The line with both ends nearest to the wanted one, turned the same way.

        None where no line has both ends within reach. Answers are kept, because
        the pages of one file have their furniture in common.
        """
        if wanted not in self._known:
            self._known[wanted] = self._sought(wanted)
        return self._known[wanted]

    def _sought(self, wanted: Segment) -> Segment | None:
        for squares, reach in ((self._close, self.close), (self._far, self.reach)):
            nearest = _nearest(wanted, squares, reach)
            if nearest is not None:
                return nearest
        return None

    def over(self, wanted: Segment) -> list[Segment]:
        """The lines that run over both ends of the wanted one, and on."""
        if self._courses is None:
            self._courses = defaultdict(list)
            for line in self.found:
                self._courses[_course(line, self.reach)].append(line)
        turn, offset = _course(wanted, self.reach)
        return [
            line
            for turned in (turn - 1, turn, turn + 1)
            for moved in (offset - 1, offset, offset + 1)
            for line in self._courses.get((turned, moved), ())
            if line.length > wanted.length + self.close
            and distance_to(line, wanted.x0, wanted.y0) <= self.close
            and distance_to(line, wanted.x1, wanted.y1) <= self.close
        ]


class Joined:
    """Lines that another program made of several that continue each other in one path."""

    def __init__(self, wanted: Iterable[Segment], lines: Lines) -> None:
        """Args are all lines looked for, and those found (same frame)."""
        self._lines = lines
        self._side = lines.close
        self._rays: dict[tuple[int, int], list[Segment]] = defaultdict(list)
        for line in wanted:
            for ray in (line, line.turned_about):
                self._rays[self._spot(ray.x0, ray.y0)].append(ray)

    def partner(self, wanted: Segment) -> Segment | None:
        """The part of a joined line that stands for the wanted one.

        Only where the wanted lines before and after it reach to both ends of the
        joined line; a line that simply goes on too far is no partner.
        """
        for line in self._lines.over(wanted):
            if self._reaches_end(wanted, line) and self._reaches_end(wanted.turned_about, line):
                return Segment(
                    *self._found_end(line, wanted.x0, wanted.y0),
                    *self._found_end(line, wanted.x1, wanted.y1),
                )
        return None

    def _reaches_end(self, wanted: Segment, line: Segment) -> bool:
        """Whether wanted lines go on from the second end of this one to an end of the line."""
        ray = wanted
        for _ in range(_MOST_PIECES):
            if self._end_of(line, ray.x1, ray.y1) is not None:
                return True
            following = [
                other
                for other in self._rays[self._spot(ray.x1, ray.y1)]
                if distance_to(line, other.x1, other.y1) <= self._side
                and (other.x1 - other.x0) * (ray.x1 - ray.x0)
                + (other.y1 - other.y0) * (ray.y1 - ray.y0)
                > 0
            ]
            if not following:
                return False
            ray = max(following, key=lambda other: other.length)
        return False

    def _end_of(self, line: Segment, x: float, y: float) -> tuple[float, float] | None:
        for end in (line[:2], line[2:]):
            if math.dist(end, (x, y)) <= self._side:
                return end
        return None

    def _found_end(self, line: Segment, x: float, y: float) -> tuple[float, float]:
        return self._end_of(line, x, y) or foot_on(line, x, y)

    def _spot(self, x: float, y: float) -> tuple[int, int]:
        return round(x / _SAME_SPOT), round(y / _SAME_SPOT)


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


def foot_on(line: Segment, x: float, y: float) -> tuple[float, float]:
    """The point of a line nearest to a point."""
    across, along = line.x1 - line.x0, line.y1 - line.y0
    square = across**2 + along**2
    share = ((x - line.x0) * across + (y - line.y0) * along) / square if square else 0.0
    share = min(1.0, max(0.0, share))
    return line.x0 + share * across, line.y0 + share * along


def distance_to(line: Segment, x: float, y: float) -> float:
    """How far a point lies from a line."""
    return math.dist(foot_on(line, x, y), (x, y))
