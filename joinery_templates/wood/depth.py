"""How deep waste goes below a point of a face, through what has left the board before it."""

from collections.abc import Iterable
from fractions import Fraction

from joinery_templates.wood.cut import Cut, Vector, dot

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
