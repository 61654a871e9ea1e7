"""Rounding to chisels, sixteenths and millimetres: what is whole, and where the rest goes."""

import pytest

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joints.parameter import read_parameters
from joinery_templates.joints.spacing.parameters import HALF_TAIL, SpacingParameters
from joinery_templates.joints.spacing.tails import space_tails
from joinery_templates.joints.spacing.terms import Ground
from joinery_templates.lengths import INCH, Units
from tests.joints.test_spacing_styles import fractions, spaced, widths

CASES = {
    # 140: half pins 7 by rule (4 + 3), steps (126 + 4) / 3 = 43.33: 43, and half pins of 7.5.
    "step of even tails": (
        {"tails": 3, "pin": 4, "spacing": {"round_to": 1}},
        "7.5 39 4 39 4 39 7.5",
    ),
    # (126 + 4) / 6 = 21.67: 22 would leave half pins of 6, still wider than the pins of 4.
    "step rounded up": (
        {"tails": 6, "pin": 4, "spacing": {"round_to": 1}},
        "6 18 4 18 4 18 4 18 4 18 4 18 6",
    ),
    # (126 + 4) / 7 = 18.57: 19 would leave half pins of 5.5.
    "step rounded up again": (
        {"tails": 7, "pin": 4, "spacing": {"round_to": 1}},
        "5.5 15 4 15 4 15 4 15 4 15 4 15 4 15 5.5",
    ),
    # (122 + 6) / 3 = 42.67: 45 would leave half pins of 5.5, less than a pin: 36.
    "step down where up leaves too little": (
        {"tails": 3, "pin": 6, "spacing": {"round_to": 9}},
        "19 30 6 30 6 30 19",
    ),
    "step of half tails": (
        # 140 / 3 = 46.67: 47.
        {"start": HALF_TAIL, "tails": 2, "pin": 5, "spacing": {"round_to": 1}},
        "0 20.5 5 42 5 42 5 20.5 0",
    ),
    "step of graded tails, each": (
        # (140 - 14 - 8) / 4 = 29.5 and 59; with a pin of 4 33.5 and 63 become 34 and 63.
        {"tails": 3, "pin": 4, "spacing": {"style": "graded", "ratio": 2, "round_to": 1}},
        "6.5 30 4 59 4 30 6.5",
    ),
    "pins of a chisel": (
        # Pins of 6 by rule would become 8 and leave half pins of 2 instead of 3: 4.
        {"tails": 2, "spacing": {"style": "shoulder", "round_to": 4, "round": "pin"}},
        "4 64 4 64 4",
    ),
    "tails equal to pins keep equal, step": (
        # 137 / 7 = 19.57 at the middle, step 39.14: 39, 19.5 at the middle.
        {"tails": 3, "spacing": {"style": "equal", "at": "middle", "round_to": 1}},
        "19.75 22.5 16.5 22.5 16.5 22.5 19.75",
    ),
    "tails equal to pins keep equal, pin": (
        {"tails": 3, "spacing": {"style": "equal", "round_to": 3, "round": "pin"}},
        "23.5 21 15 21 15 21 23.5",
    ),
}


@pytest.mark.parametrize(("raw", "expected"), CASES.values(), ids=CASES)
def test_what_is_rounded_is_whole_and_the_edges_take_up_the_rest(raw, expected):
    assert widths(spaced(**raw)) == fractions(expected)


def test_pins_become_whole_chisel_widths_and_tails_keep_theirs():
    """A pin that follows from the tails: 140 = 4 * 28 + 3 p + 2 (p + 3), p = 4.4."""
    plain = spaced(tails=4, tail=28)
    assert set(plain.pins) == {Fraction("4.4")}
    whole = spaced(tails=4, tail=28, spacing={"round_to": 3, "round": "pin"})
    assert widths(whole) == fractions("9.5 28 3 28 3 28 3 28 9.5")
    quarter = spaced(tails=4, tail=28, spacing={"round_to": "1/16 in", "round": "pin"})
    assert set(quarter.pins) == {INCH * 3 / 16}
    assert quarter.width == 140


def test_the_divider_setting_becomes_whole_sixteenths():
    ground = Ground(Fraction(11, 2) * INCH, INCH / 16, INCH / 2, Units.INCH)
    given = read_parameters(
        SpacingParameters,
        {"tails": 4, "pin": "1/8", "spacing": {"round_to": "1/16 in"}},
        Units.INCH,
    )
    spacing = space_tails(given, ground)
    # Half pins of 3/16 by rule: (5 1/2 - 3/8 + 1/8) / 4 = 1 5/16: whole already.
    assert spacing.step == Fraction(21, 16) * INCH
    uneven = space_tails(given, Ground(Fraction(43, 8) * INCH, INCH / 16, INCH / 2, Units.INCH))
    # (5 3/8 - 1/4) / 4 = 1 9/32: between 20/16 and 21/16, and halves go up if there is room.
    assert uneven.step == Fraction(21, 16) * INCH
    assert uneven.half_pins == (INCH / 8, INCH / 8)


REFUSED = {
    "half pins given": ({"half_pin": 5, "spacing": {"round_to": 1}}, ["half_pin"]),
    "both half pins given": (
        {"half_pin": 5, "half_pin_far": 6, "spacing": {"round_to": 1}},
        ["half_pin", "half_pin_far"],
    ),
    "half tails given": (
        {"start": HALF_TAIL, "half_tail": 20, "spacing": {"round_to": 1}},
        ["half_tail"],
    ),
    "tails fixed": ({"tails": 3, "tail": 35, "spacing": {"round_to": 1}}, ["tail"]),
    "a pin that is no whole chisel": (
        {"pin": 5, "spacing": {"round_to": 3, "round": "pin"}},
        ["pin"],
    ),
    "a pin equal to tails": ({"pin": 18, "spacing": {"style": "equal", "round_to": 1}}, ["pin"]),
    "a socket": (
        {"spacing": {"style": "shoulder", "socket": 9, "round_to": 1, "round": "pin"}},
        ["spacing.socket"],
    ),
    "narrow tails": (
        {"spacing": {"style": "clusters", "narrow_tail": 9, "round_to": 1}},
        ["spacing.narrow_tail"],
    ),
}


@pytest.mark.parametrize(("raw", "places"), REFUSED.values(), ids=REFUSED)
def test_a_width_that_would_have_to_change_is_refused_by_name(raw, places):
    with pytest.raises(InputError) as caught:
        spaced(**raw)
    assert [f.place for f in caught.value.findings] == places
    assert {f.code for f in caught.value.findings} == {"not-with-rounding"}


@pytest.mark.parametrize(
    ("raw", "code", "place"),
    [
        ({"tails": 8, "spacing": {"round_to": 50}}, "cannot-round", "spacing.round_to"),
        (
            {"tails": 8, "spacing": {"round_to": 50, "round": "pin"}},
            "cannot-round",
            "spacing.round_to",
        ),
        ({"spacing": {"round": "pin"}}, "not-without-rounding", "spacing.round"),
        (
            {"spacing": {"style": "listed", "widths": [9], "round_to": 1}},
            "not-with-this-style",
            "spacing.round_to",
        ),
    ],
)
def test_rounding_that_cannot_be_is_refused(raw, code, place):
    with pytest.raises(InputError) as caught:
        spaced(**raw)
    assert [(f.code, f.place) for f in caught.value.findings] == [(code, place)]


def test_what_is_whole_already_stays():
    """140: half pins of 6, step (128 + 3) / 4 = 32.75."""
    whole = spaced(tails=4, pin=3, spacing={"round_to": "0.25 mm"})
    assert whole.half_pins == (6, 6)
    assert whole.step == Fraction("32.75")
