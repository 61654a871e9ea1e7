"""Nothing is written over that was not meant, and what is no file is written through."""

import os
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from tests.cli.command_line import SAMPLE, TOP, run
from tests.jobs.job_texts import small_job

JOB = small_job(joint_corners="'A'").encode()
QUICK = ("quick", "through-dovetail", "--width", "90", "--thickness", "12")
WRITERS = {
    "draw": ("draw", SAMPLE),
    "quick": QUICK,
    "calibrate": ("calibrate",),
    "schema": ("schema",),
    "new": ("new",),
}


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize("words", WRITERS.values(), ids=WRITERS)
def test_a_file_that_the_program_did_not_write_is_replaced_only_by_force(
    words: tuple[object, ...],
) -> None:
    for name, content in {"other.toml": JOB, "other.pdf": b"%PDF-1.7\nsomebody's"}.items():
        Path(name).write_bytes(content)
        ran = run(*words, "-o", name)
        assert (ran.code, ran.output) == (2, b"")
        assert f"{name}: Another file stands there" in ran.messages
        assert "--force" in ran.messages
        assert Path(name).read_bytes() == content
        assert run(*words, "-o", name, "--force").code == 0
        assert Path(name).read_bytes() != content


@pytest.mark.parametrize("command", ["draw", "quick", "calibrate", "schema"])
def test_what_the_program_wrote_itself_and_an_empty_file_are_replaced(command: str) -> None:
    words = WRITERS[command]
    Path("empty").touch()
    for name in ("new", "new", "empty"):
        assert run(*words, "-o", name).code == 0
        assert Path(name).stat().st_size > 1000


def test_a_pdf_is_not_replaced_by_a_schema_nor_the_other_way_round() -> None:
    run("draw", SAMPLE, "-o", "box.pdf")
    run("schema", "-o", "job.json")
    assert run("schema", "-o", "box.pdf").code == 2
    assert run("draw", SAMPLE, "-o", "job.json").code == 2


@pytest.mark.parametrize("words", WRITERS.values(), ids=WRITERS)
def test_a_read_only_file_is_left_alone(words: tuple[object, ...]) -> None:
    """Also by root, whom the system itself would let write."""
    run(*words, "-o", "kept", "--force")
    Path("kept").chmod(0o444)
    before = Path("kept").read_bytes()
    ran = run(*words, "-o", "kept")
    assert ran.code == 2
    assert "--force" in ran.messages
    assert Path("kept").read_bytes() == before


def test_a_name_made_up_by_the_program_spares_a_strange_file_too() -> None:
    Path("l.toml").write_bytes(JOB)
    Path("l.pdf").write_bytes(b"%PDF-1.7\nthe letter to the bank")
    ran = run("draw", "l.toml")
    assert ran.code == 2
    assert "l.pdf: Another file" in ran.messages
    assert Path("l.pdf").read_bytes().endswith(b"bank")


def test_a_job_on_standard_input_is_not_destroyed_by_its_own_pdf() -> None:
    Path("s.toml").write_bytes(JOB)
    assert run("draw", "-", "-o", "s.toml", given=JOB).code == 2
    assert Path("s.toml").read_bytes() == JOB


@pytest.mark.parametrize("words", WRITERS.values(), ids=WRITERS)
def test_an_empty_name_is_refused_and_not_taken_for_the_usual_one(
    words: tuple[object, ...], here: Path
) -> None:
    for name in ("", "  "):
        ran = run(*words, "-o", name)
        assert (ran.code, ran.output) == (2, b"")
        assert "name of the file is empty" in ran.messages
    assert list(here.iterdir()) == []


@pytest.mark.parametrize("name", ["a\0b", "x" * 300, "loop", "job.toml/x.pdf"])
def test_a_name_that_can_never_do_is_a_mistake_in_what_was_given(name: str) -> None:
    Path("loop").symlink_to("loop")
    Path("job.toml").write_bytes(JOB)
    for words in (("draw", "job.toml", "-o", name), ("check", name), ("new", "-o", name)):
        ran = run(*words)
        assert (ran.code, ran.output) == (2, b""), words
        assert "the program itself" not in ran.messages


@pytest.mark.parametrize("name", ["block", "socket"])
def test_what_is_no_file_pipe_or_character_device_is_not_written_to(name: str) -> None:
    import socket

    if name == "block":
        try:
            os.mknod(name, 0o60666, os.makedev(240, 0))
        except PermissionError:
            pytest.skip("only root makes devices")
    else:
        with socket.socket(socket.AF_UNIX) as made:
            made.bind(name)
    assert "Nothing can be written there" in run("new", "-o", name).messages


def run_shell(line: str) -> subprocess.CompletedProcess[bytes]:
    """Run a line of shell in which `$it` starts the program."""
    environment = {**os.environ, "PYTHONPATH": str(TOP)}
    environment["it"] = f"{sys.executable} -m joinery_templates"
    environment["SAMPLE"] = str(SAMPLE)
    return subprocess.run(
        ["bash", "-o", "pipefail", "-c", line],
        capture_output=True,
        env=environment,
        timeout=60,
        check=False,
        stdin=subprocess.DEVNULL,
    )


def test_streams_named_as_files_are_written_through_and_not_replaced() -> None:
    Path("link").symlink_to("/dev/stdout")
    plain = run("new", "-o", "-").output
    for line in (
        "$it new -o /dev/stdout",
        "$it new -o link",
        "$it new -o /dev/fd/3 3>&1",
        "$it new -o /proc/self/fd/1",
        "$it new -o /dev/stdout | cat",
        "$it new -o /dev/fd/3 3>&1 >/dev/null | cat",
        "$it new -o >(cat) | cat",
    ):
        done = run_shell(line)
        assert (done.returncode, done.stdout) == (0, plain), (line, done.stderr)
    assert Path("link").is_symlink()


def test_a_log_that_is_appended_to_keeps_what_it_holds() -> None:
    Path("log").write_bytes(b"first\n")
    inode = Path("log").stat().st_ino
    for name in ("/dev/stdout", "-", "/dev/fd/1"):
        assert run_shell(f"$it new -o {name} >> log").returncode == 0
    assert Path("log").read_bytes() == b"first\n" + 3 * run("new", "-o", "-").output
    assert Path("log").stat().st_ino == inode


def test_a_pipe_with_a_name_is_written_to_its_reader() -> None:
    os.mkfifo("pipe")
    read: list[bytes] = []
    reader = threading.Thread(target=lambda: read.append(Path("pipe").read_bytes()))
    reader.start()
    assert run("new", "-o", "pipe").code == 0
    reader.join(10)
    assert read == [run("new", "-o", "-").output]


def test_a_pipe_that_nobody_reads_does_not_hold_the_program_up(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("joinery_templates.cli.files.PATIENCE", 0.1)
    os.mkfifo("pipe")
    ran = run("new", "-o", "pipe")
    assert ran.code == 1
    assert "nobody reads from this pipe" in ran.messages


def test_a_stream_that_is_not_there_is_told() -> None:
    done = run_shell("$it new -o /dev/fd/77")
    assert done.returncode == 1
    assert b"it is shut" in done.stderr
