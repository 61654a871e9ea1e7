"""Paper that cuts a pattern badly is told, with the pattern and the smallest listed paper."""

import re
from functools import cache

import pytest

from joinery_templates.build import booklet_of
from joinery_templates.drawings.figure import Figure, Pattern
from joinery_templates.errors import Finding, InputError
from joinery_templates.exact import Fraction
from joinery_templates.jobs.reader import read_job
from joinery_templates.sheets import seam_advice
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.papers import find_paper, known_papers
from joinery_templates.sheets.tiling import Tiled
from tests.cli.command_line import run
from tests.sheets.taping import THICK_ON_SMALL_PAPER

# Fingers of 230/75, about 3 mm: wherever a seam runs, it is 1.5 mm from a saw line.
COMB = """
title = "Comb"
units = "mm"
[paper]
size = "A4"
[boards.side]
width = 230
thickness = 12
[boards.end]
width = 230
thickness = 14
[[joints]]
kind = "box-joint"
corners = ["A"]
first_board = "side"
second_board = "end"
fingers = 75
"""
HATCH, BOARD = "the locker hatch of the second berth", "side of the locker in the bow"
SLIM_EDGES = f"""
title = "Words"
units = "mm"
[paper]
size = "A6"
overlap = 10
margin = 5
[boards."{BOARD}"]
width = 60
thickness = 8
[boards.end]
width = 60
thickness = 60
[[joints]]
kind = "through-dovetail"
corners = ["{HATCH}"]
tail_board = "{BOARD}"
pin_board = "end"
slope = "1:6"
tails = 2
half_pin = 6
pin = 5
views = ["faces"]
"""
EDGES = [f"{BOARD.upper()} {edge} edge" for edge in ("reference", "far")]


@cache
def advised(job: str, paper: str) -> dict[str, Finding]:
    """What is told of the pages of a job on some paper, by its code."""
    text = re.sub(r'size = ".*"', f'size = "{paper}"', job)
    return {one.code: one for one in booklet_of(read_job(text)).findings}


@pytest.mark.parametrize(
    ("job", "paper", "code", "patterns", "would_do"),
    [
        (THICK_ON_SMALL_PAPER, "A6", "seam-at-line", "Corner B: SIDE template, END template", "B6"),
        (COMB, "A4", "seam-at-line", "Corner A: SIDE template, END template", "Arch A"),
        (SLIM_EDGES, "A6", "no-room-for-words", ", ".join(EDGES), "Legal"),
    ],
)
def test_it_names_the_patterns_and_the_smallest_listed_paper_that_would_do(
    job, paper, code, patterns, would_do
):
    told = advised(job, paper)[code]
    assert patterns in told.place
    assert paper in told.message
    assert told.remedy == f"{would_do} would do; a smaller listed paper may, too."
    assert code not in advised(job, would_do)
    area, most = ((one.width * one.height) for one in map(find_paper, (paper, would_do)))
    between = (one for one in known_papers() if area < one.width * one.height < most)
    for name in [one.name for one in sorted(between, key=lambda one: one.width * one.height)][-3:]:
        try:
            found = advised(job, name)
        except InputError:
            continue  # no tile has room on it
        assert code in found, name


def test_words_that_are_left_out_are_told_word_for_word():
    message = advised(SLIM_EDGES, "A6")["no-room-for-words"].message
    for edge, arrow in (("reference", "▲"), ("far", "▼")):
        assert f'"{HATCH} · {BOARD.upper()} · {edge} edge · {arrow} outside"' in message
    assert message.isprintable()


def test_of_many_words_that_are_left_out_the_first_are_told(monkeypatch):
    """Words that a line must not part, such as a title, are told with the space between them."""
    monkeypatch.setattr(seam_advice, "known_papers", list)  # none is looked for
    box = Figure(Fraction(1), Fraction(1))
    drawn = Pattern("END template", "Corner A", (box,), seams=(Fraction(1, 2),))
    cut = Tiled(drawn, drawn, (), seams=(None,), lost=("a\0z", *"bcdefgh", "a\0z"))
    frame = Frame(find_paper("A6"), Margins())
    (told,) = seam_advice.advise_on_seams([cut], frame, None)
    assert told.message.endswith('out: "a z"; "b"; "c"; "d"; "e"; "f"; and 2 more.')


def test_where_seams_and_words_stand_clear_nothing_is_told():
    assert advised(THICK_ON_SMALL_PAPER, "A4") == {}


def test_where_the_person_wants_seams_is_for_the_person_to_say():
    assert "seam-at-line" not in advised(f"{COMB}seams = [118]\n", "A4")


def test_seams_that_the_job_gives_where_a_sheet_takes_the_whole_are_told():
    """Templates 230 wide: A4 offers less than 210, A3 more than 270."""
    job = f"{COMB}seams = [118]\n"
    assert "seams-not-needed" not in advised(job, "A4")
    assert "seams-not-needed" not in advised(COMB, "A3")
    words = advised(job, "A3")["seams-not-needed"].message
    assert "On A3 these fit one sheet whole" in words
    assert "Corner A: SIDE template, END template" in words


def test_draw_tells_it(tmp_path):
    path = tmp_path / "block.toml"
    path.write_text(THICK_ON_SMALL_PAPER, encoding="utf-8")
    ran = run("draw", path, "-o", tmp_path / "block.pdf")
    assert ran.code == 0
    told = r"ADVICE: Corner B: SIDE template, END template: On .* has to run along"
    assert re.search(told, ran.messages)
