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

from joinery_templates.joint import Joint, SettingOut
from joinery_templates.joints.checks import refuse, widths_differ
from joinery_templates.joints.keys.figures import (
    ROLES,
    SOURCES,
    block,
    check_reach,
    keyed_joint,
    mouths,
)
from joinery_templates.joints.keys.key import ONE, ZERO, JointLine
from joinery_templates.joints.keys.layout import KeyedJoint
from joinery_templates.joints.keys.parameters import KeyParameters, settle_key
from joinery_templates.joints.keys.row import KeyGround, lay_keys
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import BoardEnd
from joinery_templates.wood.placement import Placement

LINE, LIMITS = "the joint line", ("reference edge", "far edge")
MEET = JointLine(
    start=(ZERO, ZERO, ZERO),
    along=(ONE, ZERO, ZERO),
    into=(ZERO, ONE, ZERO),
    placement=Placement(
        ((ONE, ZERO, ZERO), (ZERO, -ONE, ZERO), (ZERO, ZERO, ONE)), (ZERO, ZERO, ZERO)
    ),
)
"""The first board's end; the second board lies beyond it, reference edges in line."""


def build(request: Request) -> Joint:
    """The layout of keys across two butted ends.

    Raises:
        InputError: where it cannot be cut.
    """
    given, boards, units = request.given, request.boards, request.units
    assert isinstance(given, KeyParameters)
    refuse(widths_differ(boards, "Where boards meet end to end", units))
    thinner = min(board.thickness for board in boards)
    usual = (3 * thinner, "3 times the thinner board's thickness (our judgement)")
    key, key_rules = settle_key(given, boards, units, usual)
    for board in boards:
        if board.length is not None:
            check_reach(board, board.length, key.reach, given, units)
    width = boards[0].width
    ground = KeyGround(
        length=width,
        share=3 * key.width,
        share_rule="about 3 key widths for each",
        nearest=(key.half_width, key.half_width),
        line=LINE,
        limits=LIMITS,
    )
    row = lay_keys(given, key, ground, units)
    cuts, marks = MEET.sockets(key, row.positions), mouths(row, key)
    keyed = KeyedJoint(
        request=request,
        key=key,
        row=row,
        across_grain=False,
        line=LINE,
        limits=LIMITS,
        meet=_SHOOT,
        lay_on=_LAY_ON,
    )
    return keyed_joint(
        KIND,
        keyed,
        MEET,
        (BoardEnd(boards[0], cuts[0], key.reach), BoardEnd(boards[1], cuts[1], key.reach)),
        filled=(block((ZERO, -key.reach), (width, key.reach), thinner),),
        rows=tuple(
            SettingOut(
                "outside face, along the end", role.words, width, marks, main=role is ROLES[0]
            )
            for role in ROLES
        ),
        rules=key_rules,
        faces=(Face.OUTSIDE, Face.END_GRAIN, *((Face.INSIDE,) if key.through else ())),
    )


_SHOOT = (
    "Shoot both ends square until they close without light between them, outside faces up and "
    "reference edges in one line."
)
_LAY_ON = (
    "Cut each board's template along the fold of its outside face and lay that face on, the cut on "
    "the joint line and its reference edge flush with the board's; prick through the small "
    "crosses. Where the boards are marked before they are joined, leave the template whole and "
    "fold it over the end instead, so that the fold lines sit on the arrises."
)

KIND = Kind(
    name="butt-dovetail-key",
    title="Keyed butt joint",
    summary="Boards end to end, held by double-dovetail keys across the butted ends.",
    roles=ROLES,
    parameter_class=KeyParameters,
    build=build,
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
)
