"""Spaces, chisels, saw and gauge: values by hand, the wood itself, and brute force."""

from collections.abc import Iterator
from itertools import groupby, pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import Level
from joinery_templates.exact import Fraction
from joinery_templates.joint import Clearing, Joint
from joinery_templates.joints.box_joints import box_joint
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.dovetails.through_dovetail import KIND
from joinery_templates.joints.gauge import nearest_setting
from joinery_templates.joints.kind import Request
from joinery_templates.joints.tool_fit import (
    chisel_for,
    space_sorts,
    tool_table,
    with_tool_advice,
)
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.cut import BoardEnd, Cut
from tests.joints import worked
from tests.joints.strategies import dovetail, example_request

SOUND: dict[str, object] = {"slope": "1:6", "tails": 4, "half_pin": "8 mm", "pin": "6 mm"}
"""On 140 mm with boards of 18 mm: tails (140 - 16 - 18) / 4 = 26.5, lean 18 / 6 = 3."""


def mm(*figures: str) -> tuple[Fraction, ...]:
    return tuple(Fraction(figure) for figure in figures)


def request(changes: dict[str, object]) -> Request:
    return dovetail("140 mm", **(SOUND | changes))


def spaces(**changes: object) -> list[tuple[str, Fraction, Fraction]]:
    joint = KIND.build(request(changes))
    return [(c.what, c.narrowest, c.widest) for c in joint.clearings]


def box(width: str, **raw: object) -> Joint:
    names = "side", "side"
    return box_joint.KIND.build(
        worked.request(box_joint.KIND, width, ("12", "12"), names=names, **raw)
    )


# What there is to be cleared


def test_a_dovetail_states_the_space_for_a_pin_and_the_socket_for_a_tail():
    """6 widens by twice 3; the socket is a tail that narrows from 26.5 by twice 3."""
    assert spaces() == [
        ("tail board, space for a pin", 6, 12),
        ("pin board, socket for a tail", Fraction("20.5"), Fraction("26.5")),
    ]


def test_tails_that_stand_proud_have_come_in_where_they_enter_the_pin_board():
    """Depth 18.6, so 3.1 at the baseline, and 0.1 at the pin board's outside face."""
    assert spaces(tails_proud="0.6 mm") == [
        ("tail board, space for a pin", 6, Fraction("12.2")),
        ("pin board, socket for a tail", Fraction("20.3"), Fraction("26.3")),
    ]


def test_the_fit_widens_the_sockets_and_not_the_spaces_between_the_tails():
    """7 in 24 (to 25): 0.24 square to a side is 0.25 across; a side leans 18 * 7 / 24 = 5.25."""
    pins, sockets = spaces(slope="7:24", fit="0.24 mm", tails=2)
    assert pins[1] == 6
    tail = Fraction(140 - 16 - 6, 2)
    assert sockets[1:] == (tail - Fraction("10.5") + Fraction("0.5"), tail + Fraction("0.5"))


def test_half_tails_at_the_edges_are_sawn_off_and_need_no_chisel():
    found = spaces(start="half-tail", half_pin=None, half_tail="20 mm", tails=3)
    assert [what for what, *_ in found] == [
        "tail board, space for a pin",
        "pin board, socket for a tail",
    ]


def test_tails_that_differ_make_sockets_that_differ():
    found = spaces(half_pin=None, pin=None, tails=None, spacing={"style": "graded", "ratio": 2})
    sockets = [narrow for what, narrow, _ in found if what.startswith("pin board")]
    assert len(sockets) > 1
    assert sockets == sorted(set(sockets))


def test_a_box_joint_states_the_spaces_between_two_fingers():
    """108 / 9 = 12; the second board's are wider by the fit at either side."""
    joint = box("108", fingers=9, fit="0.1 mm")
    assert [(c.what, c.narrowest, c.widest) for c in joint.clearings] == [
        ("first board, space for a finger", 12, 12),
        ("second board, space for a finger", Fraction("12.2"), Fraction("12.2")),
    ]
    assert box("24", fingers=2).clearings == ()


def across(cut: Cut, end: BoardEnd) -> Iterator[Fraction]:
    """Widths of a piece of waste at the corners of its depth, where both sides are sawn."""
    flat = [h for h in cut.half_spaces if not h.normal[0]]
    sides = [h for h in cut.half_spaces if h.normal[0]]
    ys = {Fraction(0), end.reach, *(h.limit / h.normal[1] for h in flat if h.normal[1])}
    zs = {Fraction(0), end.board.thickness, *(h.limit / h.normal[2] for h in flat if h.normal[2])}
    for y, z in product(ys, zs):
        if all(h.contains((Fraction(0), y, z)) for h in flat) and y >= 0 and z >= 0:
            lows, highs = [], []
            for h in sides:
                at = (h.limit - h.normal[1] * y - h.normal[2] * z) / h.normal[0]
                (highs if h.normal[0] > 0 else lows).append(at)
            if lows and highs:
                yield min(highs) - max(lows)


SQUARE = (
    "through-dovetail",
    "lapped-dovetail",
    "double-lapped-dovetail",
    "mitred-shoulder-dovetail",
    "full-blind-dovetail",
    "box-joint",
)
"""Kinds whose spaces run along the board, so that a width is a width across it."""


@pytest.mark.parametrize("name", SQUARE)
def test_what_a_joint_states_is_found_in_its_wood(name):
    """Both widths of every clearing are those of a piece of waste, measured on its half-spaces."""
    kind = kinds()[name]
    joint = kind.build(example_request(kind))
    measured = set()
    for member in joint.all_members:
        for cut in member.part.cuts:
            widths = list(across(cut, member.part))
            if widths:
                measured.add((min(widths), max(widths)))
    stated = {(c.narrowest, c.widest) for c in joint.clearings}
    assert stated
    assert stated <= measured
    if name in {"through-dovetail", "lapped-dovetail", "box-joint"}:
        assert stated == measured


@pytest.mark.parametrize("kind", kinds().values(), ids=list(kinds()))
def test_a_clearing_has_room_and_names_what_would_widen_it(kind):
    joint = kind.build(example_request(kind))
    for clearing in joint.clearings:
        assert 0 < clearing.narrowest <= clearing.widest
        assert clearing.parameter in {parameter.name for parameter in kind.parameters}


# Chisels


widths = st.fractions(min_value="1/10", max_value=60, max_denominator=64)
clearings = st.builds(
    lambda what, narrow, more: Clearing(what, narrow, narrow + more, "pin"),
    st.sampled_from(["space", "socket"]),
    widths,
    st.fractions(min_value=0, max_value=9, max_denominator=8),
)


@given(clearings, st.lists(widths, max_size=8).map(tuple))
def test_the_chisel_is_the_widest_owned_that_passes_the_narrowest_place(space, owned):
    """Just as wide, between parallel sides, is a chisel only for whom has no narrower."""
    chosen = chisel_for(space, owned)
    passing = [one for one in owned if one <= space.narrowest]
    if space.narrowest == space.widest:
        # Two saw cuts of half a millimetre, the thinnest that there are.
        passing = [one for one in passing if one < space.narrowest - 1] or passing
    if chosen is None:
        assert not passing
    else:
        assert chosen in passing
        assert not [one for one in passing if one > chosen]


@given(st.lists(clearings, max_size=8).map(tuple), st.lists(widths, max_size=6).map(tuple))
def test_every_space_stands_in_the_one_line_of_its_name_and_chisel(spaces, owned):
    lines = space_sorts(spaces, owned)
    assert len({(line.what, line.chisel) for line in lines}) == len(lines)
    for space in spaces:
        (line,) = (
            one for one in lines if (one.what, one.chisel) == (space.what, chisel_for(space, owned))
        )
        assert line.narrowest <= space.narrowest <= line.widest
    for line in lines:
        ends = {space.narrowest for space in spaces if space.what == line.what}
        assert {line.narrowest, line.widest} <= ends
    # Spaces of one name stand together, the narrowest first.
    for before, after in pairwise(lines):
        assert before.what != after.what or before.widest < after.narrowest
    assert len(list(groupby(lines, lambda line: line.what))) == len({one.what for one in spaces})


def test_a_chisel_as_wide_as_the_narrow_side_still_passes():
    space = Clearing("space", Fraction(6), Fraction(12), "pin")
    assert chisel_for(space, mm("3", "6", "10")) == 6
    assert chisel_for(space, mm("10", "3")) == 3
    assert chisel_for(space, mm("6.1")) is None


def test_between_parallel_saw_cuts_the_chisel_is_a_little_narrower():
    """Common practice, no source: 32 in 32 would stand on both cuts; a mortise is chopped by it."""
    notch = Clearing("notch", Fraction(32), Fraction(32), "")
    mortise = replace(notch, what="mortise", sawn=False)
    owned = mm("20", "32", "40")
    assert (chisel_for(notch, owned), chisel_for(mortise, owned)) == (20, 32)
    assert chisel_for(notch, mm("32")) == 32
    # Cuts of 0.6 leave 30.8.
    assert [chisel_for(notch, mm("30", "30.8", "31"), Fraction(k, 10)) for k in (0, 6)] == [31, 30]
    told = replace(KIND.build(request({})), clearings=(notch, mortise))
    for kerf, widest in ((None, 30), (Fraction(6, 10), 30)):
        rows = tool_table(told, Tools(kerf=kerf), Units.MM)[1]
        most = [f"chisel of {widest} mm at most", "chisel of 32 mm at most"]
        assert [chisel for _, chisel in rows[:2]] == most


def advice_on(tools: Tools, units: Units = Units.MM, **changes: object) -> dict[str, str]:
    before = KIND.build(request(changes))
    found = with_tool_advice(before, tools, units).findings[len(before.findings) :]
    assert all(f.level is Level.ADVICE and f.source and f.remedy for f in found)
    return {finding.code: finding.told() for finding in found}


def test_where_no_chisel_fits_it_is_told_which_width_would():
    """A pin of 2.8: owned from 3 up; the next whole millimetre below is 2."""
    told = advice_on(Tools(chisels=mm("6", "3")), pin="2.8 mm")
    assert list(told) == ["no-chisel-fits"]
    words = told["no-chisel-fits"]
    assert "tail board, space for a pin, 2.8 mm at its narrowest; your narrowest is 3 mm" in words
    assert "Make it 3 mm wide there, use a chisel of 2 mm, or" in words
    assert words.startswith("pin: ")
    assert advice_on(Tools(chisels=mm("6", "3")), pin="3 mm") == {}


def test_in_inches_the_width_is_a_sixteenth_and_below_that_there_is_none():
    owned = Tools(chisels=(INCH / 4,))
    assert "a chisel of 3/16 in" in advice_on(owned, Units.INCH)["no-chisel-fits"]
    words = advice_on(Tools(chisels=mm("3")), pin="0.9 mm")["no-chisel-fits"]
    assert "use a chisel" not in words
    assert "fret saw" in words


def test_who_wants_pins_that_small_is_not_told_that_no_chisel_fits():
    owned = mm("6")
    assert advice_on(Tools(chisels=owned, smallest_pin=Fraction(4)), pin="4 mm") == {}
    assert "no-chisel-fits" in advice_on(Tools(chisels=owned, smallest_pin=Fraction(4)), pin="3 mm")


def test_without_tools_nothing_is_told():
    assert advice_on(Tools(), pin="0.7 mm") == {}


# The saw


@pytest.mark.parametrize(
    ("pin", "codes"),
    [
        ("1 mm", []),
        ("0.99 mm", ["space-below-two-cuts"]),
        ("0.5 mm", ["space-below-two-cuts"]),
        ("0.49 mm", ["space-below-kerf"]),
    ],
)
def test_two_saw_cuts_must_fit_into_the_narrowest_space(pin, codes):
    assert list(advice_on(Tools(kerf=Fraction(1, 2)), pin=pin)) == codes


def test_what_two_cuts_leave_is_worked_out_on_the_narrowest_space():
    spaces = (
        Clearing("a", Fraction(6), Fraction(9), ""),
        Clearing("b", Fraction(3), Fraction(9), ""),
    )
    joint = replace(KIND.build(request({})), clearings=spaces)
    *_, (words, left) = tool_table(joint, Tools(kerf=Fraction(1, 2)), Units.MM)[1]
    assert (words[0], left) == ("b", "2 mm")


# The gauge


def test_a_setting_between_two_steps_is_told_with_the_nearest():
    """Baselines at 18 + 0.3 and 18 + 0.5; of these only the first is no multiple of a half."""
    told = advice_on(Tools(gauge=Fraction(1, 2)), tails_proud="0.3 mm", pins_proud="0.5 mm")
    assert list(told) == ["gauge-between-steps"]
    assert "steps of 0.5 mm and has no setting for 18.3 mm (nearest 18.5 mm)." in told.popitem()[1]


def test_dividers_are_no_gauge():
    """They are set to (140 - 16 + 6) / 4 = 32.5, which is no multiple of 3; 18 is one."""
    assert advice_on(Tools(gauge=Fraction(3))) == {}


@given(widths, st.fractions(min_value="1/64", max_value=10, max_denominator=64))
def test_the_nearest_setting_is_a_step_and_no_other_is_nearer(length, step):
    nearest = nearest_setting(length, step)
    assert nearest > 0
    assert (nearest / step).denominator == 1
    others = [nearest - step, nearest + step]
    assert all(abs(length - nearest) <= abs(length - one) for one in others if one > 0)


# On the bench page


def test_the_bench_page_says_which_chisel_clears_what_and_what_the_saw_leaves():
    joint = KIND.build(request({}))
    tools = Tools(chisels=mm("3", "18"), kerf=Fraction(1, 2))
    heading, rows = tool_table(joint, tools, Units.MM)
    assert heading == "Widest chisel for each space"
    assert rows == (
        ("tail board, space for a pin, 6 mm at the narrowest", "chisel of 3 mm"),
        ("pin board, socket for a tail, 20.5 mm at the narrowest", "chisel of 18 mm"),
        ("chosen from those that the job names", "3 mm, 18 mm"),
        (
            "tail board, space for a pin: waste left at the narrowest by two saw cuts of 0.5 mm",
            "5 mm",
        ),
    )


def test_it_says_where_no_chisel_clears_and_where_the_cuts_meet():
    joint = KIND.build(request({"pin": "1 mm"}))
    space, _, _, cuts = tool_table(joint, Tools(chisels=mm("3"), kerf=Fraction(1, 2)), Units.MM)[1]
    assert space[1] == "no chisel of yours"
    assert cuts[1] == "nothing: they meet"


def test_where_no_chisels_are_told_it_says_the_widest_that_goes_in():
    """Sockets of 20.5 mm and spaces of 6 mm: chisels are sold in whole mm, or sixteenths."""
    joint = KIND.build(request({}))
    heading, rows = tool_table(joint, Tools(), Units.MM)
    assert heading.endswith("or your next narrower one")
    assert [chisel for _, chisel in rows] == ["chisel of 6 mm at most", "chisel of 20 mm at most"]
    # 6 mm is 0.236 in, 20.5 mm is 0.807 in: 3/16 is 0.1875 and 13/16 is 0.8125.
    _, rows = tool_table(joint, Tools(), Units.INCH)
    assert [chisel for _, chisel in rows] == [
        "chisel of 3/16 in at most",
        "chisel of 3/4 in at most",
    ]
    _, (space, _) = tool_table(KIND.build(request({"pin": "0.8 mm"})), Tools(), Units.MM)
    assert space[1] == "no chisel: a fret saw"


def test_it_says_what_the_saw_leaves_only_where_its_cut_is_known():
    joint = KIND.build(request({}))
    assert len(tool_table(joint, Tools(kerf=Fraction(1, 2)), Units.MM)[1]) == 3
    assert len(tool_table(joint, Tools(chisels=mm("3")), Units.MM)[1]) == 3
    none_to_clear = box("24", fingers=2)
    assert tool_table(none_to_clear, Tools(chisels=mm("3"), kerf=Fraction(1, 2)), Units.MM)[1] == ()
