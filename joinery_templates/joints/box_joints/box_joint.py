r"""The box joint, or corner locking: square fingers of both boards interlock.

The first board's end, outside face, with 5 fingers and spaces in all::

    +----+    +----+    +----+  y = 0, the end
    |    |    |    |    |    |
    |    |____|    |____|    |  y = baseline
    finger space finger space finger

The second board has a finger where the first has a space, and the other way round.
"""

from joinery_templates.joint import Joint
from joinery_templates.joints.box_joints import fingers
from joinery_templates.joints.box_joints.corner import FingerCorner, lay_corner
from joinery_templates.joints.box_joints.work import advise, order_of_work
from joinery_templates.joints.corners.angles import UPRIGHT_AND_SQUARE
from joinery_templates.joints.corners.meeting import Meeting
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.sources import NOYES
from joinery_templates.joints.spread import more_or_fewer_fingers
from joinery_templates.wood.leaning import LeaningCorner

SLIP_JOINT = f"{NOYES}, no. 46: the slip joint; several side by side are called corner locking"


class Parameters(Meeting, fingers.Parameters):
    """The parameters of a box joint."""


def build(request: Request) -> Joint:
    """The layout of a box joint.

    Raises:
        InputError: where it cannot be cut.
    """
    return box_joint(KIND, request, UPRIGHT_AND_SQUARE)


def box_joint(kind: Kind, request: Request, angles: LeaningCorner) -> Joint:
    """Fingers where the boards meet at any angles.

    Args:
        kind: of the joint.
        request: what it is built from.
        angles: of the corner.

    Raises:
        InputError: where it cannot be cut.
    """
    given: fingers.Parameters = request.given
    corner = lay_corner(request, given, angles)
    return Joint(
        kind=kind.name,
        title=kind.title,
        members=corner.members(*corner.ends()),
        placements=(corner.pair.placement,),
        filled=corner.pair.filled(),
        allowance=given.fit,
        rows=tuple(corner.rows()),
        sizes=tuple(corner.sizes()),
        lengths=tuple(corner.lengths()),
        slopes=(*corner.end_bevels(), *corner.edge_bevels()),
        rules=corner.rules,
        findings=(*advise(corner), *corner.advise_on_strips()),
        steps=tuple(order_of_work(corner)),
        pose=corner.pose,
        at_corner=corner.pair.is_square_in_plan,
        clearings=tuple(corner.clearings()),
    )


KIND = Kind(
    name="box-joint",
    title="Box joint",
    summary="Square fingers of both boards interlock (corner locking): boxes and trays.",
    roles=FingerCorner.roles,
    parameter_class=Parameters,
    build=build,
    example=Example(
        width="84 mm",
        thicknesses=("12 mm", "12 mm"),
        parameters=(
            ("fingers", 7),
            ("first_proud", "0.3 mm"),
            ("second_proud", "0.3 mm"),
        ),
    ),
    also=(
        "finger-joint",
        "comb-joint",
        "corner-locking",
    ),
    sources=(SLIP_JOINT, "finger about as wide as the stock is thick: common practice, no source"),
    spread=more_or_fewer_fingers,
)
