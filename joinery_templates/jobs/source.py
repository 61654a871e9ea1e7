"""The TOML text of a job file: read safely, and asked on which line something stands."""

import tomllib
from collections.abc import Iterable, Mapping
from decimal import Decimal

from joinery_templates.errors import Finding, InputError, mistake

LARGEST = 1_000_000
"""Bytes of a job file; a real one has a few thousand."""
MOST_LINES = 600
"""In a longer file mistakes are told without their line, for that search is slow."""

Path = tuple[str | int, ...]
"""Where something stands: keys, and for lists the index from 0."""


def decoded(content: bytes) -> str:
    """The text of a job file.

    Raises:
        InputError: `job-too-large` or `job-not-text`.
    """
    if len(content) > LARGEST:
        raise InputError(
            mistake("job-too-large", "This file is over 1 MB.", "Is it a job file at all?")
        )
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise InputError(
            mistake(
                "job-not-text",
                "This is not a text file in UTF-8.",
                "Save the job file as plain text in UTF-8.",
                f"line {line}",
            )
        ) from None


def parsed(text: str) -> dict[str, object]:
    """The job file as TOML; numbers with a point stay exact decimals.

    Raises:
        InputError: `job-not-toml`, with the line.
    """
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise InputError(_not_toml(str(error))) from None
    except (ValueError, ArithmeticError):  # a number with thousands of digits
        raise InputError(_not_toml("a number is far too long")) from None
    except RecursionError:
        raise InputError(_not_toml("brackets are nested far too deep")) from None


def _not_toml(reason: str) -> Finding:
    return mistake(
        "job-not-toml",
        f"The job file cannot be read: {reason}.",
        'Look for a missing quote or bracket; a length with a unit needs quotes, as "19 mm".',
    )


def lines_of(text: str, paths: Iterable[Path]) -> dict[Path, int]:
    """On which line each path first stands, for those that stand anywhere.

    The file is read again and again, each time one line further, until the path is
    there: slow, but it cannot disagree with the reader of TOML itself.
    """
    wanted = {path for path in paths if path}
    found: dict[Path, int] = {}
    lines = text.splitlines(keepends=True)
    if len(lines) > MOST_LINES:
        return found
    start = 1
    for number in range(1, len(lines) + 1):
        if not wanted:
            break
        try:
            tree = tomllib.loads("".join(lines[:number]), parse_float=Decimal)
        except (ValueError, RecursionError, ArithmeticError):
            continue  # in the middle of something that runs over several lines
        for path in [path for path in wanted if _stands(tree, path)]:
            found[path] = start
            wanted.remove(path)
        start = number + 1
    return found


def _stands(tree: object, path: Path) -> bool:
    for step in path:
        if isinstance(step, str) and isinstance(tree, Mapping) and step in tree:
            tree = tree[step]
        elif isinstance(step, int) and isinstance(tree, list) and step < len(tree):
            tree = tree[step]
        else:
            return False
    return True


def told(path: Path) -> str:
    """A path in words: ``joint 2, slope`` or ``boards.side.width``."""
    if len(path) > 1 and path[0] == "joints" and isinstance(path[1], int):
        return ", ".join([f"joint {path[1] + 1}", *(_step(step) for step in path[2:])])
    return ".".join(_step(step) for step in path)


def _step(step: str | int) -> str:
    return f"number {step + 1}" if isinstance(step, int) else step[:40]
