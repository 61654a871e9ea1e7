"""Signs that the embedded fonts have, and those for which a box is printed."""

import subprocess
import sys
from fractions import Fraction

from joinery_templates.pdf.fonts import (
    DejaVu,
    missing_signs,
    printable,
    runs,
    size_pt,
)


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


def shown(words):
    return "".join(signs for _, _, signs in runs(words, bold=False))


def test_hebrew_stands_from_right_to_left_between_words_that_do_not():
    """Unicode Standard Annex 9: numbers keep their order (L2), brackets are mirrored (L4)."""
    assert shown("Corner A · אב (ג) 12 · end") == ("Corner A · 12 (ג) בא · end")


def test_arabic_letters_are_joined():
    """Beh, beh, beh: initial, medial, final form (Unicode chart FE70 to FEFF), last one left."""
    assert shown("ببب") == "ﺐﺒﺑ"
    assert missing_signs("صندوق אב") == ""


def test_eastern_signs_come_from_a_font_of_their_own_a_square_each():
    words = "Box 桐の箱 측판"
    assert missing_signs(words) == ""
    assert [name for name, _, _ in runs(words, bold=False)] == [
        "DejaVuSansCondensed",
        "DroidSansFallback",
        "DejaVuSansCondensed",
        "DroidSansFallback",
    ]
    square = size_pt(Fraction(3), bold=False) * 25.4 / 72 * 0.87
    assert abs(float(DejaVu().width("桐箱", Fraction(3))) - 2 * square) < 0.01


def test_no_eastern_font_is_read_for_western_words():
    code = (
        "from joinery_templates.pdf import fonts\n"
        "fonts.DejaVu().width('Bræt ⅜ ✂ ▲ Ж', 3)\n"
        "from reportlab.pdfbase import pdfmetrics\n"
        "print(fonts.EASTERN in pdfmetrics._fonts)\n"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, text=True)
    assert ran.stdout.strip() == "False"
