"""What can go wrong, and how it is told.

The whole tree::

    JoineryError
    ├── InputError      a mistake in what the person gave: exit code 2
    └── MachineError    the machine failed (disk, permission): exit code 1

Everything told to the person, from a fatal mistake to a piece of advice, is
one `Finding`: a level, a code that can be quoted, and plain words.
"""

from collections.abc import Iterable
from enum import StrEnum

from msgspec import Struct
from msgspec.structs import replace

COMMON = "common practice, no source"
OURS = "our judgement"
MEMORY = "from memory"
"""What stands as the source of a rule that no published one was found for."""


class Level(StrEnum):
    """How grave a finding is."""

    ERROR = "error"
    """It cannot be cut, or not be read: nothing is drawn."""
    ADVICE = "advice"
    """It can be cut, and is drawn, but a careful joiner would think again."""


class Finding(Struct, frozen=True):
    """One thing to tell the person.

    Attributes:
        level: error or advice.
        code: short name in kebab case that users and tests can quote.
        message: what is the matter, with the value that was given.
        place: where it stands, such as ``joints[0].slope, line 14``.
        remedy: what to do about it.
        source: where the rule comes from, or "common practice", or "our judgement".
    """

    level: Level
    code: str
    message: str
    place: str = ""
    remedy: str = ""
    source: str = ""

    def at(self, place: str) -> "Finding":
        """The same finding at a place, unless it already names a finer one."""
        if not self.place:
            return replace(self, place=place)
        separator = "" if self.place.startswith("[") else "."
        return replace(self, place=f"{place}{separator}{self.place}")

    def told(self) -> str:
        """The finding in one paragraph of plain text."""
        place = f"{self.place}: " if self.place else ""
        remedy = f" {self.remedy}" if self.remedy else ""
        source = f" [{self.source}]" if self.source else ""
        return f"{place}{self.message}{remedy}{source}"


class JoineryError(Exception):
    """Root of all errors that this package raises on purpose."""

    exit_code = 1

    def __init__(self, *findings: Finding) -> None:
        super().__init__("\n".join(finding.told() for finding in findings))
        self.findings = findings


class InputError(JoineryError):
    """The person's input cannot be used; says every mistake found, not only the first."""

    exit_code = 2

    def at(self, place: str) -> "InputError":
        """The same error with every finding put at a place."""
        return InputError(*(finding.at(place) for finding in self.findings))


class MachineError(JoineryError):
    """The machine failed: a full disk, a missing permission, a broken installation."""


def mistake(code: str, message: str, remedy: str = "", place: str = "") -> Finding:
    """A finding that stops the work."""
    return Finding(Level.ERROR, code, message, place, remedy)


def advice(code: str, message: str, source: str, remedy: str = "", place: str = "") -> Finding:
    """A finding that the work goes on in spite of; its source is never left out."""
    return Finding(Level.ADVICE, code, message, place, remedy, source)


def refusal(code: str, message: str, remedy: str = "", place: str = "") -> InputError:
    """The error of a single mistake."""
    return InputError(mistake(code, message, remedy, place))


def refuse(findings: Iterable[Finding]) -> None:
    """Stop where there is anything to complain of.

    Raises:
        InputError: with all of it.
    """
    told = tuple(findings)
    if told:
        raise InputError(*told)
