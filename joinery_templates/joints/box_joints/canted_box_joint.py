"""The canted box joint: square fingers of a tray or hopper whose sides lean.

One angle for all sides, or one for each board of the corner; square in plan or not.
"""

from joinery_templates.joints.box_joints import fingers
from joinery_templates.joints.box_joints.box_joint import SLIP_JOINT, Stated, box_joint
from joinery_templates.joints.corners.angles import RATIOS, Canted
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.spread import more_or_fewer_fingers


class Parameters(Canted, fingers.Parameters):
    """The parameters of a canted box joint."""


KIND = Kind(
    name="canted-box-joint",
    title="Canted box joint",
    summary="Square fingers (corner locking) where the sides lean: trays and hoppers.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=box_joint,
    example=Example(
        width="84 mm",
        thicknesses=("12 mm", "12 mm"),
        parameters=(("lean", 12), ("fingers", 7)),
    ),
    sources=(
        SLIP_JOINT,
        RATIOS,
        "finger about as wide as the stock is thick: common practice, no source",
    ),
    spread=more_or_fewer_fingers,
)
