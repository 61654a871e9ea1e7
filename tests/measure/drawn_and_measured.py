"""A job drawn, read back and held to what it should show, all in this process."""

from joinery_templates.build import pdf_of
from joinery_templates.jobs.job import Job
from joinery_templates.measure.compare import Report, compare_pages
from joinery_templates.measure.document import open_document
from joinery_templates.measure.strokes import PageStrokes, page_strokes
from joinery_templates.proof import expected_pages
from joinery_templates.sheets.page import Booklet


def drawn_and_measured(job: Job) -> tuple[Booklet, tuple[PageStrokes, ...], Report]:
    """The pages as laid out, as `measure` finds them in the PDF, and what it says of them."""
    content, booklet = pdf_of(job)
    found = page_strokes(open_document(content))
    return booklet, found, compare_pages(expected_pages(booklet), found)
