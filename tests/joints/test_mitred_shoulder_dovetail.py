"""Through dovetails with mitred edges: a case by hand, where the mitre stands, what is refused."""

import pytest
from shapely import Polygon

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.dovetails import through_dovetail
from joinery_templates.joints.dovetails.mitred_shoulder_dovetail import KIND
from joinery_templates.joints.kind import Request
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Surface, at_least, at_most
from tests.joints.solids import board_solid, convex, mate
from tests.joints.strategies import dovetail
from tests.joints.worked import face, lines, request

SOUND = {"slope": "1:6", "tails": 3, "half_pin": "7 mm", "pin": "5 mm", "mitre": "10 mm"}


def frame(
    width: str = "100 mm",
    thicknesses: tuple[str, str] = ("12 mm", "12 mm"),
    units: Units = Units.MM,
    **raw: object,
) -> Request:
    return request(KIND, width, thicknesses, units, **raw)


def sound(thicknesses: tuple[str, str] = ("12 mm", "12 mm"), **changes: object) -> Joint:
    return KIND.build(frame(thicknesses=thicknesses, **(SOUND | changes)))


def positions(joint: Joint) -> list[Fraction]:
    return [mark.position for mark in joint.main_row.marks]


def test_the_marks_by_hand():
    """100 less a mitre of 10: 90 = 7 + 3 t + 2 * 5 + 7, so t = 22 and the step is 27."""
    assert positions(sound()) == [10, 17, 39, 44, 66, 71, 93]
    assert [mark.what for mark in sound().main_row.marks][:2] == [
        "mitred reference edge ends",
        "tail 1 starts",
    ]


def test_the_far_edge_and_both_edges():
    # 90 from the far edge's mitre; and 80 = 14 + 3 t + 10 between two mitres: 56 / 3.
    assert positions(sound(mitred_edge="far")) == [7, 29, 34, 56, 61, 83, 90]
    both = positions(sound(mitred_edge="both"))
    assert (both[0], both[1], both[-1]) == (10, 17, 90)
    assert both[2] == 17 + Fraction(56, 3)


@pytest.mark.parametrize("member", [0, 1], ids=["tail board", "pin board"])
def test_the_mitred_edge_shows_one_line_at_45_degrees_from_the_corner_outside(member):
    edge = face(sound(), member, Face.REFERENCE_EDGE)
    assert [{line.start, line.end} for line in edge.lines] == [{(0, 0), (12, 12)}]
    (waste,) = edge.waste  # towards the inside face
    assert set(waste.corners) == {(0, 0), (12, 0), (12, 12)}


def test_nothing_of_the_mitred_strip_shows_on_the_outside_faces():
    joint = sound()
    for member in (0, 1):
        outside = face(joint, member, Face.OUTSIDE)
        assert min(x for shape in outside.waste for x, _ in shape.corners) >= 10


def test_ends_that_stand_proud_shift_the_mitre_to_where_the_outside_faces_meet():
    joint = sound(tails_proud="0.5 mm", pins_proud="0.25 mm")
    for member, past in ((0, Fraction(1, 2)), (1, Fraction(1, 4))):
        (line,) = face(joint, member, Face.REFERENCE_EDGE).lines
        assert {line.start, line.end} == {(0, past), (12, 12 + past)}


def test_away_from_the_mitre_it_is_the_through_dovetail_of_a_narrower_board():
    plain = through_dovetail.KIND.build(
        dovetail("90 mm", ("12 mm", "12 mm"), slope="1:6", tails=3, half_pin="7 mm", pin="5 mm")
    )
    joint = sound()
    for member in (0, 1):
        for which in (Face.OUTSIDE, Face.INSIDE, Face.END_GRAIN):
            narrow = {
                frozenset(((e.start[0] + 10, e.start[1]), (e.end[0] + 10, e.end[1])))
                for e in face(plain, member, which).lines
                if e.surface is Surface.SIDE
            }
            assert narrow <= lines(face(joint, member, which), Surface.SIDE)


def test_the_boards_as_solids_meet_in_the_mitre_plane():
    """In a slice of the mitred strip each board holds half of the corner."""
    mated = mate(sound())
    slab = (at_least(0, Fraction(1)), at_most(0, Fraction(2)))
    corner = (*slab, at_most(1, Fraction(12)), at_most(2, Fraction(12)))
    for solid in (mated.first, mated.second):
        assert convex(corner, solid).volume() == pytest.approx(12 * 12 / 2)
    # The tail board's half lies at its own outside face: away from it there is none.
    tip = (*corner, at_most(1, Fraction(1)), at_least(2, Fraction(2)))
    assert convex(tip, mated.first).volume() == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("thicknesses", [("12 mm", "15 mm"), ("15 mm", "12 mm")])
def test_boards_of_two_thicknesses_mate_and_are_advised_against(thicknesses):
    joint = sound(thicknesses, mitred_edge="both")
    mated = mate(joint)
    assert max(mated.overlap, abs(mated.missing)) < 1e-4
    (finding,) = joint.findings
    assert (finding.code, finding.place) == ("mitre-not-to-the-corner", "mitre")
    assert sound(mitred_edge="both").findings == ()


def test_a_thicker_tail_boards_mitre_goes_on_square():
    edge = face(sound(("15 mm", "12 mm")), 0, Face.REFERENCE_EDGE)
    (waste,) = edge.waste
    expected = Polygon([(0, 0), (15, 0), (15, 12), (12, 12)])
    shape = Polygon([(float(z), float(y)) for z, y in waste.corners])
    assert shape.symmetric_difference(expected).area == pytest.approx(0)


def test_the_tail_boards_wood_by_volume():
    """12 thick and 22 long: less three spaces, two half ones, and half of a strip of 10."""
    spaces = (90 - 3 * 22 + 3 * 2) * 12 * 12  # a tail comes in by 2 on each side, 1 on average
    mitre = 10 * 12 * 12 / 2
    solid = board_solid(sound().members[0].part)
    assert solid.volume() == pytest.approx(100 * 22 * 12 - spaces - mitre)


def test_the_mitre_by_rule_in_either_unit():
    for units, mitre in ((Units.MM, Fraction(6)), (Units.INCH, INCH / 4)):
        joint = KIND.build(frame("120 mm", units=units, tails=3))
        assert positions(joint)[0] == mitre
        assert any("Mitred edge" in rule for rule in joint.rules)


def test_a_groove_is_measured_from_the_boards_edge_and_not_from_the_mitre():
    """Tail 1 is 22 wide from 17 and comes in by 2 on each side: a groove may lie from 19 to 37."""
    for from_edge, found in ((19, []), (31, []), (18, ["groove-not-in-a-tail"])):
        joint = sound(groove={"from_edge": from_edge, "width": 6})
        assert [finding.code for finding in joint.findings] == found


def refused(**changes: object) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        sound(**changes)
    assert all(f.message and f.remedy for f in caught.value.findings)
    return [(f.code, f.place) for f in caught.value.findings]


def test_half_tails_beside_a_mitre_are_refused():
    assert refused(start="half-tail", half_pin=None) == [("not-with-this-start", "start")]


def test_mitres_that_leave_nothing_are_refused_by_their_name():
    assert refused(mitre="100 mm") == [("no-room", "mitre")]
    assert refused(mitre="50 mm", mitred_edge="both") == [("no-room", "mitre")]


def test_widths_that_do_not_add_up_are_told_with_what_the_mitres_leave():
    with pytest.raises(InputError) as caught:
        sound(tail="25 mm", half_pin_far="7 mm")
    (finding,) = caught.value.findings
    assert finding.code == "does-not-add-up"
    assert finding.remedy.startswith("Between the mitred edges 90 mm are left")


def test_every_piece_of_advice_stands_at_a_parameter():
    names = {parameter.name for parameter in KIND.parameters}
    poor = sound(("12 mm", "14 mm"), slope="1:4", pin="1 mm", half_pin="0.5 mm", tails=9)
    assert len(poor.findings) > 3
    assert {finding.place for finding in poor.findings} <= names


@pytest.mark.parametrize(
    ("edge", "words"),
    [("reference", "the reference edge"), ("far", "the far edge"), ("both", "both edges")],
)
def test_the_order_of_work_mitres_each_board_at_the_right_edge(edge, words):
    steps = {step.heading: step.words for step in sound(mitred_edge=edge).steps}
    for board in ("the tail board (SIDE)", "the pin board (END)"):
        assert f"At {words} of {board}" in steps[f"Saw the mitre of {board}"]
    assert f"not within 10 mm of {words}" in steps["Baselines and mitres"]
    headings = list(steps)
    assert headings.index("Saw the tails") < headings.index(
        "Mark the pin board (END) from the tails"
    )
