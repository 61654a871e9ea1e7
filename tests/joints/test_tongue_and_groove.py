"""Tongue and groove against published proportions, and as solids."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.edges.tongue_and_groove import KIND
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.faces import laid_out
from tests.joints.solids import CLOSE_MM3, mate
from tests.joints.strategies import lengths
from tests.joints.worked import request_of


def joined(
    one=("120 mm", "18 mm"), other=("100 mm", "18 mm"), units=Units.MM, tools=None, **raw
) -> Joint:
    return KIND.build(request_of(KIND, one, other, units, tools or Tools(), **raw))


def sizes(joint: Joint) -> dict[str, Fraction]:
    return {one.name: one.length for one in joint.sizes}


def told(**raw) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        joined(**raw)
    return [(finding.code, finding.place) for finding in caught.value.findings]


def test_a_board_of_three_quarters_has_a_quarter_of_tongue_a_quarter_from_the_face():
    """3/4 in boards: 1/4 in tongues, 1/4 in from the face (a modern hand-tool book, title unknown).

    In the middle of the edge, Noyes 1910, p. 174.
    """
    inch = joined(("4 in", "3/4 in"), ("4 in", "3/4 in"), Units.INCH)
    lengths_of = {one.use.split(",")[0]: one.length for one in inch.lengths}
    assert lengths_of["its points"] == INCH / 4
    assert lengths_of["nearer side of tongue and groove"] == INCH / 4
    assert sizes(inch)["first board, behind the tongue on the inside"] == INCH / 4


@pytest.mark.parametrize(("thin", "units"), [("1/8 in", Units.INCH), ("1 mm", Units.MM)])
def test_a_tongue_by_rule_is_a_third_where_a_gauge_would_be_set_too_far_off(thin, units):
    """To the gauge's next mark it would be half of the board, and the program advise against it."""
    joint = joined(("4 in", thin), ("4 in", thin), units)
    lengths_of = {one.use.split(",")[0]: one.length for one in joint.lengths}
    assert lengths_of["its points"] == joint.members[0].part.board.thickness / 3
    assert not {"tongue-thin", "tongue-thick"} & {one.code for one in joint.findings}


def test_the_section_shows_tongue_and_groove_where_they_are_worked_out_by_hand():
    """120 and 100 mm wide, 18 thick; 6 from 6, 5 long, the groove 6 deep."""
    one, other = joined(tongue=6, tongue_length=5, depth=6).members
    extents = [
        sorted(piece.extent for piece in laid_out(m.part, Face.END_GRAIN).waste)
        for m in (one, other)
    ]
    assert extents == [[((115, 0), (120, 6)), ((115, 12), (120, 18))], [((0, 6), (6, 12))]]
    # Side by side, faces up and reference edges the same way: both are ends of one hand.
    assert one.hand is other.hand is Hand.LEFT
    assert all(m.part.place(hand).end is None for m in (one, other) for hand in Hand)


def test_both_are_gauged_from_the_outside_face_whatever_their_thickness():
    joint = joined(("90 mm", "15 mm"), ("90 mm", "20 mm"))
    behind = "{} board, behind the {} on the inside"
    assert sizes(joint)["tongue, thickness"] == 5
    assert sizes(joint)[behind.format("first", "tongue")] == 5
    assert sizes(joint)[behind.format("second", "groove")] == 10


@pytest.mark.parametrize(
    ("one", "other", "told"),
    [
        (18, 18, ""),
        (22, 16, "Inside, the first board is the thicker and stands 6 mm past the second board."),
        (15, 20, "Inside, the second board is the thicker and stands 5 mm past the first board."),
    ],
)
@pytest.mark.parametrize("form", ["solid", "loose"])
def test_it_is_told_on_which_face_the_thicker_board_stands_past_the_other(one, other, told, form):
    joint = joined(("90 mm", f"{one} mm"), ("90 mm", f"{other} mm"), form=form)
    assert told in joint.steps[-1].words
    assert ("Inside" in joint.steps[-1].words) == bool(told)


def test_the_tongue_is_as_thick_as_a_chisel_near_a_third():
    """25 mm: a third is 8.33; of 6, 9 and 12 the nearest within a quarter and two fifths is 9."""
    tools = Tools(chisels=tuple(map(Fraction, (6, 9, 12))))
    joint = joined(("90 mm", "25 mm"), ("90 mm", "25 mm"), tools=tools)
    assert sizes(joint)["tongue, thickness"] == 9


def test_a_groove_is_deeper_than_the_tongue_is_long_or_refused():
    """The tongue projects a little less than the groove is deep (an encyclopaedia)."""
    assert told(tongue_length=7, depth=7) == [("no-room", "depth")]
    assert joined(tongue_length=7, depth="7.1 mm")
    assert told(tongue=18) == [("no-room", "tongue")]
    assert told(one=("8 mm", "18 mm"), tongue_length=8) == [("no-room", "tongue_length")]
    assert [one.code for one in joined(tongue=8).findings] == ["tongue-thick"]


@given(data=st.data())
@settings(max_examples=12, derandomize=True, deadline=None)
def test_boards_and_tongues_take_up_no_room_twice_and_leave_none(data):
    one, other = (
        (str(data.draw(lengths(40, 200))), str(data.draw(lengths(9, 40)))) for _ in range(2)
    )
    mated = mate(joined(one, other, form=data.draw(st.sampled_from(["solid", "loose"]))))
    assert mated.clash < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3
