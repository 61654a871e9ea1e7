"""Signs that the embedded fonts have, and those for which a box is printed."""

from fractions import Fraction

from joinery_templates.pdf.fonts import DejaVu, missing_signs, printable


def test_signs_of_one_weight_only_are_missing_too():
    """U+F000 is in the regular font alone; headings are bold."""
    assert printable("\uf000") == "□"


def test_no_sign_is_reported_that_the_fonts_have():
    assert missing_signs("Bræt ⅜ ½ 12° ≈ ◄ ► Łódź Ж ⌀ ′ ″ ▲ ✂") == ""


def test_accents_that_were_typed_apart_are_put_together():
    decomposed = "Bänke"
    assert printable(decomposed) == "Bänke"
    assert missing_signs(decomposed) == ""


def test_a_wide_row_of_equal_digits_is_as_wide_as_its_digits():
    """Digits of DejaVu Sans Condensed are 1171 of 2048 parts of the size, capitals 1493 high."""
    width = DejaVu().width("0123456789" * 10, Fraction(3))
    assert abs(width - Fraction(100 * 3 * 1171, 1493)) < Fraction(1, 5)


def test_bold_letters_run_wider():
    assert DejaVu().width("Corner A", Fraction(5), bold=True) > DejaVu().width(
        "Corner A", Fraction(5)
    )
