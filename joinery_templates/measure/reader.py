"""Reading a PDF of unknown origin in a process of its own, with a clock and a memory limit.

The limits in `allowance` keep what we read ourselves in bounds; this keeps the
PDF library in bounds too, which can spend minutes on a hostile file. What goes between the
processes is numbers and words of the types told here, nothing that could run as code.
"""

import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

from msgspec import Struct, msgpack

from joinery_templates.errors import Finding, InputError, MachineError, mistake
from joinery_templates.measure.allowance import LARGEST_FILE, too_large
from joinery_templates.measure.document import attached_job, open_document, unreadable
from joinery_templates.measure.strokes import PageStrokes, page_strokes

SECONDS = 20.0
MEMORY = 700_000_000
"""Address space in bytes, where the system can limit it; about 200 MB more than is filled."""


_ENTRY = """
import sys
sys.path += sys.argv[1:]
from joinery_templates.measure.reader import answer
answer()
"""
"""What the reading process runs: with nothing to import from but Python's own library and
the folders named to it, whatever the environment, the current folder or a start-up file say."""


class ReadBack(Struct, frozen=True):
    """All this room reads from one PDF: its pages, and the attached job file if there is one.

    `described` is what the PDF says of that file; empty where nothing is.
    """

    pages: tuple[PageStrokes, ...]
    job: bytes | None
    described: str = ""


def read_apart(data: bytes, seconds: float = SECONDS) -> ReadBack:
    """Read a PDF in a process of its own, which is ended when its time is over.

    Raises:
        InputError: as `open_document`, `page_strokes` and `attached_job`; also
            `pdf-too-large` after `seconds`.
        MachineError: no process could be started.
    """
    if len(data) > LARGEST_FILE:
        raise too_large("it is over 100 MB")
    try:
        done = subprocess.run(
            [sys.executable, "-I", "-S", "-c", _ENTRY, *_homes()],
            input=data,
            capture_output=True,
            timeout=seconds,
            check=False,
        )
    except subprocess.TimeoutExpired as problem:
        raise too_large(f"it took longer than {seconds:g} seconds to read") from problem
    except OSError as problem:
        raise MachineError(
            mistake("reader-not-started", "The process that reads the PDF could not be started.")
        ) from problem
    if done.returncode:
        raise unreadable("reading it failed, or took more memory than is allowed")
    return _unpacked(done.stdout)


def _unpacked(answer: bytes) -> ReadBack:
    """The other process's answer."""
    told: ReadBack | tuple[Finding, ...]
    told = msgpack.decode(answer, type=ReadBack | tuple[Finding, ...])
    if isinstance(told, tuple):
        raise InputError(*told)
    return told


def _packed(data: bytes) -> bytes:
    """What the reading process answers."""
    try:
        document = open_document(data)
        return msgpack.encode(ReadBack(page_strokes(document), *attached_job(document)))
    except InputError as problem:
        return msgpack.encode(problem.findings)


def _homes() -> list[str]:
    """The folders of this package and of the libraries that the reading takes."""
    found = (find_spec(library) for library in ("pypdf", "msgspec", "gmpy2"))
    origins = (spec.origin for spec in found if spec is not None and spec.origin is not None)
    places = [Path(__file__).parents[2], *(Path(origin).parents[1] for origin in origins)]
    return list(dict.fromkeys(str(place.resolve()) for place in places))


def answer() -> None:
    """Read the PDF at standard input and write what is found; the reading process's whole task."""
    _limit_memory()
    sys.stdout.buffer.write(_packed(sys.stdin.buffer.read()))


def _limit_memory() -> None:
    """Set the memory limit where the system has one (not on Windows)."""
    try:
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    except (ImportError, OSError, ValueError):
        return
