"""A job drawn, read back and held to what it should show, all in this process."""

from collections.abc import Iterator
from dataclasses import dataclass

from joinery_templates.build import pdf_of
from joinery_templates.drawings.figure import Figure, Point
from joinery_templates.drawings.lettering import text_corners
from joinery_templates.jobs.reader import read_job
from joinery_templates.measure.compare import Report, compare_pages
from joinery_templates.measure.document import open_document
from joinery_templates.measure.strokes import PageStrokes, page_strokes
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.proof import expected_pages
from joinery_templates.sheets.page import Booklet, Window

PRINTED = 3
"""What reaches so many mm past its drawing's box is printed all the same."""


@dataclass(frozen=True)
class Drawn:
    """The PDF of a job, and its pages as they were laid out."""

    content: bytes
    booklet: Booklet


@dataclass(frozen=True)
class Measured:
    """A PDF's pages as `measure` finds them, and what it says of them."""

    pages: tuple[PageStrokes, ...]
    report: Report


def drawn(text: str) -> Drawn:
    """Draw a job file.

    Raises:
        InputError: where there is a mistake in it, or the paper is too small.
    """
    return Drawn(*pdf_of(read_job(text)))


def measured(one: Drawn) -> Measured:
    pages = page_strokes(open_document(one.content))
    return Measured(pages, compare_pages(expected_pages(one.booklet), pages))


def faults_of(one: Drawn) -> Iterator[str]:
    """What is wrong with the pages of a job, in words; nothing where all is well."""
    report = measured(one).report
    if not report.as_drawn:
        wrong = [page for page in report.pages if not page.true_to_size(report.tolerance)]
        yield f"not as drawn: {wrong or report}"
    yield from lost_from(one)


def lost_from(one: Drawn) -> Iterator[str]:
    """What leaves its drawing's box, in words."""
    seen: set[int] = set()
    for page in one.booklet.pages:
        for window in page.windows:
            if id(window.figure) not in seen:
                seen.add(id(window.figure))
                yield from (f"{page.title}: {lost}" for lost in _lost(window))


def _lost(window: Window) -> Iterator[str]:
    """Lines that leave their drawing's box, and words so far out that they are not printed."""
    figure = window.figure
    out = {
        str(stroke.role)
        for stroke in figure.strokes
        if not (_within(stroke.start, figure) and _within(stroke.end, figure))
    }
    if out:
        yield f"outside of its drawing's box: {sorted(out)}"
    # Of what a seam cuts, the other sheet has the rest.
    for words in figure.texts if window.shows_all else ():
        if not all(_within(end, figure, PRINTED) for end in text_corners(words, DejaVu())):
            yield f"outside of its drawing's box: {words.words!r}"


def _within(point: Point, figure: Figure, past: int = 0) -> bool:
    return -past <= point[0] <= figure.width + past and -past <= point[1] <= figure.height + past
