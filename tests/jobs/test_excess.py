"""What is refused before it is parsed, and that nothing up to the largest job takes long."""

import json
import tomllib
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinery_templates.jobs.excess import DEEPEST, excess
from joinery_templates.jobs.source import LARGEST
from tests.cli.command_line import run_apart
from tests.jobs.bad_files import BOARDS, JOINT
from tests.jobs.test_lines import files

LONG_NAME = ".".join("a" * (DEEPEST + 1))
DEEP = "[" * (DEEPEST + 1)
LONG_NUMBER = "7" * 4500
BEFORE = ("", "# ' \" \n", r'"\\" "\"" ', "''' \" ''' ", r'''"""'"" \" """ ''')


@settings(derandomize=True, deadline=None, max_examples=30)
@given(text=files())
def test_no_file_that_is_small_in_all_ways_is_refused(text: str) -> None:
    tomllib.loads(text)
    assert excess(text) is None


@pytest.mark.parametrize("quotes", ["#{}", '"{}"', "'{}'", '"""{}"""', "'''{}'''"])
def test_words_and_remarks_may_hold_anything(quotes: str) -> None:
    for before, much in product(BEFORE, (LONG_NAME, DEEP, LONG_NUMBER)):
        words = before + quotes.format(much)
        assert excess(words) is None, words
        after = excess(f"{words}\n\n x = {much}")
        assert after is not None
        assert after.place == f"line {words.count(chr(10)) + 3}"


@settings(derandomize=True, deadline=None, max_examples=30)
@given(
    path=st.lists(st.sampled_from(["a", "B-1", '"a.b"', "'\"'", "''"]), min_size=1, max_size=12),
    point=st.sampled_from([".", " . ", "\t."]),
    around=st.sampled_from(["{} = 1", "  {}=1", "[{}]", "[[{}]]", "x = {{ {} = 1 }}"]),
)
def test_a_name_may_have_six_parts(path: list[str], point: str, around: str) -> None:
    text = around.format(point.join(path))
    assert (excess(text) is None) == (len(path) <= 6)


@pytest.mark.parametrize(("opening", "closing"), ["[]", ("[\n", "]"), ("{a=", "}")])
def test_brackets_may_stand_six_deep(opening: str, closing: str) -> None:
    for depth in range(1, 10):
        value = opening * depth + "1" + closing * depth
        text = f"x = [{value.replace('1', '')}]\n" if depth < 6 else ""
        assert (excess(f"{text}y = {value}\n") is None) == (depth <= 6), depth


def filled(piece: str, before: str = "", after: str = "") -> str:
    """A text as large as a job may be."""
    return before + piece * ((LARGEST - len(before) - len(after)) // len(piece)) + after


def numbered(pattern: str, before: str = "") -> str:
    pieces, size = [before], len(before)
    while size + len(pattern) + 6 < LARGEST:
        pieces.append(pattern.format(len(pieces)))
        size += len(pieces[-1])
    return "".join(pieces)


GOOD = BOARDS + JOINT
SLOWEST = {
    "blank lines and remarks": filled("#\n", "\n" * (LARGEST // 2) + GOOD),
    "remarks in a list": filled("#\n", f"{GOOD}[tools]\nchisels = [", "3]\n"),
    "joints": filled("[[joints]]\n"),
    "numbers where words belong": filled("1,", f"{GOOD}views = [", "]"),
    "headers": numbered("[a{}.b.c.d.e.f]\n"),
    "headers before mistakes": numbered("[a{}.b.c.d.e.f]\n", "#" * 300 + "\n")[300:]
    + "x = 1 mm\n" * 20,
    "names in braces": numbered("a{}={{b.c.d.e.f={{b.c.d.e.f=1}}}}\n"),
    "whole numbers": filled("7" * 3999 + ",", "x = [", "7" * 5000 + "]"),
    "digits with lines": filled("7_", f"{GOOD}fit = ", "7"),
    "escapes": filled("\\u0041", f'{GOOD}notes = "', '"'),
    "spaces before a mistake": filled(" ", "a = x", "y"),
    "commas": filled("1,", "title = "),
}
READ = """
import json, re, sys, time
from pathlib import Path
from joinery_templates.errors import InputError
from joinery_templates.jobs.overrides import Overrides
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.source import decoded
from joinery_templates.joints.catalogue import kinds
kinds()
for name, text in json.load(sys.stdin).items():
    start = time.process_time()
    try:
        read_job(decoded(text.encode()), Overrides("A3", "in"))
        told = ""
    except InputError as error:
        told = str(error)
    print(json.dumps([name, time.process_time() - start, told]))
# Of this process alone; what getrusage tells begins with its parent's. Linux only.
status = Path("/proc/self/status")
peak = re.search(r"VmHWM:\\s*(\\d+) kB", status.read_text()) if status.exists() else None
print(int(peak[1]) / 1000 if peak else 0)
"""


@pytest.mark.slow
def test_the_largest_jobs_are_read_or_refused_within_seconds() -> None:
    """Read, with the paper written into it, or refused; by a process of its own."""
    ran = run_apart(code=READ, given=json.dumps(SLOWEST).encode())
    assert ran.code == 0, ran.messages
    *rows, megabytes = map(json.loads, ran.text.splitlines())
    assert [name for name, *_ in rows] == list(SLOWEST)
    assert [name for name, seconds, _ in rows if seconds >= 5] == []
    assert [name for name, _, told in rows if "over 200 kB" in told] == []
    assert megabytes < 300
