r"""Tongue and groove: boards edge to edge, with a tongue on the one or loose in both.

Seen on the ends; the first board's far edge meets the second's reference edge, so that a third
follows in the same way. Both are gauged from the outside face::

         outside faces                            outside faces
    ----------+-----------------             --------+-------------------
       first  +---.  second                      .---+---.
              +---'                              `---+---'  loose
    ----------+-----------------             --------+-------------------
"""

from collections.abc import Iterator

from joinery_templates.errors import refuse
from joinery_templates.joint import Clearing, Joint, LengthSetting, Size
from joinery_templates.joints.edges import work
from joinery_templates.joints.edges.boards import AS_DEEP, CENTRED, THIRD, Edges, Parameters
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.layout import faces_with_lines, pose


def build(request: Request) -> Joint:
    """The layout of tongue and groove.

    Raises:
        InputError: where it cannot be cut.
    """
    given: Parameters = request.given
    edges = Edges(request, given)
    refuse(work.impossible(edges))
    one, other = edges.member(0), edges.member(1)
    return Joint(
        kind=KIND.name,
        title=KIND.title,
        members=(one, other),
        placements=(edges.placement,),
        filled=tuple(edges.filled()),
        sizes=tuple(_sizes(edges)),
        lengths=tuple(_lengths(edges)),
        rules=tuple(work.rules_of(edges)),
        findings=tuple(work.advise(edges)),
        steps=tuple(work.order_of_work(edges)),
        pose=pose(up=(0, 0, -1), front=(-1, -2, 0), apart=(-1, 0, 0)),
        faces=faces_with_lines(one.part, other.part),
        loose=edges.loose(),
        at_corner=False,
        clearings=(
            Clearing(
                "groove, by plough iron or chisel", edges.tongue, edges.tongue, "tongue", sawn=False
            ),
        ),
    )


def _sizes(edges: Edges) -> Iterator[Size]:
    yield Size("tongue, thickness", edges.tongue)
    if edges.is_solid:
        yield Size("tongue, length", edges.long)
        yield Size("first board, width without the tongue", edges.shows)
    else:
        yield Size("loose tongue, across the joint", 2 * edges.long)
    for number, role in enumerate(edges.roles):
        left = edges.boards[number].thickness - edges.high
        what = "groove" if number or not edges.is_solid else "tongue"
        yield Size(f"{role.words}, behind the {what} on the inside", left)


def _lengths(edges: Edges) -> Iterator[LengthSetting]:
    use = "nearer side of tongue and groove, from the outside face of both"
    yield LengthSetting("mortise gauge", "its points, for tongue and groove", edges.tongue)
    yield LengthSetting("gauge", use, edges.low)
    if edges.is_solid:
        use = "tongue's shoulders, from the first board's far edge"
        yield LengthSetting("gauge", use, edges.long)
    yield LengthSetting("depth stop", "groove", edges.depth)


KIND = Kind(
    name="tongue-and-groove",
    title="Tongue and groove",
    summary="Boards edge to edge, a tongue on the one in a groove of the other, or a loose tongue "
    "in both: panels, backs and floors.",
    roles=Edges.roles,
    parameter_class=Parameters,
    build=build,
    example=Example(
        width="120 mm",
        thicknesses=("18 mm", "18 mm"),
        parameters=(("tongue", "6 mm"), ("tongue_length", "6 mm"), ("depth", "7 mm")),
        second_width="100 mm",
        corners=(("Seam 1", "A"),),
    ),
    sources=(CENTRED, THIRD, AS_DEEP),
)
