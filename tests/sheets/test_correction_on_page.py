"""A printer's correction makes the drawing larger; nothing of it may then leave the page."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import fields

from joinery_templates.exact import Fraction
from joinery_templates.sheets.correction import Correction
from joinery_templates.sheets.margins import Margins
from tests.measure.drawn_and_measured import drawn, measured
from tests.strategies import PROPERTY

JOB = """
[paper]
size = "{paper}"
margin = {margin}
[printer]
name = "Press"
date = "1 May"
across = "{across}"
along = "{along}"
skew = "{skew}"
[boards.one]
width = 60
thickness = 12
[boards.other]
width = 60
thickness = 12
[[joints]]
kind = "box-joint"
first_board = "one"
second_board = "other"
"""


@pytest.mark.parametrize(
    ("paper", "margin", "across", "along", "skew"),
    [
        ("roll 610 mm", 2, "0.98", "0.99", "-0.5"),
        ("A2", 2, "0.98", "0.97", "0.5"),
        ("A4", 0, "0.97", "0.97", "-2"),
        ("A4", 0, "1.03", "1.03", "2"),
        ("Letter", 1, "1.01", "0.995", "0.3"),
    ],
)
def test_a_corrected_page_holds_all_that_is_drawn_on_it(paper, margin, across, along, skew):
    text = JOB.format(paper=paper, margin=margin, across=across, along=along, skew=skew)
    found = measured(drawn(text))
    assert found.report.as_drawn
    for page in found.pages:
        for line in page.segments:
            assert -0.001 <= min(line.x0, line.x1) <= max(line.x0, line.x1) <= page.crop.x1 + 0.001
            assert -0.001 <= min(line.y0, line.y1) <= max(line.y0, line.y1) <= page.crop.y1 + 0.001


def test_a_margin_grows_by_what_the_correction_carries_over_the_edge():
    """Of 400 mm 2 % smaller, half on each side: 400 / 0.98 is 8.16 longer, an edge 4.08 further.

    A margin of 1 then has to be 4.08 * 0.98 = 4, and one of 10 stays.
    """
    printer = Correction("Press", "1 May", Fraction("0.98"), Fraction(1), Fraction(0))
    page = Fraction(400), Fraction(600)
    narrow = printer.kept_on_page(Margins(*[Fraction(1)] * 4), *page)
    assert narrow == Margins(
        left=Fraction(4), right=Fraction(4), top=Fraction(1), bottom=Fraction(1)
    )
    wide = Margins(*[Fraction(10)] * 4)
    assert printer.kept_on_page(wide, *page) == wide


SCALES = st.integers(9700, 10300).map(lambda parts: Fraction(parts, 10000))
MARGINS = st.integers(0, 200).map(lambda parts: Fraction(parts, 10))


@PROPERTY
@given(
    across=SCALES,
    along=SCALES,
    skew=st.integers(-200, 200).map(lambda parts: Fraction(parts, 100)),
    given_margins=st.builds(Margins, MARGINS, MARGINS, MARGINS, MARGINS),
    sides=st.tuples(st.integers(74, 914), st.integers(105, 1200)),
)
def test_the_kept_margins_are_on_the_page_after_any_map(across, along, skew, given_margins, sides):
    width, height = map(Fraction, sides)
    printer = Correction("Press", "1 May", across, along, skew)
    kept = printer.kept_on_page(given_margins, width, height)
    moved = printer.page_map(width, height)
    for x in (kept.left, width - kept.right):
        for y in (kept.bottom, height - kept.top):
            across_page, up_page = moved.point((x, y))
            assert 0 <= across_page <= width
            assert 0 <= up_page <= height
    sides_of = [field.name for field in fields(Margins)]
    assert all(getattr(kept, side) >= getattr(given_margins, side) for side in sides_of)
    assert printer.kept_on_page(kept, width, height) == kept
