"""Random jobs on every paper: no word stands on a line, on a mark or on another word."""

import pytest

from tests.exhaustive.watched import assert_batch_holds, batches

FUZZER = "tests.exhaustive.words_on_lines"
CASES = 2000


@pytest.mark.exhaustive
@batches(CASES)
def test_no_word_of_a_random_job_stands_on_anything(first):
    assert_batch_holds(FUZZER, first, CASES)
