"""The two check rulers: every graduation is there, none crosses, and no figure is doubtful."""

import math
import re
from itertools import combinations, pairwise

import pytest

from joinery_templates.drawings.figure import Role, Stroke
from joinery_templates.exact import Fraction
from joinery_templates.lengths import Units
from joinery_templates.pdf.writer import About, write_pdf
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.page import Booklet, Held, Page, whole
from joinery_templates.sheets.papers import find_paper
from joinery_templates.sheets.roll import cut_off
from joinery_templates.sheets.rulers import drawn_rulers, longest_ruler
from tests.pdf.page_reading import THIN, PageRead, Rectangle, read_pages
from tests.sheets.page_checks import ink, rulers

ORIGIN = (Fraction(20), Fraction(30))
RULERS = drawn_rulers(
    ORIGIN, longest_ruler(Fraction(60)), longest_ruler(Fraction(90)), Fraction(90), Fraction(130)
)
TICKS = [stroke for stroke in RULERS.strokes if stroke.role is Role.TICK]


def towards_drawing(upright: bool) -> list[Stroke]:
    """Graduations in mm of one ruler: they stand square to it, on the side of the drawing."""
    aside = 0 if upright else 1
    return [
        tick
        for tick in TICKS
        if tick.start[1 - aside] == tick.end[1 - aside] and tick.end[aside] > ORIGIN[aside]
    ]


def test_both_rulers_have_every_millimetre_from_nought_on():
    across = sorted(tick.start[0] - ORIGIN[0] for tick in towards_drawing(upright=False))
    along = sorted(tick.start[1] - ORIGIN[1] for tick in towards_drawing(upright=True))
    assert across == list(range(61))
    assert along == list(range(91))


def test_both_rulers_are_graduated_alike():
    def lengths(upright: bool) -> list[Fraction]:
        aside = 0 if upright else 1
        ticks = sorted(towards_drawing(upright), key=lambda tick: tick.start[1 - aside])
        return [tick.end[aside] - tick.start[aside] for tick in ticks][:61]

    assert lengths(upright=True) == lengths(upright=False)


def test_no_graduation_of_one_crosses_one_of_the_other():
    """They may touch at their ends."""
    for level, upright in combinations(TICKS, 2):
        if level.start[0] == level.end[0]:
            level, upright = upright, level  # noqa: PLW2901
        if level.start[1] != level.end[1] or upright.start[0] != upright.end[0]:
            continue
        (left, right), (low, high) = (
            sorted((stroke.start[axis], stroke.end[axis]))
            for stroke, axis in ((level, 0), (upright, 1))
        )
        assert not (left < upright.start[0] < right and low < level.start[1] < high)


PAPERS = ["A6", "A5", "A4", "Letter", "Tabloid", "A0", "roll 610 x 900 mm"]


def drawn(paper: str) -> PageRead:
    frame = Frame(find_paper(paper), Margins())
    figure = drawn_rulers(frame.origin, frame.across, frame.along, frame.width, frame.height)
    page = Page((Held(""),), (whole(figure, (Fraction(0), Fraction(0))),))
    size = frame.paper.width_pt, frame.paper.height_pt
    booklet = Booklet(*size, (page,), (), frame.ruler_lines, Fraction(1))
    (read,) = read_pages(write_pdf(booklet, About("", ""), None))
    return read


def apart(one: Rectangle, other: Rectangle) -> float:
    """How far two boxes are from each other."""
    gaps = (max(other[k] - one[k + 2], one[k] - other[k + 2], 0.0) for k in (0, 1))
    return math.hypot(*gaps)


@pytest.mark.parametrize("paper", PAPERS)
def test_every_figure_stands_at_its_own_graduation_and_clear_of_the_next(paper):
    """Of each scale of each ruler, in the order of the figures; its unit stands at the last."""
    page = drawn(paper)
    for axis, ruler in enumerate(rulers(page)):
        zero, line = ruler.start[axis], ruler.start[1 - axis]
        for side, unit, step in ((1, "mm", 1.0), (-1, "in", 25.4)):
            words = [
                one
                for one in page.words
                if one.turn == 90 * axis and side * (ink(one)[1 - axis] - line) > 0
            ]
            ticks = [
                one
                for one in page.placements[0].drawn_with(THIN)
                if one.start[axis] == one.end[axis] and side * (one.end[1 - axis] - line) > 0
            ]
            figures = sorted((one for one in words if one.text.isdigit()), key=lambda w: w.at[axis])
            counted = [int(one.text) for one in figures]
            assert counted == list(
                range(10, counted[-1] + 1, 10) if unit == "mm" else range(counted[-1] + 1)
            )
            for one, number in zip(figures, counted, strict=True):
                box = ink(one)
                near = [t for t in ticks if box[axis] - 11 < t.start[axis] < box[axis + 2] + 11]
                nearest = min(near, key=lambda tick: apart(box, tick.box))
                assert nearest.start[axis] - zero == pytest.approx(number * step, abs=0.002)
            letter = math.dist(figures[-1].at, figures[-1].end) / len(figures[-1].text)
            assert min(apart(ink(a), ink(b)) for a, b in pairwise(figures)) > letter
            (named,) = (one for one in words if not one.text.isdigit())
            assert named.text == unit
            assert min(figures, key=lambda one: apart(ink(one), ink(named))) is figures[-1]
            assert ink(named)[axis + 2] < zero + counted[-1] * step


@pytest.mark.parametrize(
    ("paper", "units", "first"),
    [
        ("A4", None, "mm"),
        ("Letter", None, "in"),
        ("A4", Units.INCH, "in"),
        ("Letter", Units.MM, "mm"),
        ("roll 610 mm", Units.INCH, "in"),
    ],
)
def test_the_scale_that_the_person_measures_by_is_bold_and_told_first(paper, units, first):
    """The metric figures stand on the drawing's side of each ruler's line."""
    frame = cut_off(Frame(find_paper(paper), Margins(), units=units), ())
    figure = drawn_rulers(
        frame.origin, frame.across, frame.along, frame.width, frame.height, frame.in_inches
    )
    x, y = frame.origin
    for text in figure.texts:
        is_metric = text.at[0] > x if text.turn else text.at[1] > y
        assert text.bold == (is_metric == (first == "mm")), text.words
    assert re.match(rf"\d+ {first} across", frame.check_words)
