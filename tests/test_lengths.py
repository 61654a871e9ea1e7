"""Lengths are read exactly as written, and never printed as exact when they are not."""

from decimal import Decimal

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.lengths import (
    LONGEST,
    Units,
    as_told,
    decimal_text,
    inch_text,
    mm_text,
    read_length,
    read_number,
    told_text,
)

LENGTHS = st.fractions(min_value=-99_999, max_value=99_999)

NEAR_A_HALF_TENTH = st.builds(
    lambda tenths, off: tenths / Fraction(10) + Fraction(1, 20) + off,
    st.integers(-20_000, 20_000),
    st.fractions("-1/100", "1/100"),
)
"""Where a figure that is rounded to hundredths first comes out at another tenth."""


def codes(caught: pytest.ExceptionInfo[InputError]) -> list[str]:
    return [finding.code for finding in caught.value.findings]


# Worked by hand from 1 in = 25.4 mm.
@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("19 mm", "19"),
        ("19mm", "19"),
        ("12.3", "12.3"),
        ("1.9 cm", "19"),
        ("0.26 m", "260"),
        (".5 mm", "0.5"),
        ("5. mm", "5"),
        ("-3 mm", "-3"),
        ("+ 3 mm", "3"),
        ("3/4 in", "19.05"),
        ("3/4 in.", "19.05"),
        ("1/3 in", "127/15"),
        ("5 1/2 in", "139.7"),
        ('5-1/2"', "139.7"),
        ("-5 1/2 in", "-139.7"),
        ("0.75 inches", "19.05"),
        ("1 foot", "304.8"),
        ("1' 2 3/8\"", "365.125"),
        ("1'-2 3/8\"", "365.125"),
        ("1 ft 2 in", "355.6"),
        ("2 feet 0.5 inch", "622.3"),
        ("  19  MM ", "19"),
        ("1 17/64 in full (1.269)", "32.2326"),
        ("-1 1/4 in bare (1.248)", "-31.6992"),
    ],
)
def test_lengths_are_read_as_a_joiner_writes_them(text, mm):
    assert read_length(text, Units.MM) == Fraction(mm)


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("5½ in", "5 1/2 in"),
        ("5 ½ in", "5 1/2 in"),
        ("5-½ in", "5 1/2 in"),
        ("½″", "1/2 in"),
        ("⅟2 in", "1/2 in"),
        ("5 1⁄2 in", "5 1/2 in"),
        ("2″", "2 in"),
        ("2”", "2 in"),
        ("2''", "2 in"),
        ("1′ 2½″", "1 ft 2.5 in"),
        ("1’ 2”", "14 in"),
        ("5‑1/2 in", "5 1/2 in"),
        ("−3 mm", "-3 mm"),
        ("5\u00a0mm", "5 mm"),
        ("5\u2009mm", "5 mm"),
        ("１９ mm", "19 mm"),
        ("5 ㎜", "5 mm"),
    ],
)
def test_typographic_signs_mean_what_the_eye_sees(text, plain):
    assert read_length(text, Units.MM) == read_length(plain, Units.MM)


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "mm",
        "-",
        "--3 mm",
        "abc",
        "5 furlongs",
        "12,5 mm",
        "1e3 mm",
        "nan",
        "inf",
        "0x10",
        "1_000 mm",
        "1/0 in",
        "1 1/00 in",
        "5 - 1/2 in",  # 4 1/2 or 5 1/2?
        "5²",
        "5①",
        "5⒈",
        "٣ mm",
        "1½½ in",
        "1 2 mm",
        "1.5/2 in",
        "5 mm\x00",
        "5 mm 3",
        "5 mm; 6 mm",
        "9" * 41,
    ],
)
def test_what_is_not_surely_a_length_is_refused(text):
    with pytest.raises(InputError) as caught:
        read_length(text, Units.MM)
    assert codes(caught) == ["length-unreadable"]
    assert caught.value.findings[0].remedy


@pytest.mark.parametrize(
    "given_value", [True, False, None, 1.5, float("nan"), Decimal("NaN"), Decimal("sNaN"), b"5 mm"]
)
def test_only_text_and_exact_numbers_are_lengths(given_value):
    with pytest.raises(InputError) as caught:
        read_length(given_value, Units.MM)
    assert codes(caught) == ["length-unreadable"]


@pytest.mark.parametrize(
    "given_value",
    [
        100_001,
        -100_001,
        "100.001 m",
        "4000 in",
        "329 ft",
        pytest.param(10**5000, id="5001 digits"),
        pytest.param(Fraction(10**5001, 3), id="5001 digits over 3"),
        Decimal("1E+999999"),
        "9" * 40,
    ],
)
def test_more_than_100_metres_is_absurd(given_value):
    with pytest.raises(InputError) as caught:
        read_length(given_value, Units.MM)
    assert codes(caught) == ["length-absurd"]
    assert len(str(caught.value)) < 200


def test_exactly_100_metres_is_still_a_length():
    assert read_length("100 m", Units.MM) == read_length(100_000, Units.MM) == LONGEST


@pytest.mark.parametrize("zero", [0, "0", "0 in", "-0 mm", Decimal("0E+999999999"), Decimal("-0")])
def test_nothing_is_nothing(zero):
    assert read_length(zero, Units.INCH) == 0


def test_decimals_are_not_read_through_a_float():
    """0.1 as a float is 0.1000000000000000055..."""
    assert read_length(Decimal("0.1"), Units.MM) == Fraction(1, 10)
    assert read_length("0.1", Units.INCH) == Fraction(254, 100)


@given(LENGTHS.filter(lambda length: abs(length) < 3900))
def test_bare_numbers_are_in_the_units_of_the_file(number):
    assert read_length(number, Units.MM) == number
    assert read_length(number, Units.INCH) * 5 == number * 127


@given(st.text(max_size=60))
def test_any_text_is_either_a_sane_length_or_a_kind_refusal(text):
    try:
        length = read_length(text, Units.INCH)
    except InputError:
        return  # any other error fails the test
    assert abs(length) <= LONGEST


@pytest.mark.parametrize(
    ("text", "number"),
    [("2/3", "2/3"), ("-1.5", "-3/2"), ("5½", "11/2"), ("1 1/2", "3/2"), (" 7 ", "7")],
)
def test_plain_numbers_are_read_exactly(text, number):
    assert read_number(text) == Fraction(number)


@pytest.mark.parametrize(
    "given_value", ["5 mm", "", "1/0", "1e3", True, None, 0.5, Decimal("inf"), Decimal("1E+99")]
)
def test_what_is_not_a_plain_number_is_refused(given_value):
    with pytest.raises(InputError) as caught:
        read_number(given_value)
    assert codes(caught) == ["number-unreadable"]


@pytest.mark.parametrize(
    ("value", "places", "text"),
    [
        ("32.25", 2, "32.25"),
        ("32.50", 2, "32.5"),
        ("100", 2, "100"),
        ("1/3", 2, "≈0.33"),
        ("-1/3", 2, "≈-0.33"),
        ("1/1000", 2, "≈0"),
        ("-1/1000", 2, "≈0"),
        ("199/2", 0, "≈100"),
        ("0.07", 2, "0.07"),
        ("6.2479", 2, "≈6.248"),
        ("-6.2479", 2, "≈-6.248"),
        ("6.2521", 2, "≈6.25"),
        ("0.2479", 2, "≈0.25"),  # told in hundredths, on paper too
    ],
)
def test_decimals_are_short_and_honest(value, places, text):
    assert decimal_text(Fraction(value), places) == text


@pytest.mark.parametrize(
    ("inches", "text"),
    [
        ("0", "0 in"),
        ("1/2", "1/2 in"),
        ("5.5", "5 1/2 in"),
        ("-5.5", "-5 1/2 in"),
        ("81/64", "1 17/64 in"),
        ("1.269", "1 17/64 in full (1.269)"),  # 17/64 = 0.2656
        ("1.2625", "1 17/64 in bare (1.262)"),
        ("-1.269", "-1 17/64 in full (1.269)"),
        ("-0.002", "-0.002 in"),
        ("0.0004", "0 in"),
        ("-0.0004", "0 in"),
        ("0.0079", "1/64 in bare (0.008)"),
        ("1/3", "21/64 in full (0.333)"),  # 21/64 = 0.328
        ("0.2654", "17/64 in"),
        ("0.2657", "17/64 in"),
        ("1.9999", "2 in"),
        ("1.995", "2 in bare (1.995)"),
    ],
)
def test_inches_between_two_lines_of_a_rule_are_bare_or_full(inches, text):
    assert inch_text(Fraction(inches) * Fraction(254, 10)) == text


HUNDREDTHS = st.integers(-9_999_999, 9_999_999).map(lambda n: Fraction(n, 100))


@given(HUNDREDTHS)
def test_every_hundredth_of_a_millimetre_prints_exactly_and_reads_back_equal(length):
    assert "≈" not in mm_text(length)
    assert read_length(mm_text(length), Units.INCH) == length


@given(LENGTHS)
def test_inches_read_back_to_half_a_thousandth_and_are_bare_or_full_as_they_say(length):
    text = inch_text(length)
    near = read_length(text, Units.MM)
    assert abs(near - length) <= Fraction("25.4") / 2000
    if "(" in text:
        on_the_rule = read_length(text.split(" bare")[0].split(" full")[0], Units.MM)
        assert ("full" in text) == (abs(length) > abs(on_the_rule))


@given(LENGTHS | NEAR_A_HALF_TENTH)
def test_millimetres_in_more_than_hundredths_say_that_they_are_rounded(length):
    text = mm_text(length)
    near = read_length(text.removeprefix("≈"), Units.MM)
    is_rounded = (length * 100).denominator > 1
    assert text.startswith("≈") == is_rounded
    assert abs(near - length) <= (Fraction("0.005") if is_rounded else 0)


@pytest.mark.parametrize(
    ("length", "told"),
    [
        ("73/6", "12.2 mm"),  # 12.1666…
        ("137/7", "19.6 mm"),  # 19.5714…
        ("49/4", "12.25 mm"),  # as it was given
        ("1/3", "0.33 mm"),
        ("3001/300", "10 mm"),
        ("11547/1000", "11.5 mm"),  # and not 11.6, of the nearest hundredth, 11.55
        ("-11547/1000", "-11.5 mm"),
        ("11453/1000", "11.5 mm"),
    ],
)
def test_on_paper_what_had_to_be_rounded_is_told_to_a_tenth(length, told):
    assert told_text(Fraction(length), Units.MM) == told
    exact = mm_text(Fraction(length))
    assert as_told(f"Gauge {exact} on the face.") == f"Gauge {told} on the face."


@given(LENGTHS | NEAR_A_HALF_TENTH)
def test_what_is_told_on_paper_is_the_nearest_tenth_of_the_exact_length(length):
    """Below a millimetre, and where its hundredths are all there is of it, the hundredth."""
    near = read_length(told_text(length, Units.MM), Units.MM)
    in_tenths = abs(length) >= 1 and (length * 100).denominator > 1
    assert abs(near - length) <= (Fraction("0.05") if in_tenths else Fraction("0.005"))


@given(LENGTHS)
def test_what_reads_as_rounded_is_not_read_back_as_a_length(length):
    text = mm_text(length)
    assume(text.startswith("≈"))
    with pytest.raises(InputError):
        read_length(text, Units.MM)
