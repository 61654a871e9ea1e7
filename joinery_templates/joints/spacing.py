"""Spacing of tails across a board, however the person fixes it.

All widths here are measured where the joiner sets out: on the tail board's
outside face, at its very end. Whatever is given, the result is the same fully
stated `Spacing`, in which every width is exact and they add up to the board.

    edge |half pin| tail |pin| tail |pin| tail |half pin| edge
         0        h     h+t          marks                W
"""

import math
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.joints.parameter import Quantity, parameter
from joinery_templates.lengths import INCH, Units, length_text

HALF_PIN = "half-pin"
HALF_TAIL = "half-tail"
MOST_TAILS = 200

TAILS_PER_PIN = Fraction(5, 2)
"""Tails are on average 2 1/2 times the pins in carcase work (The Technique of Furniture
Making, chapter on dovetailing); taken here at half the depth of the joint."""

PIN_RULE = "a third of the pin board's thickness at its narrow side (our judgement)"
TAIL_RULE = (
    "tails 2 1/2 times the pins at half depth "
    "(The Technique of Furniture Making, chapter on dovetailing)"
)
HALF_PIN_RULE = (
    "a half pin about as wide as a whole pin at the baseline (common practice, no source)"
)
HALF_TAIL_RULE = "half a tail at each edge, so that the pitch is even (common practice, no source)"
COUNT_RULE = "as many tails as come nearest to the tail width wished for (our judgement)"


@dataclass(frozen=True, slots=True, kw_only=True)
class SpacingGiven:
    """What fixes the spacing; every joint with tails has these parameters."""

    start: str = parameter(
        Quantity.CHOICE,
        "What stands at the two edges: half pins as cut by hand, or half tails as cut by machine.",
        default=HALF_PIN,
        choices=(HALF_PIN, HALF_TAIL),
    )
    tails: int | None = parameter(
        Quantity.COUNT,
        "How many whole tails; half tails at the edges are not counted.",
        rule=COUNT_RULE,
        low=0,
        high=MOST_TAILS,
    )
    pin: Fraction | None = parameter(
        Quantity.LENGTH,
        "Width of a pin at its narrow side, between two tails.",
        rule=PIN_RULE,
        low=0,
        above=True,
    )
    tail: Fraction | None = parameter(
        Quantity.LENGTH,
        "Width of a tail at its wide side; without `tails` a wish that the count follows.",
        rule=TAIL_RULE,
        low=0,
        above=True,
    )
    half_pin: Fraction | None = parameter(
        Quantity.LENGTH,
        "Width of the half pin at the reference edge, narrow side.",
        rule=HALF_PIN_RULE,
        low=0,
        above=True,
    )
    half_pin_far: Fraction | None = parameter(
        Quantity.LENGTH,
        "Width of the half pin at the far edge, narrow side.",
        rule="the same as at the reference edge",
        low=0,
        above=True,
    )
    half_tail: Fraction | None = parameter(
        Quantity.LENGTH,
        "Width of the half tails at the edges, wide side; with half tails only.",
        rule=HALF_TAIL_RULE,
        low=0,
        above=True,
    )


@dataclass(frozen=True, slots=True)
class Tail:
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


@dataclass(frozen=True, slots=True)
class Spacing:
    """A fully stated spacing.

    Attributes:
        width: the board's width.
        tails: from the reference edge on, half tails included.
        rules: what was decided by a rule and not given, in words with the source.
    """

    width: Fraction
    tails: tuple[Tail, ...]
    rules: tuple[str, ...] = ()

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


@dataclass(frozen=True, slots=True)
class Ground:
    """What a spacing stands on.

    Attributes:
        width: the board's width.
        lean: how far a side comes in between the end and the baseline.
        pin_thickness: thickness of the pin board.
        units: for the figures that a proposal is rounded to.
        smallest_pin: no proposed pin is narrower than this.
    """

    width: Fraction
    lean: Fraction
    pin_thickness: Fraction
    units: Units
    smallest_pin: Fraction | None = None


def space_tails(given: SpacingGiven, ground: Ground) -> Spacing:
    """The spacing that follows from what is given.

    Raises:
        InputError: where too much is given and does not add up, or nothing that
            can be cut follows.
    """
    start = _from_half_tails if given.start == HALF_TAIL else _from_half_pins
    spacing = start(given, ground)
    narrowest = min(tail.width_at(ground.lean) for tail in spacing.tails)
    if narrowest <= 0:
        raise InputError(_crossing_tails(spacing, ground))
    return spacing


def proposed_pin(ground: Ground) -> Fraction:
    """A pin's narrow width by `PIN_RULE`, in a figure that a joiner can set.

    Rounded to a half millimetre or a sixteenth of an inch; from 3 mm (1/8 in) to
    12 mm (1/2 in), and not below what the person's tools can clear.
    """
    low, high = (Fraction(3), Fraction(12)) if ground.units is Units.MM else (INCH / 8, INCH / 2)
    nearest = _settable(ground.pin_thickness / 3, ground.units)
    return max(min(max(nearest, low), high), ground.smallest_pin or Fraction(0))


def proposed_tail(pin: Fraction, ground: Ground) -> Fraction:
    """A tail's wide width by `TAIL_RULE`, for a pin of a narrow width."""
    return (pin + ground.lean) * TAILS_PER_PIN + ground.lean


def _from_half_pins(given: SpacingGiven, ground: Ground) -> Spacing:
    _refuse(given, ("half_tail",), HALF_PIN)
    rules: list[str] = []
    pin, tail, count = given.pin, given.tail, given.tails
    pin_follows = pin is None and tail is not None and count is not None and count > 1
    if pin is None and not pin_follows:
        pin = proposed_pin(ground)
        if count != 1:
            rules.append(f"Pin: {PIN_RULE}.")
    everything = count is not None and tail is not None and pin is not None
    first, last = _half_pins(given, ground, pin, everything, rules)
    between = ground.width - first - last
    if count is None:
        assert pin is not None  # only with a count given can the pin follow
        if tail is None:
            tail = proposed_tail(pin, ground)
            rules.append(f"Tail: {TAIL_RULE}.")
        count = max(1, _nearest((between + pin) / (tail + pin)))
        rules.append(f"Number of tails: {COUNT_RULE}.")
        _check_count(count)
        tail = None
    if count < 1:
        raise InputError(mistake("no-tail", "There must be at least 1 tail.", place="tails"))
    if pin is None:
        assert tail is not None
        pin = (between - count * tail) / (count - 1)
    exact_tail = (between - (count - 1) * pin) / count
    _check_widths(
        ground.units,
        ("pin", pin),
        ("tail", exact_tail),
        ("half_pin", first),
        ("half_pin_far", last),
    )
    if everything and tail != exact_tail:
        stated = first + last + count * _sure(tail) + (count - 1) * pin
        raise InputError(_does_not_add_up(ground, stated))
    starts = (first + number * (exact_tail + pin) for number in range(count))
    tails = tuple(Tail(left, left + exact_tail) for left in starts)
    return Spacing(ground.width, tails, tuple(rules))


def _half_pins(
    given: SpacingGiven, ground: Ground, pin: Fraction | None, everything: bool, rules: list[str]
) -> tuple[Fraction, Fraction]:
    """The two half pins: given, or what is left over, or by `HALF_PIN_RULE`."""
    first, last = given.half_pin, given.half_pin_far
    if first is not None and last is None and not everything:
        return first, first
    if first is not None and last is not None:
        return first, last
    count, tail = given.tails, given.tail
    if everything:
        assert count is not None
        assert tail is not None
        assert pin is not None
        rest = ground.width - count * tail - (count - 1) * pin
        if first is None and last is None:
            return rest / 2, rest / 2
        # One half pin is given: the same at both edges if that adds up, else the rest.
        known = _sure(first if first is not None else last)
        return (known, rest - known) if first is not None else (rest - known, known)
    if pin is not None:
        derived = _settable(pin + ground.lean, ground.units)
    else:
        # The pin follows too: W = known + count tail + (count - 1) pin + unknown (pin + lean).
        assert count is not None
        assert tail is not None
        known, unknown = (Fraction(0), 2) if last is None else (last, 1)
        rest = ground.width - known - count * tail - unknown * ground.lean
        derived = rest / (count - 1 + unknown) + ground.lean
    rules.append(f"Half pin: {HALF_PIN_RULE}.")
    return derived, derived if last is None else last


def _from_half_tails(given: SpacingGiven, ground: Ground) -> Spacing:
    _refuse(given, ("half_pin", "half_pin_far"), HALF_TAIL)
    rules: list[str] = []
    pin, tail, count, half = given.pin, given.tail, given.tails, given.half_tail
    if pin is None and (tail is None or count is None):
        pin = proposed_pin(ground)
        rules.append(f"Pin: {PIN_RULE}.")
    if count is None:
        assert pin is not None
        if tail is None:
            tail = proposed_tail(pin, ground)
            rules.append(f"Tail: {TAIL_RULE}.")
        between = ground.width - pin if half is None else ground.width - 2 * half - pin
        count = max(0, _nearest(between / (tail + pin)) - (1 if half is None else 0))
        rules.append(f"Number of tails: {COUNT_RULE}.")
        _check_count(count)
        tail = None
    if half is None and not (pin is not None and tail is not None):
        rules.append(f"Half tail: {HALF_TAIL_RULE}.")
    half, pin, tail = _half_tail_widths(half, pin, tail, count, ground)
    _check_widths(
        ground.units, ("half_tail", half), ("pin", pin), *((("tail", tail),) if count else ())
    )
    stated = 2 * half + count * tail + (count + 1) * pin
    if stated != ground.width:
        raise InputError(_does_not_add_up(ground, stated))
    starts = [half + pin + number * (tail + pin) for number in range(count)]
    tails = (
        Tail(Fraction(0), half, left_slopes=False),
        *(Tail(left, left + tail) for left in starts),
        Tail(ground.width - half, ground.width, right_slopes=False),
    )
    return Spacing(ground.width, tails, tuple(rules))


def _half_tail_widths(
    half: Fraction | None, pin: Fraction | None, tail: Fraction | None, count: int, ground: Ground
) -> tuple[Fraction, Fraction, Fraction]:
    """Half tail, pin and tail from W = 2 half + (count + 1) pin + count tail."""
    width = ground.width
    if pin is None:
        tail = _sure(tail)
        half = tail / 2 if half is None else half
        return half, (width - 2 * half - count * tail) / (count + 1), tail
    if tail is None:
        if half is None:
            tail = width / (count + 1) - pin
            return tail / 2, pin, tail
        whole = width - 2 * half - (count + 1) * pin
        if not count:
            return half, pin, whole  # no whole tail: what is over shows in the sum
        return half, pin, whole / count
    half = (width - (count + 1) * pin - count * tail) / 2 if half is None else half
    return half, pin, tail


def _refuse(given: SpacingGiven, names: tuple[str, ...], start: str) -> None:
    findings = [
        mistake(
            "not-with-this-start",
            f"This does not go together with half {start.removeprefix('half-')}s at the edges.",
            f'Leave it out, or set start = "{HALF_TAIL if start == HALF_PIN else HALF_PIN}".',
            name,
        )
        for name in names
        if getattr(given, name) is not None
    ]
    if findings:
        raise InputError(*findings)


def _check_count(count: int) -> None:
    if count > MOST_TAILS:
        raise InputError(
            mistake(
                "too-many-tails",
                f"That would be {count} tails; this program lays out at most {MOST_TAILS}.",
                "Give wider tails or pins.",
                "tail",
            )
        )


def _check_widths(units: Units, *named: tuple[str, Fraction]) -> None:
    for name, width in named:
        if width <= 0:
            raise InputError(
                mistake(
                    "no-room",
                    f"Nothing is left for the {name.replace('_', ' ')}: "
                    f"it would be {length_text(width, units)} wide.",
                    "Give fewer or narrower tails, narrower pins, or a wider board.",
                    name,
                )
            )


def _does_not_add_up(ground: Ground, stated: Fraction) -> Finding:
    units = ground.units
    return mistake(
        "does-not-add-up",
        f"The widths given add up to {length_text(stated, units)}, "
        f"and the board is {length_text(ground.width, units)} wide.",
        "Leave one of them out and it will be worked out.",
        "tails",
    )


def _crossing_tails(spacing: Spacing, ground: Ground) -> Finding:
    tail = min(spacing.tails, key=lambda tail: tail.width_at(ground.lean))
    return mistake(
        "tails-cross",
        f"A tail {length_text(tail.width, ground.units)} wide at the end runs out before the "
        f"baseline: its sides come in by {length_text(ground.lean, ground.units)} each.",
        "Give fewer tails, narrower pins, or a slope that leans less.",
        "tails",
    )


def _settable(length: Fraction, units: Units) -> Fraction:
    """The nearest half millimetre or sixteenth of an inch."""
    grid = Fraction(1, 2) if units is Units.MM else INCH / 16
    return _nearest(length / grid) * grid


def _nearest(value: Fraction) -> int:
    return math.floor(value + Fraction(1, 2))


def _sure(value: Fraction | None) -> Fraction:
    assert value is not None
    return value


def marks_of(spacing: Spacing, lean: Fraction) -> tuple[tuple[Fraction, int, bool], ...]:
    """The marks where sloping sides stand when they have come in by `lean`.

    Returns:
        For each mark: its place from the reference edge, the number of its tail
        among all tails (1 is the first), and whether that tail starts there.
    """
    marks = []
    for number, tail in enumerate(spacing.tails, start=1):
        if tail.left_slopes:
            marks.append((tail.left + lean, number, True))
        if tail.right_slopes:
            marks.append((tail.right - lean, number, False))
    return tuple(marks)
