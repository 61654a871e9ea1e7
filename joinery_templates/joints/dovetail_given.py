"""Parameters that several dovetails share, each declared once; a joint orders its own."""

from fractions import Fraction
from typing import Any

from joinery_templates.joints.parameter import Quantity, parameter


def slope_parameter() -> Any:
    """The lean of the tails' sides."""
    return parameter(
        Quantity.SLOPE,
        "How much the sides lean, as a ratio or an angle.",
        default=Fraction(1, 7),
        rule="1:7",
    )


def tails_proud_parameter() -> Any:
    """What the tails' ends stand past the pin board."""
    return _proud("How far the tails' ends stand past the pin board's face, to be planed flush.")


def pins_proud_parameter() -> Any:
    """What the pins' ends stand past the tail board."""
    return _proud("How far the pins' ends stand past the tail board's face, to be planed flush.")


def fit_parameter() -> Any:
    """The allowance at the sloping sides."""
    return parameter(
        Quantity.LENGTH,
        "Gap at each sloping side, square to it, taken off the pins; negative presses.",
        default=Fraction(0),
        rule="0",
        low=-1,
        high=1,
    )


def _proud(words: str) -> Any:
    return parameter(Quantity.LENGTH, words, default=Fraction(0), rule="0", low=0, high=10)
