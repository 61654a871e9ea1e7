"""The person's own tools, as far as a layout must suit them."""

from collections.abc import Iterable
from typing import Any

from joinery_templates.exact import Fraction, degrees_of
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.joints.shared_parameters import size_parameter, sizes_parameter


def owned_parameter(words: str, **declared: Any) -> Any:
    """The sizes of all tools of one sort. For more see `Parameter`."""
    return sizes_parameter(words, "not said", default=(), high=75, fewest=0, most=100, **declared)


class Tools(Table):
    """Tools that a layout is checked against: the [tools] table of a job file.

    Lengths are in mm; beyond the highest ones units were mixed up (our judgement).
    """

    chisels: tuple[Fraction, ...] = owned_parameter(
        "Widths of your chisels, such as 3, 6, 10 mm.",
        example="[3, 6, 10, 12, 18]",
        refusal="A chisel of {} cannot be right.",
    )
    kerf: Fraction | None = size_parameter(
        "Width of your saw's cut, measured in a trial cut.",
        "not said",
        high=5,
        example="0.6",
        refusal="A saw cut of {} cannot be right.",
    )
    smallest_pin: Fraction | None = size_parameter(
        "The narrowest pin that you want to cut.", "as wide as your narrowest chisel", example="3"
    )
    gauge: Fraction | None = size_parameter(
        "The steps in which your gauge can be set, if it has any.",
        "it has none",
        high=10,
        example="0.5",
        refusal="A gauge with steps of {} cannot be right.",
    )
    slopes: tuple[Fraction, ...] = parameter(
        Quantity.SLOPES,
        'Slopes of your dovetail markers, such as "1:6", "1:8" or "9 deg".',
        rule="you set a bevel",
        default=(),
        fewest=0,
        most=20,
        example='["1:6", "1:8"]',
    )
    dividers: Fraction | None = size_parameter(
        "How far your dividers open.", "wide enough", high=1000, example="120"
    )
    bits: tuple[Fraction, ...] = owned_parameter(
        "Diameters of your bits, such as 6, 8, 10 mm.",
        example="[6, 8, 10]",
        refusal="A bit of {} cannot be right.",
    )
    kerf_shown: bool = parameter(
        Quantity.FLAG, "Also draw the far side of each saw cut.", default=False, example="true"
    )

    @property
    def narrowest_space(self) -> Fraction | None:
        """The narrowest space between tails that these tools can clear, None if not said."""
        if self.smallest_pin is not None:
            return self.smallest_pin
        return min(self.chisels, default=None)

    def nearest_chisel(self, usual: Fraction, low: Fraction, high: Fraction) -> Fraction | None:
        """The chisel nearest to a width; None where none is within limits."""
        return nearest_size((chisel for chisel in self.chisels if low <= chisel <= high), usual)

    def nearest_slope(self, wanted: Fraction) -> Fraction:
        """The marker's slope that comes nearest in degrees; what is wanted where a bevel is set."""
        return min(
            self.slopes, key=lambda one: abs(_degrees(one) - _degrees(wanted)), default=wanted
        )


def nearest_size(sizes: Iterable[Fraction], wanted: Fraction) -> Fraction | None:
    """The size nearest to one that is wanted, the smaller of two; None where there is none."""
    return min(sizes, key=lambda one: (abs(one - wanted), one), default=None)


def _degrees(slope: Fraction) -> float:
    return degrees_of(slope, Fraction(1))
