"""The sizing sheet, measured in its PDF by a reader that knows nothing of it."""

import re
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from pdfminer.high_level import extract_pages

from joinery_templates.lengths import Units, read_length
from tests.cli.command_line import run

PAPERS = [("mm", "A4"), ("mm", "A5"), ("mm", "Letter"), ("in", "Letter"), ("in", "A4")]
on_each_paper = pytest.mark.parametrize(("units", "paper"), PAPERS)
MM = 25.4 / 72
NEAR = 1e-3

Line = tuple[float, float, float, float]


class Sheet:
    """Lines of one page, and words that run level, each with its left end and middle; in mm."""

    def __init__(self, page):
        items = [item for form in page for item in (form if hasattr(form, "__iter__") else [form])]
        self.lines: list[Line] = [
            tuple(n * MM for point in item.pts for n in point)
            for item in items
            if hasattr(item, "pts") and len(item.pts) == 2
        ]
        self.words: list[list] = []
        last = None
        for sign in items:
            if not hasattr(sign, "get_text") or sign.matrix[0] <= 0:
                continue
            if last and abs(sign.y0 - last.y0) < 0.1 and abs(sign.x0 - last.x1) < 0.3:
                self.words[-1][0] += sign.get_text()
            else:
                middle = (sign.y0 + sign.y1) / 2 * MM
                self.words.append([sign.get_text(), sign.x0 * MM, middle])
            last = sign

    @property
    def level(self) -> list[Line]:
        return [one for one in self.lines if abs(one[1] - one[3]) < 1e-4]


@cache
def sheets(units: str, paper: str, folder: Path) -> list[Sheet]:
    pdf = folder / f"{units}{paper}.pdf"
    assert run("sizing", "--units", units, "--paper", paper, "-o", pdf).code == 0
    return [Sheet(page) for page in extract_pages(pdf, laparams=None)]


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("sizing")


def tapers(sheet: Sheet) -> list[tuple[Line, Line]]:
    """Pairs of long steep lines, the left one leaning to the left and the right one away."""
    steep = [one for one in sheet.lines if abs(one[3] - one[1]) > 15 and one[2] != one[0]]
    steep = sorted(one for one in steep if abs(one[2] - one[0]) < abs(one[3] - one[1]) / 5)
    left, right = ([one for one in steep if (one[2] > one[0]) == away] for away in (False, True))
    return [
        (one, next(o for o in right if o[0] > one[0] and abs(o[1] - one[1]) < NEAR)) for one in left
    ]


def x_at(one: Line, y: float) -> float:
    return one[0] + (y - one[1]) * (one[2] - one[0]) / (one[3] - one[1])


@on_each_paper
def test_between_the_lines_a_board_reads_its_thickness(units, paper, folder):
    """Where a line from side to side has a figure, it is as long as the figure says."""
    read = set()
    for sheet in sheets(units, paper, folder):
        for left, right in tapers(sheet):
            for x, y, x1, _ in sheet.level:
                if abs(x - x_at(left, y)) < NEAR and abs(x1 - x_at(right, y)) < NEAR:
                    near = [w for w in sheet.words if 5 < w[1] - x1 < 7 and abs(w[2] - y) < 0.5]
                    ((words, *_),) = near
                    told = float(read_length(words, Units(units)))
                    assert x1 - x == pytest.approx(told, abs=NEAR)
                    read.add(told)
    if units == "mm":
        assert read == {float(n) for n in range(3, 61)}
    else:
        assert {round(one / 25.4 * 16, 6) for one in read} == {float(n) for n in range(2, 39)}


@on_each_paper
def test_each_graduation_is_a_tenth_or_a_128th_thicker_than_the_last(units, paper, folder):
    step = 0.1 if units == "mm" else 25.4 / 128
    for sheet in sheets(units, paper, folder):
        for left, right in tapers(sheet):
            starts = {round(y, 4) for x, y, *_ in sheet.level if abs(x - x_at(right, y)) < NEAR}
            gaps = sorted(x_at(right, y) - x_at(left, y) for y in starts)
            assert len(gaps) > 10
            for thinner, thicker in pairwise(gaps):
                assert thicker - thinner == pytest.approx(step, abs=NEAR)


@on_each_paper
def test_a_slanting_line_of_the_width_scale_gains_one_part_from_lane_to_lane(units, paper, folder):
    cell, parts = (1.0, 10) if units == "mm" else (25.4 / 16, 8)
    slanting = [
        one
        for sheet in sheets(units, paper, folder)
        for one in sheet.lines
        if abs(one[3] - one[1] - cell) < NEAR and one[2] - one[0] > 5
    ]
    assert len(slanting) > 100 / cell
    across = {round(one[2] - one[0], 3) for one in slanting}
    assert len(across) == 1
    (width,) = across
    lanes = {
        round(x - slanting[0][0], 3)
        for sheet in sheets(units, paper, folder)
        for x, _, x1, _ in sheet.lines
        if abs(x - x1) < 1e-4 and -NEAR < x - slanting[0][0] < width + NEAR
    }
    assert {round(width * n / parts, 3) for n in range(parts + 1)} <= lanes


@on_each_paper
def test_each_half_pin_is_as_wide_as_it_says(units, paper, folder):
    found = 0
    for sheet in sheets(units, paper, folder):
        for words, x, y in sheet.words:
            if re.fullmatch(rf"[\d /]+ {units}", words) and "page" not in words:
                told = float(read_length(words, Units.MM))
                beside = [o for o in sheet.level if 0 < x - o[0] < 40 and -1 < o[1] - y < 10]
                if beside:
                    assert any(abs(abs(o[2] - o[0]) - told) < NEAR for o in beside), words
                    found += 1
    assert found == (13 if units == "mm" else 9)


def test_paper_without_room_is_refused(folder):
    refused = run("sizing", "--paper", "75 x 110 mm", "-o", folder / "x.pdf")
    assert refused.code == 2
    assert "page-too-small" in refused.messages
