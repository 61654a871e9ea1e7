"""Hundreds of random jobs of every kind: drawn true, soon, in little memory, without a traceback.

Every run makes jobs of its own. A failure names the seed and the number of the job;
RANDOM_JOBS_SEED=SEED runs them again, RANDOM_JOBS=COUNT makes more or fewer of each kind.
"""

import os
import secrets
import signal
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count
from pathlib import Path
from random import Random

import pytest

from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.joint import Kind
from tests.measure.drawn_and_measured import Measured, drawn_and_measured, untruths
from tests.random_jobs import made

KINDS = tuple(kinds().values())
SEED = os.environ.get("RANDOM_JOBS_SEED") or str(secrets.randbelow(10**9))
EACH = int(os.environ.get("RANDOM_JOBS", "300"))
MOST_SECONDS = 5
"""Of processor time, to draw a job and to measure it."""
HANGS = 300
"""Seconds of processor time after which a job is ended."""
MOST_MEMORY = 250
"""MB that a job fills, beside the 50 of the program itself."""
MOST_TOLD = 5


@pytest.mark.exhaustive
@pytest.mark.parametrize("kind", KINDS, ids=[kind.name for kind in KINDS])
def test_random_jobs_are_drawn_true_and_soon(kind):
    told = []
    for number in range(EACH):
        told += faults_of(kind, number)
        if len(told) >= MOST_TOLD:
            break
    assert not told, "\n".join(told)


def faults_of(kind: Kind, number: int) -> list[str]:
    """What is wrong with one job, each with the job file."""
    text = ""

    def make(given: str) -> Measured:
        nonlocal text
        text = given
        return drawn_and_measured(given)

    before = begin_to_watch_memory()
    try:
        with ended_after(HANGS):
            measured = made(kind, Random(f"{SEED} {kind.name} {number}"), make)
    except Exception:  # any traceback is a fault
        faults = [traceback.format_exc()]
    else:
        faults = [*untruths(measured), *waste(measured, most_memory() - before)]
    return [f"job {number} of seed {SEED}: {fault}\n{text}" for fault in faults]


def waste(measured: Measured, filled: float) -> Iterator[str]:
    """Time and memory (in MB) that a job took beyond what it may."""
    times = {"drawing": measured.drawing, "measuring": measured.measuring}
    for doing, seconds in times.items():
        if seconds > MOST_SECONDS:
            yield f"{doing} {len(measured.pages)} pages took {seconds:.1f} s"
    if filled > MOST_MEMORY:
        yield f"{filled:.0f} MB were filled"


@contextmanager
def ended_after(seconds: float) -> Iterator[None]:
    """End what takes longer, so that a traceback tells where it hangs; not on Windows."""

    def end(signal_number: int, frame: object) -> None:
        raise TimeoutError(f"still busy after {seconds} s")

    if not hasattr(signal, "SIGVTALRM"):
        yield
        return
    before = signal.signal(signal.SIGVTALRM, end)
    signal.setitimer(signal.ITIMER_VIRTUAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)


STATUS, CLEAR = Path("/proc/self/status"), Path("/proc/self/clear_refs")


def begin_to_watch_memory() -> float:
    """Forget what this process filled before, where the system can (Linux); MB filled now."""
    if CLEAR.exists():
        CLEAR.write_text("5")
    return most_memory()


def most_memory() -> float:
    """What this process has filled at most since then, in MB; 0 where that is not known."""
    if not CLEAR.exists():
        return 0
    (line,) = (one for one in STATUS.read_text().splitlines() if one.startswith("VmHWM"))
    return int(line.split()[1]) / 1000


@pytest.mark.exhaustive
@pytest.mark.skipif(not CLEAR.exists(), reason="memory is watched on Linux alone")
def test_memory_that_was_filled_and_given_back_is_seen():
    before = begin_to_watch_memory()
    filled = bytearray(b"x") * 100_000_000
    del filled
    assert most_memory() - before > 90
    assert begin_to_watch_memory() - before < 50


@pytest.mark.exhaustive
@pytest.mark.skipif(not hasattr(signal, "SIGVTALRM"), reason="no such clock here")
def test_what_hangs_is_ended():
    with pytest.raises(TimeoutError), ended_after(0.1):
        all(True for _ in count())
