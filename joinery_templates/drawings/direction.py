"""Names that run from right to left, kept apart from the words and figures around them.

Letters are put in order line by line (Unicode Standard Annex 9). A figure that follows a
Hebrew or Arabic name would be taken for a part of it, and stand at its wrong end: so what
the person wrote stands between signs of isolation, and is put in order by itself::

    one line:    side, <IBAL>: 115 mm        (capitals stand for Hebrew letters)
    it prints:   side, LABI: 115 mm          without the signs:  side, 115 :LABI mm
"""

import re
from collections.abc import Iterable, Iterator
from typing import Any, TypeVar
from unicodedata import bidirectional

from msgspec import Struct
from msgspec.structs import asdict

RecordT = TypeVar("RecordT")

LEFT_TO_RIGHT, RIGHT_TO_LEFT, END = "\u2066", "\u2067", "\u2069"
"""Signs of isolation: how the words after it run, up to the END. They are never printed."""

_SIGNS = f"[{LEFT_TO_RIGHT}{RIGHT_TO_LEFT}{END}]"
_EDGES = f"(?=[{LEFT_TO_RIGHT}{RIGHT_TO_LEFT}])|(?<={END})"
_LEFTWARDS = frozenset({"R", "AL", "AN"})
"""Classes of letters, and of Arabic figures, that run from right to left (table 4 of the Annex)."""


def has_right_to_left(words: str) -> bool:
    """Whether there are letters, or Arabic figures, that run from right to left."""
    return not words.isascii() and not _LEFTWARDS.isdisjoint(map(bidirectional, words))


def isolated(words: str) -> str:
    """What the person wrote, between signs of isolation where part of it runs leftwards.

    Its own direction is that of its first letter (rules P2 and P3 of the Annex).
    """
    if not has_right_to_left(words):
        return words
    kinds = map(bidirectional, words)
    first = next((kind for kind in kinds if kind in {"L", "R", "AL"}), "L")
    return f"{LEFT_TO_RIGHT if first == 'L' else RIGHT_TO_LEFT}{words}{END}"


def with_names_isolated(words: str, names: Iterable[str]) -> str:
    """A sentence with these names in it, each of them isolated where it needs that."""
    odd = sorted(filter(has_right_to_left, names), key=len, reverse=True)
    if not odd or not has_right_to_left(words):
        return words
    any_name = "|".join(map(re.escape, odd))
    return re.sub(rf"(?<!\w)(?:{any_name})(?!\w)", lambda name: isolated(name[0]), words)


def with_names_isolated_in(record: RecordT, names: Iterable[str]) -> RecordT:
    """A record with these names isolated in all words that it holds, however deep."""
    odd = tuple(filter(has_right_to_left, names))

    def treated(value: Any) -> Any:
        if type(value) is str:
            return with_names_isolated(value, odd)
        if isinstance(value, tuple):
            return tuple(map(treated, value))
        if isinstance(value, Struct):
            return type(value)(**{name: treated(part) for name, part in asdict(value).items()})
        return value

    return treated(record) if odd else record


def stretches(words: str) -> Iterator[tuple[str, str]]:
    """The parts of a line that are put in order by themselves, and how each of them runs."""
    for part in re.split(_EDGES, words):
        yield without_signs(part), RIGHT_TO_LEFT if part[:1] == RIGHT_TO_LEFT else LEFT_TO_RIGHT


def without_signs(words: str) -> str:
    """The words alone."""
    return re.sub(_SIGNS, "", words)


def reopened(lines: Iterable[str]) -> Iterator[str]:
    """The lines of a broken text; what was isolated where one ends is so in the next too."""
    opening = ""
    for line in lines:
        yield opening + line
        last = ["", *re.findall(_SIGNS, opening + line)][-1]
        opening = "" if last == END else last
