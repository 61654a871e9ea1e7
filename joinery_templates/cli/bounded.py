"""A clock and a memory limit for work on a job that came inside a PDF, which may be anyone's."""

import _thread
import signal
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import FrameType

from joinery_templates.errors import InputError, refusal

SECONDS = 30.0
"""Of processor time; a job of a hundred corners needs a few."""
MEMORY = 1_000_000_000
"""Bytes beyond those in use when the work begins, where the system can limit them."""
_EVERY = 0.1


class _OverTimeError(Exception):
    """The clock has run out."""


@contextmanager
def bounded(seconds: float = SECONDS) -> Iterator[None]:
    """End the work inside when it takes too long or too much memory.

    To be used in the main thread.

    Raises:
        InputError: `job-too-much`.
    """
    limit, is_over, is_done = time.process_time() + seconds, threading.Event(), threading.Event()
    before = signal.getsignal(signal.SIGINT)

    def watch() -> None:
        while not is_done.wait(_EVERY):
            if time.process_time() > limit:
                is_over.set()
                _thread.interrupt_main()
                return

    def interrupted(number: int, frame: FrameType | None) -> None:
        if is_over.is_set():
            raise _OverTimeError
        if callable(before):
            before(number, frame)

    signal.signal(signal.SIGINT, interrupted)
    watcher = threading.Thread(target=watch, daemon=True)
    try:
        with _limited_memory():
            watcher.start()
            yield
    except _OverTimeError:
        raise _too_much(f"took over {seconds:g} seconds") from None
    except MemoryError:
        raise _too_much("took too much memory") from None
    finally:
        is_done.set()
        watcher.join()
        signal.signal(signal.SIGINT, before)


def _too_much(why: str) -> InputError:
    return refusal(
        "job-too-much",
        f"The job inside this PDF was given up: it {why}.",
        "If the job is yours, draw it from its job file, which has no such limit.",
    )


@contextmanager
def _limited_memory() -> Iterator[None]:
    """Limit the memory taken inside, where the system tells and limits it."""
    try:
        import resource

        pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0])
        before, most = resource.getrlimit(resource.RLIMIT_AS)
        wanted = pages * resource.getpagesize() + MEMORY
        if before != resource.RLIM_INFINITY:
            wanted = min(wanted, before)
        resource.setrlimit(resource.RLIMIT_AS, (wanted, most))
    except (ImportError, OSError, ValueError):
        yield
        return
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_AS, (before, most))
