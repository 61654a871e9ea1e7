"""What a person measures on a calibration sheet, and what follows from it.

On the sheet stands a rectangle ``across`` wide and ``along`` high with both diagonals.
From the four printed lengths follow the two scales and the skew; since three lengths
would do, the fourth shows a slip of the reading, and evens out what the eye errs.
"""

import math
import re

from msgspec import Struct
from msgspec.structs import astuple

from joinery_templates.errors import Finding, InputError, mistake, refusal, refuse
from joinery_templates.exact import Fraction, as_float, simplified, square_root
from joinery_templates.lengths import INCH, Units, decimal_text, length_text, read_length
from joinery_templates.measure.causes import likely_cause
from joinery_templates.sheets import calibration
from joinery_templates.sheets.calibration import Stated

LARGEST_ERROR = Fraction(3, 100)
"""More is a setting in the print dialog and not the printer (our judgement)."""
LARGEST_SKEW_DEG = 1
"""More is a slip of the reading or of the sheet, and not the printer (our judgement)."""
LINES_LIMIT = Fraction(15, 1000)
"""On a sheet that is more stretched no line need meet a millimetre (worked out with the lines)."""
LEAST_AGREEMENT = Fraction(1, 10)
"""No printer's rectangle is so exact a parallelogram that a closer fit can be asked for."""
GRACE = Fraction(4, 3)

_BY_LINE = re.compile(r"(\d{1,4})(?: ?mm)?,? ?line ?(\d{1,2})")


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

    @property
    def evened(self) -> "Readings":
        """The likeliest lengths: by least squares, those nearest to the readings that agree."""
        pull = (4 * self.across, 4 * self.along, -2 * self.rising, -2 * self.falling)
        share = self.disagreement / sum(one**2 for one in pull)
        pairs = zip(astuple(self), pull, strict=True)
        return Readings(*(simplified(read - share * one, 10**6) for read, one in pairs))


def read_reading(
    name: str, text: str, stated: Stated, units: Units = Units.MM
) -> tuple[Fraction, bool]:
    """A length as it was told, such as ``150 line 17``, or ``162.4`` by the rule alone.

    The numbered lines are printed by the same printer, and so are as much too far apart as
    the length is too long: the line stands not `inset` before the cross, but that much
    stretched.

    Args:
        name: which of the four lengths.
        text: what was told.
        stated: what the sheet says.
        units: of a bare number without a line.

    Returns:
        The length in mm, and whether it was read by a line.

    Raises:
        InputError: `length-unreadable`, `length-absurd` or `line-unknown`.
    """
    by_line = _BY_LINE.fullmatch(" ".join(text.lower().split()))
    if not by_line:
        return read_length(text, units), False
    millimetre, number = int(by_line[1]), int(by_line[2])
    if number > calibration.LAST:
        message = f"There is no line {number}: they are numbered 0 to {calibration.LAST}."
        raise refusal("line-unknown", message, "Look again which line meets best.")
    place = calibration.LENGTHS.index(name)
    return millimetre / (
        1 - calibration.inset(number, calibration.BACKS[place]) / stated.lengths[place]
    ), True


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
        return as_float(calibration.SPAN * self.scale_doubt)

    @property
    def square_left(self) -> float:
        """How far off square its end may still be, in mm."""
        return as_float(calibration.SPAN) * math.tan(math.radians(as_float(self.skew_doubt_deg)))


def judged(readings: Readings, stated: Stated, units: Units, by_line: bool = False) -> Verdict:
    """What follows from readings.

    Args:
        readings: what was measured.
        stated: what the sheet says.
        units: for the figures in messages.
        by_line: all were read by the numbered lines, and not only with a rule.

    Raises:
        InputError: `line-absurd`, `reading-inches`, `reading-millimetres`, `reading-absurd`,
            `readings-disagree` or `skew-absurd`.
    """
    _check_each(readings, stated, units, by_line)
    error = calibration.LINE_ERROR if by_line else calibration.RULE_ERROR
    _check_together(readings, units, max(error, LEAST_AGREEMENT))
    likely = readings.evened
    squares = likely.rising**2 - likely.falling**2
    sine = as_float(squares / (4 * likely.across * likely.along))
    skew_deg = math.degrees(math.asin(sine))
    if abs(skew_deg) > LARGEST_SKEW_DEG:
        raise _too_skew(likely, skew_deg, units)
    doubt = as_float(error * 2 * stated.diagonal / (2 * stated.across * stated.along))
    return Verdict(
        across=likely.across / stated.across,
        along=likely.along / stated.along,
        skew_deg=_rounded(skew_deg),
        scale_doubt=stated.left_over(error) / calibration.SPAN,
        skew_doubt_deg=_rounded(math.degrees(doubt)),
    )


def _too_skew(read: Readings, skew_deg: float, units: Units) -> InputError:
    """Why diagonals that fit the sides cannot be the printer's own."""
    most = 4 * read.across * read.along * Fraction(math.sin(math.radians(LARGEST_SKEW_DEG)))
    apart = round(most / (read.rising + read.falling), 1)
    return refusal(
        "skew-absurd",
        f"By these readings the printer is {abs(skew_deg):.1f}° out of square: the diagonals "
        f"differ by {length_text(round(abs(read.rising - read.falling), 1), units)}.",
        f"Measure both diagonals again. Only up to {LARGEST_SKEW_DEG}°, about "
        f"{length_text(apart, units)} here, can be the printer's own (our judgement); if the sheet "
        "went in askew or slipped, print it again.",
        "rising",
    )


def _rounded(degrees: float) -> Fraction:
    return Fraction(round(degrees * 10**6), 10**6)


def _check_each(readings: Readings, stated: Stated, units: Units, by_line: bool) -> None:
    tell, limit = (_misread, LINES_LIMIT) if by_line else (_absurd, LARGEST_ERROR)
    each = zip(calibration.LENGTHS, astuple(readings), stated.lengths, strict=True)
    refuse(
        tell(name, reading, true, units)
        for name, reading, true in each
        if not _near(reading, true, limit)
    )


def _near(reading: Fraction, true: Fraction, limit: Fraction = LARGEST_ERROR) -> bool:
    return abs(reading / true - 1) <= limit


def _misread(name: str, reading: Fraction, true: Fraction, units: Units) -> Finding:
    """What can be wrong with a line and its millimetre."""
    return mistake(
        "line-absurd",
        f"Millimetre and line together make {length_text(round(reading, 1), units)}, where the "
        f"sheet says {length_text(true, units)}.",
        "Look again which line meets best, and read its number from the figures beside it. If "
        "that was right, your printer errs by more than 1.5 %, and the lines with it: give what "
        "the rule reads at the cross.",
        name,
    )


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
    cause = likely_cause(as_float(reading / true), as_float(reading / true))
    return mistake(
        "reading-absurd",
        f"This makes {shown}, where the sheet says {should}. {cause}",
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
    expected = simplified(square_root(readings.across**2 + readings.along**2), 100)
    raise refusal(
        "readings-disagree",
        "The diagonals do not fit the sides: with these sides both diagonals lie near "
        f"{length_text(expected, units)}.",
        "Measure all four again on one sheet; of a line, look at its number again.",
        "rising",
    )
