"""Straight lines, windows and affine maps in the plane: the arithmetic of this room.

Floats, because what is measured was rounded by other programs already.
"""

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

_EDGE_SLACK = 1e-3
"""A line that runs along the edge of a window counts as inside although it was rounded."""
_UPRIGHT = 1e-6
"""A side that leans no more than this is upright or level: over a sheet that is no micrometre.
A printer's profile leans a page by far less than a degree, and its seams with it."""
_SAME_TURN = 9
"""Sides of windows run alike when their normals agree in so many decimals."""

Point = tuple[float, float]


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

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Anticlockwise from the lower left."""
        x0, y0, x1, y1 = self
        return (x0, y0), (x1, y0), (x1, y1), (x0, y1)

    def meet(self, other: "Box") -> "Box":
        """What both boxes cover; where they miss each other, a box that holds nothing."""
        x0, y0 = max(self.x0, other.x0), max(self.y0, other.y0)
        return Box(x0, y0, max(x0, min(self.x1, other.x1)), max(y0, min(self.y1, other.y1)))

    def holds(self, x: float, y: float, slack: float) -> bool:
        """Whether a point lies inside, or outside by no more than `slack`."""
        return self.x0 - slack <= x <= self.x1 + slack and self.y0 - slack <= y <= self.y1 + slack


def box_around(points: Iterable[Point]) -> Box:
    """The upright box around some points (at least one)."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


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
        a, b, c, d, _, _ = after
        return Matrix(
            a * self.a + c * self.b,
            b * self.a + d * self.b,
            a * self.c + c * self.d,
            b * self.c + d * self.d,
            *after.point(self.e, self.f),
        )

    def point(self, x: float, y: float) -> Point:
        """Where a point goes."""
        return (self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f)

    def segment(self, line: Segment) -> Segment:
        """Where a straight piece goes."""
        a, b, c, d, e, f = self
        x0, y0, x1, y1 = line
        return Segment(
            a * x0 + c * y0 + e, b * x0 + d * y0 + f, a * x1 + c * y1 + e, b * x1 + d * y1 + f
        )

    @property
    def inverse(self) -> "Matrix":
        """The map back; the map must not flatten the plane."""
        a, b, c, d, e, f = self
        whole = a * d - b * c
        back = Matrix(d / whole, -b / whole, -c / whole, a / whole, 0, 0)
        x, y = back.point(-e, -f)
        return back._replace(e=x, f=y)


IDENTITY = Matrix(1, 0, 0, 1, 0, 0)


class Window(NamedTuple):
    """What can be seen: the part of the plane that lies within some straight sides.

    Attributes:
        sides: the normal of each side, pointing out, and how far the side lies along it.
            Of sides that run alike only the innermost is kept.
    """

    sides: dict[Point, float]

    def narrowed(self, outline: Sequence[Point]) -> "Window":
        """This window seen through another one.

        Args:
            outline: the corners of the other. Where they are not four that make a convex
                shape, the upright box around them counts.
        """
        corners = tuple(dict.fromkeys(outline))
        box = box_around(corners)
        normals = _normals(corners)
        # Upright windows take their sides from the box, which are the same to the last digit.
        if not normals or all(min(abs(x), abs(y)) <= _UPRIGHT for x, y in normals):
            corners, normals = box.corners, [(0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)]
        sides = dict(self.sides)
        for (nx, ny), (x, y) in zip(normals, corners, strict=True):
            normal, limit = (round(nx, _SAME_TURN), round(ny, _SAME_TURN)), nx * x + ny * y
            sides[normal] = min(limit, sides.get(normal, limit))
        return Window(sides)

    def before(self, matrix: Matrix) -> "Window":
        """The window that lets the same things through before they are mapped."""
        a, b, c, d, e, f = matrix
        return Window(
            {
                (a * nx + b * ny, c * nx + d * ny): limit - nx * e - ny * f
                for (nx, ny), limit in self.sides.items()
            }
        )

    def cut(self, line: Segment) -> Segment | None:
        """The part of a line inside, None if there is none (Cyrus and Beck 1978)."""
        x0, y0, x1, y1 = line
        enters, leaves = 0.0, 1.0
        for (nx, ny), limit in self.sides.items():
            start, end = nx * x0 + ny * y0 - limit, nx * x1 + ny * y1 - limit
            if start <= _EDGE_SLACK and end <= _EDGE_SLACK:
                continue
            if start >= 0 and end >= 0:
                return None
            share = start / (start - end)
            if start > 0:
                enters = max(enters, share)
            else:
                leaves = min(leaves, share)
        if enters >= leaves:
            return None
        across, along = x1 - x0, y1 - y0
        start_point = (x0 + enters * across, y0 + enters * along) if enters > 0 else (x0, y0)
        end_point = (x0 + leaves * across, y0 + leaves * along) if leaves < 1 else (x1, y1)
        return Segment(*start_point, *end_point)


EVERYWHERE = Window({})


def _normals(corners: Sequence[Point]) -> list[Point]:
    """The outward normals of the sides of a convex shape of four corners; none for others."""
    if len(corners) != 4:
        return []
    steps = [
        (x1 - x0, y1 - y0)
        for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True)
    ]
    turns = [
        ax * by - ay * bx for (ax, ay), (bx, by) in zip(steps, (*steps[1:], steps[0]), strict=True)
    ]
    if not (min(turns) > 0 or max(turns) < 0):
        return []
    out = math.copysign(1, turns[0])
    return [(out * y / math.hypot(x, y), -out * x / math.hypot(x, y)) for x, y in steps]
