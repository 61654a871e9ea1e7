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

from msgspec.structs import replace

from joinery_templates.errors import COMMON, OURS, refuse
from joinery_templates.joint import Joint
from joinery_templates.joints.corners.angles import UPRIGHT_AND_SQUARE, pair_of
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.layout import faces_with_lines
from joinery_templates.joints.mitres.feathers import Feathered
from joinery_templates.joints.mitres.mitre import NOYES_MITRE
from joinery_templates.joints.mitres.spline import Splined
from joinery_templates.joints.mitres.splined import SPLINE, Parameters


def build(request: Request) -> Joint:
    """The layout of a splined mitre.

    Raises:
        InputError: where it cannot be cut.
    """
    given: Parameters = request.given
    pair = pair_of(request, UPRIGHT_AND_SQUARE, "In a mitre", mitred=True)
    form = Splined if given.form == SPLINE else Feathered
    corner: Splined | Feathered = form(request, pair, given)
    refuse(corner.impossible())
    ends = corner.cut_end(0), corner.cut_end(1)
    one, other = corner.members(*ends)
    return Joint(
        kind=KIND.name,
        title=KIND.title,
        members=(replace(one, faces=corner.drawn), replace(other, faces=corner.drawn)),
        placements=(pair.placement,),
        filled=corner.filled(),
        rows=tuple(corner.rows()),
        sizes=(*corner.sizes(), *corner.own_sizes()),
        lengths=tuple(corner.lengths()),
        slopes=(*corner.end_bevels(), *corner.slopes()),
        rules=tuple(corner.rules()),
        findings=tuple(corner.advise()),
        steps=tuple(corner.steps()),
        pose=replace(corner.pose, apart=corner.apart),
        faces=faces_with_lines(*ends),
        loose=corner.loose(),
        clearings=tuple(corner.clearings()),
        is_mitred=True,
    )


KIND = Kind(
    name="splined-mitre",
    title="Splined mitre",
    summary="A square mitre of upright boards, held by a spline in grooves inside it or by "
    "feathers across the corner.",
    roles=Splined.roles,
    parameter_class=Parameters,
    build=build,
    example=Example(
        width="90 mm",
        thicknesses=("18 mm", "18 mm"),
        parameters=(("spline", "4 mm"), ("from_corner", "5 mm"), ("depth", "7 mm")),
    ),
    sources=(NOYES_MITRE, f"spline and feathers: {COMMON}; their sizes: {OURS}"),
)
