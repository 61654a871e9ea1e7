"""Rounding a spacing to whole chisel widths, sixteenths or millimetres.

What stands at the two edges takes up the rest, half of it each.
"""

import math
from collections.abc import Callable
from fractions import Fraction

from msgspec.structs import replace

from joinery_templates.errors import InputError, mistake
from joinery_templates.joints.spacing.parameters import EQUAL, HALF_PIN, PIN, SpacingParameters
from joinery_templates.joints.spacing.terms import Ground, Run, nearest_whole

Rounding = Callable[[Fraction], int]

EDGE_NAMES = ("half_pin", "half_pin_far", "half_tail")


def rounded(run: Run, given: SpacingParameters, ground: Ground) -> tuple[Run, list[str]]:
    """The run with its step, or every pin, a whole number of `round_to`.

    To the nearest, or down where the nearest leaves too little at the edges.

    Raises:
        InputError: where what is given would have to be changed, or nothing is left.
    """
    grid = given.chosen.round_to
    if grid is None:
        return run, []
    _check_free(given, grid)
    pins = given.chosen.round == PIN
    for rounding in (nearest_whole, math.floor):
        tried = (
            _with_pins(run, given, grid, rounding)
            if pins
            else _with_step(run, given, grid, rounding)
        )
        over = (ground.width - tried.total) / 2
        tried = replace(tried, first=tried.first + over, last=tried.last + over)
        if _sound(tried, run, ground):
            what = "Every pin" if pins else "The step from tail to tail"
            return tried, [
                f"{what}: a whole number of {ground.text(grid)}; the edges take up the rest "
                "(our judgement)."
            ]
    raise InputError(
        mistake(
            "cannot-round",
            f"Rounded to {ground.text(grid)} nothing that can be cut is left.",
            "Give a smaller round_to, or leave it out.",
            "spacing.round_to",
        )
    )


def _check_free(given: SpacingParameters, grid: Fraction) -> None:
    names = [name for name in EDGE_NAMES if getattr(given, name) is not None]
    pins, equal = given.chosen.round == PIN, given.chosen.style == EQUAL
    # Without their number the tails' width is only a wish.
    if given.tail is not None and given.tails is not None and (equal or not pins):
        names.append("tail")
    if given.pin is not None and (given.pin % grid if pins else equal):
        names.append("pin")
    if pins and given.chosen.socket is not None:
        names.append("spacing.socket")
    if not pins and given.chosen.narrow_tail is not None:
        names.append("spacing.narrow_tail")
    findings = [
        mistake(
            "not-with-rounding",
            f"With round_to the {name.removeprefix('spacing.').replace('_', ' ')} is worked out, "
            "so that it cannot be given as well.",
            "Leave one of the two out.",
            name,
        )
        for name in names
    ]
    if findings:
        raise InputError(*findings)


def _with_pins(run: Run, given: SpacingParameters, grid: Fraction, rounding: Rounding) -> Run:
    """Pins rounded; tails equal to pins keep equal at their line by changing alike."""
    pins = tuple(max(1, rounding(pin / grid)) * grid for pin in run.pins)
    change = pins[0] - run.pins[0] if pins and given.chosen.style == EQUAL else Fraction(0)
    return replace(run, pins=pins, tails=tuple(tail + change for tail in run.tails))


def _with_step(run: Run, given: SpacingParameters, grid: Fraction, rounding: Rounding) -> Run:
    """Each tail with a pin rounded; pins keep their width but where tails equal them."""
    pin = run.pins[0] if run.pins else Fraction(0)
    changes = tuple(rounding((tail + pin) / grid) * grid - (tail + pin) for tail in run.tails)
    if given.chosen.style == EQUAL and changes:
        half = changes[0] / 2
        return replace(
            run,
            tails=tuple(tail + half for tail in run.tails),
            pins=tuple(one + half for one in run.pins),
        )
    return replace(run, tails=tuple(t + c for t, c in zip(run.tails, changes, strict=True)))


def _sound(tried: Run, before: Run, ground: Ground) -> bool:
    """Whether wood is left everywhere, and the half pins have not become weak."""
    edges = (tried.first, tried.last)
    if tried.start == HALF_PIN:
        enough = min(before.first, before.last, *before.pins)
        kept = min(edges) >= enough > 0
    else:
        kept = min(edges) > ground.lean
    return kept and min(tried.pins, default=1) > 0 and min(tried.tails, default=1) > 0
