"""Lines on faces against two oracles: cells of a grid, exactly, and shapely's unions."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.exact import Fraction
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Surface, at_least, at_most
from joinery_templates.wood.faces import (
    FaceLayout,
    ends_of,
    fullest_across,
    is_waste,
    lay_out,
)
from tests.strategies import PROPERTY
from tests.wood.slices import WIDTH, length_of_lines, outline_of_waste, shared_stretches

THICKNESS, LENGTH = 6, 8
AXES = {
    Face.OUTSIDE: (0, 1, 2, 0),
    Face.INSIDE: (0, 1, 2, THICKNESS),
    Face.END_GRAIN: (0, 2, 1, 0),
    Face.REFERENCE_EDGE: (2, 1, 0, 0),
    Face.FAR_EDGE: (2, 1, 0, WIDTH),
}


def board_end(*cuts: Cut) -> BoardEnd:
    board = Board("test", Fraction(WIDTH), Fraction(THICKNESS))
    return BoardEnd(board, cuts, Fraction(LENGTH - 2))


def box(x0: int, x1: int, y0: int, y1: int, z0: int, z1: int) -> Cut:
    bounds = ((0, x0, x1), (1, y0, y1), (2, z0, z1))
    return Cut(
        tuple(
            half
            for axis, low, high in bounds
            for half in (at_least(axis, Fraction(low)), at_most(axis, Fraction(high)))
        )
    )


@st.composite
def spans(draw: st.DrawFn, size: int) -> tuple[int, int]:
    low = draw(st.integers(-1, size))
    return low, draw(st.integers(low + 1, size + 1))


@st.composite
def boxes(draw: st.DrawFn) -> tuple[int, ...]:
    return (*draw(spans(WIDTH)), *draw(spans(LENGTH)), *draw(spans(THICKNESS)))


def unit_edges(layout: FaceLayout) -> list[frozenset[tuple[int, int]]]:
    """The lines of a face of whole-number boxes, cut into unit pieces; exact."""
    pieces = []
    for line in layout.lines:
        (x0, y0), (x1, y1) = line.start, line.end
        assert all(c.denominator == 1 for c in (x0, y0, x1, y1))
        steps = int(abs(x1 - x0) + abs(y1 - y0))
        assert steps > 0
        assert x0 == x1 or y0 == y1
        step = ((x1 - x0) / steps, (y1 - y0) / steps)
        for n in range(steps):
            one = (int(x0 + n * step[0]), int(y0 + n * step[1]))
            two = (int(x0 + (n + 1) * step[0]), int(y0 + (n + 1) * step[1]))
            pieces.append(frozenset((one, two)))
    return pieces


def cell_edges(sizes: list[tuple[int, ...]], face: Face) -> set[frozenset[tuple[int, int]]]:
    """Where a cell of waste lies next to a cell of wood just under the face, cell by cell."""
    first, second, third, fixed = AXES[face]
    under = Fraction(1, 2) if fixed == 0 else fixed - Fraction(1, 2)
    extents = (WIDTH, LENGTH, THICKNESS)

    def waste(column: int, row: int) -> bool:
        place = {first: column + Fraction(1, 2), second: row + Fraction(1, 2), third: under}
        return any(
            all(size[2 * axis] < place[axis] < size[2 * axis + 1] for axis in range(3))
            for size in sizes
        )

    edges = set()
    for column in range(extents[first]):
        for row in range(extents[second]):
            right, below = column + 1, row + 1
            if right < extents[first] and waste(column, row) != waste(right, row):
                edges.add(frozenset(((right, row), (right, below))))
            if below < extents[second] and waste(column, row) != waste(column, below):
                edges.add(frozenset(((column, below), (right, below))))
    return edges


@PROPERTY
@given(st.lists(boxes(), max_size=5), st.sampled_from(list(Face)))
def test_lines_of_boxes_are_the_edges_between_waste_and_wood_once_each(sizes, face):
    layout = lay_out(board_end(*(box(*size) for size in sizes)), face, Fraction(LENGTH))
    pieces = unit_edges(layout)
    assert len(pieces) == len(set(pieces))
    assert set(pieces) == cell_edges(sizes, face)


SMALL = st.integers(-3, 3).map(Fraction)


@st.composite
def wedges(draw: st.DrawFn) -> Cut:
    """Up to four half-spaces at any lean; small numbers, so that planes often coincide."""
    halves = []
    for _ in range(draw(st.integers(1, 4))):
        normal = draw(st.tuples(SMALL, SMALL, SMALL).filter(any))
        halves.append(HalfSpace(normal, Fraction(draw(st.integers(-12, 24)))))
    return Cut(tuple(halves))


@PROPERTY
@given(st.lists(wedges(), max_size=4), st.sampled_from(list(Face)))
def test_lines_of_any_cuts_are_the_boundary_of_the_union_of_waste(cuts, face):
    end = board_end(*cuts)
    layout = lay_out(end, face, Fraction(LENGTH))
    expected = outline_of_waste(end, face, Fraction(LENGTH))
    assert length_of_lines(layout) == pytest.approx(expected.length, abs=1e-9)
    assert shared_stretches(layout.lines) == 0
    strip = expected.buffer(1e-7)
    for line in layout.lines:
        for point in (line.start, line.end, line.at(Fraction(1, 3))):
            assert strip.contains_properly(_point(point))


def _point(point: tuple[Fraction, Fraction]) -> object:
    from shapely import Point

    return Point(*map(float, point))


@PROPERTY
@given(st.lists(wedges(), max_size=4), st.sampled_from(list(Face)))
def test_lines_and_waste_lie_on_their_face(cuts, face):
    layout = lay_out(board_end(*cuts), face, Fraction(LENGTH))
    points = [point for line in layout.lines for point in (line.start, line.end)]
    points += [corner for shape in layout.waste for corner in shape.corners]
    assert all(0 <= x <= layout.width and 0 <= y <= layout.height for x, y in points)
    for line in layout.lines:
        assert line.start != line.end
        for axis, extent in ((0, layout.width), (1, layout.height)):
            both = (line.start[axis], line.end[axis])
            assert both not in {(0, 0), (extent, extent)}  # not along the outline


@PROPERTY
@given(st.lists(wedges(), min_size=1, max_size=3), st.sampled_from(list(Face)))
def test_the_middle_of_each_piece_of_waste_is_waste(cuts, face):
    end = board_end(*cuts)
    first, second, third, fixed = AXES[face]
    for shape in lay_out(end, face, Fraction(LENGTH)).waste:
        place = [Fraction(0)] * 3
        count = len(shape.corners)
        place[first] = sum(x for x, _ in shape.corners) / count
        place[second] = sum(y for _, y in shape.corners) / count
        place[third] = Fraction(fixed)
        assert is_waste(end, *place)


def lines_of(*cuts: Cut, face: Face = Face.OUTSIDE) -> set[frozenset[tuple[int, int]]]:
    layout = lay_out(board_end(*cuts), face, Fraction(LENGTH))
    return {frozenset((line.start, line.end)) for line in layout.lines}


def lines(*ends: tuple[tuple[int, int], tuple[int, int]]) -> set[frozenset[tuple[int, int]]]:
    return {frozenset(pair) for pair in ends}


def test_touching_cuts_have_no_line_between_them():
    one, other = box(2, 4, -1, 3, -1, 7), box(4, 7, -1, 3, -1, 7)
    assert lines_of(one, other) == lines(
        ((2, 0), (2, 3)), ((2, 3), (4, 3)), ((4, 3), (7, 3)), ((7, 3), (7, 0))
    )


def test_overlapping_cuts_show_the_outline_of_their_union():
    one, other = box(2, 5, -1, 3, -1, 7), box(4, 7, -1, 5, -1, 7)
    assert lines_of(one, other) == lines(
        ((2, 0), (2, 3)), ((2, 3), (4, 3)), ((4, 3), (4, 5)), ((4, 5), (7, 5)), ((7, 5), (7, 0))
    )


def test_a_cut_given_twice_shows_once():
    one = box(2, 5, -1, 3, -1, 7)
    assert lines_of(one, one) == lines_of(one)
    assert len(lay_out(board_end(one, one), Face.OUTSIDE, Fraction(LENGTH)).lines) == 3


def test_a_cut_inside_another_shows_nothing_of_its_own():
    assert lines_of(box(2, 8, -1, 5, -1, 7), box(3, 4, 1, 2, -1, 7)) == lines_of(
        box(2, 8, -1, 5, -1, 7)
    )


def test_a_line_hidden_by_a_long_and_a_short_cut_shows_only_past_the_long_one():
    wide, long, short = box(1, 11, -1, 3, -1, 7), box(1, 9, 2, 5, -1, 7), box(3, 5, 2, 4, -1, 7)
    at_three = {
        (min(line)[0], max(line)[0])
        for line in lines_of(wide, long, short)
        if {y for _, y in line} == {3}
    }
    assert at_three == {(9, 11)}


def test_a_cut_across_the_whole_end_leaves_one_line():
    assert lines_of(box(-1, WIDTH + 1, -1, 3, -1, 7)) == lines(((0, 3), (WIDTH, 3)))


def test_cuts_that_meet_in_a_point_keep_all_their_lines():
    assert len(lines_of(box(2, 4, 1, 3, -1, 7), box(4, 6, 3, 5, -1, 7))) == 8


def test_half_a_lap_shows_on_one_face_and_not_on_the_other():
    lap = box(-1, WIDTH + 1, -1, 3, -1, 3)
    assert lines_of(lap) == lines(((0, 3), (WIDTH, 3)))
    assert lines_of(lap, face=Face.INSIDE) == set()
    assert lines_of(lap, face=Face.END_GRAIN) == lines(((0, 3), (WIDTH, 3)))
    assert lines_of(lap, face=Face.REFERENCE_EDGE) == lines(((3, 0), (3, 3)), ((3, 3), (0, 3)))


@pytest.mark.parametrize(
    ("cut", "face"),
    [
        (box(2, 4, -1, 3, -3, 0), Face.OUTSIDE),
        (box(2, 4, -1, 3, THICKNESS, 9), Face.INSIDE),
        (box(2, 4, -3, 0, -1, 7), Face.END_GRAIN),
        (box(-3, 0, -1, 3, -1, 7), Face.REFERENCE_EDGE),
        (box(WIDTH, 20, -1, 3, -1, 7), Face.FAR_EDGE),
    ],
)
def test_a_cut_that_only_touches_a_face_from_without_takes_no_wood_and_draws_nothing(cut, face):
    layout = lay_out(board_end(cut), face, Fraction(LENGTH))
    assert (layout.waste, layout.lines) == ((), ())


def test_lines_know_whether_they_are_a_side_or_a_shoulder():
    cut = Cut(
        (
            at_least(0, Fraction(2)),
            at_most(0, Fraction(5)),
            at_most(1, Fraction(3), Surface.SHOULDER),
        )
    )
    layout = lay_out(board_end(cut), Face.OUTSIDE, Fraction(LENGTH))
    assert [line.surface for line in layout.lines if line.start[1] == line.end[1]] == ["shoulder"]
    assert [line.surface for line in layout.lines if line.start[0] == line.end[0]] == ["side"] * 2


def test_ends_of_lines_are_named_once():
    layout = lay_out(board_end(box(2, 5, -1, 3, -1, 7)), Face.OUTSIDE, Fraction(LENGTH))
    assert sorted(ends_of(layout.lines)) == [(2, 0), (2, 3), (5, 0), (5, 3)]


@PROPERTY
@given(st.lists(st.tuples(spans(WIDTH), spans(LENGTH)), max_size=5))
def test_nowhere_across_is_more_wood_than_where_most_is_said_to_be(sizes):
    end = board_end(*(box(*across, *along, -1, THICKNESS + 1) for across, along in sizes))
    heights = [end.reach * eighths / 8 for eighths in (1, 3, 5, 7)]

    def wood(x: Fraction) -> int:
        return sum(not is_waste(end, x, y, Fraction(3)) for y in heights)

    most = max(wood(column + Fraction(1, 2)) for column in range(WIDTH))
    assert wood(fullest_across(end)) == most


def test_the_check_of_double_lines_sees_one():
    layout = lay_out(board_end(box(2, 5, -1, 3, -1, 7)), Face.OUTSIDE, Fraction(LENGTH))
    for line in layout.lines:
        half = line.part(Fraction(1, 4), Fraction(3, 4))
        assert shared_stretches((*layout.lines, half)) > 0
    assert all(shared_stretches(pair) == 0 for pair in combinations(layout.lines, 2))
