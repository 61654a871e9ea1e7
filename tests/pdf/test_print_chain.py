"""Programs between a PDF and the paper: 100 mm stay 100 mm within 1 in 5,000.

Each is given the sample for A4 and for Letter; what comes out is read back, and the
longest level and upright lines of the first page are held to their lengths.
"""

import io
import os
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTContainer, LTCurve

from tests.pdf.drawn_jobs import pdf_from, sample_text
from tests.pdf.page_reading import MM

PDFTOPDF = Path("/usr/lib/cups/filter/pdftopdf")
WITHIN = 1 / 5000
PAPERS = {"workshop_drawer": ("A4", 189.903, 250.0), "tea_box": ("Letter", 195.9, 230.0)}
POPPLER = {"A4": "A4", "Letter": "letter"}
"""What poppler's programs call the papers."""


@pytest.fixture(params=PAPERS)
def job(request, tmp_path) -> tuple[Path, str, float, float]:
    """A folder with in.pdf, the paper's name, and the longest lines across and along."""
    (tmp_path / "in.pdf").write_bytes(pdf_from(sample_text(request.param)))
    paper, across, along = PAPERS[request.param]
    return tmp_path, paper, across, along


def run(folder: Path, *command: str, out: str | None = None) -> None:
    program = shutil.which(command[0])
    if program is None:
        pytest.skip(f"{command[0]} is not installed")
    told = subprocess.run(
        [program, *command[1:]],
        check=False,
        cwd=folder,
        capture_output=True,
        timeout=120,
        env={**os.environ, "LC_ALL": "C"},
    )
    assert told.returncode == 0, told.stderr.decode(errors="replace")[-2000:]
    if out:
        (folder / out).write_bytes(told.stdout)


def from_postscript(folder: Path) -> None:
    """out.ps as out.pdf, nothing fitted."""
    ghostscript(folder, "out.ps")


def ghostscript(folder: Path, given: str, *media: str) -> None:
    """The first page of a file as out.pdf."""
    plain = ("-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=pdfwrite", "-dLastPage=1")
    run(folder, "gs", *plain, *media, "-sOutputFile=out.pdf", given)


def longest_lines(content: bytes) -> tuple[float, float]:
    """The longest level and the longest upright line on the first page, in mm."""
    (page,) = extract_pages(io.BytesIO(content), laparams=None, maxpages=1)
    level, upright = [0.0], [0.0]
    for curve in curves(page):
        for (x0, y0), (x1, y1) in zip(curve.pts, curve.pts[1:], strict=False):
            if abs(y1 - y0) < 0.01:
                level.append(abs(x1 - x0) * MM)
            if abs(x1 - x0) < 0.01:
                upright.append(abs(y1 - y0) * MM)
    return max(level), max(upright)


def curves(item: LTContainer) -> Iterator[LTCurve]:
    for one in item:
        if isinstance(one, LTCurve):
            yield one
        elif isinstance(one, LTContainer):
            yield from curves(one)


def check(job: tuple[Path, str, float, float]) -> None:
    folder, _, across, along = job
    level, upright = longest_lines((folder / "out.pdf").read_bytes())
    assert abs(level / across - 1) <= WITHIN
    assert abs(upright / along - 1) <= WITHIN


def test_the_longest_lines_of_our_own_file_are_the_title_blocks_and_the_rulers(job):
    """595 and 612 points less two margins of 10 mm; the ruler along the page."""
    folder, _, across, along = job
    level, upright = longest_lines((folder / "in.pdf").read_bytes())
    assert (round(level, 3), round(upright, 3)) == (across, along)


@pytest.mark.parametrize("scaling", [(), ("print-scaling=none",), ("print-scaling=auto",)])
def test_the_print_filter_keeps_its_length(job, scaling):
    if not PDFTOPDF.exists():
        pytest.skip("pdftopdf is not installed")
    folder, paper, *_ = job
    options = " ".join((f"PageSize={paper}", *scaling))
    run(folder, str(PDFTOPDF), "1", "me", "title", "1", options, "in.pdf", out="out.pdf")
    check(job)


def test_a_print_filter_told_to_fit_the_page_is_found_out(job):
    """The file cannot keep such a filter from shrinking it; a rule on the rulers shows it."""
    if not PDFTOPDF.exists():
        pytest.skip("pdftopdf is not installed")
    folder, paper, *_ = job
    options = f"PageSize={paper} fit-to-page"
    run(folder, str(PDFTOPDF), "1", "me", "title", "1", options, "in.pdf", out="out.pdf")
    with pytest.raises(AssertionError):
        check(job)


def test_pdftops_keeps_its_length(job):
    folder, paper, *_ = job
    run(folder, "pdftops", "-l", "1", "-paper", POPPLER[paper], "in.pdf", "out.ps")
    from_postscript(folder)
    check(job)


@pytest.mark.parametrize("paper_named", [True, False])
def test_pdftocairo_to_pdf_keeps_its_length(job, paper_named):
    folder, paper, *_ = job
    named = ("-paper", POPPLER[paper]) if paper_named else ()
    run(folder, "pdftocairo", "-pdf", "-l", "1", *named, "in.pdf", "out.pdf")
    check(job)


def test_pdftocairo_to_postscript_keeps_its_length(job):
    folder, *_ = job
    run(folder, "pdftocairo", "-ps", "-l", "1", "in.pdf", "out.ps")
    from_postscript(folder)
    check(job)


@pytest.mark.parametrize("fitted", [(), ("-dPDFFitPage", "-dFIXEDMEDIA")])
def test_ghostscript_keeps_its_length_even_when_it_fits_the_page(job, fitted):
    folder, paper, *_ = job
    media = (f"-sPAPERSIZE={paper.lower()}", *fitted) if fitted else ()
    ghostscript(folder, "in.pdf", *media)
    check(job)
