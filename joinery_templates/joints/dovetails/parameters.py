"""Parameters that several dovetails share, each declared once, and what their spacing stands on."""

from fractions import Fraction
from typing import Any

from joinery_templates.joints.dovetails.advice import RAKES
from joinery_templates.joints.joint import Request
from joinery_templates.joints.parameter import Quantity, parameter
from joinery_templates.joints.spacing.tails import Ground

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


def ground_of(
    request: Request,
    lean: Fraction,
    width: Fraction | None = None,
    from_edge: Fraction = Fraction(0),
) -> Ground:
    """What the tails are spaced on.

    Args:
        request: boards, units and tools.
        lean: how far a side comes in between a tail's end and the baseline.
        width: what of the board's width is free for them; all of it unless given.
        from_edge: how far from the reference edge that begins.
    """
    tail_board, pin_board = request.boards
    return Ground(
        width=tail_board.width if width is None else width,
        lean=lean,
        pin_thickness=pin_board.thickness,
        units=request.units,
        smallest_pin=request.tools.narrowest_space,
        from_edge=from_edge,
        board_width=tail_board.width,
    )


def _proud(words: str) -> Any:
    return parameter(Quantity.LENGTH, words, default=Fraction(0), rule="0", low=0, high=10)
