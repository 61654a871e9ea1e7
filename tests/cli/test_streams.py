"""Standard streams that are shut or full: codes tell the truth, and nothing else changes."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.command_line import SAMPLE, TOP, run
from tests.jobs.job_texts import small_job

JOB = small_job(joint_corners="'A'")
GOOD = "--across 162.6 --along 215.1 --rising 270.1 --falling 269.3 --date May"
NOISE = (b"Traceback", b"Exception ignored", b"the program itself")


@pytest.fixture
def shell(tmp_path: Path):
    """Runs a line of shell in a folder of its own, in which `$it` starts the program."""
    (tmp_path / "job.toml").write_text(JOB)
    (tmp_path / "bad.toml").write_text("x = 1\n")

    def run_line(line: str) -> subprocess.CompletedProcess[bytes]:
        environment = {**os.environ, "PYTHONPATH": str(TOP), "HOME": str(tmp_path / "home")}
        environment.pop("XDG_CONFIG_HOME", None)
        environment["it"] = f"{sys.executable} -m joinery_templates"
        done = subprocess.run(
            ["bash", "-c", line],
            capture_output=True,
            env=environment,
            cwd=tmp_path,
            timeout=60,
            check=False,
            stdin=subprocess.DEVNULL,
        )
        assert not any(noise in done.stdout + done.stderr for noise in NOISE), done
        return done

    return run_line


@pytest.mark.parametrize(
    ("words", "code", "silences"),
    [
        ("draw job.toml", 0, ["2>&-"]),
        (f"calibrate Press {GOOD}", 0, ["2>/dev/full"]),
        ("check job.toml", 0, ["2>/dev/full"]),
        ("draw bad.toml", 2, ["2>/dev/full"]),
        ("nonsense", 2, ["2>&-"]),
        ("check job.toml > /dev/full", 1, ["2>&-", "2>/dev/full"]),
    ],
)
def test_messages_that_cannot_be_told_change_neither_the_work_nor_the_code(
    words: str, code: int, silences: list[str], shell, tmp_path: Path, monkeypatch
) -> None:
    def left() -> dict[str, bytes]:
        files = (path for path in tmp_path.rglob("*") if path.is_file())
        return {str(path.relative_to(tmp_path)): path.read_bytes() for path in files}

    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "home" / ".config"))
    command, lost, _ = words.partition(" > ")
    heard = run(*command.split())
    with_messages = left()
    for silent in silences:
        for name in with_messages.keys() - {"job.toml", "bad.toml"}:
            (tmp_path / name).unlink()
        unheard = shell(f"$it {words} {silent}")
        assert unheard.returncode == code
        assert unheard.stdout == (b"" if lost else heard.output)
        assert lost or heard.code == code
        assert left() == with_messages


@pytest.mark.parametrize(
    ("words", "lost"),
    [
        ("check job.toml", ">&-"),
        ("check job.toml --json", "> /dev/full"),
        ("new -o -", "> /dev/full"),
        ("draw job.toml -o -", ">&-"),
        ("draw job.toml -o -", "> /dev/full"),
        ("--help", ">&-"),
        ("--version", "> /dev/full"),
    ],
)
def test_a_result_that_cannot_be_delivered_is_told_with_code_1(
    words: str, lost: str, shell
) -> None:
    done = shell(f"$it {words} {lost}")
    assert done.returncode == 1
    (line,) = [row for row in done.stderr.splitlines() if b"cannot be written" in row]
    assert b"it is shut" in line or b"No space left" in line


def test_measure_says_so_too(shell, tmp_path: Path) -> None:
    (tmp_path / "x.pdf").write_bytes(run("draw", "-", given=JOB.encode()).output)
    assert run("measure", tmp_path / "x.pdf").code == 0
    done = shell("$it measure x.pdf > /dev/full")
    assert done.returncode == 1
    assert b"cannot be written" in done.stderr


def test_a_profile_that_cannot_be_shown_is_not_kept(shell, tmp_path: Path) -> None:
    assert shell(f"$it calibrate Press {GOOD} > /dev/full").returncode == 1
    assert list(tmp_path.rglob("printers.toml")) == []


def test_what_prints_nothing_does_not_mind_a_shut_standard_output(shell, tmp_path: Path) -> None:
    assert shell("$it draw job.toml >&-").returncode == 0
    assert (tmp_path / "job.pdf").read_bytes().endswith(b"%%EOF\n")
    assert shell("$it draw job.toml -o all.pdf <&- >&- 2>&-").returncode == 0
    assert (tmp_path / "all.pdf").read_bytes() == (tmp_path / "job.pdf").read_bytes()


def test_a_shut_standard_input_is_an_empty_job(shell) -> None:
    done = shell("$it check - <&-")
    assert done.returncode == 2
    assert b"The job file is empty" in done.stderr


def test_a_reader_that_leaves_early_is_not_complained_of(shell) -> None:
    done = shell(f"$it check {SAMPLE} | true")
    assert (done.returncode, done.stderr) == (0, b"")


def test_json_is_the_same_in_every_locale(shell, tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(JOB.replace("Test", "Übung ≈ 箱\u200e"))
    plain = shell("PYTHONUTF8=1 $it check job.toml --json")
    assert plain.stdout.decode("ascii")
    other = shell("PYTHONUTF8=0 PYTHONIOENCODING=ascii $it check job.toml --json")
    assert other.stdout == plain.stdout
