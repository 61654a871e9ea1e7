"""`compare`: layouts beside each other, told, drawn full size and as pictures, and picked."""

import io
import json
import re
import shlex
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pdfminer.high_level import extract_pages
from PIL import Image

from joinery_templates.choices import bold_to_fine
from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.starter import quick_job
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.spread import tails_and_spaces
from tests.cli.command_line import run
from tests.strategies import cases

TEA_BOX = Path(__file__).parents[2] / "sample_jobs" / "tea_box.toml"
SIZES = ("--width", "115", "--thickness", "12")


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_bytes(TEA_BOX.read_bytes())
    return path


def told(*words: object) -> list[dict[str, object]]:
    result = run("compare", *words, "--json")
    assert result.code == 0, result.messages
    return json.loads(result.text)


def test_ranges_and_lists_are_combined_and_lettered(job: Path) -> None:
    choices = told(job, "--tails", "3..4", "--pin", "1/8, 3/16 in")
    assert [(c["letter"], *c["parameters"].values()) for c in choices] == [
        ("A", 3, "1/8 in"),
        ("B", 3, "3/16 in"),
        ("C", 4, "1/8 in"),
        ("D", 4, "3/16 in"),
    ]


def test_any_parameter_can_be_varied() -> None:
    choices = told("box-joint", *SIZES, "--vary", "fingers=5,7")
    assert [c["parameters"] for c in choices] == [{"fingers": 5}, {"fingers": 7}]


def test_what_cannot_be_made_is_told_and_the_others_are_shown(job: Path) -> None:
    result = run("compare", job, "--tails", "5, 40")
    assert result.code == 0
    assert "A  tails 5" in result.text
    assert "B  " not in result.text
    assert "ADVICE: tails 40: Nothing is left for the tail" in result.messages


@given(
    kind=st.sampled_from(sorted(name for name, kind in kinds().items() if kind.spread)),
    width=st.integers(60, 400),
    thick=st.integers(10, 25),
)
@cases(16)
def test_a_spread_differs_and_draws_no_advice_that_the_proposal_does_not(kind, width, thick):
    text = quick_job(kinds()[kind], {"width": f"{width} mm", "thickness": f"{thick} mm"})
    try:
        job = read_job(text)
    except InputError:  # boards on which no joint of this kind can be made
        return
    had = {finding.code for finding in job.findings}
    choices = bold_to_fine(job, 0)
    for choice in choices:
        again = read_job(choice.text)
        assert {finding.code for finding in again.findings} <= had
    counts = [len(tails_and_spaces(choice.one.joint)[0]) for choice in choices]
    assert counts == sorted(counts), "from bold to fine"
    assert len({choice.one.joint.members for choice in choices}) == len(choices) or not counts[0]


def test_pins_go_from_stout_to_narrow() -> None:
    job = read_job(quick_job(kinds()["through-dovetail"], {"width": "150", "thickness": "15"}))
    pins = [min(tails_and_spaces(choice.one.joint)[1]) for choice in bold_to_fine(job, 0)]
    assert len(pins) >= 3
    assert pins == sorted(pins, reverse=True)
    assert all(a - b >= Fraction(1, 2) for a, b in pairwise(pins))


@pytest.mark.parametrize(
    ("width", "wanted"),
    # In 20 a dowel of 8 or 10 is sold; in an end they may stand close, and thin ones come one
    # more than thick ones.
    [("200", [(2, 10), (2, 8), (3, 8)]), ("400", [(4, 10), (5, 10), (5, 8), (6, 8)])],
)
def test_dowels_go_from_few_thick_ones_to_many_thin_ones(width: str, wanted: object) -> None:
    job = read_job(quick_job(kinds()["dowel"], {"width": width, "thickness": "20"}))
    made = [choice.one.joint.loose[0] for choice in bold_to_fine(job, 0)]
    assert [(one.made, one.member.part.board.width) for one in made] == wanted


def test_picking_writes_the_layout_into_the_job_and_keeps_all_remarks(job: Path) -> None:
    before = job.read_text()
    assert run("compare", job, "--tails", "3..5", "--pick", "b").code == 0
    assert job.read_text() == before.replace("tails = 5", "tails = 4")


def test_picking_from_a_kind_prints_the_command_that_draws_it(tmp_path: Path) -> None:
    words = ("lapped-dovetail", *SIZES, "--second-thickness", "19", "--tails", "2,3")
    printed = run("compare", *words, "--pick", "B")
    name, *command = shlex.split(printed.text)
    assert name == "joinery-templates"
    pdf = tmp_path / "picked.pdf"
    assert run(*command, "-o", pdf).code == 0
    (joint,) = json.loads(run("check", pdf, "--json").text)["joints"]
    starts = [mark for mark in joint["rows"][0]["marks"] if mark["what"].endswith("starts")]
    assert len(starts) == 3


def test_a_pdf_cannot_be_picked_into(tmp_path: Path, job: Path) -> None:
    pdf = tmp_path / "job.pdf"
    assert run("draw", job, "-o", pdf).code == 0
    before = pdf.read_bytes()
    result = run("compare", pdf, "--tails", "3,4", "--pick", "A")
    assert (result.code, pdf.read_bytes()) == (2, before)
    assert "not-a-job-file" in result.messages


def test_standard_output_is_called_so_in_the_message(job: Path) -> None:
    """As `draw` calls it: a line that begins with a dash alone tells nothing."""
    result = run("compare", job, "--tails", "3,5", "-o", "-")
    assert result.output.startswith(b"%PDF-")
    assert result.messages.splitlines()[-1].startswith("standard output: 2 layouts, full size")


def test_on_paper_each_layout_stands_full_size(tmp_path: Path, job: Path) -> None:
    """A board of 5 1/2 in: its sides stand so far apart, and each tail is as wide as told."""
    pdf = tmp_path / "choices.pdf"
    assert run("compare", job, "--tails", "3,5", "-o", pdf).code == 0
    *_, page = extract_pages(pdf, laparams=None)
    items = [item for form in page for item in (form if hasattr(form, "__iter__") else [form])]
    level = {
        round(abs(item.x1 - item.x0) * 25.4 / 72, 3)
        for item in items
        if hasattr(item, "pts") and abs(item.y1 - item.y0) < 1e-6
    }
    assert round(5.5 * 25.4, 3) in level
    for choice in told(job, "--tails", "3,5"):
        read = read_job(
            job.read_text().replace("tails = 5", f"tails = {choice['parameters']['tails']}")
        )
        spaces = tails_and_spaces(read.joints[0].joint)[1]
        baseline = min(spaces) + 2 * read.joints[0].joint.members[0].part.reach / 8
        assert any(abs(float(baseline) - length) < 0.001 for length in level)


@pytest.mark.parametrize("ending", ["svg", "png"])
def test_pictures_show_every_layout(tmp_path: Path, job: Path, ending: str) -> None:
    path = tmp_path / f"choices.{ending}"
    assert run("compare", job, "--tails", "3..5", "-o", path).code == 0
    content = path.read_bytes()
    if ending == "svg":
        root = ElementTree.fromstring(content)
        words = [one.text for one in root.iter("{http://www.w3.org/2000/svg}text")]
        assert {"A", "B", "C"} <= set(words)
        assert len(list(root.iter("{http://www.w3.org/2000/svg}line"))) > 50
    else:
        image = Image.open(io.BytesIO(content))
        shades = image.histogram()
        assert shades[255] > 10 * shades[0] > 1000, "black lines on white"
    assert run("compare", job, "--tails", "3", "-o", path).code == 2, "no picture is written over"


def test_hand_work_stands_beside_what_a_cutter_makes(job: Path) -> None:
    cutter = '{ diameter = "1/2 in", side_angle = 8 }'
    hand, routed = told(job, "--tails", "5", "--cutter", cutter)
    assert hand["parameters"] == {"tails": 5}
    assert routed["parameters"] == {"cutter": cutter}


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--joint", "2"), "--joint: The job has no joint 2."),
        (("--tails", "1..20"), "That makes 20 layouts."),
        (("--vary", "tails"), '--vary: "tails" names no values.'),
        (("--vary", "fingers=3"), "Joints of this kind have no fingers. They have: "),
        (
            ("--vary", "half_pins=3"),
            'Joints of this kind have no half_pins. Did you mean "half_pin"?',
        ),
        (("--tails", "three"), "tails three: 'three' is not a whole number."),
        (("--pick", "Z"), '--pick: There is no layout "Z".'),
        (("--width", "90"), "--width: The sizes stand in the job."),
        (("-o", "no folder/choices.jpg"), "--output: Pictures are not written as .jpg here."),
    ],
)
def test_bad_input_is_refused_in_words(job: Path, words: tuple[str, ...], told: str) -> None:
    result = run("compare", job, *words)
    assert result.code == 2
    assert result.messages.startswith(f"ERROR: {told}")


def test_a_kind_needs_sizes_and_one_with_no_choice_says_so() -> None:
    assert run("compare", "through-dovetail").messages.count("(missing)") == 2
    assert "(nothing-to-choose)" in run("compare", "housing", *SIZES).messages


@pytest.mark.parametrize("columns", [60, 120])
def test_a_sketch_is_as_wide_as_the_terminal_and_to_proportion(
    columns: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of a board 140 wide three tails of 37 with spaces of 6 between: 26 and 4 in a hundred."""
    monkeypatch.setenv("COLUMNS", str(columns))
    layout = shlex.split("--width 140 --thickness 12 --tails 3 --pin 6 --half-pin 8.5")
    said = run("compare", "through-dovetail", *layout).text
    assert max(map(len, said.splitlines())) <= columns
    end = next(line.strip() for line in said.splitlines() if re.fullmatch(r" +[.#]+", line))
    assert len(end) == columns - 3
    parts = [len(part) for part in re.findall(r"\.+|#+", end)]
    wanted = [8.5, 37, 6, 37, 6, 37, 8.5]
    assert parts == pytest.approx([one * len(end) / 140 for one in wanted], abs=1.1)


def test_the_figures_of_each_layout_are_there_for_other_programs(job: Path) -> None:
    (first, second) = json.loads(run("compare", job, "--tails", "3,5", "--json").output)
    assert first["figures"].keys() == second["figures"].keys()
    # 5 1/2 in less two half pins of 5/16 and two pins of 1/8 leaves 3 x 1 13/24 at the end.
    assert first["figures"]["tail at the end (wide)"] == "1 35/64 in bare (1.542)"
