"""`--open`: the file that was written goes to the system's viewer, and nothing else does."""

import sys
import time

import pytest

from tests.cli.command_line import SAMPLE, run

pytestmark = [
    pytest.mark.skipif(sys.platform != "linux", reason="a viewer of our own, as xdg-open"),
    # A viewer goes on after the program, which does not wait for it.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
    pytest.mark.filterwarnings("ignore::ResourceWarning"),
]
QUICK = ("quick", "through-dovetail", "--width", "90", "--thickness", "12")
COMPARE = ("compare", "through-dovetail", "--width", "90", "--thickness", "12", "--tails", "2,3")


@pytest.fixture
def viewer(tmp_path, monkeypatch):
    """A viewer that writes down what it is to show."""
    tool, seen = tmp_path / "bin" / "xdg-open", tmp_path / "seen"
    tool.parent.mkdir()
    tool.write_text(f'#!/bin/sh\necho "$1" > "{seen}"\n')
    tool.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tool.parent}:/usr/bin:/bin")
    return seen


@pytest.mark.parametrize("words", [("draw", SAMPLE), QUICK, COMPARE], ids=lambda words: words[0])
def test_the_result_is_shown_only_where_that_is_asked_for(tmp_path, viewer, words):
    pdf = tmp_path / "out.pdf"
    assert run(*words, "-o", pdf).code == 0
    assert not viewer.exists()
    assert run(*words, "-o", pdf, "--open").code == 0
    for _ in range(100):
        if viewer.exists() and viewer.read_text():
            break
        time.sleep(0.05)
    assert viewer.read_text().strip() == str(pdf)


def test_standard_output_is_not_shown_and_a_missing_viewer_is_told(tmp_path, monkeypatch):
    ran = run("draw", SAMPLE, "-o", "-", "--open")
    assert (ran.code, ran.output) == (2, b"")
    assert "--open: Only a file can be opened" in ran.messages
    monkeypatch.setenv("PATH", str(tmp_path))
    ran = run("draw", SAMPLE, "-o", tmp_path / "out.pdf", "--open")
    assert ran.code == 0
    assert "No viewer was found" in ran.messages
