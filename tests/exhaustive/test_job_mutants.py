"""Spoilt job files: each is refused in words or drawn, soon and in little memory."""

import pytest

from tests.exhaustive.watched import assert_all_hold, assert_batch_holds, batches

FUZZER = "tests.exhaustive.job_mutants"
CASES = 20_000


@pytest.mark.exhaustive
@batches(CASES)
def test_every_mutant_is_refused_or_drawn(first):
    assert_batch_holds(FUZZER, first, CASES)


def test_a_few_mutants_are_refused_or_drawn():
    assert_all_hold(FUZZER, 2000, 5)
