"""Words that only a whole job can say: which ends are one piece's, and what waits for the glue."""

import re
from fractions import Fraction
from pathlib import Path

import pytest

from joinery_templates.jobs.reader import read_job
from joinery_templates.patterns import bench_pages, boards, patterns, pictures
from joinery_templates.pdf.fonts import DejaVu

SAMPLES = Path(__file__).parents[1] / "sample_jobs"
# Round the tray A and D are in front, where its long boards are; the box's sides run from front to
# back, and of its front and back there is one each.
SAME_BOARD = {
    "canted_tray": {
        ("Corner A", "LONG"): "Corner D",
        ("Corner D", "LONG"): "Corner A",
        ("Corner B", "LONG"): "Corner C",
        ("Corner C", "LONG"): "Corner B",
        ("Corner A", "SHORT"): "Corner B",
        ("Corner B", "SHORT"): "Corner A",
        ("Corner C", "SHORT"): "Corner D",
        ("Corner D", "SHORT"): "Corner C",
    },
    "writing_box": {
        ("Front left", "SIDE"): "Back left",
        ("Back left", "SIDE"): "Front left",
        ("Front right", "SIDE"): "Back right",
        ("Back right", "SIDE"): "Front right",
    },
}


@pytest.mark.parametrize("name", SAME_BOARD)
def test_a_template_says_which_other_corner_is_on_its_board(name):
    job = read_job((SAMPLES / f"{name}.toml").read_text("utf-8"))
    found = {}
    for pattern in patterns(job, (Fraction(170), Fraction(240)), DejaVu()):
        words = " ".join(t.paragraph or t.words for layer in pattern.layers for t in layer.texts)
        if "same board as " in words:
            key = pattern.group, pattern.title.split()[0]
            others = {part.split(" · ")[0] for part in words.split("same board as ")[1:]}
            (found[key],) = {" ".join(other.split()[:2]) for other in others}
    assert found == SAME_BOARD[name]


def test_a_bench_page_says_what_its_steps_call_a_board_of_another_name():
    job = read_job((SAMPLES / "stool.toml").read_text("utf-8"))
    pages = bench_pages(job, pictures(job, DejaVu()), Fraction(170), DejaVu())
    assert [blocks[0].texts[0].words for _, blocks in pages] == [
        "Long rails · LONG RAIL and LEG",
        "Short rails · SHORT RAIL and LEG",
        "Stretchers · STRETCHER (rail) and LEG",
    ]


@pytest.mark.parametrize(("name", "waits"), [("writing_box", True), ("workshop_drawer", False)])
def test_glue_waits_until_every_joint_of_the_piece_is_cut(name, waits):
    job = read_job((SAMPLES / f"{name}.toml").read_text("utf-8"))
    for _, blocks in bench_pages(job, pictures(job, DejaVu()), Fraction(170), DejaVu()):
        words = [text.words for block in blocks for text in getattr(block, "texts", ())]
        assert any(row.startswith("A board here has other joints too.") for row in words) == waits
        title, *more = blocks[0].texts
        assert title.bold
        assert more, "a title that stands alone is left at the foot of a page"


@pytest.mark.parametrize("name", ["face_frame", "cabinet_door", "panelled_frame"])
def test_a_stile_s_template_says_top_or_bottom_as_its_corner_is_called(name):
    job = read_job((SAMPLES / f"{name}.toml").read_text("utf-8"))
    found = set()
    for pattern in patterns(job, (Fraction(190), Fraction(270)), DejaVu()):
        words = " ".join(t.paragraph or t.words for layer in pattern.layers for t in layer.texts)
        called = re.search(r"(top|bottom) (?:left|right) · (\w+)", words.lower())
        end = re.search(r"▲ (\w+) end\b", words)
        if called and called[2] == "stile" and end:
            found.add((called[1], end[1]))
    assert found == {("top", "top"), ("bottom", "bottom")}


@pytest.mark.parametrize(("name", "told"), [("bookcase", True), ("jewel_box", False)])
def test_a_list_says_that_what_lies_in_a_groove_is_not_in_it(name, told):
    job = read_job((SAMPLES / f"{name}.toml").read_text("utf-8"))
    figures = boards(job, (), Fraction(170), DejaVu())
    words = " ".join(text.words for figure in figures for text in figure.texts)
    assert ("What lies in a groove or rebate" in words) == told
