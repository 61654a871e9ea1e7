"""The mortise and tenon of a frame: stopped if nothing else is said, with every option."""

from joinery_templates.errors import COMMON
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.layout import FRAME_CORNERS
from joinery_templates.joints.spread import thin_and_thick_tenons
from joinery_templates.joints.tenons.parameters import Parameters
from joinery_templates.joints.tenons.stated import SOURCES, Stated

KIND = Kind(
    name="mortise-and-tenon",
    title="Mortise and tenon",
    summary="A rail's tenon in a stile's edge, stopped or through, single, twin or one above "
    "another, bare-faced or shouldered all round: frames and doors.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=Stated.joint_of,
    example=Example(
        width="60 mm",
        thicknesses=("21 mm", "21 mm"),
        parameters=(
            ("tenon_thickness", "7 mm"),
            ("tenon_length", "43 mm"),
            ("shoulder", "6 mm"),
            ("shoulder_far", "14 mm"),
            ("horn", "20 mm"),
            ("extra_depth", "2 mm"),
        ),
        second_width="60 mm",
        corners=FRAME_CORNERS,
    ),
    also=("mortise", "tenon", "mortice-and-tenon"),
    sources=(*SOURCES, f"horn: {COMMON}"),
    spread=thin_and_thick_tenons,
)
