"""Strokes told apart."""

from fractions import Fraction

from joinery_templates.drawings.figure import Role, distinct, line


def test_each_stroke_is_drawn_once_at_its_first_place():
    fine = Fraction(1, 10**30)  # more digits than a machine's whole number holds
    one = line(Role.SAW, 0, 1, Fraction(1, 3), -2)
    others = (
        line(Role.HATCH, 0, 1, Fraction(1, 3), -2),
        line(Role.SAW, Fraction(1, 3), -2, 0, 1),
        line(Role.SAW, 0, 1 + fine, Fraction(1, 3), -2),
    )
    again = line(Role.SAW, 0, 1, Fraction(2, 6), -2)
    assert distinct((one, *others, again)) == (one, *others)
