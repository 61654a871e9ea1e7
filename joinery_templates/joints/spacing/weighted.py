"""Spacing with tails of several widths: graded, smaller near the edges, pins in clusters.

All pins are of one width. Each tail is a fixed width or a share of one unit, and the
unit is what the board's width makes it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.errors import InputError, mistake
from joinery_templates.joints.settable import settable
from joinery_templates.joints.spacing.parameters import (
    COUNT_RULE,
    HALF_PIN_RULE,
    HALF_TAIL,
    PIN_RULE,
    TAIL_RULE,
    SpacingGiven,
)
from joinery_templates.joints.spacing.styles import Laid
from joinery_templates.joints.spacing.terms import (
    Ground,
    Run,
    check_count,
    does_not_add_up,
    nearest_whole,
    proposed_pin,
    proposed_tail,
)

GRADED_RATIO = Fraction(5, 4)
SMALL_RATIO = Fraction(2)
SMALL_RULE = (
    "small tails near the edges hold the corners against twisting "
    "(The Technique of Furniture Making, chapter on dovetailing)"
)
OUTERMOST_RULE = "half of the outermost tail, of the wide ones (our judgement)"
WIDE_RULE = "wide ones about twice as wide as the narrow ones (our judgement)"
NARROW_RULE = "as wide as a pin where both meet the baseline (our judgement)"


@dataclass(frozen=True, slots=True)
class _Frame:
    """What is known before the tails: the pins, and what stands at the edges.

    Attributes:
        given: what the person said.
        ground: the board.
        pin: width of every pin.
        edges: the half pins or half tails; None for half tails that follow the tails.
        rules: what was decided by a rule so far.
    """

    given: SpacingGiven
    ground: Ground
    pin: Fraction
    edges: tuple[Fraction, Fraction] | None
    rules: list[str]

    @property
    def half_tails(self) -> bool:
        return self.given.edges == HALF_TAIL

    def wish(self, least: Fraction = Fraction(0)) -> Fraction:
        """The width wished for of an ordinary tail, by rule at least `least`."""
        if self.given.tail is not None:
            return self.given.tail
        proposed = proposed_tail(self.pin, self.ground)
        self.rules.append(f"Tail: {TAIL_RULE if proposed >= least else WIDE_RULE}.")
        return max(proposed, least)

    def count(self, least: int) -> int:
        """How many whole tails, at least `least`."""
        count = self.given.tails
        if count is not None:
            if count < least:
                raise InputError(
                    mistake(
                        "too-few-tails",
                        f"This spacing needs at least {least} whole tails.",
                        "Give more tails, or another style.",
                        "tails",
                    )
                )
            return count
        wish = self.wish()
        self.rules.append(f"Number of tails: {COUNT_RULE}.")
        width = self.ground.width
        if self.edges is None:
            return max(least, nearest_whole(width / (wish + self.pin)) - 1)
        between = width - sum(self.edges) + (-self.pin if self.half_tails else self.pin)
        return max(least, nearest_whole(between / (wish + self.pin)))

    def fill(self, weights: Sequence[Fraction], fixed: Fraction = Fraction(0)) -> Run:
        """The run whose tails have these weights; a weight of 0 stands for the fixed width.

        Half tails that follow are half of the outermost tail that has a weight.
        """
        check_count(len(weights))
        pins = (self.pin,) * (len(weights) + (1 if self.half_tails else -1))
        taken = sum(pins) + weights.count(Fraction(0)) * fixed
        # Of clusters the tails next to the half tails may all be narrow.
        outermost = weights[0] or Fraction(1)
        last = weights[-1] or Fraction(1)
        share, edges = sum(weights), self.edges
        if edges is None:
            share += (outermost + last) / 2
        else:
            taken += sum(edges)
        unit = (self.ground.width - taken) / share if share else Fraction(0)
        if edges is None:
            self.rules.append(f"Half tail: {OUTERMOST_RULE}.")
            edges = (outermost * unit / 2, last * unit / 2)
        tails = tuple(weight * unit if weight else fixed for weight in weights)
        run = Run(self.given.edges, edges[0], tails, pins, edges[1])
        if run.total != self.ground.width:
            raise does_not_add_up(self.ground, run.total, "half_tail")
        return run


def _frame(given: SpacingGiven, ground: Ground) -> _Frame:
    rules: list[str] = []
    pin = given.pin
    if pin is None:
        pin = proposed_pin(ground)
        rules.append(f"Pin: {PIN_RULE}.")
    if given.edges == HALF_TAIL:
        half = given.half_tail
        return _Frame(given, ground, pin, None if half is None else (half, half), rules)
    first, last = given.half_pin, given.half_pin_far
    by_rule = settable(pin + ground.lean, ground.units)
    if first is None:
        rules.append(f"Half pin: {HALF_PIN_RULE}.")
    ends = (by_rule if first is None else first, last or first or by_rule)
    return _Frame(given, ground, pin, ends, rules)


def graded(given: SpacingGiven, ground: Ground) -> Laid:
    """Each tail is so many times as wide as its neighbour nearer the edge.

    Mirrored, the tails change towards the middle; else from the reference edge to the
    far edge.
    """
    frame, ratio = _frame(given, ground), given.chosen.ratio or GRADED_RATIO
    if given.chosen.ratio is None:
        frame.rules.append("Ratio: each tail 5/4 of its neighbour (our judgement).")
    count = frame.count(1)
    check_count(count)
    mirrored = given.chosen.mirrored is not False
    powers = (min(n, count - 1 - n) if mirrored else n for n in range(count))
    return frame.fill([ratio**power for power in powers]), frame.rules


def small_edges(given: SpacingGiven, ground: Ground) -> Laid:
    """Narrower tails near both edges, or near the reference edge only.

    So carcases are dovetailed: small tails near the front and back edges keep the edges
    of the panel from twisting (The Technique of Furniture Making, chapter on dovetailing).
    """
    frame, ratio = _frame(given, ground), given.chosen.ratio or SMALL_RATIO
    if ratio <= 1:
        raise InputError(
            mistake(
                "out-of-limits",
                "The other tails must be wider than the small ones.",
                "Give a ratio above 1.",
                "spacing.ratio",
            )
        )
    small = given.chosen.edge_tails or 1
    near = (small, small if given.chosen.mirrored is not False else 0)
    count = frame.count(sum(near) + 1)
    frame.rules.append(f"Small tails: {SMALL_RULE}.")
    one = Fraction(1)
    weights = [one] * near[0] + [ratio] * (count - sum(near)) + [one] * near[1]
    return frame.fill(weights), frame.rules


def clusters(given: SpacingGiven, ground: Ground) -> Laid:
    """Two or three pins stand together, with narrow tails between them, and wide tails apart.

    Raises:
        InputError: where the number of tails does not make whole clusters, or the wide
            tails are not wider than the narrow ones.
    """
    frame, together = _frame(given, ground), given.chosen.pins_together or 2
    narrow = given.chosen.narrow_tail
    if narrow is None:
        narrow = settable(frame.pin + 4 * ground.lean, ground.units)
        frame.rules.append(f"Narrow tail: {NARROW_RULE}.")
    groups = _groups(frame, together, narrow)
    inside = [Fraction(0)] * (together - 1)
    apart: list[Fraction] = [] if frame.half_tails else [Fraction(1)]
    weights = [*apart, *inside]
    for _ in range(groups - 1):
        weights += [Fraction(1), *inside]
    run = frame.fill([*weights, *apart], narrow)
    wide = run.first * 2 if groups == 1 and frame.half_tails else max(run.tails)
    if wide <= narrow:
        raise InputError(
            mistake(
                "no-clusters",
                f"The tails between the clusters would be no wider than the narrow ones of "
                f"{ground.text(narrow)}.",
                "Give fewer clusters, or narrower pins or narrow tails.",
                "spacing",
            )
        )
    return run, frame.rules


def _groups(frame: _Frame, together: int, narrow: Fraction) -> int:
    """How many clusters: given, or as many as the tails given make, or by the wish."""
    groups, tails = frame.given.chosen.groups, frame.given.tails
    extra = -1 if frame.half_tails else 1  # whole tails beyond `together` for each cluster
    if tails is not None:
        made = max(1, nearest_whole(Fraction(tails - extra, together)))
        made = groups or made
        if made * together + extra != tails:
            raise InputError(
                mistake(
                    "no-whole-clusters",
                    f"{tails} tails do not make {made} clusters of {together} pins; "
                    f"{made * together + extra} would.",
                    "Leave out the number of tails, or give one that does.",
                    "tails",
                )
            )
        return made
    if groups is not None:
        return groups
    wish = frame.wish(2 * narrow)
    frame.rules.append(f"Number of clusters: {COUNT_RULE}.")
    room = frame.ground.width
    if frame.edges is not None:
        room += -sum(frame.edges) - extra * wish
    return max(1, nearest_whole(room / (wish + (together - 1) * narrow + together * frame.pin)))
