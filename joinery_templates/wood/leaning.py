r"""Corners whose boards lean, or that are not square in plan: frames, end planes, bevels.

A board leans by an angle from upright, outwards positive: its upper (far) edge lies
further out than its lower (reference) edge, as in a tray. The plan angle is the angle
inside the corner, seen from above: 90 degrees in a square box, 120 in a six-sided one::

      seen from above                     the first board, from its end
      second board                             far edge  /
         \                                              /   lean, from upright
          \  plan angle                                /
           +------------- first board    reference edge

Sine and cosine come from the tangent of half the angle, so they are rational and the
axes are exactly square to each other; an angle errs by less than `exact.TANGENT_BOUND`.
"""

from itertools import product

from msgspec import Struct

from joinery_templates.exact import ZERO, Fraction, degrees_of, square_root, tangent
from joinery_templates.wood.cut import Vector, dot
from joinery_templates.wood.placement import Placement

SQUARE = Fraction(90)


class Axes(Struct, frozen=True):
    """The axes of a board end in the corner's own directions.

    These are: along the first board from the corner on, level and square to it to the
    outside, and up.

    Attributes:
        across: from the reference edge to the far edge, x.
        along: from the corner into the board, level, y.
        inward: from the outside face to the inside face, z.
    """

    across: Vector
    along: Vector
    inward: Vector

    def seen(self, direction: Vector) -> Vector:
        """A direction, by its shares along the three axes."""
        return dot(self.across, direction), dot(self.along, direction), dot(self.inward, direction)


class LeaningCorner(Struct, frozen=True):
    """Two boards that meet in one slanting arris; 0 is the first board and 1 the second.

    Attributes:
        leans_deg: how far each leans outwards from upright.
        plan_deg: the angle inside the corner, seen from above.
        frames: of both ends, without regard to where y = 0 is.
    """

    leans_deg: tuple[Fraction, Fraction]
    plan_deg: Fraction
    frames: tuple[Axes, Axes]

    def outward_of_other(self, number: int) -> Vector:
        """The unit normal out of the other board's outside face, in a board's frame."""
        x, y, z = self.frames[number].seen(self.frames[1 - number].inward)
        return -x, -y, -z

    @property
    def grain_of_second(self) -> Vector:
        """The direction along the second board, into it, in the first one's frame."""
        return self.frames[0].seen(self.frames[1].along)

    def mitre_normal(self, number: int, thicknesses: tuple[Fraction, Fraction]) -> Vector:
        """A normal of the mitre from the arris outside to the arris inside, out of the board.

        With boards of one thickness the plane halves the angle between their faces.
        """
        own, other = thicknesses[number], thicknesses[1 - number]
        x, y, z = self.outward_of_other(number)
        return x / other, y / other, z / other + 1 / own

    @property
    def faces_deg(self) -> float:
        """The angle between the boards' faces, measured inside the corner, for telling."""
        return 90 - degrees_of(through_the_thickness(self.outward_of_other(0)), Fraction(1))

    def placement(self, tips: tuple[Fraction, Fraction]) -> Placement:
        """The second board on the first.

        Args:
            tips: for each board how far the arris at the reference edge lies from y = 0.
        """
        one, other = self.frames
        rows = tuple(
            (dot(axis, other.across), dot(axis, other.along), dot(axis, other.inward))
            for axis in (one.across, one.along, one.inward)
        )
        x, y, z = (-row[1] * tips[1] for row in rows)
        first, second, third = rows
        return Placement((first, second, third), (x, y + tips[0], z))


def leaning_corner(
    leans_deg: tuple[Fraction, Fraction], plan_deg: Fraction = SQUARE
) -> LeaningCorner:
    """The corner of two boards.

    Args:
        leans_deg: how far each leans outwards from upright, between -89 and 89 degrees.
        plan_deg: the angle inside the corner seen from above, between 0 and 178 degrees.
    """
    sine, cosine = sine_and_cosine(plan_deg)
    one = Fraction(1)
    first = _axes(leans_deg[0], (one, ZERO, ZERO), (ZERO, one, ZERO))
    # The second board's outside is on the other side of it: the ends are of opposite hand.
    second = _axes(leans_deg[1], (cosine, -sine, ZERO), (-sine, -cosine, ZERO))
    return LeaningCorner(leans_deg, plan_deg, (first, second))


def _axes(lean_deg: Fraction, along: Vector, out: Vector) -> Axes:
    sine, cosine = sine_and_cosine(lean_deg)
    across = (sine * out[0], sine * out[1], cosine)
    inward = (-cosine * out[0], -cosine * out[1], sine)
    return Axes(across, along, inward)


def sine_and_cosine(angle_deg: Fraction) -> tuple[Fraction, Fraction]:
    """Sine and cosine whose squares add up to exactly 1.

    Args:
        angle_deg: nearer to zero than 178 degrees.
    """
    half = tangent(angle_deg / 2)
    whole = 1 + half * half
    return 2 * half / whole, (1 - half * half) / whole


def across_the_face(normal: Vector) -> Fraction:
    """How an end plane runs across the broad faces: y grows by this for each mm of x.

    Args:
        normal: of the plane, in a board's frame; its y is not 0.
    """
    return -normal[0] / normal[1]


def through_the_thickness(normal: Vector) -> Fraction:
    """The bevel of an end, off square, measured square to the line of the end on the face.

    The end goes back by this for each mm of thickness; it is negative where the end is
    longer on the inside face.

    Args:
        normal: of the plane, out of the wood, in a board's frame.
    """
    return normal[2] / square_root(normal[0] ** 2 + normal[1] ** 2)


def places(
    normal: Vector, limit: Fraction, width: Fraction, thickness: Fraction
) -> tuple[Fraction, ...]:
    """The y of a plane ``normal · p = limit`` at the four arrises of a board.

    Args:
        normal: in the board's frame; its y is not 0.
        limit: in mm times the length of the normal.
        width: of the board.
        thickness: of the board.
    """
    return tuple(
        (limit - normal[0] * x - normal[2] * z) / normal[1]
        for x, z in product((ZERO, width), (ZERO, thickness))
    )
