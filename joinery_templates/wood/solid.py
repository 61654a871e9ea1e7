"""Convex solids of wood or waste, clipped exactly: whether two meet, and how far one reaches."""

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from itertools import product

from msgspec import Struct

from joinery_templates.exact import Fraction
from joinery_templates.wood.cut import HalfSpace, Vector, dot

Ring = tuple[Vector, ...]
Extents = tuple[tuple[Fraction, Fraction], ...]
"""From where to where a solid reaches along x, y and z."""

_SIDES = ((0, 2, 3, 1), (4, 5, 7, 6), (0, 1, 5, 4), (2, 6, 7, 3), (0, 4, 6, 2), (1, 3, 7, 5))
"""A box's sides by the numbers of its corners, each ring turned the same way from outside."""


class Solid(Struct, frozen=True, dict=True):
    """A convex solid: its sides, each a ring of corners turned the same way from outside.

    A corner is one and the same object on every side that has it, so it is worked out once.
    """

    sides: tuple[Ring, ...]

    @property
    def corners(self) -> Iterable[Vector]:
        """Its corners, each once."""
        return {id(point): point for ring in self.sides for point in ring}.values()

    def clipped(self, half_space: HalfSpace) -> "Solid | None":
        """What of it lies in a half-space; None where no wood is left.

        Sutherland and Hodgman's rule on every side; a lid closes the gap.
        """
        past = {id(one): dot(half_space.normal, one) - half_space.limit for one in self.corners}
        if max(past.values()) <= 0:
            return self
        if min(past.values()) >= 0:
            return None
        crossings: dict[frozenset[int], Vector] = {}
        sides: list[Ring] = []
        rim: dict[int, Vector] = {}
        for ring in self.sides:
            kept: list[Vector] = []
            on: list[bool] = []
            for number, point in enumerate(ring):
                start = ring[number - 1]
                before, here = id(start), id(point)
                if past[before] * past[here] < 0:
                    edge = frozenset((before, here))
                    if edge not in crossings:
                        share = past[before] / (past[before] - past[here])
                        crossings[edge] = _on_the_way(start, point, share)
                    kept.append(crossings[edge])
                    on.append(True)
                if past[here] <= 0:
                    kept.append(point)
                    on.append(not past[here])
            if len(kept) > 2:
                sides.append(tuple(kept))
                rim |= {id(p): kept[n - 1] for n, p in enumerate(kept) if on[n] and on[n - 1]}
        lid = [next(iter(rim.values()))]
        while (following := rim[id(lid[-1])]) is not lid[0]:
            lid.append(following)
        return Solid((*sides, tuple(lid)))

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
        to = {id(point): (point[0] + a, point[1] + b, point[2] + c) for point in self.corners}
        return Solid(tuple(tuple(to[id(point)] for point in ring) for ring in self.sides))

    @cached_property
    def extents(self) -> Extents:
        """Its least and greatest x, y and z."""
        return tuple((min(places), max(places)) for places in zip(*self.corners, strict=True))


def remaining(solids: Iterable[Solid], wastes: Iterable[Sequence[HalfSpace]]) -> list[Solid]:
    """What of some solids lies in no piece of waste."""
    left = [*solids]
    for waste in wastes:
        left = [piece for solid in left for piece in solid.without(waste)]
    return left


def box(low: Vector, high: Vector) -> Solid:
    """The solid between two corners: the one with the least x, y and z, and the greatest."""
    corners = [(x, y, z) for x, y, z in product(*zip(low, high, strict=True))]
    return Solid(tuple(tuple(corners[number] for number in side) for side in _SIDES))


def _on_the_way(start: Vector, end: Vector, share: Fraction) -> Vector:
    """The point a share of the way along."""
    # Most edges run along an axis, and what does not change need not be worked out.
    x, y, z = (a if a == b else a + share * (b - a) for a, b in zip(start, end, strict=True))
    return x, y, z
