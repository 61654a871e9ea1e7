"""Long words on the first pages run over to the next page; none is lost over a page's edge."""

import pytest

from joinery_templates.jobs.tables import LONGEST_NOTES, LONGEST_WORDS
from tests.pdf.drawn_jobs import pages_from
from tests.sheets.page_checks import outside

NOTE = "Ash of the old tree behind the barn, "
JOB = """
title = "{title}"
notes = "{notes}"
[paper]
size = "{paper}"
[boards."{name}"]
width = 60
thickness = 12
[boards.other]
width = 60
thickness = 12
[[joints]]
kind = "box-joint"
corners = ["A", "B", "C", "D"]
first_board = "{name}"
second_board = "other"
"""


@pytest.mark.parametrize("paper", ["A4", "A6"])
def test_the_longest_words_are_told_whole_and_so_is_what_stands_below_them(paper):
    notes, titles = LONGEST_NOTES // len(NOTE), LONGEST_WORDS // 6
    text = JOB.format(
        paper=paper,
        notes=NOTE * notes,
        title=" ".join(["Chest"] * titles),
        name=" ".join(["chest"] * 10),
    )
    pages = pages_from(text)
    assert [fault for page in pages for fault in outside(page, 10)] == []
    told = " ".join(words.text for page in pages for words in page.words)
    assert told.count("barn,") == notes
    # In the title block it stands cut short.
    assert told.count("Chest") >= titles
    assert "Lay a steel rule on both rulers of every sheet" in told
    for corner in ("A, near left", "B, far left", "C, far right", "D, near right"):
        assert f"{corner}:" in told
    assert told.count("(left-hand end)") == told.count("(right-hand end)") == 4
