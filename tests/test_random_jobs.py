"""A random job of every kind is drawn true, and nothing on its pages stands on anything or is cut.

Its boards are so wide that patterns are taped. Kinds take turns: one is measured, the next is read
for its words; the long run does both with each. More jobs are in `exhaustive`.
"""

from random import Random

import pytest

from joinery_templates.errors import InputError
from joinery_templates.jobs.reader import read_job
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.parameter import Quantity
from tests.exhaustive import wide_boards, words_on_lines
from tests.measure.drawn_and_measured import faults_of, lost_from
from tests.random_jobs import made
from tests.random_values import VALUES

KINDS = tuple(kinds().values())


def in_turn(turn: int) -> pytest.MarkDecorator:
    """Every second kind; the others in the long run."""
    marks = [() if number % 2 == turn else pytest.mark.exhaustive for number in range(len(KINDS))]
    told = [pytest.param(one, id=one.name, marks=m) for one, m in zip(KINDS, marks, strict=True)]
    return pytest.mark.parametrize("kind", told)


@in_turn(0)
def test_a_random_job_is_drawn_true(kind):
    text, pages = wide_boards.job_and_pages(Random(kind.name), kind)
    assert list(faults_of(pages)) == [], text


@in_turn(1)
def test_a_random_job_is_drawn_clear(kind):
    text, pages = wide_boards.job_and_pages(Random(kind.name), kind)
    assert list(lost_from(pages)) == [], text
    assert words_on_lines.faults_of(pages.content) == [], text


def test_no_word_of_a_random_job_stands_on_anything():
    """Wide boards on small paper, on which words once stood on lines by the hundred."""
    text, pdf = words_on_lines.job_and_pdf(Random(30022))
    assert words_on_lines.faults_of(pdf) == [], text


def test_a_value_is_known_for_every_quantity_that_joints_use():
    declared = [one for kind in kinds().values() for one in kind.parameters]
    used = {part.quantity for one in declared for part in (one, *one.parts)}
    assert used <= set(VALUES)
    assert {Quantity.LENGTH, Quantity.TABLE} <= used


def test_what_is_refused_is_left_out_until_a_job_draws():
    """Of many random jobs most are refused at first, and none is in the end."""
    refused = 0

    def read(text):
        nonlocal refused
        try:
            return read_job(text)
        except InputError:
            refused += 1
            raise

    for kind in KINDS[::2]:
        jobs = [made(kind, Random(f"{kind.name} {number}"), read) for number in range(2)]
        assert all(job.joints[0].joint.kind == kind.name for job in jobs)
        assert len({job.source for job in jobs}) == 2
    assert refused > 30
