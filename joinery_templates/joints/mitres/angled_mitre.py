"""The angled mitre: a mitre of upright boards that do not meet squarely in plan.

Such as the corners of a six-sided box. For sides that lean as well, see the canted mitre.
"""

from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.joints.corners.angles import (
    SIX_SIDES,
    SIX_SIDES_CORNERS,
    Angles,
    plan_parameter,
)
from joinery_templates.joints.joint import Example, Joint, Kind, Request
from joinery_templates.joints.mitres.mitre import NOYES_MITRE, ROLES, leaning_mitre


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """The parameters of an angled mitre."""

    plan: Fraction = plan_parameter(SIX_SIDES)


def build(request: Request) -> Joint:
    """The layout of an angled mitre.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Given)
    return leaning_mitre((KIND.name, KIND.title), request, Angles(plan=given.plan))


KIND = Kind(
    name="angled-mitre",
    title="Angled mitre",
    summary="Mitred corners that are not square in plan, such as of six-sided boxes.",
    roles=ROLES,
    given_class=Given,
    build=build,
    example=Example(
        width="90 mm",
        thicknesses=("12 mm", "12 mm"),
        parameters=(("plan", 120),),
        corners=SIX_SIDES_CORNERS,
    ),
    sources=(NOYES_MITRE,),
)
