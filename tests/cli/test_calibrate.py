"""`calibrate`: readings in any unit, by options or at a prompt; what is kept and refused."""

import json
import os
import pty
import re
import subprocess
import sys
import tomllib
from pathlib import Path
from unittest import mock

import pytest

from tests.cli.command_line import SAMPLE, TOP, run
from tests.pdf.page_reading import read_pages
from tests.printers.small_job import SMALL_JOB

GOOD = {"across": "162.648", "along": "215.136", "rising": "270.1", "falling": "269.2985"}
"""They agree: 2 (162.648² + 215.136²) is 270.1² + 269.2985², to the last figure."""
TRUE = {"across": "162", "along": "216", "rising": "270", "falling": "270"}
LINES = {
    "across": "162 line 30",
    "along": "216mm line30",
    "rising": "262 LINE 30",
    "falling": "262, line 30",
}
"""What a true sheet reads: the last lines meet the lengths, those of the diagonals 8 mm before."""
FIT = {"across": "155.5", "along": "207.4", "rising": "259.2", "falling": "259.2"}


@pytest.fixture(autouse=True)
def settings(tmp_path):
    """The program's own settings in a folder that is thrown away."""
    with mock.patch.dict(os.environ, {"XDG_CONFIG_HOME": str(tmp_path / "settings")}):
        yield tmp_path / "settings" / "joinery-templates" / "printers.toml"


def options(readings: dict[str, str], date: str = "1 May") -> list[str]:
    given = {**readings, "date": date}
    return [part for name, value in given.items() for part in (f"--{name}", value)]


def kept(*more: object, name: str = "Press", readings: dict[str, str] = GOOD) -> dict:
    ran = run("calibrate", name, *options(readings), "--json", *more)
    assert ran.code == 0, ran.messages
    return json.loads(ran.text)


def test_readings_become_scales_and_a_skew():
    """By hand, 162.648 / 162 and 215.136 / 216, and the sine of the skew.

    (270.1² - 269.2985²) / (4 · 162.648 · 215.136) = sin 0.17697°.
    """
    figures = kept()
    assert figures["scale_across"] == pytest.approx(1.004)
    assert figures["scale_along"] == pytest.approx(0.996)
    assert figures["skew_degrees"] == pytest.approx(0.17697, abs=1e-4)


INCHES = {"across": '6.4005"', "along": "8.5986 in", "rising": "10.71925", "falling": "10.71925"}
"""Of the Letter sheet: 6 3/8, 8 1/2 and 10 5/8 in, printed 0.4 % and 1.16 % too long."""


def test_readings_in_inches_are_taken_as_such():
    figures = kept("--paper", "Letter", "--units", "in", readings=INCHES)
    assert figures["scale_across"] == pytest.approx(1.004, abs=1e-5)
    assert figures["scale_along"] == pytest.approx(1.0116, abs=1e-5)
    assert figures["paper"] == "Letter"


def test_the_line_to_type_takes_the_units_that_the_sheet_was_drawn_with(tmp_path):
    """What the sheet and the message print is typed as it stands, with bare inches."""
    sheet = tmp_path / "sheet.pdf"
    ran = run("calibrate", "--paper", "Letter", "--units", "in", "-o", sheet)
    (page,) = read_pages(sheet.read_bytes())
    line = 'joinery-templates calibrate NAME --paper "Letter" --units in'
    assert line in ran.messages
    assert line in " ".join(one.text for one in page.words)
    in_mm = run("calibrate", "--paper", "Letter", "-o", sheet)
    assert "--units" not in in_mm.messages


def test_all_readings_that_cannot_be_read_are_told_at_once():
    wrong = {"across": "abc", "along": "205 line 99", "rising": "x", "falling": "269"}
    told = run("calibrate", "Press", *options(wrong)).messages
    assert all(f"--{name}" in told for name in ("across", "along", "rising"))
    assert "--falling" not in told


def test_units_may_stand_beside_each_figure():
    mixed = {**GOOD, "across": "16.2648 cm", "along": "8.46992 in", "rising": "270.1 mm"}
    assert kept(readings=mixed)["scale_across"] == pytest.approx(1.004)


def test_a_millimetre_and_its_line_are_taken_in_any_spelling():
    figures = kept(readings=LINES)
    assert (figures["scale_across"], figures["scale_along"], figures["skew_degrees"]) == (1, 1, 0)
    assert figures["scale_doubt"] == pytest.approx(0.05 / 162)
    mixed = kept(readings={**LINES, "along": "216"})
    assert mixed["scale_doubt"] == pytest.approx(0.15 / 162), "as good as the rule at its worst"


def test_four_readings_that_contradict_each_other_are_evened_out():
    """By hand, an eye's slip of 0.12 mm in the width alone, and nothing else.

    The pull of each on the sum of squares is as 4 times 162, 4 times 216 and twice 270: squared,
    the width has 144 of 600 parts. So of its slip 456 parts stay, 0.0912 mm.
    """
    figures = kept(readings={**TRUE, "across": "162.12"})
    assert (figures["scale_across"] - 1) * 162 == pytest.approx(0.0912, abs=2e-4)


@pytest.mark.parametrize(
    ("readings", "more", "code", "cause"),
    [
        (FIT, (), "reading-absurd", "fit to page"),
        (dict.fromkeys(GOOD, "6.43"), (), "reading-inches", "looks like inches"),
        (GOOD, ("--units", "in"), "reading-millimetres", "looks like millimetres"),
        ({**GOOD, "across": "166.9"}, (), "reading-absurd", "below 3 %"),
        ({**GOOD, "falling": "272.5"}, (), "readings-disagree", "do not fit the sides"),
        # Line 12 stands 18 times 0.95 mm before the cross: 162 * 161 / 144.9, which nobody read.
        ({**TRUE, "across": "161 line 12"}, (), "reading-absurd", "--across: This makes 180 mm"),
        ({**TRUE, "rising": "277", "falling": "263"}, (), "skew-absurd", "up to 1°"),
        ({**GOOD, "across": "about 150"}, (), "length-unreadable", "--across"),
        ({**GOOD, "along": "-215.1"}, (), "", "--along"),
        ({**GOOD, "along": "0"}, (), "", "--along"),
        ({**LINES, "across": "162 line 27"}, (), "line-absurd", "--across: Millimetre and line"),
        ({**LINES, "across": "162 line 28"}, (), "readings-disagree", "look at its number again"),
        ({**LINES, "along": "216 line 31"}, (), "line-unknown", "--along: There is no line 31"),
        ({**LINES, "along": "216.5 line 30"}, (), "length-unreadable", "--along"),
        (GOOD, ("--units", "ft"), "choice-unknown", "'ft'"),
        (GOOD, ("--reach-left", "300"), "margin-impossible", "--reach-left"),
        (GOOD, ("--reach-left", "25"), "reach-beyond-figures", "left edge of the sheet is 10"),
        (GOOD, ("--reach-bottom", "18"), "reach-beyond-figures", "edge of the sheet is 17"),
        (GOOD, ("--reach-top", "much"), "length-unreadable", "--reach-top"),
        (GOOD, ("--paper", "A99"), "paper-unknown", "--paper"),
        (GOOD, ("--paper", "A6"), "page-too-small", "too small"),
        (GOOD, ("--paper", "A3"), "reading-absurd", "of another paper"),
    ],
)
def test_what_cannot_be_is_refused_with_its_cause_and_nothing_is_kept(
    settings, readings, more, code, cause
):
    ran = run("calibrate", "Press", *options(readings), *more)
    assert ran.code == 2
    assert cause in ran.messages
    assert code in ran.messages
    assert not settings.exists()


@pytest.mark.parametrize("name", ["", "   ", "x" * 61, "bell\a", "two\nlines"])
def test_a_name_that_no_page_can_carry_is_refused(settings, name):
    assert run("calibrate", name, *options(GOOD)).code == 2
    assert run("calibrate", "Press", *options(GOOD, date=name)).code == 2
    assert not settings.exists()


def test_without_a_terminal_every_missing_reading_is_named():
    ran = run("calibrate", "Press", "--across", "150")
    assert ran.code == 2
    assert re.findall(r"--(\w+): This reading is missing", ran.messages) == [
        "along",
        "rising",
        "falling",
    ]


def test_at_a_terminal_what_is_missing_is_asked_for():
    """On a real terminal; a slip is asked for again, and only what was not given is asked."""
    inside, outside = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "joinery_templates", "calibrate", "Press", "--along", "215.136"],
        stdin=outside,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        env={**os.environ, "PYTHONPATH": str(TOP)},
    )
    os.write(inside, b"a hair\n150 line 99\n162.648\n270.1\n269.2985\n1 May\n")
    told = process.communicate(timeout=30)[0].decode()
    os.close(inside)
    os.close(outside)
    assert process.returncode == 0, told
    assert told.count("across, stated 162 mm") == 3
    assert "rising, stated 270 mm" in told
    assert "along, stated" not in told
    assert "across   prints 0.400 % too long" in told


def test_accuracy_is_told_for_a_rule_and_for_the_numbered_lines_with_what_would_tell_more():
    """By hand: 0.15 mm on 162 mm is 0.093 %, and so 0.23 mm on 250.

    Sideways it is 0.15 * 2 * 270 / (2 * 162 * 216) of 250 mm, 0.29 mm; by the lines a third.
    """
    told = run("calibrate", "Press", *options(GOOD)).text
    assert "good to 0.093 %" in told
    assert "over 250 mm a corrected line is then right to about 0.23 mm in its length" in told
    assert "0.29 mm in its direction" in told
    assert "the numbered lines of the sheet would tell more" in told
    lines = run("calibrate", "Press", *options(LINES)).text
    assert "good to 0.031 %" in lines
    assert "0.10 mm in its direction" in lines
    assert "tell more" not in lines
    small = {"across": "102", "along": "136", "rising": "162", "falling": "162"}
    small = {name: f"{whole} line 30" for name, whole in small.items()}
    told = run("calibrate", "Press", *options(small), "--paper", "A5").text
    assert "right to about 0.12 mm in its length" in told
    assert "a larger sheet would tell more" in told


@pytest.mark.parametrize(
    ("readings", "gains"),
    [
        ({"across": "162.1", "along": "215.9", "rising": "270", "falling": "270"}, False),
        ({"across": "162.1", "along": "215.9", "rising": "270.5", "falling": "269.5"}, True),
        (GOOD, True),
    ],
)
def test_an_error_within_the_doubt_of_the_reading_is_told_as_such(readings, gains):
    told = run("calibrate", "Press", *options(readings)).text
    assert ("gains nothing" in told) == (not gains)


def test_profiles_are_listed_and_one_is_replaced_by_its_name():
    assert "No printer profile" in run("calibrate", "--list").text
    kept(name="One")
    kept(name="Two")
    new = {**TRUE, "across": "162.324", "rising": "270.1945", "falling": "270.1945"}
    ran = run("calibrate", "One", *options(new))
    assert "Kept in place of the one of that name." in ran.messages
    assert "Kept. Draw" in run("calibrate", "Third", *options(new)).messages
    listed = json.loads(run("calibrate", "--list", "--json").text)
    assert [one["name"] for one in listed] == ["One", "Two", "Third"]
    assert listed[0]["scale_across"] == pytest.approx(1.002, abs=1e-5)
    told = run("calibrate", "--list").text
    assert "One, on A4, measured 1 May" in told
    assert "Two, on A4, measured 1 May" in told


ODD = ['a"b\\c', "laser [2]", "x = 1 # no", "Büro ✂ Ж", "per.dotted.name", "'", "1", "true", "-"]


@pytest.mark.parametrize("name", ODD)
def test_names_with_odd_letters_are_kept_and_drawn_with(tmp_path, settings, name):
    kept(name="plain")
    kept(name=name)
    assert set(tomllib.loads(settings.read_text(encoding="utf-8"))) == {"plain", name}
    (tmp_path / "job.toml").write_text(SMALL_JOB, encoding="utf-8")
    ran = run("draw", tmp_path / "job.toml", "--printer", name, "-o", tmp_path / "out.pdf")
    assert ran.code == 0, ran.messages


DAMAGED = [
    "[Press\n",
    "Press = 3\n",
    "[Press]\nacross = '1 mm'\n",
    "\xff\xfe",
    "[[Press]]\n",
    "[" * 5000,
]


@pytest.mark.parametrize("text", DAMAGED)
def test_a_damaged_file_of_profiles_is_told_and_left_as_it_is(settings, text):
    settings.parent.mkdir(parents=True)
    settings.write_bytes(text.encode("latin-1"))
    for words in (["--list"], ["New", *options(GOOD)]):
        ran = run("calibrate", *words)
        assert ran.code in (1, 2)
        assert "settings-unreadable" in ran.messages
    assert run("draw", SAMPLE, "--printer", "Press", "-o", "-").code in (1, 2)
    assert settings.read_bytes() == text.encode("latin-1")


@pytest.mark.parametrize(
    "change",
    [
        ('across = "20331/125 mm"', 'across = "200 mm"'),
        ('stated_along = "216/1 mm"', 'stated_along = "0 mm"'),
        ('rising = "2701/10 mm"', 'rising = "240 mm"'),
        ('left = "4/1 mm"', 'left = "400 mm"'),
    ],
)
def test_absurd_figures_in_the_file_are_damage_too(settings, change):
    kept("--reach-left", "4")
    text = settings.read_text(encoding="utf-8")
    assert change[0] in text
    settings.write_text(text.replace(*change), encoding="utf-8")
    ran = run("calibrate", "--list")
    assert ran.code == 2
    assert "settings-unreadable" in ran.messages


def test_remarks_in_the_file_of_profiles_stay(settings):
    kept(name="One")
    with settings.open("a", encoding="utf-8") as file:
        file.write("# the one by the window\n")
    kept(name="Two")
    assert "# the one by the window" in settings.read_text(encoding="utf-8")


def test_an_unknown_printer_is_told_with_those_that_are_known():
    kept(name="Press")
    ran = run("draw", SAMPLE, "--printer", "press", "-o", "-")
    assert ran.code == 2
    assert '"Press"' in ran.messages


def left_edge(path: Path) -> float:
    """Where the title block starts, in mm: its words stand 1.5 mm past the margin."""
    return min(words.at[0] for words in read_pages(path.read_bytes())[0].words)


@pytest.mark.parametrize(
    ("margin", "stands"),
    [("", 5.7), ('[paper]\nsize = "A4"\n', 5.7), ("[paper]\nmargin = 12\n", 13.5)],
)
def test_the_printers_reach_is_the_margin_where_the_job_names_none(tmp_path, margin, stands):
    """A true printer, so that the page is not moved."""
    figures = kept("--reach-left", "4.2", "--reach-bottom", "21/2", readings=TRUE)
    assert figures["margins_mm"] == {"left": 4.2, "bottom": 10.5}
    job, out = tmp_path / "job.toml", tmp_path / "out.pdf"
    job.write_text(SMALL_JOB.replace("[boards.", margin + "[boards.", 1), encoding="utf-8")
    assert run("draw", job, "--printer", "Press", "-o", out).code == 0
    assert left_edge(out) == pytest.approx(stands, abs=0.01)


def test_a_sheet_for_a_roll_is_cut_square(tmp_path):
    assert run("calibrate", "--paper", "roll 610 mm", "-o", tmp_path / "roll.pdf").code == 0
    (page,) = read_pages((tmp_path / "roll.pdf").read_bytes())
    assert (page.width_pt, page.height_pt) == (1729, 1729)


def test_where_settings_cannot_be_kept_it_is_told(tmp_path):
    (tmp_path / "file").write_text("", encoding="utf-8")
    with mock.patch.dict(os.environ, {"XDG_CONFIG_HOME": str(tmp_path / "file")}):
        ran = run("calibrate", "Press", *options(GOOD))
    assert ran.code == 1
    assert "cannot" in ran.messages
    assert "Traceback" not in ran.messages


def test_printers_that_are_calibrated_at_the_same_time_are_all_kept(settings):
    names = [f"Press {number}" for number in range(6)]
    words = [sys.executable, "-m", "joinery_templates", "calibrate"]
    environment = {**os.environ, "PYTHONPATH": str(TOP)}
    runs = [
        subprocess.Popen(
            [*words, name, *options(GOOD)], env=environment, stdout=subprocess.DEVNULL, stderr=-3
        )
        for name in names
    ]
    assert [one.wait(60) for one in runs] == [0] * 6
    assert set(tomllib.loads(settings.read_text())) == set(names)


@pytest.mark.parametrize(
    "damage", [b"\xff\xfe", b"[Press\n", b"[Press]\nacross = 1\n", b"Press = 3\n"]
)
def test_every_damage_to_the_profiles_is_told_alike_and_hinders_only_who_asks_for_one(
    settings, damage
):
    settings.parent.mkdir(parents=True)
    settings.write_bytes(damage)
    for words in (
        ("calibrate", "--list"),
        ("calibrate", "Press", *options(GOOD)),
        ("draw", SAMPLE, "-o", "-", "--printer", "Press"),
    ):
        ran = run(*words)
        assert ran.code == 2
        assert "settings-unreadable" in ran.messages.splitlines()[-1]
        assert str(settings) in ran.messages
    assert settings.read_bytes() == damage
    assert run("draw", SAMPLE, "-o", "-").code == 0


def test_a_name_that_would_move_the_cursor_is_shown_and_not_sent(settings):
    settings.parent.mkdir(parents=True)
    kept()
    text = settings.read_text().replace("[Press]", '["Pr\\u001b[31mess"]')
    settings.write_text(text)
    ran = run("calibrate", "--list")
    assert ran.code == 0
    assert "\x1b" not in ran.text
    assert "Pr\\x1b[31mess" in ran.text
    for words in (("draw", SAMPLE, "--printer", "\x1b[31m"), ("draw", "\x1b]0;x\a.toml")):
        ran = run(*words)
        assert ran.code == 2
        assert "\x1b" not in ran.messages
