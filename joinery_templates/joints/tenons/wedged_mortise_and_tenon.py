"""The wedged mortise and tenon: wedges spread the tenon's end in a mortise that is wider there."""

from joinery_templates.errors import COMMON
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.layout import FRAME_CORNERS
from joinery_templates.joints.shared_parameters import like
from joinery_templates.joints.tenons import parameters
from joinery_templates.joints.tenons.figures import TRIM, WIDER_OUTSIDE
from joinery_templates.joints.tenons.stated import SOURCES, Stated, held_by


class Parameters(parameters.Parameters):
    """The parameters of a wedged mortise and tenon."""

    through: bool = like(parameters.Parameters, "through", default=True)
    wedges: parameters.Wedges | None = like(parameters.Parameters, "wedges", rule="by their rules")


KIND = Kind(
    name="wedged-mortise-and-tenon",
    title="Wedged mortise and tenon",
    summary="A through tenon is spread by two wedges in saw kerfs, in a mortise that flares "
    "towards its far side: frames and benches that must never come apart.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=held_by("wedges", parameters.Wedges),
    example=Example(
        width="60 mm",
        thicknesses=("30 mm", "30 mm"),
        parameters=(
            ("tenon_thickness", "10 mm"),
            ("proud", "3 mm"),
            ("shoulder", "8 mm"),
            ("shoulder_far", "12 mm"),
            ("wedges", {"flare": "3 mm", "depth": "45 mm", "from_side": "6 mm"}),
            ("horn", "100 mm"),
        ),
        second_width="60 mm",
        corners=FRAME_CORNERS,
    ),
    sources=(*SOURCES, WIDER_OUTSIDE, TRIM, f"wedges in kerfs: {COMMON}"),
)
