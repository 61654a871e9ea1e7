"""Hebrew and Arabic names on the pages: they displace no word and no figure around them."""

import re
from collections.abc import Iterator

import pypdfium2
import pytest

from joinery_templates.build import booklet_of
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.starter import starter
from joinery_templates.joints.catalogue import kinds
from tests.pdf.drawn_jobs import pages_from, pdf_from
from tests.pdf.page_reading import MM, Words

# As they are typed, and as they stand on paper from left to right (Unicode Standard Annex 9).
FIRST, FIRST_SEEN = "דופן 12 (א)", "(א) 12 ןפוד"
SECOND, SECOND_SEEN = "מכסה ב", "ב הסכמ"
JOB = f"""
title = "קופסה 7 (ג)"
notes = "ארז, ראו שרטוט 3."
[boards."{FIRST}"]
width = 90
thickness = 12.3
length = 260
[boards."{SECOND}"]
width = 90
thickness = 11.8
[[joints]]
kind = "through-dovetail"
name = "חיבור 5"
corners = ["A", "פינה 3", {{ name = "(צד)", like = "D" }}]
tail_board = "{FIRST}"
pin_board = "{SECOND}"
slope = "1:6"
tails = 3
half_pin = 6
pin = 2
[tools]
chisels = [3]
[printer]
name = "(מדפסת) 4"
date = "2024-05-06"
"""
# By hand: the program's own English in its order, each name where it would stand in English.
SEEN = (
    "(ג) 7 הספוק",
    ".3 טוטרש ואר ,זרא",
    f"A, near left: {FIRST_SEEN} (right-hand end)",
    "Bench page: 5 רוביח",
    f"5 רוביח · {FIRST_SEEN} (tail board) and {SECOND_SEEN} (pin",
    f"Lay on the tail board ({FIRST_SEEN})",
    f"Mark the pin board ({SECOND_SEEN}) from the",
    "Tool settings, 5 רוביח",
    f"Corner A · {FIRST_SEEN}",
    f"3 הניפ · {FIRST_SEEN}",
    f"(דצ) · {SECOND_SEEN}",
    f"board 90 mm × 11.8 mm · meets {FIRST_SEEN},",
    f"board 90 mm × 12.3 mm · meets {SECOND_SEEN},",
    "Drawn for printer: 4 (תספדמ), measured 2024-05-06.",
)


def words_of(text: str) -> list[Words]:
    return [words for page in pages_from(text) for words in page.words]


@pytest.mark.parametrize("line", SEEN)
def test_a_name_stands_where_it_would_stand_in_english(line):
    assert any(line in words.text for words in words_of(JOB))


def test_a_second_reader_sees_the_same_letters_from_left_to_right():
    """PDFium's place of every letter; its order of them, and its brackets, are its own."""
    document = pypdfium2.PdfDocument(pdf_from(JOB))
    page = document[0].get_textpage()
    rows: dict[int, list[tuple[float, str]]] = {}
    for number in range(page.count_chars()):
        left, bottom, *_ = page.get_charbox(number, loose=True)
        if left * MM > 21:  # past the ruler along the page
            rows.setdefault(round(bottom), []).append((left, page.get_text_range(number, 1)))
    document.close()
    seen = {_letters("".join(letter for _, letter in sorted(row))) for row in rows.values()}
    for line in SEEN[:2]:
        assert _letters(line) in seen
    # In the cutting list: name, pieces, length, width, thickness.
    assert any(_letters(f"{FIRST_SEEN} 3 260 mm 90 mm 12.3 mm") in line for line in seen)


def _letters(line: str) -> str:
    return re.sub(r"[() ]", "", line)


def hebrew(kind_name: str) -> str:
    """A job of this kind whose every name runs from right to left, with advice and all views."""
    text = starter(kinds()[kind_name])
    named = dict(zip(re.findall(r"^\[boards\.(.+)\]", text, re.M), (FIRST, SECOND), strict=True))
    for plain, name in named.items():
        text = text.replace(f"[boards.{plain}]", f'[boards."{name}"]')
        text = re.sub(f'^(\\w+) = "{plain}"$', rf'\1 = "{name}"', text, flags=re.M)
    text = re.sub("^title = .*", 'title = "קופסה 7"\nnotes = "ארז 3"', text, flags=re.M)
    corners = 'corners = ["פינה 3"]\nname = "חיבור 5"'
    text = re.sub(r"^corners = \[[^\]]*\].*", corners, text, flags=re.M)
    text = re.sub("^views = .*", 'views = ["wrap", "faces", "end-grain"]', text, flags=re.M)
    return f"{text}\n[tools]\nchisels = [50]\nkerf = 4\ngauge = 9.7\n"


def outside_isolates(words: str) -> Iterator[str]:
    """Letters that run leftwards and may draw what stands beside them into their order."""
    apart = re.sub("[\u2066\u2067][^\u2066\u2067\u2069]*(?:\u2069|$)", "", words)
    return (sign for sign in apart if "\u0590" <= sign <= "\u08ff")


@pytest.mark.parametrize(
    "kind",
    [
        pytest.param(name, marks=() if number % 2 == 0 else pytest.mark.exhaustive)
        for number, name in enumerate(kinds())
    ],
)
def test_every_name_on_every_page_is_put_in_order_by_itself(kind):
    """Of every other kind: one walk through all that a joint says puts the signs around names."""
    job = read_job(hebrew(kind))
    texts = {
        text.words
        for page in booklet_of(job).pages
        for window in page.windows
        for text in window.figure.texts
    }
    assert sum(FIRST in words for words in texts) > 3
    for words in texts:
        assert not list(outside_isolates(words)), words
