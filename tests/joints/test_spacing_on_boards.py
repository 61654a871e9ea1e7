"""Every style on two boards: the solids mate, the marks stand in order, `quick` takes it."""

from pathlib import Path

import pytest

from joinery_templates.errors import Level
from joinery_templates.joints.dovetails.through_dovetail import KIND
from tests.cli.command_line import run
from tests.joints.solids import CLOSE_MM3, mate
from tests.joints.strategies import dovetail

STYLES = {
    "shoulder": {"tails": 4, "spacing": {"style": "shoulder", "socket": "1/2 in"}},
    "equal": {"tails": 3, "spacing": "equal"},
    "equal, half tails": {"start": "half-tail", "tails": 2, "spacing": "equal"},
    "listed": {"spacing": {"style": "listed", "widths": [20, 5, 40, 4, 30]}},
    "graded": {"tails": 5, "pin": 4, "spacing": {"style": "graded", "ratio": "1.3"}},
    "graded from edge to edge": {
        "tails": 4,
        "pin": 4,
        "spacing": {"style": "graded", "mirrored": False},
    },
    "small edges, half tails": {
        "start": "half-tail",
        "tails": 4,
        "pin": 4,
        "spacing": "small-edges",
    },
    "clusters, rounded": {"pin": 3, "spacing": {"style": "clusters", "groups": 2, "round_to": 1}},
    "beside a groove": {"tails": 4, "pin": 4, "groove": {"from_edge": 9, "width": 6}},
}


@pytest.mark.parametrize("raw", STYLES.values(), ids=STYLES)
def test_boards_with_uneven_tails_mate_and_their_marks_stand_in_order(raw):
    joint = KIND.build(dovetail("140 mm", ("20 mm", "18 mm"), **raw))
    mated = mate(joint)
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3
    for row in joint.rows:
        places = [mark.position for mark in row.marks]
        assert places == sorted(set(places))
        assert places[0] > 0
        assert places[-1] < 140
    assert all(finding.level is Level.ADVICE for finding in joint.findings)


def test_quick_takes_a_style_as_a_word_and_as_a_table(tmp_path: Path) -> None:
    sizes = ("--width", "140", "--thickness", "18")
    for words in ("graded", '{ style = "graded", ratio = "5/4", round_to = 1 }'):
        pdf = tmp_path / "quick.pdf"
        ran = run("quick", "through-dovetail", *sizes, "--spacing", words, "-o", pdf)
        assert ran.code == 0, ran.messages
        assert run("check", pdf).code == 0
    ran = run("quick", "through-dovetail", *sizes, "--spacing", '{ ratio = "5/4" }')
    assert ran.code == 2
    assert ran.messages.startswith("ERROR: --spacing: This does not go with"), ran.messages


def test_joints_shows_what_stands_in_a_table() -> None:
    text = run("joints", "through-dovetail").text
    for part in ("style", "round_to", "from_edge"):
        assert f"\n      {part} " in text
    assert '{ style = "graded"' in " ".join(text.split())


def test_half_tails_that_differ_are_told_one_by_one():
    """Tails grow 5/4 each from edge to edge, so the far half tail is (5/4)^2 of the near one."""
    joint = KIND.build(
        dovetail(
            "100 mm",
            ("12 mm", "12 mm"),
            start="half-tail",
            spacing={"style": "graded", "ratio": "5/4", "mirrored": False},
            tails=3,
            pin="6 mm",
        )
    )
    told = {size.name: size.length for size in joint.sizes}
    near, far = (told[f"half tail at the {edge} edge, at the end"] for edge in ("reference", "far"))
    assert far == near * 25 / 16
    assert "half tail at each edge, at the end" not in told
