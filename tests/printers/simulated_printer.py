"""A printer that errs, and a person who measures its calibration sheet; neither is ours.

The printer is an affine map that is put before a page's drawing operators. The person
looks at the rendered page: finds the corners of the rectangle, lays a rule on them, and
reads either to 0.05 mm or by the numbered lines.
"""

import io
import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import pikepdf
import pypdfium2

MM = 72 / 25.4
Place = tuple[float, float]


@dataclass(frozen=True)
class Printer:
    """Scales across and along, and how far the upright direction leans to the right."""

    across: float = 1.0
    along: float = 1.0
    skew_deg: float = 0.0
    turn_deg: float = 0.0
    moved: Place = (0.0, 0.0)

    @cached_property
    def matrix(self) -> np.ndarray:
        """From points of the page (column vectors in mm) to the paper; without the shift."""
        lean, turn = math.radians(self.skew_deg), math.radians(self.turn_deg)
        stretch = np.array(
            [
                [self.across, self.along * math.sin(lean)],
                [0.0, self.along * math.cos(lean)],
            ]
        )
        turned = np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
        return turned @ stretch

    def printed(self, points: np.ndarray) -> np.ndarray:
        """Where points (rows, in mm) land."""
        return points @ self.matrix.T + np.array(self.moved)

    def paper(self, content: bytes) -> bytes:
        """The PDF as it lies on paper."""
        (a, c), (b, d) = self.matrix
        e, f = (one * MM for one in self.moved)
        before = f"q {a:.9f} {b:.9f} {c:.9f} {d:.9f} {e:.6f} {f:.6f} cm\n".encode()
        with pikepdf.open(io.BytesIO(content)) as pdf:
            for page in pdf.pages:
                page.contents_add(before, prepend=True)
                page.contents_add(b"\nQ")
            out = io.BytesIO()
            pdf.save(out)
        return out.getvalue()


class Sheet:
    """A printed page as seen: grey, at 576 dots to the inch.

    That is 8 to the point: at 600 the renderer would stretch a page to whole dots.
    """

    def __init__(self, content: bytes) -> None:
        document = pypdfium2.PdfDocument(content)
        picture = document[0].render(scale=8, grayscale=True).to_numpy()
        self.ink = 255 - picture.reshape(picture.shape[:2])
        self.dots = 8 * MM

    def profile(self, start: Place, end: Place) -> tuple[np.ndarray, np.ndarray]:
        """Ink along a way, every 0.005 mm: distance from its start, and darkness."""
        length = math.dist(start, end)
        steps = np.arange(0, length, 0.005)
        share = steps / length
        xs = (start[0] + share * (end[0] - start[0])) * self.dots - 0.5
        ys = self.ink.shape[0] - (start[1] + share * (end[1] - start[1])) * self.dots - 0.5
        column, row = np.floor(xs).astype(int), np.floor(ys).astype(int)
        right, down = xs - column, ys - row
        ink = self.ink
        seen = (
            ink[row, column] * (1 - right) * (1 - down)
            + ink[row, column + 1] * right * (1 - down)
            + ink[row + 1, column] * (1 - right) * down
            + ink[row + 1, column + 1] * right * down
        )
        return steps, seen

    def line_on(self, start: Place, end: Place) -> Place:
        """The middle of the one line that a way crosses."""
        (middle,) = self.lines_on(start, end)
        share = middle / math.dist(start, end)
        return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])

    def lines_on(self, start: Place, end: Place) -> list[float]:
        """The middles of all lines that a way crosses, as distances from its start."""
        steps, seen = self.profile(start, end)
        dark = seen > 20
        edges = np.flatnonzero(np.diff(np.concatenate([[False], dark, [False]]).astype(int)))
        return [
            float(np.average(steps[low:high], weights=seen[low:high]))
            for low, high in zip(edges[::2], edges[1::2], strict=True)
        ]


def corners_seen(sheet: Sheet, guess: dict[str, Place]) -> dict[str, Place]:
    """The rectangle's corners: where the lines of its sides, each found twice, cross."""

    def side(first: str, second: str) -> tuple[Place, Place]:
        (x0, y0), (x1, y1) = guess[first], guess[second]
        length = math.hypot(x1 - x0, y1 - y0)
        aside = (-(y1 - y0) / length * 5, (x1 - x0) / length * 5)

        def found(share: float) -> Place:
            x, y = x0 + share * (x1 - x0), y0 + share * (y1 - y0)
            return sheet.line_on((x - aside[0], y - aside[1]), (x + aside[0], y + aside[1]))

        return found(0.3), found(0.7)

    lower, upper = side("lower left", "lower right"), side("upper left", "upper right")
    left, right = side("lower left", "upper left"), side("lower right", "upper right")
    return {
        "lower left": crossing(lower, left),
        "lower right": crossing(lower, right),
        "upper left": crossing(upper, left),
        "upper right": crossing(upper, right),
    }


def crossing(one: tuple[Place, Place], other: tuple[Place, Place]) -> Place:
    (p, q), (r, s) = (np.array(line) for line in (one, other))
    share, _ = np.linalg.solve(np.column_stack([q - p, r - s]), r - p)
    x, y = p + share * (q - p)
    return float(x), float(y)


LENGTHS = {
    "across": ("lower left", "lower right"),
    "along": ("lower left", "upper left"),
    "rising": ("lower left", "upper right"),
    "falling": ("lower right", "upper left"),
}
"""From the cross at which the rule's zero is laid, to the other."""


def read_by_rule(corners: dict[str, Place]) -> dict[str, str]:
    """The four lengths, read to 0.05 mm."""
    return {
        name: f"{round(math.dist(corners[start], corners[end]) * 20) / 20:.2f}"
        for name, (start, end) in LENGTHS.items()
    }


def read_by_lines(sheet: Sheet, corners: dict[str, Place]) -> dict[str, str]:
    """The four lengths, each by the numbered line that meets a millimetre of the rule."""
    return {
        name: met(_lines_seen(sheet, corners[start], corners[end], name))
        for name, (start, end) in LENGTHS.items()
    }


def met(places: list[float]) -> str:
    """What is written down: the line that stands nearest to a whole millimetre, and that."""
    number = min(range(len(places)), key=lambda one: abs(places[one] - round(places[one])))
    return f"{round(places[number])} line {number}"


def _lines_seen(sheet: Sheet, zero: Place, cross: Place, name: str) -> list[float]:
    """Where the numbered lines meet a rule that lies along the length, line 0 first.

    They are looked at 2 mm aside of it.
    """
    length = math.dist(zero, cross)
    ux, uy = (cross[0] - zero[0]) / length, (cross[1] - zero[1]) / length
    side = 1 if name in ("along", "rising") else -1
    aside = (-uy * side * 2, ux * side * 2)
    short = 8.0 if name in ("rising", "falling") else 0.0  # the last line stands so far back
    first, last = length - short - 29.2, length - short + 0.5
    start, end = (
        (zero[0] + at * ux + aside[0], zero[1] + at * uy + aside[1]) for at in (first, last)
    )
    places = [first + middle for middle in sheet.lines_on(start, end)]
    assert len(places) == 31, (name, places)
    return places


def misfit(true: np.ndarray, printed: np.ndarray) -> float:
    """How far points are from their places, in mm, however the sheet is shifted and turned."""
    one, other = true - true.mean(axis=0), printed - printed.mean(axis=0)
    left, _, right = np.linalg.svd(one.T @ other)
    turn = left @ right
    assert np.linalg.det(turn) > 0, "a sheet is never turned over"
    return float(np.max(np.linalg.norm(one @ turn - other, axis=1)))
