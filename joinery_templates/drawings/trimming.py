"""Paper round a pattern: what is held by, what is trimmed away, and lines carried into it."""

from collections.abc import Iterable

from joinery_templates.drawings.figure import Figure, Role, Stroke, distinct, line
from joinery_templates.exact import Fraction

SIDE = Fraction(11)
"""Paper beside the board, for the words that are trimmed away."""
RIM = Fraction(6)
"""Paper beside a face that is printed by itself: no words stand there."""
HOLD = Fraction(6)
"""Paper past the baseline before the label, to hold the pattern by."""
EDGE = Fraction(11, 2)
"""Paper past the trim line: words on the length of taped sheets have room on it."""
TICK = Fraction(5)
"""How far fold and trim lines are carried into the paper beside the board."""


def across(role: Role, left: Fraction, right: Fraction, v: Fraction) -> Stroke:
    """A line across the board, carried into the paper beside it."""
    return line(role, left - TICK, v, right + TICK, v)


def outline(left: Fraction, bottom: Fraction, right: Fraction, top: Fraction) -> tuple[Stroke, ...]:
    """Board's edges up and down, and the lines to trim along."""
    return (
        line(Role.OUTLINE, left, bottom, left, top),
        line(Role.OUTLINE, right, bottom, right, top),
        across(Role.TRIM, left, right, bottom),
        across(Role.TRIM, left, right, top),
    )


def trimmed(strokes: Iterable[Stroke]) -> Figure:
    """Strokes, each once, on paper that reaches past all of them, however they slant.

    Args:
        strokes: of a pattern whose board begins at `RIM` and whose lowest trim line is at
            `EDGE`.
    """
    drawn = distinct(strokes)
    right, top = (max(max(s.start[axis], s.end[axis]) for s in drawn) for axis in (0, 1))
    return Figure(right + RIM - TICK, top + EDGE, drawn)
