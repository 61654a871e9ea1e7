"""A stretch of a board: its own frame, no end grain, lines to both sides of y = 0."""

import pytest

from joinery_templates.exact import Fraction
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import Cut, Stretch, Surface, at_least, at_most
from joinery_templates.wood.faces import lay_out


def housing() -> Stretch:
    """A housing 12 wide and 6 deep in the inside face, from the reference edge 50 across."""
    cut = Cut(
        (
            at_least(1, Fraction(-2)),
            at_most(1, Fraction(10)),
            at_least(2, Fraction(14)),
            at_most(0, Fraction(50)),
        )
    )
    return Stretch(
        Board("side", Fraction(80), Fraction(20)),
        (cut,),
        Fraction(-2),
        Fraction(10),
        "line",
        "top end",
        ("left", "right"),
    )


def segments(face: Face, length: int = 14) -> set[frozenset[tuple[Fraction, Fraction]]]:
    return {
        frozenset((line.start, line.end))
        for line in lay_out(housing(), face, Fraction(length)).lines
    }


def test_a_housing_shows_on_the_inside_face_as_three_lines():
    assert segments(Face.INSIDE) == {
        frozenset({(Fraction(0), Fraction(-2)), (Fraction(50), Fraction(-2))}),
        frozenset({(Fraction(0), Fraction(10)), (Fraction(50), Fraction(10))}),
        frozenset({(Fraction(50), Fraction(-2)), (Fraction(50), Fraction(10))}),
    }


def test_its_section_shows_on_the_edge_where_it_runs_out_and_nowhere_else():
    assert segments(Face.REFERENCE_EDGE) == {
        frozenset({(Fraction(14), Fraction(-2)), (Fraction(20), Fraction(-2))}),
        frozenset({(Fraction(14), Fraction(10)), (Fraction(20), Fraction(10))}),
        frozenset({(Fraction(14), Fraction(-2)), (Fraction(14), Fraction(10))}),
    }
    assert segments(Face.FAR_EDGE) == segments(Face.OUTSIDE) == set()


def test_it_has_no_end_grain():
    assert Face.END_GRAIN not in housing().faces
    layout = lay_out(housing(), Face.END_GRAIN, Fraction(14))
    assert (layout.waste, layout.lines) == ((), ())


@pytest.mark.parametrize(("length", "low"), [(14, -6), (20, -12), (60, -12)])
def test_as_much_is_shown_before_the_joint_as_after_it_but_no_more_than_ten(length, low):
    layout = lay_out(housing(), Face.INSIDE, Fraction(length))
    assert (layout.low, layout.height) == (low, length - low)


def test_it_is_named_by_which_end_of_the_other_board_it_meets():
    """At a left-hand end of the shelf the side's own frame is mirrored, and the other way round."""
    assert housing().place(Hand.RIGHT).words == "left"
    assert housing().place(Hand.LEFT).words == "right"


def test_a_line_at_the_limit_of_what_is_shown_is_no_line():
    cut = Cut((at_least(1, Fraction(-2), Surface.SHOULDER), at_most(1, Fraction(10))))
    whole = Stretch(
        Board("b", Fraction(80), Fraction(20)),
        (cut,),
        Fraction(-2),
        Fraction(10),
        "l",
        "up",
        ("l", "r"),
    )
    assert [edge.surface for edge in lay_out(whole, Face.INSIDE, Fraction(10)).lines] == []
