"""Parameters that several dovetails share, each declared once, and what their spacing stands on."""

from fractions import Fraction
from typing import Any

from joinery_templates.joints.joint import Request
from joinery_templates.joints.parameter import Quantity, parameter
from joinery_templates.joints.spacing.tails import Ground


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
