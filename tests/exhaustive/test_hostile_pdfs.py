"""Harmed and hostile PDFs through `measure` and `draw`: an answer for each, and soon."""

import os
import random

import pytest

from tests.cli.command_line import run_apart
from tests.exhaustive.harmed_pdfs import answers, harmed
from tests.exhaustive.watched import (
    MOST_SECONDS,
    assert_all_hold,
    assert_batch_holds,
    batches,
)
from tests.measure.test_measure_hostile import HOSTILE

FUZZER = "tests.exhaustive.harmed_pdfs"
CASES = 500


@pytest.mark.exhaustive
@batches(CASES)
def test_every_harmed_file_gets_an_answer(first):
    assert_batch_holds(FUZZER, first, CASES)


def test_a_few_harmed_files_get_an_answer_and_not_all_the_same():
    """Some can be read and are found wrong, others cannot be read or carry no job."""
    given = [told.given for told in assert_all_hold(FUZZER, 1908, 10)]
    assert sum("measure 1" in words for words in given) > 1
    assert sum("measure 2" in words for words in given) > 1


def answered_apart(tmp_path, content: bytes) -> None:
    """As the commands really run: the PDF is read in a further process with its own limits."""
    given = tmp_path / "given.pdf"
    given.write_bytes(content)
    before = os.times()
    _, faults = answers(content, given, run_apart)
    after = os.times()
    assert faults == []
    # Their own time: what else the machine does meanwhile is not theirs. Two commands ran.
    assert (after[2] - before[2]) + (after[3] - before[3]) < 2 * MOST_SECONDS


def test_a_harmed_file_in_processes_of_its_own(tmp_path):
    answered_apart(tmp_path, harmed(random.Random(1907)))


@pytest.mark.exhaustive
@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_files_in_processes_of_their_own(tmp_path, name):
    answered_apart(tmp_path, HOSTILE[name][0]())
