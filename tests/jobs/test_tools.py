"""What cannot be meant as a tool, and lengths written so that they read back as they are."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.jobs.kept_tools import exact_text, written, written_beside
from joinery_templates.jobs.overrides import Overrides
from joinery_templates.jobs.reader import read_job
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units, read_length
from tests.jobs.job_texts import small_job

lengths = st.one_of(
    st.fractions(min_value="1/1000", max_value=200, max_denominator=10**6),
    st.integers(1, 500).map(lambda count: count * INCH / 64),
)


@given(lengths, st.sampled_from(list(Units)))
def test_a_length_is_written_so_that_it_reads_back_exactly_in_any_file(length, units):
    assert read_length(exact_text(length), units) == length


@pytest.mark.parametrize(
    ("length", "text"),
    [
        (Fraction(3), "3 mm"),
        (Fraction("0.6"), "0.6 mm"),
        (INCH / 4, "1/4 in"),
        (5 * INCH, "127 mm"),
        (Fraction(1, 3), "1/3 mm"),
    ],
)
def test_a_length_is_written_in_the_units_that_it_was_made_in(length, text):
    assert exact_text(length) == text


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("gauge = 11", "out-of-limits"),
        ("gauge = 0", "out-of-limits"),
        ("kerf = 5.1", "out-of-limits"),
        ("chisels = [76]", "out-of-limits"),
        ("kerf_shown = 1", "flag-unreadable"),
    ],
)
def test_what_cannot_be_meant_is_told_at_its_line(line, code):
    text = small_job().replace("kerf = 0.6", line).replace("chisels = [3, 6]", "# none")
    with pytest.raises(InputError) as caught:
        read_job(text)
    (finding,) = caught.value.findings
    assert finding.code == code
    assert finding.place.startswith("line 11: tools.")
    assert finding.remedy


@pytest.mark.parametrize("line", ["gauge = 10", "kerf = 5", "chisels = [75]", "kerf_shown = false"])
def test_what_just_can_be_meant_is_taken(line):
    read_job(small_job().replace("kerf = 0.6", line).replace("chisels = [3, 6]", "# none"))


def test_only_what_the_job_does_not_name_is_written():
    own = Tools(chisels=(Fraction(3),), kerf=Fraction(1, 2), kerf_shown=True)
    assert written(own) == {"chisels": ["3 mm"], "kerf": "0.5 mm", "kerf_shown": True}
    assert written(Tools()) == {}
    named = {"tools": {"kerf": 1, "kerf_shown": False}}
    assert written_beside(named, own) == {"chisels": ["3 mm"]}


def test_own_tools_that_are_all_named_leave_the_text_as_it_is():
    own = Tools(chisels=(Fraction(9),), kerf=Fraction(1, 2), smallest_pin=Fraction(1))
    job = read_job(small_job(), Overrides(tools=own))
    assert job.source == small_job()
    assert job.tools.chisels == (3, 6)


def test_a_job_with_its_own_tools_written_in_reads_back_equal():
    own = Tools(gauge=Fraction(1, 2), kerf_shown=True)
    job = read_job(small_job(), Overrides("A3", tools=own))
    assert (job.tools.gauge, job.tools.kerf_shown) == (Fraction(1, 2), True)
    assert read_job(job.source) == job
