"""What is proposed for random boards alone is never advised against."""

import pytest

from joinery_templates.joints.catalogue import kinds
from tests.exhaustive.watched import assert_batch_holds, batches

FUZZER = "tests.exhaustive.default_layouts"
CASES = 300 * len(kinds())


@pytest.mark.exhaustive
@batches(CASES)
def test_no_proposal_is_advised_against(first):
    assert_batch_holds(FUZZER, first, CASES)
