"""Parameters that several dovetails share, each declared once."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from joinery_templates.joints.dovetails.advice import RAKES
from joinery_templates.joints.parameter import Quantity, parameter
from joinery_templates.joints.shared_parameters import fit_parameter, proud_parameter

DEFAULT_SLOPE = Fraction(1, 7)
SLOPE_RULE = f"Slope: 1:7, customary for show work and drawer sides ({RAKES})."


def slope_parameter(rule: str = "1:7") -> Any:
    """The lean of the tails' sides; `rule` says what holds where it is not given."""
    return parameter(
        Quantity.SLOPE,
        "How much the sides lean, as a ratio or an angle. Customary are 1:5 and 1:6 for "
        "carcases, 1:7 for show work and drawer sides, 1:8 for very fine work "
        f"({RAKES}).",
        rule=rule,
    )


def slope_rules(given: Fraction | None) -> tuple[str, ...]:
    """What is told of the slope where it was left open: `DEFAULT_SLOPE` holds then."""
    return () if given else (SLOPE_RULE,)


def tails_proud_parameter() -> Any:
    """What the tails' ends stand past the pin board."""
    return proud_parameter(
        "How far the tails' ends stand past the pin board's face, to be planed flush."
    )


def pins_proud_parameter() -> Any:
    """What the pins' ends stand past the tail board."""
    return proud_parameter(
        "How far the pins' ends stand past the tail board's face, to be planed flush."
    )


def pins_fit_parameter() -> Any:
    """The allowance at the sloping sides."""
    return fit_parameter("at each sloping side, square to it, taken off the pins")


@dataclass(frozen=True, kw_only=True)
class ThroughTails:
    """Parameters of through tails beside their spacing; without slots, to be mixed in."""

    slope: Fraction | None = slope_parameter()
    tails_proud: Fraction = tails_proud_parameter()
    pins_proud: Fraction = pins_proud_parameter()
    fit: Fraction = pins_fit_parameter()
