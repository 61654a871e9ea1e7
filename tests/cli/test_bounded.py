"""Work on a job that came inside a PDF has a clock and a memory limit."""

import signal
import time

import pytest

from joinery_templates.cli import bounded as room
from joinery_templates.cli.bounded import bounded
from joinery_templates.errors import InputError
from tests.cli.command_line import run
from tests.jobs.job_texts import small_job

JOB = small_job(joint_corners="'A'").encode()


def spin(seconds: float) -> None:
    until = time.process_time() + seconds
    while time.process_time() < until:
        pass


def test_work_that_takes_too_long_is_given_up_in_time_and_with_a_message() -> None:
    start = time.process_time()
    with pytest.raises(InputError, match=r"took over 0\.3 seconds"), bounded(0.3):
        spin(20)
    assert time.process_time() - start < 5


def test_waiting_is_not_counted_as_work() -> None:
    with bounded(0.3):
        time.sleep(0.6)


def test_work_that_takes_too_much_memory_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "MEMORY", 50_000_000)
    with pytest.raises(InputError, match="too much memory"), bounded():
        bytearray(400_000_000)
    assert len(bytearray(400_000_000)) == 400_000_000


def test_an_interrupt_by_the_person_stays_one() -> None:
    # Set here, since where the tests run in the background it is ignored.
    outside = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        with pytest.raises(KeyboardInterrupt), bounded():
            signal.raise_signal(signal.SIGINT)
        assert signal.getsignal(signal.SIGINT) is signal.default_int_handler
    finally:
        signal.signal(signal.SIGINT, outside)


@pytest.mark.parametrize("command", ["measure", "draw", "check"])
def test_a_job_inside_a_pdf_that_hangs_is_refused_and_one_in_a_file_is_not(
    command: str, tmp_path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pdf, toml = tmp_path / "x.pdf", tmp_path / "x.toml"
    pdf.write_bytes(run("draw", "-", given=JOB).output)
    toml.write_bytes(JOB)
    from joinery_templates.jobs.joint_reader import JointReader

    read = JointReader.joints
    monkeypatch.setattr(JointReader, "joints", lambda *given: (spin(0.35), read(*given))[1])
    monkeypatch.setattr(room.bounded, "__wrapped__", room.bounded.__wrapped__)
    monkeypatch.setattr(room.bounded.__wrapped__, "__defaults__", (0.3,))
    more = ("-o", tmp_path / "new.pdf") if command == "draw" else ()
    ran = run(command, pdf, *more)
    assert (ran.code, ran.output) == (2, b"")
    assert f"{pdf}: The job inside this PDF was given up" in ran.messages
    assert not (tmp_path / "new.pdf").exists()
    if command != "measure":
        assert run(command, toml, *more).code == 0
