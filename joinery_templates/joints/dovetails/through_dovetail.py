r"""The through dovetail: tails and pins go right through, and show on both faces.

The tail board's end, outside face (n = 2)::

    +---+\      /+---+\      /+---+  y = 0, the end
    |   | \    / |   | \    / |   |
    |   |  \__/  |   |  \__/  |   |  y = baseline
      half  tail  pin   tail  half
      pin                     pin
"""

from joinery_templates.joint import Joint
from joinery_templates.joints.corners.angles import pair_of
from joinery_templates.joints.corners.meeting import Meeting
from joinery_templates.joints.dovetails.corner import ROLES
from joinery_templates.joints.dovetails.figures import Dovetail
from joinery_templates.joints.dovetails.parameters import ThroughEnds
from joinery_templates.joints.dovetails.routing.cutter import RoutedParameters
from joinery_templates.joints.dovetails.steps import through_steps
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.sources import JOYCE, NOYES_48
from joinery_templates.joints.spread import bolder_and_finer_tails


class Parameters(Meeting, ThroughEnds, RoutedParameters):
    """The parameters of a through dovetail."""


class Through(Dovetail, frozen=True, dict=True):
    """All that is stated of a through dovetail."""

    steps = through_steps


def through_joint(request: Request) -> Joint:
    """Tails right through where the boards meet at any angles.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    pair = pair_of(request, "At a through-dovetailed corner", given.past)
    return Through.laid_out(request, pair).joint()


KIND = Kind(
    name="through-dovetail",
    title="Through dovetail",
    summary="Tails and pins right through both boards, seen on both faces: boxes and carcases.",
    roles=ROLES,
    parameter_class=Parameters,
    lay_out=through_joint,
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
    also=("dovetail", "dovetails"),
    sources=(NOYES_48, JOYCE),
    spread=bolder_and_finer_tails,
)
