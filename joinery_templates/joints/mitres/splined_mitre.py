r"""The splined mitre: a square mitre with a loose tongue inside, or with feathers across it.

Seen on the boards' edges. ``y + z`` is measured along the mitre from the outer corner, and
``y - z`` square to it into the board, both times the root of 2::

    outer corner          outside        outer corner          outside
        +------------------------            +---------/--------------
        | \                                  | \     /
        |   \     /                          |   \ /  feather
        |     \ /  spline                    |   / \
        |     / \                            | /     \
        |          \  inner corner           |         \  inner corner
"""

from joinery_templates.errors import COMMON, OURS
from joinery_templates.joint import Joint
from joinery_templates.joints.corners.angles import pair_of
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.mitres.feathers import Feathered
from joinery_templates.joints.mitres.mitre import NOYES_MITRE
from joinery_templates.joints.mitres.spline import Splined
from joinery_templates.joints.mitres.splined import SPLINE, Parameters


def _lay_out(request: Request) -> Joint:
    given: Parameters = request.given
    form = Splined if given.form == SPLINE else Feathered
    return form(request, given, pair_of(request, "In a mitre", mitred=True)).joint()


KIND = Kind(
    name="splined-mitre",
    title="Splined mitre",
    summary="A square mitre of upright boards, held by a spline in grooves inside it or by "
    "feathers across the corner.",
    roles=Splined.roles,
    parameter_class=Parameters,
    lay_out=_lay_out,
    example=Example(
        width="90 mm",
        thicknesses=("18 mm", "18 mm"),
        parameters=(("spline", "4 mm"), ("from_corner", "5 mm"), ("depth", "7 mm")),
    ),
    sources=(NOYES_MITRE, f"spline and feathers: {COMMON}; their sizes: {OURS}"),
)
