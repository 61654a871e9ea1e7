"""Round holes and round stock: bounded by so many flats that they pass for round."""

from collections.abc import Iterator
from functools import cache

from joinery_templates.exact import ZERO, Fraction
from joinery_templates.wood.board import Board
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Surface, Vector, at_least, at_most
from joinery_templates.wood.leaning import sine_and_cosine

FLATS = 48
"""A hole of 20 mm is then round within 0.03 mm, less than a bit runs true (our judgement)."""


def round_hole(
    centre: Vector, axis: int, diameter: Fraction, to: Fraction | None = None, low: bool = True
) -> Cut:
    """A hole bored square to a face.

    Args:
        centre: a point on its axis, in the board's frame.
        axis: along which it runs: 0 for x, 1 for y, 2 for z.
        diameter: of the bit.
        to: the coordinate at which it ends; None where it goes right through.
        low: whether it is bored from that axis' low side.
    """
    flats = list(_flats(centre, axis, diameter))
    if to is not None:
        end = at_most if low else at_least
        flats.append(end(axis, to, Surface.SHOULDER))
    return Cut(tuple(flats))


def round_stock(name: str, diameter: Fraction, length: Fraction) -> BoardEnd:
    """A length of round stock, from y = 0 on: it is bought, and nothing is marked on it."""
    radius = diameter / 2
    ends = at_least(1, ZERO, Surface.SHOULDER), at_most(1, length, Surface.SHOULDER)
    stock = (*_flats((radius, ZERO, radius), 1, diameter), *ends)
    board = Board(name, diameter, diameter, is_round=True)
    return BoardEnd(board, (), length, gauged=False, stock=stock)


def _flats(centre: Vector, axis: int, diameter: Fraction) -> Iterator[HalfSpace]:
    """What bounds a round solid, each flat as far from its axis as the circle."""
    one, other = (number for number in range(3) if number != axis)
    for across, up in _directions():
        normal = [ZERO] * 3
        normal[one], normal[other] = across, up
        limit = across * centre[one] + up * centre[other] + diameter / 2
        yield HalfSpace((normal[0], normal[1], normal[2]), limit, Surface.HOLE)


@cache
def _directions() -> tuple[tuple[Fraction, Fraction], ...]:
    """Unit vectors all round, the axes among them: what is mirrored has the same flats."""
    quarter = [sine_and_cosine(Fraction(360 * number, FLATS)) for number in range(FLATS // 4)]
    return tuple(
        turned
        for sine, cosine in quarter
        for turned in ((cosine, sine), (-sine, cosine), (-cosine, -sine), (sine, -cosine))
    )
