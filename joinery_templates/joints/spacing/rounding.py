"""Rounding a spacing to whole chisel widths, sixteenths or millimetres.

What stands at the two edges takes up the rest, half of it each.
"""

from collections.abc import Callable, Iterator

from msgspec.structs import replace

from joinery_templates.errors import Finding, mistake, refusal, refuse
from joinery_templates.exact import ZERO, Fraction, floor
from joinery_templates.joints.gauge import nearest_whole, rule_steps
from joinery_templates.joints.spacing import parameters, proposal
from joinery_templates.joints.spacing.solver import Asked, Run


def rounded(run: Run, asked: Asked) -> Run:
    """The run with its step, or every pin, a whole number of `round_to`.

    To the nearest, or down where the nearest leaves too little at the edges.

    Raises:
        InputError: where what is given would have to be changed, or nothing is left.
    """
    ground, chosen = asked.ground, asked.given.chosen
    grid = chosen.round_to
    if grid is None:
        return run
    refuse(_not_free(asked.given, grid))
    for whole in (nearest_whole, floor):
        tried = _on_the_grid(run, chosen, grid, whole)
        over = (ground.width - tried.total) / 2
        tried = replace(tried, first=tried.first + over, last=tried.last + over)
        if _sound(tried, run, ground.lean):
            asked.decide(
                "Every pin" if chosen.round == parameters.PIN else "The step from tail to tail",
                f"a multiple of {ground.text(grid)}; the edges take up the rest (our judgement)",
            )
            return tried
    raise refusal(
        "cannot-round",
        f"Rounded to {ground.text(grid)}, nothing is left that can be cut.",
        "Give a smaller round_to, or leave it out.",
        "spacing.round_to",
    )


def in_settable_figures(run: Run, asked: Asked, pin: Fraction) -> Run:
    """Even tails with half pins, both by rule, in figures that a rule has; else as they are.

    So can the dividers be set. The half pins take up the rest: none becomes narrower at the
    baseline than a whole pin there, nor wider by more than a pin's side leans.
    """
    if asked.ends != (None, None) or asked.given.chosen.round_to:
        asked.decide_edges()
        return run
    ground, tail, edge = asked.ground, run.tails[0], run.first
    lean, units = ground.lean, ground.units
    widths = proposal.tail_widths(ground, pin)
    low, high = min(edge, pin + lean), pin + 2 * lean
    rule = ""
    is_lone = len(run.tails) == 1 and asked.given.tails is None
    if is_lone:
        tail = proposal.lone_tail(ground, tail)
        if tail != run.tails[0]:
            rule = parameters.LONE_TAIL_RULE
        widths = proposal.TailWidths(ground.weakest_tail + 2 * lean, tail, proposal.WIDEST_TAIL)
        edge = (ground.width - tail) / 2
        low, high = edge - lean, edge + lean

    def edge_beside(one: Fraction) -> Fraction:
        return (ground.width - sum(run.pins) - one * len(run.tails)) / 2

    for step in rule_steps(units):
        below = floor(tail / step) * step
        found = [
            (edge_beside(one) % step != 0, abs(edge_beside(one) - edge), one)
            for one in (below - step, below, below + step)
            if low <= edge_beside(one) <= high
            and (widths.low <= one <= widths.high or not widths.low <= tail <= widths.high)
        ]
        if found:
            tail = min(found)[-1]
            break
    edge = edge_beside(tail)
    asked.decide_edges(rule)
    return replace(run, first=edge, tails=(tail,) * len(run.tails), last=edge)


def _not_free(given: parameters.SpacingParameters, grid: Fraction) -> Iterator[Finding]:
    """What is given and would have to be changed."""
    pins, equal = given.chosen.round == parameters.PIN, given.chosen.style == parameters.EQUAL
    # Without their number the tails' width is only a wish.
    tail = given.tails is not None and (equal or not pins)
    pin = given.pin is not None and (given.pin % grid if pins else equal)
    for name, value, worked_out in (
        ("half_pin", given.half_pin, True),
        ("half_pin_far", given.half_pin_far, True),
        ("half_tail", given.half_tail, True),
        ("tail", given.tail, tail),
        ("pin", given.pin, pin),
        ("spacing.socket", given.chosen.socket, pins),
        ("spacing.narrow_tail", given.chosen.narrow_tail, not pins),
    ):
        if value is not None and worked_out:
            yield mistake(
                "not-with-rounding",
                f"With round_to the {name.removeprefix('spacing.').replace('_', ' ')} is worked "
                "out, so that it cannot be given as well.",
                "Leave one of the two out.",
                name,
            )


def _on_the_grid(
    run: Run, chosen: parameters.StyleParameters, grid: Fraction, whole: Callable[[Fraction], int]
) -> Run:
    """Pins, or tails with a pin each, rounded; tails that equal pins change as these do."""
    equal, pin = chosen.style == parameters.EQUAL, run.pins[0] if run.pins else ZERO
    if chosen.round == parameters.PIN:
        pins = tuple(max(1, whole(one / grid)) * grid for one in run.pins)
        alike = pins[0] - pin if equal and pins else ZERO
        return replace(run, pins=pins, tails=tuple(tail + alike for tail in run.tails))
    steps = [whole((tail + pin) / grid) * grid for tail in run.tails]
    # Pins keep their width, but take half of the change where tails equal them.
    half = (steps[0] - run.tails[0] - pin) / 2 if equal and steps else ZERO
    return replace(
        run,
        tails=tuple(step - pin - half for step in steps),
        pins=tuple(one + half for one in run.pins),
    )


def _sound(tried: Run, before: Run, lean: Fraction) -> bool:
    """Whether wood is left everywhere, and the half pins have not become weak."""
    edge = min(tried.first, tried.last)
    kept = edge > lean if tried.half_tails else edge >= min(before.first, before.last, *before.pins)
    return kept and min(edge, *tried.pins, *tried.tails) > 0
