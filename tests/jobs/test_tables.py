"""The job file's own tables: limits set down by hand, and every mistake in a table at once."""

import re
import tomllib

import pytest
from jsonschema import Draft202012Validator

from joinery_templates.errors import InputError
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.schema import job_schema
from joinery_templates.jobs.starter import starter
from joinery_templates.jobs.tables import (
    TABLES,
    BoardTable,
    CornerTable,
    JobWords,
    JointTable,
    MarginTable,
)
from joinery_templates.joints.catalogue import kinds
from tests.jobs.bad_files import BOARDS, JOINT

DECLARED = [
    declared
    for table in (JobWords, *TABLES.values(), MarginTable, BoardTable, CornerTable, JointTable)
    for declared in table.parameters
]


def refusals(text: str) -> list[tuple[str, str]]:
    """The place and code of every mistake in a file."""
    with pytest.raises(InputError) as caught:
        read_job(text)
    assert all(finding.message and finding.remedy for finding in caught.value.findings)
    return [(finding.place, finding.code) for finding in caught.value.findings]


@pytest.mark.parametrize(
    ("line", "inside", "outside"),
    [
        ("[paper]\noverlap = {}", ("10", "60", "'1 in'"), ("9.99", "60.01", "0", "-12")),
        ("[paper]\nthickness = {}", ("0", "1"), ("-0.01", "1.01")),
        ("[paper]\nmargin = {}", ("0", "40"), ("-0.01", "100.01", "'4 in'")),
        ("[paper]\nmargin.left = {}", ("0", "100"), ("-0.01", "100.01")),
        ("[printer]\nacross = {}", ("0.97", "1.03", "'251/250'"), ("0.969", "1.031")),
        ("[printer]\nskew = {}", ("-2", "2"), ("-2.01", "2.01")),
        ("[tools]\nchisels = {}", ("[3, 75]", "0.01"), ("75.01", "0", "-3")),
        ("[tools]\nkerf = {}", ("5", "0.01"), ("5.01", "0")),
        ("[tools]\ngauge = {}", ("10", "0.01"), ("10.01", "0")),
        ("[tools]\nsmallest_pin = {}", ("0.01", "9"), ("0", "-1")),
        ("[boards.x]\nthickness = 9\nwidth = {}", ("1", "3000"), ("0.99", "3000.01", "0")),
        ("[boards.x]\nwidth = 9\nthickness = {}", ("1", "500"), ("0.99", "500.01", "-9")),
        ("[boards.x]\nwidth = 9\nthickness = 9\nlength = {}", ("0.01", "99000"), ("0", "-1")),
    ],
)
def test_a_length_is_taken_up_to_its_limits_and_no_further(line, inside, outside) -> None:
    """The limits are our judgement, but for those of the margins, which `sheets` holds too."""
    for value in inside:
        read_job(f"{line.format(value)}\n{BOARDS}{JOINT}")
    name = line.rpartition("\n")[2].partition(" ")[0]
    for value in outside:
        ((place, code),) = refusals(f"{line.format(value)}\n{BOARDS}{JOINT}")
        assert code == "out-of-limits"
        assert place.startswith(f"line {line.count(chr(10)) + 1}: ")
        assert place.endswith(f".{name}")


def test_every_mistake_in_a_table_is_told_at_once_and_none_hides_another() -> None:
    text = (
        "[paper]\n"
        "siz = 'A4'\n"
        "overlap = 9\n"
        "margin = { left = -1, lef = 3, top = 'x' }\n"
        "marks = 'yes'\n"
        "[tools]\n"
        "chisels = [3, 0, 'x']\n"
        "kerf = 9\n" + BOARDS.replace("90", "0") + JOINT + "seams = [5, -5, 0]\nviews = 'x'\n"
        "name = ''\ncorners = [{ like = 'E' }, 'x', 'x']\n"
    )
    assert refusals(text) == [
        ("line 2: paper.siz", "unknown-name"),
        ("line 3: paper.overlap", "out-of-limits"),
        ("line 4: paper.margin.lef", "unknown-name"),
        ("line 4: paper.margin.left", "out-of-limits"),
        ("line 4: paper.margin.top", "length-unreadable"),
        ("line 5: paper.marks", "flag-unreadable"),
        ("line 7: tools.chisels, number 2", "out-of-limits"),
        ("line 7: tools.chisels, number 3", "length-unreadable"),
        ("line 8: tools.kerf", "out-of-limits"),
        ("line 10: boards.a.width", "out-of-limits"),
        ("line 16: joint 1, seams, number 2", "out-of-limits"),
        ("line 16: joint 1, seams, number 3", "out-of-limits"),
        ("line 17: joint 1, views", "choice-unknown"),
        ("line 18: joint 1, name", "empty"),
        ("line 19: joint 1, corners, number 1", "missing"),
        ("line 19: joint 1, corners, number 1, like", "choice-unknown"),
    ]


@pytest.mark.parametrize("name", ['"one per.page"', "'[3]'", '"3"', '"\\u00e9\\""'])
def test_an_unknown_name_in_quotes_is_told_at_its_own_line(name: str) -> None:
    text = f"[paper]\nmarks = true\n\n{name} = 1\n{BOARDS}{JOINT}"
    ((place, code),) = refusals(text)
    assert code == "unknown-name"
    assert place == f"line 4: paper.{next(iter(tomllib.loads(f'{name} = 1')))}"


def test_a_single_value_stands_for_a_list_of_one_and_for_all_sides() -> None:
    """A bad one is told once, and without a number that it does not have."""
    assert refusals(f"[paper]\nmargin = 'x'\n{BOARDS}{JOINT}seams = 'x'\n") == [
        ("line 2: paper.margin", "length-unreadable"),
        ("line 10: joint 1, seams", "length-unreadable"),
    ]


def test_a_name_explains_itself_in_a_sentence() -> None:
    for declared in DECLARED:
        assert declared.help.endswith("."), declared.name
        assert declared.rule or declared.needed or declared.default is not None, declared.name


def test_a_starter_draws_as_well_when_its_remarks_are_taken_away() -> None:
    """What it shows of the file's own tables can be written so, all of it together."""
    head, mark, rest = starter(kinds()["box-joint"]).partition("# Measure each board")
    text = re.sub(r"^# (?=\[tools\]|\w+ = )", "", head, flags=re.MULTILINE) + mark + rest
    job = read_job(text)
    assert (job.tools.chisels, job.tools.kerf_shown) == ((3, 6, 10, 12, 18), True)
    assert (job.notes, job.sheets.one_per_page) == ("Cherry, two", False)
    assert Draft202012Validator(job_schema()).is_valid(tomllib.loads(text))
