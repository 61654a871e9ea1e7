"""Round holes, and lines that are gauged on wood that goes too."""

import math

import pytest
import shapely

from joinery_templates.drawings.board_patterns import views
from joinery_templates.drawings.figure import Role
from joinery_templates.drawings.lettering import text_corners
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.exact import Fraction
from joinery_templates.joint import Corner, Member, Placed
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Stage, Surface, at_least, at_most
from joinery_templates.wood.faces import is_waste, laid_out
from joinery_templates.wood.hole import round_hole
from tests.drawings.test_lettering import Square

RAIL = Board("rail", Fraction(60), Fraction(20))
CENTRE = (Fraction(30), Fraction(25), Fraction(0))


def drilled(diameter: int, to: Fraction | None = None, low: bool = True) -> BoardEnd:
    return BoardEnd(RAIL, (round_hole(CENTRE, 2, Fraction(diameter), to, low),), Fraction(40))


def drawn_patterns(end: BoardEnd, *names: str):
    placed = Placed(
        Member("rail", end, Hand.LEFT), Corner("Corner A", False), (Member("m", end, Hand.RIGHT),)
    )
    setup = DrawingSetup(Square(), Units.MM, (Fraction(190), Fraction(270)))
    return list(views(names, placed, setup))


def drawn_strokes(end: BoardEnd, *names: str):
    return [stroke for pattern in drawn_patterns(end, *names) for stroke in pattern.strokes]


@pytest.mark.parametrize("diameter", [3, 10, 25])
def test_a_hole_is_round_within_what_a_bit_runs_true(diameter):
    """Every corner of its mouth against the circle's own equation."""
    (mouth,) = laid_out(drilled(diameter), Face.OUTSIDE).waste
    reached = [math.dist(map(float, corner), (30, 25)) for corner in mouth.corners]
    assert len(reached) == 48
    assert diameter / 2 < min(reached) <= max(reached) < 1.0022 * diameter / 2
    assert shapely.Polygon(mouth.corners).area == pytest.approx(
        math.pi * diameter**2 / 4, rel=0.0015
    )


@pytest.mark.parametrize(
    ("to", "low", "opened"),
    [
        (None, True, {Face.OUTSIDE, Face.INSIDE}),
        (Fraction(12), True, {Face.OUTSIDE}),
        (Fraction(8), False, {Face.INSIDE}),
    ],
)
def test_a_hole_opens_the_faces_that_it_is_bored_from(to, low, opened):
    end = drilled(8, to, low)
    assert {face for face in end.faces if laid_out(end, face).waste} == opened
    depths = [z for z in range(21) if is_waste(end, Fraction(30), Fraction(25), Fraction(z))]
    if to is not None:
        assert depths == (list(range(int(to) + 1)) if low else list(range(int(to), 21)))


def test_a_hole_is_pricked_in_its_middle_and_not_round_its_rim():
    for pattern in drawn_patterns(drilled(8), "faces"):
        (middle,) = {
            ((s.start[0] + s.end[0]) / 2, (s.start[1] + s.end[1]) / 2)
            for s in pattern.strokes
            if s.role is Role.PRICK and s.start[0] == s.end[0]  # its dot
        }
        rim = [s for s in pattern.strokes if s.role is Role.HOLE]
        assert len(rim) == 48
        for stroke in rim:
            distance = math.dist(map(float, stroke.start), map(float, middle))
            assert distance == pytest.approx(4, abs=0.01)


@pytest.mark.parametrize(
    ("to", "low", "said"),
    [
        (None, True, {"outside face": "8 mm, right through", "inside face": "8 mm, right through"}),
        (Fraction(12), True, {"outside face": "8 mm, 12 deep"}),
        (Fraction(15, 2), False, {"inside face": "8 mm, 12.5 deep"}),
    ],
)
def test_a_hole_says_beside_it_how_wide_and_how_deep_it_is(to, low, said):
    """Words by hand; they stand outside the rim, and no hatching is drawn in the hole."""
    for pattern in drawn_patterns(drilled(8, to, low), "faces"):
        face = pattern.title.removeprefix("RAIL ")
        texts = [text for layer in pattern.layers for text in layer.texts]
        (words,) = [text for text in texts if text.words == said[face]]
        rim = [stroke.start for stroke in pattern.strokes if stroke.role is Role.HOLE]
        mouth = shapely.MultiPoint(rim).convex_hull
        box = shapely.MultiPoint(text_corners(words, Square())).envelope
        assert 0 < mouth.distance(box) < 2
        assert {s.role for s in pattern.strokes}.isdisjoint({Role.HATCH, Role.OPEN_HATCH})


def test_a_hole_with_no_room_beside_it_is_told_in_the_label():
    holes = (round_hole((Fraction(10), Fraction(10), Fraction(10)), 1, Fraction(8), Fraction(30)),)
    end = BoardEnd(Board("post", Fraction(20), Fraction(20)), holes, Fraction(30))
    (pattern,) = drawn_patterns(end, "end-grain")
    words = " ".join(text.words for layer in pattern.layers for text in layer.texts)
    assert "bore 8 mm, 30 deep" in words


def test_a_board_that_loses_no_wood_has_no_pattern():
    assert drawn_strokes(BoardEnd(RAIL, (), Fraction(20)), "wrap", "faces", "end-grain") == []


def test_what_leaves_first_has_its_whole_line_though_the_wood_beside_it_goes_later():
    """A tenon 8 mm thick and 40 mm wide: the wood of both edges goes, over its length of 30 mm."""
    length, low, high = Fraction(30), Fraction(6), Fraction(14)
    cheeks = at_most(2, low), at_least(2, high)
    between = at_least(2, low), at_most(2, high)
    shoulder = HalfSpace((Fraction(0), Fraction(1), Fraction(0)), length, Surface.SHOULDER)
    cuts = (
        *(Cut((cheek, shoulder), Stage(1, "cheek")) for cheek in cheeks),
        Cut((at_most(0, Fraction(10)), *between, shoulder), Stage(2, "side")),
        Cut((at_least(0, Fraction(50)), *between, shoulder), Stage(2, "side")),
    )
    edges = (Face.REFERENCE_EDGE, Face.FAR_EDGE)
    end = BoardEnd(RAIL, cuts, length)
    for face in edges:
        lines = {
            frozenset((line.start, line.end))
            for line in laid_out(end, face).lines
            if line.surface is Surface.SIDE
        }
        assert lines == {frozenset(((z, 0), (z, length))) for z in (low, high)}
    assert not [s for s in drawn_strokes(end, "faces") if s.role is Role.KERF]
