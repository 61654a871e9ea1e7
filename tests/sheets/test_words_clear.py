"""Nothing on a page stands on anything, and nothing is cut; the long runs are in `exhaustive`."""

from random import Random

import pytest

from joinery_templates.build import pdf_of
from joinery_templates.jobs.reader import read_job
from joinery_templates.joints.catalogue import kinds
from tests.exhaustive import wide_boards
from tests.exhaustive.words_on_lines import faults_of, job_and_pdf
from tests.pdf.page_reading import OPEN_HATCH, clipped, read_pages
from tests.sheets.page_checks import shown


def test_no_word_of_a_random_job_stands_on_anything():
    """Wide boards on small paper, on which words once stood on lines by the hundred."""
    text, pdf = job_and_pdf(Random(30022))
    assert faults_of(pdf) == [], text


@pytest.mark.parametrize("kind", kinds().values(), ids=kinds())
def test_nothing_on_the_taped_sheets_of_wide_boards_stands_on_anything_or_is_cut(kind):
    text, pdf = wide_boards.job_and_pdf(Random(kind.name), kind)
    assert faults_of(pdf) == [], text


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
