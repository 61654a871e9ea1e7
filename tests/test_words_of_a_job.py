"""Words that only a whole job can say: which ends are one piece's, and what waits for the glue."""

import re
from pathlib import Path

import pytest

from joinery_templates.drawings.figure import Figure, Together
from joinery_templates.exact import Fraction
from joinery_templates.jobs.reader import read_job
from joinery_templates.patterns import bench_pages, boards, patterns, pictures, plans
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
    assert [blocks[0].figures[0].texts[0].words for _, blocks in pages] == [
        "Long rails · LONG RAIL and LEG",
        "Short rails · SHORT RAIL and LEG",
        "Stretchers · STRETCHER (rail) and LEG",
    ]


def test_advice_on_a_bench_page_speaks_of_wood_and_not_of_the_job_file():
    text = (SAMPLES / "tea_box.toml").read_text("utf-8")
    job = read_job(text.replace("5/16 in", "1/8 in").replace('pin = "1/8 in"\nt', "pin = 0.25\nt"))
    ((_, blocks),) = bench_pages(job, pictures(job, DejaVu()), Fraction(170), DejaVu())
    figures = [one for block in blocks for one in getattr(block, "figures", [block])]
    words = " ".join(t.words for one in figures for t in getattr(one, "texts", ()))
    assert "A half pin of 1/8 in is narrower" in words
    assert "half_pin" not in words


@pytest.mark.parametrize(("name", "waits"), [("writing_box", True), ("workshop_drawer", False)])
def test_glue_waits_until_every_joint_of_the_piece_is_cut(name, waits):
    job = read_job((SAMPLES / f"{name}.toml").read_text("utf-8"))
    for _, blocks in bench_pages(job, pictures(job, DejaVu()), Fraction(170), DejaVu()):
        first, *others = blocks
        assert isinstance(first, Together)
        figures = [*first.figures, *(one for one in others if isinstance(one, Figure))]
        words = [text.words for figure in figures for text in figure.texts]
        assert any(row.startswith("A board here has other joints too.") for row in words) == waits
        title, *more = first.figures[0].texts
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


@pytest.mark.parametrize(
    ("name", "told", "gauged"),
    [
        ("tea_box", False, False),
        ("keepsake_box", True, False),
        ("jewel_box", True, True),
        ("writing_box", True, True),
    ],
)
def test_a_hair_is_too_much_where_a_mitre_must_meet_a_line(name, told, gauged):
    """A mitre alone has no baseline: it is knifed from the arris, whatever the thickness."""
    job = read_job((SAMPLES / f"{name}.toml").read_text("utf-8"))
    words = " ".join(
        text.words for one in boards(job, (), Fraction(170), DejaVu()) for text in one.texts
    )
    assert ("Not so at a mitre" in words) == told
    # What the writing box's tails are left proud stays in the gauge's figure.
    by_what = "gauge as much under or over its figure as they then are under or over the list, and"
    assert (by_what in words) == gauged


def words_by_pattern(name: str) -> dict[tuple[str, str], str]:
    """All that stands on each pattern of a sample, by its corner and title."""
    job = read_job((SAMPLES / f"{name}.toml").read_text("utf-8"))
    return {
        (one.group, one.title): " ".join(
            text.paragraph or text.words for layer in one.layers for text in layer.texts
        )
        for one in patterns(job, (Fraction(190), Fraction(270)), DejaVu())
    }


def test_a_half_pin_s_waste_says_at_which_end_it_is_deeper():
    """7 at the end; 18.4 from there, at 1:6, it is 18.4 / 6 = 3.07 wider."""
    told = words_by_pattern("workshop_drawer")
    for edge in ("reference edge", "far edge"):
        words = told["Back left", f"SIDE {edge}"]
        assert "7 mm deep at the end, 10.1 mm at the baseline" in words


@pytest.mark.parametrize("has_plan", [True, False])
def test_the_first_page_says_which_ends_meet_whether_a_sketch_shows_it_or_not(has_plan):
    """As the templates of the same corners do. A ring whose lengths nobody tells has no plan."""
    text = (SAMPLES / "six_sided_box.toml").read_text("utf-8")
    job = read_job(text if has_plan else re.sub(r"(?m)^length = .*\n", "", text))
    sketches = [*plans(job, (), Fraction(170), DejaVu())]
    assert len(sketches) == has_plan
    rows = [text.words for one in boards(job, (), Fraction(170), DejaVu()) for text in one.texts]
    rows += [one.words for _, words in sketches for one in words]
    told = words_by_pattern("six_sided_box")
    for corner in ("Odd corners", "Even corners"):
        (row,) = (row for row in rows if row.startswith(corner))
        ends = dict(re.findall(r"(\w+) \(([a-z-]+ end)\)", row))
        assert set(ends) == {"TAILS", "PINS"}
        for board, end in ends.items():
            assert f"outside face · {end}" in told[corner, f"{board} outside face"]


@pytest.mark.parametrize(
    ("name", "leans"),
    [("writing_box", False), ("tea_box", False), ("canted_tray", True), ("six_sided_box", True)],
)
def test_a_knife_is_held_flat_on_a_side_that_leans_and_no_mitre_is_one(name, leans):
    """The writing box's tails are sawn square across the end: only its mitred edge runs aslant."""
    job = read_job((SAMPLES / f"{name}.toml").read_text("utf-8"))
    steps = [step.words for one in job.joints for step in one.joint.steps]
    assert any("Keep the knife flat" in words for words in steps) == leans
