"""The TOML text of a job file, read safely."""

import tomllib
from contextlib import suppress
from decimal import Decimal, InvalidOperation

from msgspec import Struct

from joinery_templates.errors import InputError, refusal
from joinery_templates.jobs.excess import excess

LARGEST = 200_000
"""Bytes of a job file; a real one has a few thousand. All readers here end within seconds."""
MOST_DIGITS = 40
_UTF16 = (b"\xff\xfe", b"\xfe\xff")


class LongNumber(Struct, frozen=True):
    """Stands for a number of so many digits that it is not worth working out."""

    digits: int

    def __str__(self) -> str:
        return f"a number of {self.digits} digits"


def decoded(content: bytes) -> str:
    """The text of a job file.

    Raises:
        InputError: `job-too-large`, `job-empty` or `job-not-text`.
    """
    if len(content) > LARGEST:
        raise refusal(
            "job-too-large", f"This file is over {LARGEST // 1000} kB.", "Is it a job file at all?"
        )
    if content.startswith(_UTF16):
        raise _not_text("This text is in UTF-16 or UTF-32.", 1)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise _not_text("This is not plain text in UTF-8.", line) from None
    if "\0" in text:
        raise _not_text("This is not plain text.", text[: text.index("\0")].count("\n") + 1)
    if not text.strip():
        raise refusal(
            "job-empty",
            "The job file is empty.",
            'A file to start from is written by "joinery-templates new".',
        )
    return text


def parsed(text: str) -> dict[str, object]:
    """The job file as TOML; numbers with a point stay exact decimals.

    Numbers of over 40 digits are given as `LongNumber`.

    Raises:
        InputError: `job-not-toml`, each with its line.
    """
    too_much = excess(text)
    if too_much is not None:
        raise InputError(too_much)
    try:
        tree = tomllib.loads(text, parse_float=_decimal)
    except tomllib.TOMLDecodeError:
        from joinery_templates.jobs.syntax import syntax_mistakes

        raise InputError(*syntax_mistakes(text)) from None
    return {name: _without_long_numbers(value) for name, value in tree.items()}


def _not_text(message: str, line: int) -> InputError:
    return refusal(
        "job-not-text", message, "Save the job file as plain text in UTF-8.", f"line {line}"
    )


def _decimal(written: str) -> Decimal | LongNumber:
    if len(written) <= MOST_DIGITS:
        with suppress(InvalidOperation):  # an exponent past all bounds
            return Decimal(written)
    return LongNumber(len(written))


def _without_long_numbers(value: object) -> object:
    if isinstance(value, dict):
        return {name: _without_long_numbers(inner) for name, inner in value.items()}
    if isinstance(value, list):
        return [_without_long_numbers(inner) for inner in value]
    if isinstance(value, int) and abs(value) >= 10**MOST_DIGITS:
        return LongNumber(int(value.bit_length() * 0.30103) + 1)
    return value
