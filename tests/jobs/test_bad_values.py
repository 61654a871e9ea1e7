"""Every field of a job file with everything that cannot stand there, through the command line."""

import re
import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from tests.cli.command_line import Ran, run
from tests.jobs.bad_values import spoiled_fields
from tests.jobs.job_texts import EVERYTHING, small_job, with_value

CASES = sorted(set(spoiled_fields()))
ONE_MESSAGE = re.compile(r"ERROR: (?:(?P<place>line \d+[^:]*|[^:]*): )?(?P<words>.+) \([a-z-]+\)")


def drawn(content: bytes, folder: Path) -> Ran:
    """A refused job, after all that holds for every refusal is checked."""
    job, pdf = folder / "job.toml", folder / "job.pdf"
    job.write_bytes(content)
    start = time.process_time()
    ran = run("draw", job, "-o", pdf)
    assert time.process_time() - start < 1
    assert not pdf.exists()
    assert ran.output == b""
    assert ran.code == 2, ran.messages
    assert "Traceback" not in ran.messages
    assert all(line.isprintable() for line in ran.messages.splitlines())
    for line in ran.messages.splitlines():
        assert ONE_MESSAGE.fullmatch(line), line
        assert len(line) < 600
    return ran


def test_the_small_job_is_good_before_it_is_spoiled(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(small_job(), encoding="utf-8")
    assert run("check", tmp_path / "job.toml").code == 0


def test_there_are_hundreds_of_spoiled_jobs() -> None:
    assert len(CASES) > 350


@pytest.mark.parametrize("place", sorted({place for place, _ in CASES}))
def test_a_value_that_cannot_stand_is_refused_at_its_line_and_field(
    place: str, tmp_path: Path
) -> None:
    for value in (value for field, value in CASES if field == place):
        text, line = with_value(place, value)
        messages = drawn(text.encode(), tmp_path).messages
        assert f"ERROR: line {line}: {place}" in messages, value
        others = [told for told in messages.splitlines() if f"line {line}: {place}" not in told]
        # Where corners or views are wrong no other field is to blame.
        assert others == [], value


PIECES = st.sampled_from(
    [
        "[",
        "]",
        "{",
        "}",
        '"',
        "'",
        "=",
        "\n",
        "\r",
        "\x00",
        "\\",
        ",",
        "#",
        "[[joints]]",
        "nan",
        "é",
        "\u202e",
        "\ufeff",
        "9" * 50,
        "title",
        ".",
        "boards",
        "-",
        "1e9",
        "true",
        "\x1b[2J",
        "'''",
        '"""',
    ]
)


@settings(
    max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    changes=st.lists(
        st.tuples(st.integers(0, len(EVERYTHING)), st.integers(0, 30), PIECES),
        min_size=1,
        max_size=4,
    )
)
@example(changes=[(0, 0, "\ufeff")])
def test_a_job_spoiled_at_random_is_drawn_or_refused_in_words(
    changes: list[tuple[int, int, str]], tmp_path: Path
) -> None:
    text = EVERYTHING
    for start, length, piece in changes:
        text = text[:start] + piece + text[start + length :]
    job = tmp_path / "job.toml"
    job.write_bytes(text.encode())
    ran = run("check", job)
    assert ran.code in (0, 2), ran.messages
    assert "the program itself" not in ran.messages


@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(content=st.binary(max_size=300))
def test_binary_junk_is_refused(content: bytes, tmp_path: Path) -> None:
    drawn(content, tmp_path)
