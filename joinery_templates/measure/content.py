"""A content stream taken apart into operators and their operands.

Only what drawing lines needs is kept: the last numbers and names before an operator,
also where they stand in brackets. Grammar: ISO 32000-1, 7.2 and 7.8.2.
"""

import re
from collections.abc import Iterator

from joinery_templates.measure.allowance import WORD, Allowance
from joinery_templates.measure.document import unreadable

Operand = float | str

_PLAIN = re.compile(
    rb"[\x00\t\n\f\r ]*+((?:[-+.0-9]+[\x00\t\n\f\r ]+){0,8})([A-Za-z*]+)(?=[\x00\t\n\f\r ]|\Z)"
)
"""Up to eight numbers and an operator: nearly all there is, so it is read in one go."""
_TEXT = rb"\((?:[^()\\]++|\\.)*+\)"
for _ in range(4):  # brackets in a string come in pairs
    _TEXT = rb"\((?:[^()\\]++|\\.|" + _TEXT + rb")*+\)"
_WORD = re.compile(
    rb"[\x00\t\n\f\r ]*+(?:"
    rb"(?P<number>[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+))"
    rb"|(?P<operator>[A-Za-z'\"][^\x00\t\n\f\r ()<>\[\]{}/%]*)"
    rb"|/(?P<name>[^\x00\t\n\f\r ()<>\[\]{}/%]*)"
    rb"|" + _TEXT + rb"|<<|<[^<>]*>|%[^\r\n]*|(?P<damage>\()|.)",
    re.DOTALL,
)
_IMAGE_END = re.compile(rb"[\x00\t\n\f\r ]EI(?=[\x00\t\n\f\r ]|\Z)")
_MOST_OPERANDS = 8
_LONGEST_NAME = 127
_CODED = re.compile("#([0-9A-Fa-f]{2})")


def operations(data: bytes, allowance: Allowance) -> Iterator[tuple[bytes, list[Operand]]]:
    """The operators of a content stream in order, each with its operands.

    Raises:
        InputError: `pdf-unreadable` for a string without end, `pdf-too-large` when
            the allowance is spent.
    """
    place = 0
    operands: list[Operand] = []
    while True:
        if not operands and (plain := _PLAIN.match(data, place)):
            place, operator = plain.end(), plain[2]
            operands = [float(word) for word in plain[1].split()]
            allowance.spend(len(operands) + 2, WORD)
        elif found := _WORD.match(data, place):
            place, operator = found.end(), found["operator"]
            allowance.spend(1, WORD)
            if found["damage"]:
                raise unreadable("a string in it has no end")
            if found["number"]:
                operands = [*operands[1 - _MOST_OPERANDS :], float(found["number"])]
            elif found["name"] is not None:
                operands = [*operands[1 - _MOST_OPERANDS :], _name(found["name"])]
        else:
            return
        if operator:
            yield operator, operands
            operands = []
        if operator == b"ID":
            image_end = _IMAGE_END.search(data, place)
            place = image_end.end() if image_end else len(data)


def _name(word: bytes) -> str:
    plain = word[:_LONGEST_NAME].decode("latin-1")
    return _CODED.sub(lambda code: chr(int(code[1], 16)), plain) if "#" in plain else plain
