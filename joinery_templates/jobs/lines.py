"""On which line of a job file something stands.

Python's reader of TOML forgets lines, so a text that it has accepted is walked through
once more, for names and places only; what the values are is not looked at.
"""

import re
import tomllib
from bisect import bisect_right
from collections.abc import Iterable
from contextlib import suppress
from functools import cache

Path = tuple[str | int, ...]
"""Where something stands: keys, and for lists the index from 0."""

BARE_KEY = r"[A-Za-z0-9_-]++"
TEXT = (
    r'(?:"""(?:[^"\\]++|\\.|"(?!""))*+(?:"{3,5})?+'
    r"|'''(?:[^']++|'(?!''))*+(?:'{3,5})?+"
    r'|"(?:[^"\\\n]++|\\[^\n])*+"?+'
    r"|'[^'\n]*+'?+)"
)
"""Text in TOML's four sorts of quotes; one left open ends with its line, or with the file."""

_BLANK = r"(?:[ \t\r\n]++|#[^\n]*+)*+"
_SPACE = r"[ \t]*+"
_PLAIN = r"[^,\]}#\n]++"


def lines_of(text: str, paths: Iterable[Path]) -> dict[Path, int]:
    """The line, from 1, of each path: its own, or that of what it would stand in.

    A path is left out where neither it nor anything around it stands in the text.

    Args:
        text: TOML that tomllib has read without complaint.
        paths: what is looked for.
    """
    walk = _Walk(text)
    with suppress(LookupError, RecursionError):  # what was found before still holds
        walk.statements()
    ends = [match.start() for match in re.finditer("\n", text)]
    found = {}
    for path in paths:
        near = next((path[:n] for n in range(len(path), 0, -1) if path[:n] in walk.places), None)
        if near is not None:
            found[path] = bisect_right(ends, walk.places[near] - 1) + 1
    return found


class _Walk:
    """One way through a text, from its first sign to its last."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.places: dict[Path, int] = {}
        self._counts: dict[Path, int] = {}

    def statements(self) -> None:
        """All headers and all names with values."""
        inside: Path = ()
        while self._skip(_BLANK) < len(self.text):
            if self.text[self.at] == "[":
                inside = self._header()
            else:
                self._named_value(inside)

    def _header(self) -> Path:
        start = self.at
        listed = self.text.startswith("[[", start)
        self.at += 2 if listed else 1
        path: Path = ()
        keys = self._key()
        for number, key in enumerate(keys, start=1):
            path = (*path, key)
            self._note(path, start)
            if listed and number == len(keys):
                self._counts[path] = self._counts.get(path, 0) + 1
            if path in self._counts:
                path = (*path, self._counts[path] - 1)
                self._note(path, start)
        self._skip(_SPACE)
        self.at += 2 if listed else 1
        return path

    def _named_value(self, inside: Path) -> None:
        start, path = self.at, inside
        for key in self._key():
            path = (*path, key)
            self._note(path, start)
        self._skip(_SPACE)
        self.at += 1  # the sign =
        self._skip(_SPACE)
        self._value(path)

    def _key(self) -> list[str]:
        """A name, or several with points between."""
        keys = []
        while True:
            self._skip(_SPACE)
            quoted = self.text[self.at] in "\"'"
            raw = self._take(TEXT if quoted else BARE_KEY)
            keys.append(next(iter(tomllib.loads(f"{raw} = 0"))) if quoted else raw)
            if self.text[self._skip(_SPACE)] != ".":
                return keys
            self.at += 1

    def _value(self, path: Path) -> None:
        opening = self.text[self.at]
        if opening == "[":
            self._within("]", path, listed=True)
        elif opening == "{":
            self._within("}", path, listed=False)
        else:
            self._take(TEXT if opening in "\"'" else _PLAIN)

    def _within(self, closing: str, path: Path, listed: bool) -> None:
        """What stands in a list, or in a table on one line."""
        self.at += 1
        number = 0
        while self.text[self._skip(_BLANK)] != closing:
            if self.text[self.at] == ",":
                self.at += 1
            elif listed:
                self._note((*path, number), self.at)
                self._value((*path, number))
                number += 1
            else:
                self._named_value(path)
        self.at += 1

    def _note(self, path: Path, place: int) -> None:
        self.places.setdefault(path, place)

    def _skip(self, pattern: str) -> int:
        self._take(pattern)
        return self.at

    def _take(self, pattern: str) -> str:
        match = _compiled(pattern).match(self.text, self.at)
        if match is None:
            raise LookupError
        self.at = match.end()
        return match[0]


@cache
def _compiled(pattern: str) -> re.Pattern[str]:
    """Asked for a million times in a large text, where the library's own store is slow."""
    return re.compile(pattern, re.DOTALL)
