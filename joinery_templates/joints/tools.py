"""The person's own tools, as far as a layout must suit them."""

from fractions import Fraction

from msgspec import Struct


class Tools(Struct, frozen=True):
    """Tools that a layout is checked against.

    Attributes:
        chisels: widths owned, in mm; empty where the person did not say.
        kerf: width of the saw cut, or None.
        smallest_pin: narrowest pin wanted, or None.
        gauge: the steps in which the gauge can be set, or None where it has none.
        kerf_shown: whether what the saw takes is drawn beside its lines.
    """

    chisels: tuple[Fraction, ...] = ()
    kerf: Fraction | None = None
    smallest_pin: Fraction | None = None
    gauge: Fraction | None = None
    kerf_shown: bool = False

    @property
    def narrowest_space(self) -> Fraction | None:
        """The narrowest space between tails that these tools can clear, None if not said."""
        if self.smallest_pin is not None:
            return self.smallest_pin
        return min(self.chisels, default=None)

    @property
    def drawn_kerf(self) -> Fraction | None:
        """How wide a saw cut is drawn beside its line, None where it is not wished for."""
        return self.kerf if self.kerf_shown else None
