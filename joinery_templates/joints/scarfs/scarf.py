r"""The scarf: two boards or beams end on end, cut at a long slant; plain, hooked or keyed.

Seen on the reference edge, which shows the depth; y runs from the first board's tip into it::

    outside  plain                         hooked, or with a key in the hook
    ---------.--------------------         ---------.--------------------
      first   `--.         second            first  |`-._  |`-._   second
                  `--.                                     `-|    `-.|
    ------------------`-----------         --------------------|---------
         y = length   y = 0

Each y is cut at one depth alone; so the second lies on the first, and comes off square to its
faces. With a key, the hook's two faces stand apart by its width.
"""

from collections.abc import Iterator

from joinery_templates.errors import COMMON, refuse
from joinery_templates.exact import ZERO
from joinery_templates.joint import Joint, LengthSetting, Size, SlopeSetting
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.layout import block, faces_with_lines, pose
from joinery_templates.joints.scarfs.shape import GLUED, TREDGOLD, Parameters, Scarf
from joinery_templates.joints.scarfs.work import advise, impossible, order_of_work, rules_of
from joinery_templates.wood.placement import AGAINST, ORIGIN, Placement


def build(request: Request) -> Joint:
    """The layout of a scarf.

    Raises:
        InputError: where it cannot be cut.
    """
    given: Parameters = request.given
    scarf = Scarf(request, given)
    refuse(impossible(scarf))
    one, other = scarf.member(0), scarf.member(1)
    whole = block(ORIGIN, (scarf.boards[0].width, scarf.long, scarf.deep))
    return Joint(
        kind=KIND.name,
        title=KIND.title,
        members=(one, other),
        placements=(Placement(AGAINST, (ZERO, scarf.long, ZERO)),),
        filled=(whole,),
        sizes=tuple(_sizes(scarf)),
        lengths=tuple(_lengths(scarf)),
        slopes=(SlopeSetting("slants, stock on the squared end", scarf.slope),),
        rules=tuple(rules_of(scarf)),
        findings=tuple(advise(scarf)),
        steps=tuple(order_of_work(scarf)),
        pose=pose(up=(0, 0, -1), front=(-3, 1, -2), apart=(0, 0, 1)),
        faces=faces_with_lines(one.part, other.part),
        loose=scarf.loose(),
        at_corner=False,
    )


def _sizes(scarf: Scarf) -> Iterator[Size]:
    yield Size("scarf, length along the boards", scarf.long)
    if not scarf.is_plain:
        yield Size("hook, depth", scarf.hook)
        yield Size("from the scarf's ends to the hook", scarf.before)
    if scarf.key:
        yield Size("key, width", scarf.key)


def _lengths(scarf: Scarf) -> Iterator[LengthSetting]:
    if not scarf.is_plain:
        use = "hook, from the outside and from the inside face of both"
        yield LengthSetting("gauge", use, scarf.high)
        yield LengthSetting("gauge", "square ends, from the face that they stand at", scarf.nib)


KIND = Kind(
    name="scarf",
    title="Scarf",
    summary="Two boards or beams end on end, cut at a long slant: plain, hooked, or hooked with a "
    "key.",
    roles=Scarf.roles,
    parameter_class=Parameters,
    build=build,
    example=Example(
        width="60 mm",
        thicknesses=("20 mm", "20 mm"),
        parameters=(("scarf_length", "240 mm"),),
        corners=(("Scarf 1", "A"),),
    ),
    sources=(TREDGOLD, GLUED, f"nibs and folding wedges: {COMMON}"),
)
