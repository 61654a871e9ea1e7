"""Waste is hatched: close where it goes right through, open and the other way where it stops."""

from collections.abc import Iterator
from math import ceil, floor

from joinery_templates.drawings.figure import Point, Role, Stroke, in_parts
from joinery_templates.drawings.look import HATCH_PITCH, HATCH_RISE
from joinery_templates.exact import nearest

Side = tuple[tuple[float, float], tuple[float, float]]

SHORTEST = 0.001
"""A hatch line that only touches a corner is none."""


def hatched(corners: tuple[Point, ...], stops: bool) -> Iterator[Stroke]:
    """Hatching of a convex polygon, on one grid for the whole figure.

    Nothing is cut to it, so it is worked out in floats, to a millionth of a millimetre.
    """
    role, rise = (Role.OPEN_HATCH, -HATCH_RISE) if stops else (Role.HATCH, HATCH_RISE)
    ring = [(nearest(x), nearest(y)) for x, y in corners]
    sides = list(zip(ring, ring[1:] + ring[:1], strict=True))
    offsets = [y - rise * x for x, y in ring]
    for number in range(ceil(min(offsets) / HATCH_PITCH), floor(max(offsets) / HATCH_PITCH) + 1):
        crossings = sorted(_crossings(sides, rise, number * HATCH_PITCH))
        if crossings and crossings[-1][0] - crossings[0][0] > SHORTEST:
            yield Stroke(role, _rounded(crossings[0]), _rounded(crossings[-1]))


def _crossings(sides: list[Side], rise: float, offset: float) -> Iterator[tuple[float, float]]:
    for (x0, y0), (x1, y1) in sides:
        before, after = y0 - rise * x0 - offset, y1 - rise * x1 - offset
        if before != after and min(before, after) <= 0 <= max(before, after):
            share = before / (before - after)
            yield (x0 + share * (x1 - x0), y0 + share * (y1 - y0))


def _rounded(point: tuple[float, float]) -> Point:
    return in_parts(round(point[0] * 1e6), 10**6), in_parts(round(point[1] * 1e6), 10**6)
