"""Signs that the embedded fonts have, and those for which a box is printed."""

import subprocess
import sys
import time

import pytest
from reportlab.pdfbase.ttfonts import TTFontFace

from joinery_templates.drawings.direction import isolated
from joinery_templates.drawings.lettering import wrapped
from joinery_templates.exact import Fraction
from joinery_templates.pdf.fonts import (
    BOLD,
    EASTERN,
    REGULAR,
    DejaVu,
    load,
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


def test_widths_are_exact():
    """Ten digits: 10 * 1172 / 2048 of the size, rounded to thousandths, is 5723.

    A capital is 1493 / 2048 of the size high (the outline of H), 3 mm here.
    """
    assert DejaVu().width("0123456789", Fraction(3)) == 3 * Fraction(5723, 1000) * 2048 / 1493


def test_bold_letters_run_wider():
    assert DejaVu().width("Corner A", Fraction(5), bold=True) > DejaVu().width(
        "Corner A", Fraction(5)
    )


def shown(words):
    return "".join(signs for _, _, signs in runs(words, bold=False))


def test_hebrew_stands_from_right_to_left_between_words_that_do_not():
    """Unicode Standard Annex 9: numbers keep their order (L2), brackets are mirrored (L4)."""
    assert shown("Corner A · אב (ג) 12 · end") == ("Corner A · 12 (ג) בא · end")


@pytest.mark.parametrize(
    ("name", "seen"),
    [
        ("אבג", "גבא"),
        ("אב 12", "12 בא"),
        ("אב (ג)", "(ג) בא"),
        ("(אב) 3-4", "3-4 (בא)"),
        ("אב (box) 12", "12 (box) בא"),
        ("Box (אב) 12", "Box (בא) 12"),
        ("Box [אב", "Box [בא"),
        ("<אב>", "<בא>"),
    ],
)
def test_a_name_moves_nothing_around_it(name, seen):
    """By hand after Unicode Standard Annex 9; brackets in pairs: its rule N0.

    What stands around it runs from left to right, whatever the name ends in.
    """
    around = "({}) 115 mm, {}: [{}] 3/4"
    assert shown(around.format(*[isolated(name)] * 3)) == around.format(seen, seen, seen)
    assert shown(isolated(name)) == seen


def test_a_note_in_hebrew_keeps_its_own_order():
    """It is read leftwards: first a word, then 12, then cm; the full stop at the left end."""
    assert shown(isolated("אב 12 cm, ג.")) == ".ג ,cm 12 בא"


def test_signs_of_isolation_are_not_printed():
    assert printable(isolated("אב")) == "אב"
    assert shown("side \u2066box\u2069, \u2067") == "side box, "


LONG_WORDS = {"W": "W", "Chinese": "桐", "Hebrew": "ש", "Arabic": "ب", "lam and alef": "لا"}


@pytest.mark.parametrize("letters", LONG_WORDS.values(), ids=LONG_WORDS)
def test_a_word_of_4000_letters_is_broken_quickly_into_lines_that_fit(letters):
    """It took from 8 seconds to over a minute, while one letter was dropped at a time."""
    lettering, room, cap = DejaVu(), Fraction(170), Fraction(5, 2)
    word = (letters * 4000)[:4000]
    start = time.process_time()
    lines = wrapped(word, room, cap, lettering)
    assert time.process_time() - start < 1
    assert "".join(lines) == word
    assert all(lettering.width(line, cap) <= room for line in lines)
    assert all(lettering.width(line, cap) > room - 2 * cap for line in lines[:-1])


def test_arabic_is_measured_as_each_of_its_lines_is_printed():
    """A letter at the end of a broken word takes its final form, and so that form's width."""
    lettering, cap = DejaVu(), Fraction(5, 2)
    room = lettering.width("ببب", cap)
    assert [shown(line) for line in wrapped("ب" * 5, room, cap, lettering)] == ["ﺐﺒﺑ", "ﺐﺑ"]


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


@pytest.mark.parametrize("name", [REGULAR, BOLD, EASTERN])
def test_a_fonts_letters_are_read_as_reportlab_reads_them_one_by_one(name):
    face = load(name).face
    slow = TTFontFace(str(face.filename))
    assert face.defaultWidth == slow.defaultWidth
    assert {code for code in range(0x20000) if code in face.charToGlyph} == {*slow.charToGlyph}
    assert {code: face.charToGlyph[code] for code in slow.charToGlyph} == slow.charToGlyph
    assert {code: face.getCharWidth(code) for code in slow.charToGlyph} == slow.charWidths
    assert face.getCharWidth(0) == slow.getCharWidth(0) == slow.defaultWidth
    assert list(face.glyphPos) == slow.glyphPos
    # Past those that have a width of their own it takes thousandths for the font's units.
    own = [width for width, _ in slow.hmetrics if isinstance(width, int)]
    widths = own + own[-1:] * (len(slow.hmetrics) - len(own))
    metrics = [(width, side) for width, (_, side) in zip(widths, slow.hmetrics, strict=True)]
    assert len(metrics) > 6000
    assert [face.hmetrics[glyph] for glyph in range(len(metrics))] == metrics
