"""Wide and long work on small sheets and on rolls, drawn true and taped together true.

Files are held to their job by `measure`, and their overall lengths are read by pdfminer from
the sheets as they are taped by their match marks.
"""

import math
import re
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from tests.cli.command_line import run
from tests.measure.laid_out_once import laid_out_once
from tests.pdf.drawn_jobs import pages_from
from tests.pdf.page_reading import FOLD, GUIDE, SAW, SEAM, THIN, PageRead, read_pages
from tests.pdf.wrap_reading import Wrap, wraps_on
from tests.sheets.taping import (
    Tile,
    joined_up,
    patterns_in_tiles,
    pieces,
    put_together,
    taped,
    tile_of,
)

NEAR = 0.002
JOB = """
title = "Long work"
units = "mm"
[paper]
{paper}
[boards.side]
width = {width}
thickness = 19
[boards.top]
width = {width}
thickness = 21
[[joints]]
kind = "through-dovetail"
corners = ["A"]
tail_board = "side"
pin_board = "top"
slope = "1:7"
tails = {tails}
views = ["{view}"]
{seams}
"""


def job(width: int, paper: str, tails: int = 5, view: str = "wrap", seams: str = "") -> str:
    return JOB.format(width=width, paper=paper, tails=tails, view=view, seams=seams)


@cache
def drawn(text: str, folder: Path) -> tuple[PageRead, ...]:
    """The pages of a job that `measure` finds true."""
    (folder / "job.toml").write_text(text, encoding="utf-8")
    out = folder / "out.pdf"
    with laid_out_once():
        ran = run("draw", folder / "job.toml", "-o", out)
        measured = run("measure", out)
    assert ran.code == 0, ran.messages
    assert measured.code == 0, measured.text
    assert measured.text.rstrip().endswith("True to size.")
    return tuple(read_pages(out.read_bytes()))


@pytest.fixture(scope="module")
def bench(tmp_path_factory):
    return tmp_path_factory.mktemp("bench")


def tiles_saying(pages: tuple[PageRead, ...], words: str) -> list[Tile]:
    """The tiles of a pattern that is known by its words."""
    return [
        tile_of(placement)
        for page in pages
        for placement in page.placements
        if placement.saying(words) and any(line.clip for line in placement.lines)
    ]


def wraps_of(pages: tuple[PageRead, ...]) -> dict[str, list[Wrap]]:
    found: dict[str, list[Wrap]] = {}
    for wrap in wraps_on(pages):
        found.setdefault(wrap.role, []).append(wrap)
    return found


def level_lengths(tiles: list[Tile], pen: object) -> list[float]:
    """Lengths of all lines of a pen that lie along the first fold or the strip, when taped."""
    return sorted(math.dist(*line) for line in joined_up(pieces(taped(tiles), pen)))


def test_a_strip_for_a_board_of_a_metre_and_a_half_on_a4_is_as_long_when_taped(bench):
    pages = drawn(job(1500, 'size = "A4"', tails=4, view="end-grain"), bench)
    tiles = tiles_saying(pages, "Setting-out strip")
    assert len(tiles) >= 6
    ends = np.array(joined_up(pieces(taped(tiles), THIN))).reshape(-1, 2)
    assert np.max(np.ptp(ends, axis=0)) == pytest.approx(1500, abs=NEAR)


def test_a_carcase_side_of_600_mm_is_as_wide_when_taped(bench):
    pages = drawn(job(600, 'size = "Letter"', tails=3), bench)
    for role, board_and_paper in (("tail board", 19.1), ("pin board", 21.1)):
        tiles = [tile_of(wrap.placement) for wrap in wraps_of(pages)[role]]
        assert len(tiles) >= 3
        wrap = put_together(tiles)
        assert wrap.width == pytest.approx(600, abs=NEAR)
        assert wrap.between_folds == pytest.approx(board_and_paper, abs=NEAR)


def test_a_roll_takes_wide_work_in_one_piece(bench):
    pages = drawn(job(3000, 'size = "roll 610 mm"', tails=3), bench)
    ((wide, high),) = {(page.width_pt, page.height_pt) for page in pages}
    assert wide == math.floor(610 / 25.4 * 72)
    assert 3000 < high / 72 * 25.4 <= 5080, "it is cut as long as the work"
    assert all(line.clip is None for page in pages for line in page.lines), "nothing is cut"
    for wraps in wraps_of(pages).values():
        (wrap,) = wraps
        assert wrap.width == pytest.approx(3000, abs=NEAR)


def test_work_on_a6_is_true(bench):
    """There its labels have no room on every sheet; its lines do."""
    pages = drawn(job(90, 'size = "A6"\nmargin = 5', tails=2), bench)
    wraps = [
        tiles
        for tiles in patterns_in_tiles(pages).values()
        if all(len(tile.placement.drawn_with(FOLD)) == 2 for tile in tiles)
    ]
    assert len(wraps) == 2
    for tiles in wraps:
        assert len(tiles) > 1
        # Each fold is carried 5 mm into the paper at both sides of the board.
        assert level_lengths(tiles, FOLD) == pytest.approx([100, 100], abs=NEAR)


SEAMS = job(300, 'size = "A4"\noverlap = 20', seams="seams = [113, 207]")


def test_the_jobs_own_seams_are_kept():
    for wraps in wraps_of(pages_from(SEAMS)).values():
        for wrap in wraps:
            at = {round(x, 3) for line in wrap.lines(SEAM) for x, _ in line}
            assert at == {113, 207}


@pytest.mark.parametrize("overlap", [10, 33])
def test_sheets_share_the_overlap_that_the_job_wants(overlap):
    """A tile shows half of it past each of its seams."""
    pages = pages_from(SEAMS.replace("overlap = 20", f"overlap = {overlap}"))
    past = set()
    for wraps in wraps_of(pages).values():
        for wrap in wraps:
            tile = tile_of(wrap.placement)
            past |= {round(abs(a - b), 3) for a, b in zip(tile.seen, tile.kept, strict=True)}
    assert past == {0, overlap / 2}


def test_match_marks_are_left_out_where_the_job_says_so():
    without = SEAMS.replace("overlap = 20", "overlap = 20\nmarks = false")
    for text, count in ((SEAMS, 3), (without, 0)):
        for wraps in wraps_of(pages_from(text)).values():
            for wrap in wraps:
                assert wrap.placement.drawn_with(SEAM), "the seam itself stays"
                found = [len(places) for places in tile_of(wrap.placement).marks.values()]
                assert set(found) == ({count} if count else set())


@pytest.mark.parametrize("wanted", [True, False])
def test_every_pattern_gets_a_page_of_its_own_where_the_job_says_so(wanted):
    text = job(60, f'size = "A4"\none_per_page = {str(wanted).lower()}', tails=2)
    patterns = [len(page.placements) - 1 for page in pages_from(text)]  # but the frame
    assert (max(patterns) == 1) == wanted


STATED = re.compile(r"check(?: of the taping, .*)?: ([\d/ ]+) (mm|in) from tick to tick")
INCHES = (
    JOB.replace('"mm"', '"in"')
    .format(width=12, paper='size = "A4"', tails=5, view="wrap", seams="seams = [4, 8]")
    .replace("19", "0.75")
    .replace("21", "0.8")
)


@pytest.mark.parametrize("text", [SEAMS, INCHES], ids=["mm", "in"])
def test_the_check_line_has_its_stated_length_over_the_taped_sheets(text):
    pages = pages_from(text)
    for wraps in wraps_of(pages).values():
        tiles = [tile_of(wrap.placement) for wrap in wraps]
        (said,) = {
            words.text for tile in tiles for words in tile.placement.words
            if words.text.startswith("check")
        }  # fmt: skip
        figure, unit = STATED.fullmatch(said).groups()
        stated = float(figure) * (25.4 if unit == "in" else 1)
        lengths = level_lengths(tiles, THIN)
        assert stated > 250, "it runs over the seams"
        assert lengths[-1] == pytest.approx(stated, abs=NEAR)
        assert lengths[-2] < stated * 0.6, "and is whole: no piece of it is left over"
        assert f"{figure} {unit}" != "12 in", "nobody should take it for the board's width"


@pytest.mark.parametrize("thickness", [0, 1])
def test_the_inside_face_starts_a_boards_thickness_and_the_papers_past_the_fold(thickness):
    """The tail board is 19 thick, its baselines 21 from the end; the pin board the other way."""
    text = job(60, f'size = "A4"\nthickness = {thickness}', tails=2)
    wraps = wraps_of(pages_from(text))
    for role, board, deep in (("tail board", 19, 21), ("pin board", 21, 19)):
        (wrap,) = wraps[role]
        folds = sorted(round(start[1], 3) for start, _ in wrap.lines(FOLD))
        assert folds == [0, pytest.approx(board + thickness, abs=NEAR)]
        across = sorted(round(start[1], 3) for start, _ in wrap.lines(GUIDE))
        assert across == pytest.approx([-deep, board + thickness + deep], abs=NEAR)


ROD = """
title = "Bookcase"
units = "mm"
boards.side = { width = 150, thickness = 20, length = 2400 }
boards.shelf = { width = 150, thickness = 18 }
"""
SHELF = """
[[joints]]
kind = "housing"
corners = [{{ name = "Left {at}", like = "A" }}, {{ name = "Right {at}", like = "B" }}]
shelf = "shelf"
side = "side"
at = {at}
"""


def test_a_rod_of_2400_mm_taped_from_a4_has_every_mark_at_its_place(bench):
    pages = drawn(ROD + "".join(SHELF.format(at=at) for at in (340, 1021.7, 2200)), bench)
    tiles = tiles_saying(pages, "Rod for SIDE")
    assert len(tiles) >= 9
    laid = taped(tiles)
    thin = np.array(joined_up(pieces(laid, THIN)))
    spans = np.ptp(thin, axis=1)
    along = int(np.argmax(spans.max(axis=0)))
    is_long = spans[:, along] > 2000
    edge, other, check = np.sort(spans[is_long, along])
    assert (edge, other) == pytest.approx((2400, 2400), abs=0.001)
    assert any(one.placement.saying(f" {check:.0f} mm from tick to tick") for one in tiles)
    ends = thin[is_long & (spans[:, along] < check - 1)][..., along]
    start, stop = ends.min(), ends.max()
    ticks = np.array(joined_up(pieces(laid, SAW)))[:, 0, along]
    wanted = sorted(at + wide for at in (340, 1021.7, 2200) for wide in (0, 18))
    from_start = np.unique(np.round(ticks - start, 3))
    from_stop = np.unique(np.round(stop - ticks, 3))
    nearest = min((from_start, from_stop), key=lambda found: abs(found[0] - wanted[0]))
    assert nearest == pytest.approx(wanted, abs=0.001)
