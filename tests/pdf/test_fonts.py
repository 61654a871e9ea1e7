"""Signs that the embedded fonts have, and those for which a box is printed."""

from fractions import Fraction

from joinery_templates.pdf.fonts import DejaVu, missing_signs, printable, size_pt


def test_signs_of_one_weight_only_are_missing_too():
    """U+F000 is in the regular font alone; headings are bold."""
    assert printable("\uf000") == "□"


def test_no_sign_is_reported_that_the_fonts_have():
    assert missing_signs("Bræt ⅜ ½ 12° ≈ ◄ ► Łódź Ж ⌀ ′ ″ ▲ ✂") == ""


def test_accents_that_were_typed_apart_are_put_together():
    decomposed = "Bänke"
    assert printable(decomposed) == "Bänke"
    assert missing_signs(decomposed) == ""


def test_a_row_of_digits_is_as_wide_as_its_digits():
    """A digit of DejaVu Sans Condensed is 1172 of 2048 parts of the size wide (its hmtx table)."""
    width = DejaVu().width("0123456789" * 10, Fraction(3))
    size = size_pt(Fraction(3), bold=False) * 25.4 / 72
    assert abs(float(width) - 100 * size * 1172 / 2048) < 0.01


def test_bold_letters_run_wider():
    assert DejaVu().width("Corner A", Fraction(5), bold=True) > DejaVu().width(
        "Corner A", Fraction(5)
    )
