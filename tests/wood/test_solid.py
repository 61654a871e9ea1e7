"""Convex solids clipped exactly, against a library of solids that shares no code with them."""

from itertools import pairwise
from math import sqrt
from operator import mul

import pytest
from hypothesis import given
from hypothesis import strategies as st
from manifold3d import Manifold

from joinery_templates.exact import Fraction
from joinery_templates.wood.cut import HalfSpace, Vector
from joinery_templates.wood.solid import Solid, box
from tests.strategies import PROPERTY

ZERO = Fraction(0)
SIZE: Vector = (Fraction(10), Fraction(6), Fraction(4))
WHOLE = box((ZERO, ZERO, ZERO), SIZE)

slopes = st.integers(-2, 2).map(Fraction)
half_spaces = st.builds(
    HalfSpace,
    st.tuples(slopes, slopes, slopes).filter(any),
    st.integers(-12, 40).map(lambda number: Fraction(number, 2)),
)
planes = st.lists(half_spaces, min_size=1, max_size=6)


def volume(solid: Solid | None) -> float:
    """By pyramids from one corner over every side."""
    if solid is None:
        return 0.0
    (x, y, z), total = solid.sides[0][0], ZERO
    for ring in solid.sides:
        for two, three in pairwise(ring[1:]):
            a, b, c = ((p[0] - x, p[1] - y, p[2] - z) for p in (ring[0], two, three))
            total += a[0] * (b[1] * c[2] - b[2] * c[1])
            total += a[1] * (b[2] * c[0] - b[0] * c[2])
            total += a[2] * (b[0] * c[1] - b[1] * c[0])
    return abs(float(total)) / 6


def trimmed(half_space: HalfSpace, solid: Manifold) -> Manifold:
    length = sqrt(sum(float(part) ** 2 for part in half_space.normal))
    normal = [-float(part) / length for part in half_space.normal]
    return solid.trim_by_plane(normal, -float(half_space.limit) / length)


@PROPERTY
@given(planes)
def test_what_is_left_of_a_box_is_as_large_as_the_library_says(sides: list[HalfSpace]) -> None:
    expected = Manifold.cube([float(length) for length in SIZE])
    for side in sides:
        expected = trimmed(side, expected)
    left = WHOLE.within(sides)
    assert volume(left) == pytest.approx(expected.volume(), abs=1e-3)
    if left:
        low = [least for least, _ in left.extents]
        high = [greatest for _, greatest in left.extents]
        assert [*map(float, (*low, *high))] == pytest.approx(expected.bounding_box(), abs=1e-3)


@PROPERTY
@given(planes)
def test_a_solid_is_what_lies_within_and_what_lies_without(sides: list[HalfSpace]) -> None:
    pieces = [WHOLE.within(sides), *WHOLE.without(sides)]
    assert sum(map(volume, pieces)) == pytest.approx(240)


def test_a_solid_that_a_plane_only_touches_stays_whole_or_goes() -> None:
    over = HalfSpace((ZERO, ZERO, Fraction(1)), Fraction(4))
    assert volume(WHOLE.clipped(over)) == 240
    assert WHOLE.clipped(over.turned()) is None
    at_edge = HalfSpace((Fraction(1), ZERO, Fraction(1)), Fraction(14))
    assert volume(WHOLE.clipped(at_edge)) == 240
    assert WHOLE.clipped(at_edge.turned()) is None


@PROPERTY
@given(planes)
def test_what_is_moved_is_clipped_as_it_was_where_it_stood(sides: list[HalfSpace]) -> None:
    by = Fraction(3), Fraction(-2), Fraction(1, 2)
    there = [
        HalfSpace(one.normal, one.limit + sum(map(mul, one.normal, by)), one.surface)
        for one in sides
    ]
    left = WHOLE.clipped(sides[0])
    if left:
        clipped = left.moved(by).within(there[1:])
        assert volume(clipped) == pytest.approx(volume(left.within(sides[1:])))
