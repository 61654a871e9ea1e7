"""What is written: whole or not at all, and told plainly where it cannot be."""

import errno
import os
import resource
import signal
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from joinery_templates.cli.files import _held_part, is_own_pdf, write_result
from joinery_templates.errors import MachineError
from tests.cli.command_line import SAMPLE, TOP, run, run_apart
from tests.jobs.job_texts import small_job

ONE_JOINT = small_job(joint_corners="'A'").encode()
AS_ROOT = os.geteuid() == 0
OLD_PDF = b"%PDF-1.7 old /Creator (joinery-templates)"
"""Enough to be known as a PDF of this program's."""


@pytest.mark.parametrize(
    "words",
    [
        ("draw", SAMPLE),
        ("quick", "through-dovetail", "--width", "90", "--thickness", "12"),
        ("new",),
        ("schema",),
    ],
    ids=lambda words: words[0],
)
def test_a_folder_that_does_not_exist_is_told_and_not_made(
    words: tuple[object, ...], tmp_path: Path
) -> None:
    for output in (tmp_path / "missing" / "x.out", tmp_path):
        ran = run(*words, "-o", output)
        assert ran.code == 2
        assert "Traceback" not in ran.messages
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(AS_ROOT, reason="root may write everywhere")
def test_a_read_only_folder_is_told(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    try:
        ran = run("draw", SAMPLE, "-o", tmp_path / "x.pdf")
    finally:
        tmp_path.chmod(0o700)
    assert ran.code == 1
    assert "Permission denied" in ran.messages
    assert list(tmp_path.iterdir()) == []


def test_a_file_system_that_takes_no_files_is_told() -> None:
    ran = run("new", "-o", "/proc/new.toml")
    assert ran.code == 1
    assert "This cannot be written" in ran.messages


def test_a_full_device_is_told_with_exit_code_1() -> None:
    ran = run("draw", SAMPLE, "-o", "/dev/full")
    assert ran.code == 1
    assert "No space left on device" in ran.messages


@pytest.mark.parametrize(
    "words",
    [
        ("draw", SAMPLE, "-o", "-"),
        ("check", SAMPLE),
        ("schema",),
    ],
    ids=lambda words: words[0],
)
def test_a_full_device_behind_standard_output_is_told_in_one_line(
    words: tuple[object, ...],
) -> None:
    command = [sys.executable, "-m", "joinery_templates", *map(str, words)]
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            command,
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
            timeout=60,
            env={**os.environ, "PYTHONPATH": str(TOP)},
        )
    assert done.returncode == 1
    (line,) = [row for row in done.stderr.decode().splitlines() if not row.startswith("ADVICE")]
    assert "No space left on device" in line


def test_a_disk_that_fills_up_leaves_the_old_file_and_no_part_of_the_new(tmp_path: Path) -> None:
    """The process may write files of 5,000 bytes at most: the system refuses the rest."""
    pdf = tmp_path / "x.pdf"
    pdf.write_bytes(OLD_PDF)

    def limit() -> None:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (5_000, 5_000))

    ran = run_apart("draw", SAMPLE, "-o", pdf, preexec_fn=limit)
    assert ran.code == 1
    assert "This cannot be written: File too large. An older file" in ran.messages
    assert pdf.read_bytes() == OLD_PDF
    assert list(tmp_path.iterdir()) == [pdf]


@pytest.mark.parametrize("at", ["os.fsync", "os.fdopen"])
@pytest.mark.parametrize("failure", [KeyboardInterrupt, OSError(errno.ENOSPC, "No space left")])
def test_a_write_that_is_broken_off_leaves_the_old_file_as_it_was(
    at: str, failure: BaseException, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "x.pdf"
    target.write_bytes(b"old")

    def fail(*_: object) -> None:
        raise failure

    with monkeypatch.context() as patched:
        patched.setattr(at, fail)
        with pytest.raises((KeyboardInterrupt, MachineError)):
            write_result(str(target), b"new", is_own=lambda old: old == b"old")
    assert target.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [target]


def test_a_run_that_is_interrupted_ends_quietly_and_writes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    pdf = tmp_path / "x.pdf"
    pdf.write_bytes(OLD_PDF)
    monkeypatch.setattr("joinery_templates.cli.draw.pdf_of", interrupted)
    ran = run("draw", SAMPLE, "-o", pdf)
    assert ran.code == 130
    assert "Traceback" not in ran.messages
    assert pdf.read_bytes() == OLD_PDF


def test_a_file_keeps_its_rights_and_a_new_one_gets_the_usual(tmp_path: Path) -> None:
    old, new = tmp_path / "old", tmp_path / "new"
    old.write_bytes(b"old")
    old.chmod(0o640)
    before = os.umask(0o027)
    try:
        write_result(str(old), b"1", is_own=lambda content: content == b"old")
        write_result(str(new), b"2", is_own_pdf)
    finally:
        os.umask(before)
    assert [stat.S_IMODE(path.stat().st_mode) for path in (old, new)] == [0o640, 0o640]
    assert (old.read_bytes(), new.read_bytes()) == (b"1", b"2")


def test_a_link_stays_a_link_and_its_file_is_written(tmp_path: Path) -> None:
    (tmp_path / "real.pdf").write_bytes(OLD_PDF)
    (tmp_path / "link.pdf").symlink_to("real.pdf")
    assert run("draw", SAMPLE, "-o", tmp_path / "link.pdf").code == 0
    assert (tmp_path / "link.pdf").is_symlink()
    assert len((tmp_path / "real.pdf").read_bytes()) > 10_000


@pytest.mark.parametrize(
    "name", ["übung 1.pdf", "日本.pdf", "🪵.pdf", "-x.pdf", "a" * 240 + ".pdf"]
)
def test_odd_names_of_files_are_written(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("draw", SAMPLE, f"--output={name}").code == 0
    assert [path.name for path in tmp_path.iterdir()] == [name]


def test_the_same_job_gives_the_same_bytes_by_file_pipe_and_pdf(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_bytes(ONE_JOINT)
    first = run("draw", tmp_path / "job.toml", "-o", "-").output
    piped = run("draw", "-", given=ONE_JOINT).output
    from_pdf = run("draw", "-", "-o", "-", given=first).output
    apart = run_apart("draw", "-", given=ONE_JOINT).output
    assert first == piped == from_pdf == apart


def test_a_reader_that_goes_away_is_no_failure_of_the_program() -> None:
    command = [sys.executable, "-m", "joinery_templates", "papers"]
    with subprocess.Popen(
        command,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(TOP)},
    ) as process:
        assert process.stdout is not None
        process.stdout.close()
        assert process.stderr is not None
        assert process.stderr.read() == b""


@pytest.mark.parametrize("encoding", ["ascii", "cp1252"])
def test_signs_that_a_console_lacks_stop_nothing(encoding: str) -> None:
    ran = run_apart("papers", env={"PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"})
    assert (ran.code, ran.messages) == (0, "")


KILLED_MID_WAY = """
import os, sys
sys.path.insert(0, {top!r})
from pathlib import Path
from joinery_templates.cli.files import _held_part, is_own_pdf, write_result
os.fsync = lambda handle: os.kill(os.getpid(), 9)
write_result({target!r}, b"new", is_own_pdf)
"""


def test_what_a_killed_run_leaves_is_swept_away_by_the_next(tmp_path: Path) -> None:
    target = tmp_path / "x.pdf"
    target.write_bytes(OLD_PDF)
    bystanders = [tmp_path / ".x.pdf.part", tmp_path / ".y.pdf.joinery-templates-abc.part"]
    for path in bystanders:
        path.touch()
    for _ in range(3):
        code = KILLED_MID_WAY.format(top=str(TOP), target=str(target))
        assert subprocess.run([sys.executable, "-c", code], check=False).returncode == -9
    assert target.read_bytes() == OLD_PDF
    assert len(list(tmp_path.iterdir())) == 4  # the last one's part
    assert run("draw", SAMPLE, "-o", target).code == 0
    assert set(tmp_path.iterdir()) == {target, *bystanders}


def test_a_part_that_another_run_is_writing_is_not_swept_away(tmp_path: Path) -> None:
    handle, part = _held_part(tmp_path, ".x.pdf.joinery-templates-")
    try:
        assert run("draw", SAMPLE, "-o", tmp_path / "x.pdf").code == 0
        assert part.exists()
    finally:
        os.close(handle)
    assert run("draw", SAMPLE, "-o", tmp_path / "x.pdf").code == 0
    assert not part.exists()


@pytest.mark.skipif(AS_ROOT, reason="root may look everywhere")
def test_a_folder_that_may_not_be_looked_into_is_named(tmp_path: Path) -> None:
    (tmp_path / "shut").mkdir(mode=0)
    ran = run("new", "-o", tmp_path / "shut" / "x.toml")
    assert ran.code == 1
    assert "x.toml: This cannot be written: Permission denied" in ran.messages
