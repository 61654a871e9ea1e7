"""Splined mitres against figures worked by hand; sizes without a source are our judgement."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.mitres.splined_mitre import KIND
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import lay_out
from tests.joints.solids import CLOSE_MM3, mate
from tests.joints.strategies import lengths
from tests.joints.worked import request

ROOT = math.sqrt(2)


def splined(width="90 mm", thick="18 mm", other="", tools=None, **raw) -> Joint:
    sizes = (thick, other or thick)
    return KIND.build(request(KIND, width, sizes, Units.MM, tools=tools or Tools(), **raw))


def told(**raw) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        splined(**raw)
    return [(finding.code, finding.place) for finding in caught.value.findings]


def sizes(joint: Joint) -> dict[str, Fraction]:
    return {one.name: one.length for one in joint.sizes}


def test_a_groove_lies_square_to_the_mitre_as_worked_by_hand():
    """18 mm: the mitre is 25.456 long; 5 from its inner end, 4 wide, 7 deep.

    On the edge the mouth goes from 16.456 to 20.456 along the mitre, at 11.636 and 14.464 mm from
    the end and from the outside face; its floor lies 7 / root 2 = 4.950 further into the board,
    and as much nearer to the outside face.
    """
    (member, _) = splined(spline=4, from_corner=5, depth=7).members
    corners = {
        tuple(round(float(at), 3) for at in point)
        for line in lay_out(member.part, Face.REFERENCE_EDGE, Fraction(40)).lines
        for point in (line.start, line.end)
    }
    # First the thickness, then along the edge, whichever way the face lies.
    either = {(a, b) for a, b in corners} | {(b, a) for a, b in corners}
    assert {(11.636, 11.636), (14.464, 14.464), (16.586, 6.686), (19.414, 9.515)} <= either


def test_slots_reach_as_far_on_both_faces_and_lean_to_and_fro():
    """Three of 1 mm on 90 mm: in the middle of 0-30, 30-60 and 60-90; 1:5 over 20 mm is 4 mm."""
    joint = splined(form="feathers", feathers=3, slot=1, slot_reach=20, slope="1:5")
    wide = math.sqrt(1 + 2 / 25)
    starts = [15 - wide / 2, 45 - wide / 2, 75 - wide / 2]
    assert [float(mark.position) for mark in joint.rows[0].marks[::2]] == pytest.approx(starts)
    ways = []
    for member in joint.members:
        ends = {}
        for line in lay_out(member.part, Face.OUTSIDE, Fraction(40)).lines:
            low, high = sorted((line.start, line.end), key=lambda point: point[1])
            if low[1] == 0 and high[1] == 20:
                ends[round(float(low[0]), 6)] = float(high[0] - low[0])
        ways.append([ends[round(start, 6)] for start in starts])
    assert ways[0] == pytest.approx([-4, 4, -4])
    assert ways[1] == pytest.approx([4, -4, 4])


def test_a_slot_is_as_wide_as_the_saws_cut_and_a_spline_as_a_chisel_of_the_persons():
    tools = Tools(kerf=Fraction("1.2"), chisels=(Fraction(3), Fraction(5), Fraction(12)))
    feathered = sizes(splined(tools=tools, form="feathers"))
    assert feathered["slots and feathers, thickness"] == Fraction("1.2")
    assert sizes(splined(tools=tools))["spline, thickness"] == 5


def test_what_cannot_be_cut_is_refused_at_its_place():
    assert told(other="15 mm") == [("thicknesses-differ", "")]
    assert told(slope="1:6") == [("not-together", "slope")]
    assert told(form="feathers", depth=5, stop=3) == [
        ("not-together", "depth"),
        ("not-together", "stop"),
    ]
    # 25.456 - 5 - 4 = 16.456 along the mitre: as deep as that, the groove comes to the face.
    assert told(spline=4, from_corner=5, depth="16.46 mm") == [("no-room", "depth")]
    assert told(stop=90) == [("no-room", "stop")]
    assert told(form="feathers", slot_reach=36) == [("no-room", "slot_reach")]
    assert told(form="feathers", feathers=60, slot=2) == [("no-room", "feathers")]
    assert splined(form="feathers", slot_reach="35.9 mm").findings[0].code == "slots-deep"
    assert splined(spline=4, from_corner=5, depth=14).findings[0].code == "groove-near-face"


@given(data=st.data())
@settings(max_examples=12, derandomize=True, deadline=None)
def test_boards_splines_and_feathers_take_up_no_room_twice_and_leave_none(data):
    thick, width = data.draw(lengths(8, 40)), data.draw(lengths(60, 200))
    if data.draw(st.booleans()):
        raw = {"stop": data.draw(lengths(0, 30))}
    else:
        slope = data.draw(st.sampled_from(["1:6", "1:9", None]))
        raw = {"form": "feathers", "feathers": data.draw(st.integers(1, 2))}
        raw |= {"slope": slope} if slope else {}
    raw = {name: str(one) if isinstance(one, Fraction) else one for name, one in raw.items()}
    mated = mate(splined(str(width), str(thick), **raw))
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3
