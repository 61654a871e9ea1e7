"""No word of a page stands on a line, on a mark or on a word; the long run is in `exhaustive`."""

from random import Random

import pytest

from tests.exhaustive.words_on_lines import faults_of, job_and_pdf

SEEDS = (20003, 20056, 30022)
"""Wide boards on small paper, in which words once stood on lines by the hundred."""


@pytest.mark.parametrize("seed", SEEDS)
def test_no_word_of_a_random_job_stands_on_anything(seed):
    text, pdf = job_and_pdf(Random(seed))
    assert faults_of(pdf) == [], text
