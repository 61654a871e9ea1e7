"""Parameters that several dovetails share, each declared once."""

from joinery_templates.exact import Fraction
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.joints.shared_parameters import fit_parameter, proud_parameter
from joinery_templates.joints.sources import JOYCE
from joinery_templates.joints.spacing.parameters import SpacingParameters


class DovetailParameters(SpacingParameters):
    """What every dovetailed corner can be told."""

    slope: Fraction | None = parameter(
        Quantity.SLOPE,
        "Slope of the tails' sides, as a ratio or an angle. Usual are 1:5 or 1:6 for carcases, "
        f"1:7 for show work and drawer sides, 1:8 for very fine work ({JOYCE}).",
        rule="1:7, or the nearest of your markers",
    )
    fit: Fraction = fit_parameter("at each sloping side, square to it, taken off the pins")


class ThroughEnds(Table):
    """What is told of ends that are seen on both boards."""

    tails_proud: Fraction = proud_parameter(
        "How far the tails' ends stand past the pin board's face, to be planed flush."
    )
    pins_proud: Fraction = proud_parameter(
        "How far the pins' ends stand past the tail board's face, to be planed flush."
    )

    @property
    def past(self) -> tuple[Fraction, Fraction]:
        """What both boards' ends stand past the other board."""
        return self.tails_proud, self.pins_proud
