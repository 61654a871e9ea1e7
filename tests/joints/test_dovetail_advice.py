"""Each piece of advice: provoked once, absent just inside its bound, and never without a source."""

import re
from pathlib import Path

import pytest
from msgspec.structs import replace

from joinery_templates.errors import Finding, Level
from joinery_templates.exact import Fraction
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.dovetails import advice
from joinery_templates.joints.dovetails.routing.cutter import Cutter
from joinery_templates.joints.dovetails.through_dovetail import KIND
from joinery_templates.joints.dovetails.through_dovetail import KIND as THROUGH
from joinery_templates.joints.kind import Kind
from joinery_templates.joints.tools import Tools
from tests.joints.strategies import dovetail, example_request

CUTTER = Cutter(diameter=Fraction("12.7"), included_angle=Fraction(14))
SMALLEST = Tools(smallest_pin=Fraction(6))
SOUND: dict[str, object] = {"slope": "1:6", "tails": 4, "half_pin": "8 mm", "pin": "6 mm"}

# code: what provokes it, what is just inside the bound (140 mm wide, boards of 18 mm)
CASES: dict[str, tuple[dict[str, object], dict[str, object]]] = {
    # Joyce 1970: not much below 1:5, not over 1:8.
    "slope-steep": ({"slope": "1:4.9"}, {"slope": "1:5"}),
    "slope-flat": ({"slope": "1:8.1"}, {"slope": "1:8"}),
    # Amateur Work: the thinnest part of a pin is a saw cut; Holtzapffel: 0.022 in.
    "pin-below-kerf": ({"pin": "0.021 in"}, {"pin": "0.022 in"}),
    "pin-weak": ({"pin": "1.49 mm"}, {"pin": "1.5 mm"}),  # our judgement
    "pin-below-smallest": ({"pin": "5.9 mm", "tools": SMALLEST}, {"tools": SMALLEST}),
    "half-pin-narrow": ({"half_pin": "5.9 mm"}, {"half_pin": "6 mm"}),  # common practice
    # Our judgement: a quarter of 18 mm is 4.5; a tail is 6 narrower at the baseline.
    "tail-weak": (
        {"tails": 8, "tail": "10.49 mm", "half_pin": None},
        {"tails": 8, "tail": "10.5 mm", "half_pin": None},
    ),
    # Noyes 1910, no. 48: ordinarily not wider than 1 3/4 in = 44.45 mm.
    "tail-wide": (
        {"tails": 3, "tail": "44.46 mm", "pin": "1.6 mm", "half_pin": None},
        {"tails": 3, "tail": "44.45 mm", "pin": "1.6 mm", "half_pin": None},
    ),
    # Noyes 1910, no. 48: up to four times as wide as the space, here 1.5 + 6 = 7.5.
    "tail-to-pin": (
        {"tails": 4, "tail": "30.01 mm", "pin": "1.5 mm", "half_pin": None},
        {"tails": 4, "tail": "30 mm", "pin": "1.5 mm", "half_pin": None},
    ),
}


def advice_on(changes: dict[str, object]) -> dict[str, Finding]:
    joint = KIND.build(dovetail("140 mm", **(SOUND | changes)))
    return {finding.code: finding for finding in joint.findings}


def test_a_sound_layout_draws_no_advice():
    assert advice_on({}) == {}


@pytest.mark.parametrize("code", CASES)
def test_advice_is_given_beyond_its_bound_and_not_at_it(code):
    beyond, at_bound = CASES[code]
    finding = advice_on(beyond)[code]
    assert finding.level is Level.ADVICE
    assert finding.source
    assert finding.remedy
    assert finding.place
    assert code not in advice_on(at_bound)


def test_every_piece_of_advice_is_tried_here():
    text = Path(str(advice.__file__)).read_text(encoding="utf-8")
    own = set(re.findall(r'"([a-z]+(?:-[a-z]+)+)"', text))
    assert own | {"slope-steep", "slope-flat"} == set(CASES)  # these are any joint's


def test_the_persons_own_kerf_counts_before_the_table_of_saws():
    """Where it is known, it is held against every space of any joint; see `tool_fit`."""
    assert "pin-below-kerf" in advice_on({"pin": "0.5 mm"})
    assert "pin-below-kerf" not in advice_on({"pin": "0.5 mm", "tools": Tools(kerf=Fraction(1))})


def test_a_single_tail_with_half_pins_that_break_is_advised_against():
    assert "half-pin-narrow" in advice_on({"tails": 1, "half_pin": "1.4 mm", "pin": None})
    assert "half-pin-narrow" not in advice_on({"tails": 1, "half_pin": "1.5 mm", "pin": None})


SLOPING = [
    kind
    for kind in kinds().values()
    if {"slope", "tails"} <= {parameter.name for parameter in kind.parameters}
]


def slope_rules(kind: Kind, **raw: object) -> list[str]:
    """What is told as worked out of the slope."""
    left_open = example_request(kind).given.but(slope=None)
    given_ = left_open.but(**raw)
    joint = kind.build(replace(example_request(kind), given=given_))
    return [rule for rule in joint.rules if rule.startswith("Slope")]


def test_every_dovetailed_corner_has_a_slope_of_its_own():
    assert len(SLOPING) >= 7


@pytest.mark.parametrize("kind", SLOPING, ids=[kind.name for kind in SLOPING])
def test_a_slope_left_open_is_named_with_what_it_is_customary_for_and_one_given_is_not(kind):
    """Joyce 1970: 1:7 for show work."""
    (rule,) = slope_rules(kind)
    assert rule.startswith("Slope: 1:7, usual for show work and drawer sides (Joyce 1970")
    for slope in (Fraction(1, 6), Fraction(1, 7)):
        assert slope_rules(kind, slope=slope) == []


def test_a_slope_that_a_cutter_decides_is_told_once():
    (rule,) = slope_rules(THROUGH, tails=None, pin=None, half_pin=None, cutter=CUTTER)
    assert "the cutter's 7° a side" in rule


def test_a_tail_of_less_than_three_millimetres_is_weak_in_a_thin_board_too():
    raw = {"slope": "1:6", "tails": 3, "half_pin": "4 mm", "pin": "3 mm"}
    # 6 mm at 1:6 is 2 off the width; (w - 14) / 3 - 2 at the baseline, of which 1.5 is a quarter.
    for width, weak in (("28.9 mm", True), ("29 mm", False)):
        joint = KIND.build(dovetail(width, ("6 mm", "6 mm"), **raw))
        assert ("tail-weak" in {f.code for f in joint.findings}) is weak


def test_advice_on_slope_says_that_the_sources_disagree_on_woods():
    for changes in ({"slope": "1:4"}, {"slope": "1:9"}):
        (finding,) = (f for f in advice_on(changes).values() if "slope" in f.code)
        assert "disagree" in finding.remedy
