"""Single values from a job file or the command line: slopes, angles, counts, tables."""

import re
import tomllib
from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction

from joinery_templates.errors import InputError, mistake
from joinery_templates.exact import tangent
from joinery_templates.lengths import Units, read_length, read_number

STEEPEST_SLOPE = Fraction(1, 2)
FLATTEST_SLOPE = Fraction(1, 60)
MOST_LISTED = 401
"""No list of lengths is longer: 201 tails and the pins between them."""

_SLOPE_REMEDY = 'Write a ratio such as "1:6" or an angle such as "9.5 deg".'
_RATIO = re.compile(r"\s*([\d./ -]+?)\s*(?::|in)\s*([\d./ -]+?)\s*")
_ANGLE = re.compile(r"\s*([\d.]+)\s*(?:deg|degrees|°)\s*")
_DEGREES = re.compile(r"\s*(.*?)\s*(?:deg|degrees|°)\s*")
_LONGEST_TABLE = 4000


def read_slope(given: object) -> Fraction:
    """How much a side leans for each millimetre along it: 1:6 is 1/6.

    Ratios stay exact; an angle becomes a rational within `exact.TANGENT_BOUND`.

    Raises:
        InputError: `slope-unreadable` or `out-of-limits`.
    """
    text = given if isinstance(given, str) else ""
    slope = None
    if len(text) <= 40:
        ratio, angle = _RATIO.fullmatch(text), _ANGLE.fullmatch(text)
        try:
            if ratio:
                rise, run = read_number(ratio[1]), read_number(ratio[2])
                slope = rise / run if min(rise, run) >= 0 else None
            elif angle and 0 < (degrees := read_number(angle[1])) < 80:
                slope = tangent(degrees)
        except (InputError, ZeroDivisionError):
            slope = None
    if slope is None:
        raise InputError(
            mistake("slope-unreadable", f"{shown(given)} is not a slope.", _SLOPE_REMEDY)
        )
    if not FLATTEST_SLOPE <= slope <= STEEPEST_SLOPE:
        raise InputError(
            mistake(
                "out-of-limits",
                f"A slope of {shown(given)} cannot be cut as a dovetail.",
                "Custom is 1:5 to 1:8; this program draws 1:2 to 1:60.",
            )
        )
    return slope


def read_taper(given: object) -> Fraction:
    """In how many millimetres a taper comes in by one: 100, "1:100" or "1 in 100" is 100.

    Nothing is 0: no taper.

    Raises:
        InputError: `taper-unreadable`.
    """
    ratio = _RATIO.fullmatch(given) if isinstance(given, str) and len(given) <= 40 else None
    try:
        if not ratio:
            return read_number(given)
        rise, run = read_number(ratio[1]), read_number(ratio[2])
        return run / rise if rise else rise
    except InputError:
        raise InputError(
            mistake(
                "taper-unreadable",
                f"{shown(given)} is not a taper.",
                'Write a ratio such as "1:100", or 0 for none.',
            )
        ) from None


def read_angle(given: object) -> Fraction:
    """Degrees, exactly: 12, "12", "12 deg", "12.5°" or "-22 1/2 degrees".

    Raises:
        InputError: `angle-unreadable`.
    """
    written = _DEGREES.fullmatch(given) if isinstance(given, str) and len(given) <= 40 else None
    try:
        return read_number(written[1] if written else given)
    except InputError:
        raise InputError(
            mistake(
                "angle-unreadable",
                f"{shown(given)} is not an angle.",
                'Write degrees, such as 12 or "12 deg".',
            )
        ) from None


def read_count(given: object) -> int:
    """A whole number, or its digits.

    Raises:
        InputError: `count-unreadable`.
    """
    if isinstance(given, str) and re.fullmatch(r"[0-9]{1,6}", given.strip()):
        return int(given)
    if isinstance(given, bool) or not isinstance(given, int):
        raise InputError(
            mistake("count-unreadable", f"{shown(given)} is not a whole number.", "Write digits.")
        )
    return given


def read_flag(given: object) -> bool:
    """True or false.

    Raises:
        InputError: `flag-unreadable`.
    """
    if not isinstance(given, bool):
        raise InputError(
            mistake(
                "flag-unreadable",
                f"{shown(given)} is neither true nor false.",
                "Write true or false, without quotes.",
            )
        )
    return given


def read_lengths(given: object, units: Units) -> tuple[Fraction, ...]:
    """A list of lengths above 0, in mm.

    Raises:
        InputError: `not-a-list`, or what is wrong with a length.
    """
    if not isinstance(given, list) or not 1 <= len(given) <= MOST_LISTED:
        raise InputError(
            mistake(
                "not-a-list",
                f"{shown(given)} is not a list of 1 to {MOST_LISTED} lengths.",
                "Write for example [20, 5, 30, 5, 20].",
            )
        )
    lengths = tuple(read_length(one, units) for one in given)
    if min(lengths) <= 0:
        raise InputError(
            mistake("out-of-limits", "A length of this list is not above 0.", "Mend that length.")
        )
    return lengths


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


def shown(given: object) -> str:
    """What was given, in quotes and cut short; a table or a list is only named."""
    if isinstance(given, Mapping | list):
        return "A table" if isinstance(given, Mapping) else "This list"
    text = str(given)
    return repr(text if len(text) <= 40 else text[:40] + "…")
