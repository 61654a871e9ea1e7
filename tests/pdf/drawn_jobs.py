"""Jobs drawn by the program, once for each test process, and read back."""

from functools import cache
from pathlib import Path

from joinery_templates.sheets.page import Booklet
from tests.measure.drawn_and_measured import drawn
from tests.pdf.page_reading import PageRead, read_pages

SAMPLES = tuple(
    path
    for path in sorted((Path(__file__).parents[2] / "sample_jobs").glob("*.toml"))
    if 'kind = "through-dovetail"' in path.read_text("utf-8")
)
"""The samples that the table of dovetail lines worked out here can hold to their places."""


_drawn = cache(drawn)


def pdf_from(text: str) -> bytes:
    """The PDF of a job file's text."""
    return _drawn(text).content


def booklet_from(text: str) -> Booklet:
    """The pages of the same, as they were laid out."""
    return _drawn(text).booklet


@cache
def pages_from(text: str) -> tuple[PageRead, ...]:
    """The PDF of a job file's text, read back."""
    return tuple(read_pages(pdf_from(text)))


def sample_text(name: str) -> str:
    return next(path for path in SAMPLES if path.stem == name).read_text("utf-8")
