"""Layouts worked by hand or published, compared with ``==``."""

import pytest

from joinery_templates.errors import Level
from joinery_templates.exact import Fraction, degrees_of
from joinery_templates.joint import Joint
from joinery_templates.joints.dovetails.through_dovetail import KIND
from joinery_templates.joints.reading import read_slope
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import lay_out
from tests.joints.strategies import dovetail

ROWS = {
    "end": "outside face, along the end",
    "baseline": "along the baseline",
    "pins outside": "outside face, along the end",
    "pins inside": "inside face, along the end",
}


def row(joint: Joint, role: str, title: str) -> list[Fraction]:
    found = [r for r in joint.rows if r.role == role and r.title == title]
    assert len(found) == 1
    return [mark.position for mark in found[0].marks]


def divider(joint: Joint) -> Fraction:
    return next(setting.length for setting in joint.lengths if setting.tool == "dividers")


def size(joint: Joint, name: str) -> Fraction:
    return next(size.length for size in joint.sizes if size.name == name)


def fractions(*figures: str) -> list[Fraction]:
    return [Fraction(figure) for figure in figures]


@pytest.fixture
def metric() -> Joint:
    """140 mm wide, half pin 7, pin 3, four tails at 1:6, boards 20 (tails) and 18 mm (pins)."""
    return KIND.build(
        dovetail("140 mm", ("20 mm", "18 mm"), half_pin="7 mm", pin="3 mm", tails=4, slope="1:6")
    )


def test_metric_case_divider_is_board_less_half_pins_plus_pin_by_the_number_of_tails(metric):
    assert divider(metric) == Fraction("32.25")  # (140 - 14 + 3) / 4
    assert size(metric, "tail at the end (wide)") == Fraction("29.25")


def test_metric_case_marks_at_the_end(metric):
    assert row(metric, "tail board", ROWS["end"]) == fractions(
        "7", "36.25", "39.25", "68.5", "71.5", "100.75", "103.75", "133"
    )


def test_metric_case_marks_at_the_baseline_have_come_in_by_a_sixth_of_the_pin_board(metric):
    # 18 / 6 = 3 mm on each side.
    assert row(metric, "tail board", ROWS["baseline"]) == fractions(
        "10", "33.25", "42.25", "65.5", "74.5", "97.75", "106.75", "130"
    )
    assert row(metric, "pin board", ROWS["pins inside"]) == row(
        metric, "tail board", ROWS["baseline"]
    )
    assert row(metric, "pin board", ROWS["pins outside"]) == row(metric, "tail board", ROWS["end"])


def test_metric_case_baselines_are_the_other_boards_thickness(metric):
    tails, pins = metric.members
    assert (tails.part.reach, pins.part.reach) == (18, 20)
    assert [s.length for s in metric.lengths if s.tool == "gauge"] == [18, 20]


def test_metric_case_pin_widths(metric):
    assert size(metric, "space for a pin at the tail board's end") == 3
    assert size(metric, "pin on the pin board's outside face (narrow)") == 3
    assert size(metric, "pin on the pin board's inside face (wide)") == 9  # 3 + 2 * 18 / 6


def test_metric_case_marks_are_named_in_order(metric):
    assert [mark.what for mark in metric.main_row.marks] == [
        f"tail {number} {what}" for number in (1, 2, 3, 4) for what in ("starts", "ends")
    ]


def test_metric_case_lines_on_the_outside_face_start_at_the_marks_and_end_at_the_baseline(metric):
    end = metric.members[0].part
    lines = lay_out(end, Face.OUTSIDE, Fraction(50)).lines
    sides = {frozenset((line.start, line.end)) for line in lines if line.surface == "side"}
    at_end = row(metric, "tail board", ROWS["end"])
    at_baseline = row(metric, "tail board", ROWS["baseline"])
    assert sides == {
        frozenset(((above, Fraction(0)), (below, Fraction(18))))
        for above, below in zip(at_end, at_baseline, strict=True)
    }
    shoulders = {frozenset((line.start, line.end)) for line in lines if "shoulder" in line.surface}
    assert shoulders == {
        frozenset(((Fraction(left), Fraction(18)), (Fraction(right), Fraction(18))))
        for left, right in [
            ("0", "10"),
            ("33.25", "42.25"),
            ("65.5", "74.5"),
            ("97.75", "106.75"),
            ("130", "140"),
        ]
    }
    assert len(lines) == 8 + 5


def test_inch_case_divider_is_exactly_an_inch():
    joint = KIND.build(
        dovetail(
            "5 1/2 in",
            ("3/4 in", "3/4 in"),
            Units.INCH,
            half_pin="5/16",
            pin="1/8",
            tails=5,
            slope="1:6",
        )
    )
    assert divider(joint) == INCH
    assert size(joint, "tail at the end (wide)") == Fraction(7, 8) * INCH


def test_noyes_48_baseline_stands_a_thirty_second_further_than_the_other_piece_is_thick():
    """Noyes 1910, no. 48."""
    joint = KIND.build(
        dovetail("4 in", ("3/4 in", "5/8 in"), Units.INCH, tails=3, tails_proud="1/32 in")
    )
    assert joint.members[0].part.reach == (Fraction(5, 8) + Fraction(1, 32)) * INCH
    assert joint.members[1].part.reach == Fraction(3, 4) * INCH


def test_noyes_48_slope_of_five_eighths_in_three_inches():
    """Noyes calls it about 80 degrees from the end: his triangle gives 78.2, a rounding of his."""
    slope = read_slope("5/8:3")
    assert slope == 1 / Fraction("4.8")
    assert degrees_of(slope, Fraction(1)) == pytest.approx(11.768, abs=5e-4)
    from_the_end = 90 - degrees_of(slope, Fraction(1))
    assert from_the_end == pytest.approx(78.232, abs=5e-4)
    assert abs(from_the_end - 80) < 2


def test_noyes_48_layout_by_dividing_the_shoulder_line():
    """Noyes 1910, no. 48: equal parts of the shoulder line, half a socket either side of each.

    4 in wide, 4 tails, sockets 1/2 in at the shoulder, 3/4 in thick (our figures on his
    method). At the end that is a half pin of 3/32 in, pins of 3/16 in, tails of 13/16 in.
    """
    joint = KIND.build(
        dovetail(
            "4 in",
            ("3/4 in", "3/4 in"),
            Units.INCH,
            half_pin="3/32 in",
            pin="3/16 in",
            tails=4,
            slope="5/8:3",
        )
    )
    shoulder = [mark / INCH for mark in row(joint, "tail board", ROWS["baseline"])]
    assert shoulder == fractions("0.25", "0.75", "1.25", "1.75", "2.25", "2.75", "3.25", "3.75")
    assert size(joint, "tail at the end (wide)") == Fraction(13, 16) * INCH
    assert size(joint, "tail at the baseline (narrow)") == INCH / 2


def test_ross_1901_slope_of_one_in_four_is_drawn_with_advice():
    """Ross, Elementary Course in Woodwork, 1901, sets his pupils' bevel to 1 in 4."""
    joint = KIND.build(dovetail("90 mm", tails=3, slope="1:4", half_pin="8 mm", pin="6 mm"))
    assert joint.slopes[0].slope == Fraction(1, 4)
    assert [(f.code, f.level) for f in joint.findings if "slope" in f.code] == [
        ("slope-steep", Level.ADVICE)
    ]


@pytest.mark.parametrize(
    ("slope", "advice"),
    [
        ("1:4.99", ["slope-steep"]),
        ("1:5", []),
        ("1:6", []),
        ("1:7", []),
        ("1:8", []),
        ("1:8.01", ["slope-flat"]),
        ("11.3 deg", []),
        ("11.4 deg", ["slope-steep"]),
        ("7.13 deg", []),
        ("7.1 deg", ["slope-flat"]),
    ],
)
def test_slopes_from_one_in_five_to_one_in_eight_draw_no_advice(slope, advice):
    """Joyce 1970, on dovetailing; the angles are atan(1/5), atan(1/8)."""
    joint = KIND.build(dovetail("90 mm", tails=3, slope=slope, half_pin="8 mm", pin="6 mm"))
    assert [f.code for f in joint.findings if f.code.startswith("slope")] == advice


def test_tails_proud_widens_the_pin_on_its_outside_face():
    """The tail has come in before it reaches the pin board: by 0.6 / 6 on each side."""
    joint = KIND.build(
        dovetail(
            "140 mm",
            ("20 mm", "18 mm"),
            half_pin="7 mm",
            pin="3 mm",
            tails=4,
            slope="1:6",
            tails_proud="0.6 mm",
        )
    )
    assert size(joint, "pin on the pin board's outside face (narrow)") == Fraction("3.2")
    assert size(joint, "pin on the pin board's inside face (wide)") == 3 + Fraction("18.6") / 3
    assert row(joint, "pin board", ROWS["pins outside"])[:2] == fractions("7.1", "36.15")


def test_fit_is_taken_off_the_pins_square_to_their_sides():
    """At 7:24, with the triangle 7-24-25, 0.24 mm square to the side is 0.25 mm across."""
    plain, fitted = (
        KIND.build(dovetail("90 mm", half_pin="8 mm", pin="6 mm", tails=2, slope="7:24", fit=fit))
        for fit in ("0", "0.24 mm")
    )
    narrow = "pin on the pin board's outside face (narrow)"
    assert size(plain, narrow) - size(fitted, narrow) == Fraction("0.5")
    assert plain.members[0] == fitted.members[0]
    assert row(fitted, "pin board", ROWS["pins outside"])[0] == Fraction("7.75")


def test_the_dividers_are_left_out_where_there_is_nothing_to_step():
    joint = KIND.build(dovetail("30 mm", tails=1, half_pin="8 mm"))
    assert [setting.tool for setting in joint.lengths] == ["gauge", "gauge"]


def test_half_tails_are_named_by_their_edge():
    joint = KIND.build(dovetail("60 mm", start="half-tail", tails=1, pin="5 mm", slope="1:8"))
    assert [mark.what for mark in joint.main_row.marks] == [
        "half tail at the reference edge ends",
        "tail 1 starts",
        "tail 1 ends",
        "half tail at the far edge starts",
    ]
    # 60 = half + 5 + tail + 5 + half with two halves to a tail: 25, and 12.5 each.
    assert [mark.position for mark in joint.main_row.marks] == fractions(
        "12.5", "17.5", "42.5", "47.5"
    )
