r"""Two boards edge to edge, with keys across the seam.

Seen on the outside face, the first board's far edge against the second's reference edge,
so that a third plank can follow in the same way::

      start of the joint line
    +-----------------------+---------------------+
    |        first       \_____/      second      |
    | x = 0              /-----\  keys            |
    |                       |                     |  y runs on towards the end

Both boards' reference edges point the same way. The second board's frame therefore runs
from the end of the seam to its start: the frames of two parts that meet are mirror images.
"""

from joinery_templates.errors import refuse
from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.joint import Joint, Mark, SettingOut, Step, Task
from joinery_templates.joints.keys import parameters
from joinery_templates.joints.keys.key import JointLine
from joinery_templates.joints.keys.keyed import SOURCES, keyed_joint
from joinery_templates.joints.keys.row import KeyedJoint, lay_keys
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.layout import Layout
from joinery_templates.joints.shared_parameters import choice_parameter, size_parameter
from joinery_templates.joints.spread import more_or_fewer_keys
from joinery_templates.wood.cut import Stretch
from joinery_templates.wood.placement import AGAINST, Placement

ONE_KEY, WHOLE_ROW = "one key", "whole row"


class Parameters(parameters.KeyParameters):
    """The parameters of keys across a seam."""

    seam: Fraction | None = size_parameter(
        "Length of the seam between the two boards.", "the shorter board's length, where it is told"
    )
    drawn: str = choice_parameter(
        "What the boards' templates show: one key, laid on at each mark of the setting-out strip, "
        "or the whole row in one long template.",
        ONE_KEY,
        WHOLE_ROW,
    )


def _lay_out(request: Request) -> Joint:
    given: Parameters = request.given
    layout = Layout(request, given)
    first, second = layout.boards
    told = [board.length for board in layout.boards if board.length is not None]
    seam = given.seam or min(told, default=None)
    usual = parameters.thick_rule(
        layout, seam, first.width, second.width, parameters.LONGEST_ACROSS
    )
    key, rules = parameters.settle_key(layout, usual)
    refuse(parameters.too_narrow(layout, key, (first.width, second.width)))
    edge = (first.width, ZERO, ZERO)
    line = JointLine(
        name="the seam",
        limits=("start of the seam", "end of the seam"),
        length=seam,
        widths_each=10,
        nearest=(key.half_width, key.half_width),
        frame=Placement(((ZERO, -ONE, ZERO), (ONE, ZERO, ZERO), (ZERO, ZERO, ONE)), edge),
        placement=Placement(AGAINST, edge),
    )
    row = lay_keys(layout, key, line)
    is_whole = given.drawn == WHOLE_ROW
    keyed = KeyedJoint(
        request,
        given,
        key,
        line,
        row,
        meet=_MEET,
        lay_on=_LAY_ON_ROW if is_whole else _LAY_ON_EACH,
        across_grain=True,
    )
    # Drawn from the first key that is shown; all are alike.
    shown = tuple(at - row.positions[0] for at in row.positions) if is_whole else (ZERO,)
    low, high = -key.half_width, shown[-1] + key.half_width
    words = "middle of key 1" if len(shown) > 1 else "middle of the key"
    (one, other), (start, end) = line.sockets(key, shown), line.limits
    marks = (Mark(at, f"middle of key {n}") for n, at in enumerate(row.positions, start=1))
    strip = SettingOut(
        line.name,
        layout.role(0),
        row.length,
        tuple(marks),
        main=True,
        start=start,
        along_end=False,
        use="Pencil the marks.",
    )
    return keyed_joint(
        keyed,
        (
            Stretch(first, one, low, high, words, start, ("joint at far edge",) * 2),
            Stretch(second, other, -high, -low, words, end, ("joint at reference edge",) * 2),
        ),
        rows=(strip,),
        rules=(*rules, *row.rules),
        shown=shown,
    )


_MEET = Step(
    Task.PREPARE,
    "Shoot the edges",
    "Shoot the first board's far edge and the second board's reference edge until they close "
    "without light between them, outside faces up.",
)
_SQUARE = (
    "Lay the setting-out strip along the seam, its arrow as ▲ on the first board's template, and "
    "square a pencil line across both at {}'s middle. "
)
_LAY_ON_ROW = _SQUARE.format("key 1") + (
    "Lay each board's template with its dashed line on that line and its edge on the seam, and "
    "glue it, or prick through the small rings."
)
_LAY_ON_EACH = _SQUARE.format("every key") + (
    "There lay both templates, dashed line on line, edge on the seam, and prick through the "
    "small rings."
)

KIND = Kind(
    name="dovetail-key",
    title="Keyed edge joint",
    summary="Boards edge to edge, held by double-dovetail keys across the seam: tops and repairs.",
    roles=KeyedJoint.roles,
    parameter_class=Parameters,
    lay_out=_lay_out,
    example=Example(
        width="150 mm",
        thicknesses=("24 mm", "24 mm"),
        parameters=(
            ("seam", "800 mm"),
            ("keys", 3),
            ("key_length", "66 mm"),
            ("key_width", "28 mm"),
            ("waist", "17 mm"),
            ("depth", "10 mm"),
            ("proud", "1 mm"),
        ),
        corners=(("Seam 1", "A"),),
    ),
    also=("butterfly-key", "double-dovetail-key"),
    sources=SOURCES,
    spread=more_or_fewer_keys,
)
