"""Every way to fix a spacing leads to widths that add up; what cannot be is refused by name."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joints.spacing.parameters import HALF_PIN, HALF_TAIL, SpacingParameters
from joinery_templates.joints.spacing.proposal import proposed_pin
from joinery_templates.joints.spacing.tails import space_tails
from joinery_templates.joints.spacing.terms import Ground, Spacing
from joinery_templates.lengths import INCH, Units
from tests.joints.strategies import lengths
from tests.strategies import PROPERTY

GROUND = Ground(Fraction(140), Fraction(3), Fraction(18), Units.MM)
"""140 mm wide; the sides come in by 3 mm (18 mm at 1:6)."""


def spaced(ground: Ground = GROUND, **given_: object) -> Spacing:
    plain = {
        name: Fraction(value) if isinstance(value, str) and value[0].isdigit() else value
        for name, value in given_.items()
    }
    return space_tails(SpacingParameters(**plain), ground)


def widths(spacing: Spacing) -> list[Fraction]:
    """All widths from edge to edge: half pins or half tails, and what stands between."""
    walls = [Fraction(0)]
    for tail in spacing.tails:
        walls += [tail.left, tail.right]
    walls.append(spacing.width)
    return [right - left for left, right in pairwise(walls)]


def refusal(ground: Ground = GROUND, **given_: object) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        spaced(ground, **given_)
    assert all(f.message and f.remedy for f in caught.value.findings if f.code != "no-tail")
    return [(f.code, f.place) for f in caught.value.findings]


# 140 = 7 + 4 * 29.25 + 3 * 3 + 7, and the same with the half pins 6 and 8 or 5 and 9.
FULL = {"tails": 4, "pin": "3", "tail": "29.25", "half_pin": "7", "half_pin_far": "7"}
DETERMINED = {
    "tails and pin": ["tails", "pin", "half_pin"],
    "tails and tail": ["tails", "tail", "half_pin"],
    "pin and tail": ["pin", "tail", "half_pin"],
    "all three, half pins follow": ["tails", "pin", "tail"],
    "all three and one half pin": ["tails", "pin", "tail", "half_pin"],
    "all three and the far half pin": ["tails", "pin", "tail", "half_pin_far"],
    "everything": list(FULL),
}


@pytest.mark.parametrize("names", DETERMINED.values(), ids=DETERMINED)
def test_each_way_of_fixing_it_gives_the_worked_layout(names):
    spacing = spaced(**{name: FULL[name] for name in names})
    tail, pin, half = Fraction("29.25"), Fraction(3), Fraction(7)
    assert widths(spacing) == [half, tail, pin, tail, pin, tail, pin, tail, half]
    assert spacing.step == Fraction("32.25")


@pytest.mark.parametrize("names", [["tails", "pin"], ["tails", "tail"], ["tails", "pin", "tail"]])
def test_half_pins_may_differ_at_the_two_edges(names):
    spacing = spaced(**{n: FULL[n] for n in names}, half_pin="5", half_pin_far="9")
    assert spacing.half_pins == (5, 9)
    assert spacing.pins == (3, 3, 3)
    assert [tail.width for tail in spacing.tails] == [Fraction("29.25")] * 4


def test_with_all_three_and_one_half_pin_the_other_is_the_rest():
    three = {name: FULL[name] for name in ("tails", "pin", "tail")}
    assert spaced(**three, half_pin="5").half_pins == (5, 9)
    assert spaced(**three, half_pin_far="5").half_pins == (9, 5)


def test_a_half_pin_given_at_one_edge_only_holds_at_both_but_the_far_one_does_not():
    assert spaced(tails=4, pin="3", half_pin="5").half_pins == (5, 5)
    far = spaced(tails=4, pin="3", half_pin_far="9")
    assert far.half_pins == (6, 9)  # by rule: a pin at the baseline, 3 + 3
    assert any(rule.startswith("Half pin:") for rule in far.rules)


def test_a_derived_half_pin_is_a_pin_with_its_lean():
    """Half a pin in shape: as wide at its narrow side as a pin is at mid depth."""
    follows = spaced(tails=4, tail="29.25")
    half, pin = follows.half_pins[0], follows.pins[0]
    assert half == pin + 3
    assert spaced(tails=4, pin="4").half_pins == (7, 7)


RULES = {
    "nothing": ({}, {"Pin", "Half pin", "Tail", "Number of tails"}),
    "tails only": ({"tails": 4}, {"Pin", "Half pin"}),
    "pin only": ({"pin": "4"}, {"Half pin", "Tail", "Number of tails"}),
    "tail only": ({"tail": "30"}, {"Pin", "Half pin", "Number of tails"}),
    "half pin only": ({"half_pin": "8"}, {"Pin", "Tail", "Number of tails"}),
    "one tail": ({"tails": 1}, {"Half pin"}),
    "everything": (FULL, set()),
    "half tails, nothing": ({"start": HALF_TAIL}, {"Pin", "Tail", "Number of tails", "Half tail"}),
    "half tails and tails": ({"start": HALF_TAIL, "tails": 2}, {"Pin", "Half tail"}),
    "half tails, all": ({"start": HALF_TAIL, "tails": 2, "pin": "6", "half_tail": "20"}, set()),
}


@pytest.mark.parametrize(("given_", "ruled"), RULES.values(), ids=RULES)
def test_what_a_rule_decided_is_named_with_its_source_and_nothing_else(given_, ruled):
    spacing = spaced(**given_)
    assert {rule.partition(":")[0] for rule in spacing.rules} == ruled
    assert all(rule.endswith(").") for rule in spacing.rules)
    assert sum(widths(spacing)) == 140


def test_a_proposal_is_in_figures_that_can_be_set():
    metric = spaced()
    assert metric.pins[0] == 6  # a third of 18
    assert metric.half_pins == (9, 9)  # 6 + 3
    inch = Ground(5 * INCH, INCH / 8, INCH * 3 / 4, Units.INCH)
    assert spaced(inch).pins[0] == INCH / 4
    assert spaced(inch).half_pins[0] == INCH * 3 / 8


@pytest.mark.parametrize(
    ("thickness", "units", "smallest", "pin"),
    [
        (Fraction(18), Units.MM, None, Fraction(6)),
        (Fraction(20), Units.MM, None, Fraction("6.5")),
        (Fraction(6), Units.MM, None, Fraction(3)),
        (Fraction(60), Units.MM, None, Fraction(12)),
        (Fraction(6), Units.MM, Fraction(6), Fraction(6)),
        (Fraction(18), Units.MM, Fraction(3), Fraction(6)),
        (INCH * 3 / 4, Units.INCH, None, INCH / 4),
        (INCH / 4, Units.INCH, None, INCH / 8),
        (3 * INCH, Units.INCH, None, INCH / 2),
    ],
)
def test_a_proposed_pin_is_a_third_of_the_pin_board_within_bounds(thickness, units, smallest, pin):
    ground = Ground(Fraction(140), Fraction(3), thickness, units, smallest)
    assert proposed_pin(ground) == pin


def test_a_tail_wished_for_decides_the_count_and_is_then_fitted():
    spacing = spaced(pin="3", half_pin="7", tail="30")
    # (126 + 3) / 33 = 3.9: four tails of 29.25.
    assert [tail.width for tail in spacing.tails] == [Fraction("29.25")] * 4
    assert len(spaced(pin="3", half_pin="7", tail="40").tails) == 3  # 129 / 43


def test_the_count_is_nearest_since_there_is_one_pin_less_than_tails():
    # 129 / 36.5 = 3.53: nearer to 4, though only 126 / 36.5 = 3.45 would be nearer to 3.
    assert len(spaced(pin="3", half_pin="7", tail="33.5").tails) == 4


def test_between_half_tails_there_is_one_pin_more_than_tails():
    # (140 - 45 - 5) / 61 = 1.48: one whole tail, though 95 / 61 would be nearer to two.
    spacing = spaced(start=HALF_TAIL, half_tail="22.5", pin="5", tail="56")
    assert [tail.width for tail in spacing.whole_tails] == [85]


HALF_TAILS = {
    "tails and pin": (
        {"tails": 2, "pin": "5"},
        ["125/6", "5", "125/3", "5", "125/3", "5", "125/6"],
    ),
    "tails, pin, half tail": (
        {"tails": 2, "pin": "5", "half_tail": "22.5"},
        ["22.5", "5", "40", "5", "40", "5", "22.5"],
    ),
    "tails, pin, tail": (
        {"tails": 2, "pin": "5", "tail": "40"},
        ["22.5", "5", "40", "5", "40", "5", "22.5"],
    ),
    "tails and tail": (
        {"tails": 2, "tail": "40"},
        ["20", "20/3", "40", "20/3", "40", "20/3", "20"],
    ),
    "tails, tail, half tail": (
        {"tails": 2, "tail": "40", "half_tail": "22.5"},
        ["22.5", "5", "40", "5", "40", "5", "22.5"],
    ),
    "pin, tail, half tail": (
        {"pin": "5", "tail": "42", "half_tail": "22.5"},
        ["22.5", "5", "40", "5", "40", "5", "22.5"],
    ),
    "all": (
        {"tails": 2, "pin": "5", "tail": "40", "half_tail": "22.5"},
        ["22.5", "5", "40", "5", "40", "5", "22.5"],
    ),
    "no whole tail": ({"tails": 0, "pin": "5"}, ["67.5", "5", "67.5"]),
    "no whole tail, half tail": (
        {"tails": 0, "half_tail": "67.5", "pin": "5"},
        ["67.5", "5", "67.5"],
    ),
}


@pytest.mark.parametrize(("given_", "expected"), HALF_TAILS.values(), ids=HALF_TAILS)
def test_half_tails_each_way_of_fixing_them(given_, expected):
    spacing = spaced(start=HALF_TAIL, **given_)
    assert [w for w in widths(spacing) if w] == [Fraction(w) for w in expected]
    assert spacing.half_pins == ()
    first, last = spacing.tails[0], spacing.tails[-1]
    assert (first.left, first.left_slopes, first.right_slopes) == (0, False, True)
    assert (last.right, last.left_slopes, last.right_slopes) == (140, True, False)


REFUSED = {
    "half pins fill the board": ({"tails": 3, "half_pin": "70"}, [("no-room", "tail")]),
    "tails fill the board": ({"tails": 4, "tail": "35", "half_pin": "7"}, [("no-room", "pin")]),
    "pins fill the board": ({"tails": 3, "pin": "70", "half_pin": "7"}, [("no-room", "tail")]),
    "nothing for the half pins": (
        {"tails": 4, "tail": "33", "pin": "3"},
        [("no-room", "half_pin")],
    ),
    "nothing for the far half pin": (
        {"tails": 4, "tail": "29.25", "pin": "3", "half_pin": "14"},
        [("no-room", "half_pin_far")],
    ),
    "sides cross": ({"tails": 13, "pin": "5", "half_pin": "6"}, [("tails-cross", "tails")]),
    "sides just meet": ({"tails": 2, "pin": "114", "half_pin": "7"}, [("tails-cross", "tails")]),
    "does not add up": (FULL | {"tail": "29"}, [("does-not-add-up", "tails")]),
    "does not add up, inches": (FULL | {"half_pin": "7.1"}, [("does-not-add-up", "tails")]),
    "no tail": ({"tails": 0}, [("no-tail", "tails")]),
    "too many": ({"tail": "0.1", "pin": "0.1"}, [("too-many-tails", "tail")]),
    "half tail with half pins": ({"half_tail": "9"}, [("not-with-this-start", "half_tail")]),
    "half pins with half tails": (
        {"start": HALF_TAIL, "half_pin": "9", "half_pin_far": "9"},
        [("not-with-this-start", "half_pin"), ("not-with-this-start", "half_pin_far")],
    ),
    "half tails fill the board": (
        {"start": HALF_TAIL, "half_tail": "70", "tails": 1, "pin": "5"},
        [("no-room", "tail")],
    ),
    "half tails and tails fill the board": (
        {"start": HALF_TAIL, "half_tail": "50", "tails": 1, "tail": "40"},
        [("no-room", "pin")],
    ),
    "tails fill the board, no half tail": (
        {"start": HALF_TAIL, "tails": 1, "tail": "130", "pin": "5"},
        [("no-room", "half_tail")],
    ),
    "half tails do not add up": (
        {"start": HALF_TAIL, "tails": 2, "pin": "5", "tail": "40", "half_tail": "22"},
        [("does-not-add-up", "tails")],
    ),
    "half tails alone do not add up": (
        {"start": HALF_TAIL, "tails": 0, "pin": "5", "half_tail": "60"},
        [("does-not-add-up", "tails")],
    ),
    "half tails' sides cross": (
        {"start": HALF_TAIL, "tails": 1, "pin": "5", "half_tail": "3"},
        [("tails-cross", "tails")],
    ),
    "too many between half tails": (
        {"start": HALF_TAIL, "tail": "0.1", "pin": "0.1"},
        [("too-many-tails", "tail")],
    ),
}


@pytest.mark.parametrize(("given_", "findings"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused_with_its_code_and_place(given_, findings):
    assert refusal(**given_) == findings


def test_a_refusal_gives_its_figures_in_the_persons_units():
    ground = replace(GROUND, width=5 * INCH, units=Units.INCH)
    with pytest.raises(InputError) as caught:
        spaced(ground, tails=3, half_pin=2 * INCH, pin=INCH)
    # 2 * 2 + 2 * 1 = 6 in of pins leave nothing of 5 in for three tails.
    assert "takes up all 5 in" in caught.value.findings[0].message


@st.composite
def full_spacings(draw: st.DrawFn) -> tuple[SpacingParameters, Ground]:
    """Everything given, so that it adds up; widths of every denominator."""
    lean = draw(lengths(0, 4))
    pin, tail = draw(lengths(1, 12)), draw(lengths(1, 40)) + 2 * lean
    count = draw(st.integers(2, 9))
    if draw(st.booleans()):
        halves = (draw(lengths(1, 15)), draw(lengths(1, 15)))
        width = sum(halves) + count * tail + (count - 1) * pin
        full = SpacingParameters(
            tails=count, pin=pin, tail=tail, half_pin=halves[0], half_pin_far=halves[1]
        )
    else:
        half = draw(lengths(1, 15)) + lean
        width = 2 * half + count * tail + (count + 1) * pin
        full = SpacingParameters(start=HALF_TAIL, tails=count, pin=pin, tail=tail, half_tail=half)
    return full, Ground(width, lean, draw(lengths(5, 30)), draw(st.sampled_from(list(Units))))


@PROPERTY
@given(full_spacings())
def test_any_one_width_left_out_is_worked_out_to_the_same_layout(case):
    full, ground = case
    whole = space_tails(full, ground)
    assert whole.rules == ()
    ends = ("half_tail",) if full.edges == HALF_TAIL else ("half_pin", "half_pin_far")
    for name in ("pin", "tail", *ends):
        assert space_tails(full.but(**{name: None}), ground) == whole
    if full.edges == HALF_PIN and full.half_pin == full.half_pin_far:
        without = full.but(half_pin=None, half_pin_far=None)
        assert space_tails(without, ground) == whole


@PROPERTY
@given(
    st.builds(
        SpacingParameters,
        start=st.just(HALF_PIN),
        tails=st.none() | st.integers(1, 12),
        pin=st.none() | lengths(1, 20),
        tail=st.none() | lengths(1, 60),
        half_pin=st.none() | lengths(1, 20),
        half_pin_far=st.none() | lengths(1, 20),
    )
    | st.builds(
        SpacingParameters,
        start=st.just(HALF_TAIL),
        tails=st.none() | st.integers(0, 12),
        pin=st.none() | lengths(1, 20),
        tail=st.none() | lengths(1, 60),
        half_tail=st.none() | lengths(1, 40),
    ),
    lengths(10, 600),
    lengths(0, 6),
    st.sampled_from(list(Units)),
)
def test_whatever_is_given_is_kept_and_adds_up_or_is_refused_kindly(given_, width, lean, units):
    ground = Ground(width, lean, Fraction(18), units)
    try:
        spacing = space_tails(given_, ground)
    except InputError as error:
        assert all(f.code and f.message for f in error.findings)  # noqa: PT017
        return
    assert all(w > 0 for w in widths(spacing)[1:-1])
    assert sum(widths(spacing)) == width
    assert all(tail.width_at(lean) > 0 for tail in spacing.tails)
    assert len({tail.width for tail in spacing.whole_tails}) <= 1
    assert len(set(spacing.pins)) <= 1
    if given_.tails is not None:
        assert len(spacing.whole_tails) == given_.tails
        if given_.tail is not None and given_.tails:
            assert spacing.whole_tails[0].width == given_.tail
    if given_.pin is not None and spacing.pins:
        assert spacing.pins[0] == given_.pin
    if given_.half_pin is not None:
        assert spacing.half_pins[0] == given_.half_pin
    if given_.half_pin_far is not None:
        assert spacing.half_pins[1] == given_.half_pin_far
    if given_.half_tail is not None:
        assert spacing.tails[0].width == spacing.tails[-1].width == given_.half_tail


@PROPERTY
@given(full_spacings())
def test_stepping_the_dividers_ends_one_pin_past_the_other_mark(case):
    """Common practice, no source: n steps from one half-pin mark, and back, strike every pin."""
    full, ground = case
    spacing = space_tails(full, ground)
    step = spacing.step
    marks = {tail.left for tail in spacing.tails if tail.left_slopes}
    marks |= {tail.right for tail in spacing.tails if tail.right_slopes}
    first, last = min(marks), max(marks)
    assert step == full.tail + full.pin
    if full.edges == HALF_PIN:
        assert first + full.tails * step == last + full.pin
        steps = range(full.tails)
    else:
        assert first + (full.tails + 1) * step == last + full.tail
        steps = range(full.tails + 1)
    forward = {first + number * step for number in steps}
    back = {last - number * step for number in steps}
    assert forward | back == marks
