"""Figures that a joiner can set a gauge or a rule to."""

import math
from fractions import Fraction

from joinery_templates.lengths import INCH, Units


def settable(length: Fraction, units: Units) -> Fraction:
    """The nearest half millimetre or sixteenth of an inch, halves upwards; never nothing."""
    grid = Fraction(1, 2) if units is Units.MM else INCH / 16
    return max(1, math.floor(length / grid + Fraction(1, 2))) * grid
