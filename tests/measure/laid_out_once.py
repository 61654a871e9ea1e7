"""Many files that carry the same job: what they should show is worked out once."""

from collections.abc import Iterator
from contextlib import contextmanager
from unittest import mock

from joinery_templates import build, proof


@contextmanager
def laid_out_once() -> Iterator[None]:
    """Keep the pages of a job, by the job's own text, and what they should show."""
    lay_out, expect = build.booklet_of, proof.expected_pages
    booklets, pages = {}, {}

    def booklet_of(job, *progress):
        if job.source not in booklets:
            booklets[job.source] = lay_out(job)
        return booklets[job.source]

    def expected_pages(booklet):
        if id(booklet) not in pages:
            pages[id(booklet)] = expect(booklet)
        return pages[id(booklet)]

    with (
        mock.patch.object(build, "booklet_of", booklet_of),
        mock.patch.object(proof, "expected_pages", expected_pages),
    ):
        yield
