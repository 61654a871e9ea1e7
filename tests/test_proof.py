"""What a page is expected to show: whole lines, and a page that cuts one off is found out."""

import re
from pathlib import Path

import pytest
from msgspec.structs import replace

from joinery_templates.drawings.figure import Figure, Role, line
from joinery_templates.exact import Fraction
from joinery_templates.measure.compare import compare_pages
from joinery_templates.measure.document import open_document
from joinery_templates.measure.strokes import page_strokes
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.pdf.writer import About, write_pdf
from joinery_templates.proof import expected_pages
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.page import Booklet, Held, Page, whole
from joinery_templates.sheets.papers import find_paper
from tests.measure.drawn_and_measured import drawn, measured

FRAME = Frame(find_paper("A4"), Margins())
ZERO = Fraction(0)


def booklet(top: int) -> Booklet:
    """One page with a drawing 40 mm high, of a line that rises to `top`."""
    drawing = Figure(
        Fraction(40), Fraction(40), (line(Role.SAW, 10, 5, 20, 35), line(Role.TRIM, 5, 5, 30, top))
    )
    windows = (
        whole(FRAME.furniture(FRAME.title_block("Page", 1, DejaVu())), (ZERO, ZERO)),
        whole(drawing, (Fraction(60), Fraction(90))),
    )
    return Booklet(
        width_pt=FRAME.paper.width_pt,
        height_pt=FRAME.paper.height_pt,
        pages=(Page((Held("A page"),), windows),),
        bookmarks=(),
        rulers=FRAME.ruler_lines,
        paper_used=ZERO,
    )


@pytest.mark.parametrize("top", [39, 42, 60])
def test_a_line_is_expected_whole_even_where_it_leaves_its_drawings_box(top):
    (page,) = expected_pages(booklet(top))
    (trim,) = (stroke.line for stroke in page.strokes if stroke.role == str(Role.TRIM))
    assert trim == pytest.approx((65, 95, 90, 90 + top))


@pytest.mark.parametrize("top", [39, 60])
def test_a_page_that_cuts_the_end_off_a_line_is_found_out(top):
    """The page cuts off what lies far outside of a drawing's box."""
    made = booklet(top)
    found = page_strokes(open_document(write_pdf(made, About("Cut", "off"), None)))
    report = compare_pages(expected_pages(made), found)
    assert report.true_to_size == (top < 40)
    assert report.pages[0].missing == (0 if top < 40 else 1)


def test_of_a_line_that_a_seam_cuts_the_part_on_the_page_is_expected():
    made = booklet(39)
    (page,) = made.pages
    furniture, drawing = page.windows
    seam = replace(drawing, view=replace(drawing.view, top=Fraction(22)))
    (cut,) = expected_pages(replace(made, pages=(replace(page, windows=(furniture, seam)),)))
    (trim,) = (stroke.line for stroke in cut.strokes if stroke.role == str(Role.TRIM))
    assert trim == pytest.approx((65, 95, 77.5, 112))


@pytest.mark.parametrize("skew", ["0.03", "-0.3"])
def test_a_wide_pattern_is_found_whole_where_a_profile_leans_its_seams(skew):
    """Over 120 mm a seam leans by 0.06 mm at 0.03 degrees, and the lines that it cuts end at it."""
    job = (Path(__file__).parents[1] / "sample_jobs/tea_box.toml").read_text("utf-8")
    job = re.sub('size = ".*"', 'size = "A6"', job)
    job = re.sub("corners = .*", 'corners = ["A"]', job)
    profile = f"[printer]\nacross = 1.01\nalong = 0.99\nskew = {skew}\n"
    report = measured(drawn(f"{job}\n{profile}")).report
    assert report.as_drawn
    assert max(page.worst_error for page in report.pages) < 0.01
