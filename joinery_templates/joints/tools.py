"""The person's own tools, as far as a layout must suit them."""

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Tools:
    """Tools that a layout is checked against.

    Attributes:
        chisels: widths owned, in mm; empty where the person did not say.
        kerf: width of the saw cut, or None.
        smallest_pin: narrowest pin wanted, or None.
    """

    chisels: tuple[Fraction, ...] = ()
    kerf: Fraction | None = None
    smallest_pin: Fraction | None = None

    @property
    def narrowest_space(self) -> Fraction | None:
        """The narrowest space between tails that these tools can clear, None if not said."""
        if self.smallest_pin is not None:
            return self.smallest_pin
        return min(self.chisels, default=None)
