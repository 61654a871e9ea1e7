"""Random and worked requests for keyed joints, whatever boards they join."""

from hypothesis import strategies as st

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.keys import butt_dovetail_key, dovetail_key, mitre_dovetail_key
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.joints.parameter import read_parameters
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units, read_length
from joinery_templates.wood.board import Board
from tests.joints.strategies import NO_FIT, SLOPES, ZERO, lengths

EDGE, BUTT, MITRE = dovetail_key.KIND, butt_dovetail_key.KIND, mitre_dovetail_key.KIND
KEYED = (EDGE, BUTT, MITRE)


def joint(
    kind: Kind,
    width: str,
    thicknesses: tuple[str, str] = ("24 mm", "24 mm"),
    board_length: str = "",
    units: Units = Units.MM,
    **raw: object,
) -> Joint:
    """A joint from values as a person writes them."""
    across = read_length(width, units)
    along = read_length(board_length, units) if board_length else None
    boards = tuple(
        Board(name, across, read_length(thickness, units), along)
        for name, thickness in zip(("left", "right"), thicknesses, strict=True)
    )
    given = read_parameters(kind.parameter_class, raw, units)
    return kind.build(Request((boards[0], boards[1]), given, units, Tools()))


@st.composite
def keyed(
    draw: st.DrawFn,
    kind: Kind,
    fits: st.SearchStrategy[Fraction] = NO_FIT,
    most: int = 3,
    longest: int = 90,
) -> Request:
    """Keys that can be cut, listed one by one; the boards are as large as that takes."""
    slope, length, waist = draw(SLOPES), draw(lengths(20, longest)), draw(lengths(4, 20))
    width = waist + slope * length
    one, other = draw(lengths(8, 40)), draw(lengths(8, 40))
    through = draw(st.booleans())
    depth = None if through else min(one, other) * draw(st.integers(2, 9)) / 10
    fit = draw(fits)
    clear = width / 2 + length / 2 + 3 if kind is MITRE else width / 2 + 3
    middles = [clear + draw(lengths(1, 20))]
    for _ in range(draw(st.integers(0, most - 1))):
        middles.append(middles[-1] + width + 4 + draw(lengths(1, 40)))
    end = middles[-1] + width / 2 + 4
    across = {
        dovetail_key.KIND: length / 2 + 5 + draw(lengths(0, 40)),
        butt_dovetail_key.KIND: end + draw(lengths(0, 20)),
        # A mitre is 1.41 times as long as the member is wide.
        mitre_dovetail_key.KIND: end * Fraction(10, 14) + draw(lengths(0, 20)),
    }[kind]
    more = {"seam": end, "drawn": dovetail_key.WHOLE_ROW} if kind is EDGE else {}
    given = kind.parameter_class(
        positions=tuple(middles),
        key_length=length,
        key_width=width,
        waist=waist,
        depth=depth,
        through=through,
        proud=draw(st.one_of(st.just(ZERO), lengths(0, 2))),
        fit=fit,
        **more,
    )
    boards = (Board("left", across, one), Board("right", across, one if through else other))
    return Request(boards, given, draw(st.sampled_from(list(Units))), Tools())
