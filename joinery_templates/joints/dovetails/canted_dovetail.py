"""The canted dovetail: through dovetails of a tray or hopper whose sides lean.

One angle for all sides, or one for each board of the corner; square in plan or not.
"""

from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.joints.corners.angles import (
    ALONG_THE_GRAIN,
    RATIOS,
    Angles,
    lean_parameter,
    plan_parameter,
    second_lean_parameter,
)
from joinery_templates.joints.dovetails.advice import NOYES, RAKES
from joinery_templates.joints.dovetails.figures import ROLES
from joinery_templates.joints.dovetails.leaning import Wanted, leaning_dovetail
from joinery_templates.joints.dovetails.parameters import (
    DEFAULT_SLOPE,
    fit_parameter,
    pins_proud_parameter,
    slope_parameter,
    slope_rules,
    tails_proud_parameter,
)
from joinery_templates.joints.joint import Example, Joint, Kind, Request
from joinery_templates.joints.spacing.tails import SpacingGiven


@dataclass(frozen=True, slots=True, kw_only=True)
class Given(SpacingGiven):
    """The parameters of a canted dovetail."""

    lean: Fraction = lean_parameter()
    second_lean: Fraction | None = second_lean_parameter()
    plan: Fraction = plan_parameter()
    slope: Fraction | None = slope_parameter()
    tails_proud: Fraction = tails_proud_parameter()
    pins_proud: Fraction = pins_proud_parameter()
    fit: Fraction = fit_parameter()


def build(request: Request) -> Joint:
    """The layout of a canted dovetail.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Given)
    wanted = Wanted(
        spacing=given,
        angles=Angles(given.lean, given.second_lean, given.plan),
        slope=given.slope or DEFAULT_SLOPE,
        past=(given.tails_proud, given.pins_proud),
        fit=given.fit,
        rules=slope_rules(given.slope),
    )
    return leaning_dovetail((KIND.name, KIND.title), request, wanted)


KIND = Kind(
    name="canted-dovetail",
    title="Canted dovetail",
    summary="Through dovetails where the sides lean: trays, hoppers, cradles.",
    roles=ROLES,
    given_class=Given,
    build=build,
    example=Example(
        width="90 mm",
        thicknesses=("12 mm", "12 mm"),
        parameters=(
            ("lean", 12),
            ("slope", "1:7"),
            ("tails", 3),
            ("half_pin", "6 mm"),
            ("pin", "5 mm"),
        ),
    ),
    sources=(NOYES, RAKES, RATIOS, ALONG_THE_GRAIN),
)
