"""Waste is hatched: close where it goes right through, open and the other way where it stops."""

from collections.abc import Iterator
from math import ceil, floor

from joinery_templates.drawings.figure import Point, Role, Stroke
from joinery_templates.drawings.look import HATCH_PITCH, HATCH_RISE
from joinery_templates.exact import Fraction, as_float

Corner = tuple[tuple[float, float], float]
"""A corner, and how far above the hatching's line through (0, 0)."""
Side = tuple[Corner, Corner]

SHORTEST = 0.001
"""A hatch line that only touches a corner is none."""


def hatched(corners: tuple[Point, ...], stops: bool) -> Iterator[Stroke]:
    """Hatching of a convex polygon, on one grid for the whole figure.

    Nothing is cut to it, so it is worked out in floats, to a millionth of a millimetre.
    """
    role, rise = (Role.OPEN_HATCH, -HATCH_RISE) if stops else (Role.HATCH, HATCH_RISE)
    ring = [(as_float(x), as_float(y)) for x, y in corners]
    offsets = [y - rise * x for x, y in ring]
    known = list(zip(ring, offsets, strict=True))
    sides = list(zip(known, known[1:] + known[:1], strict=True))
    for number in range(ceil(min(offsets) / HATCH_PITCH), floor(max(offsets) / HATCH_PITCH) + 1):
        crossings = sorted(_crossings(sides, number * HATCH_PITCH))
        if crossings and crossings[-1][0] - crossings[0][0] > SHORTEST:
            yield Stroke(role, _rounded(crossings[0]), _rounded(crossings[-1]))


def _crossings(sides: list[Side], offset: float) -> Iterator[tuple[float, float]]:
    for ((x0, y0), start), ((x1, y1), end) in sides:
        before, after = start - offset, end - offset
        if before != after and before * after <= 0:
            share = before / (before - after)
            yield (x0 + share * (x1 - x0), y0 + share * (y1 - y0))


def _rounded(point: tuple[float, float]) -> Point:
    return Fraction(round(point[0] * 1e6), 10**6), Fraction(round(point[1] * 1e6), 10**6)
