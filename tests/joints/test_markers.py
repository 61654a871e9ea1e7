"""Markers of fixed slopes and dividers: what a layout takes from them, and what it tells."""

import pytest

from joinery_templates.exact import Fraction
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.starter import quick_job
from joinery_templates.joints.catalogue import kinds
from tests.cli.command_line import run


def joint(kind: str, tools: str, **given: str):
    sizes = {"width": "90 mm", "thickness": "12 mm"}
    text = quick_job(kinds()[kind], sizes | given)
    return read_job(f"{text}\n[tools]\n{tools}\n").joints[0].joint


def codes(made) -> list[str]:
    return [finding.code for finding in made.findings]


@pytest.mark.parametrize("kind", ["through-dovetail", "lapped-dovetail", "sliding-dovetail"])
@pytest.mark.parametrize(
    ("slopes", "taken"),
    [
        ('["1:6", "1:8"]', Fraction(1, 8)),  # 9.46 and 7.13 degrees; 1:7 is 8.13
        ('["1:6"]', Fraction(1, 6)),
        ('"1:7"', Fraction(1, 7)),
        ("[]", Fraction(1, 7)),
    ],
)
def test_a_slope_that_is_not_given_is_that_of_the_nearest_marker(kind, slopes, taken):
    made = joint(kind, f"slopes = {slopes}")
    (slope,) = {one.slope for one in made.slopes}
    assert slope == taken
    assert "no-such-marker" not in codes(made)
    if kind != "sliding-dovetail":
        told = " ".join(made.rules)
        assert ("the nearest of your markers to 1:7" in told) == (slopes != "[]")


def test_another_slope_is_told_with_the_nearest_that_is_owned():
    made = joint("through-dovetail", 'slopes = ["1:6", "1:8"]', slope="1:5")
    (finding,) = (one for one in made.findings if one.code == "no-such-marker")
    assert "1:5" in finding.message
    assert "give 1:6, which you have" in finding.remedy
    assert finding.place == "slope"


def test_a_marker_is_no_matter_for_angles_that_it_does_not_draw():
    """The lean of a tray's corner is set on a bevel whatever markers there are."""
    made = joint("canted-mitre", 'slopes = ["1:6"]', lean="15")
    assert made.slopes
    assert "no-such-marker" not in codes(made)


@pytest.mark.parametrize(("opening", "told"), [("20 mm", True), ("200 mm", False)])
def test_dividers_that_do_not_open_so_far_are_told(opening, told):
    made = joint("through-dovetail", f'dividers = "{opening}"', tails="3")
    assert ("dividers-too-small" in codes(made)) == told


def test_markers_are_kept_for_every_job_and_written_into_it(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    kept = run("tools", "--slopes", "1:6, 9 deg", "--dividers", "120 mm")
    assert kept.code == 0, kept.messages
    assert "1:6" in kept.text
    pdf = tmp_path / "a.pdf"
    sizes = ("--width", "90", "--thickness", "12")
    assert run("quick", "through-dovetail", *sizes, "-o", pdf).code == 0
    assert run("tools", "--slopes", "none").code == 0
    again = run("check", pdf, "--json").text
    assert '"degrees": 9.0' in again, "9 degrees is nearer to 1:7 (8.13) than 1:6 (9.46)"
