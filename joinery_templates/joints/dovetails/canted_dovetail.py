"""The canted dovetail: through dovetails of a tray or hopper whose sides lean.

One angle for all sides, or one for each board of the corner; square in plan or not.
"""

from joinery_templates.joints.corners.angles import ALONG_THE_GRAIN, RATIOS, Canted
from joinery_templates.joints.dovetails.corner import ROLES
from joinery_templates.joints.dovetails.parameters import DovetailParameters, ThroughEnds
from joinery_templates.joints.dovetails.through_dovetail import through_joint
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.sources import JOYCE, NOYES_48
from joinery_templates.joints.spread import bolder_and_finer_tails


class Parameters(ThroughEnds, Canted, DovetailParameters):
    """The parameters of a canted dovetail."""


KIND = Kind(
    name="canted-dovetail",
    title="Canted dovetail",
    summary="Through dovetails where the sides lean: trays, hoppers, cradles.",
    roles=ROLES,
    parameter_class=Parameters,
    lay_out=through_joint,
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
    sources=(NOYES_48, JOYCE, RATIOS, ALONG_THE_GRAIN),
    spread=bolder_and_finer_tails,
)
