r"""Two boards end to end, with keys across the butted ends.

Seen on the outside face; the grain of boards and keys runs the same way::

    reference edges
    +----------------------+---------------------+
    |       first       \_____/     second       |
    |                   /-----\                  |
    |                      |                     |
    |                   \_____/                  |
    |                   /-----\                  |
    +----------------------+---------------------+
          y of the first <-|-> y of the second
"""

from joinery_templates.errors import refuse
from joinery_templates.joint import Joint, SettingOut, Step, Task
from joinery_templates.joints.checks import widths_differ
from joinery_templates.joints.keys import parameters
from joinery_templates.joints.keys.key import JointLine
from joinery_templates.joints.keys.keyed import SOURCES, keyed_joint, mouths
from joinery_templates.joints.keys.row import KeyedJoint, lay_keys
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.layout import Layout
from joinery_templates.joints.spread import more_or_fewer_keys
from joinery_templates.wood.board import EDGES
from joinery_templates.wood.cut import BoardEnd
from joinery_templates.wood.placement import AGAINST, AS_IT_IS, ORIGIN, Placement


def _lay_out(request: Request) -> Joint:
    layout = Layout(request, request.given)
    refuse(widths_differ(layout, "Where boards meet end to end"))
    first, second = layout.boards
    usual = parameters.thick_rule(layout, first.width, first.length, second.length)
    key, rules = parameters.settle_key(layout, usual)
    refuse(parameters.too_narrow(layout, key, (first.length, second.length)))
    line = JointLine(
        name="the joint line",
        limits=EDGES,
        length=first.width,
        widths_each=parameters.ROOM_EACH,
        nearest=(key.half_width, key.half_width),
        frame=Placement(AS_IT_IS, ORIGIN),
        # The second board lies beyond the first one's end, reference edges in line.
        placement=Placement(AGAINST, ORIGIN),
    )
    row = lay_keys(layout, key, line)
    keyed = KeyedJoint(request, layout.given, key, line, row, meet=_SHOOT, lay_on=_LAY_ON)
    one, other = line.sockets(key, row.positions)
    title, marks = "outside face, along the end", mouths(keyed)
    check = "Mark must meet prick."
    return keyed_joint(
        keyed,
        (BoardEnd(first, one, key.reach), BoardEnd(second, other, key.reach)),
        rows=tuple(
            SettingOut(title, role.words, first.width, marks, main=not number, use=check)
            for number, role in enumerate(layout.roles)
        ),
        rules=(*rules, *row.rules),
    )


_SHOOT = Step(
    Task.PREPARE,
    "Shoot the ends",
    "Shoot the two ends that meet square until they close without light between them, outside "
    "faces up and reference edges in one line.",
)
_LAY_ON = (
    "Cut each board's template along the fold of its outside face and lay that face on, the cut on "
    "the joint line and its reference edge flush with the board's; tape it, prick through the "
    "small rings, and take it off. Where the boards are marked before they are joined, leave the "
    "template whole and fold it over the end instead, so that the fold lines sit on the arrises. "
    "Check both with the setting-out strip, laid along the joint line on the outside face: mark "
    "must meet prick."
)

KIND = Kind(
    name="butt-dovetail-key",
    title="Keyed butt joint",
    summary="Boards end to end, held by double-dovetail keys across the butted ends.",
    roles=KeyedJoint.roles,
    parameter_class=parameters.KeyParameters,
    lay_out=_lay_out,
    example=Example(
        width="150 mm",
        thicknesses=("24 mm", "24 mm"),
        parameters=(
            ("keys", 2),
            ("key_length", "66 mm"),
            ("key_width", "28 mm"),
            ("waist", "17 mm"),
            ("depth", "10 mm"),
            ("proud", "1 mm"),
        ),
        corners=(("Butt 1", "A"),),
    ),
    sources=SOURCES,
    spread=more_or_fewer_keys,
)
