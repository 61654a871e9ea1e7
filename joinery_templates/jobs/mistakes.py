"""Collecting every mistake of a job file in one go, each at its line."""

import re
from collections.abc import Callable, Collection, Mapping
from functools import partial
from typing import Any, TypeVar

from msgspec import Struct, field, json
from msgspec.structs import replace

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.jobs.lines import Path, lines_of
from joinery_templates.joints.parameter import Table, as_table, names_of, read_table, unknown_names
from joinery_templates.joints.reading import clipped
from joinery_templates.lengths import Units

Value = TypeVar("Value")

MOST_TOLD = 50
"""More mistakes than this are counted and not told: nobody reads on."""
_STEP = r'"(?:[^"\\]|\\.)*"|\[\d+\]|[^.\[\]"]+'


class Mistakes(Struct):
    """The mistakes found so far in a job file, and where they stand."""

    found: list[tuple[Path, Finding]] = field(default_factory=list)

    def add(self, path: Path, finding: Finding) -> None:
        """Note a mistake at a place; a place that the finding names itself lies within it."""
        inside = (_step(words) for words in re.findall(_STEP, finding.place))
        self.found.append(((*path, *inside), replace(finding, place="")))

    def attempt(self, path: Path, read: Callable[[], Value]) -> Value | None:
        """What `read` gives, or None with its mistakes noted at the path.

        Args:
            path: where it is read from.
            read: gives the value or raises InputError.
        """
        try:
            return read()
        except InputError as error:
            for finding in error.findings:
                self.add(path, finding)
            return None

    def check_names(self, path: Path, table: Mapping[str, object], known: Collection[str]) -> None:
        """Note each name in a table that means nothing there."""
        for finding in unknown_names(table, known):
            self.add(path, finding)

    def values(
        self, path: Path, table: type[Table], given: Mapping[str, object], units: Units
    ) -> Any:
        """An instance of a table's class, with the usual value where a name has a mistake.

        Unknown names are not looked at.
        """
        read = {
            declared.name: self.attempt(path, partial(declared.read, given[declared.name], units))
            for declared in table.parameters
            if declared.name in given
        }
        return table(**{name: value for name, value in read.items() if value is not None})

    def table(
        self, given: Mapping[str, object], name: str, table: type[Table], units: Units
    ) -> Any:
        """The [name] of a file; the usual values where it is missing or has a mistake."""
        remedy = (
            f"Write [{name}] on a line of its own, and below it for example "
            f"{names_of(table)[0]} = …"
        )
        read = self.attempt(
            (name,), lambda: read_table(table, as_table(given.get(name, {}), name, remedy), units)
        )
        return table() if read is None else read

    def tell(self, text: str) -> None:
        """Raise what was found, each mistake at its line, in the order of the file.

        Raises:
            InputError: where there is any.
        """
        if not self.found:
            return
        first = self.found[:MOST_TOLD]
        lines = lines_of(text, [path for path, _ in first])
        first.sort(key=lambda one: lines.get(one[0], len(text)))
        findings = [finding.at(_place(path, lines.get(path))) for path, finding in first]
        if len(self.found) > MOST_TOLD:
            findings.append(mistake("and-more", "There are more mistakes.", "Mend these first."))
        raise InputError(*findings)


def _step(words: str) -> str | int:
    """A step of a finding's place: a name, a name in quotes, or a number in brackets."""
    if words.startswith("["):
        return int(words[1:-1])
    return str(json.decode(words)) if words.startswith('"') else words


def _place(path: Path, line: int | None) -> str:
    """A place in words: ``line 4: joint 2, slope`` or ``line 7: boards.side.width``."""
    words = ""
    if path[:1] == ("joints",) and len(path) > 1 and isinstance(path[1], int):
        words = ", ".join([f"joint {path[1] + 1}", *map(_step_in_words, path[2:])])
    else:
        for step in path:
            separator = ", " if isinstance(step, int) else "."
            words += f"{separator if words else ''}{_step_in_words(step)}"
    return f"line {line}: {words}" if line else words


def _step_in_words(step: str | int) -> str:
    return f"number {step + 1}" if isinstance(step, int) else clipped(step) or '""'
