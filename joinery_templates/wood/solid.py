"""Convex solids of wood or waste, clipped exactly: whether two meet, and how far one reaches."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import product

from msgspec import Struct

from joinery_templates.wood.cut import HalfSpace, Vector, dot

Ring = tuple[Vector, ...]

_SIDES = ((0, 2, 3, 1), (4, 5, 7, 6), (0, 1, 5, 4), (2, 6, 7, 3), (0, 4, 6, 2), (1, 3, 7, 5))
"""A box's sides by the numbers of its corners, each ring turned the same way from outside."""


class Solid(Struct, frozen=True):
    """A convex solid: its sides, each a ring of corners turned the same way from outside."""

    sides: tuple[Ring, ...]

    def clipped(self, half_space: HalfSpace) -> "Solid | None":
        """What of it lies in a half-space; None where no wood is left."""
        sides, rim = [], {}
        for ring in self.sides:
            kept = tuple(_kept(ring, half_space))
            if len(kept) < 3:
                continue
            sides.append(kept)
            on = [dot(half_space.normal, point) == half_space.limit for point in kept]
            for number, point in enumerate(kept):
                if on[number - 1] and on[number]:
                    rim[point] = kept[number - 1]
        if len(rim) > 2 and not any(set(rim) == set(ring) for ring in sides):
            lid = [next(iter(rim))]
            while rim[lid[-1]] != lid[0]:
                lid.append(rim[lid[-1]])
            sides.append(tuple(lid))
        return Solid(tuple(sides)) if len(sides) > 3 else None

    def within(self, half_spaces: Iterable[HalfSpace]) -> "Solid | None":
        """What of it lies in all of these."""
        left: Solid | None = self
        for half_space in half_spaces:
            left = left and left.clipped(half_space)
        return left

    def without(self, half_spaces: Iterable[HalfSpace]) -> Iterator["Solid"]:
        """What of it lies outside of one of these at least, in convex pieces."""
        left: Solid | None = self
        for half_space in half_spaces:
            if left and (piece := left.clipped(half_space.turned())):
                yield piece
            left = left and left.clipped(half_space)

    def moved(self, by: Vector) -> "Solid":
        """The same elsewhere."""
        a, b, c = by
        sides = (tuple((x + a, y + b, z + c) for x, y, z in ring) for ring in self.sides)
        return Solid(tuple(sides))

    def extent(self, axis: int) -> tuple[Fraction, Fraction]:
        """Its least and greatest coordinate along an axis: 0 for x, 1 for y, 2 for z."""
        places = [point[axis] for ring in self.sides for point in ring]
        return min(places), max(places)


def box(low: Vector, high: Vector) -> Solid:
    """The solid between two corners: the one with the least x, y and z, and the greatest."""
    corners = [(x, y, z) for x, y, z in product(*zip(low, high, strict=True))]
    return Solid(tuple(tuple(corners[number] for number in side) for side in _SIDES))


def _kept(ring: Ring, half_space: HalfSpace) -> Iterator[Vector]:
    """What of a side lies in a half-space, by Sutherland and Hodgman's rule."""
    past = [dot(half_space.normal, point) - half_space.limit for point in ring]
    for number, point in enumerate(ring):
        before, here = past[number - 1], past[number]
        if before * here < 0:
            share = before / (before - here)
            start = ring[number - 1]
            x, y, z = (a + share * (b - a) for a, b in zip(start, point, strict=True))
            yield x, y, z
        if here <= 0:
            yield point
