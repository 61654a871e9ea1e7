"""Hatching and crosses stay in the waste; prick points stand at every line's end."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from joinery_templates.drawings.face_view import PRICK_ARM, Lie, drawn_face
from joinery_templates.drawings.figure import Role
from joinery_templates.drawings.waste import crossed, hatched
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
    lean = draw(st.fractions(min_value=0, max_value=Fraction(2, 5), max_denominator=32)) * wide
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


@PROPERTY
@given(trapezia())
def test_hatching_stays_in_the_waste(corners):
    for stroke in hatched(corners):
        assert stroke.role is Role.HATCH
        assert inside(stroke, corners)


@PROPERTY
@given(trapezia())
def test_the_cross_stays_in_the_waste_and_off_its_corners(corners):
    strokes = list(crossed(corners))
    assert len(strokes) in (2, 4, 6, 8, 10)
    for stroke in strokes:
        assert stroke.role is Role.CROSS
        assert inside(stroke, corners)
        assert stroke.start not in corners


def test_hatching_by_hand():
    """A square of 7 at the zero: lines y = x / 2 + 3.5 k that meet it for k = 0 and 1.

    The offsets run from -3.5 (one corner only, no line) to 7 (one corner only).
    """
    corners = tuple((Fraction(x), Fraction(y)) for x, y in ((0, 0), (7, 0), (7, 7), (0, 7)))
    found = {(stroke.start, stroke.end) for stroke in hatched(corners)}
    assert found == {((0, 0), (7, Fraction(7, 2))), ((0, Fraction(7, 2)), (7, 7))}


def test_the_arms_of_a_cross_in_a_triangle_run_along_none_of_its_sides():
    """From (0, 0) towards (6, 18) and from (12, 0) towards (0, 18), about the middle (4, 12)."""
    corners = tuple((Fraction(x), Fraction(y)) for x, y in ((0, 0), (12, 0), (0, 36)))
    arms = [(stroke.start, stroke.end) for stroke in crossed(corners)]
    assert arms == [
        ((Fraction("1.2"), Fraction("3.6")), (Fraction("5.4"), Fraction("16.2"))),
        ((Fraction("9.6"), Fraction("3.6")), (Fraction("1.2"), Fraction("16.2"))),
    ]


@pytest.mark.parametrize(("across", "up"), [(200, 8), (8, 200)])
def test_a_long_strip_has_a_row_of_short_crosses_along_its_middle(across, up):
    """200 by 8: five, 40 apart from 20 on, each reaching 2.8 to every side."""
    size = (Fraction(across), Fraction(up))
    corners = ((0, 0), (size[0], 0), size, (0, size[1]))
    arms = list(crossed(tuple((Fraction(x), Fraction(y)) for x, y in corners)))
    middles = [
        tuple(float(a + b) / 2 for a, b in zip(arm.start, arm.end, strict=True)) for arm in arms
    ]
    wanted = [(20 + 40 * number, 4) for number in range(5) for _ in range(2)]
    assert middles == [point if across > up else point[::-1] for point in wanted]
    reach = {abs(b - a) for arm in arms for a, b in zip(arm.start, arm.end, strict=True)}
    assert reach == {Fraction("5.6")}


def test_hatching_of_neighbours_is_on_one_grid():
    """Two halves of a square are hatched where the whole is."""

    def square(left, right):
        return tuple(
            (Fraction(x), Fraction(y)) for x, y in ((left, 0), (right, 0), (right, 20), (left, 20))
        )

    def offsets(corners):
        return {stroke.start[1] - stroke.start[0] / 2 for stroke in hatched(corners)}

    assert offsets(square(0, 10)) | offsets(square(10, 20)) == offsets(square(0, 20))


def test_a_hatch_line_that_runs_out_of_the_waste_is_seen_to():
    corners = tuple((Fraction(x), Fraction(y)) for x, y in ((0, 0), (7, 0), (7, 7), (0, 7)))
    stroke = next(hatched(corners))
    assert not inside(stroke.moved(Fraction(1, 100), Fraction(0)), corners)


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
    layout = [stroke for stroke in strokes if stroke.role in (Role.SAW, Role.BASELINE)]
    assert {end for stroke in layout for end in (stroke.start, stroke.end)} == ends
    assert [stroke.role for stroke in layout].count(Role.BASELINE) == 1
    pricks = [stroke for stroke in strokes if stroke.role is Role.PRICK]
    middles = [((p.start[0] + p.end[0]) / 2, (p.start[1] + p.end[1]) / 2) for p in pricks]
    assert len(pricks) == 8
    assert set(middles) == ends
    assert all(abs(p.start[0] - p.end[0]) == 2 * PRICK_ARM for p in pricks)


def test_waste_that_does_not_reach_a_face_leaves_it_empty():
    """A housing from 4 mm behind the outside face on is not seen there."""
    cut = Cut((at_least(2, Fraction(4)), at_most(1, Fraction(9), Surface.SHOULDER)))
    end = BoardEnd(Board("b", Fraction(40), Fraction(10)), (cut,), Fraction(9))
    lie = Lie(Fraction(0), 1, Fraction(0), 1)
    assert drawn_face(lay_out(end, Face.OUTSIDE, Fraction(30)), lie) == ()
    assert drawn_face(lay_out(end, Face.INSIDE, Fraction(30)), lie) != ()
