"""Equal pieces along a line, such as dowels and keys: what is told of where they stand."""

from collections.abc import Iterator
from itertools import pairwise

from joinery_templates.errors import Finding, mistake
from joinery_templates.exact import Fraction
from joinery_templates.joint import LengthSetting, Size
from joinery_templates.joints.layout import Layout

WIDEST_DIVIDERS = 100
"""In mm: a longer step is taken from the rule or the strip (our judgement)."""
Places = tuple[Fraction, ...]
"""The pieces' middles in order, in mm from the line's start."""


def steps_between(places: Places) -> Places:
    """From each piece's middle to the next."""
    return tuple(after - before for before, after in pairwise(places))


def not_in_order(layout: Layout, places: Places, start: str) -> Iterator[Finding]:
    """The first place listed that does not lie past the one before it; `start` is the line's."""
    for before, after in pairwise(places):
        if after <= before:
            yield mistake(
                "not-in-order",
                f"The positions are not in order: {layout.text(before)} is followed by "
                f"{layout.text(after)}.",
                f"List them from the {start} on, each one once.",
                "positions",
            )
            return


def sizes_along(
    piece: str, places: Places, length: Fraction, ends: tuple[str, str]
) -> Iterator[Size]:
    """From piece to piece where that is one distance, and from the line's two ends."""
    for pitch in _pitch(places):
        yield Size(f"from one {piece}'s middle to the next", pitch)
    first, last = (f"first {piece}", f"last {piece}") if len(places) > 1 else (piece, piece)
    yield Size(f"from the {ends[0]} to the {first}'s middle", places[0])
    yield Size(f"from the {last}'s middle to the {ends[1]}", length - places[-1])


def dividers_along(piece: str, places: Places) -> Iterator[LengthSetting]:
    """Set to the step from piece to piece, where it is one and not too wide for them."""
    for pitch in _pitch(places):
        if pitch <= WIDEST_DIVIDERS:
            yield LengthSetting("dividers", f"from one {piece}'s middle to the next", pitch)


def _pitch(places: Places) -> set[Fraction]:
    """The one step from piece to piece; none where steps differ."""
    steps = set(steps_between(places))
    return steps if len(steps) == 1 else set()
