"""Every page of every paper: rulers, margins, and words that stand clear of all else."""

import pytest
from msgspec.structs import replace

from tests.pdf.drawn_jobs import SAMPLES, pages_from
from tests.pdf.page_reading import HATCH, SAW, Line, PageRead
from tests.sheets.page_checks import (
    collisions,
    faults,
    furniture_faults,
    outside,
    ruler_faults,
    rulers,
    words_of,
    zero_of,
)
from tests.sheets.page_jobs import TITLE, job_text

NAMES = {path.stem: path.read_text("utf-8") for path in SAMPLES}
PAPERS = {0: "A4", 1: "A3", 2: "Legal", 4: "roll 610 x 900 mm", 5: "A5", 12: "A6"}


@pytest.mark.parametrize(("number", "paper"), PAPERS.items())
def test_made_up_jobs_pages_are_without_fault(number, paper):
    assert faults(list(pages_from(job_text(paper, number))), TITLE) == []


def test_on_huge_paper_the_first_page_is_without_fault():
    pages = list(pages_from(job_text("Arch E", 1)))
    assert list(collisions(pages[0])) + list(outside(pages[0], 10)) == []
    assert list(ruler_faults(pages[0], words_of(pages[0]))) == []


def test_rulers_of_a4_and_letter_are_as_long_as_agreed():
    """180 and 250 mm on A4; 7 and 9 in on Letter, whose base lines end at the longer scale."""
    for name, words in (
        ("workshop_drawer", "180 mm across and 250 mm along"),
        ("tea_box", "7 in across and 9 in along"),
    ):
        pages = pages_from(NAMES[name])
        assert words in words_of(pages[0])
        for page in pages:
            across, along = rulers(page)
            longer = {"workshop_drawer": 250, "tea_box": 230}[name]
            assert abs(across.length - 180) < 0.001
            assert abs(along.length - longer) < 0.001


@pytest.fixture
def page() -> PageRead:
    """A sample's page with a wrap, to be spoilt; the pages read are shared, so copies are."""
    good = pages_from(NAMES["tea_box"])[3]
    placements = [replace(p, lines=[*p.lines], words=[*p.words]) for p in good.placements]
    return PageRead(good.width_pt, good.height_pt, placements)


def new_faults(page: PageRead) -> list[str]:
    """What is told of a spoilt page and not of the page as drawn."""
    stated = words_of(pages_from(NAMES["tea_box"])[0])

    def told(one: PageRead) -> list[str]:
        return [*collisions(one), *outside(one, 10), *ruler_faults(one, stated)]

    before = told(pages_from(NAMES["tea_box"])[3])
    return [fault for fault in told(page) if fault not in before]


def test_a_page_that_was_not_spoilt_tells_nothing_new(page):
    assert new_faults(page) == []


def test_words_moved_onto_words_are_found(page):
    label, other = page.placements[1].words[:2]
    page.placements[1].words.append(replace(label, at=other.at, end=other.end, box=other.box))
    assert any("stands on '" in fault for fault in new_faults(page))


def test_a_line_through_words_is_found_and_hatching_is_not(page):
    words = page.placements[1].words[0]
    left, low, right, high = words.box
    through = Line((left, (low + high) / 2), (right, (low + high) / 2), SAW, None)
    page.placements[1].lines.append(through)
    assert any("stands on a line" in fault for fault in new_faults(page))
    page.placements[1].lines[-1] = replace(through, pen=HATCH)
    assert new_faults(page) == []


def test_a_line_that_is_clipped_away_before_the_words_is_not_found(page):
    words = page.placements[1].words[0]
    left, low, right, high = words.box
    through = Line((left, low), (right, high), SAW, (0, 0, left - 1, low - 1))
    page.placements[1].lines.append(through)
    assert not any("stands on a line" in fault for fault in new_faults(page))


@pytest.mark.parametrize(
    ("start", "end", "said"),
    [
        ((5, 100), (40, 100), "in the margin"),
        ((100, 5), (100, 60), "in the margin"),
        ((100, 100), (210, 100), "in the margin"),
        ((100, 20), (100, 60), "stands on a ruler"),
    ],
)
def test_a_line_in_the_margin_or_over_a_ruler_is_found(page, start, end, said):
    page.placements[1].lines.append(Line(start, end, SAW, None))
    assert any(said in fault for fault in new_faults(page))


def test_words_in_the_lowest_17_mm_are_found(page):
    words = page.placements[0].words[0]
    page.placements[0].words.append(replace(words, at=(100, 12), end=(110, 12)))
    assert any("above the lower edge" in fault for fault in new_faults(page))


def test_a_ruler_that_is_a_hundredth_too_long_is_found(page):
    furniture = page.placements[0]
    across, _ = rulers(page)
    longer = replace(across, end=(across.end[0] + 0.01, across.end[1]))
    furniture.lines[furniture.lines.index(across)] = longer
    assert any("should be 180" in fault for fault in new_faults(page))


def test_a_graduation_that_is_missing_is_found(page):
    furniture = page.placements[0]
    x, _ = zero_of(page)
    furniture.lines = [
        line
        for line in furniture.lines
        if not (abs(line.start[0] - x - 77) < 0.001 and abs(line.end[0] - x - 77) < 0.001)
    ]
    assert any("millimetre graduations" in fault for fault in new_faults(page))


def test_a_page_with_a_wrong_number_or_title_is_found(page):
    total = len(pages_from(NAMES["tea_box"]))
    assert list(furniture_faults(page, 4, total, "Tea box")) == []
    assert "the sheet's number is missing" in list(furniture_faults(page, 4, total + 1, "Tea box"))
    assert "the title is missing" in list(furniture_faults(page, 4, total, "Coffee box"))


LEANING = """
title = "Tray"
[paper]
size = "A5"
[boards.long]
width = 84
thickness = 12
[boards.short]
width = 84
thickness = 12
[[joints]]
kind = "canted-box-joint"
corners = ["A", "B", "C", "D"]
first_board = "long"
second_board = "short"
fingers = 7
lean = -15
"""


def test_on_the_plan_words_keep_clear_of_wood_that_stands_past_it_and_of_what_is_told_below():
    assert [fault for page in pages_from(LEANING)[:3] for fault in collisions(page)] == []
