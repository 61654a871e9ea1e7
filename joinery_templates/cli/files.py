"""Reading what is given and writing results: whole or not at all."""

import os
import sys
import tempfile
from pathlib import Path

from joinery_templates.errors import InputError, MachineError, mistake

STANDARD = "-"
"""Names standard input or standard output."""
PDF_START = b"%PDF-"
MOST = 100_000_000
"""Bytes read of any file; nothing that this program makes comes near."""


def read_given(name: str) -> bytes:
    """The content of a file, or of standard input.

    Raises:
        InputError: where there is no such file, or it is none, or it is absurdly large.
        MachineError: where it cannot be read.
    """
    try:
        if name == STANDARD:
            content = sys.stdin.buffer.read(MOST + 1)
        else:
            with Path(name).open("rb") as file:
                content = file.read(MOST + 1)
    except IsADirectoryError:
        raise InputError(
            mistake("file-missing", "This is a folder.", "Name a file in it.", name[:200])
        ) from None
    except (FileNotFoundError, NotADirectoryError, ValueError):
        raise InputError(
            mistake("file-missing", "There is no such file.", "Check the name.", name[:200])
        ) from None
    except OSError as error:
        raise MachineError(
            mistake("file-unreadable", f"The file cannot be read: {error.strerror}.", place=name)
        ) from None
    if len(content) > MOST:
        raise InputError(
            mistake("file-too-large", "The file is over 100 MB.", "Is it the right one?", name)
        )
    return content


def write_whole(name: str, content: bytes) -> None:
    """Write a file, or standard output; an interrupted run leaves an old file as it was.

    Raises:
        InputError: where the place to write to does not exist.
        MachineError: where it cannot be written, such as on a full disk.
    """
    try:
        if name == STANDARD:
            sys.stdout.buffer.write(content)
            sys.stdout.buffer.flush()
            return
        target = Path(name).resolve()
        if target.is_dir() or not target.parent.is_dir():
            raise InputError(
                mistake(
                    "no-such-folder",
                    "The file cannot be written there.",
                    "Give a file name in a folder that exists.",
                    name[:200],
                )
            )
        if target.exists() and not target.is_file():
            target.write_bytes(content)  # a device: nothing to keep
        else:
            _replace(target, content)
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) else str(error)
        place, remedy = name[:200], "An older file of this name is as it was."
        if name == STANDARD:
            place, remedy = "standard output", ""
        raise MachineError(
            mistake("cannot-write", f"This cannot be written: {reason}.", remedy, place)
        ) from None


def keep_settings(path: Path, text: str) -> None:
    """Write a file into the user's configuration folder, which is made where there is none.

    Raises:
        MachineError: where it cannot be written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        message = f"This cannot be kept: {error.strerror}."
        raise MachineError(mistake("cannot-write", message, place=str(path))) from None
    write_whole(str(path), text.encode())


def _replace(target: Path, content: bytes) -> None:
    start = f".{target.name[:40]}."
    handle, part = tempfile.mkstemp(prefix=start, suffix=".part", dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        _as_other_files(Path(part), target)
        Path(part).replace(target)
    except BaseException:
        Path(part).unlink(missing_ok=True)
        raise


def _as_other_files(part: Path, target: Path) -> None:
    """The rights of the file that is replaced, or those that new files get here."""
    if target.exists():
        part.chmod(target.stat().st_mode & 0o777)
        return
    mask = os.umask(0)
    os.umask(mask)
    part.chmod(0o666 & ~mask)
