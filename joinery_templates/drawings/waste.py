"""Waste as joiners mark it: hatched, and crossed."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor

from joinery_templates.drawings.figure import Point, Role, Stroke

Side = tuple[tuple[float, float], tuple[float, float]]

RISE = 0.5
"""Hatching rises 1 in 2: no dovetail slope, no mitre and no edge runs that way."""
PITCH = 3.5
"""Distance of two hatch lines, measured upright."""
SHORTEST = 0.001
"""A hatch line that only touches a corner is none."""
CROSS_SHARE = Fraction(7, 10)
"""How far the cross reaches from the middle of the waste towards its corners."""
LONG_STRIP = 5
"""Waste so many times as long as wide has a row of short crosses."""
MOST_CROSSES = 5


def hatched(corners: tuple[Point, ...]) -> Iterator[Stroke]:
    """Hatching of a convex polygon, on one grid for the whole figure.

    Nothing is cut to it, so it is worked out in floats, to a millionth of a millimetre.
    """
    ring = [(float(x), float(y)) for x, y in corners]
    sides = list(zip(ring, ring[1:] + ring[:1], strict=True))
    offsets = [y - RISE * x for x, y in ring]
    for number in range(ceil(min(offsets) / PITCH), floor(max(offsets) / PITCH) + 1):
        crossings = sorted(_crossings(sides, number * PITCH))
        if crossings and crossings[-1][0] - crossings[0][0] > SHORTEST:
            yield Stroke(Role.HATCH, _rounded(crossings[0]), _rounded(crossings[-1]))


def crossed(corners: tuple[Point, ...]) -> Iterator[Stroke]:
    """A cross from corner towards corner of a convex polygon; in a long strip a few short ones.

    In a triangle from two corners towards the sides across, so that no arm runs beside
    a layout line.
    """
    yield from list(_row_of_crosses(corners)) or _one_cross(corners)


def _row_of_crosses(corners: tuple[Point, ...]) -> Iterator[Stroke]:
    """In a strip that lies along the page: arms across it would look like lines to cut."""
    sides = [(min(values), max(values)) for values in zip(*corners, strict=True)]
    (left, right), (low, high) = sides
    short, long = sorted((right - left, high - low))
    if long < LONG_STRIP * short:
        return
    arm = short * CROSS_SHARE / 2
    count = min(MOST_CROSSES, ceil(long / (LONG_STRIP * short)) + 1)
    for number in range(count):
        share = Fraction(2 * number + 1, 2 * count)
        upright = high - low > right - left
        x = (left + right) / 2 if upright else left + share * (right - left)
        y = low + share * (high - low) if upright else (low + high) / 2
        ends = [(x + i * arm, y + j * arm) for i, j in ((-1, -1), (1, 1), (-1, 1), (1, -1))]
        if all(_inside(end, corners) for end in ends):
            yield Stroke(Role.CROSS, ends[0], ends[1])
            yield Stroke(Role.CROSS, ends[2], ends[3])


def _inside(point: Point, corners: tuple[Point, ...]) -> bool:
    """Whether a point lies in a convex polygon, whichever way its corners run."""
    turns = [
        (x1 - x0) * (point[1] - y0) - (y1 - y0) * (point[0] - x0)
        for (x0, y0), (x1, y1) in zip(corners, corners[1:] + corners[:1], strict=True)
    ]
    return all(turn > 0 for turn in turns) or all(turn < 0 for turn in turns)


def _one_cross(corners: tuple[Point, ...]) -> Iterator[Stroke]:
    middle = (
        sum((x for x, _ in corners), Fraction(0)) / len(corners),
        sum((y for _, y in corners), Fraction(0)) / len(corners),
    )
    half = len(corners) // 2
    across = corners[half:]
    if len(corners) == 3:
        first, second, third = corners
        across = tuple(
            ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in ((second, third), (third, first))
        )
    for start, end in list(zip(corners, across, strict=False))[:2]:
        yield Stroke(Role.CROSS, _towards(middle, start), _towards(middle, end))


def _crossings(sides: list[Side], offset: float) -> Iterator[tuple[float, float]]:
    for (x0, y0), (x1, y1) in sides:
        before, after = y0 - RISE * x0 - offset, y1 - RISE * x1 - offset
        if before != after and min(before, after) <= 0 <= max(before, after):
            share = before / (before - after)
            yield (x0 + share * (x1 - x0), y0 + share * (y1 - y0))


def _rounded(point: tuple[float, float]) -> Point:
    x, y = (Fraction(round(coordinate * 1e6), 10**6) for coordinate in point)
    return x, y


def _towards(middle: Point, corner: Point) -> Point:
    return (
        middle[0] + CROSS_SHARE * (corner[0] - middle[0]),
        middle[1] + CROSS_SHARE * (corner[1] - middle[1]),
    )
