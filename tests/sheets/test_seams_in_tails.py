"""On a wide dovetailed board a seam goes through the middle of a tail wherever one is in reach."""

import re
import tomllib
from itertools import chain

import pytest

from joinery_templates.build import pdf_of
from joinery_templates.drawings.figure import Role
from joinery_templates.exact import Fraction
from joinery_templates.jobs.overrides import Overrides
from joinery_templates.jobs.reader import read_job
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.papers import find_paper
from tests.pdf.dovetail_table import corner_of
from tests.pdf.drawn_jobs import booklet_from, bound_from, sample_text
from tests.pdf.page_reading import OPEN_HATCH, clipped, read_pages
from tests.sheets.page_checks import shown

MARGIN, OVERLAP, SIDE = 10, 14, 11
"""Of the pages, of two sheets, and the paper beside a board, in mm."""
JOB = """
title = "Carcase"
units = "mm"
[paper]
size = "{paper}"
overlap = {overlap}
margin = {margin}
[boards.side]
width = {width}
thickness = 19
[boards.top]
width = {width}
thickness = 20
[[joints]]
kind = "through-dovetail"
corners = ["A"]
tail_board = "side"
pin_board = "top"
slope = "1:8"
tails = {tails}
half_pin = 9
pin = {pin}
"""


def seam_and_room(text: str, paper: str) -> tuple[float, float]:
    """The only seam across the tail board's wrap, and how long a tile can be."""
    views = [
        window
        for page in booklet_from(text).pages
        for window in page.windows
        if "SIDE template" in page.title and not window.shows_all
    ]
    (end, _) = sorted({float(one.view.right) for one in views})
    area = Frame(find_paper(paper), Margins(*[Fraction(MARGIN)] * 4)).area
    return end - OVERLAP / 2, float(area.height if views[0].turned else area.width)


@pytest.mark.parametrize(
    ("paper", "width", "tails", "pin"),
    [
        ("A4", 450, 9, 8),
        ("A4", 420, 8, 8),
        ("A4", 447, 7, 15),
        ("A4", 400, 12, 6),
        ("Letter", 380, 5, 20),
        ("A3", 610, 9, 12),
        ("A3", 620, 10, 25),
    ],
)
def test_it_is_the_middle_of_a_tail_or_as_near_as_the_page_reaches(paper, width, tails, pin):
    text = JOB.format(
        paper=paper, overlap=OVERLAP, margin=MARGIN, width=width, tails=tails, pin=pin
    )
    numbers = corner_of(tomllib.loads(text))
    seam, room = seam_and_room(text, paper)
    low, high = width + 2 * SIDE - room + OVERLAP / 2, room - OVERLAP / 2
    # A tail is free of lines between its sides where they come nearest, at the baseline.
    inwards = numbers.slope * (numbers.pin_thickness + numbers.tails_proud)
    free = [(one.at + inwards + SIDE, two.at - inwards + SIDE) for one, two in numbers.tails]
    in_reach = [(a, b) for a, b in free if min(b - 7, high) >= max(a + 7, low)]
    assert in_reach
    ((a, b),) = [(a, b) for a, b in free if a < seam < b]
    wanted = min(max((a + b) / 2, low), high)
    # In a tail of more than 50 mm it need not be the very middle.
    assert abs(seam - wanted) <= 1 or min(seam - a, b - seam) >= 25


def test_labels_that_give_way_to_a_seam_stay_on_the_face_that_they_name():
    """Two seams cut two of four labels on each face of a template 17 in wide."""
    bound = bound_from(sample_text("blanket_chest"), Overrides(paper="Letter"))
    wraps = [one for one in bound.tiled if "template" in one.drawn.title]
    assert wraps
    for one in wraps:
        folds = {s.start[1] for s in one.drawn.strokes if s.role is Role.FOLD}
        texts = [text for layer in one.pattern.layers for text in layer.texts]
        for text in (*texts, *chain.from_iterable(one.own)):
            if "outside face" in text.words:
                assert (text.turn, text.at[1] < min(folds)) == (0, True)
            if "inside face" in text.words:
                assert (text.turn, text.at[1] > max(folds)) == (180, True)


def test_both_sheets_of_a_seam_say_what_is_done_there():
    """The label beside a slim template stands where the lower sheet has paper and no words."""
    bound = bound_from(sample_text("handrail"), Overrides(paper="Letter"))
    said = " ".join(words.text for page in read_pages(bound.content) for words in page.words)
    letters = [seam.letter for one in bound.tiled for seam in one.seams]
    assert letters == list("abcde")
    assert sorted(re.findall(r"([a-z]): under (?:sheet|part) \d", said)) == letters
    assert sorted(re.findall(r"([a-z]): on (?:sheet|part) \d", said)) == letters


CUT_IN_A_SPACE = """
title = "Box"
boards = { b = { width = 354.4, thickness = 45.2 }, side = { width = 354.4, thickness = 45.2 } }
[[joints]]
kind = "full-blind-dovetail"
tail_board = "b"
pin_board = "side"
half_pin_far = 38.2
lap = 32.9
views = ["faces"]
"""


def test_what_is_said_of_spaces_stands_in_spaces_also_where_a_seam_cuts_one():
    """The pin board has six, one of them cut; in the tail board's only the widest has room."""
    hatched = []
    for page in read_pages(pdf_of(read_job(CUT_IN_A_SPACE))[0]):
        hatches = [line for line in page.lines if line.pen == OPEN_HATCH]
        boxes = (shown(words) for words in page.words if words.text == "2nd: spaces")
        hatched += [any(clipped(o.start, o.end, box) for o in hatches) for box in boxes if box]
    assert hatched == [True] * 6
