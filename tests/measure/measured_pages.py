"""Pages with two rulers and a drawing, drawn here with reportlab alone.

What stands on them is kept beside them as lists of millimetres, so that the
tests know the truth without asking the rooms that draw.
"""

import io
import shutil
import subprocess
from pathlib import Path

import pytest
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from joinery_templates.measure.compare import ExpectedPage, ExpectedStroke
from joinery_templates.measure.document import open_document
from joinery_templates.measure.plane import Segment
from joinery_templates.measure.strokes import PageStrokes, page_strokes

MM = 72 / 25.4
A4 = (595, 842)
CORNER = (15.0, 14.0)
ACROSS, ALONG = 100.0, 150.0
FONT = Path(__file__).parents[2] / "fonts" / "DejaVuSansCondensed.ttf"


def canvas(buffer: io.BytesIO, size: tuple[float, float] = A4) -> Canvas:
    pdfmetrics.registerFont(TTFont("Letters", str(FONT)))
    return Canvas(buffer, size, pdfVersion=(1, 7), invariant=1, initialFontName="Letters")


def drawing(number: int) -> list[ExpectedStroke]:
    """Pins and tails that differ from page to page, in page mm."""
    strokes = []
    for place in range(9):
        x = 40.0 + 13.7 * place + 1.3 * number
        strokes.append(ExpectedStroke("tail side", Segment(x, 90.0, x + 2.5, 110.0 + number)))
        strokes.append(
            ExpectedStroke("tail end", Segment(x + 2.5, 110.0 + number, x + 9, 110.0 + number))
        )
    strokes.append(ExpectedStroke("scribe line", Segment(30.0, 90.0, 185.0, 90.0)))
    strokes.append(ExpectedStroke("board edge", Segment(30.0, 60.0, 30.0, 240.0)))
    return strokes


def ticks() -> list[ExpectedStroke]:
    x0, y0 = CORNER
    level = [(x0 + 10 * step, y0, x0 + 10 * step, y0 - 4) for step in range(11)]
    upright = [(x0, y0 + 10 * step, x0 - 4, y0 + 10 * step) for step in range(16)]
    return [ExpectedStroke("ruler tick", Segment(*line)) for line in level + upright]


def expected_page(number: int, plain: bool = False) -> ExpectedPage:
    x0, y0 = CORNER
    return ExpectedPage(
        Segment(x0, y0, x0 + ACROSS, y0),
        Segment(x0, y0, x0, y0 + ALONG),
        tuple(ticks() + ([] if plain else drawing(number))),
    )


def expected_pages(count: int, plain: tuple[int, ...] = ()) -> tuple[ExpectedPage, ...]:
    return tuple(expected_page(number, number in plain) for number in range(1, count + 1))


def template(
    count: int = 1, plain: tuple[int, ...] = (), moved: tuple[float, float] = (0.0, 0.0)
) -> bytes:
    """A PDF of those pages; `moved` moves the drawings but not the rulers.

    The drawing of every page stands in a form that also holds lines outside the
    page's window, as a tiled drawing does.
    """
    buffer = io.BytesIO()
    pen = canvas(buffer)
    for number in range(1, count + 1):
        page = expected_page(number, plain=True)
        for line in (page.ruler_across, page.ruler_along, *(tick.line for tick in page.strokes)):
            pen.line(*(value * MM for value in line))
        pen.drawString(50 * MM, 250 * MM, f"page {number}")
        if number not in plain:
            _draw_in_window(pen, number, moved)
        pen.showPage()
    pen.save()
    return buffer.getvalue()


def _draw_in_window(pen: Canvas, number: int, moved: tuple[float, float]) -> None:
    pen.beginForm(f"drawing{number}", -1000, -1000, 3000, 3000)
    for stroke in drawing(number):
        pen.line(*((value + 77) * MM for value in stroke.line))
    pen.line(0, 0, 10 * MM, 10 * MM)
    pen.endForm()
    pen.saveState()
    window = pen.beginPath()
    window.rect(25 * MM, 50 * MM, 180 * MM, 230 * MM)
    pen.clipPath(window, stroke=0)
    pen.translate((moved[0] - 77) * MM, (moved[1] - 77) * MM)
    pen.doForm(f"drawing{number}")
    pen.restoreState()


def read(data: bytes) -> tuple[PageStrokes, ...]:
    return page_strokes(open_document(data))


def through(tmp_path: Path, data: bytes, program: str, *arguments: str) -> bytes:
    """A PDF after another program has written it anew; the test is skipped without it."""
    if shutil.which(program) is None:
        pytest.skip(f"{program} is not installed")
    (tmp_path / "in.pdf").write_bytes(data)
    subprocess.run([program, *arguments], cwd=tmp_path, check=True, capture_output=True)
    return (tmp_path / "out.pdf").read_bytes()
