"""A content stream taken apart into operators and their operands.

Only what drawing lines needs is kept: numbers and names. Strings, arrays and
dictionaries stand as None. Grammar: ISO 32000-1, 7.2 and 7.8.2.
"""

import re
from collections.abc import Iterator

from joinery_templates.measure.allowance import Allowance
from joinery_templates.measure.document import unreadable

Operand = float | str | None

_PLAIN = re.compile(
    rb"[\x00\t\n\f\r ]*+((?:[-+.0-9]+[\x00\t\n\f\r ]+){0,8})([A-Za-z*]+)(?=[\x00\t\n\f\r ]|\Z)"
)
"""Up to eight numbers and an operator: nearly all there is, so it is read in one go."""
_WORD = re.compile(
    rb"[\x00\t\n\f\r ]*+(?:"
    rb"(?P<number>[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+))"
    rb"|(?P<operator>[A-Za-z'\"][^\x00\t\n\f\r ()<>\[\]{}/%]*)"
    rb"|/(?P<name>[^\x00\t\n\f\r ()<>\[\]{}/%]*)"
    rb"|(?P<opens><<|\[)"
    rb"|(?P<shuts>>>|\])"
    rb"|(?P<text>\()"
    rb"|(?P<hex><[^>]*>?)"
    rb"|%[^\r\n]*"
    rb"|.)",
    re.DOTALL,
)
_IN_TEXT = re.compile(rb"[()\\]")
_IMAGE_END = re.compile(rb"[\x00\t\n\f\r ]EI(?=[\x00\t\n\f\r ]|\Z)")
_MOST_OPERANDS = 64
_LONGEST_NAME = 127
_DEEPEST = 100
_OPERATOR_COST = 2
_CODED = re.compile("#([0-9A-Fa-f]{2})")


def operations(data: bytes, allowance: Allowance) -> Iterator[tuple[bytes, list[Operand]]]:
    """The operators of a content stream in order, each with its operands.

    Raises:
        InputError: `pdf-unreadable` for numbers that are none and for endless
            operands, `pdf-too-large` when the allowance is spent.
    """
    place = 0
    while True:
        while plain := _PLAIN.match(data, place):
            place, operator = plain.end(), plain[2]
            numbers: list[Operand] = [float(word) for word in plain[1].split()]
            allowance.spend(len(numbers) + _OPERATOR_COST)
            yield operator, numbers
        operation, place = _next_operation(data, place, allowance)
        if operation is None:
            return
        yield operation
        if operation[0] == b"ID":
            place = _image_end(data, place)


def _next_operation(
    data: bytes, place: int, allowance: Allowance
) -> tuple[tuple[bytes, list[Operand]] | None, int]:
    """One operation read word by word, and where it ends; None at the end of the stream."""
    operands: list[Operand] = []
    inside = 0
    while match := _WORD.match(data, place):
        allowance.spend(1)
        place, kind = match.end(), match.lastgroup
        if kind == "operator":
            return (match["operator"], operands), place
        if kind == "opens":
            inside = _deeper(inside)
        elif kind == "shuts":
            inside = max(0, inside - 1)
        elif kind == "text":
            place = _text_end(data, place, allowance)
        if not inside and kind is not None:
            operands.append(_operand(kind, match[kind]))
            if len(operands) > _MOST_OPERANDS:
                raise unreadable("numbers without end stand where lines should be drawn")
    return None, place


def _operand(kind: str, word: bytes) -> Operand:
    if kind == "number":
        return float(word)
    if kind == "name":
        plain = word[:_LONGEST_NAME].decode("latin-1")
        return _CODED.sub(lambda code: chr(int(code[1], 16)), plain) if "#" in plain else plain
    return None


def _deeper(depth: int) -> int:
    if depth >= _DEEPEST:
        raise unreadable("brackets stand in brackets without end")
    return depth + 1


def _text_end(data: bytes, place: int, allowance: Allowance) -> int:
    """Where a string in brackets ends; brackets inside it come in pairs."""
    depth = 1
    while match := _IN_TEXT.search(data, place):
        allowance.spend(1)
        place = match.end()
        sign = match[0]
        if sign == b"\\":
            place += 1
        elif sign == b"(":
            depth = _deeper(depth)
        else:
            depth -= 1
        if not depth:
            return place
    return len(data)


def _image_end(data: bytes, place: int) -> int:
    """Where the data of an inline image end."""
    match = _IMAGE_END.search(data, place)
    return match.end() if match else len(data)
