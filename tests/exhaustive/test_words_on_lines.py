"""Random jobs: no word stands on a line, a mark or a word, no match mark on a line; none is cut."""

import pytest

from tests.exhaustive.watched import assert_batch_holds, batches

FUZZER = "tests.exhaustive.words_on_lines"
CASES, WIDE, FURNITURE = 2000, 300, 300


@pytest.mark.exhaustive
@batches(CASES)
def test_no_word_of_a_random_job_stands_on_anything(first):
    assert_batch_holds(FUZZER, first, CASES)


@pytest.mark.exhaustive
@batches(WIDE)
def test_nor_does_anything_on_the_taped_sheets_of_wide_boards(first):
    assert_batch_holds("tests.exhaustive.wide_boards", first, WIDE)


@pytest.mark.exhaustive
@batches(FURNITURE)
def test_nor_does_anything_where_joints_come_together(first):
    assert_batch_holds("tests.exhaustive.furniture", first, FURNITURE)
