"""What follows from the four lengths of a calibration sheet, for any printer."""

import math
import random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.lengths import Units
from joinery_templates.printers.readings import Readings, Verdict, judged, read_reading
from joinery_templates.sheets.calibration import LENGTHS, Stated, rectangle
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.papers import find_paper
from tests.printers.simulated_printer import met
from tests.strategies import cases

A4, LETTER, A5 = (
    rectangle(Frame(find_paper(paper), Margins())) for paper in ("A4", "Letter", "A5")
)
SHEETS = st.sampled_from([A4, LETTER, A5])
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
@cases(30)
def test_exact_lengths_give_the_printer_back(stated, across, along, lean):
    verdict = judged(readings(lengths(stated, across, along, lean)), stated, Units.MM)
    assert float(verdict.across) == pytest.approx(across, abs=1e-7)
    assert float(verdict.along) == pytest.approx(along, abs=1e-7)
    assert float(verdict.skew_deg) == pytest.approx(lean, abs=1e-4)


def told_by_lines(stated: Stated, figures: list[float]) -> list[str]:
    """What is written down: the line that meets a millimetre of the rule best, and that.

    Line n of 0 to 30 stands, printed as wrongly as the length, (30 - n) times 0.95 mm before
    the cross; a diagonal's 8 mm more.
    """
    trues = [stated.across, stated.along, stated.diagonal, stated.diagonal]
    return [
        met([length * (1 - (back + (30 - n) * 0.95) / float(true)) for n in range(31)])
        for length, true, back in zip(figures, trues, (0, 0, 8, 8), strict=True)
    ]


def judged_by_lines(stated: Stated, told: list[str]) -> Verdict:
    read = [read_reading(name, one, stated) for name, one in zip(LENGTHS, told, strict=True)]
    assert all(by_line for _, by_line in read)
    return judged(Readings(*(length for length, _ in read)), stated, Units.MM, by_line=True)


@given(stated=SHEETS, across=NEAR_TRUE, along=NEAR_TRUE, lean=LEANS)
@cases(80)
def test_readings_by_the_numbered_lines_are_as_good_as_stated(stated, across, along, lean):
    """The doubt that is told holds, although the lines are stretched with the sheet."""
    told = told_by_lines(stated, lengths(stated, across, along, lean))
    verdict = judged_by_lines(stated, told)
    assert abs(float(verdict.across) - across) <= float(verdict.scale_doubt)
    assert abs(float(verdict.along) - along) <= float(verdict.scale_doubt)
    assert abs(float(verdict.skew_deg) - lean) <= float(verdict.skew_doubt_deg)


def test_a_line_and_its_millimetre_are_a_length():
    """By hand, on 162 mm: line 17 stands 13 times 0.95 mm before the cross, so 149.65 mm.

    Meets it 150, the length is 162 * 150 / 149.65. A diagonal's stands 8 mm farther back.
    """
    wide = Stated(Fraction(162), Fraction(216))
    assert read_reading("across", "150 line 17", wide) == (162 * 150 / Fraction("149.65"), True)
    assert read_reading("rising", "250 mm, Line 17", wide) == (
        270 * 250 / Fraction("249.65"),
        True,
    )
    assert read_reading("across", "162.4", wide) == (Fraction("162.4"), False)
    assert read_reading("across", "6 3/8", wide, Units.INCH) == (Fraction("161.925"), False)
    with pytest.raises(InputError, match="0 to 30"):
        read_reading("across", "150 line 31", wide)


def printers(count: int) -> list[tuple[float, float, float]]:
    """Scales within 1 %, and up to half a degree of lean: the same every time."""
    chance = random.Random(250)
    scales = (0.9905, 1.0095)
    return [
        (chance.uniform(*scales), chance.uniform(*scales), chance.uniform(-0.5, 0.5))
        for _ in range(count)
    ]


def map_of(across: float, along: float, lean_deg: float) -> np.ndarray:
    lean = math.radians(lean_deg)
    return np.array([[across, along * math.sin(lean)], [0, along * math.cos(lean)]])


def left_over(verdict: Verdict, printer: tuple[float, float, float]) -> float:
    """By how much 250 mm in the worst direction are still off, once drawn for the printer."""
    corrected = map_of(float(verdict.across), float(verdict.along), float(verdict.skew_deg))
    after = map_of(*printer) @ np.linalg.inv(corrected)
    return 250 * max(abs(np.linalg.svd(after, compute_uv=False) - 1))


@pytest.mark.parametrize("count", [200, pytest.param(4000, marks=pytest.mark.exhaustive)])
@pytest.mark.parametrize(
    ("stated", "wanted"), [(A4, 0.99), (LETTER, 0.99), (A5, 0.8)], ids=["A4", "Letter", "A5"]
)
def test_nearly_all_printers_come_within_a_twentieth_over_250_mm(stated, wanted, count):
    """A5 is too small for that, and its sheet says so."""
    off = []
    for printer in printers(count):
        told = told_by_lines(stated, lengths(stated, *printer))
        off.append(left_over(judged_by_lines(stated, told), printer))
    share = sum(one <= 0.05 for one in off) / count
    print(f"{share:.1%} within 0.05 mm, the worst {max(off):.3f} mm")
    assert share >= wanted - (0.02 if count < 1000 else 0)


def backwards(told: str) -> str:
    """The same line, counted from the wrong end."""
    millimetre, _, number = told.split()
    return f"{millimetre} line {30 - int(number)}"


def refused(stated: Stated, told: list[str]) -> bool:
    try:
        judged_by_lines(stated, told)
    except InputError:
        return True
    return False


@pytest.mark.parametrize("stated", [A4, LETTER, A5], ids=["A4", "Letter", "A5"])
def test_a_line_that_is_counted_from_the_wrong_end_is_told(stated):
    """One of the four always, but for the middle line; all four alike in 49 of 50 printers."""
    passed = 0
    for printer in printers(100):
        told = told_by_lines(stated, lengths(stated, *printer))
        assert not refused(stated, told)
        for place in (place for place in range(4) if not told[place].endswith("line 15")):
            assert refused(stated, [*told[:place], backwards(told[place]), *told[place + 1 :]])
        passed += not refused(stated, [backwards(one) for one in told])
    assert passed <= 2


def test_a_true_sheet_reads_true():
    """Its last lines meet the lengths' own millimetres; on inches others meet others.

    6 in are 152.4 mm, and less 12 times 0.95 mm 141.
    """
    for stated in (A4, A5):
        told = [f"{length} line 30" for length in stated.lengths[:2]]
        told += [f"{stated.diagonal - 8} line 30"] * 2
        verdict = judged_by_lines(stated, told)
        assert (verdict.across, verdict.along, verdict.skew_deg) == (1, 1, 0)
        assert not verdict.gains
    inches = Stated(Fraction("152.4"), Fraction("203.2"))
    assert read_reading("across", "141 line 18", inches) == (inches.across, True)


def test_the_longer_rising_diagonal_is_a_lean_to_the_right():
    assert judged(readings([162, 216, 270.3, 269.7]), A4, Units.MM).skew_deg > 0
    assert judged(readings([162, 216, 269.7, 270.3]), A4, Units.MM).skew_deg < 0


@pytest.mark.parametrize(
    ("figures", "codes", "words"),
    [
        ([155.5, 207.4, 259.2, 259.2], {"reading-absurd"}, "fit to page"),
        ([6.38, 8.5, 10.63, 10.63], {"reading-inches"}, '"6.38 in"'),
        ([4114.8, 5486.4, 6858, 6858], {"reading-millimetres"}, '"162 mm"'),
        ([162, 216, 270, 272.5], {"readings-disagree"}, "near 270 mm"),
        ([162, 216, 243, 270], {"reading-absurd"}, "243 mm"),
        ([166.9, 216, 270, 270], {"reading-absurd"}, "166.9 mm"),
        # The squares of these two differ by 4 * 162 * 216 times the sine of 3.09°.
        ([162, 216, 277, 263], {"skew-absurd"}, r"3\.1° out of square: .* differ by 14 mm"),
        # 4 * 162 * 216 * sin 1° / 540 = 4.524
        ([162, 216, 272.3, 267.7], {"skew-absurd"}, "about 4.5 mm here"),
    ],
)
def test_absurd_figures_are_refused_with_their_cause(figures, codes, words):
    with pytest.raises(InputError, match=words) as refused:
        judged(readings(figures), A4, Units.MM)
    assert {finding.code for finding in refused.value.findings} == codes


def test_what_is_a_printers_own_is_kept_up_to_a_degree_out_of_square():
    assert float(judged(readings([162, 216, 272.2, 267.8]), A4, Units.MM).skew_deg) < 1


@pytest.mark.parametrize("slip", [0.3, -0.3])
@pytest.mark.parametrize("place", range(4))
def test_slips_of_a_reading_within_an_eyes_error_are_taken(place, slip):
    figures = [162.0, 216.0, 270.0, 270.0]
    figures[place] += slip
    judged(readings(figures), A4, Units.MM)


@pytest.mark.parametrize("slip", [2.5, -2.5])
@pytest.mark.parametrize("place", range(4))
def test_larger_slips_of_one_reading_are_told(place, slip):
    figures = [162.0, 216.0, 270.0, 270.0]
    figures[place] += slip
    with pytest.raises(InputError, match="do not fit"):
        judged(readings(figures), A4, Units.MM)
