"""Reading what is given and writing results: whole or not at all, and over nothing unmeant."""

import errno
import os
import stat
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from joinery_templates.cli.messages import reason
from joinery_templates.errors import InputError, MachineError, mistake, refusal

STANDARD = "-"
"""Names standard input or standard output."""
PDF_START = b"%PDF-"
MOST = 100_000_000
"""Bytes read of any file; nothing that this program makes comes near."""
PATIENCE = 2.0
"""Seconds that a pipe with a name may take to find a reader."""
ON_WINDOWS = sys.platform == "win32"
_BAD_NAME = {errno.ENAMETOOLONG, errno.ELOOP, errno.ENOTDIR, errno.EINVAL}
"""What the system says of a name that was never going to do."""
_DESCRIPTORS = ("/dev/fd", f"/proc/{os.getpid()}/fd")
"""Folders whose entries are the streams that this process was given."""

FOLDER = "This is a folder."

Recognizer = Callable[[bytes], bool]
"""Tells whether a file's content is of the kind that is about to replace it."""


def nothing(content: bytes) -> bool:
    """The recognizer of what replaces no file."""
    return False


def place_of(name: str) -> str:
    """What a file is called in a message."""
    return "standard output" if name == STANDARD else name


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
        raise refusal("file-missing", FOLDER, "Name a file in it.", name[:200]) from None
    except (FileNotFoundError, NotADirectoryError, ValueError):
        raise refusal(
            "file-missing", "There is no such file.", "Check the name.", name[:200]
        ) from None
    except OSError as error:
        place = "standard input" if name == STANDARD else name[:200]
        found = mistake("file-unreadable", f"This cannot be read: {error.strerror}.", place=place)
        raise InputError(found) if error.errno in _BAD_NAME else MachineError(found) from None
    if len(content) > MOST:
        raise refusal(
            "file-too-large", "The file is over 100 MB.", "Is it the right one?", name[:200]
        )
    return content


def is_own_pdf(content: bytes) -> bool:
    """Whether a file is a PDF that this program wrote, and no other program since."""
    return content.startswith(PDF_START) and b"/Creator (joinery-templates)" in content


def is_sheet_alone(content: bytes) -> bool:
    """Whether it is an own PDF of no job: a sheet to size, calibrate or choose by."""
    return is_own_pdf(content) and b"/Subject (Full-size templates" not in content


def check_target(name: str, is_own: Recognizer, force: bool = False) -> None:
    """Refuse, before any work is done, to write where a result should not go.

    Args:
        name: where the result is to go.
        is_own: whether a file that stands there is of the kind that may be replaced.
        force: replace any file, whatever it is.

    Raises:
        InputError: `no-file-name`, `no-such-folder`, `no-file` or `would-overwrite`.
        MachineError: `cannot-write`, where the place cannot be looked at.
    """
    if name == STANDARD:
        return
    if not name.strip():
        raise refusal("no-file-name", "The name of the file is empty.", "Name one.", "--output")
    with _refusals_in_words(name):
        if _descriptor(name) is not None:
            return
        target = Path(os.path.realpath(name))
        if target.is_dir():
            raise refusal("no-such-folder", FOLDER, "Name a file in it.", name[:200])
        if not target.parent.is_dir():
            missing = f'There is no folder "{os.path.dirname(name)[:200]}".'
            raise refusal("no-such-folder", missing, "Make it first, or name another.", name[:200])
        if not os.path.lexists(target):
            return
        mode = target.stat().st_mode
        if stat.S_ISREG(mode):
            _check_replaced(name, target, is_own, force)
        elif not (stat.S_ISFIFO(mode) or stat.S_ISCHR(mode)):
            raise refusal("no-file", "Nothing can be written there.", "Name a file.", name[:200])


def write_result(name: str, content: bytes, is_own: Recognizer, force: bool = False) -> None:
    """Write a file, standard output, or a pipe; a file is written whole or not at all.

    An interrupted run leaves an older file as it was. For the arguments see `check_target`.

    Raises:
        InputError: as `check_target`.
        MachineError: where it cannot be written, such as on a full disk.
    """
    check_target(name, is_own, force)
    with _refusals_in_words(name):
        if name == STANDARD:
            sys.stdout.buffer.write(content)
            sys.stdout.buffer.flush()
            return
        number = _descriptor(name)
        target = os.path.realpath(name)
        if number is not None:
            _write_through(os.dup(number), content)
        elif os.path.exists(target) and not os.path.isfile(target):
            _write_through(_opened_pipe(target), content)
        else:
            _replace(Path(target), content)


def keep_settings(path: Path, text: Callable[[], str]) -> None:
    """Write a file into the user's configuration folder, which is made where there is none.

    Runs at the same time wait for each other, so that none undoes what another kept.

    Args:
        path: the file.
        text: gives its new text, from what stands there when it is this run's turn.

    Raises:
        InputError: from `text`.
        MachineError: where it cannot be written.
    """
    from filelock import FileLock, Timeout

    text()  # what it refuses leaves no folder behind
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with FileLock(path.with_suffix(".lock"), timeout=10):
            _replace(path, text().encode())
    except Timeout:
        why = "another run of the program is writing it"
    except OSError as error:
        why = error.strerror or str(error)
    else:
        return
    raise MachineError(mistake("cannot-write", f"This cannot be kept: {why}.", place=str(path)))


@contextmanager
def _refusals_in_words(name: str) -> Iterator[None]:
    """What the system refuses, in words."""
    try:
        yield
    except ValueError as error:
        raise refusal(
            "no-file-name", f"No file has such a name: {error}.", place=name[:200]
        ) from None
    except OSError as error:
        kept = "" if name == STANDARD else "An older file of this name is as it was."
        message = f"This cannot be written: {reason(error)}."
        found = mistake("cannot-write", message, kept, place_of(name)[:200])
        raise InputError(found) if error.errno in _BAD_NAME else MachineError(found) from None


def _check_replaced(name: str, target: Path, is_own: Recognizer, force: bool) -> None:
    """Refuse to replace a file that may be dear to somebody."""
    if force:
        return
    about = target.stat()
    if not about.st_mode & 0o222 or not os.access(target, os.W_OK):
        why = "The file that stands there may not be written."
    elif about.st_size and not (about.st_size <= MOST and is_own(target.read_bytes())):
        why = "Another file stands there already."
    else:
        return
    remedy = "Give another name, or replace the file with --force."
    raise refusal("would-overwrite", why, remedy, name[:200])


def _descriptor(name: str) -> int | None:
    """The stream that a name such as /dev/stdout stands for, also through links; or None.

    Opening it by name would begin its file anew, and replacing that file would cut the
    stream off from it.
    """
    path = name
    for _ in range(40):
        folder, last = os.path.split(path)
        folder = os.path.realpath(folder)
        path = os.path.join(folder, last)
        if folder in _DESCRIPTORS and last.isascii() and last.isdigit():
            return int(last)
        if not os.path.islink(path):
            return None
        path = os.path.join(folder, os.readlink(path))
    return None


def _write_through(number: int, content: bytes) -> None:
    with os.fdopen(number, "wb") as stream:
        stream.write(content)


def _opened_pipe(target: str) -> int:
    """A pipe with a name, or a device, open for writing; a pipe that nobody reads is refused.

    Raises:
        OSError: ENXIO, where no reader comes.
    """
    until = time.monotonic() + PATIENCE
    while True:
        try:
            number = os.open(target, os.O_WRONLY | (0 if ON_WINDOWS else os.O_NONBLOCK))
        except OSError as error:
            if error.errno != errno.ENXIO:
                raise
            if time.monotonic() > until:
                raise OSError(errno.ENXIO, "nobody reads from this pipe") from None
            time.sleep(0.05)
        else:
            if not ON_WINDOWS:
                os.set_blocking(number, True)
            return number


def _replace(target: Path, content: bytes) -> None:
    """Put a new file in an older one's place in one step."""
    start = f".{target.name[:40]}.joinery-templates-"
    _sweep(target.parent, start)
    handle, part = _held_part(target.parent, start)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
            _as_other_files(part, target)
            if not ON_WINDOWS:
                part.replace(target)  # while it is held: nobody takes it for a left-over
        if ON_WINDOWS:
            part.replace(target)  # which refuses while it is open
    except BaseException:
        part.unlink(missing_ok=True)
        raise


def _held_part(folder: Path, start: str) -> tuple[int, Path]:
    """A new file that other runs see is being written."""
    while True:
        handle, name = tempfile.mkstemp(prefix=start, suffix=".part", dir=folder)
        with suppress(OSError):  # some file systems know no locks: there nothing is swept
            _hold(handle)
        if os.path.exists(name):  # not swept away before it was held
            return handle, Path(name)
        os.close(handle)


def _sweep(folder: Path, start: str) -> None:
    """Take away what runs that were killed have left: parts that nobody writes any more."""
    for name in os.listdir(folder):
        if not (name.startswith(start) and name.endswith(".part")):
            continue
        part = folder / name
        with suppress(OSError):
            if ON_WINDOWS:
                part.unlink()  # refused while another run has it open
                continue
            with part.open("ab") as left:
                _hold(left.fileno())
                part.unlink()


def _hold(handle: int) -> None:
    """Lock an open file until it is closed.

    Raises:
        OSError: where another run holds it.
    """
    if sys.platform != "win32":
        import fcntl

        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)


def _as_other_files(part: Path, target: Path) -> None:
    """The rights of the file that is replaced, or those that new files get here."""
    if target.exists():
        part.chmod(target.stat().st_mode & 0o777)
        return
    mask = os.umask(0)
    os.umask(mask)
    part.chmod(0o666 & ~mask)
