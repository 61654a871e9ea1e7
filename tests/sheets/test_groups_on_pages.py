"""What belongs to one corner stands on one page or on neighbouring pages, in every sample."""

import pytest

from joinery_templates.build import booklet_of
from joinery_templates.jobs.reader import Overrides, read_job
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.sheets.page import Page
from tests.test_every_sample import JOBS


def pages_by_group(pages: tuple[Page, ...]) -> dict[str, list[int]]:
    """The numbers of the pages with patterns on which each group's name stands."""
    held: dict[str, list[int]] = {}
    for number, page in enumerate(pages):
        if page.full_size:
            for part in page.title.split("; "):
                held.setdefault(part.split(":")[0], []).append(number)
    return held


def test_a_group_that_skips_a_page_is_seen():
    titles = ("Corner A: side wrap", "Corner B: side wrap", "Corner A: end wrap")
    pages = tuple(Page(title=title, windows=(), full_size=True) for title in titles)
    assert pages_by_group(pages) == {"Corner A": [0, 2], "Corner B": [1]}


@pytest.mark.parametrize("paper", [None, "Letter"])
@pytest.mark.parametrize("sample", JOBS, ids=lambda path: path.stem)
def test_no_group_skips_a_page(sample, paper):
    """At no cost in pages: the packing tests hold their number."""
    job = read_job(sample.read_text("utf-8"), Overrides(paper))
    for group, numbers in pages_by_group(booklet_of(job, DejaVu()).pages).items():
        assert len(numbers) == numbers[-1] - numbers[0] + 1, group
