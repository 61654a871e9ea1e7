"""A groove lies wholly inside a tail; the tails move aside for it where they can."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import InputError, Level
from joinery_templates.exact import Fraction
from joinery_templates.joints.spacing.keep_clear import is_clear, keep_clear
from joinery_templates.joints.spacing.parameters import HALF_TAIL, SpacingParameters
from joinery_templates.joints.spacing.tails import space_tails
from joinery_templates.joints.spacing.terms import Ground
from joinery_templates.lengths import Units
from tests.joints.strategies import lengths
from tests.joints.test_spacing_styles import GROUND, spaced, widths
from tests.strategies import PROPERTY

LEAN = GROUND.lean
EVEN = {"tails": 4, "pin": 4}
"""140 mm: half pins of 7 and tails of 28.5, so that the first is clear from 10 to 32.5."""


def grooved(from_edge: object, width: object = 6, **raw: object):
    return spaced(**(EVEN | raw), groove={"from_edge": from_edge, "width": width})


@pytest.mark.parametrize(
    ("stretch", "clear"),
    [
        ((10, 16), True),
        ((10, Fraction("32.5")), True),
        ((Fraction("9.9"), 16), False),
        ((20, Fraction("32.6")), False),
        ((34, 40), False),
        ((45, 50), True),
        ((10, 60), False),  # across a pin, though both ends stand in tails
    ],
)
def test_a_stretch_is_clear_inside_a_tail_where_it_is_narrowest(stretch, clear):
    """Noyes 1910, no. 49: wholly inside the tail."""
    spacing = spaced(**EVEN)
    low, high = (Fraction(place) for place in stretch)
    assert is_clear(spacing, (low, high), LEAN) is clear


@pytest.mark.parametrize(
    ("from_edge", "halves"),
    [
        (10, (7, 7)),  # clear as it is
        (9, (6, 8)),  # 1 mm too near the reference edge
        (7, (4, 10)),  # as far as a half pin may go: a pin's width
        (Fraction("28.5"), (9, 5)),  # 34.5 is 2 mm too far: away from the reference edge
    ],
)
def test_the_tails_move_as_little_as_clears_the_groove(from_edge, halves):
    spacing = grooved(from_edge)
    assert spacing.half_pins == halves
    assert {tail.width for tail in spacing.tails} == {Fraction("28.5")}
    assert set(spacing.pins) == {4}
    assert spacing.findings == ()
    assert spacing.rules[-1].startswith("Edges: moved by") is (halves != (7, 7))


@pytest.mark.parametrize(
    ("from_edge", "width"),
    [(6, 6), (20, 23), (Fraction("35.5"), 6)],
    ids=["too near the edge", "wider than a tail", "in a pin"],
)
def test_where_no_move_helps_the_tails_stay_and_advice_says_so(from_edge, width):
    spacing = grooved(from_edge, width)
    assert spacing.tails == spaced(**EVEN).tails
    (finding,) = spacing.findings
    assert (finding.code, finding.place) == ("groove-not-in-a-tail", "groove")
    assert finding.level is Level.ADVICE
    assert "no. 49" in finding.source


@pytest.mark.parametrize(
    ("raw", "remedy"),
    [
        # The first tail is clear from 10 to 32.5, from 7 to 36.5 where tails may move aside.
        ({"from_edge": 6}, "Move the groove 1 mm away from the reference edge."),
        ({"from_edge": Fraction("6.8")}, "Move the groove 0.5 mm away from the reference edge."),
        ({"from_edge": Fraction("35.5")}, "Move the groove 4 mm away from the reference edge."),
        ({"from_edge": 9, "half_pin": 7}, "Move the groove 1 mm away from the reference edge, or"),
        ({"from_edge": 28, "half_pin": 7}, "Move the groove 1.5 mm towards the reference edge, or"),
        ({"from_edge": 20, "width": 23}, "Give fewer or wider tails, or a narrower groove."),
    ],
)
def test_the_advice_names_the_figure_that_helps(raw, remedy):
    (finding,) = grooved(**raw).findings
    assert finding.remedy.startswith(remedy)


@PROPERTY
@given(at=lengths(1, 120), width=lengths(2, 20), half=st.none() | lengths(1, 12))
def test_a_groove_moved_as_advised_is_clear(at, width, half):
    raw = {} if half is None else {"half_pin": half}
    findings = grooved(at, width, **raw).findings
    for finding in findings:
        if told := re.match(r"Move the groove ≈?([\d.]+) mm (away|towards)", finding.remedy):
            by = Fraction(told[1]) * (1 if told[2] == "away" else -1)
            assert grooved(at + by, width, **raw).findings == ()


def test_a_rebate_is_clear_of_a_half_pin_as_wide_as_advised():
    (finding,) = spaced(**EVEN, rebate={"width": 12}).findings
    assert "Give a half pin of at least 12 mm" in finding.remedy
    assert spaced(**EVEN, half_pin=12, rebate={"width": 12}).findings == ()


def test_half_pins_that_are_given_are_kept_and_advice_says_what_to_leave_out():
    spacing = grooved(9, half_pin=7)
    assert spacing.half_pins == (7, 7)
    assert [finding.code for finding in spacing.findings] == ["groove-not-in-a-tail"]
    assert "leave out the width at the edges" in spacing.findings[0].remedy
    assert grooved(9).findings == ()


def test_half_tails_move_too_and_one_becomes_wider():
    # Half tails of 15, pins of 5, tails of 30: clear to 12, and from 23 to 47.
    raw = {"start": HALF_TAIL, "tails": 3, "pin": 5, "tail": 30}
    spacing = spaced(**raw, groove={"from_edge": 8, "width": 6})
    assert [tail.width for tail in spacing.tails] == [17, 30, 30, 30, 13]
    assert sum(widths(spacing)) == 140
    near = spaced(**raw, rebate={"width": 6})
    assert [tail.width for tail in near.tails] == [15, 30, 30, 30, 15]


def test_a_groove_counts_from_the_boards_edge_where_the_spacing_begins_further_in():
    shifted = replace(GROUND, margins=(Fraction(10), Fraction(0)))
    given_ = SpacingParameters(tails=4, pin=Fraction(4))
    plain = space_tails(given_, shifted)
    groove = spaced(**EVEN, groove={"from_edge": 19, "width": 6})
    assert groove.half_pins == (7, 7)
    moved = spaced(shifted, **EVEN, groove={"from_edge": 19, "width": 6})
    assert (plain.half_pins, moved.half_pins) == ((7, 7), (6, 8))


@pytest.mark.parametrize(("from_edge", "width"), [(135, 6), (141, 6), (0, 141)])
def test_a_groove_that_is_not_on_the_board_is_refused(from_edge, width):
    with pytest.raises(InputError) as caught:
        grooved(from_edge, width)
    assert [(f.code, f.place) for f in caught.value.findings] == [("groove-off-board", "groove")]


@pytest.mark.parametrize(
    ("from_edge", "face", "remedy"),
    [
        (0, "inside", "Write `rebate` in place of `groove`"),
        (134, "inside", '`edge = "far"`'),
        (0, "outside", "leave it out"),
        (134, "outside", "leave it out"),
    ],
)
def test_a_groove_open_at_an_edge_is_refused_as_a_rebate(from_edge, face, remedy):
    groove = {"from_edge": from_edge, "width": 6, "face": face}
    for start in ("half-pin", HALF_TAIL):
        with pytest.raises(InputError) as caught:
            spaced(start=start, groove=groove)
        (finding,) = caught.value.findings
        assert (finding.code, finding.place) == ("groove-at-edge", "groove")
        assert remedy in finding.remedy
    assert spaced(groove=groove | {"from_edge": abs(from_edge - Fraction("0.1"))})


@PROPERTY
@given(
    st.integers(1, 7),
    lengths(2, 8),
    lengths(2, 8),
    lengths(100, 300),
    st.lists(st.tuples(lengths(0, 100), lengths(1, 20)), min_size=1, max_size=3),
    st.booleans(),
)
def test_a_move_clears_every_stretch_or_does_nothing_and_is_the_least_that_does(
    count, pin, lean, width, stretches, halves
):
    start = HALF_TAIL if halves else "half-pin"
    ground = Ground(width, lean, Fraction(18), Units.MM)
    given_ = SpacingParameters(start=start, tails=count, pin=pin)
    try:
        spacing = space_tails(given_, ground)
    except InputError:
        return
    wanted = [(low, low + wide) for low, wide in stretches]
    moved = keep_clear(spacing, wanted, lean)
    assert moved.width == width
    assert [tail.width for tail in moved.whole_tails] == [t.width for t in spacing.whole_tails]
    assert moved.pins == spacing.pins
    assert all(tail.width_at(lean) > 0 for tail in moved.tails)
    assert not spacing.half_pins or min(moved.half_pins) > 0
    if moved == spacing:
        return
    assert all(is_clear(moved, stretch, lean) for stretch in wanted)
    # A shade less of a move, in the same direction, leaves some stretch unclear.
    shift = moved.tails[-1].left - spacing.tails[-1].left
    shade = Fraction(1, 1000) if shift > 0 else Fraction(-1, 1000)
    less = replace(
        moved,
        tails=tuple(
            replace(
                tail,
                left=tail.left - shade * tail.left_slopes,
                right=tail.right - shade * tail.right_slopes,
            )
            for tail in moved.tails
        ),
    )
    assert not all(is_clear(less, stretch, lean) for stretch in wanted)
