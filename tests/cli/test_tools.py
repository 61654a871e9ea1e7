"""`tools`: what is kept, where it counts, and that a PDF says all that it was drawn with."""

import json
import os
import tomllib
from pathlib import Path
from unittest import mock

import pytest
from pypdf import PdfReader

from tests.cli.command_line import SAMPLE, run

JOB = """\
# mine
[boards.side]
width = 90
thickness = 12
[[joints]]
kind = "through-dovetail"
tail_board = "side"
pin_board = "side"
tails = 3
pin = 4
half_pin = 6
tails_proud = 0.3
"""
"""Tails of (90 - 12 - 8) / 3 = 23.33 at 1:7: sockets of 19.82 at the baseline, spaces of 4."""


@pytest.fixture(autouse=True)
def kept(tmp_path):
    """The file of tools, in a folder that is thrown away."""
    with mock.patch.dict(os.environ, {"XDG_CONFIG_HOME": str(tmp_path / "settings")}):
        yield tmp_path / "settings" / "joinery-templates" / "tools.toml"


@pytest.fixture
def job(tmp_path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB, encoding="utf-8")
    return path


def keep(*options: object) -> str:
    ran = run("tools", *options)
    assert ran.code == 0, ran.messages
    return ran.text


def chisels_for(job: Path) -> list[object]:
    """What clears the spaces and the sockets, in mm."""
    (joint,) = json.loads(run("check", job, "--json").text)["joints"]
    return [c["chisel"] and c["chisel"]["mm"] for c in joint["clearings"]]


def attached(pdf: Path) -> dict:
    (content,) = PdfReader(pdf).attachments["job.toml"]
    return tomllib.loads(content.decode())


# Keeping


def test_at_first_nothing_is_kept_and_it_says_where_it_would_be(kept):
    told = keep()
    assert "No tools are kept yet" in told
    assert str(kept) in told
    assert not kept.exists()


def test_what_is_kept_is_shown_and_stands_in_the_file_with_its_units(kept):
    keep("--chisels", "3, 6, 10 mm", "--kerf", "0.5mm", "--gauge", '1/64"', "--kerf-shown")
    assert tomllib.loads(kept.read_text(encoding="utf-8")) == {
        "tools": {
            "chisels": ["3 mm", "6 mm", "10 mm"],
            "kerf": "0.5 mm",
            "gauge": "1/64 in",
            "kerf_shown": True,
        }
    }
    told = keep()
    assert "3 mm, 6 mm, 10 mm" in told
    assert "1/64 in" in told
    figures = json.loads(keep("--json"))
    assert figures["chisels_mm"] == [3, 6, 10]
    assert figures["gauge_mm"] == 25.4 / 64
    assert figures["file"] == str(kept)


@pytest.mark.parametrize(
    ("words", "more", "widths"),
    [
        ("3, 6, 10", (), [3, 6, 10]),
        ("1/8,1/4, 1/2 in", (), [3.175, 6.35, 12.7]),
        ("1/8, 1/4", ("--units", "in"), [3.175, 6.35]),
        ('3, 1/4", 12', (), [3, 6.35, 12]),
        ("6", (), [6]),
    ],
)
def test_widths_are_read_as_a_joiner_writes_them(words, more, widths):
    """A unit at the very end is that of all; else a bare number is in --units."""
    assert json.loads(keep("--chisels", words, "--json", *more))["chisels_mm"] == widths


def test_one_is_replaced_or_taken_out_and_the_rest_stays(kept):
    keep("--chisels", "3, 6", "--kerf", "0.5", "--smallest-pin", "2")
    with kept.open("a", encoding="utf-8") as file:
        file.write("# the old saw\n")
    keep("--kerf", "0.6", "--smallest-pin", "none")
    text = kept.read_text(encoding="utf-8")
    assert "# the old saw" in text
    assert tomllib.loads(text) == {"tools": {"chisels": ["3 mm", "6 mm"], "kerf": "0.6 mm"}}


@pytest.mark.parametrize(
    ("options", "place", "code"),
    [
        (("--chisels", "3, wide"), "--chisels", "length-unreadable"),
        (("--chisels", ""), "--chisels", "length-unreadable"),
        (("--chisels", "0, 3"), "--chisels", "out-of-limits"),
        (("--chisels", "3, 6, 1/4 in"), "--chisels", "out-of-limits"),
        (("--chisels", ",".join("3" * 101)), "--chisels", "too-many"),
        (("--kerf", "0.5in"), "--kerf", "out-of-limits"),
        (("--gauge", "-1"), "--gauge", "out-of-limits"),
        (("--gauge", "10.1"), "--gauge", "out-of-limits"),
        (("--smallest-pin", "thin"), "--smallest-pin", "length-unreadable"),
        (("--kerf", "1", "--units", "ft"), "--units", "choice-unknown"),
    ],
)
def test_what_cannot_be_meant_is_refused_at_its_option_and_nothing_is_kept(
    kept, options, place, code
):
    keep("--kerf", "0.4")
    before = kept.read_bytes()
    ran = run("tools", *options)
    assert ran.code == 2
    assert place in ran.messages
    assert code in ran.messages
    assert kept.read_bytes() == before
    assert {path.name for path in kept.parent.iterdir()} == {kept.name, "tools.lock"}


DAMAGED = {
    "no TOML": "[tools\n",
    "unknown name": "[tools]\nchisel = 3\n",
    "no table": "tools = 3\n",
    "no length": "[tools]\nkerf = 'thin'\n",
    "no units": "units = 'ft'\n",
    "a stranger": "[boards.side]\n",
    "not text": "\xff\xfe",
    "yes": "[tools]\nkerf_shown = 'yes'\n",
    "deep": "[" * 5000,
}


@pytest.mark.parametrize("text", DAMAGED.values(), ids=DAMAGED)
def test_a_damaged_file_is_told_of_once_and_left_as_it_is(kept, job, text):
    kept.parent.mkdir(parents=True)
    kept.write_bytes(text.encode("latin-1"))
    quick = ("quick", "box-joint", "--width", "84", "--thickness", "12", "-o", "-")
    for words in (("tools",), ("tools", "--kerf", "1"), ("check", job), ("draw", job), quick):
        ran = run(*words)
        assert ran.code == 2
        assert ran.messages.count("ERROR") == 1
        assert "settings-unreadable" in ran.messages
        assert str(kept) in ran.messages
    assert kept.read_bytes() == text.encode("latin-1")


def test_where_tools_cannot_be_kept_it_is_told(tmp_path):
    (tmp_path / "file").write_text("", encoding="utf-8")
    with mock.patch.dict(os.environ, {"XDG_CONFIG_HOME": str(tmp_path / "file")}):
        ran = run("tools", "--kerf", "0.5")
    assert ran.code == 1
    assert "cannot" in ran.messages
    assert "Traceback" not in ran.messages


# Where they count


def test_a_job_without_tools_is_checked_against_those_that_are_kept(job):
    assert chisels_for(job) == [None, None]
    keep("--chisels", "3, 6, 18, 20 mm")
    assert chisels_for(job) == [3, 18]
    ran = run("check", job)
    assert "chisel of 18 mm" in ran.text
    assert "Your own tools counted: chisels." in ran.messages


def test_numbers_in_the_file_are_in_its_own_units_and_not_in_the_jobs(kept, job):
    kept.parent.mkdir(parents=True)
    kept.write_text('units = "in"\n[tools]\nchisels = [0.125, 0.5]\n', encoding="utf-8")
    assert chisels_for(job) == [3.175, 12.7]


@pytest.mark.parametrize(
    ("own", "chisels", "advice"),
    [
        ("", [3, 12], True),
        ("[tools]\nchisels = [4]\n", [4, 4], True),
        ("[tools]\nkerf = 0.5\n", [3, 12], False),
        ("[tools]\nchisels = []\nkerf = 0.5\n", [None, None], False),
        ("tools = { chisels = [4] }\n", [4, 4], True),
    ],
)
def test_the_jobs_own_tools_count_first_name_by_name(job, own, chisels, advice):
    """A kept kerf of 2.1 makes two cuts too wide for a space of 4; one of 0.5 does not."""
    keep("--chisels", "3, 12", "--kerf", "2.1")
    job.write_text(own + JOB, encoding="utf-8")
    assert chisels_for(job) == chisels
    assert ("space-below-two-cuts" in run("check", job).messages) == advice


def test_draw_check_and_quick_give_the_same_advice(tmp_path, job):
    keep("--chisels", "5", "--gauge", "0.5")
    options = ("--width", "90", "--thickness", "12", "--tails", "3", "--pin", "4")
    quick = ("quick", "through-dovetail", *options, "--half-pin", "6", "--tails-proud", "0.3")
    for words in (("draw", job), quick, ("check", job)):
        more = () if words[0] == "check" else ("-o", tmp_path / "out.pdf")
        told = run(*words, *more).messages
        assert "no-chisel-fits" in told
        assert "gauge-between-steps" in told
        assert "12.3 mm (nearest 12.5 mm)" in told


def test_a_mistake_in_the_job_is_told_at_its_own_line(job):
    keep("--chisels", "5")
    job.write_text(JOB.replace("pin = 4", 'pin = "four"', 1), encoding="utf-8")
    ran = run("check", job)
    assert ran.code == 2
    assert "line 10: joint 1, pin" in ran.messages


# The same job, the same bytes


def test_a_pdf_states_what_was_kept_and_is_drawn_again_the_same_anywhere(tmp_path, kept, job):
    first, again = tmp_path / "first.pdf", tmp_path / "again.pdf"
    keep("--chisels", "1/8, 1/2 in", "--kerf", "0.5", "--gauge", "1/3 mm")
    assert run("draw", job, "-o", first).code == 0
    assert attached(first)["tools"] == {
        "chisels": ["1/8 in", "1/2 in"],
        "kerf": "0.5 mm",
        "gauge": "1/3 mm",
    }
    for other in (("--kerf", "0.9", "--smallest-pin", "9"), ("--chisels", "none")):
        keep(*other)
        assert run("draw", first, "-o", again).code == 0
        assert again.read_bytes() == first.read_bytes()
    kept.unlink()
    assert run("draw", first, "-o", again).code == 0
    assert again.read_bytes() == first.read_bytes()
    assert run("measure", first).code == 0


def test_a_pdf_drawn_without_tools_stays_without(tmp_path, job):
    first, again = tmp_path / "first.pdf", tmp_path / "again.pdf"
    assert run("draw", job, "-o", first).code == 0
    keep("--chisels", "5")
    ran = run("draw", first, "-o", again)
    assert again.read_bytes() == first.read_bytes()
    assert "no-chisel-fits" not in ran.messages


def test_a_job_that_names_all_its_tools_keeps_its_own_text(tmp_path, job):
    keep("--chisels", "5", "--kerf", "0.5")
    text = f"[tools]\nchisels = [3]  # the good one\nkerf = 0.4\n\n{JOB}"
    job.write_text(text, encoding="utf-8")
    run("draw", job, "-o", tmp_path / "out.pdf")
    (content,) = PdfReader(tmp_path / "out.pdf").attachments["job.toml"]
    assert content.decode() == text


# On request


def test_the_kerf_can_be_shown_only_where_it_is_known(job):
    job.write_text(f"[tools]\nkerf_shown = true\n\n{JOB}", encoding="utf-8")
    ran = run("check", job)
    assert ran.code == 2
    assert "line 2: tools.kerf_shown" in ran.messages
    assert "kerf-unknown" in ran.messages
    keep("--kerf", "0.5")
    assert run("check", job).code == 0


def test_a_saw_cut_is_not_to_be_shown_before_its_width_is_known(kept):
    ran = run("tools", "--kerf-shown")
    assert ran.code == 2
    assert "--kerf-shown: The saw cut cannot be shown" in ran.messages
    assert not kept.exists()
    keep("--kerf", "0.5", "--kerf-shown")
    before = kept.read_bytes()
    assert run("tools", "--kerf", "none").code == 2
    assert kept.read_bytes() == before
    keep("--kerf", "none", "--no-kerf-shown")


def test_a_file_that_asks_for_it_all_the_same_is_named_and_can_be_mended(kept):
    kept.parent.mkdir(parents=True, exist_ok=True)
    kept.write_text("[tools]\nkerf_shown = true\n")
    ran = run("draw", SAMPLE, "-o", "-")
    assert (ran.code, ran.output) == (2, b"")
    assert str(kept) in ran.messages
    keep("--kerf", "0.5")
    assert run("draw", SAMPLE, "-o", "-").code == 0
