"""Nothing on a page stands on anything, and nothing is cut; the long runs are in `exhaustive`."""

from random import Random

import pytest

from joinery_templates.joints.catalogue import kinds
from tests.exhaustive import wide_boards
from tests.exhaustive.words_on_lines import faults_of, job_and_pdf


def test_no_word_of_a_random_job_stands_on_anything():
    """Wide boards on small paper, on which words once stood on lines by the hundred."""
    text, pdf = job_and_pdf(Random(30022))
    assert faults_of(pdf) == [], text


@pytest.mark.parametrize("kind", kinds().values(), ids=kinds())
def test_nothing_on_the_taped_sheets_of_wide_boards_stands_on_anything_or_is_cut(kind):
    text, pdf = wide_boards.job_and_pdf(Random(kind.name), kind)
    assert faults_of(pdf) == [], text
