"""What a person measures on a calibration sheet, and what follows from it.

On the sheet stands a rectangle ``across`` wide and ``along`` high with both diagonals.
From the four printed lengths follow the two scales and the skew; since three lengths
would do, the fourth shows a slip of the reading.
"""

import math
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.errors import InputError, mistake
from joinery_templates.lengths import INCH, Units, decimal_text, length_text
from joinery_templates.measure.causes import likely_cause
from joinery_templates.sheets.correction import Correction

LARGEST_ERROR = Fraction(3, 100)
"""More is a setting in the print dialog and not the printer (our judgement)."""
RULE_ERROR = Fraction(15, 100)
"""What an eye reads off a steel rule to either side, in mm (our judgement)."""
FINE_ERROR = Fraction(5, 100)
"""What the fine comparison scale shows to either side, in mm: one of its steps."""


@dataclass(frozen=True, slots=True)
class Stated:
    """The true lengths of the rectangle on a calibration sheet, in mm."""

    across: Fraction
    along: Fraction

    @property
    def diagonal(self) -> Fraction:
        """Its diagonal, exact, since the sides are as 3 to 4."""
        return self.along * Fraction(5, 4)


@dataclass(frozen=True, slots=True)
class Readings:
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


@dataclass(frozen=True, slots=True)
class Verdict:
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
        InputError: `reading-inches`, `reading-absurd` or `readings-disagree`.
    """
    _check_each(readings, stated, units)
    across, along = readings.across / stated.across, readings.along / stated.along
    error = FINE_ERROR if fine else RULE_ERROR
    _check_together(readings, units)
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


def _rounded(degrees: float) -> Fraction:
    return Fraction(round(degrees * 10**6), 10**6)


def _check_each(readings: Readings, stated: Stated, units: Units) -> None:
    findings = []
    for name, reading, true in (
        ("across", readings.across, stated.across),
        ("along", readings.along, stated.along),
        ("rising", readings.rising, stated.diagonal),
        ("falling", readings.falling, stated.diagonal),
    ):
        if abs(reading / true - 1) <= LARGEST_ERROR:
            continue
        shown, should = length_text(reading, units), length_text(true, units)
        if abs(reading * INCH / true - 1) <= LARGEST_ERROR:
            findings.append(
                mistake(
                    "reading-inches",
                    f"{shown} looks like inches: the sheet says {should}.",
                    f'Did you mean "{decimal_text(reading, 3)} in"? Write the unit.',
                    name,
                )
            )
        else:
            cause = likely_cause(float(reading / true), float(reading / true))
            findings.append(
                mistake(
                    "reading-absurd",
                    f"{shown} was read where the sheet says {should}. {cause}",
                    "Only an error below 3 % can be the printer's own.",
                    name,
                )
            )
    if findings:
        raise InputError(*findings)


def _check_together(readings: Readings, units: Units) -> None:
    """The diagonals must fit the sides: their squares add up to twice the sides' squares."""
    of_sides = 2 * (readings.across**2 + readings.along**2)
    of_diagonals = readings.rising**2 + readings.falling**2
    # A reading error of 0.3 mm on each length explains this much and no more.
    most = (
        Fraction(6, 10)
        * 2
        * (readings.across + readings.along + readings.rising + readings.falling)
    )
    if abs(of_sides - of_diagonals) > most:
        expected = Fraction(math.sqrt(float(of_sides / 2))).limit_denominator(100)
        raise InputError(
            mistake(
                "readings-disagree",
                "The diagonals do not fit the sides: with these sides both diagonals lie near "
                f"{length_text(expected, units)}.",
                "Measure all four again on one sheet.",
                "rising",
            )
        )
