"""The canted mitre: mitred corners of a tray, frame or hopper whose sides lean.

One angle for all sides, or one for each board of the corner; square in plan or not.
"""

from joinery_templates.joints.corners.angles import RATIOS, Canted
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.mitres.mitre import NOYES_MITRE, MitreCorner, mitre_joint

KIND = Kind(
    name="canted-mitre",
    title="Canted mitre",
    summary="Mitred corners where the sides lean: trays, hoppers, planters.",
    roles=MitreCorner.roles,
    parameter_class=Canted,
    lay_out=mitre_joint,
    example=Example(width="90 mm", thicknesses=("12 mm", "12 mm"), parameters=(("lean", 12),)),
    sources=(NOYES_MITRE, RATIOS),
)
