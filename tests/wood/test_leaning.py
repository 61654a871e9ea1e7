"""Leaning corners against the formulas of compound mitres, and against planes crossed in floats.

The formulas are standard trigonometry, as handbooks print them for hoppers and trays
(from memory); the check by crossed planes shares nothing with them or with the code.
"""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.exact import Fraction
from joinery_templates.wood.leaning import (
    across_the_face,
    leaning_corner,
    places,
    sine_and_cosine,
    through_the_thickness,
)

WITHIN_DEG = 1e-9
TENTHS = st.integers(-450, 450).map(lambda tenths: Fraction(tenths, 10))
PLANS = st.integers(400, 1500).map(lambda tenths: Fraction(tenths, 10))
ALIKE = (Fraction(1), Fraction(1))


def degrees(slope):
    return math.degrees(math.atan(float(slope)))


def rad(angle):
    return math.radians(float(angle))


def corner(lean, other=None, plan=90):
    return leaning_corner((Fraction(lean), Fraction(lean if other is None else other)), plan)


@pytest.mark.parametrize("sides", [3, 4, 5, 6, 8, 12])
@pytest.mark.parametrize("lean", [0, 5, 10, 15, 30, 45])
def test_ends_of_a_piece_of_many_sides_alike_follow_the_compound_mitre_formulas(sides, lean):
    """tan(end) = sin(lean) tan(180/n); sin(mitre) = cos(lean) sin(180/n), off square."""
    found = corner(lean, plan=180 - Fraction(360, sides))
    share = math.pi / sides
    for number in (0, 1):
        mitre = found.mitre_normal(number, ALIKE)
        end = math.degrees(math.atan(math.sin(rad(lean)) * math.tan(share)))
        bevel = math.degrees(math.asin(math.cos(rad(lean)) * math.sin(share)))
        assert degrees(across_the_face(mitre)) == pytest.approx(-end, abs=WITHIN_DEG)
        assert degrees(through_the_thickness(mitre)) == pytest.approx(bevel, abs=WITHIN_DEG)
        butt = found.outward_of_other(number)
        assert across_the_face(butt) == pytest.approx(across_the_face(mitre), abs=1e-12)


@pytest.mark.parametrize(
    ("lean", "end", "mitre", "butt"),
    [(5, 4.981, 44.782, 0.435), (45, 35.264, 30.000, 30.000), (30, 26.565, 37.761, 14.478)],
)
def test_a_square_piece_by_hand(lean, end, mitre, butt):
    """tan(end) = sin(lean), sin(mitre) = cos(lean) sin 45, sin(butt) = sin(lean) squared."""
    found = corner(lean)
    assert degrees(across_the_face(found.outward_of_other(0))) == pytest.approx(-end, abs=5e-4)
    assert degrees(through_the_thickness(found.outward_of_other(0))) == pytest.approx(
        -butt, abs=5e-4
    )
    assert degrees(through_the_thickness(found.mitre_normal(0, ALIKE))) == pytest.approx(
        mitre, abs=5e-4
    )
    assert found.faces_deg == pytest.approx(90 + butt, abs=5e-4)


def test_sides_at_15_and_ends_at_10_degrees_by_hand():
    """tan(end of one) = cos(own lean) tan(other lean); the other's likewise (square in plan)."""
    found = corner(15, 10)
    for number, (own, other) in enumerate(((15, 10), (10, 15))):
        end = math.degrees(math.atan(math.cos(rad(own)) * math.tan(rad(other))))
        normal = found.outward_of_other(number)
        assert degrees(across_the_face(normal)) == pytest.approx(-end, abs=WITHIN_DEG)
    # cos(angle of the faces) = -sin 15 sin 10
    assert math.cos(rad(found.faces_deg)) == pytest.approx(-math.sin(rad(15)) * math.sin(rad(10)))


@given(TENTHS, TENTHS, PLANS)
def test_end_slopes_and_bevels_are_those_of_the_planes_crossed(lean, other, plan):
    """Both outside faces as planes in space; their arris by the vector product."""
    found = leaning_corner((lean, other), plan)
    inside = rad(plan)
    along = [np.array([1.0, 0, 0]), np.array([math.cos(inside), math.sin(inside), 0])]
    level = [np.array([0.0, -1, 0]), np.array([-math.sin(inside), math.cos(inside), 0])]
    leans = [rad(lean), rad(other)]
    out = [
        math.cos(a) * n - math.sin(a) * np.array([0, 0, 1.0])
        for a, n in zip(leans, level, strict=True)
    ]
    arris = np.cross(out[0], out[1])
    arris = arris if arris[2] > 0 else -arris
    for number in (0, 1):
        across = math.sin(leans[number]) * level[number] + np.array([0, 0, math.cos(leans[number])])
        normal = found.outward_of_other(number)
        slope = (arris @ along[number]) / (arris @ across)
        assert float(across_the_face(normal)) == pytest.approx(slope, abs=1e-8)
    between = math.degrees(math.acos(np.clip(-(out[0] @ out[1]), -1, 1)))
    assert found.faces_deg == pytest.approx(between, abs=1e-5)


@given(TENTHS, TENTHS, PLANS)
def test_axes_are_exactly_square_and_the_second_board_is_of_the_other_hand(lean, other, plan):
    rows = leaning_corner((lean, other), plan).placement((Fraction(3), Fraction(4))).rows
    for i, row in enumerate(rows):
        for j, second in enumerate(rows):
            assert sum(a * b for a, b in zip(row, second, strict=True)) == (i == j)
    assert np.linalg.det(np.array(rows, dtype=float)) == pytest.approx(-1)


@given(TENTHS, TENTHS, PLANS)
def test_the_other_boards_face_lies_where_the_placement_puts_it(lean, other, plan):
    found = leaning_corner((lean, other), plan)
    placement = found.placement((Fraction(7), Fraction(2)))
    normal = found.outward_of_other(0)
    for point in ((Fraction(0), Fraction(2), Fraction(0)), (Fraction(9), Fraction(5), Fraction(0))):
        x, y, z = placement.point(point)
        assert normal[0] * x + normal[1] * (y - 7) + normal[2] * z == 0


@given(TENTHS, TENTHS, PLANS, st.integers(5, 40), st.integers(5, 40))
def test_a_mitre_runs_from_the_arris_outside_to_the_arris_inside(lean, other, plan, one, two):
    found = leaning_corner((lean, other), plan)
    thicknesses = Fraction(one), Fraction(two)
    placement = found.placement((Fraction(0), Fraction(0)))
    mine, mates = (found.mitre_normal(n, thicknesses) for n in (0, 1))
    # One plane, seen from both boards, with the wood on opposite sides.
    turned = tuple(sum(a * b for a, b in zip(row, mates, strict=True)) for row in placement.rows)
    assert turned == tuple(-part for part in mine)
    # It crosses the inside faces in one line.
    inside = places(found.outward_of_other(0), Fraction(-two), Fraction(10), Fraction(one))
    mitre = places(mine, Fraction(0), Fraction(10), Fraction(one))
    assert (inside[1], inside[3]) == (mitre[1], mitre[3])


@pytest.mark.parametrize("angle", [0, 90, -90, 30, 120, 177])
def test_sine_and_cosine_are_those_of_the_angle(angle):
    sine, cosine = sine_and_cosine(Fraction(angle))
    assert sine**2 + cosine**2 == 1
    assert float(sine) == pytest.approx(math.sin(rad(angle)), abs=1e-11)
    assert float(cosine) == pytest.approx(math.cos(rad(angle)), abs=1e-11)
