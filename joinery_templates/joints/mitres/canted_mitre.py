"""The canted mitre: mitred corners of a tray, frame or hopper whose sides lean.

One angle for all sides, or one for each board of the corner; square in plan or not.
"""

from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.joints.corners.angles import (
    RATIOS,
    Angles,
    lean_parameter,
    plan_parameter,
    second_lean_parameter,
)
from joinery_templates.joints.joint import Example, Joint, Kind, Request
from joinery_templates.joints.mitres.mitre import NOYES_MITRE, ROLES, leaning_mitre


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """The parameters of a canted mitre."""

    lean: Fraction = lean_parameter()
    second_lean: Fraction | None = second_lean_parameter()
    plan: Fraction = plan_parameter()


def build(request: Request) -> Joint:
    """The layout of a canted mitre.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Given)
    angles = Angles(given.lean, given.second_lean, given.plan)
    return leaning_mitre((KIND.name, KIND.title), request, angles)


KIND = Kind(
    name="canted-mitre",
    title="Canted mitre",
    summary="Mitred corners where the sides lean: trays, hoppers, planters.",
    roles=ROLES,
    given_class=Given,
    build=build,
    example=Example(width="90 mm", thicknesses=("12 mm", "12 mm"), parameters=(("lean", 12),)),
    sources=(NOYES_MITRE, RATIOS),
)
