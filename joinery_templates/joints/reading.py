"""Single values from a job file or the command line: words, slopes, angles, counts, tables."""

import re
import tomllib
import unicodedata
from collections.abc import Mapping
from datetime import date, datetime, time
from decimal import Decimal

from msgspec.structs import replace

from joinery_templates.errors import Finding, InputError, refusal
from joinery_templates.exact import Fraction, tangent
from joinery_templates.lengths import read_number

STEEPEST_SLOPE = Fraction(1, 2)
FLATTEST_SLOPE = Fraction(1, 60)
"""Beyond these a slope is a slip of the pen (our judgement)."""

_SLOPE_REMEDY = 'Write a ratio such as "1:6" or an angle such as "9.5 deg".'
_RATIO = r"\s*([\d./ -]+?)\s*(?::|in)\s*([\d./ -]+?)\s*"
_ANGLE = r"\s*([\d.]+)\s*(?:deg|degrees|°)\s*"
_DEGREES = r"\s*(.*?)\s*(?:deg|degrees|°)\s*"
_DECIMAL_COMMA = r"[^,]*\d,\d[^,]*"
_LONGEST_TABLE = 4000
_LONGEST_SHOWN = 40


def read_words(given: object, longest: int, may_be_empty: bool = False) -> str:
    """Text that can be printed, with single spaces.

    Raises:
        InputError: `not-text`, `empty`, `too-long` or `not-printable`.
    """
    if not isinstance(given, str):
        what = f"{shown(given)} is {sort_of(given)}"
        if isinstance(given, Mapping | list):
            what = f"This is {sort_of(given)}"
        message = f"{what}, where text is wanted."
        raise refusal("not-text", message, 'Write text in quotes: "…".')
    plain = " ".join(given.split())
    odd = next((sign for sign in plain if not sign.isprintable()), "")
    if not plain and not (may_be_empty and not given):
        raise refusal("empty", "This text is empty.", "Write something, or leave the line out.")
    if len(plain) > longest:
        message = f"This text has {len(plain)} characters."
        raise refusal("too-long", message, f"At most {longest} fit.")
    if odd:
        name = unicodedata.name(odd, "a control character").lower()
        raise refusal(
            "not-printable",
            f"Sign {plain.index(odd) + 1} of this text cannot be printed: U+{ord(odd):04X}, "
            f"{name}.",
            "Take it out; it may be invisible, so type the text again.",
        )
    return plain


def read_slope(given: object) -> Fraction:
    """How much a side leans for each millimetre along it: 1:6 is 1/6.

    Ratios stay exact; an angle becomes a rational within `exact.TANGENT_BOUND`.

    Raises:
        InputError: `slope-unreadable` or `out-of-limits`.
    """
    ratio, angle = _matched(_RATIO, given), _matched(_ANGLE, given)
    slope = None
    try:
        if ratio:
            rise, run = read_number(ratio[1]), read_number(ratio[2])
            slope = rise / run if min(rise, run) >= 0 else None
        elif angle and 0 < (degrees := read_number(angle[1])) < 89:
            slope = tangent(degrees)
    except (InputError, ZeroDivisionError):
        slope = None
    if slope is None:
        raise refusal("slope-unreadable", f"{shown(given)} is not a slope.", _SLOPE_REMEDY)
    if not FLATTEST_SLOPE <= slope <= STEEPEST_SLOPE:
        raise refusal(
            "out-of-limits",
            f"A slope of {shown(given)} cannot be cut as a dovetail.",
            "Give one from 1:2 to 1:60; 1:5 to 1:8 is usual.",
        )
    return slope


def read_taper(given: object) -> Fraction:
    """In how many millimetres a taper comes in by one: 100, "1:100" or "1 in 100" is 100.

    Nothing is 0: no taper.

    Raises:
        InputError: `taper-unreadable`.
    """
    ratio = _matched(_RATIO, given)
    try:
        if not ratio:
            return read_number(given)
        rise, run = read_number(ratio[1]), read_number(ratio[2])
        return run / rise if rise else rise
    except InputError:
        raise refusal(
            "taper-unreadable",
            f"{shown(given)} is not a taper.",
            'Write a ratio such as "1:100", or 0 for none.',
        ) from None


def read_angle(given: object) -> Fraction:
    """Degrees, exactly: 12, "12", "12 deg", "12.5°" or "-22 1/2 degrees".

    Raises:
        InputError: `angle-unreadable`.
    """
    written = _matched(_DEGREES, given)
    try:
        return read_number(written[1] if written else given)
    except InputError:
        raise refusal(
            "angle-unreadable",
            f"{shown(given)} is not an angle.",
            'Write degrees, such as 12 or "12 deg".',
        ) from None


def _matched(pattern: str, given: object) -> re.Match[str] | None:
    """How a short text is written, where it is one and written so."""
    return re.fullmatch(pattern, given) if isinstance(given, str) and len(given) <= 40 else None


def read_count(given: object) -> int:
    """A whole number, or its digits.

    Raises:
        InputError: `count-unreadable`.
    """
    if isinstance(given, str) and re.fullmatch(r"[0-9]{1,6}", given.strip()):
        return int(given)
    if isinstance(given, bool) or not isinstance(given, int):
        raise refusal(
            "count-unreadable", f"{shown(given)} is not a whole number.", "Write one, such as 3."
        )
    return given


def read_flag(given: object) -> bool:
    """True or false.

    Raises:
        InputError: `flag-unreadable`.
    """
    if not isinstance(given, bool):
        raise refusal(
            "flag-unreadable",
            f"{shown(given)} is neither true nor false.",
            "Write true or false, without quotes.",
        )
    return given


def table_from_text(given: str) -> Mapping[str, object] | None:
    """A table written as text on the command line, such as ``{ style = "even" }``, or None."""
    text = given.strip()
    if not text.startswith("{") or not text.endswith("}") or len(text) > _LONGEST_TABLE:
        return None
    try:
        read = tomllib.loads(f"table = {text}", parse_float=_decimal)
    except (tomllib.TOMLDecodeError, ValueError, ArithmeticError, RecursionError):
        return None
    table = read.pop("table")
    return table if isinstance(table, dict) and not read else None


def _decimal(written: str) -> Decimal:
    if len(written) > 40:
        raise ValueError
    return Decimal(written)


def with_point(finding: Finding, given: object) -> Finding:
    """The finding with a point as its remedy, where what was given has a decimal comma."""
    text = given if isinstance(given, str) and len(given) <= _LONGEST_SHOWN else ""
    if not re.fullmatch(_DECIMAL_COMMA, text) or not finding.code.endswith(
        ("unreadable", "unknown")
    ):
        return finding
    point = text.strip().replace(",", ".")
    return replace(finding, remedy=f'Write a point and not a decimal comma: "{point}".')


def sort_of(value: object) -> str:
    """What sort of thing stands in a job file, in words."""
    sorts = {bool: "true or false", str: "text", Mapping: "a table", list: "a list"}
    times = (date, datetime, time)
    words = next((words for sort, words in sorts.items() if isinstance(value, sort)), "a number")
    return "a date or time" if isinstance(value, times) else words


def shown(value: object) -> str:
    """What was given, cut short, text in quotes; a table or a list is only named."""
    if isinstance(value, Mapping | list):
        return sort_of(value).capitalize()
    if isinstance(value, str):
        return repr(clipped(value))
    as_written = isinstance(value, bool | Decimal)
    return clipped(str(value).lower() if as_written else str(value).capitalize())


def clipped(words: str) -> str:
    """Words of a length that fits into a message."""
    return words if len(words) <= _LONGEST_SHOWN else f"{words[:_LONGEST_SHOWN]}…"
