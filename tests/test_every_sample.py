"""Every sample's PDF, whatever its joint, by a reader that shares no code with the writer."""

from pathlib import Path

import pytest

from joinery_templates.build import booklet_of
from joinery_templates.drawings.figure import LAYOUT_ROLES
from joinery_templates.jobs.reader import read_job
from joinery_templates.pdf.fonts import DejaVu
from tests.pdf.drawn_jobs import pages_from

JOBS = sorted((Path(__file__).parents[1] / "sample_jobs").glob("*.toml"))
NEAR = 0.001


def layout_lines(page):
    """Exact ends on the page of every layout line that any window shows, in mm."""
    for window in page.windows:
        for stroke in window.figure.strokes:
            if stroke.role in LAYOUT_ROLES and window.view.part_of(stroke.start, stroke.end):
                ends = (window.on_page(stroke.start), window.on_page(stroke.end))
                yield tuple(tuple(float(number) for number in end) for end in ends)


def apart(one, other):
    """How far two lines' ends lie apart, whichever way round they were drawn."""

    def far(a, b):
        return max(
            abs(p - q)
            for end, wanted in zip(a, b, strict=True)
            for p, q in zip(end, wanted, strict=True)
        )

    return min(far(one, other), far(one, other[::-1]))


def missing(wanted, found):
    """Lines that no drawn line is near to."""
    shelf = {}
    for line in found:
        for x, y in (line.start, line.end):
            shelf.setdefault((round(x), round(y)), []).append((line.start, line.end))
    lacking = []
    for line in wanted:
        (x, y), _ = line
        near = [
            other
            for i in (-1, 0, 1)
            for j in (-1, 0, 1)
            for other in shelf.get((round(x) + i, round(y) + j), ())
        ]
        if not any(apart(line, other) <= NEAR for other in near):
            lacking.append(line)
    return lacking


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_every_layout_line_is_within_a_thousandth_of_its_exact_place(job):
    text = job.read_text("utf-8")
    count = 0
    booklet = booklet_of(read_job(text), DejaVu())
    for page, read in zip(booklet.pages, pages_from(text), strict=True):
        wanted = list(layout_lines(page))
        assert missing(wanted, read.lines) == []
        count += len(wanted)
    assert count > 50


def test_the_comparison_sees_a_line_that_is_two_thousandths_off():
    job = JOBS[0].read_text("utf-8")
    booklet = booklet_of(read_job(job), DejaVu())
    for page, read in zip(booklet.pages, pages_from(job), strict=True):
        wanted = [tuple((x + 0.002, y) for x, y in line) for line in layout_lines(page)]
        if wanted:
            # A line along x may lie on its neighbour's continuation; most are seen.
            assert len(missing(wanted, read.lines)) == len(wanted)
