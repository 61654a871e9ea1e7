"""Jobs drawn by the program, once for each test process, and read back."""

from functools import cache
from pathlib import Path
from unittest import mock

from msgspec import Struct

from joinery_templates.build import pdf_of
from joinery_templates.drawings.figure import Pattern
from joinery_templates.jobs.overrides import Overrides
from joinery_templates.jobs.reader import read_job
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.page import Booklet
from joinery_templates.sheets.tiling import Scissors, Tiled
from tests.pdf.page_reading import PageRead, read_pages

FOLDER = Path(__file__).parents[2] / "sample_jobs"
SAMPLES = tuple(
    path
    for path in sorted(FOLDER.glob("*.toml"))
    if path.read_text("utf-8").partition('kind = "')[2].startswith("through-dovetail")
)
"""The samples whose first joint the table of dovetail lines can hold to their places."""


class Bound(Struct, frozen=True):
    """A job's PDF, its pages as they were laid out, and its patterns as they were cut for them."""

    content: bytes
    booklet: Booklet
    frame: Frame
    tiled: tuple[Tiled, ...]


AS_IT_STANDS = Overrides()


@cache
def bound_from(text: str, overrides: Overrides = AS_IT_STANDS) -> Bound:
    """All that is made of a job file's text."""
    cut: list[tuple[Scissors, Tiled]] = []
    plain = Scissors.cut

    def seen(self: Scissors, pattern: Pattern) -> Tiled:
        cut.append((self, plain(self, pattern)))
        return cut[-1][1]

    job = read_job(text, overrides)
    with mock.patch.object(Scissors, "cut", seen):
        content, booklet = pdf_of(job)
    # Whoever cuts after the first only tries how another paper would do.
    tiled = tuple(one for scissors, one in cut if scissors is cut[0][0])
    return Bound(content, booklet, Frame(job.sheets.paper, job.sheets.margins), tiled)


def pdf_from(text: str) -> bytes:
    """The PDF of a job file's text."""
    return bound_from(text).content


def booklet_from(text: str) -> Booklet:
    """The pages of the same, as they were laid out."""
    return bound_from(text).booklet


@cache
def pages_from(text: str) -> tuple[PageRead, ...]:
    """The PDF of a job file's text, read back."""
    return tuple(read_pages(pdf_from(text)))


def sample_text(name: str) -> str:
    return (FOLDER / f"{name}.toml").read_text("utf-8")
