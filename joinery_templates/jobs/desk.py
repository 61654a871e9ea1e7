"""Collecting every mistake of a job file in one go.

A `Desk` collects mistakes while the tables are read, so that the reading code says
only what it wants: `desk.text(...)`, `desk.length(...)`.
"""

import difflib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeVar

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.jobs.source import Path, lines_of, told
from joinery_templates.lengths import Units, read_length

Table = Mapping[str, object]
Value = TypeVar("Value")

LONGEST_WORDS = 200
LONGEST_NOTES = 4000


@dataclass(slots=True)
class Desk:
    """Where a job file lies while it is read, with the mistakes found so far.

    Attributes:
        units: of bare numbers.
        problems: mistakes and where they stand.
    """

    units: Units = Units.MM
    problems: list[tuple[Path, Finding]] = field(default_factory=list)

    def complain(self, path: Path, finding: Finding) -> None:
        """Note a mistake at a place."""
        self.problems.append((path, finding))

    def attempt(self, path: Path, read: Callable[[], Value]) -> Value | None:
        """What `read` gives, or None with its mistakes noted at the path."""
        try:
            return read()
        except InputError as error:
            for finding in error.findings:
                self.complain(path, finding)
            return None

    def table(self, parent: Table, name: str, path: Path, known: Sequence[str]) -> Table:
        """A table within a table, empty where it is missing or is none."""
        value = parent.get(name, {})
        if not isinstance(value, Mapping):
            self.complain((*path, name), mistake("not-a-table", f"This must be a table [{name}]."))
            return {}
        self.check_names(value, known, (*path, name))
        return value

    def check_names(self, table: Table, known: Sequence[str], path: Path) -> None:
        """Complain of each name that means nothing here, with the nearest that does."""
        for name in table:
            if name not in known:
                near = difflib.get_close_matches(name, known, n=1, cutoff=0.6)
                remedy = f'Did you mean "{near[0]}"?' if near else f"Known: {', '.join(known)}."
                self.complain(
                    (*path, name),
                    mistake("unknown-name", f'"{_short(name)}" means nothing here.', remedy),
                )

    def words(
        self, table: Table, name: str, path: Path, default: str, longest: int = LONGEST_WORDS
    ) -> str:
        """A piece of text without control characters; line breaks become spaces."""
        value = table.get(name, default)
        return self.check_words(value, (*path, name), default, longest)

    def check_words(
        self, value: object, path: Path, default: str, longest: int = LONGEST_WORDS
    ) -> str:
        """The text if it is one that can be printed, else the default and a complaint."""
        if not isinstance(value, str):
            self.complain(path, mistake("not-text", f"{_shown(value)} is not text.", "Put quotes."))
            return default
        plain = " ".join(value.split())
        if len(plain) > longest:
            self.complain(
                path,
                mistake(
                    "too-long", f"This text has {len(plain)} characters.", f"At most {longest} fit."
                ),
            )
            return default
        if not plain and value is not default:
            self.complain(path, mistake("empty", "This text is empty.", "Write something."))
            return default
        if not plain.isprintable():
            self.complain(
                path,
                mistake("not-printable", "This text has a character that cannot be printed.",
                        "Type it anew."),
            )
            return default
        return plain

    def length(
        self, table: Table, name: str, path: Path, default: Fraction | None = None
    ) -> Fraction | None:
        """A length above 0 in mm, the default where it is missing, None where it is no good."""
        if name not in table:
            return default
        return self.check_length(table[name], (*path, name))

    def check_length(
        self, value: object, path: Path, zero_allowed: bool = False
    ) -> Fraction | None:
        """A length above 0 (or from 0) in mm, or None and a complaint."""
        length = self.attempt(path, lambda: read_length(value, self.units))
        if length is not None and (length < 0 or (length == 0 and not zero_allowed)):
            self.complain(
                path,
                mistake("not-above-zero", f"{_shown(value)} cannot be meant.",
                        "Give a length above 0."),
            )
            return None
        return length

    def listed(self, table: Table, name: str, path: Path) -> list[object]:
        """A list, or a single value as a list of one; empty where it is missing."""
        value = table.get(name, [])
        return value if isinstance(value, list) else [value]

    def finish(self, text: str) -> None:
        """Raise what was collected, each mistake at its line.

        Raises:
            InputError: where there is any.
        """
        if not self.problems:
            return
        lines = lines_of(text, [path for path, _ in self.problems])
        raise InputError(
            *(finding.at(_place(path, lines.get(path))) for path, finding in self.problems)
        )




def _place(path: Path, line: int | None) -> str:
    words = told(path)
    return f"line {line}: {words}" if line else words


def _short(words: str) -> str:
    return words if len(words) <= 40 else words[:40] + "…"


def _shown(value: object) -> str:
    if isinstance(value, Mapping | list):
        return "A table or list"
    return f'"{_short(str(value))}"'
