"""Straight lines, boxes and affine maps in the plane: the arithmetic of this room.

Floats, because what is measured was rounded by other programs already.
"""

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

_EDGE_SLACK = 1e-3
"""A line that runs along the edge of a window counts as inside although it was rounded."""


class Segment(NamedTuple):
    """A straight piece of a stroke. A named tuple, because a file can hold half a million."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def length(self) -> float:
        """Distance between the ends."""
        return math.hypot(self.x1 - self.x0, self.y1 - self.y0)

    @property
    def turned_about(self) -> "Segment":
        """The same piece drawn from its other end."""
        return Segment(self.x1, self.y1, self.x0, self.y0)


class Box(NamedTuple):
    """An upright rectangle with x0 <= x1 and y0 <= y1."""

    x0: float
    y0: float
    x1: float
    y1: float

    def meet(self, other: "Box") -> "Box":
        """What both boxes cover; where they miss each other, a box that holds nothing."""
        x0, y0 = max(self.x0, other.x0), max(self.y0, other.y0)
        return Box(x0, y0, max(x0, min(self.x1, other.x1)), max(y0, min(self.y1, other.y1)))

    def holds(self, x: float, y: float, slack: float) -> bool:
        """Whether a point lies inside, or outside by no more than `slack`."""
        return self.x0 - slack <= x <= self.x1 + slack and self.y0 - slack <= y <= self.y1 + slack

    def near(self, lines: Iterable[Segment]) -> list[Segment]:
        """The lines that may touch the box or run along its edge; quick, not exact."""
        x0, y0, x1, y1 = (
            self.x0 - _EDGE_SLACK,
            self.y0 - _EDGE_SLACK,
            self.x1 + _EDGE_SLACK,
            self.y1 + _EDGE_SLACK,
        )
        return [
            line
            for line in lines
            if (line[0] >= x0 or line[2] >= x0)
            and (line[0] <= x1 or line[2] <= x1)
            and (line[1] >= y0 or line[3] >= y0)
            and (line[1] <= y1 or line[3] <= y1)
        ]

    def cut(self, line: Segment) -> Segment | None:
        """The part of a line inside the box, None if there is none (Liang and Barsky 1984)."""
        x0, y0, x1, y1 = line
        if self.x0 <= x0 <= self.x1 and self.x0 <= x1 <= self.x1:  # noqa: SIM102 - kept fast
            if self.y0 <= y0 <= self.y1 and self.y0 <= y1 <= self.y1:
                return line
        across, along = x1 - x0, y1 - y0
        enters, leaves = 0.0, 1.0
        for step, before, after in (
            (across, self.x0 - x0, self.x1 - x0),
            (along, self.y0 - y0, self.y1 - y0),
        ):
            if abs(step) <= _EDGE_SLACK:
                if before > _EDGE_SLACK or after < -_EDGE_SLACK:
                    return None
                continue
            first, last = sorted((before / step, after / step))
            enters, leaves = max(enters, first), min(leaves, last)
        if enters >= leaves:
            return None
        start = (x0 + enters * across, y0 + enters * along) if enters > 0 else (x0, y0)
        end = (x0 + leaves * across, y0 + leaves * along) if leaves < 1 else (x1, y1)
        return Segment(*start, *end)


class Leaning(NamedTuple):
    """A window with four corners that is no upright box, such as one on a page that is skewed."""

    corners: tuple[tuple[float, float], ...]
    """Convex, anticlockwise."""

    def cut(self, line: Segment) -> Segment | None:
        """The part of a line inside, None if there is none (Cyrus and Beck 1978)."""
        enters, leaves = 0.0, 1.0
        for corner, following in zip(
            self.corners, self.corners[1:] + self.corners[:1], strict=True
        ):
            start = _left_of(corner, following, line.x0, line.y0)
            end = _left_of(corner, following, line.x1, line.y1)
            if start >= -_EDGE_SLACK and end >= -_EDGE_SLACK:
                continue
            if start <= 0 and end <= 0:
                return None
            share = start / (start - end)
            enters, leaves = (
                (max(enters, share), leaves) if start < 0 else (enters, min(leaves, share))
            )
        if enters >= leaves:
            return None
        across, along = line.x1 - line.x0, line.y1 - line.y0
        return Segment(
            line.x0 + enters * across,
            line.y0 + enters * along,
            line.x0 + leaves * across,
            line.y0 + leaves * along,
        )


def leaning_window(points: Sequence[tuple[float, float]]) -> Leaning | None:
    """The window of four corners, None where they make an upright box or no window."""
    corners = tuple(dict.fromkeys(points))
    if len(corners) != 4 or not all(math.isfinite(value) for point in corners for value in point):
        return None
    edges = list(zip(corners, corners[1:] + corners[:1], strict=True))
    if all(min(abs(x1 - x), abs(y1 - y)) <= _EDGE_SLACK for (x, y), (x1, y1) in edges):
        return None
    turns = [
        _left_of(corner, following, *corners[(place + 2) % 4])
        for place, (corner, following) in enumerate(edges)
    ]
    if min(turns) > 0:
        return Leaning(corners)
    return Leaning(corners[::-1]) if max(turns) < 0 else None


def _left_of(
    corner: tuple[float, float], following: tuple[float, float], x: float, y: float
) -> float:
    """How far a point lies to the left of the way from one corner to the next."""
    across, along = following[0] - corner[0], following[1] - corner[1]
    length = math.hypot(across, along)
    return (across * (y - corner[1]) - along * (x - corner[0])) / length if length else 0.0


EVERYWHERE = Box(-math.inf, -math.inf, math.inf, math.inf)


class Matrix(NamedTuple):
    """An affine map in the order a PDF writes it: x' = a x + c y + e, y' = b x + d y + f."""

    a: float
    b: float
    c: float
    d: float
    e: float
    f: float

    def then(self, after: "Matrix") -> "Matrix":
        """This map first, the other one after it."""
        a, b, c, d, e, f = self
        return Matrix(
            a * after.a + b * after.c,
            a * after.b + b * after.d,
            c * after.a + d * after.c,
            c * after.b + d * after.d,
            e * after.a + f * after.c + after.e,
            e * after.b + f * after.d + after.f,
        )

    def point(self, x: float, y: float) -> tuple[float, float]:
        """Where a point goes."""
        return (self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f)

    def segment(self, line: Segment) -> Segment:
        """Where a straight piece goes."""
        return Segment(*self.point(line.x0, line.y0), *self.point(line.x1, line.y1))

    def box(self, box: Box) -> Box:
        """The upright box around where a box goes."""
        corners = ((box.x0, box.y0), (box.x1, box.y0), (box.x0, box.y1), (box.x1, box.y1))
        return box_around(self.point(*corner) for corner in corners)

    @property
    def determinant(self) -> float:
        """How much areas grow."""
        return self.a * self.d - self.b * self.c

    def back(self, box: Box) -> Box:
        """The upright box around all that this map can bring into a box."""
        if not self.determinant or not all(map(math.isfinite, box)):
            return EVERYWHERE
        corners = ((box.x0, box.y0), (box.x1, box.y0), (box.x0, box.y1), (box.x1, box.y1))
        return box_around(self.step_back(x - self.e, y - self.f) for x, y in corners)

    def step_back(self, across: float, along: float) -> tuple[float, float]:
        """A step in the mapped plane, as the step in the plane it came from."""
        whole = self.determinant
        return (
            (self.d * across - self.c * along) / whole,
            (self.a * along - self.b * across) / whole,
        )


IDENTITY = Matrix(1, 0, 0, 1, 0, 0)


def box_around(points: Iterable[tuple[float, float]]) -> Box:
    """The upright box around some points (at least one)."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))
