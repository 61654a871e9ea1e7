"""What is said to the person: messages to standard error, results to standard output."""

import errno
import os
import traceback
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any

import typer
from msgspec.structs import replace

from joinery_templates.errors import Finding, InputError, JoineryError

TRACEBACK = "JOINERY_TEMPLATES_TRACEBACK"
"""Set in the environment, it shows a programmer where the program itself went wrong."""


def tell_findings(findings: Iterable[Finding]) -> None:
    """Each finding on a line of its own, to standard error."""
    for finding in findings:
        label = typer.style(f"{finding.level.upper()}:", bold=True)
        typer.echo(f"{label} {visible(finding.told())} ({visible(finding.code)})", err=True)


def tell_failure(error: BaseException) -> int:
    """Tell why the program stops, and return its exit code."""
    if isinstance(error, JoineryError):
        tell_findings(error.findings)
        return error.exit_code
    if os.environ.get(TRACEBACK):
        traceback.print_exception(error)
    if isinstance(error, OSError):
        note(f"ERROR: the result cannot be written: {reason(error)}. (cannot-write)")
        return 1
    note(
        f"ERROR: the program itself failed ({type(error).__name__}: {str(error)[:200]}). "
        "Nothing was written. Please report it with your job file."
    )
    return 1


def reason(error: OSError) -> str | None:
    """Why the system writes nothing, in words."""
    return "it is shut" if error.errno == errno.EBADF else error.strerror


@contextmanager
def mistakes_at(place: str) -> Iterator[None]:
    """Mistakes in what is done inside, at a place such as a file or an option."""
    try:
        yield
    except InputError as error:
        raise error.at(place) from None


@contextmanager
def mistakes_at_options(start: str = "--") -> Iterator[None]:
    """Mistakes in what is done inside, each at the option that bears the name of its place.

    Args:
        start: what the options' names begin with.
    """
    try:
        yield
    except InputError as error:
        # Of a list the place has the number, too.
        names = [one.place.partition("[")[0].replace("_", "-") for one in error.findings]
        at_options = zip(error.findings, names, strict=True)
        raise InputError(
            *(replace(one, place=name and start + name) for one, name in at_options)
        ) from None


def visible(words: str) -> str:
    """Words with every sign that does not print shown by its number.

    What comes from a file must not move the cursor or turn the writing round.
    """
    return "".join(
        sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in words
    )


def say(*lines: str) -> None:
    """Lines of a result, to standard output."""
    for line in lines:
        typer.echo(visible(line))


def say_json(value: Mapping[str, Any] | list[Any]) -> None:
    """A result as JSON, in signs that every console and every locale has."""
    import json

    typer.echo(json.dumps(value, indent=2))


def note(words: str) -> None:
    """A remark to standard error."""
    typer.echo(visible(words), err=True)


def number_of(count: int, thing: str) -> str:
    """So many things, in words: 1 page, 2 pages."""
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"
