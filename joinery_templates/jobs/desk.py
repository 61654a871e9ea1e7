"""Collecting every mistake of a job file in one go.

A `Desk` collects mistakes while the tables are read, so that the reading code says
only what it wants: `desk.words(...)`, `desk.length(...)`.
"""

import difflib
import re
import unicodedata
from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime, time
from fractions import Fraction
from typing import TypeVar

from msgspec import Struct, field
from msgspec.structs import replace

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.jobs.lines import Path, lines_of
from joinery_templates.jobs.source import LongNumber, told
from joinery_templates.lengths import Units, read_length

Table = Mapping[str, object]
Value = TypeVar("Value")

LONGEST_WORDS = 200
LONGEST_NOTES = 4000
MOST_TOLD = 50
"""More mistakes than this are counted and not told: nobody reads on."""
_LONGEST_SHOWN = 40


class Desk(Struct):
    """Where a job file lies while it is read, with the mistakes found so far.

    Attributes:
        units: of bare numbers.
        problems: mistakes and where they stand.
    """

    units: Units = Units.MM
    problems: list[tuple[Path, Finding]] = field(default_factory=list)

    def complain(self, path: Path, finding: Finding) -> None:
        """Note a mistake at a place; a place that the finding names itself lies within it."""
        inside = tuple(finding.place.split(".")) if finding.place else ()
        # The place may begin with the steps that the path ends with.
        shared = (n for n in range(len(inside), 0, -1) if path[-n:] == inside[:n])
        inside = inside[next(shared, 0) :]
        self.problems.append(((*path, *inside), replace(finding, place="")))

    def attempt(self, path: Path, read: Callable[[], Value], given: object = None) -> Value | None:
        """What `read` gives, or None with its mistakes noted at the path.

        Args:
            path: where it is read from.
            read: gives the value or raises InputError.
            given: what stands there, for a hint at what may be meant.
        """
        try:
            return read()
        except InputError as error:
            for finding in error.findings:
                self.complain(path, _hinted(finding, given))
            return None

    def table(self, parent: Table, name: str, path: Path, known: Sequence[str]) -> Table:
        """A table within a table, empty where it is missing or is none."""
        value = parent.get(name, {})
        if not isinstance(value, Mapping):
            self.complain(
                (*path, name),
                mistake(
                    "not-a-table",
                    f"{name} is a table, not {sort_of(value)}.",
                    f"Write [{name}] on a line of its own, and below it for example {known[0]} = …",
                ),
            )
            return {}
        self.check_names(value, known, (*path, name))
        return value

    def check_names(self, table: Table, known: Sequence[str], path: Path) -> None:
        """Complain of each name that means nothing here, with the nearest that does."""
        for name in table:
            if name in known:
                continue
            if len(self.problems) > MOST_TOLD:
                return
            key = name[:_LONGEST_SHOWN].casefold().replace("-", "_").replace(" ", "_")
            near = difflib.get_close_matches(key, known, n=1, cutoff=0.6)
            remedy = f'Did you mean "{near[0]}"?' if near else f"Known here: {', '.join(known)}."
            self.complain(
                (*path, name),
                mistake("unknown-name", f'The name "{cut(name)}" means nothing here.', remedy),
            )

    def words(
        self, table: Table, name: str, path: Path, default: str, longest: int = LONGEST_WORDS
    ) -> str:
        """A piece of text without control characters, the default where it is missing."""
        if name not in table:
            return default
        return self.check_words(table[name], (*path, name), longest) or default

    def check_words(self, value: object, path: Path, longest: int = LONGEST_WORDS) -> str | None:
        """The text with single spaces if it can be printed, else None and a complaint."""
        finding = _unprintable(value, longest)
        if finding is None:
            return " ".join(str(value).split())
        self.complain(path, finding)
        return None

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
        length = self.attempt(path, lambda: read_length(value, self.units), value)
        if length is not None and (length < 0 or (length == 0 and not zero_allowed)):
            least = "of 0 or more" if zero_allowed else "above 0"
            self.complain(
                path,
                mistake(
                    "not-above-zero", f"{shown(value)} cannot be meant.", f"Give a length {least}."
                ),
            )
            return None
        return length

    def finish(self, text: str) -> None:
        """Raise what was collected, each mistake at its line, in the order of the file.

        Raises:
            InputError: where there is any.
        """
        if not self.problems:
            return
        first = self.problems[:MOST_TOLD]
        lines = lines_of(text, [path for path, _ in first])
        first.sort(key=lambda problem: lines.get(problem[0], len(text)))
        findings = [finding.at(_place(path, lines.get(path))) for path, finding in first]
        if len(self.problems) > MOST_TOLD:
            findings.append(mistake("and-more", "There are more mistakes.", "Mend these first."))
        raise InputError(*findings)


def listed(value: object) -> list[object]:
    """A list as it is, a single value as a list of one."""
    return value if isinstance(value, list) else [value]


def sort_of(value: object) -> str:
    """What sort of thing stands in a job file, in words."""
    sorts = {bool: "true or false", str: "text", Mapping: "a table", list: "a list"}
    times = (date, datetime, time)
    words = next((words for sort, words in sorts.items() if isinstance(value, sort)), "a number")
    return "a date or time" if isinstance(value, times) else words


def shown(value: object) -> str:
    """What was given, cut short, text in quotes; a table or list is only named."""
    if isinstance(value, Mapping | list | LongNumber):
        return "A long number" if isinstance(value, LongNumber) else sort_of(value).capitalize()
    return repr(cut(value)) if isinstance(value, str) else cut(str(value)).lower()


def cut(words: str) -> str:
    """Words of a length that fits into a message."""
    return words if len(words) <= _LONGEST_SHOWN else f"{words[:_LONGEST_SHOWN]}…"


def _unprintable(value: object, longest: int) -> Finding | None:
    """Why a value cannot be printed as words, if so."""
    if not isinstance(value, str):
        what = f"{shown(value)} is {sort_of(value)}"
        if isinstance(value, Mapping | list):
            what = f"Here stands {sort_of(value)}"
        return mistake("not-text", f"{what}, where text is wanted.", 'Put quotes: "…".')
    plain = " ".join(value.split())
    if not plain:
        return mistake("empty", "This text is empty.", "Write something, or leave the line out.")
    if len(plain) > longest:
        return mistake(
            "too-long", f"This text has {len(plain)} characters.", f"At most {longest} fit."
        )
    odd = next((sign for sign in plain if not sign.isprintable()), None)
    if odd is None:
        return None
    name = unicodedata.name(odd, "a control character").lower()
    return mistake(
        "not-printable",
        f"Sign {plain.index(odd) + 1} of this text cannot be printed: U+{ord(odd):04X}, {name}.",
        "Take it out; it may be invisible, so type the text anew.",
    )


def _hinted(finding: Finding, given: object) -> Finding:
    """The finding with a remedy that fits what people write, where it is recognised."""
    text = given if isinstance(given, str) and len(given) <= _LONGEST_SHOWN else ""
    if re.fullmatch(r"[^,]*\d,\d[^,]*", text) and finding.code.endswith(("unreadable", "unknown")):
        point = text.strip().replace(",", ".")
        return replace(finding, remedy=f'Write a point and not a decimal comma: "{point}".')
    return finding


def _place(path: Path, line: int | None) -> str:
    words = told(path)
    return f"line {line}: {words}" if line else words
