"""What ink a page gets: strokes no longer than they are, and white only below what says so.

Rendered by pdfium, which shares nothing with the writer.
"""

import io
import math
import re

import numpy as np
import pikepdf
import pypdfium2
import pytest

from joinery_templates.drawings.figure import Align, Figure, Role, Stroke, Text, line
from joinery_templates.drawings.look import PENS
from joinery_templates.drawings.placing import CLEAR
from joinery_templates.exact import Fraction
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.pdf.writer import About, write_pdf
from joinery_templates.sheets.page import Booklet, Box, Held, Page, Window, whole
from tests.pdf.drawn_jobs import pages_from, pdf_from
from tests.pdf.page_reading import (
    HATCH,
    Line,
    PageRead,
    Place,
    Rectangle,
    clipped,
    meeting,
    read_pages,
)
from tests.sheets.taping import THICK_ON_SMALL_PAPER

ZERO = Fraction(0)
MM = 72 / 25.4
DPI = 600
DOT = 25.4 / DPI
PAGE_PT = (300, 400)
HIGH = PAGE_PT[1] / MM


def booklet(*windows: Window, size_pt: tuple[int, int] = PAGE_PT) -> Booklet:
    base = ((ZERO, ZERO), (ZERO, ZERO))
    return Booklet(*size_pt, (Page((Held("Made up"),), windows),), (), (base, base), ZERO)


def written(*windows: Window, size_pt: tuple[int, int] = PAGE_PT) -> bytes:
    return write_pdf(booklet(*windows, size_pt=size_pt), About("Ink", "test"), None)


def rendered(content: bytes, page: int = 0, dpi: int = DPI) -> np.ndarray:
    """Grey values, 0 black; row 0 is the lowest."""
    document = pypdfium2.PdfDocument(content)
    bitmap = document[page].render(scale=dpi / 72, grayscale=True)
    dots = np.array(bitmap.to_numpy()).reshape(bitmap.height, bitmap.width)
    document.close()
    return dots[::-1]


def one(figure: Figure) -> np.ndarray:
    return rendered(written(whole(figure, (ZERO, ZERO))))


def ink(dots: np.ndarray, box: tuple[float, float, float, float]) -> np.ndarray:
    """The dots of a box in mm."""
    left, low, right, high = (round(side / DOT) for side in box)
    return dots[low:high, left:right]


# Strokes


@pytest.mark.parametrize("upright", [False, True], ids=["level", "upright"])
def test_no_pen_makes_a_line_longer_than_it_is(upright):
    """Every pen draws 40 mm from 30 on: no ink 1.5 dots before or behind, nor beside its width."""
    strokes = [line(role, 30, 8 + 4 * n, 70, 8 + 4 * n) for n, role in enumerate(PENS)]
    if upright:
        strokes = [Stroke(s.role, s.start[::-1], s.end[::-1]) for s in strokes]
    dots = one(Figure(Fraction(130), Fraction(130), tuple(strokes)))
    dots = dots.T if upright else dots
    for number, (role, pen) in enumerate(PENS.items()):
        at = 8 + 4 * number
        rows, columns = np.nonzero(ink(dots, (20, at - 1.5, 80, at + 1.5)) < 128)
        first, last = 20 + columns.min() * DOT, 20 + (columns.max() + 1) * DOT
        assert first == pytest.approx(30, abs=1.5 * DOT), role
        assert last <= 70 + 1.5 * DOT, role
        assert last == pytest.approx(70, abs=1.5 * DOT + max((0, *pen.dash))), role
        assert (rows.max() + 1 - rows.min()) * DOT == pytest.approx(pen.width, abs=1.5 * DOT), role


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("at", [0, 3600, 5200])
def test_a_line_far_from_its_drawings_zero_is_as_exact_as_any(at, turned):
    """A line of 35.3 mm, seen through a window at its place on a long drawing."""
    strokes = (
        line(Role.SAW, at + 10, 20, at + Fraction("45.3"), 20),
        line(Role.SAW, at + 10, 20, at + Fraction("41.3"), Fraction("33.37")),
    )
    drawing = Figure(Fraction(6000), Fraction(90), strokes)
    view = Box(Fraction(at), ZERO, Fraction(at + 80), Fraction(90))
    window = Window(drawing, view, (Fraction(5), Fraction(7)), turned)
    (page,) = read_pages(written(window))
    for found, stroke in zip(page.lines, strokes, strict=True):
        for place, point in ((found.start, stroke.start), (found.end, stroke.end)):
            wanted = window.on_page(point)
            assert place == pytest.approx(tuple(map(float, wanted)), abs=1e-4)


def test_a_line_is_exact_at_the_end_of_a_page_five_metres_long():
    strokes = (line(Role.SAW, 10, Fraction("5030.1"), 20, Fraction("5065.4")),)
    drawing = Figure(Fraction(90), Fraction(5070), strokes)
    (page,) = read_pages(written(whole(drawing, (ZERO, ZERO)), size_pt=(300, 14400)))
    (found,) = page.lines
    assert (*found.start, *found.end) == pytest.approx((10, 5030.1, 20, 5065.4), abs=1e-4)


# White below words


def covered(opaque: bool, words: str, turn: int = 0) -> np.ndarray:
    """Lines 0.5 mm wide across the page every millimetre, and words on them."""
    lines = tuple(line(Role.KNIFE, 5, y, 95, y) for y in range(10, 90))
    text = Text(words, (Fraction(50), Fraction(50)), Fraction(6), Align.CENTRE, turn, opaque=opaque)
    return one(Figure(Fraction(100), Fraction(100), lines, (text,)))


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_opaque_words_hide_what_is_below_them_and_nothing_else_is_hidden(turn):
    """Words of no ink: what they hide is their ground, 0.1 mm larger than they are.

    Words keep farther than that from a line's edge, so that none is hidden.
    """
    assert 0.1 + max(pen.width for pen in PENS.values()) / 2 <= CLEAR
    plain, white = covered(False, "    ", turn), covered(True, "    ", turn)
    hidden = np.argwhere((plain < 128) & (white > 250))
    assert hidden.size
    assert not ((plain > 250) & (white < 128)).any()
    wide = float(DejaVu().width("    ", Fraction(6), False))
    across, up = {0: (1, 1j), 90: (1j, -1), 180: (-1, -1j), 270: (-1j, 1)}[turn]
    corners = [
        50 + 50j + across * along + up * aside
        for along in (-wide / 2 - 0.1, wide / 2 + 0.1)
        for aside in (-6 / 3 - 0.1, 6 * 1.05 + 0.1)
    ]
    low_x, high_x = (f(c.real for c in corners) for f in (min, max))
    low_y, high_y = (f(c.imag for c in corners) for f in (min, max))
    rows, columns = hidden[:, 0] * DOT, hidden[:, 1] * DOT
    assert low_x - 0.1 <= columns.min() <= columns.max() <= high_x + 0.1
    assert low_y - 0.1 <= rows.min() <= rows.max() <= high_y + 0.1
    middle = 50 + 50j + up * 3
    near = (middle.real - 2, middle.imag - 2, middle.real + 2, middle.imag + 2)
    assert (ink(white, near) > 250).all()


def test_words_that_are_not_opaque_hide_nothing():
    assert (covered(False, "    ") == covered(False, "")).all()


def test_white_lies_below_the_words_themselves_and_below_their_neighbours():
    """Two rows of words so near that the ground of one reaches into the other."""
    rows = tuple(
        Text("HHH", (Fraction(20), Fraction(y)), Fraction(6), opaque=opaque)
        for y, opaque in ((20, False), (27, True))
    )
    alone = [one(Figure(Fraction(100), Fraction(100), (), (row,))) for row in rows]
    both = one(Figure(Fraction(100), Fraction(100), (), rows))
    assert (both <= np.minimum(*alone)).all()


# On taped sheets


def without_words(content: bytes) -> bytes:
    """The PDF without any letters; their white ground stays."""
    with pikepdf.open(io.BytesIO(content)) as pdf:
        for thing in pdf.objects:
            if isinstance(thing, pikepdf.Stream) and thing.get("/Subtype") == "/Form":
                kept = [
                    (operands, operator)
                    for operands, operator in pikepdf.parse_content_stream(thing)
                    if str(operator) not in ("Tj", "TJ", "'", '"')
                ]
                thing.write(pikepdf.unparse_content_stream(kept))
        out = io.BytesIO()
        pdf.save(out)
    return out.getvalue()


def notes_on(page: PageRead) -> list[Rectangle]:
    """Where something is said beside a seam."""
    said = re.compile(r"✂ \w+: |: sheet \d+")
    return [w.box for p in page.placements[1:] for w in p.words if said.search(w.text)]


def places(line_read: Line) -> list[Place]:
    """Places along what is seen of a line, a little less than a mm from each other."""
    part = clipped(line_read.start, line_read.end, line_read.clip)
    if part is None:
        return []
    count = int(math.dist(*part) / 0.8)
    shares = [(number + 0.5) / count for number in range(count)]
    return [tuple(a + share * (b - a) for a, b in zip(*part, strict=True)) for share in shares]


def test_on_taped_sheets_white_hides_lines_below_the_notes_and_no_other_line():
    text, dpi = THICK_ON_SMALL_PAPER, 300
    stripped = without_words(pdf_from(text))
    hidden = followed = 0
    for number, page in enumerate(pages_from(text)):
        notes = notes_on(page)
        if not notes:
            continue
        dots = rendered(stripped, number, dpi)
        for line_read in page.lines:
            is_whole = not line_read.pen[1] and line_read.pen != HATCH
            for x, y in places(line_read):
                row, column = int(y / 25.4 * dpi), int(x / 25.4 * dpi)
                near = dots[row - 1 : row + 2, column - 1 : column + 2]
                if any(meeting(within(box, 0.5), (x, y, x, y)) for box in notes):
                    assert near.min() > 200, (number, x, y)
                    hidden += 1
                elif is_whole and not any(
                    meeting(within(box, -1.2), (x, y, x, y)) for box in notes
                ):
                    assert near.min() < 200, (number, x, y)
                    followed += 1
    assert hidden > 20
    assert followed > 1000


def within(box: Rectangle, by: float) -> Rectangle:
    """A box so much smaller on every side."""
    return box[0] + by, box[1] + by, box[2] - by, box[3] - by
