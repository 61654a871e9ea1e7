"""Half-spaces, clipping and placement: hand-worked values and exact properties."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.exact import Fraction
from joinery_templates.wood.board import Hand
from joinery_templates.wood.cut import HalfSpace, Surface, at_least, at_most, dot
from joinery_templates.wood.placement import Placement, end_to_end
from joinery_templates.wood.polygons import HalfPlane, rectangle
from tests.strategies import PROPERTY, SIXTY_FOURTHS

VECTORS = st.tuples(SIXTY_FOURTHS, SIXTY_FOURTHS, SIXTY_FOURTHS)
HALF_SPACES = st.builds(HalfSpace, VECTORS.filter(any), SIXTY_FOURTHS)
PLACEMENTS = st.builds(end_to_end, SIXTY_FOURTHS)


def vector(*parts: int) -> tuple[Fraction, Fraction, Fraction]:
    x, y, z = map(Fraction, parts)
    return x, y, z


def test_a_half_space_holds_its_boundary():
    half = at_most(1, Fraction(18))
    assert half.contains(vector(5, 18, 2))
    assert not half.contains((Fraction(5), Fraction("18.001"), Fraction(2)))
    assert at_least(1, Fraction(18)).contains(vector(5, 18, 2))
    assert not at_least(1, Fraction(18)).contains(vector(5, 17, 2))


def test_a_half_space_is_moved_in_millimetres_along_its_normal():
    # 3 x + 4 y <= 10: its normal has length 5, so 2 mm further is a limit of 20.
    half = HalfSpace(vector(3, 4, 0), Fraction(10), Surface.SHOULDER)
    assert half.moved(Fraction(2)) == HalfSpace(vector(3, 4, 0), Fraction(20), Surface.SHOULDER)
    assert half.moved(Fraction(-2)).limit == 0
    assert half.moved(Fraction(0)) is half


@PROPERTY
@given(HALF_SPACES, VECTORS)
def test_every_point_is_on_one_side_or_the_other_and_on_both_only_at_the_boundary(half, point):
    at_boundary = dot(half.normal, point) == half.limit
    assert half.contains(point) or half.turned().contains(point)
    assert (half.contains(point) and half.turned().contains(point)) == at_boundary
    assert half.turned().turned() == half


@PROPERTY
@given(PLACEMENTS, HALF_SPACES, VECTORS)
def test_a_half_space_carried_over_holds_the_points_carried_over(placement, half, point):
    assert placement.half_space(half).contains(placement.point(point)) == half.contains(point)


@PROPERTY
@given(PLACEMENTS, VECTORS)
def test_there_and_back_is_the_same_place(placement, point):
    assert placement.reversed().point(placement.point(point)) == point
    assert placement.reversed().reversed() == placement


def test_a_reversed_placement_undoes_a_turn_too():
    # A quarter turn about x, which is not its own inverse as the corner's swap is.
    turn = Placement((vector(1, 0, 0), vector(0, 0, -1), vector(0, 1, 0)), vector(2, 3, 4))
    assert turn.point(vector(5, 6, 7)) == (7, -4, 10)
    assert turn.reversed().point(vector(7, -4, 10)) == (5, 6, 7)


def test_a_corner_puts_the_second_boards_end_into_the_first_boards_outside_face():
    corner = end_to_end(Fraction("0.3"))
    # The second board's outside face lies 0.3 below the first board's end, and its own end in the
    # first board's outside face.
    assert corner.point(vector(7, 20, 0)) == (7, Fraction("0.3"), 20)
    assert corner.point(vector(7, 0, 5)) == (7, Fraction("5.3"), 0)


def test_a_board_has_two_hands():
    assert (Hand.LEFT.other, Hand.RIGHT.other) == (Hand.RIGHT, Hand.LEFT)


PLANES = st.builds(HalfPlane, SIXTY_FOURTHS, SIXTY_FOURTHS, SIXTY_FOURTHS).filter(
    lambda plane: plane.a or plane.b
)


def area(shape):
    """By the shoelace formula."""
    return abs(sum(e.start[0] * e.end[1] - e.end[0] * e.start[1] for e in shape.edges)) / 2


@PROPERTY
@given(st.lists(PLANES, max_size=5))
def test_a_clipped_face_is_a_closed_ring_inside_every_plane(planes):
    shape = rectangle(Fraction(30), Fraction(20))
    for plane in planes:
        clipped = shape.clipped(plane)
        if clipped is None:
            return
        rest = shape.clipped(HalfPlane(-plane.a, -plane.b, -plane.limit))
        assert area(clipped) + (area(rest) if rest else 0) == area(shape)
        assert area(clipped) > 0
        shape = clipped
    following = shape.edges[1:] + shape.edges[:1]
    assert all(edge.end == after.start for edge, after in zip(shape.edges, following, strict=True))
    assert all(plane.excess(corner) <= 0 for plane in planes for corner in shape.corners)


def test_a_corner_cut_off_has_the_area_worked_by_hand():
    # x + y >= 4 leaves 30 * 20 less a triangle of 4 * 4 / 2.
    plane = HalfPlane(Fraction(-1), Fraction(-1), Fraction(-4), Surface.SIDE)
    shape = rectangle(Fraction(30), Fraction(20)).clipped(plane)
    assert shape is not None
    assert area(shape) == 592
    assert [e.surface for e in shape.edges].count(Surface.SIDE) == 1


@pytest.mark.parametrize("limit", ["0", "-1"])
def test_nothing_is_left_where_a_plane_only_touches_or_misses(limit):
    plane = HalfPlane(Fraction(1), Fraction(0), Fraction(limit))
    assert rectangle(Fraction(30), Fraction(20)).clipped(plane) is None
