"""Jobs drawn by the program, once for each test process, and read back."""

from functools import cache
from pathlib import Path

from joinery_templates.sheets.page import Booklet
from tests.measure.drawn_and_measured import drawn
from tests.pdf.page_reading import PageRead, read_pages

FOLDER = Path(__file__).parents[2] / "sample_jobs"
SAMPLES = tuple(
    path
    for path in sorted(FOLDER.glob("*.toml"))
    if path.read_text("utf-8").partition('kind = "')[2].startswith("through-dovetail")
)
"""The samples whose first joint the table of dovetail lines can hold to their places."""


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
    return (FOLDER / f"{name}.toml").read_text("utf-8")
