"""How deep waste goes: below a point of a face, and at the most."""

from collections.abc import Iterable
from itertools import product

from joinery_templates.exact import Fraction
from joinery_templates.wood.cut import Cut, HalfSpace, Vector, dot

_Span = tuple[Fraction, Fraction]


def depth_below(
    point: Vector, way: Vector, most: Fraction, cut: Cut, gone: Iterable[Cut] = ()
) -> Fraction:
    """How far the wood is gone straight below a point, at most `most`, in mm.

    Args:
        point: of the waste, in its board's frame; it may lie on the waste's boundary.
        way: into the wood, of length 1.
        most: how far the board reaches.
        cut: the waste.
        gone: what has left before it.
    """
    reached = _span(point, way, most, cut)[1]
    passed = (_span(point, way, most, one) for one in gone if _holds(one, point, way))
    for low, high in sorted(passed):
        if low <= reached:
            reached = max(reached, high)
    return reached


def farthest(sides: Iterable[HalfSpace], axis: int, sign: int) -> Fraction:
    """The greatest or least coordinate of all points within some half-spaces, in mm.

    The other two coordinates are eliminated one after the other, as Fourier and Motzkin do.

    Args:
        sides: that bound the points on every side; some point lies in all of them.
        axis: whose coordinate: 0 for x, 1 for y, 2 for z.
        sign: 1 for the greatest, -1 for the least.
    """
    rows = [(side.normal, side.limit) for side in sides]
    for other in {0, 1, 2} - {axis}:
        rising = [row for row in rows if row[0][other] > 0]
        falling = [row for row in rows if row[0][other] < 0]
        rows = [row for row in rows if not row[0][other]]
        for (normal, limit), (against, least) in product(rising, falling):
            up, down = normal[other], -against[other]
            x, y, z = (down * a + up * b for a, b in zip(normal, against, strict=True))
            rows.append(((x, y, z), down * limit + up * least))
    return sign * min(limit / (sign * n[axis]) for n, limit in rows if sign * n[axis] > 0)


def _holds(cut: Cut, point: Vector, way: Vector) -> bool:
    """Whether a ray is within the sides that it runs along; one that only touches them is not."""
    return all(
        dot(side.normal, way) or dot(side.normal, point) < side.limit for side in cut.half_spaces
    )


def _span(point: Vector, way: Vector, most: Fraction, cut: Cut) -> _Span:
    """From where to where a ray is in waste, by the sides that it meets."""
    low, high = Fraction(0), most
    for side in cut.half_spaces:
        if growth := dot(side.normal, way):
            at = (side.limit - dot(side.normal, point)) / growth
            low, high = (low, min(high, at)) if growth > 0 else (max(low, at), high)
    return low, high
