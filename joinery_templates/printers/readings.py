"""What a person measures on a calibration sheet, and what follows from it.

On the sheet stands a rectangle ``across`` wide and ``along`` high with both diagonals.
From the four printed lengths follow the two scales and the skew; since three lengths
would do, the fourth shows a slip of the reading.
"""

import math
from fractions import Fraction
from itertools import product

from msgspec import Struct
from msgspec.structs import astuple

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.lengths import INCH, Units, decimal_text, length_text
from joinery_templates.measure.causes import likely_cause
from joinery_templates.sheets.calibration import BACK, DIVISION, DIVISIONS, inset
from joinery_templates.sheets.correction import Correction

LARGEST_ERROR = Fraction(3, 100)
"""More is a setting in the print dialog and not the printer (our judgement)."""
RULE_ERROR = Fraction(15, 100)
"""What an eye reads off a steel rule to either side, in mm (our judgement)."""
FINE_ERROR = Fraction(5, 100)
"""What the fine comparison scale shows to either side, in mm: one of its steps."""
FINE_LIMIT = Fraction(1, 100)
"""A comparison scale that is more stretched cannot be read (worked out with its lines)."""
LEAST_AGREEMENT = Fraction(1, 10)
"""No printer's rectangle is so exact a parallelogram that a closer fit can be asked for."""
GRACE = Fraction(4, 3)
SPAN = Fraction(250)
"""The length over which the accuracy is told, in mm."""


class Stated(Struct, frozen=True):
    """The true lengths of the rectangle on a calibration sheet, in mm."""

    across: Fraction
    along: Fraction

    @property
    def diagonal(self) -> Fraction:
        """Its diagonal, exact, since the sides are as 3 to 4."""
        return self.along * Fraction(5, 4)


class Readings(Struct, frozen=True):
    """What the person measured, in mm.

    Attributes:
        across: the rectangle's width.
        along: its height.
        rising: the diagonal that rises to the right.
        falling: the diagonal that falls to the right.
    """

    across: Fraction
    along: Fraction
    rising: Fraction
    falling: Fraction

    @property
    def disagreement(self) -> Fraction:
        """By how much the diagonals' squares, in mm², miss twice the squares of the sides."""
        return 2 * (self.across**2 + self.along**2) - self.rising**2 - self.falling**2


class Verdict(Struct, frozen=True):
    """What readings say about a printer.

    Attributes:
        across: printed over true length.
        along: the same along the page.
        skew_deg: how far the upright direction leans to the right.
        scale_doubt: how far the scales may be off through the reading.
        skew_doubt_deg: the same for the skew.
    """

    across: Fraction
    along: Fraction
    skew_deg: Fraction
    scale_doubt: Fraction
    skew_doubt_deg: Fraction

    @property
    def gains(self) -> bool:
        """Whether any error is larger than the doubt of its reading."""
        return (
            max(abs(self.across - 1), abs(self.along - 1)) > self.scale_doubt
            or abs(self.skew_deg) > self.skew_doubt_deg
        )

    @property
    def length_left(self) -> float:
        """How far off a line of 250 mm may still be in its length, in mm."""
        return float(SPAN * self.scale_doubt)

    @property
    def square_left(self) -> float:
        """How far off square its end may still be, in mm."""
        return float(SPAN) * math.tan(math.radians(float(self.skew_doubt_deg)))

    def correction(self, name: str, date: str) -> Correction:
        """The correction to draw with."""
        return Correction(name, date, self.across, self.along, self.skew_deg)


def judged(readings: Readings, stated: Stated, units: Units, fine: bool = False) -> Verdict:
    """What follows from readings.

    Args:
        readings: what was measured.
        stated: what the sheet says.
        units: for the figures in messages.
        fine: read with the comparison scale, and not only with a rule.

    Raises:
        InputError: `reading-inches`, `reading-millimetres`, `reading-absurd`,
            `readings-disagree` or `too-far-for-scale`.
    """
    _check_each(readings, stated, units)
    error = RULE_ERROR
    if fine:
        true = _unstretched(readings, stated)
        error = _fine_error(readings, true, stated)
        readings = true
    _check_together(readings, units, max(error, LEAST_AGREEMENT))
    across, along = readings.across / stated.across, readings.along / stated.along
    squares = readings.rising**2 - readings.falling**2
    sine = float(squares / (4 * readings.across * readings.along))
    doubt = float(error * 2 * stated.diagonal / (2 * stated.across * stated.along))
    return Verdict(
        across=across,
        along=along,
        skew_deg=_rounded(math.degrees(math.asin(sine))),
        scale_doubt=error / min(stated.across, stated.along),
        skew_doubt_deg=_rounded(math.degrees(doubt)),
    )


def _unstretched(readings: Readings, stated: Stated) -> Readings:
    """What the lengths are, when they were read with the comparison scales.

    A scale is printed by the same printer, and so is as much too long as the rest: the
    line that meets a graduation stands not `inset` before the cross, but that much
    stretched. A whole reading may have come from the first line or from the last: what
    fits the other lengths best is taken.
    """
    backs = (Fraction(0), Fraction(0), BACK, BACK)
    trues = (stated.across, stated.along, stated.diagonal, stated.diagonal)
    possible = [
        [(reading - before) / (1 - before / true) for before in _insets(reading, back)]
        for reading, back, true in zip(astuple(readings), backs, trues, strict=True)
    ]
    return min(
        (Readings(*lengths) for lengths in product(*possible)),
        key=lambda one: abs(one.disagreement),
    )


def _fine_error(readings: Readings, true: Readings, stated: Stated) -> Fraction:
    """What the comparison scales show to either side, in mm.

    On a sheet printed too long their twenty steps no longer reach from one whole
    millimetre to the next: between the last line and the first no line meets well, and
    of a whole reading it is not sure which of the two it was.

    Raises:
        InputError: `too-far-for-scale`.
    """
    longer = (true.across / stated.across - 1, true.along / stated.along - 1)
    away = max(map(abs, longer))
    if away > FINE_LIMIT:
        raise InputError(
            mistake(
                "too-far-for-scale",
                "This printer errs by more than 1 %, and its comparison scales with it.",
                "Measure with the rule alone, from cross to cross, and leave --fine out.",
                "fine",
            )
        )
    span = DIVISIONS * DIVISION
    if any(reading % 1 == 0 for reading in astuple(readings)):
        return FINE_ERROR + away * span * 3 / 4
    return FINE_ERROR + max(Fraction(0), *longer) * span / 2


def _insets(reading: Fraction, back: Fraction) -> list[Fraction]:
    """How far before the cross the line may stand that a reading names."""
    number = reading % 1 * DIVISIONS
    return [inset(line, back) for line in ([number] if number else [number, Fraction(DIVISIONS)])]


def _rounded(degrees: float) -> Fraction:
    return Fraction(round(degrees * 10**6), 10**6)


def _check_each(readings: Readings, stated: Stated, units: Units) -> None:
    trues = (stated.across, stated.along, stated.diagonal, stated.diagonal)
    pairs = zip(("across", "along", "rising", "falling"), astuple(readings), trues, strict=True)
    findings = [
        _absurd(name, reading, true, units)
        for name, reading, true in pairs
        if not _near(reading, true)
    ]
    if findings:
        raise InputError(*findings)


def _near(reading: Fraction, true: Fraction) -> bool:
    return abs(reading / true - 1) <= LARGEST_ERROR


def _absurd(name: str, reading: Fraction, true: Fraction, units: Units) -> Finding:
    """Why a reading cannot be the printer's own error."""
    shown, should = length_text(reading, units), length_text(true, units)
    if _near(reading * INCH, true):
        return mistake(
            "reading-inches",
            f"{shown} looks like inches: the sheet says {should}.",
            f'Did you mean "{_plain(reading)} in"? Write the unit.',
            name,
        )
    if _near(reading / INCH, true):
        return mistake(
            "reading-millimetres",
            f"{shown} looks like millimetres: the sheet says {should}.",
            f'Did you mean "{_plain(reading / INCH)} mm"? Write the unit.',
            name,
        )
    cause = likely_cause(float(reading / true), float(reading / true))
    return mistake(
        "reading-absurd",
        f"{shown} was read where the sheet says {should}. {cause}",
        "Only an error below 3 % can be the printer's own. If the sheet is of another paper, "
        "name it with --paper.",
        name,
    )


def _plain(length: Fraction) -> str:
    return decimal_text(length, 3).lstrip("≈")


def _check_together(readings: Readings, units: Units, error: Fraction) -> None:
    """The diagonals must fit the sides: their squares add up to twice the sides' squares.

    An error of each reading explains so much and, with a little grace, no more.
    """
    sides, diagonals = readings.across + readings.along, readings.rising + readings.falling
    if abs(readings.disagreement) <= (4 * sides + 2 * diagonals) * error * GRACE:
        return
    expected = Fraction(math.sqrt(readings.across**2 + readings.along**2)).limit_denominator(100)
    raise InputError(
        mistake(
            "readings-disagree",
            "The diagonals do not fit the sides: with these sides both diagonals lie near "
            f"{length_text(expected, units)}.",
            "Measure all four again on one sheet.",
            "rising",
        )
    )
