"""A saw cut is shown, and told of, only where the order of work has a saw."""

import pytest

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, Member, Task
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.tool_fit import tool_table, with_tool_advice
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.kerf import kerf_lines
from joinery_templates.wood.polygons import Edge
from tests.joints.routed import lapped, through
from tests.joints.varied import past_reach, varied

KERF = Fraction(1, 2)
KEYED = ("butt-dovetail-key", "dovetail-key", "mitre-dovetail-key")
SAWN = [name for name in kinds() if name not in KEYED]


def shown(member: Member, *faces: Face) -> list[Edge]:
    """The far sides of saw cuts, on all faces of a board unless some are named."""
    part = member.part
    return [
        edge for face in faces or part.faces for edge in kerf_lines(past_reach(part, face), KERF)
    ]


def told(joint: Joint) -> tuple[list[str], list[str]]:
    """Rows of the bench page on the saw, and codes of advice on it, for a saw of 5 mm."""
    tools = Tools(kerf=Fraction(5))
    rows = [words for words, _ in tool_table(joint, tools, Units.MM)[1] if "saw" in words]
    codes = [finding.code for finding in with_tool_advice(joint, tools, Units.MM).findings]
    return rows, [code for code in codes if code.startswith("space-below")]


@pytest.mark.parametrize("kind", KEYED)
def test_a_socket_for_a_key_is_chopped_and_only_the_key_is_sawn(kind):
    for joint in varied(kind):
        cutting = [step.words for step in joint.steps if step.task is Task.CUT_SECOND]
        assert all("chopping" in words and "saw" not in words for words in cutting)
        assert told(joint) == ([], [])
        (loose,) = joint.loose
        assert shown(loose.member)
        for member in joint.members:
            # The mitre itself is sawn, at 45 degrees: half a mm from it is 0.707 along the edge.
            for edge in shown(member, Face.OUTSIDE, Face.INSIDE):
                assert kind == "mitre-dovetail-key"
                for x, y in (edge.start, edge.end):
                    assert float(abs(x - y)) == pytest.approx(0.5 * 2**0.5, abs=1e-9)


def test_chisels_are_still_told_of_for_the_sockets_of_keys():
    joint = varied("butt-dovetail-key")[0]
    _, (row, _) = tool_table(joint, Tools(chisels=(Fraction(12),)), Units.MM)
    assert row == ("sockets, 17 mm at the narrowest", "chisel of 12 mm")


def test_the_stopped_end_of_a_housing_is_chopped_and_its_walls_are_sawn():
    """Walls from 15 mm on; across the housing, at its stop, no saw cut stands."""
    for joint in varied("sliding-dovetail"):
        side = joint.members[1]
        cuts = kerf_lines(past_reach(side.part, Face.INSIDE), KERF)
        assert len(cuts) == 2
        assert all(abs(e.end[0] - e.start[0]) > abs(e.end[1] - e.start[1]) for e in cuts)
        assert told(joint)[0]


def test_the_sloping_sides_of_a_sliding_tail_are_planed_and_its_shoulders_sawn():
    """On the end grain, where the sides show, at most the front corner is sawn, right through."""
    for joint in varied("sliding-dovetail"):
        shelf = joint.members[0]
        assert any("Plane" in step.words for step in joint.steps)
        assert all(edge.start[0] == edge.end[0] for edge in shown(shelf, Face.END_GRAIN))
        assert shown(shelf, Face.OUTSIDE, Face.INSIDE)


def test_what_a_router_cuts_no_saw_cuts():
    joint = through()
    assert [bool(shown(member)) for member in joint.members] == [False, False]
    assert told(joint) == ([], [])


def test_a_board_whose_spaces_the_cutter_cannot_cut_is_sawn():
    """Pins of 6 mm are too narrow for a cutter of 12.7 mm; the sockets are routed."""
    joint = lapped(pin="6 mm", tails=4, half_pin="12 mm")
    steps = " ".join(step.heading for step in joint.steps)
    assert "Rout the sockets" in steps
    assert "Rout the tails" not in steps
    assert [bool(shown(member)) for member in joint.members] == [True, False]
    assert told(joint)[0]


NOT_SAWN = {
    "dowel": ("first board", "second board"),
    "tongue-and-groove": ("first board", "second board"),
} | {kind: ("stile",) for kind in kinds() if kind.endswith("mortise-and-tenon")}
"""Holes are bored, a tongue is planed, a shelf loses no wood, and a mortise is chopped."""


@pytest.mark.parametrize("kind", SAWN)
def test_every_other_board_is_sawn(kind):
    for joint in varied(kind):
        for member in joint.members:
            is_sawn = bool(member.part.cuts) and member.role not in NOT_SAWN.get(kind, ())
            assert bool(shown(member)) == is_sawn
