"""`quick`: one joint without a job file; its options come from the joint's parameters."""

import json
from pathlib import Path

import pytest

from joinery_templates.joints.catalogue import kinds
from tests.cli.command_line import run

SIZES = ("--width", "90", "--thickness", "12")


def test_quick_has_an_option_for_every_parameter() -> None:
    for kind in kinds().values():
        text = run("quick", kind.name, "--help").text
        for parameter in kind.parameters:
            assert f"--{parameter.name.replace('_', '-')} " in text
            assert " ".join(parameter.help.split()[:4]) in " ".join(text.split())


def test_quick_draws_what_a_job_file_of_the_same_words_draws(tmp_path: Path) -> None:
    pdf = tmp_path / "quick.pdf"
    words = (
        *SIZES,
        "--second-thickness",
        "3/4 in",
        "--tails",
        "3",
        "--half-pin",
        "6",
        "--slope",
        "1:6",
        "--corners",
        "A, B,Lid",
        "--paper",
        "Letter",
    )
    assert run("quick", "through-dovetail", *words, "-o", pdf).code == 0
    joint = json.loads(run("check", pdf, "--json").text)["joints"][0]
    assert joint["corners"] == ["Corner A", "Corner B", "Lid"]
    assert joint["boards"]["tail board"]["thickness"]["exact_mm"] == "12"
    assert joint["boards"]["pin board"]["thickness"]["exact_mm"] == "381/20"
    assert [slope["one_in"] for slope in joint["slopes"]] == ["6"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--width", "x", "--thickness", "12"), "--width: 'x' is not a length"),
        (("--width", "90", "--thickness", "0"), "--thickness: A thickness of '0' cannot be"),
        ((*SIZES, "--second-thickness", "-3"), "--second-thickness: A thickness of '-3'"),
        ((*SIZES, "--tails", "two"), "--tails: 'two' is not a whole number"),
        ((*SIZES, "--half-pin", "6,5"), "--half-pin: '6,5' is not a length. Write a point"),
        ((*SIZES, "--slope", "1/6"), "--slope: '1/6' is not a slope"),
        ((*SIZES, "--start", "pin"), "--start: 'pin' is not one of the choices"),
        ((*SIZES, "--paper", "A44"), "--paper: No paper is called 'A44'"),
        ((*SIZES, "--units", "cm"), "--units: 'cm' is not one of"),
        ((*SIZES, "--corners", "A,a"), "--corners: 'Corner A' stands here twice"),
        ((*SIZES, "--tails", "40"), "--tail: Nothing is left for the tail"),
        ((*SIZES, "--start", "half-tail", "--half-pin", "3"), "--half-pin: This does not go"),
    ],
)
def test_an_option_of_quick_that_cannot_be_used_is_named(
    words: tuple[str, ...], told: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = run("quick", "through-dovetail", *words)
    assert (ran.code, ran.output) == (2, b"")
    assert ran.messages.startswith(f"ERROR: {told}"), ran.messages
    assert ran.messages.count("ERROR") == 1
    assert list(tmp_path.iterdir()) == []


KEYS = ("quick", "dovetail-key", "--width", "200", "--thickness", "20", "--seam", "200")


@pytest.mark.parametrize(
    ("words", "through"),
    [("Yes", True), (" no ", False)],
)
def test_quick_takes_a_yes_or_no(words: str, through: bool, tmp_path: Path) -> None:
    """Only a key that is let in blind has a depth to set a router or chisel to."""
    pdf = tmp_path / "x.pdf"
    assert run(*KEYS, "--through", words, "-o", pdf).code == 0
    assert ("depth of the sockets" in run("check", pdf).text) is not through


@pytest.mark.parametrize("words", ["40 mm, 16 cm", '["40", "160 mm"]'])
def test_quick_takes_a_list_of_lengths(words: str, tmp_path: Path) -> None:
    pdf = tmp_path / "x.pdf"
    assert run(*KEYS, "--positions", words, "-o", pdf).code == 0
    (joint,) = json.loads(run("check", pdf, "--json").text)["joints"]
    row = next(row for row in joint["rows"] if "middle" in row["marks"][0]["what"])
    assert [mark["exact_mm"] for mark in row["marks"]] == ["40", "160"]


@pytest.mark.parametrize(
    ("option", "words"), [("--through", "maybe"), ("--positions", "40; 160"), ("--positions", "")]
)
def test_quick_names_a_yes_or_no_or_a_list_that_is_none(
    option: str, words: str, tmp_path: Path
) -> None:
    ran = run(*KEYS, option, words, "-o", tmp_path / "x.pdf")
    assert ran.code == 2
    assert ran.messages.startswith(f"ERROR: {option}: ")


def test_quick_tells_all_mistakes_at_once() -> None:
    ran = run("quick", "through-dovetail", "--width", "x", "--thickness", "y", "--pin", "z")
    assert [line.split(": ")[1] for line in ran.messages.splitlines()] == [
        "--width",
        "--thickness",
        "--pin",
    ]


def test_words_that_are_no_text_are_refused_and_not_stumbled_over(tmp_path: Path) -> None:
    """A shell can pass bytes that are no UTF-8."""
    ran = run("quick", "through-dovetail", *SIZES, "--corners", "\udcff", "-o", tmp_path / "x.pdf")
    assert ran.code == 2
    assert "cannot be printed" in ran.messages
    assert list(tmp_path.iterdir()) == []
