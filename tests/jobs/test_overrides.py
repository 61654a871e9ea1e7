"""What the command line said is written into the job that the PDF carries."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.jobs.overrides import Overrides, changed
from joinery_templates.jobs.reader import read_job
from tests.cli.command_line import SAMPLES, run, run_apart
from tests.jobs.bad_files import BOARDS, JOINT
from tests.jobs.job_texts import EVERYTHING, small_job

HEADS = (
    "",
    "# a remark\n\n",
    "\r\n# windows\r\n[paper]\r\nsize = 'A4'  # mine\r\nmargin = 5\r\n",
    'paper.size = "A4" # mine\n',
    "paper.margin = 5\ntitle = 'x'\n",
    "'paper'.\"size\" = 'A4'\n",
    'paper = { size = "A4", margin = 5 }\n',
    "paper = { margin = { left = 3 } }\n",
    "paper = {}\n",
    "figures = 'mm' # mine\n[paper]\n",
    "[paper.margin]\nleft = 3\n",
    "[tools]\nkerf = 0.60\n\n[paper]\n# nothing\n",
    "notes = '''\n[paper]\nsize = \"A0\"\n'''\n",
)


@pytest.mark.parametrize("head", HEADS)
@pytest.mark.parametrize(
    "overrides", [Overrides("Arch C", "in"), Overrides("300 x 420"), Overrides(None, "in")]
)
def test_a_changed_job_reads_back_equal_however_the_file_is_written(
    head: str, overrides: Overrides
) -> None:
    text = head + BOARDS + JOINT
    job = read_job(text, overrides)
    assert read_job(job.source) == job
    expected = tomllib.loads(text)
    if overrides.paper:
        expected.setdefault("paper", {})["size"] = overrides.paper
    if overrides.units:
        expected["figures"] = overrides.units
    assert tomllib.loads(job.source) == expected


def test_a_paper_written_after_the_last_table_belongs_to_no_joint() -> None:
    source = read_job(BOARDS + JOINT, Overrides("A3")).source
    assert source == f'{BOARDS}{JOINT}\n[paper]\nsize = "A3"\n'


def test_remarks_order_and_the_way_numbers_are_written_stay() -> None:
    source = read_job(EVERYTHING, Overrides("A2", "mm")).source
    changed = EVERYTHING.replace('size = "A3"', 'size = "A2"').replace('"in"\nnotes', '"mm"\nnotes')
    assert source == changed


def test_without_an_override_the_text_is_the_person_s_own() -> None:
    odd = f"# odd   \r\n{BOARDS}{JOINT}".replace("90", "9_0.00")
    assert read_job(odd).source == odd


@settings(deadline=None, max_examples=20)
@given(
    head=st.sampled_from(HEADS),
    remarks=st.lists(st.sampled_from(["# r", "", "   # é", "\t"]), max_size=5),
    turned=st.booleans(),
    paper=st.sampled_from(["A3", " a3 ", "roll 24 in", "8 1/2 x 14 in", "11x17", None]),
    figures=st.sampled_from(["mm", "in", None]),
)
def test_overriding_changes_two_values_and_nothing_else(
    head: str, remarks: list[str], turned: bool, paper: str | None, figures: str | None
) -> None:
    parts = [BOARDS, JOINT] if turned else [JOINT, BOARDS]
    text = head + "".join(f"{part}{chr(10).join(remarks)}\n" for part in parts)
    job = read_job(text, Overrides(paper, figures))
    assert read_job(job.source) == job
    changes: dict[str, object] = {}
    if paper is not None:
        changes["paper"] = {"size": " ".join(paper.split())}
    if figures is not None:
        changes["figures"] = figures
    assert changed(job.source, changes) == job.source
    for remark in remarks:
        assert remark.strip() in job.source


def test_a_file_that_the_override_cannot_be_put_into_is_refused_in_words(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    import tomlkit

    monkeypatch.setattr(tomlkit.TOMLDocument, "as_string", lambda _: "size = 'lost'")
    with pytest.raises(InputError, match="into the file yourself"):
        read_job(small_job(), Overrides("A3"))


def test_the_pdf_carries_the_overrides_and_is_drawn_again_the_same(tmp_path: Path) -> None:
    first, second, third = (tmp_path / f"{name}.pdf" for name in ("first", "second", "third"))
    assert run("draw", SAMPLES[0], "--paper", "Legal", "--units", "in", "-o", first).code == 0
    assert run("draw", first, "-o", second).code == 0
    assert first.read_bytes() == second.read_bytes()
    assert run("draw", first, "--paper", "A3", "-o", third).code == 0
    checked = run("check", third, "--json").text
    assert '"paper": "A3"' in checked
    assert '"units": "in"' in checked


def test_measure_sees_the_paper_that_was_given_and_not_the_file_s(tmp_path: Path) -> None:
    pdf = tmp_path / "box.pdf"
    text = small_job(joint_corners="'A'").encode()
    ran = run("draw", "-", "--paper", "Legal", "--units", "in", "-o", pdf, given=text)
    assert ran.code == 0
    measured = run("measure", pdf)
    assert measured.code == 0, measured.text + measured.messages
    assert "True to size." in measured.text


def test_tomlkit_is_imported_for_an_override_only() -> None:
    code = (
        "import sys; from joinery_templates.jobs.reader import read_job;"
        "from joinery_templates.jobs.overrides import Overrides; text = sys.stdin.read();"
        "read_job(text); assert 'tomlkit' not in sys.modules;"
        "read_job(text, Overrides('A3')); assert 'tomlkit' in sys.modules"
    )
    assert run_apart(code=code, given=small_job().encode()).code == 0
