"""Even spacing: all whole tails of one width and all pins of one width."""

from fractions import Fraction

from joinery_templates.errors import InputError, mistake
from joinery_templates.joints.settable import settable
from joinery_templates.joints.spacing.parameters import (
    COUNT_RULE,
    HALF_PIN_RULE,
    HALF_TAIL_RULE,
    PIN_RULE,
    TAIL_RULE,
    SpacingGiven,
)
from joinery_templates.joints.spacing.terms import (
    Ground,
    Spacing,
    Tail,
    check_count,
    check_widths,
    does_not_add_up,
    nearest_whole,
    proposed_pin,
    proposed_tail,
    sure,
)


def from_half_pins(given: SpacingGiven, ground: Ground) -> Spacing:
    """Even tails between half pins; see `spacing.space_tails`."""
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
        count = max(1, nearest_whole((between + pin) / (tail + pin)))
        rules.append(f"Number of tails: {COUNT_RULE}.")
        check_count(count)
        tail = None
    if count < 1:
        raise InputError(mistake("no-tail", "There must be at least 1 tail.", place="tails"))
    if pin is None:
        assert tail is not None
        pin = (between - count * tail) / (count - 1)
    exact_tail = (between - (count - 1) * pin) / count
    check_widths(
        ground,
        ("pin", pin),
        ("tail", exact_tail),
        ("half_pin", first),
        ("half_pin_far", last),
    )
    if everything and tail != exact_tail:
        stated = first + last + count * sure(tail) + (count - 1) * pin
        raise does_not_add_up(ground, stated)
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
        known = sure(first if first is not None else last)
        return (known, rest - known) if first is not None else (rest - known, known)
    if pin is not None:
        derived = settable(pin + ground.lean, ground.units)
    else:
        # The pin follows too: W = known + count tail + (count - 1) pin + unknown (pin + lean).
        assert count is not None
        assert tail is not None
        known, unknown = (Fraction(0), 2) if last is None else (last, 1)
        rest = ground.width - known - count * tail - unknown * ground.lean
        derived = rest / (count - 1 + unknown) + ground.lean
    rules.append(f"Half pin: {HALF_PIN_RULE}.")
    return derived, derived if last is None else last


def from_half_tails(given: SpacingGiven, ground: Ground) -> Spacing:
    """Even tails between half tails; see `spacing.space_tails`."""
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
        count = max(0, nearest_whole(between / (tail + pin)) - (1 if half is None else 0))
        rules.append(f"Number of tails: {COUNT_RULE}.")
        check_count(count)
        tail = None
    if half is None and not (pin is not None and tail is not None):
        rules.append(f"Half tail: {HALF_TAIL_RULE}.")
    half, pin, tail = _half_tail_widths(half, pin, tail, count, ground)
    check_widths(ground, ("half_tail", half), ("pin", pin), *((("tail", tail),) if count else ()))
    stated = 2 * half + count * tail + (count + 1) * pin
    if stated != ground.width:
        raise does_not_add_up(ground, stated)
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
        tail = sure(tail)
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
