"""What each command answers: results to standard output, messages to standard error."""

import json
import re
from pathlib import Path
from unittest.mock import Mock

import pytest

from joinery_templates import __version__
from joinery_templates.cli.app import COMMANDS, command_of
from joinery_templates.jobs.reader import read_job
from joinery_templates.joints.catalogue import kinds
from tests.cli.command_line import SAMPLE, SAMPLES, TOP, run

SIZES = ("--width", "90", "--thickness", "12")
CRATE = TOP / "sample_jobs" / "record_crate.toml"


def test_every_command_stands_in_the_help_with_a_whole_sentence() -> None:
    ran = run("--help")
    assert (ran.code, ran.messages) == (0, "")
    listed = ran.text.split("Commands:")[1]
    for name in COMMANDS:
        (line,) = [line for line in listed.splitlines() if line.split()[:1] == [name]]
        assert len(line.split()) > 4
        # A sentence that is cut off says nothing; `quick` shows how it is called.
        assert name == "quick" or not line.endswith("...")
    assert {"draw", "quick", "check", "new", "joints", "papers", "measure", "schema"} <= set(
        COMMANDS
    )


@pytest.mark.parametrize("name", COMMANDS)
def test_every_argument_and_option_of_a_command_is_explained(name: str) -> None:
    ran = run(name, "--help")
    assert ran.code == 0
    for parameter in command_of(name).params:
        assert parameter.help
        name = parameter.metavar if parameter.param_type_name == "argument" else parameter.opts[0]
        assert name in ran.text


def test_the_version_is_told() -> None:
    assert run("--version").text == f"joinery-templates {__version__}\n"


def test_without_a_command_the_help_is_shown() -> None:
    assert "Commands:" in run().text + run().messages


@pytest.mark.parametrize("words", [("drw",), ("draw",), ("draw", "--nope"), ("quick", "nothing")])
def test_a_slip_in_the_command_is_told_with_exit_code_2(words: tuple[str, ...]) -> None:
    ran = run(*words)
    assert (ran.code, ran.output) == (2, b"")
    assert "--help" in ran.messages or "joinery-templates joints" in ran.messages
    assert "Traceback" not in ran.messages


@pytest.mark.parametrize("kind", kinds())
def test_a_new_job_file_is_taken_as_it_stands(
    kind: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One of them is drawn; that all kinds can be drawn is shown with samples and random jobs."""
    monkeypatch.chdir(tmp_path)
    ran = run("new", kind)
    assert (ran.code, ran.output) == (0, b"")
    assert f"draw {kind}.toml" in ran.messages
    (joint,) = read_job(Path(f"{kind}.toml").read_text("utf-8")).joints
    assert joint.joint.kind == kind
    if kind == "dowel":
        assert run("draw", f"{kind}.toml").code == 0
        assert Path(f"{kind}.pdf").read_bytes().startswith(b"%PDF-")


def test_new_writes_over_nothing_not_even_a_file_of_its_own(tmp_path: Path) -> None:
    job = tmp_path / "mine.toml"
    assert run("new", "-o", job).code == 0
    job.write_text(job.read_text() + "# mine now\n")
    ran = run("new", "-o", job)
    assert ran.code == 2
    assert "--force" in ran.messages
    assert job.read_text().endswith("# mine now\n")
    assert run("new", "-o", job, "--force").code == 0
    assert "mine now" not in job.read_text()


def test_new_to_standard_output_is_a_job_file_that_draw_takes(tmp_path: Path) -> None:
    made = run("new", "-o", "-")
    assert made.messages == ""
    drawn = run("draw", "-", given=made.output)
    assert drawn.code == 0
    assert drawn.output.startswith(b"%PDF-")
    assert drawn.output.rstrip().endswith(b"%%EOF")
    assert "standard output: " in drawn.messages


def test_joints_lists_every_kind_and_guesses_at_a_slip() -> None:
    ran = run("joints")
    assert re.findall(r"^\S+", ran.text, re.MULTILINE) == list(kinds())
    assert [kind["name"] for kind in json.loads(run("joints", "--json").text)] == list(kinds())
    slip = run("joints", "through-dovetial")
    assert (slip.code, slip.output) == (2, b"")
    assert 'Did you mean "through-dovetail"?' in slip.messages


@pytest.mark.parametrize("kind", kinds())
def test_joints_explains_every_parameter_of_a_kind(kind: str) -> None:
    ran = run("joints", kind)
    told = json.loads(run("joints", kind, "--json").text)
    names = [parameter["name"] for parameter in told["parameters"]]
    assert names == [parameter.name for parameter in kinds()[kind].parameters]
    for parameter in told["parameters"]:
        assert f"\n  {parameter['name']} " in ran.text
        assert parameter["help"].endswith(".")
        assert parameter["unless_given"] not in ("", "None")


def test_joints_tells_defaults_and_limits() -> None:
    text = " ".join(run("joints", "through-dovetail").text.split())
    assert "fit length Gap at each sloping side" in text
    assert "Unless given: 0. Limits: from -1 mm to 1 mm." in text
    rule = "1:7, or the nearest of your markers, or as the cutter leans"
    assert f"Unless given: {rule}. Limits: from 1:2 to 1:60." in text


def test_papers_are_listed_with_their_sizes() -> None:
    lines = run("papers").text.splitlines()
    (a4,) = [line for line in lines if line.startswith("A4 ")]
    assert "210 mm x 297 mm" in a4
    (letter,) = [line for line in lines if line.startswith("Letter ")]
    assert "8 1/2 in x 11 in" in letter
    sizes = {paper["name"]: paper for paper in json.loads(run("papers", "--json").text)}
    assert (sizes["Letter"]["width_mm"], sizes["Letter"]["height_mm"]) == (215.9, 279.4)


def test_check_prints_figures_and_a_sketch_and_draws_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Half tails: 180 mm = 3 tails, 4 pins of 9 mm, 2 half tails: step 180 / 4 = 45 mm."""
    monkeypatch.chdir(tmp_path)
    ran = run("check", CRATE)
    assert ran.code == 0
    assert "Record crate\n============\n" in ran.text
    assert re.search(r"dividers, one tail and one pin, stepped off[^\d]* 45 mm$", ran.text, re.M)
    assert "reference edge left" in ran.text
    assert list(tmp_path.iterdir()) == []


def test_check_tells_figures_as_json_exactly_and_in_both_units() -> None:
    told = json.loads(run("check", CRATE, "--json").text)
    assert (told["title"], told["units"], told["paper"]) == ("Record crate", "mm", "A4")
    (joint,) = told["joints"]
    assert joint["boards"]["tail board"]["thickness"] == {
        "mm": 22.0,
        "exact_mm": "22",
        "inches": "55/64 in full (0.866)",
    }
    (dividers,) = [one for one in joint["settings"] if one["tool"] == "dividers"]
    assert dividers["exact_mm"] == "45"


def test_check_prints_figures_in_the_units_asked_for() -> None:
    assert " 45 mm (about 1 49/64 in)" in run("check", CRATE, "--units", "both").text
    assert "(about" not in run("check", CRATE).text
    inches = run("check", CRATE, "--units", "in", "--paper", "Letter")
    assert "1 49/64 in full (1.772)" in inches.text
    assert (
        json.loads(run("check", CRATE, "--units", "in", "--paper", "Letter", "--json").text)[
            "paper"
        ]
        == "Letter"
    )


@pytest.mark.parametrize("option", ["--paper", "--units"])
@pytest.mark.parametrize("command", ["draw", "check"])
def test_an_override_that_means_nothing_is_refused_by_name(
    command: str, option: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = run(command, SAMPLE, option, "cubits")
    assert (ran.code, ran.output) == (2, b"")
    assert f"ERROR: {option}: " in ran.messages
    assert "'cubits'" in ran.messages
    assert list(tmp_path.iterdir()) == []


def test_advice_goes_to_standard_error_and_the_job_is_drawn_nevertheless(tmp_path: Path) -> None:
    pdf = tmp_path / "x.pdf"
    ran = run("quick", "through-dovetail", *SIZES, "--slope", "1:3", "-o", pdf)
    assert (ran.code, ran.output) == (0, b"")
    assert "ADVICE: " in ran.messages
    assert pdf.exists()


def test_measure_finds_a_drawn_pdf_true_and_says_so_as_json_too(tmp_path: Path) -> None:
    pdf = tmp_path / "x.pdf"
    assert run("quick", "through-dovetail", *SIZES, "-o", pdf).code == 0
    ran = run("measure", pdf)
    assert (ran.code, ran.messages) == (0, "")
    assert ran.text.endswith("True to size.\n")
    assert json.loads(run("measure", pdf, "--json").text)["true_to_size"] is True


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.stem)
def test_every_sample_checks(sample: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its pages, from which the fingerprint comes, are laid out by tests of their own."""
    monkeypatch.setattr("joinery_templates.cli.check.booklet_of", Mock())
    ran = run("check", sample)
    assert ran.code == 0
    assert "ERROR" not in ran.messages


def test_an_error_of_the_program_itself_is_owned_up_to(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken() -> dict[str, object]:
        raise RuntimeError("oh\x1b[2J")

    monkeypatch.setattr("joinery_templates.cli.joints.kinds", broken)
    ran = run("joints")
    assert ran.code == 1
    assert r"the program itself failed (RuntimeError: oh\x1b[2J)" in ran.messages
