"""The package from another program: the README's example runs, and agrees with the commands."""

import json
import re
from pathlib import Path

import pytest

import joinery_templates
from tests.cli.command_line import SAMPLE, TOP, run


def test_the_example_in_the_readme_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    readme = (TOP / "README.md").read_text(encoding="utf-8")
    (example,) = re.findall(r"```python\n(.*?)```", readme, re.DOTALL)
    (tmp_path / "sample_jobs").symlink_to(TOP / "sample_jobs")
    monkeypatch.chdir(tmp_path)
    names: dict[str, object] = {}
    exec(compile(example, "README.md", "exec"), names)
    drawn = (tmp_path / "tea_box.pdf").read_bytes()
    assert drawn == run("draw", "sample_jobs/tea_box.toml", "-o", "-").output


def test_the_layout_is_what_check_prints() -> None:
    job = joinery_templates.read_job(SAMPLE.read_text(encoding="utf-8"))
    assert json.loads(run("check", SAMPLE, "--json").text) == joinery_templates.figures_of(job)


def test_lines_on_faces_are_exact_and_told_from_the_end_and_the_reference_edge() -> None:
    """By hand: one tail between half pins of 10 mm on 60 mm, 1:6, on boards 12 mm thick.

    The tail is 40 mm wide at its end and 2 mm narrower on each side at the baseline.
    """
    job = joinery_templates.read_job(
        "boards = { a = { width = 60, thickness = 12 }, b = { width = 60, thickness = 12 } }\n"
        '[[joints]]\nkind = "through-dovetail"\ntail_board = "a"\npin_board = "b"\n'
        'tails = 1\nhalf_pin = 10\nslope = "1:6"\n'
    )
    (joint,) = joinery_templates.figures_of(job)["joints"]
    lines = joint["boards"]["tail board"]["lines"]["outside face"]
    assert {frozenset(map(tuple, line)) for line in lines} == {
        frozenset({("10", "0"), ("12", "12")}),
        frozenset({("0", "12"), ("12", "12")}),
        frozenset({("50", "0"), ("48", "12")}),
        frozenset({("48", "12"), ("60", "12")}),
    }


def test_mistakes_come_as_findings_with_their_lines() -> None:
    with pytest.raises(joinery_templates.InputError) as caught:
        joinery_templates.read_job('units = "cm"\nwidth = 3\n')
    assert [finding.place for finding in caught.value.findings][:2] == [
        "line 1: units",
        "line 2: width",
    ]


def test_the_types_are_told_to_other_programs() -> None:
    assert (Path(joinery_templates.__file__).parent / "py.typed").is_file()
