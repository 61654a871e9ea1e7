"""Pages as a joiner turns them: corner by corner, sheet by sheet, everything once."""

import re
from collections import Counter
from itertools import combinations, groupby, pairwise

import pytest
from msgspec.structs import replace
from shapely.geometry import box

from joinery_templates.drawings.figure import FIRST_PLACE, LAYOUT_ROLES
from joinery_templates.drawings.fingerprint import marked
from joinery_templates.jobs.overrides import Overrides
from joinery_templates.jobs.reader import read_job
from joinery_templates.patterns import SETTING_OUT
from joinery_templates.sheets.bind import GAP
from joinery_templates.sheets.page import Window
from tests.pdf.drawn_jobs import Bound, bound_from
from tests.test_every_sample import JOBS

DRAWERS = """
units = "mm"
[boards.side]
width = 90
thickness = 12
[boards.back]
width = 90
thickness = 10
[boards.wide]
width = 400
thickness = 12
"""
JOINT = """
[[joints]]
kind = "through-dovetail"
name = "{name}"
corners = [{{ name = "{name} left", like = "A" }}, {{ name = "{name} right", like = "D" }}]
tail_board = "{tails}"
pin_board = "{pins}"
slope = "1:7"
tails = {count}
"""
SEVERAL = DRAWERS + "".join(
    JOINT.format(name=name, tails=tails, pins=pins, count=count)
    for name, tails, pins, count in (
        ("Upper", "side", "back", 2),
        ("Chest", "wide", "wide", 7),
        ("Lower", "side", "back", 3),
    )
)
TEXTS = {path.stem: path.read_text("utf-8") for path in JOBS} | {"several_joints": SEVERAL}


def sheets_of(job: Bound):
    """What stands on the pages, in drawing order: page, pattern, tile, and its window.

    The last drawing of a pattern, with its words, is its own.
    """
    signs = job.booklet.fingerprint
    known = {
        told(marked(one.pattern.layers[-1], signs)): number for number, one in enumerate(job.tiled)
    }
    for number, page in enumerate(job.booklet.pages):
        for window in page.windows:
            if told(window.figure) in known:
                pattern = known[told(window.figure)]
                yield number, pattern, job.tiled[pattern].tiles.index(window.view), window


def told(figure):
    """What tells a drawing with words from others, also where it lies turned."""
    texts = ((text.words, text.either_way or text.at) for text in figure.texts)
    return figure.width, figure.height, tuple(texts)


@pytest.fixture(scope="module", params=TEXTS.values(), ids=TEXTS)
def job(request) -> Bound:
    return bound_from(request.param)


def on_page(window: Window):
    """Where a window lies on its page, as shapely sees it."""
    corners = (window.view.left, window.view.bottom), (window.view.right, window.view.top)
    low, high = (window.on_page(corner) for corner in corners)
    return box(*map(float, (*low, *high)))


def test_every_sheet_of_every_pattern_stands_on_the_pages_once_and_in_order(job):
    wanted = [
        (pattern, tile) for pattern, one in enumerate(job.tiled) for tile in range(len(one.tiles))
    ]
    assert [(pattern, tile) for _, pattern, tile, _ in sheets_of(job)] == wanted


def test_what_belongs_to_one_corner_lies_together(job):
    groups = [one.pattern.group for one in job.tiled]
    runs = [group for group, _ in groupby(groups)]
    assert len(runs) == len(set(runs))


def test_corners_come_in_the_order_in_which_the_job_gives_them():
    groups = dict.fromkeys(one.pattern.group for one in bound_from(SEVERAL).tiled)
    assert list(groups) == [
        "Setting out",
        *(f"{name} {side}" for name in ("Upper", "Chest", "Lower") for side in ("left", "right")),
    ]


def test_every_sheet_lies_right_of_or_below_all_that_come_before_it(job):
    """Top and left are read first; y runs up."""
    shapes = [(number, on_page(window).bounds) for number, _, _, window in sheets_of(job)]
    assert [number for number, _ in shapes] == sorted(number for number, _ in shapes)
    for _, run in groupby(shapes, key=lambda shape: shape[0]):
        for (_, (_, low, right, _)), (_, (left, _, _, top)) in combinations(run, 2):
            assert left >= right or top <= low


def test_a_corner_begins_where_the_one_before_ends_or_on_the_next_page(job):
    pages: dict[str, list[int]] = {}
    for number, pattern, *_ in sheets_of(job):
        pages.setdefault(job.tiled[pattern].pattern.group, []).append(number)
    for before, after in pairwise(pages.values()):
        assert after[0] - before[-1] in (0, 1)


def test_all_sheets_of_a_pattern_are_turned_alike_and_none_needlessly(job):
    area = job.frame.area
    for _, pattern, _, window in sheets_of(job):
        one = job.tiled[pattern]
        fits = one.pattern.width <= area.width and one.pattern.height <= area.height
        assert not (fits and (one.turned or one.seams))
        if one.seams:
            assert window.turned == one.turned


def test_sheets_lie_apart_and_within_the_area(job):
    assert astray(list(sheets_of(job)), job.frame) == []


def astray(sheets, frame):
    """Sheets that leave the area, and pairs that are nearer than scissors want."""
    area = frame.area
    room = box(*map(float, (area.left, area.bottom, area.right, area.top))).buffer(1e-6)
    told = [found for *found, window in sheets if not on_page(window).within(room)]
    for _, run in groupby(sheets, key=lambda sheet: sheet[0]):
        for (*one, window), (*_, other) in combinations(run, 2):
            if on_page(window).distance(on_page(other)) < float(GAP) - 1e-6:
                told.append(one)
    return told


def test_a_sheet_moved_by_a_millimetre_is_seen():
    job = bound_from(TEXTS["tea_box"])
    sheets = list(sheets_of(job))
    assert astray(sheets, job.frame) == []
    *where, window = sheets[-1]
    for dx, dy in ((-1, 0), (0, 1)):
        moved = replace(window, at=(window.at[0] + dx, window.at[1] + dy))
        assert astray([*sheets[:-1], (*where, moved)], job.frame)


def test_no_seam_runs_within_a_millimetre_beside_a_layout_line(job):
    """Box joints of 6 mm fingers leave no more than 3; most seams are clear by 10."""
    for one in job.tiled:
        for seam in one.seams:
            axis = 0 if seam.upright else 1
            for stroke in one.pattern.strokes:
                low, high = sorted((stroke.start[axis], stroke.end[axis]))
                rise = abs(stroke.start[1 - axis] - stroke.end[1 - axis])
                if stroke.role in LAYOUT_ROLES and rise >= high - low:
                    assert not low - 1 < seam.at < high + 1


def test_pages_say_what_they_hold_and_which_part_of_it_unless_they_hold_all(job):
    held = Counter((number, pattern) for number, pattern, _, _ in sheets_of(job))
    for number, pattern, tile, _ in sheets_of(job):
        page, one = job.booklet.pages[number], job.tiled[pattern]
        heading = f"{page.title}{page.part}"
        assert one.pattern.group in heading
        number_said = rf"parts?( \d+,| \d+ and)* {tile + 1}\b.* of {len(one.tiles)}\b"
        parted = held[number, pattern] < len(one.tiles)
        part = rf"{re.escape(one.pattern.title)}, {number_said}" if parted else ""
        assert re.search(part or re.escape(one.pattern.title), heading)


def test_on_small_paper_too_the_title_block_says_which_part_it_is():
    """Of what has a page to itself; where two parts share one, there is room for fewer words."""
    job = bound_from(TEXTS["workshop_drawer"], Overrides("A6"))
    sheets = list(sheets_of(job))
    assert len({pattern for _, pattern, *_ in sheets}) == len(job.tiled)
    shared = Counter(number for number, *_ in sheets)
    told = 0
    for number, pattern, tile, _ in sheets:
        one = job.tiled[pattern]
        if one.seams and shared[number] == 1:
            words = " ".join(
                text.words for text in job.booklet.pages[number].windows[1].figure.texts
            )
            assert f"part {tile + 1} of {len(one.tiles)}" in words
            told += 1
    assert told > 20


def overview_words(job):
    """All that the first pages say, once for each of its lines, in drawing order."""
    for page in job.booklet.pages:
        if page.title.startswith("Overview"):
            yield from (text.paragraph or text.words for text in page.windows[2].figure.texts)


TAPED = "Taped together"


def test_the_overview_draws_how_patterns_are_taped_once_for_all_that_are_cut_alike(job):
    words = list(overview_words(job))
    cut = [one for one in job.tiled if one.seams]
    assert (TAPED in words) == bool(cut)
    told = " ".join(words[words.index(TAPED) :]) if cut else ""
    for one in cut:
        assert one.pattern.title in told
        *_, last = one.pattern.group.split()
        assert one.pattern.group in told or re.search(rf"Corners [A-Z, ]*\b{last}\b", told)
    alike = {(one.pattern.width, one.pattern.height, one.seams[0].at): one for one in cut}
    first_parts = sum(word == "1" for word in words[words.index(TAPED) :]) if cut else 0
    assert first_parts == len(alike)


@pytest.mark.parametrize(
    ("name", "row"),
    [
        ("lantern", "Bench page: Every corner; Setting out: tool settings"),
        ("garden_trellis", "Setting out: strip for STILE · Slanting rail, left"),
    ],
)
def test_neither_a_text_that_runs_on_nor_a_comma_in_a_name_counts_as_a_board(name, row):
    """What stands on one page alone is told in short."""
    assert row in overview_words(bound_from(TEXTS[name]))


def test_the_overview_lists_every_page_once_by_what_stands_at_its_head(job):
    listed, said_of, told_of = 0, {}, Counter()
    words = list(overview_words(job))
    rows = words[words.index("Sheets") + 1 :]
    for line, named in pairwise(rows):
        found = re.fullmatch(r"(\d+)(?:–(\d+))?", line)
        if not found or int(found[1]) != listed + 1:
            continue  # what a sheet holds
        first, last = int(found[1]), int(found[2] or found[1])
        pages = job.booklet.pages[first - 1 : last]
        run = re.search(r"(.*), parts (\d+) (?:to|and) (\d+) of (\d+)$", named)
        if run and first < last:
            one, other, count = map(int, run.groups()[1:])
            assert [page.sheet for page in pages] == [(n, count) for n in range(one, other + 1)]
        # In short, unless that would stand there twice.
        assert said_of.setdefault(named, pages[0].title) == pages[0].title
        said = run[1] if run and first < last else named
        assert all(
            any(f"{told}{page.part}".startswith(said) for told in (page.listed, page.title))
            for page in pages
        )
        for group, _, names in (told.partition(": ") for told in said.split("; ")):
            told_of.update({(group, name) for name in names.split(", ")})
        listed = last
    assert listed == len(job.booklet.pages)
    whole = {(one.pattern.group, one.pattern.short) for one in job.tiled if not one.seams}
    whole -= {(SETTING_OUT, "divider walk")}
    assert [one for one in whole if told_of[one] > 1] == [], "its faces tell one sheet from another"


def test_bookmarks_lead_to_the_page_where_a_pattern_begins(job):
    firsts: dict[int, int] = {}
    for number, pattern, *_ in sheets_of(job):
        firsts.setdefault(pattern, number)
    told = [
        (chapter.title, mark.title, mark.page)
        for chapter in job.booklet.bookmarks
        for mark in chapter.inside
    ]
    wanted = [(one.pattern.group, one.pattern.title) for one in job.tiled]
    assert told == [(*names, firsts[number]) for number, names in enumerate(wanted)]


@pytest.mark.parametrize("name", ["tea_box", "several_joints"])
def test_one_pattern_a_page_where_that_is_wished(name):
    job = bound_from(TEXTS[name], Overrides(one_per_page=True))
    numbers = [number for number, *_ in sheets_of(job)]
    assert numbers == list(range(numbers[0], numbers[0] + len(numbers)))


def test_equal_ends_that_are_cut_go_on_sharing_one_drawing():
    """Four corners of a chest are two ends of two boards, each left-hand and right-hand."""
    job = bound_from(TEXTS["blanket_chest"])
    wraps = [one for one in job.tiled if one.pattern.title.endswith("template")]
    assert all(one.seams for one in wraps)
    assert len(wraps) == 8
    assert len({id(one.pattern.layers[0]) for one in wraps}) == 4


POINTER = re.compile(r"As in step (\d+) of (.+?), sheet (\d+)\.")


def test_words_that_point_to_a_step_name_the_sheet_on_which_it_stands():
    found = 0
    for text in TEXTS.values():
        steps = {one.name: one.joint.steps for one in read_job(text).joints}
        pages = [
            {told.paragraph for window in page.windows for told in window.figure.texts}
            for page in bound_from(text).booklet.pages
        ]
        for number, name, sheet in POINTER.findall(" ".join(set().union(*pages))):
            heading, title = steps[name][int(number) - 1].heading, f"{name} · "
            begins = next(at for at, said in enumerate(pages) if starting(said, title))
            on = next(at for at in range(begins, len(pages)) if heading in pages[at])
            assert on + 1 == int(sheet), (name, number)
            found += 1
        assert not any(max(words, default="") >= FIRST_PLACE for words in set().union(*pages))
    assert found > 30


def starting(said: set[str], start: str) -> bool:
    return any(words.startswith(start) for words in said)
