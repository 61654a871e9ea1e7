"""Exact numbers: rationals, and their roots and tangents, up to the PDF writer."""

import math
from numbers import Rational
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import fractions

    Fraction = fractions.Fraction

    def in_bytes(number: Fraction) -> bytes:
        """A number in bytes, other ones than any other's."""
else:
    # It answers as Python's own does, in a tenth of the time; but what it gives for whole
    # numbers are not Python's, and as a float it is rounded down: see `floor` and `as_float`.
    import gmpy2

    Fraction = gmpy2.mpq
    in_bytes = gmpy2.to_binary

ZERO, ONE = Fraction(0), Fraction(1)

ROOT_BOUND = Fraction(1, 10**15)
"""`square_root` errs by less than this share of its value."""

TANGENT_BOUND = Fraction(1, 10**11)
"""`tangent` errs by less than this: a hundred-millionth of a millimetre over a metre."""

_PI = Fraction(3_141_592_653_589_793_238_462_643_383_279_502_884_197, 10**39)
_SCALE = 10**36
_TERMS = 40
_TANGENT_GRID = 10**12


def exactly(number: Rational) -> Fraction:
    """A rational of any make."""
    return Fraction(int(number.numerator), int(number.denominator))


def as_float(value: Fraction | float) -> float:
    """The float that is nearest to a number."""
    if isinstance(value, float):
        return value
    return int(value.numerator) / int(value.denominator)


def floor(value: Fraction) -> int:
    """The next whole number that is not above."""
    return int(value // 1)


def ceil(value: Fraction) -> int:
    """The next whole number that is not below."""
    return -int(-value // 1)


def rounded(value: Fraction) -> int:
    """The nearest whole number, of two the even one."""
    return int(round(value))  # noqa: RUF046 - not Python's own


def simplified(value: Fraction | float, most: int) -> Fraction:
    """The rational nearest to a number of all whose denominators are no larger than `most`."""
    from fractions import Fraction as OfPython

    exact = Fraction(value)
    near = OfPython(int(exact.numerator), int(exact.denominator)).limit_denominator(most)
    return Fraction(near)


def square_root(value: Fraction) -> Fraction:
    """The square root of a rational.

    Args:
        value: zero or more.

    Returns:
        The exact root where it is rational, else a rational within `ROOT_BOUND` of it.
    """
    product = int(value.numerator * value.denominator)
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
        raise ValueError(f"an angle of {as_float(angle_deg)} degrees is too steep for a tangent")
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
    return math.degrees(math.atan2(as_float(rise), as_float(run)))
