"""Dovetails with laps or mitres as solids: they mate, hide what they should, and faults are seen.

Every kind here is drawn at random as whole widths, so that nothing is proposed or rounded.
"""

from collections.abc import Callable
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import Cut, at_least, at_most
from joinery_templates.wood.faces import lay_out
from tests.joints.solids import CLOSE_MM3, SHY_MM, board_solid, convex, mate, with_fault
from tests.joints.strategies import GAPS, NO_FIT, PRESSED, PROUD, SLOPES, example_request, lengths
from tests.strategies import SOLID_PROPERTY

Strategy = st.SearchStrategy[Request]
Dressing = Callable[[st.DrawFn, Fraction, Fraction], dict[str, Fraction | str]]
"""Parameters of a kind's own from the thickness of the tail board and of the pin board."""


def share(draw: st.DrawFn, thickness: Fraction) -> Fraction:
    """From a tenth to six tenths of a board."""
    return thickness * draw(st.integers(1, 6)) / 10


def lapped(draw: st.DrawFn, _: Fraction, pins: Fraction) -> dict[str, Fraction | str]:
    return {"lap": share(draw, pins), "pins_proud": draw(PROUD)}


def double_lapped(draw: st.DrawFn, tails: Fraction, pins: Fraction) -> dict[str, Fraction | str]:
    return {"lap": share(draw, pins), "tail_lap": share(draw, tails)}


def mitred_shoulder(draw: st.DrawFn, *_: Fraction) -> dict[str, Fraction | str]:
    return {
        "mitre": draw(lengths(1, 12)),
        "mitred_edge": draw(st.sampled_from(["reference", "far", "both"])),
        "tails_proud": draw(PROUD),
        "pins_proud": draw(PROUD),
    }


def full_blind(draw: st.DrawFn, tails: Fraction, pins: Fraction) -> dict[str, Fraction | str]:
    return {"mitre": draw(lengths(1, 12)), "lap": share(draw, min(tails, pins))}


DRESSINGS: dict[str, Dressing] = {
    "lapped-dovetail": lapped,
    "double-lapped-dovetail": double_lapped,
    "mitred-shoulder-dovetail": mitred_shoulder,
    "full-blind-dovetail": full_blind,
}
"""For each kind the parameters of its own."""
HIDDEN = {
    "lapped-dovetail": (1,),
    "double-lapped-dovetail": (0, 1),
    "mitred-shoulder-dovetail": (),
    "full-blind-dovetail": (0, 1),
}
"""Members on whose outside face nothing may show."""


@st.composite
def corners(draw: st.DrawFn, name: str, fits: st.SearchStrategy[Fraction] = NO_FIT) -> Request:
    """Layouts of a kind that can be cut, with half pins."""
    kind = kinds()[name]
    slope, fit = draw(SLOPES), draw(fits)
    tail_thickness, pin_thickness = draw(lengths(8, 30)), draw(lengths(8, 30))
    own = DRESSINGS[name](draw, tail_thickness, pin_thickness)
    lean = (pin_thickness + 2) * slope  # at least as much as any of these tails comes in
    pin, tail = draw(lengths(2, 12)), draw(lengths(2, 30)) + 2 * lean
    count = draw(st.integers(1, 5))
    first, last = draw(lengths(2, 15)), draw(lengths(2, 15))
    edges = own.get("mitre", Fraction(0))
    mitred = {"reference": 1, "far": 1}.get(str(own.get("mitred_edge")), 2)
    width = first + last + count * tail + (count - 1) * pin + mitred * Fraction(edges)
    given_ = kind.parameter_class(
        tails=count, half_pin=first, half_pin_far=last, pin=pin, slope=slope, fit=fit, **own
    )
    boards = (Board("side", width, tail_thickness), Board("front", width, pin_thickness))
    return Request(boards, given_, Units.MM, Tools())


def built(name: str, request: Request) -> Joint:
    return kinds()[name].build(request)


def dovetailed(joint: Joint) -> tuple[Fraction, Fraction]:
    """How deep the sloping sides are in the tail board and in the pin board."""
    tails, pins = (member.part.board.thickness for member in joint.members)
    laps = {0: Fraction(0), 1: Fraction(0)} | {
        member: size.length
        for size in joint.sizes
        for member, board in enumerate(("tail board", "pin board"))
        if size.name.startswith("lap") and (board in size.name or "both boards" in size.name)
    }
    return tails - laps[0], pins - laps[1]


def sloping_planes(cut: Cut) -> int:
    return sum(bool(h.normal[0]) and any(h.normal[1:]) for h in cut.half_spaces)


def sloping_sides(joint: Joint) -> int:
    return sum("tail" in mark.what for mark in joint.main_row.marks)


every_kind = pytest.mark.parametrize("name", DRESSINGS)
own_kinds = pytest.mark.parametrize("kind", [kinds()[name] for name in DRESSINGS], ids=DRESSINGS)


@every_kind
@SOLID_PROPERTY
@given(st.data())
def test_the_boards_fill_the_corner_and_do_not_overlap(name, data):
    mated = mate(built(name, data.draw(corners(name))))
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3


@every_kind
@SOLID_PROPERTY
@given(st.data())
def test_a_clearance_is_missing_at_every_sloping_side_and_nowhere_else(name, data):
    joint = built(name, data.draw(corners(name, GAPS)))
    mated = mate(joint)
    wide, long = (float(depth) for depth in dovetailed(joint))
    slope, gap = float(joint.slopes[0].slope), float(joint.allowance)
    volume = sloping_sides(joint) * gap * wide * long * sqrt(1 + slope**2)
    assert mated.overlap < CLOSE_MM3
    # The corner's own outer faces are left out by a hair: where a side meets them, so is the gap.
    rim = 2 * float(SHY_MM) * (1 / wide + 1 / long)
    assert volume * (1 - rim) - CLOSE_MM3 < mated.missing < volume + CLOSE_MM3


@every_kind
@SOLID_PROPERTY
@given(st.data())
def test_a_negative_fit_overlaps_at_every_sloping_side_and_nowhere_else(name, data):
    joint = built(name, data.draw(corners(name, PRESSED)))
    mated = mate(joint)
    wide, long = (float(depth) for depth in dovetailed(joint))
    slope, pressed = float(joint.slopes[0].slope), -float(joint.allowance)
    volume = sloping_sides(joint) * pressed * wide * long * sqrt(1 + slope**2)
    assert mated.clash == pytest.approx(volume, rel=1e-6, abs=CLOSE_MM3)
    assert abs(mated.missing) < CLOSE_MM3


@every_kind
@SOLID_PROPERTY
@given(st.data())
def test_nothing_shows_on_the_outside_faces_that_a_kind_hides(name, data):
    joint = built(name, data.draw(corners(name, NO_FIT | GAPS | PRESSED)))
    for number in HIDDEN[name]:
        end = joint.members[number].part
        outside = lay_out(end, Face.OUTSIDE, end.reach + 10)
        assert outside.waste == ()
        assert outside.lines == ()
        # A skin of the face, by the solid: all of it is wood.
        skin = Fraction(1, 100)
        solid = convex((at_most(2, skin), at_least(1, skin)), board_solid(end))
        whole = float(end.board.width * (end.reach + 10 - skin) * skin)
        assert solid.volume() == pytest.approx(whole, rel=1e-6)


@own_kinds
@pytest.mark.parametrize("member", [0, 1], ids=["tail board", "pin board"])
@pytest.mark.parametrize("distance", ["0.2", "-0.2", "0.001"])
def test_the_check_sees_a_socket_out_of_place(kind: Kind, member, distance):
    joint = kind.build(example_request(kind))
    cuts = joint.members[member].part.cuts
    number, sides = max(enumerate(map(sloping_planes, cuts)), key=lambda counted: counted[1])
    faulty = mate(with_fault(joint, member, Fraction(distance), number))
    wide, long = (float(depth) for depth in dovetailed(joint))
    assert sides == 2
    # One side rubs by the shift and the other gapes by it.
    volume = abs(float(Fraction(distance))) * wide * long
    assert faulty.clash == pytest.approx(volume, rel=1e-3, abs=CLOSE_MM3)
    assert faulty.missing == pytest.approx(volume, rel=2e-3, abs=CLOSE_MM3)


def with_planes_moved(joint: Joint, member: int, normal: tuple[int, ...], by: str) -> Joint:
    """Every plane of one board's cuts that faces one way moved: a known fault."""
    end = joint.members[member].part
    moved = tuple(
        replace(
            cut,
            half_spaces=tuple(
                replace(h, limit=h.limit + Fraction(by)) if h.normal == normal else h
                for h in cut.half_spaces
            ),
        )
        for cut in end.cuts
    )
    members = list(joint.members)
    members[member] = replace(members[member], part=replace(end, cuts=moved))
    return replace(joint, members=(members[0], members[1]))


@own_kinds
@pytest.mark.parametrize("member", [0, 1], ids=["tail board", "pin board"])
def test_the_check_sees_baselines_that_stop_short(kind: Kind, member):
    joint = kind.build(example_request(kind))
    assert mate(with_planes_moved(joint, member, (0, 1, 0), "-0.1")).clash > 1


@pytest.mark.parametrize(("name", "member"), [(n, m) for n, ms in HIDDEN.items() for m in ms])
@pytest.mark.parametrize("by", ["0.1", "-0.1"])
def test_the_check_sees_a_lap_line_out_of_place(name, member, by):
    joint = kinds()[name].build(example_request(kinds()[name]))
    faulty = mate(with_planes_moved(joint, member, (0, 0, -1), by))
    assert (faulty.missing if by == "0.1" else faulty.clash) > 1


@own_kinds
def test_the_boards_part_along_the_pin_board_only(kind: Kind):
    """Pulled 0.1 mm along the tail board the joint jams; lifted off the pin board it is free."""
    joint = kind.build(example_request(kind))
    mated = mate(joint)
    pulled = mated.first.translate((0, 0.1, 0))
    lifted = mated.first.translate((0, 0, -0.1))
    assert (pulled ^ mated.second).volume() > 0.1
    assert (lifted ^ mated.second).volume() < CLOSE_MM3
