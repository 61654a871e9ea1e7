"""What every page looks like: three sizes of type, none too small, and one title block."""

import re
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from joinery_templates.drawings.figure import HATCHES, Figure, Text
from joinery_templates.drawings.lettering import text_corners
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.sheets.page import Page
from tests.cli.command_line import run
from tests.pdf.drawn_jobs import FOLDER, booklet_from, pages_from
from tests.pdf.page_reading import (
    GUIDE,
    HATCH,
    KNIFE,
    SAW,
    PageRead,
    Words,
    box_of,
    clipped,
    meeting,
)
from tests.sheets.page_checks import words_of

JOBS = {
    path.stem: path.read_text("utf-8")
    for path in sorted((Path(__file__).parents[2] / "sample_jobs").glob("*.toml"))
}
SMALLEST = 9.0
"""In points: less is not read at a bench (our judgement)."""
SIZE = re.compile(r'(?m)^size = "(.*)"$')
every_page = pytest.mark.parametrize(
    ("job", "paper"),
    [
        pytest.param(job, paper, marks=() if paper == own else pytest.mark.exhaustive)
        for job, text in JOBS.items()
        for own in SIZE.findall(text)
        for paper in sorted({own, "A4", "Letter"})
    ],
)
"""On the paper that a sample is made for; on the others in the long run."""


@cache
def pages(job: str, paper: str) -> list[PageRead]:
    text = SIZE.sub(f'size = "{paper}"', JOBS[job])
    return list(pages_from(text))


def block_of(page: PageRead) -> list[Words]:
    """The words of the title block: what stands with the rulers and is no figure of theirs."""
    furniture = page.placements[0].words
    return [words for words in furniture if not re.fullmatch(r"\d+|mm|in", words.text)]


def block_words(page: PageRead) -> str:
    return " ".join(words.text for words in block_of(page))


def read_words(page: PageRead) -> list[Words]:
    """All words but the rulers' figures, which have sizes of their own."""
    return block_of(page) + [words for one in page.placements[1:] for words in one.words]


@every_page
def test_no_words_are_small_and_a_page_has_three_sizes_at_most(job, paper):
    for number, page in enumerate(pages(job, paper), start=1):
        sizes = {round(words.size_pt, 1) for words in read_words(page)}
        assert min(sizes) >= SMALLEST, number
        assert len(sizes) <= 3, (number, sizes)


@every_page
def test_no_word_of_a_title_block_is_cut_short(job, paper):
    """What has no room on two rows is told in fewer words."""
    assert not any("…" in block_words(page) for page in pages(job, paper))


@every_page
def test_what_is_read_at_the_bench_is_no_smaller_than_ten_points(job, paper):
    bench = [page for page in pages(job, paper) if "Bench page" in block_words(page)]
    assert bench
    for page in bench:
        assert min(words.size_pt for words in read_words(page)) >= 10


@every_page
def test_every_page_has_a_title_block_and_all_tell_one_fingerprint(job, paper):
    title = tomllib.loads(JOBS[job])["title"]
    read = pages(job, paper)
    signs = set()
    for number, page in enumerate(read, start=1):
        block = block_words(page)
        assert title in block
        assert f"sheet {number} of {len(read)}" in block
        assert "1:1" in block
        signs |= set(re.findall(r"job ([2-9A-Z]{4})\b", words_of(page)))
    (one,) = signs
    assert re.fullmatch("[2-9A-HJ-NP-Y]{4}", one)


def is_up_words(words: Words) -> bool:
    """Which way up a pattern goes is told in bold; a step may quote it."""
    return words.text.startswith("▲") and "Bold" in words.font


@pytest.mark.parametrize("job", JOBS)
def test_every_trimmed_pattern_tells_the_fingerprint(job):
    """On each that is taped at least one part does; what is trimmed away is not looked at."""
    text = JOBS[job]
    (signs,) = set(re.findall(r"job ([2-9A-Z]{4})\b", words_of(pages_from(text)[0])))
    for page in pages_from(text):
        for placement in page.placements[1:]:
            whole = not any(line.clip for line in placement.lines)
            words = " ".join(words.text for words in placement.words)
            if whole and any(is_up_words(one) for one in placement.words):
                assert f"job {signs}" in words


def test_check_and_measure_tell_the_fingerprint_of_the_sheets(tmp_path):
    job, out = tmp_path / "job.toml", tmp_path / "out.pdf"
    job.write_text(JOBS["tea_box"], encoding="utf-8")
    (signs,) = set(re.findall(r"job ([2-9A-Z]{4})\b", words_of(pages("tea_box", "Letter")[0])))
    assert run("draw", job, "-o", out).code == 0
    assert run("check", job).text.rstrip().endswith(f"job {signs}")
    assert f"job {signs}\n" in run("measure", out).text
    # A corrected board is another drawing.
    job.write_text(JOBS["tea_box"].replace('"1/2 in"', '"17/32 in"'), encoding="utf-8")
    assert signs not in run("check", job).text


@every_page
def test_no_page_that_is_read_holds_only_a_line_or_two(job, paper):
    """Words on it reach over a tenth of its height at least: paper is not wasted on leftovers."""
    for number, page in enumerate(pages(job, paper), start=1):
        if re.search("Overview|Bench page", block_words(page)):
            boxes = [words.box for one in page.placements[1:] for words in one.words]
            reach = max(box[3] for box in boxes) - min(box[1] for box in boxes)
            height = page.height_pt * 25.4 / 72
            assert reach > height / 10, (number, round(reach))


FIRST_TABLE = "Widest chisel for each space"


@pytest.mark.parametrize("job", ["cabinet_door", "kitchen_drawer", "mirror_frame", "stool"])
def test_a_bench_page_begins_with_a_step_and_its_tables_are_read_on_one_page(job):
    """Below each title stands a first step: the titles are larger than all else."""
    bench = [page for page in pages(job, "A4") if "Bench page" in block_words(page)]
    read = [(page, one) for page in bench for one in page.placements[1:]]
    told = [(page, words) for page, one in read for words in one.words if "Bold" in words.font]
    largest = max(words.size_pt for _, words in told)
    titles = [(page, words.at[1]) for page, words in told if words.size_pt == largest]
    firsts = [(page, words.at[1]) for page, words in told if words.text == "1"]
    assert titles
    assert firsts
    for page, high in titles:
        assert any(one is page and step < high for one, step in firsts)
    for page in (one for one, words in told if words.text.endswith("continued")):
        assert any(one is page and words.text == FIRST_TABLE for one, words in told), (
            "from page to page"
        )


@pytest.mark.parametrize("job", JOBS)
def test_no_line_to_work_to_ends_level_with_the_word_fold(job):
    """It could be taken for the fold: of a thin board's mitre both lie close together."""
    for page in pages_from(JOBS[job]):
        for placement in page.placements:
            worked_to = [line for pen in (SAW, KNIFE, GUIDE) for line in placement.drawn_with(pen)]
            for words in placement.saying("fold"):
                if words.text == "fold":
                    x0, y0, x1, y1 = words.box
                    beside = (
                        (x0, y0 - 2, x1, y1 + 2) if words.turn % 180 else (x0 - 2, y0, x1 + 2, y1)
                    )
                    assert not any(
                        beside[0] < x < beside[2] and beside[1] < y < beside[3]
                        for line in worked_to
                        for x, y in (line.start, line.end)
                    )


@pytest.mark.parametrize("job", ["jewel_box", "writing_box"])
def test_where_a_template_lies_turned_no_stage_of_waste_stands_upside_down(job):
    for page in pages_from(JOBS[job]):
        for placement in page.placements[1:]:
            named = {one.turn for one in placement.words if "Bold" in one.font}
            if named and named <= {90, 270}:
                stages = [one for one in placement.words if re.fullmatch(r"\d(st|nd)", one.text)]
                assert 180 not in {one.turn for one in stages}


@every_page
def test_all_sides_of_a_template_say_in_one_wording_where_they_are_trimmed(job, paper):
    for number, page in enumerate(pages(job, paper), start=1):
        for placement in page.placements[1:]:
            ways = {
                one.text.startswith("✂ trim: ")
                for one in placement.words
                if re.fullmatch(r"✂ (trim: )?(reference|far) edge", one.text)
            }
            assert len(ways) < 2, number


@pytest.mark.parametrize(("job", "waste"), [("bookcase", "corner"), ("bookshelf", "corner")])
def test_what_waste_is_called_in_it_does_not_stand_on_wood_that_stays_as_well(job, waste):
    count = 0
    for page in pages_from(JOBS[job]):
        for placement in page.placements[1:]:
            for words in placement.words:
                if re.fullmatch(rf"(1st: )?{waste}", words.text):
                    assert any(meeting(words.box, line.box) for line in placement.drawn_with(HATCH))
                    count += 1
    assert count


AIR = 0.2
"""So much of the height and width of words is free of ink."""


def on_hatching(page: Page) -> Iterator[Text]:
    """All words of which hatching passes below the ink; what one sheet shows is one drawing."""
    drawn: dict[tuple[object, ...], list[Figure]] = {}
    for window in page.windows:
        drawn.setdefault((window.origin, window.turned, window.view), []).append(window.figure)
    for figures in drawn.values():
        hatching = [
            tuple(tuple(map(float, end)) for end in (stroke.start, stroke.end))
            for figure in figures
            for stroke in figure.strokes
            if stroke.role in HATCHES
        ]
        for text in (text for figure in figures for text in figure.texts):
            left, low, right, high = box_of(
                tuple(map(float, corner)) for corner in text_corners(text, DejaVu())
            )
            ink = (left + AIR, low + AIR, right - AIR, high - AIR)
            if any(meeting(box_of(line), ink) and clipped(*line, ink) for line in hatching):
                yield text


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.toml")), ids=lambda path: path.stem)
def test_words_that_stand_on_hatching_have_white_below_them(path):
    """A thin grey line through a letter makes another of it."""
    for page in booklet_from(path.read_text("utf-8")).pages:
        assert [text for text in on_hatching(page) if not text.opaque] == []
