"""Random jobs of every kind: each is drawn true, soon and in little memory."""

import pytest

from joinery_templates.joints.catalogue import kinds
from tests.exhaustive.watched import assert_batch_holds, batches

FUZZER = "tests.exhaustive.random_jobs"
CASES = 300 * len(kinds())


@pytest.mark.exhaustive
@batches(CASES)
def test_every_random_job_is_drawn_true(first):
    assert_batch_holds(FUZZER, first, CASES)
