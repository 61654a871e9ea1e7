"""Styles of spacing: worked layouts, widths that add up, and what does not go together."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joints.grooves.parameters import channels_of
from joinery_templates.joints.parameter import read_parameters
from joinery_templates.joints.spacing.parameters import (
    HALF_PIN,
    HALF_TAIL,
    SpacingParameters,
    StyleParameters,
)
from joinery_templates.joints.spacing.tails import space_tails
from joinery_templates.joints.spacing.terms import Ground, Spacing
from joinery_templates.lengths import INCH, Units
from tests.joints.strategies import lengths
from tests.strategies import PROPERTY

GROUND = Ground(Fraction(140), Fraction(3), Fraction(18), Units.MM)
"""140 mm wide; the sides come in by 3 mm (18 mm at 1:6)."""


def spaced(ground: Ground = GROUND, **raw: object) -> Spacing:
    given = read_parameters(SpacingParameters, raw, Units.MM)
    channels = channels_of(given.groove, given.rebate, ground.board_width)
    return space_tails(given, replace(ground, channels=channels))


def widths(spacing: Spacing) -> list[Fraction]:
    """All widths from edge to edge; half tails begin and end with nothing."""
    walls = [Fraction(0)]
    for tail in spacing.tails:
        walls += [tail.left, tail.right]
    walls.append(spacing.width)
    return [right - left for left, right in pairwise(walls)]


def fractions(text: str) -> list[Fraction]:
    return [Fraction(word) for word in text.split()]


# Handbook and hand-worked cases


def test_the_shoulder_line_divided_as_in_the_handbook():
    """Noyes 1910, no. 48: four equal parts of 4 in, sockets of 1/2 in.

    The method is his, the sizes are chosen: 3/4 in thick, slope 5/8 in 3.
    """
    lean = INCH * 3 / 4 * Fraction(5, 8) / 3
    assert lean == Fraction("0.15625") * INCH
    ground = Ground(4 * INCH, lean, INCH * 3 / 4, Units.INCH)
    spacing = spaced(ground, tails=4, spacing={"style": "shoulder", "socket": "1/2 in"})
    at_shoulder = [
        place / INCH for tail in spacing.tails for place in (tail.left + lean, tail.right - lean)
    ]
    assert at_shoulder == fractions("0.25 0.75 1.25 1.75 2.25 2.75 3.25 3.75")
    assert {tail.width / INCH for tail in spacing.tails} == {Fraction("0.8125")}
    assert {pin / INCH for pin in spacing.pins} == {Fraction("0.1875")}
    assert [half / INCH for half in spacing.half_pins] == fractions("0.09375 0.09375")
    assert spacing.step == INCH


def test_a_pin_given_fixes_the_socket_at_the_shoulder_line():
    by_pin = spaced(tails=4, pin=3, spacing="shoulder")
    by_socket = spaced(tails=4, spacing={"style": "shoulder", "socket": 9})
    assert by_pin.tails == by_socket.tails
    assert widths(by_pin) == fractions("1.5 32 3 32 3 32 3 32 1.5")


CASES = {
    # 140 - 2 * 11 - 3 = 115 in five widths of 23 at the middle; a side leans 1.5 to there.
    "equal at the middle": (
        {"tails": 3, "half_pin": 11, "spacing": "equal"},
        "11 26 20 26 20 26 11",
    ),
    "equal at the end": (
        {"tails": 3, "half_pin": 10, "spacing": {"style": "equal", "at": "end"}},
        "10 24 24 24 24 24 10",
    ),
    "equal at the baseline": (
        {"tails": 3, "half_pin": 12, "spacing": {"style": "equal", "at": "baseline"}},
        "12 28 16 28 16 28 12",
    ),
    "equal, half pins by rule: a pin and the lean": (
        {"tails": 3, "spacing": {"style": "equal", "at": "end"}},
        # 140 = 2 (w + 3) + 5 w
        "155/7 134/7 134/7 134/7 134/7 134/7 155/7",
    ),
    "equal, the pin given": (
        {"tails": 3, "pin": 18, "spacing": "equal"},
        "16 24 18 24 18 24 16",
    ),
    "equal, the tail given": (
        {"tails": 3, "tail": 24, "spacing": "equal"},
        "16 24 18 24 18 24 16",
    ),
    "equal, half tails": (
        {"start": HALF_TAIL, "tails": 2, "spacing": "equal"},
        # Six widths of 140 / 6 at the middle, where a half tail is 3 / 2 narrower than half.
        "0 79/6 61/3 79/3 61/3 79/3 61/3 79/6 0",
    ),
    "equal, half tails given": (
        {"start": HALF_TAIL, "tails": 1, "half_tail": 24, "spacing": "equal"},
        # 140 - 48 + 3 = 95 in three widths.
        "0 24 86/3 104/3 86/3 24 0",
    ),
    "listed": (
        {"spacing": {"style": "listed", "widths": [20, 5, 50, 4, 30]}},
        "15.5 20 5 50 4 30 15.5",
    ),
    "listed, one half pin given": (
        {"half_pin": 11, "spacing": {"style": "listed", "widths": [20, 5, 50, 4, 30]}},
        "11 20 5 50 4 30 20",
    ),
    "listed, the far half pin given": (
        {"half_pin_far": 11, "spacing": {"style": "listed", "widths": [20, 5, 50, 4, 30]}},
        "20 20 5 50 4 30 11",
    ),
    "listed, mirrored about a tail": (
        {"spacing": {"style": "listed", "widths": [20, 5, 50], "mirrored": True}},
        "20 20 5 50 5 20 20",
    ),
    "listed, mirrored about a pin": (
        {"spacing": {"style": "listed", "widths": [40, 6], "mirrored": True}},
        "27 40 6 40 27",
    ),
    "listed, half tails": (
        {"start": HALF_TAIL, "spacing": {"style": "listed", "widths": [6, 60, 6]}},
        "0 34 6 60 6 34 0",
    ),
    "graded": (
        # 140 - 2 * 8 - 4 * 4 = 108 in 1 + 2 + 4 + 2 + 1 = 10 shares.
        {"tails": 5, "pin": 4, "half_pin": 8, "spacing": {"style": "graded", "ratio": 2}},
        "8 10.8 4 21.6 4 43.2 4 21.6 4 10.8 8",
    ),
    "graded, shrinking": (
        # 140 - 20 - 8 = 112 in 2 + 1 + 2 halves.
        {"tails": 3, "pin": 4, "half_pin": 10, "spacing": {"style": "graded", "ratio": "1/2"}},
        "10 44.8 4 22.4 4 44.8 10",
    ),
    "graded from edge to edge": (
        # 112 in 1 + 2 + 4 shares of 16.
        {
            "tails": 3,
            "pin": 4,
            "half_pin": 10,
            "spacing": {"style": "graded", "ratio": 2, "mirrored": False},
        },
        "10 16 4 32 4 64 10",
    ),
    "graded, half tails of the outermost": (
        # 140 - 4 * 5 = 120 in 1/2 + 1 + 2 + 1 + 1/2.
        {"start": HALF_TAIL, "tails": 3, "pin": 5, "spacing": {"style": "graded", "ratio": 2}},
        "0 12 5 24 5 48 5 24 5 12 0",
    ),
    "graded from edge to edge, half tails": (
        # 140 - 3 * 5 = 125 in 1/2 + 1 + 2 + 1 shares of 250 / 9.
        {
            "start": HALF_TAIL,
            "tails": 2,
            "pin": 5,
            "spacing": {"style": "graded", "ratio": 2, "mirrored": False},
        },
        "0 125/9 5 250/9 5 500/9 5 250/9 0",
    ),
    "small edges": (
        # 140 - 20 - 4 * 5 = 100 in 1 + 3 * 2 + 1 shares of 12.5.
        {"tails": 5, "pin": 5, "half_pin": 10, "spacing": "small-edges"},
        "10 12.5 5 25 5 25 5 25 5 12.5 10",
    ),
    "two small tails at the reference edge only": (
        # 100 in 2 + 3 * 3 = 11 shares.
        {
            "tails": 5,
            "pin": 5,
            "half_pin": 10,
            "spacing": {"style": "small-edges", "ratio": 3, "edge_tails": 2, "mirrored": False},
        },
        "10 100/11 5 100/11 5 300/11 5 300/11 5 300/11 10",
    ),
    "small edges, half tails": (
        # 140 - 20 = 120 in 1/2 + 1 + 2 + 1 + 1/2.
        {"start": HALF_TAIL, "tails": 3, "pin": 5, "spacing": "small-edges"},
        "0 12 5 24 5 48 5 24 5 12 0",
    ),
    "clusters of two": (
        # 140 - 20 - 4 * 3 - 2 * 12 = 84 in three wide tails.
        {
            "pin": 3,
            "half_pin": 10,
            "spacing": {"style": "clusters", "groups": 2, "narrow_tail": 12},
        },
        "10 28 3 12 3 28 3 12 3 28 10",
    ),
    "clusters of three": (
        # One cluster: 140 - 20 - 9 - 24 = 87.
        {
            "pin": 3,
            "half_pin": 10,
            "spacing": {"style": "clusters", "groups": 1, "pins_together": 3, "narrow_tail": 12},
        },
        "10 43.5 3 12 3 12 3 43.5 10",
    ),
    "clusters from the number of tails": (
        {"tails": 5, "pin": 3, "half_pin": 10, "spacing": {"style": "clusters", "narrow_tail": 12}},
        "10 28 3 12 3 28 3 12 3 28 10",
    ),
    "clusters, half tails": (
        # 140 - 12 - 24 = 104 in 1/2 + 1 + 1/2.
        {
            "start": HALF_TAIL,
            "pin": 3,
            "spacing": {"style": "clusters", "groups": 2, "narrow_tail": 12},
        },
        "0 26 3 12 3 52 3 12 3 26 0",
    ),
    "clusters, half tails, from the number of tails": (
        {
            "start": HALF_TAIL,
            "tails": 3,
            "pin": 3,
            "spacing": {"style": "clusters", "narrow_tail": 12},
        },
        "0 26 3 12 3 52 3 12 3 26 0",
    ),
    "clusters, narrow tails by rule": (
        # A pin of 3 is 9 at the baseline, and so is a tail of 15.
        {"pin": 3, "half_pin": 10, "spacing": {"style": "clusters", "groups": 1}},
        "10 49.5 3 15 3 49.5 10",
    ),
}


@pytest.mark.parametrize(("raw", "expected"), CASES.values(), ids=CASES)
def test_each_style_gives_the_layout_worked_by_hand(raw, expected):
    spacing = spaced(**raw)
    assert widths(spacing) == fractions(expected)
    assert all(rule.endswith(").") for rule in spacing.rules)


@pytest.mark.parametrize("at", [("end", 0), ("middle", Fraction(3, 2)), ("baseline", 3)])
@pytest.mark.parametrize("start", [HALF_PIN, HALF_TAIL])
def test_tails_and_pins_are_of_one_width_at_the_line_named_and_at_no_other(at, start):
    """Strongest when equal (Noyes 1910, no. 48)."""
    name, lean = at
    spacing = spaced(start=start, tails=3, spacing={"style": "equal", "at": name})
    assert {tail.width_at(lean) for tail in spacing.whole_tails} == {spacing.pins[0] + 2 * lean}
    other = lean + 1
    assert spacing.whole_tails[0].width_at(other) != spacing.pins[0] + 2 * other


def test_an_uneven_spacing_has_no_divider_setting():
    assert spaced(tails=5, spacing="graded").step is None
    assert spaced(tails=5, spacing={"style": "graded", "ratio": 1}).step is not None
    assert spaced(tails=5, spacing="even").step is not None


def test_the_style_even_is_what_holds_without_a_style():
    for raw in ({}, {"tails": 4, "pin": 3}, {"start": HALF_TAIL}):
        assert spaced(**raw, spacing="even") == spaced(**raw)


@pytest.mark.parametrize("width", [140, 250, 400, 600])
@pytest.mark.parametrize("start", [HALF_PIN, HALF_TAIL])
def test_clusters_by_rule_have_wide_tails_well_wider_than_the_narrow_ones(width, start):
    """Our judgement: about twice; by rule pins are 6 wide and narrow tails 6 + 4 * 3."""
    ground = Ground(Fraction(width), Fraction(3), Fraction(18), Units.MM)
    spacing = spaced(ground, start=start, spacing="clusters")
    tails = [tail.width for tail in spacing.whole_tails]
    ends = [] if start == HALF_PIN else [spacing.tails[0].width * 2]
    assert min(tails) == 18
    every = [*ends, *tails, *ends]
    assert all((one == 18) != (other == 18) for one, other in pairwise(every))
    assert Fraction(4, 3) * 18 < max(every) < 3 * 18


# Refused

REFUSED = {
    "shoulder with half tails": (
        {"start": HALF_TAIL, "spacing": "shoulder"},
        [("not-with-this-style", "start")],
    ),
    "shoulder with a half pin": (
        {"half_pin": 4, "spacing": "shoulder"},
        [("not-with-this-style", "half_pin")],
    ),
    "shoulder with number and tail": (
        {"tails": 4, "tail": 20, "spacing": "shoulder"},
        [("not-with-this-style", "tail")],
    ),
    "pin and socket disagree": (
        {"pin": 4, "spacing": {"style": "shoulder", "socket": 9}},
        [("does-not-add-up", "spacing.socket")],
    ),
    "a socket that the lean closes": (
        {"spacing": {"style": "shoulder", "socket": 6}},
        [("no-room", "pin")],
    ),
    "sockets fill the shoulder line": (
        {"tails": 4, "spacing": {"style": "shoulder", "socket": 35}},
        [("tails-cross", "tails")],
    ),
    "pin and tail not equal": (
        {"pin": 18, "tail": 25, "spacing": "equal"},
        [("does-not-add-up", "tail")],
    ),
    "too much for equal": (
        {"tails": 3, "pin": 18, "half_pin": 9, "spacing": "equal"},
        [("does-not-add-up", "tails")],
    ),
    "too much for equal half tails": (
        {"start": HALF_TAIL, "tails": 3, "pin": 18, "half_tail": 9, "spacing": "equal"},
        [("does-not-add-up", "tails")],
    ),
    "no tail": ({"tails": 0, "half_pin": 9, "spacing": "equal"}, [("no-tail", "tails")]),
    "no list": ({"spacing": "listed"}, [("missing", "spacing.widths")]),
    "a list that ends with a pin": (
        {"spacing": {"style": "listed", "widths": [20, 5]}},
        [("list-uneven", "spacing.widths")],
    ),
    "a list too wide": (
        {"spacing": {"style": "listed", "widths": [70, 5, 65]}},
        [("no-room", "half_pin")],
    ),
    "a list that does not add up": (
        {"half_pin": 5, "half_pin_far": 5, "spacing": {"style": "listed", "widths": [100]}},
        [("does-not-add-up", "spacing.widths")],
    ),
    "a list and what it says": (
        {"tails": 2, "tail": 20, "pin": 3, "spacing": {"style": "listed", "widths": [20, 3, 20]}},
        [("not-with-this-style", name) for name in ("tails", "tail", "pin")],
    ),
    "small tails that are not": (
        {"spacing": {"style": "small-edges", "ratio": 1}},
        [("out-of-limits", "spacing.ratio")],
    ),
    "too few for small tails": (
        {"tails": 2, "spacing": "small-edges"},
        [("too-few-tails", "tails")],
    ),
    "no tail to grade": (
        {"start": HALF_TAIL, "tails": 0, "spacing": "graded"},
        [("too-few-tails", "tails")],
    ),
    "half tails and no share": (
        {
            "start": HALF_TAIL,
            "half_tail": 40,
            "pin": 3,
            "spacing": {"style": "clusters", "groups": 1, "narrow_tail": 12},
        },
        [("does-not-add-up", "half_tail")],
    ),
    "no whole clusters": ({"tails": 4, "spacing": "clusters"}, [("no-whole-clusters", "tails")]),
    "wide tails that are not": (
        {"pin": 6, "spacing": {"style": "clusters", "groups": 3}},
        [("no-clusters", "spacing")],
    ),
    "parts of other styles": (
        {"spacing": {"style": "graded", "socket": 9, "at": "end", "groups": 2}},
        [("not-with-this-style", f"spacing.{name}") for name in ("socket", "at", "groups")],
    ),
    "mirrored says nothing of even tails": (
        {"spacing": {"mirrored": True}},
        [("not-with-this-style", "spacing.mirrored")],
    ),
    "half pins with half tails": (
        {"start": HALF_TAIL, "half_pin": 5, "spacing": "graded"},
        [("not-with-this-start", "half_pin")],
    ),
    "grading so steep that tails cross": (
        {"tails": 9, "spacing": {"style": "graded", "ratio": 4}},
        [("tails-cross", "tails")],
    ),
}


@pytest.mark.parametrize(("raw", "findings"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused_with_its_code_and_place(raw, findings):
    with pytest.raises(InputError) as caught:
        spaced(**raw)
    assert [(f.code, f.place) for f in caught.value.findings] == findings
    assert all(f.message and f.remedy for f in caught.value.findings)


# Properties

SIZE = st.none() | lengths(1, 40)
STYLES = st.one_of(
    st.builds(StyleParameters, style=st.just("shoulder"), socket=SIZE),
    st.builds(
        StyleParameters, style=st.just("equal"), at=st.sampled_from(["end", "baseline", None])
    ),
    st.builds(
        StyleParameters,
        style=st.just("listed"),
        mirrored=st.none() | st.booleans(),
        widths=st.lists(lengths(1, 40), min_size=1, max_size=9).map(tuple),
    ),
    st.builds(
        StyleParameters,
        style=st.just("graded"),
        mirrored=st.none() | st.booleans(),
        ratio=st.none() | st.fractions("1/4", 4, max_denominator=20),
    ),
    st.builds(
        StyleParameters,
        style=st.just("small-edges"),
        mirrored=st.none() | st.booleans(),
        edge_tails=st.none() | st.integers(1, 3),
        ratio=st.none() | st.fractions("1/4", 4, max_denominator=20),
    ),
    st.builds(
        StyleParameters,
        style=st.just("clusters"),
        pins_together=st.none() | st.integers(2, 3),
        groups=st.none() | st.integers(1, 4),
        narrow_tail=SIZE,
    ),
)
ROUNDED = st.tuples(
    st.none() | st.sampled_from([Fraction(1), Fraction(3), INCH / 16]),
    st.sampled_from([None, "step", "pin"]),
)


@st.composite
def givens(draw: st.DrawFn) -> SpacingParameters:
    style = draw(STYLES)
    grid, what = draw(ROUNDED)
    if grid is not None and style.style != "listed":
        style = style.but(round_to=grid, round=what)
    listed = style.style == "listed"
    return SpacingParameters(
        start=draw(st.sampled_from([HALF_PIN, HALF_TAIL])),
        tails=None if listed else draw(st.none() | st.integers(0, 12)),
        pin=None if listed else draw(st.none() | lengths(1, 15)),
        spacing=style,
    )


@PROPERTY
@given(givens(), lengths(60, 900), lengths(0, 5), st.sampled_from(list(Units)))
def test_whatever_is_given_is_kept_and_adds_up_or_is_refused_kindly(given_, width, lean, units):
    ground = Ground(width, lean, Fraction(18), units)
    try:
        spacing = space_tails(given_, ground)
    except InputError as error:
        assert all(f.code and f.message and f.remedy for f in error.findings)  # noqa: PT017
        return
    found = widths(spacing)
    assert sum(found) == width
    halves = given_.edges == HALF_TAIL
    assert all(one > 0 for one in (found[1:-1] if halves else found))
    assert bool(spacing.half_pins) is not halves
    assert all(tail.width_at(lean) > 0 for tail in spacing.tails)
    assert all(one.right < other.left for one, other in pairwise(spacing.tails))
    if given_.tails is not None:
        assert len(spacing.whole_tails) == given_.tails
    style = given_.chosen
    if style.mirrored or (style.style != "listed" and style.mirrored is None):
        assert found == found[::-1]
    if given_.pin is not None:
        assert set(spacing.pins) <= {given_.pin}
    if style.round == "pin":
        assert all(pin % style.round_to == 0 for pin in spacing.pins)
    elif style.round_to is not None:
        pin = spacing.pins[0] if spacing.pins else 0
        assert all(
            (tail.width + pin) % style.round_to == 0 for tail in spacing.whole_tails if spacing.pins
        )


@PROPERTY
@given(
    st.lists(lengths(7, 40), min_size=2, max_size=7),
    lengths(2, 9),
    lengths(3, 20),
    lengths(3, 20),
)
def test_a_list_read_from_the_other_edge_is_the_mirror_image(tails, pin, first, last):
    listed = [tails[0]]
    for tail in tails[1:]:
        listed += [pin, tail]
    ground = replace(GROUND, width=first + last + sum(listed))
    one = SpacingParameters(
        half_pin=first,
        half_pin_far=last,
        spacing=StyleParameters(style="listed", widths=tuple(listed)),
    )
    other = SpacingParameters(
        half_pin=last,
        half_pin_far=first,
        spacing=StyleParameters(style="listed", widths=tuple(reversed(listed))),
    )
    assert widths(space_tails(one, ground)) == widths(space_tails(other, ground))[::-1]
