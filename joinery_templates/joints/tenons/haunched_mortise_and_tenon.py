"""The haunched mortise and tenon: at a corner, a stub of the tenon goes on to the rail's edge."""

from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.layout import FRAME_CORNERS
from joinery_templates.joints.shared_parameters import like
from joinery_templates.joints.tenons import parameters
from joinery_templates.joints.tenons.advice import HAUNCH
from joinery_templates.joints.tenons.figures import IN_GROOVE, TWO_THIRDS_RULE
from joinery_templates.joints.tenons.stated import SOURCES, Stated, held_by


class Parameters(parameters.Parameters):
    """The parameters of a haunched mortise and tenon."""

    haunch: parameters.Haunch | None = like(
        parameters.Parameters, "haunch", rule="a square one, by its rules"
    )


KIND = Kind(
    name="haunched-mortise-and-tenon",
    title="Haunched mortise and tenon",
    summary="At a corner the tenon is narrower than the rail, and a short haunch, square or "
    "sloped, goes on to its edge and fills the groove: panelled frames and doors.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=held_by("haunch", parameters.Haunch),
    example=Example(
        width="75 mm",
        thicknesses=("21 mm", "21 mm"),
        parameters=(
            ("tenon_thickness", "7 mm"),
            ("tenon_length", "46 mm"),
            ("shoulder", "7 mm"),
            ("shoulder_far", "25 mm"),
            ("haunch", {"form": "square", "length": "7 mm"}),
            ("groove", {"depth": "7 mm", "width": "7 mm"}),
            ("horn", "20 mm"),
            ("extra_depth", "2 mm"),
        ),
        second_width="64 mm",
        corners=FRAME_CORNERS,
    ),
    sources=(*SOURCES, TWO_THIRDS_RULE, IN_GROOVE, HAUNCH),
)
