"""A job drawn, read back and held to what it should show, all in this process."""

import time
from collections.abc import Iterator
from dataclasses import dataclass

from joinery_templates.build import pdf_of
from joinery_templates.drawings.figure import Figure, Stroke
from joinery_templates.jobs.job import Job
from joinery_templates.measure.compare import Report, compare_pages
from joinery_templates.measure.document import open_document
from joinery_templates.measure.strokes import PageStrokes, page_strokes
from joinery_templates.proof import expected_pages
from joinery_templates.sheets.page import Booklet


@dataclass(frozen=True)
class Measured:
    """A job's pages.

    Attributes:
        booklet: as laid out.
        pages: as `measure` finds them in the PDF.
        report: what it says of them.
        drawing: processor time that drawing took, in seconds.
        measuring: the same for measuring.
    """

    booklet: Booklet
    pages: tuple[PageStrokes, ...]
    report: Report
    drawing: float
    measuring: float


def drawn_and_measured(job: Job) -> Measured:
    """Draw a job and measure the PDF.

    Raises:
        InputError: where the paper is too small.
    """
    start = time.process_time()
    content, booklet = pdf_of(job)
    drawn = time.process_time()
    pages = page_strokes(open_document(content))
    report = compare_pages(expected_pages(booklet), pages)
    return Measured(booklet, pages, report, drawn - start, time.process_time() - drawn)


def untruths(measured: Measured) -> Iterator[str]:
    """What is wrong with the pages of a job, in words; nothing where all is well."""
    report = measured.report
    if not report.as_drawn:
        wrong = [page for page in report.pages if not page.true_to_size(report.tolerance)]
        yield f"not as drawn: {wrong or report}"
    figures = {
        id(window.figure): (page.title, window.figure)
        for page in measured.booklet.pages
        for window in page.windows
    }
    for title, figure in figures.values():
        out = {str(stroke.role) for stroke in figure.strokes if not _within(stroke, figure)}
        if out:
            yield f"{title}: outside of its drawing's box: {sorted(out)}"


def _within(stroke: Stroke, figure: Figure) -> bool:
    return all(
        0 <= x <= figure.width and 0 <= y <= figure.height for x, y in (stroke.start, stroke.end)
    )
