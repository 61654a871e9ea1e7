"""Stretches that no pin may touch: a groove must lie wholly inside a tail.

A drawer's side has a groove for the bottom; were it to run out through a pin, a hole
would show (Noyes, Handwork in Wood, 1910, ch. VII, no. 49).
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from joinery_templates.errors import Finding, InputError, advice, mistake
from joinery_templates.joints.spacing_given import SpacingGiven
from joinery_templates.joints.spacing_terms import Ground, Spacing, Tail

Stretch = tuple[Fraction, Fraction]
"""From and to, in mm from where the spacing begins."""

NOYES_49 = "Noyes, Handwork in Wood, 1910, ch. VII, no. 49"


def is_clear(spacing: Spacing, stretch: Stretch, lean: Fraction) -> bool:
    """Whether a stretch lies wholly inside one tail, at the tail's narrowest."""
    return any(low <= stretch[0] and stretch[1] <= high for low, high in _cores(spacing, lean))


def keep_clear(spacing: Spacing, stretches: Sequence[Stretch], lean: Fraction) -> Spacing:
    """The spacing moved sideways as little as will bring every stretch inside a tail.

    Tails and pins keep their widths; what stands at one edge becomes wider by what the
    other loses. A half pin is not made narrower than it is or than a pin, whichever is
    less; a lone tail's half pins, and half tails, not by more than about half.

    Args:
        spacing: the tails.
        stretches: what must be clear.
        lean: how far a side comes in between the end and the baseline.

    Returns:
        The moved spacing, or the same one where no move helps.
    """
    shifts = {Fraction(0), *_limits(spacing, lean)}
    for stretch in stretches:
        shifts |= set(_touching(spacing, stretch, lean))
    low, high = _limits(spacing, lean)
    for shift in sorted(shifts, key=lambda shift: (abs(shift), shift)):
        if low <= shift <= high:
            moved = _moved(spacing, shift)
            if all(is_clear(moved, stretch, lean) for stretch in stretches):
                return moved
    return spacing


def with_groove(spacing: Spacing, given: SpacingGiven, ground: Ground) -> Spacing:
    """The spacing that suits the groove, if one is given, with advice where none does.

    Half pins and half tails that the person gave are not changed.

    Raises:
        InputError: where the groove does not lie on the board.
    """
    groove = given.groove
    if groove is None:
        return spacing
    low = groove.from_edge - ground.from_edge
    stretch = (low, low + groove.width)
    if stretch[0] < 0 or stretch[1] > ground.width:
        raise InputError(
            mistake(
                "groove-off-board",
                f"A groove from {ground.text(groove.from_edge)} to "
                f"{ground.text(groove.from_edge + groove.width)} does not lie within the tails' "
                f"board, {ground.text(ground.width)} of which is dovetailed.",
                "Check where the groove is.",
                "groove",
            )
        )
    edges = (given.half_pin, given.half_pin_far, given.half_tail)
    free = all(edge is None for edge in edges)
    moved = keep_clear(spacing, (stretch,), ground.lean) if free else spacing
    if not is_clear(moved, stretch, ground.lean):
        return replace(moved, findings=(*moved.findings, _unclear(free)))
    if moved == spacing:
        return spacing
    by = abs(moved.tails[-1].left - spacing.tails[-1].left)
    rule = f"Edges: moved by {ground.text(by)} so that the groove lies in a tail ({NOYES_49})."
    return replace(moved, rules=(*moved.rules, rule))


def _unclear(free: bool) -> Finding:
    return advice(
        "groove-not-in-a-tail",
        "The groove does not lie wholly inside a tail where that is narrowest: it would run out "
        "through a pin, or weaken a tail's side.",
        NOYES_49,
        "Move the groove, or give fewer or wider tails."
        if free
        else "Leave out the width at the edges and it will be worked out, or move the groove.",
        "groove",
    )


def _cores(spacing: Spacing, lean: Fraction) -> Iterator[Stretch]:
    for tail in spacing.tails:
        yield tail.left + lean * tail.left_slopes, tail.right - lean * tail.right_slopes


def _touching(spacing: Spacing, stretch: Stretch, lean: Fraction) -> Iterator[Fraction]:
    """The moves that bring an end of the stretch onto the boundary of a tail's core."""
    for low, high in _cores(spacing, lean):
        yield stretch[0] - low
        yield stretch[1] - high


def _limits(spacing: Spacing, lean: Fraction) -> Stretch:
    """How far the tails may move, towards the reference edge and away from it."""
    if spacing.half_pins:
        first, last = spacing.half_pins
        least = min(*spacing.pins, first, last) if spacing.pins else min(first, last) / 2
        return least - first, last - least
    first, last = spacing.tails[0].width, spacing.tails[-1].width
    return -(first - lean) / 2, (last - lean) / 2


def _moved(spacing: Spacing, shift: Fraction) -> Spacing:
    """Every sloping side moved; the board's edges stay."""
    tails = tuple(
        Tail(
            tail.left + shift * tail.left_slopes,
            tail.right + shift * tail.right_slopes,
            tail.left_slopes,
            tail.right_slopes,
        )
        for tail in spacing.tails
    )
    return replace(spacing, tails=tails)
