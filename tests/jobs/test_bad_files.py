"""Whole files that cannot be drawn, through the command line; lines and words by hand."""

from pathlib import Path

import pytest

from tests.cli.command_line import run, run_apart
from tests.jobs.bad_files import BOARDS, JOINT, NOT_A_JOB, NOT_TEXT, NOT_TOML
from tests.jobs.test_bad_values import drawn

TEXTS = {**NOT_TOML, **NOT_A_JOB}


@pytest.mark.parametrize("name", NOT_TEXT)
def test_what_is_no_text_is_refused(name: str, tmp_path: Path) -> None:
    content, words = NOT_TEXT[name]
    messages = drawn(content, tmp_path).messages
    for word in words:
        assert word in messages


@pytest.mark.parametrize("name", TEXTS)
def test_a_text_that_is_no_job_is_refused_with_its_line_and_a_remedy(
    name: str, tmp_path: Path
) -> None:
    text, words = TEXTS[name]
    messages = drawn(text.encode(), tmp_path).messages
    for word in words:
        assert word in messages


@pytest.mark.parametrize("name", ["zeros", "190 kB of lines"])
def test_what_is_no_text_is_refused_by_a_process_of_its_own(name: str, tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_bytes(NOT_TEXT[name][0])
    ran = run_apart("draw", job, cwd=tmp_path)
    assert (ran.code, ran.output) == (2, b"")
    assert "Traceback" not in ran.messages
    assert list(tmp_path.iterdir()) == [job]


@pytest.mark.parametrize("name", ["deep brackets", "name of 90,000 parts", "5,000 digits"])
def test_a_text_that_is_no_job_is_refused_by_a_process_of_its_own(
    name: str, tmp_path: Path
) -> None:
    ran = run_apart("draw", "-", "-o", "x.pdf", given=TEXTS[name][0].encode(), cwd=tmp_path)
    assert (ran.code, ran.output) == (2, b"")
    assert "Traceback" not in ran.messages
    assert list(tmp_path.iterdir()) == []


def test_seven_independent_mistakes_give_seven_messages(tmp_path: Path) -> None:
    text = (
        'titel = "Box"\n'  # 1: no such name
        "[paper]\n"
        'size = "A44"\n'  # 3: no such paper
        "[tools]\n"
        "kerf = -0.6\n"  # 5: below 0
        "[boards.a]\n"
        'width = "9,5 cm"\n'  # 7: decimal comma
        "thickness = 12\n"
        "[boards.b]\n"  # 9: no thickness
        "width = 90\n"
        "thicknes = 12\n"  # 11: no such name
        '[[joints]]\nkind = "through-dovetail"\ntail_board = "b"\npin_board = "c"\n'  # 15: no board
    )
    messages = drawn(text.encode(), tmp_path).messages.splitlines()
    starts = [line.removeprefix("ERROR: ").split(":")[0] for line in messages]
    assert starts == ["line 1", "line 3", "line 5", "line 7", "line 9", "line 11", "line 15"]
    assert 'Write a point and not a decimal comma: "9.5 cm".' in messages[3]


def test_mistakes_are_told_in_the_order_of_the_file(tmp_path: Path) -> None:
    text = "zz = 1\n" + JOINT + "tails = 'x'\nslope = '1/6'\n" + BOARDS.replace("90", "0")
    starts = [line.split(":")[1] for line in drawn(text.encode(), tmp_path).messages.splitlines()]
    assert starts == [" line 1", " line 6", " line 7", " line 9"]


def test_a_placed_message_reads_as_a_sentence(tmp_path: Path) -> None:
    messages = drawn((BOARDS + JOINT + "slope = '1/6'\n").encode(), tmp_path).messages
    assert messages == (
        "ERROR: line 8: joint 1, slope: '1/6' is not a slope. "
        'Write a ratio such as "1:6" or an angle such as "9.5 deg". (slope-unreadable)\n'
    )


def test_a_good_file_beside_all_these_bad_ones_is_drawn(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(BOARDS + JOINT, encoding="utf-8")
    assert run("check", job).code == 0
