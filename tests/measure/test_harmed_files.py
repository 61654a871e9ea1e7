"""Five hundred harmed files through `measure`: an answer for each, and soon."""

import json
import os
import subprocess
import sys
from collections import Counter

import pytest

from tests.cli.command_line import TOP, run, run_apart
from tests.measure.harmed_run import harmed
from tests.printers.small_job import SMALL_JOB

JOB = SMALL_JOB.replace(
    "[boards", '[paper]\nsize = "105 x 148 mm"\nmargin = 5\n[boards', 1
).replace("170", "60")
"""On small paper, so that the five hundred are read in half a minute."""
HARMED, APART, SEED = 500, 2, 1906
MOST_SECONDS, MOST_MB = 5, 500


@pytest.fixture(scope="module")
def sample(tmp_path_factory):
    folder = tmp_path_factory.mktemp("harmed")
    (folder / "job.toml").write_text(JOB, encoding="utf-8")
    assert run("draw", folder / "job.toml", "-o", folder / "sample.pdf").code == 0
    return folder / "sample.pdf"


def assert_told(code: int, messages: str, number: int) -> None:
    assert code in (0, 1, 2), (number, code, messages)
    assert "Traceback" not in messages, (number, messages)
    assert "the program itself failed" not in messages, (number, messages)
    assert (code == 2) == ("ERROR" in messages), (number, messages)


def test_every_harmed_file_gets_an_answer(sample):
    """In one process of its own, since starting one for each takes longer than reading."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.measure.harmed_run", sample, str(HARMED), str(SEED)],
        env={**os.environ, "PYTHONPATH": str(TOP)},
        capture_output=True,
        timeout=300,
        check=False,
    )
    answers = [json.loads(line) for line in done.stdout.decode().splitlines()]
    assert len(answers) == HARMED, done.stderr.decode()[-2000:]
    for number, answer in enumerate(answers):
        assert_told(answer["code"], answer["told"], number)
        assert answer["seconds"] < MOST_SECONDS, (number, answer)
    assert answers[-1]["mb"] < MOST_MB
    codes = Counter(answer["code"] for answer in answers)
    print(codes, max(answer["seconds"] for answer in answers), answers[-1]["mb"])
    assert codes[1] > HARMED / 10, "many files can be read and are found wrong"
    assert codes[2] > HARMED / 10, "many cannot be read, or carry no job"
    assert codes[0] == 0, "one page of a longer job is never the whole of it"


def test_harmed_files_in_processes_of_their_own(sample):
    """As the command really runs: the PDF is read in a further process with its own limits."""
    for number, content in enumerate(harmed(sample.read_bytes(), APART, SEED + 1)):
        file = sample.with_name("one.pdf")
        file.write_bytes(content)
        before = os.times()
        ran = run_apart("measure", file)
        after = os.times()
        # Their own time: what else the machine does meanwhile is not theirs.
        took = (after[2] - before[2]) + (after[3] - before[3])
        assert 0 <= took < MOST_SECONDS
        assert_told(ran.code, ran.messages, number)
