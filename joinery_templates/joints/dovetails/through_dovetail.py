r"""The through dovetail: tails and pins go right through, and show on both faces.

The tail board's end, outside face (n = 2)::

    +---+\      /+---+\      /+---+  y = 0, the end
    |   | \    / |   | \    / |   |
    |   |  \__/  |   |  \__/  |   |  y = baseline
      half  tail  pin   tail  half
      pin                     pin
"""

from joinery_templates.joint import Joint
from joinery_templates.joints.corners.angles import UPRIGHT_AND_SQUARE, pair_of
from joinery_templates.joints.corners.meeting import Meeting
from joinery_templates.joints.dovetails import figures
from joinery_templates.joints.dovetails.corner import ROLES, lay_tails
from joinery_templates.joints.dovetails.parameters import ThroughEnds
from joinery_templates.joints.dovetails.routing.cutter import RoutedParameters
from joinery_templates.joints.dovetails.steps import through_steps
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.sources import JOYCE, NOYES_48
from joinery_templates.joints.spread import bolder_and_finer_tails
from joinery_templates.wood.leaning import LeaningCorner


class Parameters(Meeting, ThroughEnds, RoutedParameters):
    """The parameters of a through dovetail."""


def build(request: Request) -> Joint:
    """The layout of a through dovetail.

    Raises:
        InputError: where it cannot be cut.
    """
    return through_joint(KIND, request, UPRIGHT_AND_SQUARE, "At a through-dovetailed corner")


def through_joint(
    kind: Kind, request: Request, angles: LeaningCorner, where: str = "At this corner"
) -> Joint:
    """Tails right through where the boards meet at any angles.

    Args:
        kind: of the joint; its parameters are those of a dovetail and `ThroughEnds`.
        request: what it is built from.
        angles: of the corner.
        where: what such a corner is called where its boards differ.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    corner = lay_tails(request, pair_of(request, angles, where, given.past), given)
    return figures.dovetail_joint(
        kind,
        corner,
        ends=corner.ends(),
        rows=figures.through_rows(corner),
        gauges=corner.gauges(),
        steps=through_steps(corner),
    )


KIND = Kind(
    name="through-dovetail",
    title="Through dovetail",
    summary="Tails and pins right through both boards, seen on both faces: boxes and carcases.",
    roles=ROLES,
    parameter_class=Parameters,
    build=build,
    example=Example(
        width="90 mm",
        thicknesses=("12 mm", "12 mm"),
        parameters=(
            ("slope", "1:7"),
            ("tails", 3),
            ("half_pin", "6 mm"),
            ("pin", "4 mm"),
            ("tails_proud", "0.3 mm"),
            ("pins_proud", "0.3 mm"),
        ),
    ),
    also=(
        "dovetail",
        "dovetails",
    ),
    sources=(NOYES_48, JOYCE),
    spread=bolder_and_finer_tails,
)
