"""What counts beside a job file, and how it is written into the file's text.

A PDF carries its job file; were anything that counted not in it, the file and the pages
would say different things.
"""

import tomllib
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from msgspec import Struct, field
from msgspec.structs import replace

from joinery_templates.errors import Finding, InputError, refusal, refuse
from joinery_templates.jobs.kept_tools import written_beside
from joinery_templates.jobs.tables import JobWords, PaperTable
from joinery_templates.joints.parameter import parameter_of
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units

if TYPE_CHECKING:
    from joinery_templates.printers.store import Profile

Changes = Mapping[str, object]
"""What to set: a value by its name, or a table of values by the table's name. A table
within a table replaces what stood there."""


class Overrides(Struct, frozen=True):
    """What else counts beside the job file; None leaves the file's own.

    Attributes:
        paper: the name of a paper.
        units: of printed figures.
        one_per_page: every pattern on a page of its own.
        printer: the profile of the printer to draw for.
        tools: the person's own, of which only those count that the file does not name.
    """

    paper: str | None = None
    units: str | None = None
    one_per_page: bool | None = None
    printer: "Profile | None" = None
    tools: Tools = field(default_factory=Tools)


NO_OVERRIDES = Overrides()


def check(overrides: Overrides, given: Mapping[str, object]) -> None:
    """Refuse what cannot be meant, naming the option.

    Args:
        overrides: what the command line said.
        given: what stands in the job file, which has no mistakes.

    Raises:
        InputError: with every mistake.
    """
    units = Units(str(given.get("units", "mm")))
    findings: list[Finding] = []
    for option, declared, value in (
        ("--units", parameter_of(JobWords, "figures"), overrides.units),
        ("--paper", parameter_of(PaperTable, "size"), overrides.paper),
    ):
        if value is not None:
            try:
                declared.read(value, units)
            except InputError as error:
                findings.extend(replace(finding, place=option) for finding in error.findings)
    refuse(findings)


def changes_to(given: Mapping[str, object], overrides: Overrides) -> dict[str, object]:
    """The overrides as they would stand in the job file."""
    profile, named = overrides.printer, given.get("paper")
    margins = dict(profile.margins if profile else ())
    if isinstance(named, Mapping) and "margin" in named:
        margins = {}
    paper = {
        "size": overrides.paper and " ".join(overrides.paper.split()),
        "one_per_page": overrides.one_per_page,
        "margin": {side: f"{width} mm" for side, width in margins.items()} or None,
    }
    changes = {
        "figures": overrides.units,
        "printer": profile and _measured(profile),
        "paper": {name: value for name, value in paper.items() if value is not None},
        "tools": written_beside(given, overrides.tools),
    }
    return {name: value for name, value in changes.items() if value}


def _measured(profile: "Profile") -> dict[str, str]:
    """A [printer] table of a profile."""
    verdict = profile.verdict
    return {
        "name": profile.name,
        "date": profile.date,
        "across": str(verdict.across),
        "along": str(verdict.along),
        "skew": str(verdict.skew_deg),
    }


def changed(text: str, changes: Changes) -> str:
    """The text with values set; remarks and order stay as they are.

    Args:
        text: a job file without mistakes.
        changes: what to set.

    Raises:
        InputError: `cannot-override`, where the file is written in so odd a way that the
            change cannot be put into it.
    """

    def change(document: Any, new_table: Callable[[], Any]) -> None:
        for name, value in changes.items():
            if isinstance(value, Mapping):
                _set_all(document.setdefault(name, new_table()), value)
            else:
                document[name] = value

    return _rewritten(text, change)


def joint_changed(text: str, number: int, values: Mapping[str, object]) -> str:
    """The text with values set in one joint's table, those that are None taken out.

    Args:
        text: a job file without mistakes.
        number: of the joint, from 0.
        values: by name.

    Raises:
        InputError: `cannot-override`, as for `changed`.
    """

    def change(document: Any, _: object) -> None:
        _set_all(document["joints"][number], values)

    return _rewritten(text, change)


def _rewritten(text: str, change: Callable[[Any, Callable[[], Any]], None]) -> str:
    """The text after a change that leads to the same in a plain reading of it."""
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    wanted = tomllib.loads(text)
    change(wanted, dict)
    try:
        document = tomlkit.parse(text)
        change(document, tomlkit.table)
        result = document.as_string()
        if tomllib.loads(result) == wanted:
            return result
    except (TOMLKitError, ValueError, TypeError, LookupError, AttributeError, RecursionError):
        pass
    raise refusal(
        "cannot-override",
        "What was given on the command line, or your own tools, could not be written into "
        "this job file.",
        'Write it into the file yourself: figures = "…", or [paper] with size = "…", or [tools].',
    )


def _set_all(table: Any, values: Mapping[str, object]) -> None:
    """Set values in a table, and take out those that are None."""
    for name, value in values.items():
        if value is not None:
            table[name] = dict(value) if isinstance(value, Mapping) else value
        elif name in table:
            del table[name]
