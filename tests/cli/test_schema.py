"""The schema for editors says the same as the reader, as far as a schema can."""

import json
import tomllib
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from joinery_templates.jobs.starter import starter
from joinery_templates.joints.catalogue import kinds
from tests.cli.command_line import SAMPLES, run
from tests.jobs.job_texts import EVERYTHING, small_job

SCHEMA = json.loads(run("schema").text)
VALIDATOR = Draft202012Validator(SCHEMA)
GOOD = {
    **{path.stem: path.read_text(encoding="utf-8") for path in SAMPLES},
    **{f"starter {kind.name}": starter(kind) for kind in kinds().values()},
    "everything": EVERYTHING,
    "small": small_job(),
    "one of each": small_job(
        tools_chisels="6", joint_corners='"A"', joint_views='"faces"', paper_margin="'1/4 in'"
    ),
}


def test_it_is_a_json_schema_of_2020_12() -> None:
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(SCHEMA)


def test_it_takes_every_good_job() -> None:
    for name, text in GOOD.items():
        assert list(VALIDATOR.iter_errors(tomllib.loads(text))) == [], name


def tables(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The path of every table in a job, but for the one whose names are the person's own."""
    inner = (
        value.items()
        if isinstance(value, dict)
        else enumerate(value)
        if isinstance(value, list)
        else ()
    )
    here = [path] if isinstance(value, dict) and path != ("boards",) else []
    return here + [found for key, one in inner for found in tables(one, (*path, key))]


@pytest.mark.parametrize("path", tables(tomllib.loads(EVERYTHING)), ids=str)
def test_it_refuses_an_unknown_name_in_every_table(path: tuple[Any, ...]) -> None:
    job = tomllib.loads(EVERYTHING)
    table = job
    for step in path:
        table = table[step]
    table["nonsense"] = 1
    assert not VALIDATOR.is_valid(job)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("units", '"cm"'), ("figures", "1"), ("title", '""'), ("title", f'"{"x" * 201}"'),
        ("paper_size", "4"), ("paper_margin", "[1]"), ("paper_margin", "{ lef = 1 }"),
        ("boards_side_width", "true"), ("boards_side_thickness", "[]"), ("joint_kind", '"glue"'),
        ("joint_corners", "[]"), ("joint_corners", '[{ name = "x", like = "E" }]'),
        ("joint_corners", '[{ like = "A" }]'), ("joint_corners", f'["{"x" * 41}"]'),
        ("joint_views", "[]"), ("joint_views", '["back"]'), ("joint_tails", "201"),
        ("joint_tails", "2.5"), ("joint_slope", "6"), ("joint_start", '"pin"'),
        ("joint_pin", "{}"), ("tools_chisels", str([3] * 101)),
    ],
)  # fmt: skip
def test_it_refuses_what_the_reader_refuses(field: str, value: str) -> None:
    text = small_job(**{field: value})
    assert not VALIDATOR.is_valid(tomllib.loads(text))
    assert run("check", "-", given=text.encode()).code == 2


@pytest.mark.parametrize("line", ["gauge = []", "gauge = true", 'kerf_shown = "yes"', "saw = 1"])
def test_it_refuses_tools_that_the_reader_refuses(line: str) -> None:
    text = small_job().replace("kerf = 0.6", line)
    assert not VALIDATOR.is_valid(tomllib.loads(text))
    assert run("check", "-", given=text.encode()).code == 2


@pytest.mark.parametrize("written", ['"12 deg"', '"12°"', '"12"', "12", "12.0"])
def test_an_angle_may_be_written_with_its_unit(written: str) -> None:
    text = starter(kinds()["canted-dovetail"])
    assert text.count("lean = 12\n") == 1
    text = text.replace("lean = 12\n", f"lean = {written}\n")
    assert VALIDATOR.is_valid(tomllib.loads(text))
    assert run("check", "-", given=text.encode()).code == 0


@pytest.mark.parametrize("name", ["boards", "joints"])
def test_it_wants_boards_and_joints(name: str) -> None:
    job = tomllib.loads(small_job())
    del job[name]
    assert not VALIDATOR.is_valid(job)
