"""Grooves on a pattern: their lines break off before the label, and the word stands beside them."""

import pytest
from msgspec.structs import replace

from joinery_templates.drawings.board_patterns import single_face
from joinery_templates.drawings.figure import Align, Pattern, Role
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.trimming import HOLD
from joinery_templates.drawings.wrap import wrap
from joinery_templates.exact import Fraction
from joinery_templates.joint import Corner, Member, Placed
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Surface, at_least, at_most
from tests.drawings.test_lettering import Square

WIDTH, THICK, REACH, START = Fraction(120), Fraction(18), Fraction(18), Fraction(13)
PAPER = Fraction(1, 10)
MATE = Member("pin board", BoardEnd(Board("front", WIDTH, THICK), (), REACH), Hand.LEFT)
hands = pytest.mark.parametrize("hand", list(Hand))
sides = pytest.mark.parametrize(("low", "high"), [(10, 16), (100, 106)])


def grooved_end(low: int, high: int) -> BoardEnd:
    """A board's end with a pin's space in the middle, and a groove of 5 mm in its inside face."""
    space = Cut((at_least(0, Fraction(50)), at_most(0, Fraction(60)), at_most(1, REACH)))
    groove = Cut(
        (
            at_least(0, Fraction(low), Surface.GROOVE),
            at_most(0, Fraction(high), Surface.GROOVE),
            at_least(1, START, Surface.GROOVE),
            at_least(2, THICK - 5, Surface.GROOVE),
        )
    )
    return BoardEnd(Board("side", WIDTH, THICK), (space, groove), REACH)


def patterns(end: BoardEnd, hand: Hand) -> tuple[Pattern, Pattern]:
    placed = Placed(Member("tail board", end, hand), Corner("Corner A", False), (MATE,))
    setup = DrawingSetup(Square(), Units.MM, (Fraction(190), Fraction(270)), PAPER)
    return wrap(placed, setup), single_face(placed, Face.INSIDE, setup)


def drawn(pattern: Pattern, role: Role) -> list[tuple[tuple[Fraction, Fraction], ...]]:
    return [(s.start, s.end) for s in pattern.strokes if s.role is role]


@hands
@sides
def test_groove_lines_run_from_where_it_stops_to_before_the_label(hand, low, high):
    for pattern in patterns(grooved_end(low, high), hand):
        lines = drawn(pattern, Role.GROOVE)
        along = [line for line in lines if line[0][0] == line[1][0]]
        across = [line for line in lines if line[0][1] == line[1][1]]
        assert len(along) == 2
        assert len(across) == 1
        for start, end in along:
            assert abs(start[1] - end[1]) == REACH + HOLD - START
        # No prick point stands where a line only breaks off: two for the stop alone.
        ends = {point for line in lines for point in line}
        dots = [(a, b) for a, b in drawn(pattern, Role.PRICK) if a[0] == b[0]]
        assert len(ends & {(a[0], (a[1] + b[1]) / 2) for a, b in dots}) == 2


@hands
@sides
def test_the_groove_itself_is_left_white(hand, low, high):
    """Hatching says that wood goes with the joint."""
    for pattern in patterns(grooved_end(low, high), hand):
        places = {point[0] for line in drawn(pattern, Role.GROOVE) for point in line}
        assert drawn(pattern, Role.HATCH)
        for start, end in drawn(pattern, Role.HATCH):
            assert max(start[0], end[0]) <= min(places) or min(start[0], end[0]) >= max(places)


@hands
@sides
def test_the_word_stands_beside_the_groove_towards_the_boards_middle(hand, low, high):
    for pattern in patterns(grooved_end(low, high), hand):
        (text,) = [
            t for layer in pattern.layers for t in layer.texts if t.words.startswith("groove")
        ]
        to_right = (text.align is Align.LEFT) == (text.turn == 0)
        assert text.words == "groove, 5 mm deep"
        length = Square().width(text.words, text.cap)
        left = text.at[0] if to_right else text.at[0] - length
        places = [point[0] for line in drawn(pattern, Role.GROOVE) for point in line]
        middle = pattern.width / 2
        if min(places) < middle:
            assert 0 < left - max(places) < 2
        else:
            assert 0 < min(places) - (left + length) < 2
        # Between the baseline and the label, the right way up for who reads the face.
        guides = [line[0][1] for line in drawn(pattern, Role.GUIDE)]
        down = 1 if text.turn == 180 else -1
        base = max(guides) if down > 0 else min(guides)
        top = text.at[1] - down * text.cap
        assert 0 < (text.at[1] - base) * down < HOLD
        assert 0 < (top - base) * down < HOLD


@hands
@pytest.mark.parametrize(("low", "high"), [(0, 8), (112, 120)])
def test_along_an_edge_the_word_is_rebate(hand, low, high):
    for pattern in patterns(grooved_end(low, high), hand):
        words = {text.words for layer in pattern.layers for text in layer.texts}
        assert "rebate, 5 mm deep" in words
        assert not any("groove" in one for one in words)


@hands
def test_a_groove_whose_end_slants_is_told_as_deep_as_its_floor(hand):
    """As in a ring, where the other board's groove is not square to this one."""
    end = grooved_end(10, 16)
    space, groove = end.cuts
    slanting = HalfSpace(tuple(map(Fraction, (0, -1, -1))), -START - THICK, Surface.GROOVE)
    cuts = (space, Cut((*groove.half_spaces[:2], slanting, groove.half_spaces[3])))
    for pattern in patterns(replace(end, cuts=cuts), hand):
        words = {text.words for layer in pattern.layers for text in layer.texts}
        assert "groove, 5 mm deep" in words


@pytest.mark.parametrize(
    ("low", "face", "told"),
    [
        (Fraction(7), Face.REFERENCE_EDGE, "dashed along the edge: groove, 7 mm deep"),
        (Fraction(7), Face.FAR_EDGE, ""),
        (THICK - 8, Face.REFERENCE_EDGE, "dashed along the edge: rebate"),
    ],
)
def test_an_edges_label_names_the_groove_or_rebate_that_is_seen_on_it(low, face, told):
    """The panel's groove, 7 to 12 mm from the outside face; a rebate runs out at the inside one.

    How deep a rebate is stands on the inside face: on the edge it would be its width.
    """
    sides = (at_least(2, low, Surface.GROOVE), at_most(0, Fraction(7), Surface.GROOVE))
    if low == 7:
        sides += (at_most(2, Fraction(12), Surface.GROOVE),)
    space = Cut((at_least(0, Fraction(50)), at_most(0, Fraction(60)), at_most(1, REACH)))
    end = BoardEnd(Board("side", WIDTH, THICK), (space, Cut(sides)), REACH)
    placed = Placed(Member("stile", end, Hand.LEFT), Corner("Corner A", False), (MATE,))
    setup = DrawingSetup(Square(), Units.MM, (Fraction(190), Fraction(270)), PAPER)
    pattern = single_face(placed, face, setup)
    rows = {text.paragraph for layer in pattern.layers for text in layer.texts}
    assert {row for row in rows if "dashed" in row} == ({told} if told else set())
