"""Visible edges of a board worked out by hand, from an eye in the direction (1, -2, -2).

From there the far edge, the end and the outside face are seen. A point is hidden where wood
lies on the way from it towards the eye: x grows by 1 while y and z fall by 2::

    x = 0      10  20      30
      +--------+    +--------+   y = 0, the end
      |        |slot|        |
      |        +----+        |   y = 9
      |                      |
      +----------------------+   y = 34, broken off
"""

import math
from itertools import combinations

import pytest

from joinery_templates.exact import Fraction
from joinery_templates.joint import Member
from joinery_templates.pictures.pieces import piece, seen_among
from joinery_templates.pictures.seen import Frame, Line
from joinery_templates.pictures.solid import Shown
from joinery_templates.pictures.stages import WorkedPiece
from joinery_templates.wood.board import Board, Hand
from joinery_templates.wood.cut import BoardEnd, Cut, at_least, at_most

THIRD = 1 / 3
FRAME = Frame(
    (
        (2 * THIRD, 2 * THIRD, -THIRD),
        (2 * THIRD, -THIRD, 2 * THIRD),
        (THIRD, -2 * THIRD, -2 * THIRD),
    )
)
SLOT = Cut((at_least(0, Fraction(10)), at_most(0, Fraction(20)), at_most(1, Fraction(9))))
W, T, E = 30, 12, 34
CLOSE = 0.02
"""A line that is asked for a hair beside itself ends a hair off, in mm."""


def lines_of(taken, waste=()):
    end = BoardEnd(Board("board", Fraction(W), Fraction(T)), (SLOT,), Fraction(9))
    made = piece(
        WorkedPiece(Member("board", end, Hand.LEFT), taken, waste), FRAME, Shown(Fraction(25))
    )
    (lines,) = seen_among([made])
    return lines


def on_paper(edge):
    return tuple(FRAME.spot(tuple(map(float, spot)))[:2] for spot in edge)


def drawn(lines, *kinds):
    return [(line.start[:2], line.end[:2]) for line in lines if line.line in kinds]


def one_line(one, other):
    """The line that two make that touch or overlap in one straight line, if they do."""
    a, b = max(combinations((*one, *other), 2), key=lambda ends: math.dist(*ends))
    long = math.dist(a, b)
    off = max(
        abs((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / long
        for x, y in (*one, *other)
    )
    is_whole = long < math.dist(*one) + math.dist(*other) + CLOSE
    return (a, b) if off < CLOSE and is_whole else None


def joined_up(found):
    """Pieces that only the contour's end divides, as one line."""
    for one, other in combinations(found, 2):
        if whole := one_line(one, other):
            return joined_up([line for line in found if line not in (one, other)] + [whole])
    return found


def is_same(one, other):
    return any(
        max(math.dist(a, b) for a, b in zip(one, way, strict=True)) < CLOSE
        for way in (other, other[::-1])
    )


def unlike(found, expected):
    """Lines that only one side has."""
    return [one for one in found if not any(is_same(one, other) for other in expected)], [
        one for one in expected if not any(is_same(one, other) for other in found)
    ]


def same(found, expected):
    assert unlike(found, [on_paper(edge) for edge in expected]) == ([], [])


INNER = [((W, 0, 0), (W, 0, T)), ((W, 0, 0), (W, E, 0)), ((0, 0, 0), (W, 0, 0))]
CONTOUR = [
    ((0, 0, 0), (0, 0, T)),
    ((0, 0, T), (W, 0, T)),
    ((W, 0, T), (W, E, T)),
    ((0, 0, 0), (0, E, 0)),
]
TORN = [((0, E, 0), (W, E, 0)), ((W, E, 0), (W, E, T))]


def test_of_a_plain_board_nine_edges_of_twelve_are_seen_and_three_lie_inside_its_contour():
    lines = lines_of(())
    same(drawn(lines, Line.EDGE), INNER)
    same(drawn(lines, Line.CONTOUR), CONTOUR)
    same(drawn(lines, Line.TORN), TORN)
    assert len(lines) == 9


def test_waste_that_is_still_in_is_drawn_on_the_three_faces_that_it_reaches():
    """Of the slot's outline only what lies on the outside face and the end is seen."""
    lines = lines_of((), (SLOT,))
    on_faces = [
        ((10, 0, 0), (10, 9, 0)),
        ((20, 0, 0), (20, 9, 0)),
        ((10, 9, 0), (20, 9, 0)),
        ((10, 0, 0), (10, 0, T)),
        ((20, 0, 0), (20, 0, T)),
    ]
    same(drawn(lines, Line.WASTE), on_faces)
    same(drawn(lines, Line.EDGE), INNER)


def test_of_a_slotted_board_each_edge_is_seen_as_far_as_it_was_worked_out():
    """The floor's edge at the back, (x, 9, 12): the board's right part hides what is on the way.

    At (x + t, 9 - 2 t, 12 - 2 t) it begins with t = 20 - x, and ends at y = 0 with t = 9/2: so
    what lies beyond x = 31/2 is hidden.
    """
    lines = lines_of((SLOT,))
    edges = [
        *TORN,
        ((W, 0, 0), (W, 0, T)),
        ((W, 0, 0), (W, E, 0)),
        ((W, 0, T), (W, E, T)),
        ((0, 0, 0), (0, E, 0)),
        ((0, 0, 0), (0, 0, T)),
        # The end and the outside face, left and right of the slot.
        ((0, 0, 0), (10, 0, 0)),
        ((20, 0, 0), (W, 0, 0)),
        ((0, 0, T), (10, 0, T)),
        ((20, 0, T), (W, 0, T)),
        # The slot's mouth on both.
        ((10, 0, 0), (10, 0, T)),
        ((20, 0, 0), (20, 0, T)),
        ((10, 0, 0), (10, 9, 0)),
        ((20, 0, 0), (20, 9, 0)),
        ((10, 9, 0), (20, 9, 0)),
        # Inside it: where wall and floor meet, and both at the back.
        ((10, 9, 0), (10, 9, T)),
        ((10, 0, T), (10, 9, T)),
        ((10, 9, T), (Fraction(31, 2), 9, T)),
    ]
    found = drawn(lines, Line.EDGE, Line.CONTOUR, Line.TORN)
    same(joined_up(found), edges)


@pytest.mark.parametrize(("to", "begins"), [(15, 15), (16, 14)], ids=["touching", "overlapping"])
def test_flats_in_one_plane_are_one_face(to, begins):
    """A slot cut as two cuts has no edge where they meet."""
    near, far, floor = SLOT.half_spaces
    halves = (
        Cut((near, at_most(0, Fraction(to)), floor)),
        Cut((at_least(0, Fraction(begins)), far, floor)),
    )
    kinds = (Line.EDGE, Line.CONTOUR, Line.TORN)
    whole = joined_up(drawn(lines_of((SLOT,)), *kinds))
    assert unlike(joined_up(drawn(lines_of(halves), *kinds)), whole) == ([], [])
