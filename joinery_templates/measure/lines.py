"""Finding, among thousands of lines, the one nearest to a line that is looked for."""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import Generic, TypeVar

from joinery_templates.measure.plane import Point, Segment

CLOSE = 0.5
"""A joined line may be so far off, mm."""
_TURN_DEG = 1.0
_GAP = 0.02
"""Designed lines that continue each other share their end, but for rounding."""
_JUMP_DEG = 67.3
"""Directions jump from 180 to 0 degrees away from upright, level and mitred lines."""

Thing = TypeVar("Thing")


class Grid(Generic[Thing]):
    """Things sorted into squares, to be found near a point."""

    def __init__(self, side: float) -> None:
        """All within `side` of a point are found, and some others."""
        self._side = side
        self._squares: dict[tuple[int, int], list[Thing]] = defaultdict(list)

    def put(self, x: float, y: float, thing: Thing) -> None:
        """Remember a thing at a point."""
        self._squares[math.floor(x / self._side), math.floor(y / self._side)].append(thing)

    def near(self, x: float, y: float) -> list[Thing]:
        """The things around a point."""
        column, row = math.floor(x / self._side), math.floor(y / self._side)
        squares, found = self._squares, []
        for across in (column - 1, column, column + 1):
            for square in ((across, row - 1), (across, row), (across, row + 1)):
                if square in squares:
                    found += squares[square]
        return found


class Lines:
    """Lines that can be asked which of them is nearest to another."""

    def __init__(self, found: Iterable[Segment], reach: float) -> None:
        """Args are the lines, and how far off one may lie and still count (same unit)."""
        self.found = tuple(found)
        self._reach = reach
        self._rays: Grid[Segment] = Grid(reach)
        for line in self.found:
            x0, y0, x1, y1 = line
            self._rays.put(x0, y0, line)
            self._rays.put(x1, y1, Segment(x1, y1, x0, y0))
        self._known: dict[Segment, float] = {}

    def distance(self, wanted: Segment) -> float:
        """How far the ends of the nearest line are from those of this one, at the farther end.

        Infinite where no line has both ends within reach. Answers are kept, because
        the pages of one file have their furniture in common.
        """
        known = self._known.get(wanted)
        if known is None:
            x0, y0, x1, y1 = wanted
            nearest, known = self._reach, math.inf
            for a, b, c, d in self._rays.near(x0, y0):
                if abs(a - x0) <= nearest and abs(c - x1) <= nearest:
                    off = max(math.dist((a, b), (x0, y0)), math.dist((c, d), (x1, y1)))
                    if off <= nearest:
                        nearest = known = off
            self._known[wanted] = known
        return known


def joined(wanted: Sequence[Segment], found: Iterable[Segment]) -> dict[Segment, float]:
    """How far lines are from their part of a line that another program made of several.

    Only where the wanted lines that lie on a found one cover it from end to end; a line
    that simply goes on too far stands for nothing.
    """
    courses: Grid[Segment] = Grid(1)
    for line in wanted:
        courses.put(*_course(line), line)
    distances: dict[Segment, float] = {}
    for line in found:
        pieces = [
            piece
            for piece in courses.near(*_course(line))
            if distance_to(line, piece[:2]) <= CLOSE and distance_to(line, piece[2:]) <= CLOSE
        ]
        if len(pieces) > 1 and _covered(line, pieces):
            for piece in pieces:
                distance = max(_off(line, piece[:2]), _off(line, piece[2:]))
                distances[piece] = min(distance, distances.get(piece, distance))
    return distances


def _course(line: Segment) -> Point:
    """Direction and distance from the origin, in steps that lines on one course may differ by."""
    turn = math.degrees(math.atan2(line.y1 - line.y0, line.x1 - line.x0))
    turn = (turn + _JUMP_DEG) % 180 - _JUMP_DEG
    slope = math.radians(turn)
    offset = line.y0 * math.cos(slope) - line.x0 * math.sin(slope)
    return turn / _TURN_DEG, offset / CLOSE


def _covered(line: Segment, pieces: Iterable[Segment]) -> bool:
    """Whether pieces that lie on a line leave no gap between its ends."""
    spans = (
        sorted((math.dist(line[:2], piece[:2]), math.dist(line[:2], piece[2:]))) for piece in pieces
    )
    reached, gap = 0.0, CLOSE
    for start, end in sorted(spans):
        if start > reached + gap:
            return False
        reached, gap = max(reached, end), _GAP
    return reached >= line.length - CLOSE


def _off(line: Segment, point: Point) -> float:
    """How far a point is from the end of a line that it lies at, or else from the line."""
    from_end = min(math.dist(line[:2], point), math.dist(line[2:], point))
    return from_end if from_end <= CLOSE else distance_to(line, point)


def distance_to(line: Segment, point: Point) -> float:
    """How far a point lies from a line."""
    across, along = line.x1 - line.x0, line.y1 - line.y0
    square = across**2 + along**2
    share = ((point[0] - line.x0) * across + (point[1] - line.y0) * along) / square if square else 0
    share = min(1.0, max(0.0, share))
    return math.dist((line.x0 + share * across, line.y0 + share * along), point)
