"""Rulers and baselines on a page of dots: two renderers, 600 dots to the inch."""

import shutil
import subprocess
import tomllib
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from tests.pdf.dovetail_table import corner_of
from tests.pdf.drawn_jobs import pages_from, pdf_from, sample_text
from tests.pdf.wrap_reading import Wrap, wraps_on
from tests.sheets.page_checks import rulers

DOTS = 600 / 25.4
"""To the millimetre."""
PAGE_HEIGHT = 841 * 25.4 / 72
DARK = 128


def drawer() -> str:
    return sample_text("workshop_drawer")


def first_wrap(role: str) -> Wrap:
    return next(wrap for wrap in wraps_on(pages_from(drawer())) if wrap.role == role)


def pdfium_dots(number: int) -> np.ndarray:
    document = pypdfium2.PdfDocument(pdf_from(drawer()))
    bitmap = document[number - 1].render(scale=600 / 72, grayscale=True)
    dots = np.array(bitmap.to_numpy()).reshape(bitmap.height, bitmap.width)
    document.close()
    return dots


def poppler_dots(number: int, folder: Path) -> np.ndarray:
    if shutil.which("pdftoppm") is None:
        pytest.skip("pdftoppm is not installed")
    (folder / "in.pdf").write_bytes(pdf_from(drawer()))
    page = str(number)
    subprocess.run(
        ["pdftoppm", "-r", "600", "-gray", "-f", page, "-l", page, "-singlefile", "in.pdf", "out"],
        cwd=folder,
        check=True,
        timeout=60,
    )
    with Image.open(folder / "out.pgm") as image:
        return np.array(image)


@pytest.fixture(scope="module", params=["pdfium", "poppler"])
def dots(request, tmp_path_factory) -> tuple[np.ndarray, Wrap]:
    """The dots of the page with the first tail board's wrap, row 0 at the top."""
    wrap = first_wrap("tail board")
    if request.param == "pdfium":
        return pdfium_dots(wrap.page), wrap
    return poppler_dots(wrap.page, tmp_path_factory.mktemp("dots")), wrap


def zero_of_rulers(wrap: Wrap) -> tuple[float, float]:
    """Where both rulers' lines start on the wrap's page, as the file says."""
    page = pages_from(drawer())[wrap.page - 1]
    across, along = rulers(page)
    assert across.start == along.start
    assert (round(across.length, 4), round(along.length, 4)) == (180, 250)
    return across.start


def middle_of_line(dots: np.ndarray, at: tuple[float, float], upright: bool) -> float:
    """Where the middle of a line near a place is, in dots from the left or from below.

    The dots are looked through for 0.6 mm to both sides, square to the line.
    """
    column, row = at[0] * DOTS, (PAGE_HEIGHT - at[1]) * DOTS
    reach = round(0.6 * DOTS)
    if upright:
        start = round(column) - reach
        strip = dots[round(row), start : start + 2 * reach]
    else:
        start = round(row) - reach
        strip = dots[start : start + 2 * reach, round(column)]
    dark = np.flatnonzero(strip < DARK)
    assert dark.size, f"no line near {at}"
    assert dark[-1] - dark[0] == dark.size - 1, f"more than one line near {at}"
    middle = start + (dark[0] + dark[-1] + 1) / 2
    return middle if upright else PAGE_HEIGHT * DOTS - middle


def test_the_ruler_across_begins_and_ends_on_its_dots(dots):
    picture, wrap = dots
    left, low = zero_of_rulers(wrap)
    zero = middle_of_line(picture, (left, low + 0.7), upright=True)
    end = middle_of_line(picture, (left + 180, low + 2), upright=True)
    assert abs(zero - left * DOTS) <= 1
    assert abs(end - (left + 180) * DOTS) <= 1
    assert abs(end - zero - 180 * DOTS) <= 1


def test_the_ruler_along_begins_and_ends_on_its_dots(dots):
    picture, wrap = dots
    left, low = zero_of_rulers(wrap)
    zero = middle_of_line(picture, (left + 0.7, low), upright=False)
    end = middle_of_line(picture, (left + 2, low + 250), upright=False)
    assert abs(zero - low * DOTS) <= 1
    assert abs(end - (low + 250) * DOTS) <= 1
    assert abs(end - zero - 250 * DOTS) <= 1


def test_a_baseline_is_on_its_dots(dots):
    """Between the first two tails, whose space is 3 wide at the end: from 36.25 to 39.25."""
    picture, wrap = dots
    corner = corner_of(tomllib.loads(drawer()))
    assert (corner.tails[0][1].at, corner.tails[1][0].at) == (36.25, 39.25)
    upright = wrap.up[0] != 0
    for t in (-18.4, 20.1 + 18.4):
        place = tuple(
            wrap.origin[axis] + 38 * wrap.across[axis] + t * wrap.up[axis] for axis in (0, 1)
        )
        found = middle_of_line(picture, place, upright)
        assert abs(found - place[0 if upright else 1] * DOTS) <= 1


def test_a_line_a_third_of_a_millimetre_away_is_seen_to_be_so(dots):
    picture, wrap = dots
    left, low = zero_of_rulers(wrap)
    zero = middle_of_line(picture, (left + 0.3, low + 0.7), upright=True)
    assert abs(zero - (left + 0.3) * DOTS) > 5
