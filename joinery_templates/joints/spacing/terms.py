"""A fully stated spacing of tails, and the words and checks that all its makers share.

All widths here are measured where the joiner sets out: on the tail board's
outside face, at its very end. Every width is exact and they add up to the board.

    edge |half pin| tail |pin| tail |pin| tail |half pin| edge
         0        h     h+t          marks                W
"""

import math
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.joints.gauge import as_a_gauge_is_set
from joinery_templates.joints.spacing.parameters import (
    HALF_PIN,
    HALF_TAIL,
    MOST_TAILS,
    SpacingParameters,
)
from joinery_templates.lengths import INCH, Units, length_text

TAILS_PER_PIN = Fraction(5, 2)
"""Tails are on average 2 1/2 times the pins in carcase work (The Technique of Furniture
Making, chapter on dovetailing); taken here at half the depth of the joint."""


class Tail(Struct, frozen=True):
    """One tail from `left` to `right`, in mm from the reference edge.

    A side at the board's edge is the edge itself and does not slope.
    """

    left: Fraction
    right: Fraction
    left_slopes: bool = True
    right_slopes: bool = True

    @property
    def width(self) -> Fraction:
        """The wide width."""
        return self.right - self.left

    @property
    def whole(self) -> bool:
        """False for a half tail at an edge."""
        return self.left_slopes and self.right_slopes

    def width_at(self, lean: Fraction) -> Fraction:
        """The width where each sloping side has come in by `lean` mm."""
        return self.width - lean * (self.left_slopes + self.right_slopes)


class Spacing(Struct, frozen=True):
    """A fully stated spacing.

    Attributes:
        width: the board's width.
        tails: from the reference edge on, half tails included.
        rules: what was decided by a rule and not given, in words with the source.
        findings: advice on the spacing alone, such as a groove that runs into a pin.
    """

    width: Fraction
    tails: tuple[Tail, ...]
    rules: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def pins(self) -> tuple[Fraction, ...]:
        """Widths of the whole pins, narrow side, in order."""
        return tuple(after.left - before.right for before, after in pairwise(self.tails))

    @property
    def half_pins(self) -> tuple[Fraction, ...]:
        """Widths of the half pins at the two edges; empty with half tails."""
        first, last = self.tails[0].left, self.width - self.tails[-1].right
        return (first, last) if first else ()

    @property
    def whole_tails(self) -> tuple[Tail, ...]:
        """The tails with two sloping sides."""
        return tuple(tail for tail in self.tails if tail.whole)

    @property
    def step(self) -> Fraction | None:
        """The divider setting, from the start of one pin to the start of the next.

        None where there is only one or the steps differ.
        """
        starts = [tail.right for tail in self.tails if tail.right != self.width]
        if self.half_pins:
            starts = [tail.left for tail in self.tails]
        steps = {after - before for before, after in pairwise(starts)}
        return steps.pop() if len(steps) == 1 else None


class Ground(Struct, frozen=True):
    """What a spacing stands on.

    Attributes:
        width: the board's width.
        lean: how far a side comes in between the end and the baseline.
        pin_thickness: thickness of the pin board.
        units: for the figures that a proposal is rounded to.
        smallest_pin: no proposed pin is narrower than this.
        from_edge: how far from the board's reference edge the spacing begins.
        board_width: of the whole board, where the spacing does not reach its far edge.
    """

    width: Fraction
    lean: Fraction
    pin_thickness: Fraction
    units: Units
    smallest_pin: Fraction | None = None
    from_edge: Fraction = Fraction(0)
    board_width: Fraction | None = None

    def text(self, length: Fraction) -> str:
        """A length in the person's units."""
        return length_text(length, self.units)


class Run(Struct, frozen=True):
    """The widths from edge to edge, while a spacing is being worked out.

    Attributes:
        start: what stands at the two edges, `HALF_PIN` or `HALF_TAIL`.
        first: the piece at the reference edge.
        tails: widths of the whole tails.
        pins: widths of the whole pins: one less than tails with half pins, else one more.
        last: the piece at the far edge.
    """

    start: str
    first: Fraction
    tails: tuple[Fraction, ...]
    pins: tuple[Fraction, ...]
    last: Fraction

    @property
    def total(self) -> Fraction:
        """What all the widths come to."""
        return self.first + sum(self.tails) + sum(self.pins) + self.last

    def spaced(self, rules: tuple[str, ...]) -> Spacing:
        """The tails in their places."""
        whole, place = [], self.first
        pins = iter(self.pins)
        if self.start == HALF_TAIL:
            place += next(pins)
        for tail in self.tails:
            whole.append(Tail(place, place + tail))
            place += tail + next(pins, Fraction(0))
        if self.start == HALF_PIN:
            return Spacing(self.total, tuple(whole), rules)
        first = Tail(Fraction(0), self.first, left_slopes=False)
        last = Tail(self.total - self.last, self.total, right_slopes=False)
        return Spacing(self.total, (first, *whole, last), rules)


def proposed_pin(ground: Ground) -> Fraction:
    """A pin's narrow width by `PIN_RULE`, in a figure that a joiner can set.

    Rounded to a half millimetre or a sixteenth of an inch; from 3 mm (1/8 in) to
    12 mm (1/2 in), and not below what the person's tools can clear.
    """
    low, high = (Fraction(3), Fraction(12)) if ground.units is Units.MM else (INCH / 8, INCH / 2)
    nearest = as_a_gauge_is_set(ground.pin_thickness / 3, ground.units)
    return max(min(max(nearest, low), high), ground.smallest_pin or Fraction(0))


def proposed_tail(pin: Fraction, ground: Ground) -> Fraction:
    """A tail's wide width by `TAIL_RULE`, for a pin of a narrow width."""
    return (pin + ground.lean) * TAILS_PER_PIN + ground.lean


def nearest_whole(value: Fraction) -> int:
    """The nearest whole number, halves upwards."""
    return math.floor(value + Fraction(1, 2))


def refuse_other_start(given: SpacingParameters) -> None:
    """Half pins are not given together with half tails at the edges.

    Raises:
        InputError: `not-with-this-start`, for each.
    """
    halves = given.edges == HALF_TAIL
    other = HALF_PIN if halves else HALF_TAIL
    names = ["half_pin", "half_pin_far"] if halves else ["half_tail"]
    findings = [
        mistake(
            "not-with-this-start",
            f"This does not go together with half {given.edges.removeprefix('half-')}s at the "
            "edges.",
            f'Leave it out, or set start = "{other}".',
            name,
        )
        for name in names
        if getattr(given, name) is not None
    ]
    if findings:
        raise InputError(*findings)


def check_count(count: int) -> None:
    """There are not more tails than can be laid out.

    Raises:
        InputError: `too-many-tails`.
    """
    if count > MOST_TAILS:
        raise InputError(
            mistake(
                "too-many-tails",
                f"That would be {count} tails; this program lays out at most {MOST_TAILS}.",
                "Give wider tails or pins.",
                "tail",
            )
        )


def check_widths(ground: Ground, *named: tuple[str, Fraction]) -> None:
    """Every width, by its parameter's name, is above 0.

    Raises:
        InputError: `no-room`, for the first that is not.
    """
    for name, width in named:
        if width <= 0:
            raise InputError(
                mistake(
                    "no-room",
                    f"Nothing is left for the {name.replace('_', ' ')}: "
                    f"it would be {ground.text(width)} wide.",
                    "Give fewer or narrower tails, narrower pins, or a wider board.",
                    name,
                )
            )


def does_not_add_up(ground: Ground, stated: Fraction, place: str = "tails") -> InputError:
    """The error where too much is given."""
    return InputError(
        mistake(
            "does-not-add-up",
            f"The widths given add up to {ground.text(stated)}, "
            f"and the board is {ground.text(ground.width)} wide.",
            "Leave one of them out and it will be worked out.",
            place,
        )
    )
