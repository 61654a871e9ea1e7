"""Roots and tangents as rationals, so that lengths stay exact up to the PDF writer."""

import math
from fractions import Fraction

ZERO, ONE = Fraction(0), Fraction(1)

ROOT_BOUND = Fraction(1, 10**15)
"""`square_root` errs by less than this share of its value."""

TANGENT_BOUND = Fraction(1, 10**11)
"""`tangent` errs by less than this: a hundred-millionth of a millimetre over a metre."""

_PI = Fraction(3_141_592_653_589_793_238_462_643_383_279_502_884_197, 10**39)
_SCALE = 10**36
_TERMS = 40
_TANGENT_GRID = 10**12


def nearest(value: Fraction | float) -> float:
    """What `float` gives; of a Fraction in less than half the time."""
    over, under = value.as_integer_ratio()
    return over / under


def square_root(value: Fraction) -> Fraction:
    """The square root of a rational.

    Args:
        value: zero or more.

    Returns:
        The exact root where it is rational, else a rational within `ROOT_BOUND` of it.
    """
    product = value.numerator * value.denominator
    root = math.isqrt(product)
    if root * root == product:
        return Fraction(root, value.denominator)
    shift = 10 ** max(0, 18 - len(str(root)))
    return Fraction(math.isqrt(product * shift * shift), value.denominator * shift)


def tangent(angle_deg: Fraction) -> Fraction:
    """The tangent of an angle in degrees within `TANGENT_BOUND`.

    Whole numbers only, from the power series of sine and cosine: the machine's own
    tangent may differ in its last bit from one machine to the next, and the same job
    must give the same drawing everywhere.

    Args:
        angle_deg: an angle nearer to zero than 89 degrees.

    Raises:
        ValueError: the angle is steeper; reject it where it is read.
    """
    if abs(angle_deg) >= 89:
        raise ValueError(f"an angle of {float(angle_deg)} degrees is too steep for a tangent")
    angle = round(abs(angle_deg) * _PI / 180 * _SCALE)
    sums = [0, 0]  # cosine, sine
    term = _SCALE
    for power in range(_TERMS):
        sums[power % 2] += term if power % 4 < 2 else -term
        term = term * angle // (_SCALE * (power + 1))
    cosine, sine = sums
    size = Fraction(round(Fraction(sine, cosine) * _TANGENT_GRID), _TANGENT_GRID)
    return -size if angle_deg < 0 else size


def degrees_of(rise: Fraction, run: Fraction) -> float:
    """The angle whose tangent is rise / run, in degrees, for telling and not for drawing."""
    return math.degrees(math.atan2(float(rise), float(run)))
