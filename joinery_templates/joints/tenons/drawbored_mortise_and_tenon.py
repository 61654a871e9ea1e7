"""The draw-bored mortise and tenon: a peg through holes that do not quite meet draws it shut."""

from joinery_templates.errors import COMMON
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.layout import FRAME_CORNERS
from joinery_templates.joints.shared_parameters import like
from joinery_templates.joints.tenons import parameters
from joinery_templates.joints.tenons.stated import SOURCES, Stated, held_by


class Parameters(parameters.Parameters):
    """The parameters of a draw-bored mortise and tenon."""

    drawbore: parameters.Drawbore | None = like(
        parameters.Parameters, "drawbore", rule="one peg, by its rules"
    )


KIND = Kind(
    name="drawbored-mortise-and-tenon",
    title="Draw-bored mortise and tenon",
    summary="Pegs draw the shoulders shut: the tenon's holes are a little nearer to the shoulder "
    "than the stile's. Gates, doors and benches, with or without glue.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=held_by("drawbore", parameters.Drawbore),
    example=Example(
        width="80 mm",
        thicknesses=("36 mm", "36 mm"),
        parameters=(
            ("tenon_thickness", "12 mm"),
            ("tenon_length", "58 mm"),
            ("shoulder", "8 mm"),
            ("shoulder_far", "24 mm"),
            ("drawbore", {"peg": "8 mm", "offset": "1.5 mm", "from_shoulder": "16 mm"}),
            ("horn", "30 mm"),
            ("extra_depth", "2 mm"),
        ),
        second_width="80 mm",
        corners=FRAME_CORNERS,
    ),
    sources=(*SOURCES, f"pegs and their offset: {COMMON}"),
)
