"""Names that run from right to left, kept apart from the words around them."""

import sys
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinery_templates.drawings.direction import (
    has_right_to_left,
    isolated,
    reopened,
    stretches,
    with_names_isolated,
    without_signs,
)

# Unicode Standard Annex 9: left-to-right isolate, right-to-left isolate, end of an isolate.
LRI, RLI, PDI = "\u2066", "\u2067", "\u2069"


def test_every_letter_that_runs_leftwards_is_known_and_none_that_runs_rightwards():
    """The oracle: the classes that Python's Unicode data give to every sign that there is."""
    for code in range(sys.maxunicode + 1):
        kind = unicodedata.bidirectional(chr(code))
        if kind in {"R", "AL", "AN"}:
            assert has_right_to_left(chr(code)), hex(code)
        if kind == "L":
            assert not has_right_to_left(chr(code)), hex(code)


@pytest.mark.parametrize("name", ["side", "Łódź 12", "Ж (b)", "桐の箱", "12 · ⅜"])
def test_a_name_that_runs_rightwards_stays_as_it_is(name):
    assert isolated(name) == name


@pytest.mark.parametrize(
    ("name", "sign"),
    [("אב", RLI), ("12 אב", RLI), ("(אב) box", RLI), ("بب", RLI), ("Box אב", LRI), ("٣", LRI)],
)
def test_a_name_runs_as_its_first_letter_does(name, sign):
    """Rules P2 and P3: figures and brackets decide nothing."""
    assert isolated(name) == f"{sign}{name}{PDI}"


def test_names_are_found_in_a_sentence():
    told = with_names_isolated('Board "אב" is 90 mm wide (side, גד).', ["אב", "side", "גד"])
    assert told == f'Board "{RLI}אב{PDI}" is 90 mm wide (side, {RLI}גד{PDI}).'


def test_the_longer_of_two_names_is_taken_and_no_part_of_a_word():
    names = ["אב", "אב 1"]
    assert with_names_isolated("אב 1: 5 mm", names) == f"{RLI}אב 1{PDI}: 5 mm"
    assert with_names_isolated("אב 12 mm", names) == f"{RLI}אב{PDI} 12 mm"
    assert with_names_isolated("אבג", names) == "אבג"


def test_a_name_broken_over_two_lines_is_isolated_on_both():
    assert list(reopened([f"to {RLI}אב", f"גד{PDI} and {LRI}x", "y"])) == [
        f"to {RLI}אב",
        f"{RLI}גד{PDI} and {LRI}x",
        f"{LRI}y",
    ]


@settings(derandomize=True, deadline=None)
@given(st.lists(st.text("ab אב1(·"), max_size=5))
def test_no_sign_is_lost_between_the_stretches(names):
    words = " meets ".join(map(isolated, names))
    assert "".join(part for part, _ in stretches(words)) == without_signs(words)
    assert without_signs(words) == " meets ".join(names)
