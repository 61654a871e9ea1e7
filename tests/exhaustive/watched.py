"""Cases by the thousand, each played in a process that has a clock and a limit of memory.

A fuzzer is a module with `played(chance, folder)`, which plays one case in an empty folder
and gives what it was and what is wrong with it. The seed of a case is the first seed and its
number: what failed is repeated alone by its own seed and a count of 1.
"""

import importlib
import json
import os
import random
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import traceback
from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from types import FrameType
from unittest import mock

import pytest

TOP = Path(__file__).parents[2]
SEED, CASES = "JOINERY_TEMPLATES_SEED", "JOINERY_TEMPLATES_CASES"
BATCH = 1000
"""Cases of one test, so that several processes can share them out."""
MOST_SECONDS, MOST_MB = float(os.environ.get("JOINERY_TEMPLATES_SECONDS") or 5), 300
"""Processor time and memory that any case may take; more time where the machine is slow."""

LARGE = 150
"""Pages of a job that is called large: it may be read as much longer as it has more."""

PROGRAM = "import sys; from tests.exhaustive.watched import main; main(*sys.argv[1:])"
"""What the process that plays runs; it must be this module, and not a second one beside it."""

Played = tuple[str, list[str]]
"""What was given, and what is wrong with what came of it."""


@dataclass(frozen=True, slots=True)
class Told:
    """How a case went.

    Attributes:
        seed: its own.
        given: what was given to the program.
        faults: what is wrong, empty where nothing is.
        seconds: processor time.
        megabytes: the most memory that its process filled.
    """

    seed: int
    given: str
    faults: tuple[str, ...]
    seconds: float = 0.0
    megabytes: float = 0.0


class TooSlow(BaseException):
    """The clock has run out; nothing that is watched catches it."""


class Clock:
    """Processor time of the command that is played; it runs only where cases are watched."""

    def start(self) -> None:
        signal.signal(signal.SIGPROF, self._ring)
        signal.setitimer(signal.ITIMER_PROF, MOST_SECONDS)

    def start_anew(self, pages: int = 0) -> None:
        """A further command of the same case has its own time, more where it reads many pages."""
        if signal.getsignal(signal.SIGPROF) == self._ring:
            signal.setitimer(signal.ITIMER_PROF, MOST_SECONDS * max(1, pages / LARGE))

    def stop(self) -> None:
        """Nothing is timed any more."""
        signal.setitimer(signal.ITIMER_PROF, 0)

    def _ring(self, _: int, frame: FrameType | None) -> None:
        raise TooSlow


CLOCK = Clock()


def seed_and_count(usual: int) -> tuple[int, int]:
    """From the environment; otherwise a fresh seed and the usual count."""
    fresh = random.SystemRandom().randrange(10**9)
    return int(os.environ.get(SEED) or fresh), int(os.environ.get(CASES) or usual)


def batches(usual: int) -> pytest.MarkDecorator:
    """One test for each batch, with the number of its first case."""
    count = seed_and_count(usual)[1]
    return pytest.mark.parametrize("first", range(0, count, BATCH))


def assert_batch_holds(module: str, first: int, usual: int) -> None:
    """One batch with a seed from the environment or a fresh one."""
    seed, count = seed_and_count(usual)
    assert_all_hold(module, seed + first, min(BATCH, count - first))


def assert_all_hold(module: str, seed: int, count: int) -> list[Told]:
    """Play cases; tell of each that fails how it can be repeated."""
    told = list(play_apart(module, seed, count))
    assert len(told) == count
    worst = {what: max(getattr(one, what) for one in told) for what in ("seconds", "megabytes")}
    print(f"{module}: {count} cases from seed {seed}; worst {worst}")
    failed = [one for one in told if one.faults]
    words = [
        f"{SEED}={one.seed} {CASES}=1: {'; '.join(one.faults)}\n{one.given}" for one in failed[:10]
    ]
    assert not failed, f"{len(failed)} of {count} cases fail.\n" + "\n\n".join(words)
    return told


def play_apart(module: str, seed: int, count: int) -> Iterator[Told]:
    """Play cases in a process of their own, and in a further one where it was ended."""
    done = 0
    while done < count:
        with subprocess.Popen(
            [sys.executable, "-c", PROGRAM, module, str(seed + done), str(count - done)],
            cwd=TOP,
            env={**os.environ, "PYTHONPATH": str(TOP)},
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        ) as process:
            assert process.stdout is not None
            assert process.stderr is not None
            for line in process.stdout:
                answer = json.loads(line)
                answer["faults"] = tuple(answer["faults"])
                yield Told(**answer)
                done += 1
            words = process.stderr.read().decode(errors="replace")
        if done < count:
            ended = f"the process was ended ({process.returncode}): {words[-2000:]}"
            yield Told(seed + done, "see the seed", (ended,))
            done += 1


def play(module: str, seed: int, count: int) -> Iterator[Told]:
    """Play cases in this process."""
    fuzzer = importlib.import_module(module)
    most_mb = getattr(fuzzer, "MOST_MB", MOST_MB)
    resource.setrlimit(resource.RLIMIT_AS, (2_000_000_000, 2_000_000_000))
    with tempfile.TemporaryDirectory(prefix="fuzz-") as name:
        for number in range(count):
            folder = Path(name) / str(number)
            folder.mkdir()
            yield _watched(fuzzer.played, seed + number, folder, most_mb)
            shutil.rmtree(folder, onerror=_opened)


def _watched(
    played: Callable[[random.Random, Path], Played], seed: int, folder: Path, most_mb: int
) -> Told:
    # Ends the process itself where no Python runs that could be interrupted.
    used = int(sum(os.times()[:2])) + 1
    resource.setrlimit(resource.RLIMIT_CPU, (used + int(4 * MOST_SECONDS), resource.RLIM_INFINITY))
    signal.setitimer(signal.ITIMER_REAL, 24 * MOST_SECONDS)
    given, faults = "", []
    settings = {"XDG_CONFIG_HOME": str(folder), "HOME": str(folder)}
    Path("/proc/self/clear_refs").write_text("5", encoding="ascii")  # count the memory anew
    with mock.patch.dict(os.environ, settings):
        before = time.process_time(), os.times()[2:4]
        CLOCK.start()
        try:
            given, faults = played(random.Random(seed), folder)
        except TooSlow as slow:
            last = traceback.extract_tb(slow.__traceback__)[-8:]
            where = " > ".join(f"{Path(f.filename).name}:{f.lineno}" for f in last)
            faults = [f"took over {MOST_SECONDS:g} s: {where}"]
        except BaseException:
            faults = [traceback.format_exc()[-3000:]]
        CLOCK.stop()
        took = time.process_time() - before[0]
        took += sum(os.times()[2:4]) - sum(before[1])
    signal.setitimer(signal.ITIMER_REAL, 0)
    most = most_megabytes()
    if most > most_mb:
        faults = [*faults, f"took {most:.0f} MB"]
    if not given and (folder / "given").exists():
        given = (folder / "given").read_text(encoding="utf-8", errors="backslashreplace")
    return Told(seed, given, tuple(faults), round(took, 2), most)


def most_megabytes() -> float:
    """The most memory that this process has filled.

    Not ru_maxrss, in which a process inherits the size of the one that started it.
    """
    status = Path("/proc/self/status").read_text(encoding="ascii")
    return int(status.split("VmHWM:")[1].split()[0]) / 1000


def _opened(remove: Callable[[str], object], path: str, _: object) -> None:
    """A folder that may not be written gets its rights back and is removed."""
    Path(path).parent.chmod(0o700)
    Path(path).chmod(0o700)
    remove(path)


def told_wrongly(code: int, messages: str) -> list[str]:
    """What is wrong with how a run ended, whatever was given to it."""
    faults = []
    if code not in (0, 1, 2):
        faults.append(f"ended with {code}")
    faults += [
        f"said: {words}"
        for words in ("Traceback", "Exception ignored", "the program itself failed")
        if words in messages
    ]
    if faults:
        faults.append(messages[-1500:])
    told = [line for line in messages.splitlines() if line.startswith(("ERROR", "ADVICE"))]
    longest = max(map(len, told), default=0)
    if longest > 3000:
        faults.append(f"told in a line of {longest} characters")
    return faults


def main(module: str, seed: str, count: str) -> None:
    for told in play(module, int(seed), int(count)):
        print(json.dumps(asdict(told)), flush=True)
