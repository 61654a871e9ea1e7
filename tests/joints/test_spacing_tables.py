"""Tables of parameters: read from a job file, from text, and refused by the part's name."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.jobs.reader import read_job
from joinery_templates.joints.grooves.parameters import Groove
from joinery_templates.joints.parameter import read_parameters
from joinery_templates.joints.spacing.parameters import SpacingParameters, StyleParameters
from joinery_templates.lengths import INCH, Units
from tests.strategies import PROPERTY

PARAMETERS = {parameter.name: parameter for parameter in SpacingParameters.parameters}

JOB = """
units = "mm"

[boards.side]
width = 140
thickness = 18

[boards.end]
width = 140
thickness = 18

[[joints]]
kind = "through-dovetail"
tail_board = "side"
pin_board = "end"
slope = "1:6"
"""


def style(given_: object, units: Units = Units.MM) -> StyleParameters:
    read = PARAMETERS["spacing"].read(given_, units)
    assert isinstance(read, StyleParameters)
    return read


def refusal(name: str, given_: object) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        PARAMETERS[name].read(given_, Units.MM)
    assert all(finding.message and finding.remedy for finding in caught.value.findings)
    return [(finding.code, finding.place) for finding in caught.value.findings]


def test_a_style_is_a_table_a_word_or_a_table_as_text():
    table = {"style": "graded", "ratio": "5/4", "mirrored": False}
    as_text = '{ style = "graded", ratio = 1.25, mirrored = false }'
    expected = StyleParameters(style="graded", ratio=Fraction(5, 4), mirrored=False)
    assert style(table) == style(as_text) == expected
    assert style("graded") == StyleParameters(style="graded")


def test_lengths_in_a_table_are_exact_and_in_the_files_units():
    listed = style({"style": "listed", "widths": [1, "3/8", "10 mm"]}, Units.INCH)
    assert listed.widths == (INCH, INCH * 3 / 8, 10)
    assert style("{ round_to = 0.1 }").round_to == Fraction(1, 10)


@pytest.mark.parametrize(
    ("name", "given_", "expected"),
    [
        ("spacing", "gradual", [("choice-unknown", "spacing")]),
        ("spacing", 3, [("choice-unknown", "spacing")]),
        ("spacing", ["even"], [("choice-unknown", "spacing")]),
        ("spacing", "{ style = ", [("not-a-table", "spacing")]),
        ("spacing", "{}\nx = {}", [("not-a-table", "spacing")]),
        ("spacing", "{ a = " * 3000, [("not-a-table", "spacing")]),
        ("spacing", {"style": "gradual"}, [("choice-unknown", "spacing.style")]),
        ("spacing", {"stile": "even"}, [("unknown-name", "spacing.stile")]),
        ("spacing", {"ratio": 5}, [("out-of-limits", "spacing.ratio")]),
        ("spacing", {"ratio": "a"}, [("number-unreadable", "spacing.ratio")]),
        ("spacing", {"mirrored": "yes"}, [("flag-unreadable", "spacing.mirrored")]),
        ("spacing", {"mirrored": 1}, [("flag-unreadable", "spacing.mirrored")]),
        ("spacing", {"widths": []}, [("too-few", "spacing.widths")]),
        ("spacing", {"widths": [5, 0]}, [("out-of-limits", "spacing.widths[1]")]),
        ("spacing", {"widths": [5] * 402}, [("too-many", "spacing.widths")]),
        ("spacing", {"widths": [5, "x"]}, [("length-unreadable", "spacing.widths[1]")]),
        (
            "spacing",
            {"ratio": 0, "pins_together": 4, "round_to": 51},
            [("out-of-limits", f"spacing.{n}") for n in ("ratio", "pins_together", "round_to")],
        ),
        ("groove", "inside", [("not-a-table", "groove")]),
        ("groove", {"from_edge": 9}, [("missing", "groove")]),
        ("groove", {}, [("missing", "groove"), ("missing", "groove")]),
        ("groove", {"from_edge": -1, "width": 6}, [("out-of-limits", "groove.from_edge")]),
        (
            "groove",
            {"from_edge": 1, "width": 6, "face": "edge"},
            [("choice-unknown", "groove.face")],
        ),
    ],
)
def test_what_cannot_be_read_is_refused_by_the_name_of_its_part(name, given_, expected):
    assert refusal(name, given_) == expected


def test_a_groove_needs_its_place_and_width_and_no_more():
    read = PARAMETERS["groove"].read({"from_edge": "1/2 in", "width": 6}, Units.MM)
    assert read == Groove(from_edge=INCH / 2, width=Fraction(6), face="inside")


@PROPERTY
@given(st.text(max_size=60) | st.text("{}[]=,\"'.0123456789 \nstyle", max_size=60))
def test_no_text_brings_the_reader_of_tables_down(text):
    for name in ("spacing", "groove"):
        try:
            read_parameters(SpacingParameters, {name: text}, Units.MM)
        except InputError as error:
            assert error.findings  # noqa: PT017


def test_a_job_file_with_a_style_and_a_groove_is_laid_out_so():
    text = JOB + (
        'tails = 4\npin = 4\nspacing = { style = "small-edges", ratio = 1.5 }\n'
        'groove = { from_edge = 9, width = 6, depth = 6, face = "inside" }\n'
    )
    joint = read_job(text).joints[0].joint
    # Half pins 7, then 6 since the groove begins at 9 and a side leans 3: 114 / 5 = 22.8.
    marks = [mark.position for mark in joint.main_row.marks]
    assert marks[:3] == [6, Fraction("28.8"), Fraction("32.8")]
    assert marks[-1] == 140 - 8
    assert any("so that the groove lies in a tail" in rule for rule in joint.rules)
    assert not any(setting.tool == "dividers" for setting in joint.lengths)


@pytest.mark.parametrize(
    ("line", "place"),
    [
        ('spacing = { style = "graded", ratio = 9 }', "line 17: joint 1, spacing, ratio"),
        ('spacing = { style = "graded", at = "end" }', "line 17: joint 1, spacing, at"),
        ('spacing = { style = "gradual" }', "line 17: joint 1, spacing, style"),
        ('spacing = "gradual"', "line 17: joint 1, spacing"),
        ("groove = { from_edge = 139, width = 6 }", "line 17: joint 1, groove"),
    ],
)
def test_a_mistake_in_a_table_is_told_at_its_line_and_part(line, place):
    with pytest.raises(InputError) as caught:
        read_job(JOB + line + "\n")
    assert [finding.place for finding in caught.value.findings] == [place]
