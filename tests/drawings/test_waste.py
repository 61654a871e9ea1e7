"""Hatching stays in the waste; prick points stand at every line's end."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from joinery_templates.drawings.face_view import Lie, drawn_face
from joinery_templates.drawings.figure import Figure, Role
from joinery_templates.drawings.look import PENS
from joinery_templates.drawings.waste import hatched
from joinery_templates.exact import Fraction
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Surface, at_least, at_most
from joinery_templates.wood.faces import lay_out
from tests.strategies import PROPERTY

lengths = st.fractions(min_value=1, max_value=60, max_denominator=64)
places = st.fractions(min_value=-100, max_value=100, max_denominator=64)


@st.composite
def trapezia(draw) -> tuple[tuple[Fraction, Fraction], ...]:
    """Waste as it occurs: a level end and baseline, and two sides that may lean."""
    left, low, wide, high = draw(places), draw(places), draw(lengths), draw(lengths)
    lean = draw(st.fractions(min_value=0, max_value="2/5", max_denominator=32)) * wide
    return (
        (left, low),
        (left + wide, low),
        (left + wide - lean, low + high),
        (left + lean, low + high),
    )


def inside(stroke, corners) -> bool:
    waste = Polygon([(float(x), float(y)) for x, y in corners]).buffer(1e-6)
    drawn = LineString([tuple(map(float, stroke.start)), tuple(map(float, stroke.end))])
    return waste.covers(drawn)


both_kinds = pytest.mark.parametrize("stops", [False, True])


@both_kinds
@PROPERTY
@given(corners=trapezia())
def test_hatching_stays_in_the_waste_and_tells_its_kind(stops, corners):
    for stroke in hatched(corners, stops):
        assert stroke.role is (Role.OPEN_HATCH if stops else Role.HATCH)
        assert inside(stroke, corners)


SQUARE = tuple((Fraction(x), Fraction(y)) for x, y in ((0, 0), (5, 0), (5, 5), (0, 5)))


def test_hatching_by_hand():
    """A square of 5 at the zero: lines y = x / 2 + 2.5 k that meet it for k = 0 and 1.

    The offsets run from -2.5 (one corner only, no line) to 5 (one corner only). The open ones
    fall: y = 2.5 k - x / 2, for k = 1 and 2.
    """
    close, opened = (
        {(stroke.start, stroke.end) for stroke in hatched(SQUARE, stops)} for stops in (False, True)
    )
    half = Fraction(5, 2)
    assert close == {((0, 0), (5, half)), ((0, half), (5, 5))}
    assert opened == {((0, half), (5, 0)), ((0, 5), (5, half))}


def test_hatching_of_neighbours_is_on_one_grid():
    """Two halves of a square are hatched where the whole is."""

    def square(left, right):
        return tuple(
            (Fraction(x), Fraction(y)) for x, y in ((left, 0), (right, 0), (right, 20), (left, 20))
        )

    def offsets(corners):
        return {stroke.start[1] - stroke.start[0] / 2 for stroke in hatched(corners, stops=False)}

    assert offsets(square(0, 10)) | offsets(square(10, 20)) == offsets(square(0, 20))


def test_a_hatch_line_that_runs_out_of_the_waste_is_seen_to():
    strokes = Figure(Fraction(20), Fraction(20), tuple(hatched(SQUARE, stops=False)))
    stroke = strokes.moved(Fraction(1, 100), Fraction(0)).strokes[0]
    assert not inside(stroke, SQUARE)


def test_the_two_hatchings_are_told_apart_in_black_and_white():
    """Full lines one way, dashed lines the other.

    A dash of 12 and a gap of 18 line widths is a spaced dashed line (ISO 128-2, from memory).
    """
    close, opened = PENS[Role.HATCH], PENS[Role.OPEN_HATCH]
    assert not close.dash
    dash, gap = opened.dash
    assert dash == pytest.approx(12 * opened.width, rel=0.05)
    assert gap == pytest.approx(18 * opened.width, rel=0.05)


def test_three_pens_draw_all_and_each_is_twice_as_wide_as_the_one_before():
    """ISO 128-2, from memory: 0.18, 0.35 and 0.7 mm are of its row, in steps of the root of 2."""
    roles = (Role.OUTLINE, Role.SAW, Role.KNIFE)
    assert {pen.width for pen in PENS.values()} == {PENS[role].width for role in roles}
    assert [PENS[role].width for role in roles] == [0.18, 0.35, 0.7]
    assert not any(PENS[role].dash for role in roles)


def test_no_two_lines_are_dashed_alike():
    dashes = [pen.dash for pen in PENS.values() if pen.dash]
    assert len(set(dashes)) == len(dashes)


def one_gap() -> BoardEnd:
    """A space for a pin in a board 40 x 10: from 15 to 25 at the end, 12 to 28 at 18 deep."""
    one, zero, sixth = Fraction(1), Fraction(0), Fraction(1, 6)
    sides = (
        HalfSpace((-one, -sixth, zero), Fraction(-15)),
        HalfSpace((one, -sixth, zero), Fraction(25)),
    )
    cut = Cut((*sides, at_most(1, Fraction(18), Surface.SHOULDER)))
    return BoardEnd(Board("b", Fraction(40), Fraction(10)), (cut,), Fraction(18))


@pytest.mark.parametrize("sign", [1, -1])
def test_the_lines_of_a_gap_end_in_prick_points(sign):
    lie = Lie(Fraction(50), sign, Fraction(100), -1)
    strokes = drawn_face(lay_out(one_gap(), Face.OUTSIDE, Fraction(30)), lie)
    ends = {(50 + sign * x, Fraction(100 - y)) for x, y in ((15, 0), (12, 18), (28, 18), (25, 0))}
    layout = [stroke for stroke in strokes if stroke.role in (Role.SAW, Role.KNIFE)]
    assert {end for stroke in layout for end in (stroke.start, stroke.end)} == ends
    assert [stroke.role for stroke in layout].count(Role.KNIFE) == 1
    pricks = [stroke for stroke in strokes if stroke.role is Role.PRICK]
    dots = [p for p in pricks if p.start[0] == p.end[0]]
    middles = [(p.start[0], (p.start[1] + p.end[1]) / 2) for p in dots]
    assert len(middles) == 4
    assert set(middles) == ends
    # Round each of them six sides, whose corners lie 0.7 off.
    for x, y in middles:
        reach = [math.hypot(p.start[0] - x, p.start[1] - y) for p in pricks if p not in dots]
        near = [far for far in reach if far < 1]
        assert near == pytest.approx([0.7] * 6, abs=0.01)


def test_waste_that_does_not_reach_a_face_leaves_it_empty():
    """A housing from 4 mm behind the outside face on is not seen there."""
    cut = Cut((at_least(2, Fraction(4)), at_most(1, Fraction(9), Surface.SHOULDER)))
    end = BoardEnd(Board("b", Fraction(40), Fraction(10)), (cut,), Fraction(9))
    lie = Lie(Fraction(0), 1, Fraction(0), 1)
    assert drawn_face(lay_out(end, Face.OUTSIDE, Fraction(30)), lie) == ()
    assert drawn_face(lay_out(end, Face.INSIDE, Fraction(30)), lie) != ()
