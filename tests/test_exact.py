"""Roots and tangents against closed forms, an identity and printed slope angles."""

import importlib.util
import math
from decimal import Decimal, localcontext

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.exact import (
    ROOT_BOUND,
    TANGENT_BOUND,
    Fraction,
    as_float,
    ceil,
    degrees_of,
    exactly,
    floor,
    rounded,
    simplified,
    square_root,
    tangent,
)

ANGLES = st.fractions(min_value="-88.99", max_value="88.99")


def decimal_root(value: Decimal) -> Decimal:
    with localcontext() as context:
        context.prec = 40
        return value.sqrt()


# Closed forms of school trigonometry; the roots are taken in decimals of 40 places.
CLOSED_FORMS = [
    (Fraction(0), Decimal(0)),
    (Fraction(15), 2 - decimal_root(Decimal(3))),
    (Fraction("22.5"), decimal_root(Decimal(2)) - 1),
    (Fraction(30), decimal_root(Decimal(3)) / 3),
    (Fraction(36), decimal_root(5 - 2 * decimal_root(Decimal(5)))),
    (Fraction(45), Decimal(1)),
    (Fraction(60), decimal_root(Decimal(3))),
    (Fraction("67.5"), decimal_root(Decimal(2)) + 1),
    (Fraction(75), 2 + decimal_root(Decimal(3))),
]

# Slope angles as printed in tables of dovetail slopes: atan(1/n) in degrees.
SLOPES = [
    ("4", 14.036),
    ("4.8", 11.768),
    ("5", 11.310),
    ("6", 9.462),
    ("7", 8.130),
    ("8", 7.125),
]


def encloses_root(root: Fraction, value: Fraction, bound: Fraction) -> bool:
    """Whether the true root lies within a share of the given one, decided in rationals."""
    return (root * (1 - bound)) ** 2 < value < (root * (1 + bound)) ** 2


@given(st.fractions(min_value="1/1000000000000", max_value=10**12))
def test_square_root_keeps_its_bound(value):
    root = square_root(value)
    assert root**2 == value or encloses_root(root, value, ROOT_BOUND)


def test_the_check_of_roots_sees_an_error_just_outside_the_bound():
    for error in (-2, 2):
        assert not encloses_root(
            square_root(Fraction(2)) * (1 + error * ROOT_BOUND), Fraction(2), ROOT_BOUND
        )


@given(st.fractions(min_value=0))
def test_the_root_of_a_square_is_exact(root):
    assert square_root(root**2) == root


@pytest.mark.parametrize("value", [Fraction(1, 3 * 10**60), Fraction(3 * 10**60 + 1), Fraction(2)])
def test_square_root_keeps_its_bound_for_vast_and_tiny_values(value):
    assert encloses_root(square_root(value), value, ROOT_BOUND)


def test_a_right_angled_triangle_of_3_and_4_has_5_exactly():
    assert square_root(Fraction(3) ** 2 + Fraction(4) ** 2) == 5


@pytest.mark.parametrize(("angle", "expected"), CLOSED_FORMS)
def test_tangent_agrees_with_its_closed_form(angle, expected):
    assert abs(tangent(angle) - Fraction(expected)) < TANGENT_BOUND


@given(ANGLES)
def test_tangent_agrees_with_the_machine_where_that_is_good_enough(angle):
    """Floats err by some units in the last place, magnified by 1 / cos squared."""
    machine = math.tan(math.radians(float(angle)))
    blur = 1e-15 * (1 + machine * machine)
    assert abs(float(tangent(angle)) - machine) < float(TANGENT_BOUND) + blur


@given(st.fractions(min_value=-44, max_value=44))
def test_tangents_follow_the_double_angle_rule(angle):
    single = tangent(angle)
    slack = 8 * TANGENT_BOUND * (1 + tangent(2 * angle) ** 2)
    assert abs(tangent(2 * angle) * (1 - single**2) - 2 * single) < slack


@given(ANGLES)
def test_leaning_the_other_way_is_the_mirror_image_exactly(angle):
    assert tangent(-angle) == -tangent(angle)


@given(ANGLES)
def test_tangents_stand_on_one_decimal_grid(angle):
    """The last bit of a machine's own tangent would show as an odd denominator."""
    assert 10**12 % tangent(angle).denominator == 0


@pytest.mark.parametrize("angle", [89, -89, 90, 180, 10**9])
def test_an_upright_slope_is_refused(angle):
    with pytest.raises(ValueError, match="too steep"):
        tangent(Fraction(angle))


@pytest.mark.skipif(importlib.util.find_spec("mpmath") is None, reason="mpmath is not installed")
@given(ANGLES)
def test_tangent_agrees_with_mpmath(angle):
    import mpmath

    with mpmath.workdps(40):
        radians = mpmath.mpf(angle.numerator) / angle.denominator * mpmath.pi / 180
        text = mpmath.nstr(mpmath.tan(radians), 35)
    assert abs(tangent(angle) - Fraction(text)) < TANGENT_BOUND


@pytest.mark.parametrize(("run", "angle"), SLOPES)
def test_slopes_have_their_printed_angles(run, angle):
    assert round(degrees_of(Fraction(1), Fraction(run)), 3) == angle


@pytest.mark.parametrize(("run", "angle"), SLOPES)
def test_printed_angles_lead_back_to_their_slopes(run, angle):
    """Half a thousandth of a degree is 9e-6 of slope at most here."""
    assert abs(tangent(Fraction(str(angle))) - 1 / Fraction(run)) < Fraction(1, 10**5)


HALVES = st.fractions(max_denominator=2)
"""Of two whole numbers that are equally near, the even one is taken."""


@given(st.fractions() | HALVES, st.integers(1, 10**6))
def test_whole_numbers_and_floats_are_pythons_own_and_as_python_works_them_out(python, most):
    ours = exactly(python)
    told = [floor(ours), ceil(ours), rounded(ours), as_float(ours), simplified(ours, most)]
    assert told == [
        math.floor(python),
        math.ceil(python),
        round(python),
        python.numerator / python.denominator,
        python.limit_denominator(most),
    ]
    assert [type(one) for one in told] == [int, int, int, float, Fraction]
