"""The lapped dovetail: worked cases, what is proposed, what is refused or advised against."""

import pytest
from msgspec.structs import replace

from joinery_templates.errors import InputError, Level
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.dovetails.lapped_dovetail import KIND
from joinery_templates.joints.kind import Request
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Surface
from tests.joints.worked import face, lines, request

SOUND = {"slope": "1:7", "tails": 3, "half_pin": "8 mm", "pin": "6 mm", "lap": "5 mm"}


def drawer(
    width: str = "120 mm",
    thicknesses: tuple[str, str] = ("12 mm", "19 mm"),
    units: Units = Units.MM,
    **raw: object,
) -> Request:
    return request(KIND, width, thicknesses, units, names=("side", "front"), **raw)


def sound(**changes: object) -> Joint:
    return KIND.build(drawer(**(SOUND | changes)))


def gauges(joint: Joint) -> list[Fraction]:
    return [setting.length for setting in joint.lengths if setting.tool == "gauge"]


def codes(joint: Joint) -> list[str]:
    return [finding.code for finding in joint.findings]


def size(joint: Joint, start: str) -> Fraction:
    (found,) = (size.length for size in joint.sizes if size.name.startswith(start))
    return found


# Worked cases


def test_a_front_of_19_mm_keeps_a_lap_of_5_and_has_tails_of_14():
    """Joyce 1970: 5 mm in 19 mm is usual."""
    joint = KIND.build(drawer(tails=3))
    assert size(joint, "lap") == 5
    assert joint.members[0].part.reach == 14
    assert "quarter" in " ".join(joint.rules)


@pytest.mark.parametrize("given", [{}, {"lap": "3/16 in"}], ids=["by rule", "given"])
def test_a_front_of_three_quarters_is_gauged_at_nine_sixteenths(given):
    """Joyce 1970: a lap of 3/16 in in 3/4 in, so the gauge is set to 9/16 in."""
    joint = KIND.build(drawer("5 in", ("1/2 in", "3/4 in"), Units.INCH, tails=3, **given))
    assert size(joint, "lap") == Fraction(3, 16) * INCH
    assert gauges(joint)[0] == Fraction(9, 16) * INCH
    assert joint.members[0].part.reach == Fraction(9, 16) * INCH


def test_noyes_49_one_gauge_setting_marks_the_front_s_end_and_both_faces_of_the_side():
    """Noyes 1910, p. 166: the same distance, on end and both faces."""
    joint = sound()
    setting = gauges(joint)[0]
    for which in (Face.OUTSIDE, Face.INSIDE):
        places = {y for e in lines(face(joint, 0, which), Surface.SHOULDER) for _, y in e}
        assert places == {setting}
    grain = lines(face(joint, 1, Face.END_GRAIN), Surface.SHOULDER)
    thickness = joint.members[1].part.board.thickness
    assert {thickness - z for e in grain for _, z in e} == {setting}


def test_the_pin_board_by_hand():
    """120 wide, half pin 8, pin 6, three tails: a tail is (120 - 16 - 12) / 3 = 92/3 wide.

    Tails are 14 long at 1:7 and come in by 2 on each side.
    """
    joint = sound()
    starts = [8 + number * Fraction(110, 3) for number in range(3)]
    tails = [(start, start + Fraction(92, 3)) for start in starts]
    grain, inside = face(joint, 1, Face.END_GRAIN), face(joint, 1, Face.INSIDE)
    assert lines(grain, Surface.SHOULDER) == {
        frozenset(((left, 5), (right, 5))) for left, right in tails
    }
    assert lines(grain, Surface.SIDE) == {
        frozenset(((wide, 5), (narrow, 19)))
        for left, right in tails
        for wide, narrow in ((left, left + 2), (right, right - 2))
    }
    assert lines(inside, Surface.SIDE) == {
        frozenset(((x, 0), (x, 12))) for left, right in tails for x in (left + 2, right - 2)
    }
    assert lines(inside, Surface.SHOULDER) == {
        frozenset(((left + 2, 12), (right - 2, 12))) for left, right in tails
    }


def test_nothing_shows_on_the_pin_boards_outside_face():
    for changes in ({}, {"pins_proud": "0.5 mm"}, {"fit": "0.1 mm"}, {"fit": "-0.1 mm"}):
        outside = face(sound(**changes), 1, Face.OUTSIDE)
        assert outside.waste == ()
        assert outside.lines == ()


def test_half_tails_open_the_edge_but_not_the_lap():
    joint = sound(start="half-tail", tails=2, half_pin=None)
    assert face(joint, 1, Face.OUTSIDE).lines == ()
    (waste,) = face(joint, 1, Face.REFERENCE_EDGE).waste
    assert set(waste.corners) == {(5, 0), (19, 0), (19, 12), (5, 12)}


def test_the_rows_stand_at_the_lap_line_and_on_the_inside_face():
    joint = sound(fit="0")
    rows = {row.title: [mark.position for mark in row.marks] for row in joint.rows[2:]}
    assert rows["end grain, along the lap line"][:2] == [8, 8 + Fraction(92, 3)]
    assert rows["inside face, along the end"][:2] == [10, 6 + Fraction(92, 3)]
    assert [row.main for row in joint.rows] == [True, False, False, False]


def test_the_rows_stand_where_the_lines_end_with_a_fit_too():
    """At 7:24, with the triangle 7-24-25, 0.24 mm square to a side is 0.25 mm across."""
    joint = sound(slope="7:24", fit="0.24 mm")
    rows = {row.title: [mark.position for mark in row.marks] for row in joint.rows[2:]}
    assert rows["end grain, along the lap line"][0] == Fraction("7.75")
    lap_ends = {x for e in lines(face(joint, 1, Face.END_GRAIN), Surface.SHOULDER) for x, _ in e}
    end_ends = {x for e in lines(face(joint, 1, Face.INSIDE), Surface.SIDE) for x, y in e if y == 0}
    assert set(rows["end grain, along the lap line"]) == lap_ends
    assert set(rows["inside face, along the end"]) == end_ends


# Proposals


def tails_of(request: Request) -> int:
    return len(KIND.build(request).main_row.marks) // 2


@pytest.mark.parametrize(
    ("width", "tails"), [("130 mm", 3), ("6 in", 3), ("155 mm", 4), ("180 mm", 4)]
)
def test_a_drawer_has_two_whole_pins_up_to_six_inches_and_three_above(width, tails):
    """Joyce 1970."""
    request = drawer(width, thicknesses=("10 mm", "19 mm"))
    assert tails_of(request) == tails
    by_rule = tails_of(drawer(width, thicknesses=("10 mm", "19 mm"), use="carcase")) > tails
    assert any("two whole pins" in rule for rule in KIND.build(request).rules) is by_rule
    assert by_rule or width == "155 mm"


def test_a_drawer_as_wide_as_a_chest_gets_more_than_three_pins_and_no_advice():
    """Noyes 1910, no. 48: tails are not wider than 1 3/4 in; four of 450 would be 103 mm."""
    joint = KIND.build(drawer("450 mm", thicknesses=("20 mm", "20 mm")))
    assert size(joint, "tail at the end") <= Fraction(7, 4) * INCH
    assert codes(joint) == []


def test_a_drawer_too_shallow_for_two_whole_pins_gets_fewer():
    joint = KIND.build(drawer("40 mm"))
    assert tails_of(drawer("40 mm")) < 3
    assert not any("two whole pins" in rule for rule in joint.rules)


@pytest.mark.parametrize(
    "given",
    [
        {"use": "carcase"},
        {"tails": 9},
        {"tail": "25 mm"},
        {"start": "half-tail"},
        {"spacing": "graded"},
    ],
    ids=["carcase", "count", "tail wished for", "half tails", "a style"],
)
def test_a_carcase_or_a_layout_that_is_given_is_no_drawer(given):
    joint = KIND.build(drawer("400 mm", **given))
    assert len(joint.main_row.marks) // 2 > 4
    assert not any("two whole pins" in rule for rule in joint.rules)


def test_tails_of_two_widths_are_both_listed():
    joint = KIND.build(drawer("150 mm", spacing={"style": "listed", "widths": [40, 6, 30, 6, 40]}))
    named = {size.name: size.length for size in joint.sizes}
    # 14 long at 1:7: 4 narrower at the baseline.
    assert named["narrowest tail at the end (wide)"] == 30
    assert named["narrowest tail at the baseline (narrow)"] == 26
    assert named["widest tail at the end (wide)"] == 40
    assert "tail at the end (wide)" not in named


# What is refused, and what is advised against


def test_a_lap_as_thick_as_the_board_is_refused_and_a_hair_less_is_not():
    for lap in ("19 mm", "25 mm"):
        with pytest.raises(InputError) as caught:
            sound(lap=lap)
        (finding,) = caught.value.findings
        assert (finding.code, finding.place, finding.level) == ("lap-too-thick", "lap", Level.ERROR)
        assert "front" in finding.message
    assert sound(lap="18.999 mm").members[0].part.reach == Fraction(1, 1000)


@pytest.mark.parametrize(
    ("lap", "found"),
    [
        # From memory: 3/32 in is the thinnest.
        ("2.38 mm", ["lap-thin"]),
        ("3/32 in", []),
        ("9.5 mm", []),  # half of 19: our judgement
        ("9.51 mm", ["lap-thick"]),
    ],
)
def test_a_lap_that_breaks_or_leaves_little_behind_it_is_advised_against(lap, found):
    joint = sound(lap=lap)
    assert codes(joint) == found
    assert all(f.place == "lap" and f.source and f.remedy for f in joint.findings)


def test_every_piece_of_advice_stands_at_a_parameter():
    names = {parameter.name for parameter in KIND.parameters}
    poor = sound(lap="2 mm", slope="1:4", pin="1 mm", half_pin="0.5 mm", tails=12)
    assert len(poor.findings) > 3
    assert {finding.place for finding in poor.findings} <= names


def test_boards_of_two_widths_or_too_short_are_refused():
    request = drawer(**SOUND)
    side, front = request.boards
    reaches = [member.part.reach for member in KIND.build(request).members]
    assert reaches == [14, 12]
    for boards in (
        (replace(side, width=side.width + 1), front),
        (replace(side, length=Fraction(14)), front),
        (side, replace(front, length=Fraction(12))),
    ):
        with pytest.raises(InputError) as caught:
            KIND.build(replace(request, boards=boards))
        assert caught.value.findings[0].code in ("widths-differ", "board-too-short")
    longer = (replace(side, length=Fraction("14.001")), replace(front, length=Fraction("12.001")))
    assert KIND.build(replace(request, boards=longer)).rows == KIND.build(request).rows


@pytest.mark.parametrize(
    "narrow", [{"pin": "0.5 mm"}, {"half_pin": "0.25 mm"}], ids=["pin", "half pin"]
)
def test_a_fit_that_leaves_nothing_of_a_pin_at_the_lap_line_is_refused(narrow):
    """At 7:24 a fit of 0.24 is 0.25 across, on both sides of a pin and on one of a half pin."""
    assert sound(slope="7:24", fit="0.239 mm", **narrow).allowance
    with pytest.raises(InputError) as caught:
        sound(slope="7:24", fit="0.24 mm", **narrow)
    assert [(f.code, f.place) for f in caught.value.findings] == [("no-room", "fit")]


# The order of work


def told(joint: Joint) -> str:
    return " ".join(f"{step.heading}: {step.words}" for step in joint.steps)


def test_the_order_of_work_names_its_figures_and_spares_the_outside_face():
    words = told(sound(pins_proud="0.5 mm"))
    for figure in ("gauge to 14 mm", "gauge to 12.5 mm", "lap of 5 mm", "3 tails at 1:7"):
        assert figure in words
    assert "inside face only" in words
    assert "pins and the lap stand 0.5 mm proud" in words
    assert "tails stand" not in words


def test_tails_come_first_and_mark_the_sockets():
    headings = [step.heading for step in sound().steps]
    marked = headings.index("Mark the pin board (FRONT) from the tails")
    assert headings.index("Saw the tails") < marked < headings.index("Saw and chop the sockets")


def test_half_tails_are_taken_out_of_the_front_and_not_sawn_through_its_lap():
    words = told(sound(start="half-tail", tails=2, half_pin=None))
    assert "half-tail waste at both edges is taken out in the same way" in words
    assert "half-pin waste" not in words
    assert "both edges of the tail board (SIDE)" not in words
