"""Command lines of every kind: an answer and a true exit code, and nothing harmed beside it."""

import pytest

from tests.exhaustive.watched import assert_all_hold, assert_batch_holds, batches

FUZZER = "tests.exhaustive.command_lines"
CASES = 2000


@pytest.mark.exhaustive
@batches(CASES)
def test_every_command_line_is_answered(first):
    assert_batch_holds(FUZZER, first, CASES)


def test_a_few_command_lines_are_answered():
    assert_all_hold(FUZZER, 1931, 4)
