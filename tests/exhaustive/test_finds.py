"""What the fuzzers have found, each made as small as it will go: it must not come back."""

import random
import re
import time

import pytest

from joinery_templates.jobs.starter import starter
from joinery_templates.joints.catalogue import kinds
from tests.cli.command_line import run_apart
from tests.exhaustive import command_lines, job_mutants
from tests.exhaustive.command_lines import Line
from tests.exhaustive.watched import MOST_SECONDS

JOBS = {
    "margins that leave no room for words": ("lapped-dovetail", "margin = 100"),
    "a key as long as a plank is checked in a moment": ("butt-dovetail-key", "key_length = 3000"),
}
"""The starter of a kind with one of its lines changed."""

SOUND = 0
"""A chance that puts settings without a mistake beside the files."""
QUIET = "</dev/null"
LINES = {
    "a list that nobody can take": Line(("joints",), None, True, (QUIET, ">/dev/full", "")),
    "a table to an output that is shut": Line(("papers",), None, True, (QUIET, ">&-", "")),
    "a mistake that nobody can be told": Line(
        ("check", "no.toml"), None, True, (QUIET, "", "2>/dev/full")
    ),
    "a question where the input is shut": Line(("calibrate", "P"), None, True, ("<&-", "", "")),
    "a program that waits beside a PDF": Line(("measure", "old.pdf")),
    "the schema over a PDF": Line(("schema", "-o", "other.pdf"), "other.pdf"),
    "templates over notes": Line(("draw", "job.toml", "-o", "log.txt"), "log.txt"),
    "a calibration sheet over a job": Line(("calibrate", "-o", "link.toml"), "link.toml"),
    "a link that leads to itself": Line(("new", "-o", "loop.pdf"), "loop.pdf"),
    "a name of five thousand signs": Line(("check", "x" * 5000)),
    "a list that is to be written": Line(("calibrate", "--list", "-o", "new.pdf"), "new.pdf"),
}


@pytest.mark.parametrize("name", JOBS)
def test_a_job_that_was_found(name):
    kind, line = JOBS[name]
    text = re.sub(rf"(?m)^{line.partition(' =')[0]} = .*", line, starter(kinds()[kind]))
    before = time.process_time()
    assert job_mutants.faults_of(text.encode()) == []
    assert time.process_time() - before < MOST_SECONDS


@pytest.mark.parametrize("name", LINES)
def test_a_line_that_was_found(name, tmp_path):
    assert command_lines.faults_of(LINES[name], tmp_path, random.Random(SOUND)) == []


def test_readings_of_no_printer_are_not_passed_over(tmp_path):
    """Without a name the sheet is drawn, and what was measured would be lost without a word."""
    command_lines.stock(tmp_path, random.Random(SOUND))
    line = Line(("calibrate", "--across", "163", "-o", "-"), "-")
    assert command_lines.run_here(line, tmp_path).code == 2


def test_an_interrupt_while_the_program_starts_is_answered_as_any_other():
    code = """
import sys
class Interrupted:
    def find_spec(self, name, *_):
        if name == "joinery_templates.cli.app":
            raise KeyboardInterrupt
sys.meta_path.insert(0, Interrupted())
from joinery_templates.cli import main
main()
"""
    ran = run_apart(code=code)
    assert (ran.code, ran.messages) == (130, "")
