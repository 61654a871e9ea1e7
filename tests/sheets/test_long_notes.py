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


def words_of(paper, notes, title="Box", name="one"):
    pages = pages_from(JOB.format(paper=paper, notes=notes, title=title, name=name))
    for page in pages:
        assert list(outside(page, 10)) == []
    # Below the head, where a title stands cut short.
    return " ".join(words.text for page in pages for words in page.words)


@pytest.mark.parametrize("paper", ["A4", "A5", "A6"])
def test_the_longest_notes_are_told_whole_and_so_is_what_stands_below_them(paper):
    count = LONGEST_NOTES // len(NOTE)
    told = words_of(paper, NOTE * count)
    assert told.count("barn,") == count
    assert "Lay a steel rule on both rulers of every sheet" in told


def test_the_longest_title_is_told_whole():
    words = ["Chest"] * (LONGEST_WORDS // 6)
    assert words_of("A6", "Ash.", " ".join(words)).count("Chest") >= len(words)


def test_the_plan_of_the_corners_is_told_whole_for_the_longest_names():
    name = " ".join(["chest"] * 10)
    told = words_of("A6", "Ash.", name=name)
    for corner in ("A, near left", "B, far left", "C, far right", "D, near right"):
        assert f"{corner}:" in told
    assert told.count("(left-hand end)") == told.count("(right-hand end)") == 4
