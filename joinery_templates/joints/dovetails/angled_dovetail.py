"""The angled dovetail: a through dovetail of upright boards that do not meet squarely in plan.

Such as the corners of a six-sided box. The boards stand upright; for sides that lean as
well, see the canted dovetail.
"""

from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.joints.corners.angles import (
    ALONG_THE_GRAIN,
    SIX_SIDES,
    SIX_SIDES_CORNERS,
    Angles,
    plan_parameter,
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
    """The parameters of an angled dovetail."""

    plan: Fraction = plan_parameter(SIX_SIDES)
    slope: Fraction | None = slope_parameter()
    tails_proud: Fraction = tails_proud_parameter()
    pins_proud: Fraction = pins_proud_parameter()
    fit: Fraction = fit_parameter()


def build(request: Request) -> Joint:
    """The layout of an angled dovetail.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Given)
    wanted = Wanted(
        spacing=given,
        angles=Angles(plan=given.plan),
        slope=given.slope or DEFAULT_SLOPE,
        past=(given.tails_proud, given.pins_proud),
        fit=given.fit,
        rules=slope_rules(given.slope),
    )
    return leaning_dovetail((KIND.name, KIND.title), request, wanted)


KIND = Kind(
    name="angled-dovetail",
    title="Angled dovetail",
    summary="Through dovetails at a corner that is not square in plan, such as of six-sided boxes.",
    roles=ROLES,
    given_class=Given,
    build=build,
    example=Example(
        width="90 mm",
        thicknesses=("12 mm", "12 mm"),
        parameters=(
            ("plan", 120),
            ("slope", "1:7"),
            ("tails", 3),
            ("half_pin", "6 mm"),
            ("pin", "5 mm"),
        ),
        corners=SIX_SIDES_CORNERS,
    ),
    sources=(NOYES, RAKES, ALONG_THE_GRAIN),
)
