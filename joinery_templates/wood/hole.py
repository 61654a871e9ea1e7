"""Round holes: waste as any other, bounded by so many flats that they pass for round."""

from fractions import Fraction

from joinery_templates.wood.cut import Bore, Cut, HalfSpace, Surface, Vector, at_least, at_most
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
    one, other = (number for number in range(3) if number != axis)
    flats = []
    for number in range(FLATS):
        sine, cosine = sine_and_cosine(Fraction(360 * (2 * number + 1), 2 * FLATS) - 180)
        normal = [Fraction(0)] * 3
        normal[one], normal[other] = cosine, sine
        limit = cosine * centre[one] + sine * centre[other] + diameter / 2
        flats.append(HalfSpace((normal[0], normal[1], normal[2]), limit, Surface.HOLE))
    if to is not None:
        end = at_most if low else at_least
        flats.append(end(axis, to, Surface.SHOULDER))
    return Cut(tuple(flats), bore=Bore(centre, axis, diameter))
