"""Every sample's PDF, whatever its joint, by a reader that shares no code with the writer."""

import tomllib
from itertools import pairwise
from pathlib import Path

import pytest

from joinery_templates.drawings.figure import LAYOUT_ROLES, Role
from joinery_templates.jobs.reader import read_job
from joinery_templates.joints.catalogue import kinds
from tests.pdf.drawn_jobs import booklet_from, pages_from
from tests.pdf.page_reading import SEAM
from tests.sheets.page_checks import faults
from tests.sheets.taping import kept

JOBS = sorted((Path(__file__).parents[1] / "sample_jobs").glob("*.toml"))
MARGINS = {"blanket_chest": 9.525}
"""In mm: 3/8 in, where a sample gives another than 10 mm."""
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
    ((a, b), (c, d)), ((e, f), (g, h)) = one, other
    return min(
        max(abs(a - e), abs(b - f), abs(c - g), abs(d - h)),
        max(abs(a - g), abs(b - h), abs(c - e), abs(d - f)),
    )


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
    booklet = booklet_from(text)
    for page, read in zip(booklet.pages, pages_from(text), strict=True):
        wanted = list(layout_lines(page))
        assert missing(wanted, read.lines) == []
        count += len(wanted)
    assert count >= 16  # the lantern's, of two mitred ends and a bevel


def test_the_comparison_sees_a_line_that_is_two_thousandths_off():
    job = JOBS[0].read_text("utf-8")
    booklet = booklet_from(job)
    for page, read in zip(booklet.pages, pages_from(job), strict=True):
        wanted = [tuple((x + 0.002, y) for x, y in line) for line in layout_lines(page)]
        if wanted:
            # A line along x may lie on its neighbour's continuation; most are seen.
            assert len(missing(wanted, read.lines)) == len(wanted)


def test_every_kind_of_joint_has_a_sample():
    jobs = [tomllib.loads(path.read_text("utf-8")) for path in JOBS]
    assert {joint["kind"] for job in jobs for joint in job["joints"]} == set(kinds())


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_the_pages_are_without_fault(job):
    text = job.read_text("utf-8")
    assert (
        faults(list(pages_from(text)), tomllib.loads(text)["title"], MARGINS.get(job.stem, 10))
        == []
    )


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_a_tile_that_is_cut_loose_says_what_it_is(job):
    text = job.read_text("utf-8")
    signs = f"job {booklet_from(text).fingerprint}"
    for tile in (one for page in pages_from(text) for one in page.placements):
        for seen in {line.clip for line in tile.drawn_with(SEAM)} - {None}:
            left, low, right, top = kept(tile, seen)
            named = [words.box for words in tile.words if signs in words.text]
            assert any(left < a and low < b and c < right and d < top for a, b, c, d in named)


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_no_words_are_left_out_for_want_of_room(job):
    found = booklet_from(job.read_text("utf-8")).findings
    assert [one.message for one in found if one.code == "no-room-for-words"] == []


def strips(booklet):
    """The setting-out strips of a booklet, each once."""
    figures = [window.figure for page in booklet.pages for window in page.windows]
    for number, figure in enumerate(figures):
        is_strip = any(text.words.startswith("Setting-out strip") for text in figure.texts)
        if is_strip and figure not in figures[:number]:
            yield figure


def astray(figure):
    """What is wrong with a strip's crosses: off the middle of a bay, or a mark beside none."""

    def across(*roles):
        strokes = (stroke for stroke in figure.strokes if stroke.role in roles)
        return {(stroke.start[0] + stroke.end[0]) / 2 for stroke in strokes}

    outline, crosses = across(Role.OUTLINE), across(Role.CROSS)
    upright = sorted(across(Role.MARK) | {min(outline), max(outline)})
    middles = [(a + b) / 2 for a, b in pairwise(upright)]
    beside_none = {
        mark
        for mark, bays in zip(upright[1:-1], pairwise(middles), strict=True)
        if crosses and crosses.isdisjoint(bays)
    }
    return (crosses - set(middles)) | beside_none


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_the_waste_on_a_strip_begins_or_ends_at_every_mark(job):
    text = job.read_text("utf-8")
    rows = [one.joint.main_row for one in read_job(text).joints if one.joint.main_row]
    # A mitred edge is a bay of its own: its wood is mitred, and none of it is chopped out.
    mitred = {one.position for row in rows for one in row.marks if one.what.startswith("mitred")}
    for figure in strips(booklet_from(text)):
        left = min(stroke.start[0] for stroke in figure.strokes if stroke.role is Role.OUTLINE)
        assert astray(figure) - {left + position for position in mitred} == set()
