"""The calibration sheet as drawn, read back by pdfminer."""

import math
import re
from functools import cache
from itertools import pairwise

import pytest

from joinery_templates.errors import InputError
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.pdf.writer import About, write_pdf
from joinery_templates.sheets.calibration import calibration_booklet, rectangle_sides
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.papers import find_paper, known_papers
from tests.pdf.page_reading import Line, PageRead, read_pages
from tests.sheets.page_checks import collisions, shown

PAPERS = ["A5", "A4", "A0", "Letter"]
STATED = re.compile(
    r"lower side\), stated ([\d /]+?) (mm|in); along \(the left side\), stated ([\d /]+?) (mm|in);"
    r" both diagonals, stated ([\d /]+?) (mm|in)"
)


@cache
def drawn(paper: str) -> PageRead:
    frame = Frame(find_paper(paper), Margins())
    (page,) = read_pages(write_pdf(calibration_booklet(frame, DejaVu()), About("", ""), None))
    return page


@pytest.fixture(scope="module", params=PAPERS)
def sheet(request) -> PageRead:
    return drawn(request.param)


@pytest.fixture(scope="module")
def a4() -> PageRead:
    return drawn("A4")


def words(page: PageRead) -> str:
    return " ".join(one.text for one in page.words)


def millimetres(figure: str, unit: str) -> float:
    whole = sum(
        int(part) if "/" not in part else int(part.split("/")[0]) / int(part.split("/")[1])
        for part in figure.split()
    )
    return whole * (25.4 if unit == "in" else 1)


def stated(page: PageRead) -> list[float]:
    found = STATED.search(words(page))
    assert found, words(page)
    return [millimetres(found[place], found[place + 1]) for place in (1, 3, 5)]


def rectangle(page: PageRead) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of the one closed rectangle of four lines."""
    across, along, _ = stated(page)
    level = [line for line in page.lines if near(length(line), across) and is_level(line)]
    upright = [line for line in page.lines if near(length(line), along) and not is_level(line)]
    lows, lefts = sorted(line.start[1] for line in level), sorted(line.start[0] for line in upright)
    assert len(lows) == len(lefts) == 2
    return lefts[0], lows[0], lefts[1], lows[1]


def near(one: float, other: float) -> bool:
    return abs(one - other) < 0.002


def length(line: Line) -> float:
    return math.dist(line.start, line.end)


def is_level(line: Line) -> bool:
    return near(line.start[1], line.end[1])


def test_the_rectangle_has_the_lengths_that_the_sheet_states(sheet):
    left, bottom, right, top = rectangle(sheet)
    across, along, diagonal = stated(sheet)
    assert near(right - left, across)
    assert near(top - bottom, along)
    assert near(math.hypot(across, along), diagonal)


def test_the_sheet_says_that_it_is_drawn_uncorrected(sheet):
    assert "drawn without any correction" in words(sheet)


def test_nothing_stands_on_anything_else(sheet):
    assert list(collisions(sheet)) == []


def test_everything_lies_on_the_page(sheet):
    width, height = sheet.width_pt * 25.4 / 72, sheet.height_pt * 25.4 / 72
    boxes = [line.box for line in sheet.lines] + [shown(one) for one in sheet.words]
    assert min(box[0] for box in boxes) > 0
    assert min(box[1] for box in boxes) > 0
    assert max(box[2] for box in boxes) < width
    assert max(box[3] for box in boxes) < height


def test_a_paper_too_small_is_refused_and_no_other():
    refused = []
    for paper in known_papers():
        try:
            frame = Frame(paper, Margins())
            frame.check_size()
            rectangle_sides(frame)
            if paper.width < 160:  # the words have more room on all others
                calibration_booklet(frame, DejaVu())
        except InputError:
            refused.append(paper.name)
    assert set(refused) == {"A6", "A7", "B6", "B7"}


SCALES = {
    "across": ((1, 0), (0, -1), 0.0),
    "along": ((0, 1), (-1, 0), 0.0),
    "rising": ((0.6, 0.8), (-0.8, 0.6), 8.0),
    "falling": ((-0.6, 0.8), (0.8, 0.6), 8.0),
}
"""Direction of the length, where its scale stands, and how far the scale ends before its cross."""


def scale_lines(page: PageRead, name: str) -> list[float]:
    """Where the lines of a comparison scale meet the rule, from the length's zero, in order."""
    left, bottom, right, top = rectangle(page)
    zero = (right, bottom) if name == "falling" else (left, bottom)
    (ux, uy), (vx, vy), _ = SCALES[name]
    reach = {"across": right - left, "along": top - bottom}.get(name, stated(page)[2])
    places = []
    for line in page.lines:
        (x, y), (x1, y1) = line.start, line.end
        start = ((x - zero[0]) * vx + (y - zero[1]) * vy, (x1 - zero[0]) * vx + (y1 - zero[1]) * vy)
        at = [(x - zero[0]) * ux + (y - zero[1]) * uy, (x1 - zero[0]) * ux + (y1 - zero[1]) * uy]
        if near(min(start), 1) and near(at[0], at[1]) and reach - 30 < at[0] < reach + 0.1:
            places.append(at[0])
    return sorted(places)


@pytest.mark.parametrize("paper", ["A4", "A5", "Letter"])
@pytest.mark.parametrize("name", SCALES)
def test_a_comparison_scale_has_twenty_divisions_on_nineteen_millimetres(paper, name):
    page = drawn(paper)
    places = scale_lines(page, name)
    across, along, diagonal = stated(page)
    reach = {"across": across, "along": along}.get(name, diagonal)
    assert len(places) == 21
    assert near(places[20] - places[0], 19)
    assert near(places[20], reach - SCALES[name][2])
    gaps = [after - before for before, after in pairwise(places)]
    assert all(near(gap, 0.95) for gap in gaps)


@pytest.mark.parametrize("name", SCALES)
def test_line_n_meets_the_rule_exactly_when_the_length_reads_n_twentieths(a4, name):
    """The length is made longer or shorter by moving the drawn scale along the rule."""
    places = scale_lines(a4, name)
    _, _, back = SCALES[name]
    cross = places[20] + back
    for twentieths in range(20):
        for whole in (round(cross) - 1, round(cross)):
            moved = [at + whole + twentieths / 20 - cross for at in places]
            met = {n for n, at in enumerate(moved) if abs(at - round(at)) < 0.004}
            assert met == ({0, 20} if twentieths == 0 else {twentieths})


@pytest.mark.parametrize(
    ("side", "most"), [("left", 10), ("right", 10), ("top", 9), ("bottom", 17)]
)
def test_the_staircase_counts_millimetres_from_the_papers_edge(sheet, side, most):
    """Each figure stands beside the line that is so many mm from the edge of the page."""
    width, height = sheet.width_pt * 25.4 / 72, sheet.height_pt * 25.4 / 72
    edges = {
        "left": lambda p: p[0],
        "right": lambda p: width - p[0],
        "bottom": lambda p: p[1],
        "top": lambda p: height - p[1],
    }
    depth, upright = edges[side], side in ("left", "right")
    counted = []
    for line in sheet.lines:
        deep = depth(line.start)
        runs = is_level(line) != upright
        number = round(deep)
        if not (runs and near(deep, number) and 1 <= number <= most and length(line) < 5):
            continue
        ends = [p[1 if upright else 0] for p in (line.start, line.end)]
        figures = [
            one.text
            for one in sheet.words
            if 0 < min(one.at[1 if upright else 0], one.end[1 if upright else 0]) - max(ends) < 2
            and abs(depth(((one.box[0] + one.box[2]) / 2, (one.box[1] + one.box[3]) / 2)) - deep)
            < 1
        ]
        counted += [number for figure in figures if figure == str(number)]
    assert sorted(set(counted)) == list(range(1, most + 1))
