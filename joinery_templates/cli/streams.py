"""The standard streams, made safe to use whatever they are joined to.

A message that nobody can hear changes nothing; a result that cannot be delivered is a
failure, told once.
"""

import io
import os
import sys

_INPUT, _OUTPUT, _MESSAGES = range(3)


class _Messages(io.FileIO):
    """Standard error that never fails: what it cannot take is dropped."""

    def write(self, content: object, /) -> int:
        """As `io.FileIO.write`, but a full or shut stream takes all."""
        try:
            return super().write(content) or 0  # type: ignore[arg-type]
        except OSError:
            return len(content)  # type: ignore[arg-type]


def prepare() -> None:
    """Make the streams fit to use, even if they were shut: then nothing is to be read.

    A shut stream leaves its number free, and the next file that is opened would take it:
    what is meant for the stream would go into that file.
    """
    _take_free_numbers()
    if sys.stdin is None:
        sys.stdin = io.TextIOWrapper(io.BytesIO())
    if sys.stdout is None:
        sys.stdout = io.TextIOWrapper(io.FileIO(_OUTPUT, "w", closefd=False), encoding="utf-8")
    if sys.stderr is None:
        sys.stderr = io.TextIOWrapper(io.FileIO(_MESSAGES, "w", closefd=False), encoding="utf-8")
    if isinstance(sys.stderr, io.TextIOWrapper) and _is_plain(sys.stderr):
        raw = _Messages(_MESSAGES, "w", closefd=False)
        sys.stderr = io.TextIOWrapper(
            io.BufferedWriter(raw), encoding=sys.stderr.encoding, line_buffering=True
        )
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            # A console that lacks a sign such as ≈ gets its number, and not a failure.
            stream.reconfigure(errors="backslashreplace")


def give_up_output() -> None:
    """Drop what still waits for standard output, so that leaving does not fail over it."""
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
    except (OSError, ValueError):
        return  # no real stream: nothing waits


def _take_free_numbers() -> None:
    """Open what is shut: for reading only, so that a result written to it is refused."""
    for number in (_INPUT, _OUTPUT, _MESSAGES):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDONLY)  # takes the lowest free number, which is this one


def _is_plain(stream: io.TextIOWrapper) -> bool:
    """Whether it is a file, pipe or terminal; a Windows console has a writer of its own."""
    raw = getattr(stream.buffer, "raw", stream.buffer)
    return type(raw) is io.FileIO and raw.fileno() == _MESSAGES
