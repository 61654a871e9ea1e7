"""The canted box joint: square fingers of a tray or hopper whose sides lean.

One angle for all sides, or one for each board of the corner; square in plan or not.
"""

from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.joints.box_joints import fingers
from joinery_templates.joints.box_joints.box_joint import NOYES
from joinery_templates.joints.box_joints.leaning import ROLES, leaning_fingers
from joinery_templates.joints.corners.angles import (
    RATIOS,
    Angles,
    lean_parameter,
    plan_parameter,
    second_lean_parameter,
)
from joinery_templates.joints.joint import Example, Joint, Kind, Request


@dataclass(frozen=True, slots=True, kw_only=True)
class Given(fingers.Given):
    """The parameters of a canted box joint."""

    lean: Fraction = lean_parameter()
    second_lean: Fraction | None = second_lean_parameter()
    plan: Fraction = plan_parameter()


def build(request: Request) -> Joint:
    """The layout of a canted box joint.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Given)
    angles = Angles(given.lean, given.second_lean, given.plan)
    return leaning_fingers((KIND.name, KIND.title), request, given, angles)


KIND = Kind(
    name="canted-box-joint",
    title="Canted box joint",
    summary="Square fingers (corner locking) where the sides lean: trays and hoppers.",
    roles=ROLES,
    given_class=Given,
    build=build,
    example=Example(
        width="84 mm",
        thicknesses=("12 mm", "12 mm"),
        parameters=(("lean", 12), ("fingers", 7)),
    ),
    sources=(
        NOYES,
        RATIOS,
        "finger about as wide as the stock is thick: common practice, no source",
    ),
)
