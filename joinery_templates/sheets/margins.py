"""The edge of the paper that the printer cannot reach, or that is to stay white."""

from msgspec import Struct
from msgspec.structs import asdict

from joinery_templates.errors import mistake, refuse
from joinery_templates.exact import Fraction
from joinery_templates.lengths import mm_text

USUAL = Fraction(10)
"""Nearly every office printer reaches this far on all sides (our judgement)."""

WIDEST = Fraction(100)
"""No printer leaves more unprinted; more is a slip of the pen (our judgement)."""


class Margins(Struct, frozen=True):
    """White edges of a portrait page, each in mm.

    Raises:
        InputError: `margin-impossible`, once for each side that is negative or
            wider than 100 mm.
    """

    left: Fraction = USUAL
    right: Fraction = USUAL
    top: Fraction = USUAL
    bottom: Fraction = USUAL

    def __post_init__(self) -> None:
        refuse(
            mistake(
                "margin-impossible",
                f"The {side} margin is {mm_text(width)}.",
                "A margin is between 0 and 100 mm.",
                place=side,
            )
            for side, width in asdict(self).items()
            if not 0 <= width <= WIDEST
        )
