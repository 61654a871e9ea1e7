"""The dovetailed halving: worked cases, a handbook's rules, what is refused and advised."""

from math import isclose

import pytest
from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.halvings.dovetail_halving import KIND
from joinery_templates.joints.halvings.dovetail_shape import (
    FAR_EDGE,
    INSIDE,
    OUTSIDE,
    REFERENCE_EDGE,
)
from joinery_templates.joints.kind import Request
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import is_waste, lay_out
from tests.joints.solids import CLOSE_MM3, mate
from tests.joints.told_steps import faults
from tests.joints.worked import codes_of, corners_like, refused, request_of, sizes, with_lengths


def request(
    rail: tuple[str, str] = ("48 mm", "20 mm"),
    stile: tuple[str, str] = ("60 mm", "18 mm"),
    **raw: object,
) -> Request:
    return request_of(KIND, rail, stile, names=("bar", "post"), **raw)


def marks(joint: Joint) -> dict[tuple[str, str], list[Fraction]]:
    return {(row.role, row.title): [mark.position for mark in row.marks] for row in joint.rows}


# Worked by hand


def test_the_usual_form_by_hand():
    """Right across 60 at 1:6 a side comes in by 10: the neck of a rail of 48 is 28."""
    joint = KIND.build(request())
    assert sizes(joint) == {
        "dovetail at its end (wide)": 48,
        "dovetail at the shoulder (neck)": 28,
        "shoulder beside the dovetail": 10,
        "thickness of the dovetail": 10,
        "thickness left of the stile": 8,
    }
    assert [setting.length for setting in joint.lengths] == [10, 60]
    assert [setting.slope for setting in joint.slopes] == [Fraction(1, 6)]
    assert marks(joint) == {
        ("rail", "at the shoulder"): [10, 38],
        ("stile", "reference edge, on its arris"): [10, 38],
    }


def test_the_rail_is_as_long_as_the_space_and_a_dovetail_at_each_end():
    """Right across 60 and 0.5 past it; or as long as the dovetail is told to be."""
    for raw, more in (({"end_proud": "0.5 mm"}, "60.5 mm"), ({"lap_length": "40 mm"}, "40 mm")):
        first = KIND.build(request(**raw)).steps[0].words
        assert f"as long as the space between the stiles and {more} more for the dovetail" in first


@pytest.mark.parametrize(
    ("letters", "long", "words"),
    [
        ("AB", None, "as the space between the stiles and 60 mm more for the dovetail at each of"),
        ("AB", 480, "with a dovetail 60 mm long at each, 360 mm are left between its shoulders."),
        (
            "A",
            None,
            "as it is to be from the shoulder of its dovetail to its other end, and 60 mm more for "
            "the dovetail, ends square.",
        ),
        (
            "A",
            480,
            "420 mm are left from the shoulder of its dovetail to its other end. Where that has "
            "such a dovetail too, 360 mm are left between its shoulders.",
        ),
        # Of two arms that run to the right, neither has a dovetail at its other end.
        (
            "AD",
            None,
            "as it is to be from the shoulder of its dovetail to its other end, and 60 mm more for "
            "the dovetail, ends square.",
        ),
    ],
)
def test_no_dovetail_is_told_at_an_end_where_the_job_shows_none(letters, long, words):
    """Right across a stile of 60: of a rail of 480, 420 are left past one and 360 between two."""
    asked = replace(request(), corners=corners_like(letters))
    joint = KIND.build(with_lengths(asked, long, 900) if long else asked)
    first = joint.steps[0].words
    assert words in first
    assert ("each" in first) == (letters == "AB")
    assert faults(joint, first) == []


def test_one_in_inches_that_stops_with_a_wider_shoulder_and_a_fit_by_hand():
    """2 in wide at 1:4 comes in by 1/2 in; shoulder 5/8: 1/8 in at the end, neck 2 1/2 - 5/8.

    The fit of 0.02 in at 1:4 is 0.02 x sqrt(17) / 4 = 0.0206155 in along the stile.
    """
    joint = KIND.build(
        request(
            ("2 1/2 in", "3/4 in"),
            ("3 in", "3/4 in"),
            units=Units.INCH,
            slope="1:4",
            sides=FAR_EDGE,
            shoulder="5/8 in",
            lap="1/4 in",
            lap_length="2 in",
            fit="0.02 in",
        )
    )
    found = {name: length / INCH for name, length in sizes(joint).items()}
    gap = found.pop("socket where the rail comes in, with the fit") - Fraction(15, 8)
    assert isclose(gap, 0.0206155, abs_tol=1e-7)
    assert found == {
        "dovetail at its end (wide)": Fraction(19, 8),
        "dovetail at the shoulder (neck)": Fraction(15, 8),
        "shoulder beside the dovetail": Fraction(5, 8),
        "thickness of the dovetail": Fraction(1, 4),
        "thickness left of the stile": Fraction(1, 2),
        "left of the stile past the socket's end": 1,
    }
    assert [setting.length / INCH for setting in joint.lengths] == [Fraction(1, 4), 2, 2]
    rows = {row: [mark / INCH for mark in found] for row, found in marks(joint).items()}
    assert rows.pop(("rail", "outside face, along the end")) == [Fraction(19, 8)]
    assert rows.pop(("rail", "at the shoulder")) == [Fraction(15, 8)]
    (near,), (end,) = rows.values()
    assert isclose(near, 1.875 + 0.0206155, abs_tol=1e-7)
    assert isclose(end, 2.375 + 0.0206155, abs_tol=1e-7)


def test_stile_marks_are_measured_from_the_rails_edge_on_the_line():
    """From the far edge the line is the rail's far edge: a straight side there lies on it."""
    joint = KIND.build(request(enters=FAR_EDGE, sides=REFERENCE_EDGE))
    row = joint.rows[-1]
    assert (row.title, row.start) == ("far edge, on its arris", "rail's far edge")
    assert [(mark.position, mark.what) for mark in row.marks] == [(38, "socket ends")]
    stile = joint.members[1].part
    assert stile.guide == (0, "rail's far edge")
    assert (stile.start, stile.reach) == (-48, 0)


def test_halves_of_one_thickness_are_gauged_alike_and_half_is_left_of_both():
    """Noyes 1910, nos. 14 to 17: half of each; 20 mm gives 10 and 10."""
    joint = KIND.build(request(stile=("60 mm", "20 mm")))
    assert sizes(joint)["thickness of the dovetail"] == 10
    assert sizes(joint)["thickness left of the stile"] == 10


def test_behind_a_thin_stile_half_of_the_stile_is_still_let_in():
    """Noyes 1910, as above. A rail of 27 on a stile of 18: 9 from the outside face of both."""
    joint = KIND.build(request(("64 mm", "27 mm"), ("48 mm", "18 mm"), shows=INSIDE))
    assert sizes(joint)["thickness of the dovetail"] == 18
    assert sizes(joint)["thickness left of the stile"] == 9
    assert joint.lengths[0].length == 9
    assert "all of the rail behind the middle of the stile's thickness, 18 mm" in joint.rules[0]
    assert joint.findings == ()


@pytest.mark.parametrize(
    ("shows", "stile", "less"), [(OUTSIDE, 18, 0), (INSIDE, 18, 9), (INSIDE, 30, -3)]
)
def test_the_words_of_lap_say_how_much_of_the_dovetail_is_let_into_the_stile(shows, stile, less):
    """A rail of 27 on a thinner or a thicker stile."""
    (lap,) = (one for one in KIND.parameters if one.name == "lap")
    assert "less or more as the stile is thinner or thicker than the rail" in lap.help
    found = sizes(KIND.build(request(("64 mm", "27 mm"), ("48 mm", f"{stile} mm"), shows=shows)))
    let_in = stile - found["thickness left of the stile"]
    assert found["thickness of the dovetail"] - let_in == less


@pytest.mark.parametrize("shows", [OUTSIDE, INSIDE])
@pytest.mark.parametrize("lap", ["9.6 mm", "10 mm", "10.7 mm"])
def test_what_one_gauge_setting_leaves_of_both_adds_up_to_the_thickness(lap, shows):
    """Noyes 1910, as above: one setting from the face of both, and faces come flush."""
    joint = KIND.build(request(stile=("60 mm", "20 mm"), lap=lap, shows=shows))
    found = sizes(joint)
    assert found["thickness of the dovetail"] + found["thickness left of the stile"] == 20
    assert abs(mate(joint).missing) < CLOSE_MM3


def test_the_end_stands_over_by_the_sixteenth_of_an_inch_that_is_left_for_cleaning_off():
    """Noyes 1910, no. 16: let the end stand over by 1/16 in."""
    joint = KIND.build(request(stile=("2 in", "18 mm"), end_proud="1/16 in"))
    rail = joint.members[0].part
    assert rail.reach == INCH * 33 / 16
    assert mate(joint).first.bounding_box()[1] == 0
    second = mate(joint).second.bounding_box()
    assert second[1] == pytest.approx(25.4 / 16)


def lines(joint: Joint, member: int, face: Face) -> set[frozenset[tuple[Fraction, Fraction]]]:
    end = joint.members[member].part
    return {frozenset((line.start, line.end)) for line in lay_out(end, face, end.reach + 20).lines}


def as_set(*segments: tuple[tuple[int, int], tuple[int, int]]) -> set[frozenset[object]]:
    return {frozenset(segment) for segment in segments}


def test_every_face_of_both_boards_by_hand():
    """Rail 48, lap 10 of 20, stile 60 x 18; the stile's y runs up from the rail's edge, below 0."""
    joint = KIND.build(request())
    rail = [lines(joint, 0, face) for face in Face]
    assert rail == [
        as_set(((0, 0), (10, 60)), ((48, 0), (38, 60)), ((0, 60), (10, 60)), ((38, 60), (48, 60))),
        as_set(((0, 60), (48, 60))),
        as_set(((0, 10), (48, 10))),
        # The shoulder in two pieces: beside the lap, and beside the dovetail.
        # The lap is sawn first.
        as_set(((10, 0), (10, 60)), ((0, 60), (10, 60)), ((10, 60), (20, 60))),
        as_set(((10, 0), (10, 60)), ((0, 60), (10, 60)), ((10, 60), (20, 60))),
    ]
    stile = [lines(joint, 1, face) for face in Face]
    assert stile == [
        as_set(((0, -10), (60, 0)), ((0, -38), (60, -48))),
        set(),
        set(),
        as_set(((0, -10), (10, -10)), ((0, -38), (10, -38)), ((10, -38), (10, -10))),
        as_set(((0, 0), (10, 0)), ((0, -48), (10, -48)), ((10, -48), (10, 0))),
    ]


@pytest.mark.parametrize(
    ("x", "y", "z", "waste"),
    [
        (5, 25, 5, False),  # dovetail, just inside the side: 25 / 6 = 4.17
        (4, 25, 5, True),
        (24, 30, 9, False),
        (24, 30, 11, True),  # the other half of the thickness
        (24, 61, 11, False),  # past the shoulder
        (1, 61, 5, False),
    ],
)
def test_wood_and_waste_of_the_rail_by_hand(x, y, z, waste):
    assert is_waste(KIND.build(request()).members[0].part, *map(Fraction, (x, y, z))) is waste


# Refused and advised

REFUSED = {
    "longer than the stile": ({"lap_length": "61 mm"}, ("no-room", "lap_length")),
    "stops and stands proud": (
        {"lap_length": "50 mm", "end_proud": "1 mm"},
        ("not-together", "end_proud"),
    ),
    "the whole rail": ({"lap": "20 mm"}, ("lap-too-thick", "lap")),
    "the whole of a thin rail": (
        {"rail": ("60 mm", "16 mm"), "lap": "16 mm"},
        ("lap-too-thick", "lap"),
    ),
    "the whole stile": ({"lap": "18 mm"}, ("lap-too-thick", "lap")),
    "behind the stile": ({"lap": "2 mm", "shows": INSIDE}, ("no-room", "lap")),
    "wider than the rail": ({"shoulder": "9.9 mm"}, ("no-room", "shoulder")),
    "no neck by the slope": ({"slope": "1:2"}, ("no-room", "slope")),
    "no neck by the shoulder": ({"shoulder": "24 mm"}, ("no-room", "shoulder")),
    "gap wider than the shoulder": (
        {"lap_length": "4 mm", "slope": "1:10", "fit": "0.4 mm"},
        ("no-room", "fit"),
    ),
    "no room for the neck": ({"shoulder": "23.8 mm", "fit": "-0.3 mm"}, ("no-room", "fit")),
}


@pytest.mark.parametrize(("raw", "expected"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused_with_its_code_and_place(raw, expected):
    (finding,) = refused(request(**raw), KIND.build)
    assert (finding.code, finding.place) == expected
    assert finding.remedy


def test_boards_too_short_are_told_together():
    told = refused(with_lengths(request(), 60, 48), KIND.build)
    assert [finding.code for finding in told] == ["board-too-short"] * 2


ADVISED = {
    "usual": ({}, []),
    "steep": ({"slope": "1:4.9", "rail": ("60 mm", "20 mm")}, ["slope-steep"]),
    "flat": ({"slope": "1:8.1"}, ["slope-flat"]),
    "neck of half the rail": ({"rail": ("40 mm", "20 mm")}, []),
    "narrow neck": ({"rail": ("39.9 mm", "20 mm"), "slope": "1:6"}, ["neck-narrow"]),
    "narrow neck, not told how steep": ({"rail": ("39.9 mm", "20 mm")}, []),
    "stile of a third": ({"lap": "12 mm"}, []),
    "stile thinner": ({"lap": "12.1 mm"}, ["stile-thin"]),
    "lap thinner": ({"lap": "6.6 mm"}, ["lap-thin"]),
    "stile thinner, shown inside": ({"lap": "14.1 mm", "shows": INSIDE}, ["stile-thin"]),
    "a third of the stile let in, shown inside": ({"lap": "8 mm", "shows": INSIDE}, []),
    "less let in, shown inside": ({"lap": "7.9 mm", "shows": INSIDE}, ["socket-shallow"]),
    "stops well": ({"lap_length": "55 mm"}, []),
    "little left past it": ({"lap_length": "55.1 mm"}, ["stile-edge-thin"]),
    "reaches half way": ({"lap_length": "30 mm"}, []),
    "short": ({"lap_length": "29.9 mm"}, ["lap-short"]),
    "easy": ({"fit": "0.2 mm"}, []),
    "loose": ({"fit": "0.21 mm"}, ["fit-loose"]),
}


@pytest.mark.parametrize(("raw", "codes"), ADVISED.values(), ids=ADVISED)
def test_advice_is_given_where_it_is_due_and_only_there(raw, codes):
    findings = KIND.build(request(**raw)).findings
    assert codes_of(findings) == codes
    assert all(finding.place for finding in findings)


def test_what_a_rule_decided_is_told_and_what_was_given_is_not():
    assert [rule.partition(":")[0] for rule in KIND.build(request()).rules] == [
        "Lap",
        "Shoulder beside the dovetail",
    ]
    assert KIND.build(request(lap="9 mm", shoulder="12 mm")).rules == ()


def test_the_order_of_work_says_which_side_slopes_and_which_face_the_waste_is_on():
    told = " ".join(step.words for step in KIND.build(request(sides=FAR_EDGE, shows=INSIDE)).steps)
    assert "the side at the far edge (at the reference edge it stays straight)" in told
    assert "The waste is on the outside face." in told
    assert "square to the inside face" in told
    assert "router plane set to 9 mm" in told  # stile 18, gauged 9 from its outside face


def test_the_kind_is_no_corner_of_a_box():
    joint = KIND.build(request())
    assert joint.at_corner is False
    assert [member.role for member in joint.members] == ["rail", "stile"]
