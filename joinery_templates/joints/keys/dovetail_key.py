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

from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.joint import Joint
from joinery_templates.joints.keys.figures import (
    ROLES,
    SOURCES,
    block,
    check_reach,
    keyed_joint,
    middles,
)
from joinery_templates.joints.keys.key import ONE, ZERO, JointLine
from joinery_templates.joints.keys.layout import KeyedJoint
from joinery_templates.joints.keys.parameters import KeyParameters, settle_key
from joinery_templates.joints.keys.row import KeyGround, lay_keys
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.shared_parameters import choice_parameter, size_parameter
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import Cut, Stretch
from joinery_templates.wood.placement import Placement

ONE_KEY, WHOLE_ROW = "one key", "whole row"
LINE, LIMITS = "the seam", ("start of the seam", "end of the seam")


@dataclass(frozen=True, slots=True, kw_only=True)
class Parameters(KeyParameters):
    """The parameters of keys across a seam."""

    seam: Fraction | None = size_parameter(
        "Length of the seam between the two boards.", "the shorter board's length, where it is told"
    )
    drawn: str = choice_parameter(
        "What the boards' templates show: one key, laid on at each mark of the setting-out strip, "
        "or the whole row in one long pattern.",
        ONE_KEY,
        WHOLE_ROW,
    )


def build(request: Request) -> Joint:
    """The layout of keys across a seam.

    Raises:
        InputError: where it cannot be cut.
    """
    given, units = request.given, request.units
    assert isinstance(given, Parameters)
    thinner = min(board.thickness for board in request.boards)
    usual = (3 * thinner, "3 times the thinner board's thickness (our judgement)")
    key, key_rules = settle_key(given, request.boards, units, usual)
    for board in request.boards:
        check_reach(board, board.width, key.reach, given, units)
    ground = KeyGround(
        length=_seam(given, request.boards),
        share=10 * key.width,
        share_rule="about 10 key widths for each",
        nearest=(key.half_width, key.half_width),
        line=LINE,
        limits=LIMITS,
    )
    row = lay_keys(given, key, ground, units)
    keyed = KeyedJoint(
        request=request,
        key=key,
        row=row,
        across_grain=True,
        line=LINE,
        limits=LIMITS,
        meet=_MEET,
        lay_on=_lay_on(given),
    )
    whole = given.drawn == WHOLE_ROW and len(row.positions) > 1
    shown = tuple(p - row.positions[0] for p in row.positions) if whole else (ZERO,)
    words = "middle of key 1" if whole else "middle of the key"
    line = _line(request.boards[0])
    low, high = -key.half_width, shown[-1] + key.half_width
    first, second = request.boards
    return keyed_joint(
        KIND,
        keyed,
        line,
        _parts(request.boards, line.sockets(key, shown), (low, high), words),
        filled=(block((ZERO, low), (first.width + second.width, high), thinner),),
        rows=(middles(row, LINE, LIMITS[0]),),
        rules=key_rules,
        shown=shown,
        # The boards are joined before anything is marked, and the seam's edges are shut away.
        drawn=(Face.OUTSIDE, Face.INSIDE) if key.through else (Face.OUTSIDE,),
    )


def _seam(given: Parameters, boards: tuple[Board, Board]) -> Fraction | None:
    told = [board.length for board in boards if board.length is not None]
    return given.seam or min(told, default=None)


def _line(first: Board) -> JointLine:
    """Along the first board's far edge; positions from the first key that is shown."""
    return JointLine(
        start=(first.width, ZERO, ZERO),
        along=(ZERO, ONE, ZERO),
        into=(-ONE, ZERO, ZERO),
        placement=Placement(
            ((ONE, ZERO, ZERO), (ZERO, -ONE, ZERO), (ZERO, ZERO, ONE)), (first.width, ZERO, ZERO)
        ),
    )


def _parts(
    boards: tuple[Board, Board],
    cuts: tuple[tuple[Cut, ...], tuple[Cut, ...]],
    span: tuple[Fraction, Fraction],
    words: str,
) -> tuple[Stretch, Stretch]:
    """Both boards along the seam, from the least to the greatest y of the first one's sockets."""
    low, high = span
    first, second = (
        Stretch(board, sockets, start, reach, words, up, (f"joint at {edge} edge",) * 2)
        for board, sockets, start, reach, up, edge in (
            (boards[0], cuts[0], low, high, LIMITS[0], "far"),
            (boards[1], cuts[1], -high, -low, LIMITS[1], "reference"),
        )
    )
    return first, second


_MEET = (
    "Shoot the two meeting edges until they close without light between them: the first board's "
    "far edge against the second's reference edge, outside faces up."
)


def _lay_on(given: Parameters) -> str:
    if given.drawn == WHOLE_ROW:
        return (
            "Square a line across both boards at the middle of key 1, by the setting-out strip. "
            "Lay each board's template with its dashed line on that line and its edge on the seam, "
            "and glue it, or prick through the small crosses."
        )
    return (
        "Lay the setting-out strip along the seam and square a line across both boards at the "
        "middle of every key. The templates serve for each: lay one with its dashed line on that "
        "line and its edge on the seam, and prick through the small crosses."
    )


KIND = Kind(
    name="dovetail-key",
    title="Keyed edge joint",
    summary="Boards edge to edge, held by double-dovetail keys across the seam: tops and repairs.",
    roles=ROLES,
    parameter_class=Parameters,
    build=build,
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
    sources=SOURCES,
)
