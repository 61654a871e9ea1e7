"""The calibration sheet as drawn, read back by pdfminer."""

import math
import re
from collections.abc import Callable
from functools import cache
from itertools import pairwise

import pytest

from joinery_templates.errors import InputError
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.pdf.writer import About, write_pdf
from joinery_templates.printers.readings import read_reading
from joinery_templates.sheets import calibration
from joinery_templates.sheets.calibration import Stated, calibration_booklet
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.papers import find_paper, known_papers
from tests.pdf.page_reading import THIN, Line, PageRead, read_pages
from tests.printers.simulated_printer import met
from tests.sheets.page_checks import collisions, ink, shown

PAPERS = ["A5", "A4", "A0", "Letter"]
STATED = re.compile(
    r"across, the lower side: ([\d /]+?) (mm|in).*? along, the left side: ([\d /]+?) (mm|in)"
    r".*? rising, lower left to upper right: ([\d /]+?) (mm|in)"
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


def rectangle_of_a4() -> Stated:
    return calibration.rectangle(Frame(find_paper("A4"), Margins()))


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
            calibration.rectangle(frame)
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
"""Direction of the length, where its lines stand, and how far the last is before its cross."""


def from_zero(page: PageRead, name: str) -> Callable[[tuple[float, float]], tuple[float, float]]:
    """Where a place is from the length's zero: along it, and aside to where its lines stand."""
    left, bottom, right, _ = rectangle(page)
    (ux, uy), (vx, vy), _ = SCALES[name]

    def seen(at: tuple[float, float]) -> tuple[float, float]:
        x, y = at[0] - (right if name == "falling" else left), at[1] - bottom
        return x * ux + y * uy, x * vx + y * vy

    return seen


def reach(page: PageRead, name: str) -> float:
    across, along, diagonal = stated(page)
    return {"across": across, "along": along}.get(name, diagonal)


def numbered_lines(page: PageRead, name: str) -> list[tuple[float, float]]:
    """The lines near the end of a length: where each meets the rule, and how far it runs aside."""
    found, seen, last = [], from_zero(page, name), reach(page, name)
    for one in (line for line in page.lines if line.pen == THIN):
        (at, start), (same, end) = (seen(p) for p in (one.start, one.end))
        if near(at, same) and near(start, 0) and end > 0 and at > last - 40:
            found.append((at, end))
    return sorted(found)


def named(page: PageRead, name: str) -> list[int]:
    """The number that is read off the figures for each line: none stands nearer to another."""
    lines, seen = [at for at, _ in numbered_lines(page, name)], from_zero(page, name)
    numbers: dict[int, int] = {}
    for one in page.words:
        left, low, right, high = ink(one)
        along, aside = seen(((left + right) / 2, (low + high) / 2))
        if one.text.isdigit() and one.turn == 0 and 0 < aside < 9.5 and lines[0] - 3 < along:
            place = min(range(len(lines)), key=lambda n: abs(lines[n] - along))
            assert place not in numbers
            numbers[place] = int(one.text)
    assert sorted(numbers) == list(range(0, 31, 5)), numbers
    return [numbers[place] for place in sorted(numbers)]


@pytest.mark.parametrize("paper", ["A4", "A5", "Letter"])
@pytest.mark.parametrize("name", SCALES)
def test_numbered_lines_count_one_way_and_stand_a_twentieth_short_of_a_millimetre(paper, name):
    """31 of them, the last at the cross or 8 mm before it; each fifth is long, and has its number.

    From one to the next they count up to the cross, and no other figure stands near.
    """
    page = drawn(paper)
    lines = numbered_lines(page, name)
    assert len(lines) == 31
    assert near(lines[30][0], reach(page, name) - SCALES[name][2])
    assert all(near(after[0] - before[0], 0.95) for before, after in pairwise(lines))
    assert [n for n, (_, end) in enumerate(lines) if end > 4] == list(range(0, 31, 5))
    assert named(page, name) == list(range(0, 31, 5))


@pytest.mark.parametrize("name", SCALES)
def test_what_is_written_down_is_the_length(a4, name):
    """The sheet is made longer or shorter, lines and all; the rule's zero stays on the cross."""
    page, sheet = [at for at, _ in numbered_lines(a4, name)], rectangle_of_a4()
    for hundredth in range(-140, 141, 7):
        scale = 1 + hundredth / 10_000
        length, by_line = read_reading(name, met([at * scale for at in page]), sheet)
        assert by_line
        assert abs(float(length) - reach(a4, name) * scale) < 0.045


def test_a_sheet_says_what_it_is_good_for(sheet, request):
    """0.05 mm to either side of its width are so much of 250 mm, or of 10 in on American paper.

    A small sheet says that it is small.
    """
    across, _, _ = stated(sheet)
    found = re.search(
        r"good for: (\d+) (mm|in), drawn for your printer, come true to ([\d.]+) \2; "
        r"read at the crosses alone, to ([\d.]+) \2",
        words(sheet),
    )
    assert found
    assert (found[1], found[2]) == (
        ("10", "in") if request.node.callspec.params["sheet"] == "Letter" else ("250", "mm")
    )
    near = 0.0005 if found[2] == "in" else 0.005
    assert float(found[3]) == pytest.approx(0.05 / across * int(found[1]), abs=near)
    assert float(found[4]) == pytest.approx(0.15 / across * int(found[1]), abs=near)
    assert ("A larger sheet does better" in words(sheet)) == (across < 125)


def test_what_is_to_be_typed_names_the_paper(sheet, request):
    paper = request.node.callspec.params["sheet"]
    assert f'joinery-templates calibrate NAME --paper "{paper}"' in words(sheet)


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
