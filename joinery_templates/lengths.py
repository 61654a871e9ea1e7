"""Reading and printing lengths, exactly.

A length is a `Fraction` of millimetres everywhere inside the program. One inch
is 127/5 mm (25.4 mm exactly, the international inch of 1959), so fractions of
an inch are exact too. Millimetres that had to be rounded say so (≈), save on paper.
"""

import re
import unicodedata
from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum
from functools import lru_cache, partial
from numbers import Rational

from joinery_templates.errors import InputError, refusal
from joinery_templates.exact import Fraction, as_float, exactly, rounded

INCH = Fraction(127, 5)
FOOT = 12 * INCH
LONGEST = Fraction(100_000)
"""No board or sheet here is longer than 100 m; more is a slip of the pen."""

FINEST_RULE = 64
"""Lines to the inch on the finest rule that a joiner reads."""
HALF_A_THOUSANDTH = Fraction(1, 2000)
"""Of an inch: nearer than anybody sets a tool."""

_LONGEST_TEXT = 40
_LARGEST_POWER = 30
_HUGE = 10**_LONGEST_TEXT
_TYPOGRAPHIC = str.maketrans("⁄″”′’−‐–", "/\"\"''---")
_REMEDY = 'Write for example "19 mm", "1.9 cm", "3/4 in", "5 1/2 in" or "1\' 2 3/8\\"".'

_UNIT_MM = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": INCH,
    "inch": INCH,
    "inches": INCH,
    '"': INCH,
    "ft": FOOT,
    "foot": FOOT,
    "feet": FOOT,
    "'": FOOT,
}
# "5 - 1/2" with space on both sides is left out on purpose: it may mean 4 1/2 as well as 5 1/2.
_NUMBER = r"(?:\d+[ -]\d+/0*[1-9]\d*|\d+/0*[1-9]\d*|\d+(?:\.\d*)?|\.\d+)"
# As text: what a job does not need is not compiled, which takes as long as to read a job.
_ONE = rf"(?P<sign>[-+]?)\s*(?P<number>{_NUMBER})\s*(?:(?P<unit>[a-z]+)\.?|(?P<tick>[\"']))?"
_FEET_AND_INCHES = (
    rf"(?P<feet>\d+)\s*(?:'|(?:ft|foot|feet)\b\.?)\s*-?\s*(?P<inches>{_NUMBER})"
    r"\s*(?:\"|(?:in|inch|inches)\.?)"
)
_BARE_OR_FULL = rf"(?P<sign>-?){_NUMBER} in (?:bare|full) \((?P<inches>\d+\.\d+)\)"


class Units(StrEnum):
    """The units of bare numbers, and of printed figures."""

    MM = "mm"
    INCH = "in"

    @property
    def mm(self) -> Fraction:
        """How many millimetres one unit is."""
        return Fraction(1) if self is Units.MM else INCH


def read_length(given: object, units: Units) -> Fraction:
    """A length in millimetres from what stands in a job file or on the command line.

    Args:
        given: a bare number (int, Decimal or Fraction) in `units`, or text with or
            without a unit of its own.
        units: what a bare number means.

    Raises:
        InputError: `length-unreadable` or `length-absurd`.
    """
    if isinstance(given, str):
        length = _read_text(given, units)
    elif isinstance(given, Decimal) and _is_vast(given):
        length = 2 * LONGEST  # so many digits are never written out as a whole number
    elif _is_number(given):
        length = read_number(given) * units.mm
    else:
        raise _unreadable(given)
    if abs(length) > LONGEST:
        message = f"{_shown(given)} is longer than 100 m."
        raise refusal("length-absurd", message, "Check the number.")
    return length


def read_number(given: object) -> Fraction:
    """A plain number, exactly, from an int, Decimal, Fraction or text such as ``2/3``.

    Raises:
        InputError: `number-unreadable`.
    """
    if isinstance(given, str) and len(given) <= _LONGEST_TEXT:
        match = re.fullmatch(rf"([-+]?)({_NUMBER})", _plain(given))
        if match:
            return (-1 if match[1] == "-" else 1) * _mixed(match[2])
    if isinstance(given, Rational) and _is_number(given):
        return exactly(given)
    if isinstance(given, Decimal) and _is_number(given):
        return Fraction(given)
    message = f"{_shown(given)} is not a plain number."
    raise refusal("number-unreadable", message, "Write digits, such as 1.25.")


def _is_vast(given: Decimal) -> bool:
    return given.is_finite() and bool(given) and given.adjusted() > _LARGEST_POWER


def _is_number(given: object) -> bool:
    """Whether a value is a number that can be held exactly without filling the memory."""
    if isinstance(given, Decimal):
        return given.is_finite() and (not given or abs(given.adjusted()) <= _LARGEST_POWER)
    return isinstance(given, Rational) and not isinstance(given, bool)


def _read_text(text: str, units: Units) -> Fraction:
    if len(text) > _LONGEST_TEXT:
        raise _unreadable(text)
    plain = _plain(text)
    # No text is of two of these forms, and most are of the first.
    if one := re.fullmatch(_ONE, plain):
        unit = one["unit"] or one["tick"]
        if unit and unit not in _UNIT_MM:
            raise _unreadable(text)
        size = _mixed(one["number"]) * (_UNIT_MM[unit] if unit else units.mm)
        return -size if one["sign"] == "-" else size
    if both := re.fullmatch(_FEET_AND_INCHES, plain):
        return int(both["feet"]) * FOOT + _mixed(both["inches"]) * INCH
    if printed := re.fullmatch(_BARE_OR_FULL, plain):
        return Fraction(printed["sign"] + printed["inches"]) * INCH
    raise _unreadable(text)


def _plain(text: str) -> str:
    """Typographic fractions, quotes and dashes as their plain forms: 5½″ -> 5 1/2".

    Nothing is left of a text in which a sign would turn into other digits than the
    eye sees, such as a raised 2 or a 5 in a circle.
    """
    spaced = ""
    for sign in text:
        kind = unicodedata.decomposition(sign).partition(" ")[0]
        folded = unicodedata.normalize("NFKC", sign)
        turned = folded != sign and re.search(r"\d", folded)
        if turned and kind not in {"<fraction>", "<wide>", "<font>"}:
            return ""
        mixed = kind == "<fraction>" and spaced[-1:].isdigit()
        spaced += f" {folded}" if mixed else folded
    plain = spaced.strip().lower().translate(_TYPOGRAPHIC).replace("''", '"')
    return re.sub(r"\s+", " ", plain) if plain.isascii() else ""


def _mixed(number: str) -> Fraction:
    """'5 1/2', '5-1/2', '1/2' or '5.5' as a rational."""
    whole, _, part = number.replace("-", " ").rpartition(" ")
    return int(whole or 0) + Fraction(f"0{part}")


def _unreadable(given: object) -> InputError:
    return refusal("length-unreadable", f"{_shown(given)} is not a length.", _REMEDY)


def _shown(given: object) -> str:
    """What was given, in quotes and cut short."""
    if isinstance(given, Rational) and any(
        abs(int(part)) > _HUGE for part in (given.numerator, given.denominator)
    ):
        return "a number of more than 40 digits"
    text = given if isinstance(given, str) else str(given)
    return repr(text if len(text) <= _LONGEST_TEXT else text[:_LONGEST_TEXT] + "…")


def decimal_text(value: Fraction, places: int) -> str:
    """A rational in decimals, shortest form; with ≈ before it where it was rounded.

    In hundredths, what is just below a half tenth shows it: ``≈11.547``, not ``≈11.55``, whose
    nearest tenth is another (see `as_told`).
    """
    scaled = rounded(value * 10**places)
    exact = abs(value) * 100
    if places == 2 and exact < abs(scaled) > 100 and abs(scaled) % 10 == 5:
        below = min(round(10 * exact), 10 * abs(scaled) - 1)
        return f"≈{decimal_text(Fraction(below if value > 0 else -below, 1000), 3)}"
    sign = "-" if scaled < 0 else ""
    whole, rest = divmod(abs(scaled), 10**places)
    decimals = f"{rest:0{places}d}".rstrip("0") if places else ""
    mark = "" if Fraction(scaled, 10**places) == value else "≈"
    return f"{mark}{sign}{whole}{'.' if decimals else ''}{decimals}"


def mm_text(length: Fraction, places: int = 2) -> str:
    """A length in millimetres, such as ``32.25 mm``; ``≈36.33 mm`` where rounded."""
    return f"{decimal_text(length, places)} mm"


@lru_cache(maxsize=256)
def inch_text(length: Fraction) -> str:
    """A length in inches as a joiner says it, such as ``1 17/64 in``.

    Between two lines of the rule it is the nearest with ``bare`` or ``full``, and the inches
    in brackets to a thousandth: ``3/4 in bare (0.746)``.
    """
    inches = abs(length) / INCH
    sign = "-" if length < 0 else ""
    decimals = f"{as_float(inches):.3f}"
    nearest = Fraction(round(inches * FINEST_RULE), FINEST_RULE)
    near_enough = abs(inches - nearest) <= HALF_A_THOUSANDTH
    if not nearest and not near_enough:
        return f"{sign}{decimals} in"
    whole, part = divmod(nearest, 1)
    figure = " ".join(filter(None, (str(whole) if whole or not part else "", str(part or ""))))
    if near_enough:
        return f"{sign if nearest else ''}{figure} in"
    return f"{sign}{figure} in {'full' if inches > nearest else 'bare'} ({decimals})"


def length_text(length: Fraction, units: Units) -> str:
    """A length in the person's own units."""
    return mm_text(length) if units is Units.MM else inch_text(length)


Tell = Callable[[Fraction], str]
"""Says a length as the person wants figures said."""


def teller(units: Units, both: bool = False) -> Tell:
    """What says lengths on paper in a person's units, or in both kinds."""
    return partial(told_text, units=units, both=both)


def told_text(length: Fraction, units: Units, both: bool = False) -> str:
    """A length as it is told on paper; `check` tells it exactly."""
    return as_told((both_units if both else length_text)(length, units))


def as_told(words: str) -> str:
    """Words in which millimetres that had to be rounded are told to a tenth.

    Nobody sets a tool nearer than that (our judgement), so nothing says that it was rounded; what
    a job gives, such as 12.25, stays, and so do the hundredths of what is below a millimetre.
    """
    # By the sign: each joint says its words once, with `text`, and knows not who will read them.
    return re.sub(r"≈(-?\d+\.?\d*)", _in_tenths, words)


def _in_tenths(figure: re.Match[str]) -> str:
    told = Decimal(figure[1])
    if abs(told) < 1:
        return figure[1]
    # Of what is at half a tenth, more is meant: less shows its thousandths (see `decimal_text`).
    return f"{told.quantize(Decimal('0.1'), ROUND_HALF_UP)}".removesuffix(".0")


def both_units(length: Fraction, units: Units) -> str:
    """A length in the person's units and, in brackets, near enough in the other."""
    if units is Units.MM:
        nearest = inch_text(round(length / INCH * FINEST_RULE) * INCH / FINEST_RULE)
        return f"{mm_text(length)} (about {nearest})"
    return f"{inch_text(length)} ({mm_text(length, 1)})"
