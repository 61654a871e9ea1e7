"""What follows from the four lengths of a calibration sheet, for any printer."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.lengths import Units
from joinery_templates.printers.readings import Readings, Stated, judged
from tests.strategies import cases

A4 = Stated(Fraction(150), Fraction(200))
LETTER = Stated(Fraction(1143, 10), Fraction(1524, 10))
SHEETS = st.sampled_from([A4, LETTER, Stated(Fraction(90), Fraction(120))])
SCALES = st.floats(0.98, 1.02)
NEAR_TRUE = st.floats(0.9905, 1.0095)
LEANS = st.floats(-0.5, 0.5)


def lengths(stated: Stated, across: float, along: float, lean_deg: float) -> list[float]:
    """The rectangle's printed lengths, from where its corners land."""
    lean = math.radians(lean_deg)

    def landed(x: float, y: float) -> tuple[float, float]:
        return across * x + along * math.sin(lean) * y, along * math.cos(lean) * y

    width, height = float(stated.across), float(stated.along)
    lower_left, lower_right = landed(0, 0), landed(width, 0)
    upper_left, upper_right = landed(0, height), landed(width, height)
    return [
        math.dist(lower_left, lower_right),
        math.dist(lower_left, upper_left),
        math.dist(lower_left, upper_right),
        math.dist(lower_right, upper_left),
    ]


def readings(figures: list[float], steps: int = 10**6) -> Readings:
    return Readings(*(Fraction(round(figure * steps), steps) for figure in figures))


@given(stated=SHEETS, across=SCALES, along=SCALES, lean=LEANS)
@cases(60)
def test_exact_lengths_give_the_printer_back(stated, across, along, lean):
    verdict = judged(readings(lengths(stated, across, along, lean)), stated, Units.MM)
    assert float(verdict.across) == pytest.approx(across, abs=1e-7)
    assert float(verdict.along) == pytest.approx(along, abs=1e-7)
    assert float(verdict.skew_deg) == pytest.approx(lean, abs=1e-4)


def scale_reading(length: float, true: float, back: float) -> float:
    """A length read with a comparison scale that is printed as wrongly as the length.

    Line n of the scale stands `back` and (20 - n) divisions of 0.95 mm before the cross. The
    one that meets a whole millimetre of the rule best is read: whole millimetres to the
    cross, and n twentieths.
    """
    places = [length * (1 - (back + (20 - n) * 0.95) / true) for n in range(21)]
    n = min(range(21), key=lambda one: abs(places[one] - round(places[one])))
    return min(
        (math.floor(length) + whole + n / 20 for whole in (-1, 0, 1)),
        key=lambda reading: abs(reading - length),
    )


@given(stated=SHEETS, across=NEAR_TRUE, along=NEAR_TRUE, lean=LEANS)
@cases(200)
def test_readings_by_the_comparison_scale_are_as_good_as_stated(stated, across, along, lean):
    """The doubt that is told holds, although the scale is stretched with the sheet."""
    figures = lengths(stated, across, along, lean)
    trues = [stated.across, stated.along, stated.diagonal, stated.diagonal]
    read = [
        scale_reading(figure, float(true), back)
        for figure, true, back in zip(figures, trues, (0, 0, 8, 8), strict=True)
    ]
    verdict = judged(readings(read), stated, Units.MM, fine=True)
    assert abs(float(verdict.across) - across) <= float(verdict.scale_doubt)
    assert abs(float(verdict.along) - along) <= float(verdict.scale_doubt)
    assert abs(float(verdict.skew_deg) - lean) <= float(verdict.skew_doubt_deg)


def test_a_true_sheet_read_by_the_comparison_scale_is_true():
    for figures, stated in (([150, 200, 250, 250], A4), ([114.3, 152.4, 190.5, 190.5], LETTER)):
        verdict = judged(readings(figures), stated, Units.MM, fine=True)
        assert (verdict.across, verdict.along, verdict.skew_deg) == (1, 1, 0)
        assert not verdict.gains


def test_the_longer_rising_diagonal_is_a_lean_to_the_right():
    assert judged(readings([150, 200, 250.3, 249.7]), A4, Units.MM).skew_deg > 0
    assert judged(readings([150, 200, 249.7, 250.3]), A4, Units.MM).skew_deg < 0


@pytest.mark.parametrize(
    ("figures", "codes", "words"),
    [
        ([144, 192, 240, 240], {"reading-absurd"}, "fit to page"),
        ([5.91, 7.87, 9.84, 9.84], {"reading-inches"}, '"5.91 in"'),
        ([3810, 5080, 6350, 6350], {"reading-millimetres"}, '"150 mm"'),
        ([150, 200, 250, 252.5], {"readings-disagree"}, "near 250 mm"),
        ([150, 200, 225, 250], {"reading-absurd"}, "225 mm"),
        ([154.6, 200, 250, 250], {"reading-absurd"}, "154.6 mm"),
    ],
)
def test_absurd_figures_are_refused_with_their_cause(figures, codes, words):
    with pytest.raises(InputError, match=words) as refused:
        judged(readings(figures), A4, Units.MM)
    assert {finding.code for finding in refused.value.findings} == codes


@pytest.mark.parametrize("slip", [0.3, -0.3])
@pytest.mark.parametrize("place", range(4))
def test_slips_of_a_reading_within_an_eyes_error_are_taken(place, slip):
    figures = [150.0, 200.0, 250.0, 250.0]
    figures[place] += slip
    judged(readings(figures), A4, Units.MM)


@pytest.mark.parametrize("slip", [2.5, -2.5])
@pytest.mark.parametrize("place", range(4))
def test_larger_slips_of_one_reading_are_told(place, slip):
    figures = [150.0, 200.0, 250.0, 250.0]
    figures[place] += slip
    with pytest.raises(InputError, match="do not fit"):
        judged(readings(figures), A4, Units.MM)
