"""Figures that a joiner can set a gauge or a rule to: half millimetres, sixteenths of an inch."""

import math
from fractions import Fraction

from joinery_templates.lengths import INCH, Units


def as_a_gauge_is_set(length: Fraction, units: Units) -> Fraction:
    """The nearest such figure, halves upwards; never nothing."""
    return nearest_setting(length, _step(units))


def at_most_as_a_gauge_is_set(length: Fraction, units: Units) -> Fraction:
    """The next such figure that is not above; a length below all of them stays as it is."""
    step = _step(units)
    return math.floor(length / step) * step or length


def nearest_setting(length: Fraction, step: Fraction) -> Fraction:
    """The multiple of a gauge's step that comes nearest, halves upwards, and never nothing."""
    return max(1, math.floor(length / step + Fraction(1, 2))) * step


def _step(units: Units) -> Fraction:
    return Fraction(1, 2) if units is Units.MM else INCH / 16
