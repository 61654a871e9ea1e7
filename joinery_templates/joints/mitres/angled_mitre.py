"""The angled mitre: a mitre of upright boards that do not meet squarely in plan.

Such as the corners of a six-sided box. For sides that lean as well, see the canted mitre.
"""

from joinery_templates.joints.corners.angles import SIX_SIDES_CORNERS, Angled
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.mitres.mitre import NOYES_MITRE, MitreCorner, mitre_joint

KIND = Kind(
    name="angled-mitre",
    title="Angled mitre",
    summary="Mitred corners that are not square in plan, such as of six-sided boxes.",
    roles=MitreCorner.roles,
    parameter_class=Angled,
    lay_out=mitre_joint,
    example=Example(
        width="90 mm",
        thicknesses=("12 mm", "12 mm"),
        parameters=(("plan", 120),),
        corners=SIX_SIDES_CORNERS,
    ),
    sources=(NOYES_MITRE,),
)
