"""The angled dovetail: a through dovetail of upright boards that do not meet squarely in plan.

Such as the corners of a six-sided box. The boards stand upright; for sides that lean as
well, see the canted dovetail.
"""

from joinery_templates.joints.corners.angles import ALONG_THE_GRAIN, SIX_SIDES_CORNERS, Angled
from joinery_templates.joints.corners.meeting import Meeting
from joinery_templates.joints.dovetails.corner import ROLES
from joinery_templates.joints.dovetails.parameters import DovetailParameters, ThroughEnds
from joinery_templates.joints.dovetails.through_dovetail import through_joint
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.sources import JOYCE, NOYES_48
from joinery_templates.joints.spread import bolder_and_finer_tails


class Parameters(Meeting, ThroughEnds, Angled, DovetailParameters):
    """The parameters of an angled dovetail."""


KIND = Kind(
    name="angled-dovetail",
    title="Angled dovetail",
    summary="Through dovetails at a corner that is not square in plan, such as of six-sided boxes.",
    roles=ROLES,
    parameter_class=Parameters,
    lay_out=through_joint,
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
    sources=(NOYES_48, JOYCE, ALONG_THE_GRAIN),
    spread=bolder_and_finer_tails,
)
