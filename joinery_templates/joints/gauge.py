"""A gauge, and the figures that it or a rule can be set to: half millimetres, 1/16 of an inch."""

from joinery_templates.exact import Fraction, ceil, floor
from joinery_templates.joint import LengthSetting
from joinery_templates.lengths import INCH, Units

GAUGE = "gauge"
"""The tool that steps, as `LengthSetting.tool` names it."""


def gauge(use: str, length: Fraction) -> LengthSetting:
    """A gauge set to a length."""
    return LengthSetting(GAUGE, use, length)


def as_a_gauge_is_set(length: Fraction, units: Units) -> Fraction:
    """The nearest such figure, halves upwards; never nothing."""
    return nearest_setting(length, gauge_step(units))


def at_most_as_a_gauge_is_set(length: Fraction, units: Units) -> Fraction:
    """The next such figure that is not above; a length below all of them stays as it is."""
    step = gauge_step(units)
    return floor(length / step) * step or length


def at_least_as_a_gauge_is_set(length: Fraction, units: Units) -> Fraction:
    """The next such figure that is not below."""
    step = gauge_step(units)
    return ceil(length / step) * step


def nearest_setting(length: Fraction, step: Fraction) -> Fraction:
    """The multiple of a gauge's step that comes nearest, halves upwards, and never nothing."""
    return max(1, nearest_whole(length / step)) * step


def nearest_whole(value: Fraction) -> int:
    """The nearest whole number, halves upwards."""
    return floor(value + Fraction(1, 2))


def gauge_step(units: Units) -> Fraction:
    """From one such figure to the next."""
    return Fraction(1, 2) if units is Units.MM else INCH / 16


def rule_steps(units: Units) -> tuple[Fraction, ...]:
    """The steps that a rule is divided in, the easiest to read first."""
    return (Fraction(1, 2),) if units is Units.MM else (INCH / 16, INCH / 32, INCH / 64)
