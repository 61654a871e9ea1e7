"""Spacing by the shoulder line, with tails equal to pins, or as listed."""

from fractions import Fraction

from joinery_templates.errors import InputError, mistake
from joinery_templates.joints.spacing.parameters import (
    COUNT_RULE,
    HALF_PIN,
    HALF_PIN_RULE,
    HALF_TAIL,
    HALF_TAIL_RULE,
    LINES,
    PIN_RULE,
    TAIL_RULE,
    SpacingGiven,
)
from joinery_templates.joints.spacing.terms import (
    Ground,
    Run,
    check_count,
    does_not_add_up,
    nearest_whole,
    proposed_pin,
    proposed_tail,
    sure,
)

Laid = tuple[Run, list[str]]
"""A run of widths, and what was decided by a rule."""

SHOULDER_RULE = (
    "half the greatest width of a socket, at the shoulder line "
    "(Noyes, Handwork in Wood, 1910, ch. VII, no. 48)"
)
EQUAL_RULE = (
    "of one width at the line named, which is strongest "
    "(Noyes, Handwork in Wood, 1910, ch. VII, no. 48; which line is our judgement)"
)
REST_RULE = "what the widths given leave over, the same at both edges (our judgement)"


def by_shoulder(given: SpacingGiven, ground: Ground) -> Laid:
    """The shoulder line in as many equal parts as tails.

    Half the greatest width of a socket is set off on each side of every division and
    from both edges (Noyes, Handwork in Wood, 1910, ch. VII, no. 48). At the shoulder a
    half pin is therefore half as wide as a whole one.

    Raises:
        InputError: with half tails, or where pin and socket contradict each other.
    """
    if given.edges != HALF_PIN:
        raise InputError(
            mistake(
                "not-with-this-style",
                "This rule has half pins at the edges.",
                f'Leave it out, or set start = "{HALF_PIN}".',
                "start",
            )
        )
    rules: list[str] = []
    socket, pin, lean = given.chosen.socket, given.pin, ground.lean
    if socket is not None and pin is not None and socket != pin + 2 * lean:
        raise InputError(
            mistake(
                "does-not-add-up",
                f"A pin of {ground.text(pin)} is {ground.text(pin + 2 * lean)} wide at the "
                f"shoulder line, and not {ground.text(socket)}.",
                "Leave out the pin or the socket.",
                "spacing.socket",
            )
        )
    if socket is not None:
        pin = socket - 2 * lean
    elif pin is None:
        pin = proposed_pin(ground)
        rules.append(f"Pin: {PIN_RULE}.")
    count = given.tails
    if count is None:
        if given.tail is None:
            rules.append(f"Tail: {TAIL_RULE}.")
        wish = proposed_tail(pin, ground) if given.tail is None else given.tail
        count = max(1, nearest_whole(ground.width / max(wish + pin, Fraction(1, 1000))))
        rules.append(f"Number of tails: {COUNT_RULE}.")
    check_count(count)
    rules.append(f"Half pin: {SHOULDER_RULE}.")
    tail = ground.width / max(count, 1) - pin
    half = pin / 2  # at the shoulder pin / 2 + lean: half of pin + 2 lean
    return Run(HALF_PIN, half, (tail,) * count, (pin,) * (count - 1), half), rules


def equal_to_pins(given: SpacingGiven, ground: Ground) -> Laid:
    """Tails as wide as the pins at a line across them.

    Strongest, by Noyes (Handwork in Wood, 1910, ch. VII, no. 48); he does not say at
    which line.

    Raises:
        InputError: where the widths given do not add up.
    """
    lean = ground.lean * LINES[given.chosen.at or "middle"]
    rules = [f"Tails and pins: {EQUAL_RULE}."]
    fixed = None if given.pin is None else given.pin + 2 * lean
    if given.tail is not None and given.tails is not None:
        fixed = given.tail - 2 * lean
    if None not in (given.pin, given.tail) and sure(given.pin) + 4 * lean != given.tail:
        raise InputError(
            mistake(
                "does-not-add-up",
                f"A pin of {ground.text(sure(given.pin))} and a tail of "
                f"{ground.text(sure(given.tail))} at the end are not of one width at that line.",
                "Leave one of them out.",
                "tail",
            )
        )
    solve = _equal_half_tails if given.edges == HALF_TAIL else _equal_half_pins
    return solve(given, ground, lean, fixed, rules), rules


def _wish(given: SpacingGiven, ground: Ground, lean: Fraction, fixed: Fraction | None) -> Fraction:
    """The width at the line that the number of tails follows."""
    if fixed is not None:
        return fixed
    wish = ground.pin_thickness if given.tail is None else given.tail - 2 * lean
    return max(wish, Fraction(1, 10))


def _equal_half_pins(
    given: SpacingGiven, ground: Ground, lean: Fraction, fixed: Fraction | None, rules: list[str]
) -> Run:
    first, last = given.half_pin, given.half_pin_far
    last = first if last is None else last
    known = (first or 0) + (last or 0)
    unknown = (first is None) + (last is None)
    # At the end a half pin by rule is width - 2 lean + the whole lean, so that
    # W = known + unknown (width - 2 lean + whole lean) + (2 tails - 1) width + 2 lean.
    rest = ground.width - known - 2 * lean + unknown * (2 * lean - ground.lean)
    count = given.tails
    if count is None:
        wish = _wish(given, ground, lean, fixed)
        count = max(1, nearest_whole((rest / wish + 1 - unknown) / 2))
        rules.append(f"Number of tails: {COUNT_RULE}.")
    check_count(count)
    width = rest / (max(2 * count, 1) - 1 + unknown) if fixed is None else fixed
    tail, pin = width + 2 * lean, width - 2 * lean
    inner = count * tail + (count - 1) * pin
    if unknown and fixed is None:
        rules.append(f"Half pin: {HALF_PIN_RULE}.")
    elif unknown:
        rules.append(f"Half pin: {REST_RULE}.")
    half = (ground.width - known - inner) / unknown if unknown else Fraction(0)
    ends = (half if first is None else first, half if last is None else last)
    run = Run(HALF_PIN, ends[0], (tail,) * count, (pin,) * (count - 1), ends[1])
    if run.total != ground.width:
        raise does_not_add_up(ground, run.total)
    return run


def _equal_half_tails(
    given: SpacingGiven, ground: Ground, lean: Fraction, fixed: Fraction | None, rules: list[str]
) -> Run:
    half, count = given.half_tail, given.tails
    # W = 2 half + tails (width + 2 lean) + (tails + 1)(width - 2 lean); half = width / 2 + lean.
    rest, more = (ground.width, 2) if half is None else (ground.width - 2 * half + 2 * lean, 1)
    if count is None:
        wish = _wish(given, ground, lean, fixed)
        count = max(0, nearest_whole((rest / wish - more) / 2))
        rules.append(f"Number of tails: {COUNT_RULE}.")
    check_count(count)
    width = rest / (2 * count + more) if fixed is None else fixed
    tail, pin = width + 2 * lean, width - 2 * lean
    if half is None:
        half = (ground.width - count * tail - (count + 1) * pin) / 2
        rules.append(f"Half tail: {HALF_TAIL_RULE if fixed is None else REST_RULE}.")
    run = Run(HALF_TAIL, half, (tail,) * count, (pin,) * (count + 1), half)
    if run.total != ground.width:
        raise does_not_add_up(ground, run.total)
    return run


def as_listed(given: SpacingGiven, ground: Ground) -> Laid:
    """The tails and pins of a list, in order; what stands at the edges takes up the rest.

    Raises:
        InputError: where the list is missing, begins or ends wrongly, or does not fit.
    """
    half_tails = given.edges == HALF_TAIL
    widths = given.chosen.widths
    if widths is None:
        raise InputError(
            mistake(
                "missing",
                "widths is missing.",
                'Write for example { style = "listed", widths = [20, 5, 30, 5, 20] }.',
                "spacing.widths",
            )
        )
    if given.chosen.mirrored:
        widths = (*widths, *widths[-2::-1])
    if len(widths) % 2 == 0:
        piece = "pin" if half_tails else "tail"
        raise InputError(
            mistake(
                "list-uneven",
                f"The list has {len(widths)} widths; it begins and ends with a {piece}, so that "
                "their number is odd.",
                "Add or take away one, or write mirrored = true to list up to the middle only.",
                "spacing.widths",
            )
        )
    tails, pins = (widths[1::2], widths[::2]) if half_tails else (widths[::2], widths[1::2])
    check_count(len(tails))
    rest = ground.width - sum(widths)
    first, last = _listed_edges(given, rest)
    run = Run(given.edges, first, tails, pins, last)
    if run.total != ground.width:
        raise does_not_add_up(ground, run.total, "spacing.widths")
    both = (given.half_pin, given.half_pin_far, given.half_tail)
    edge = "Half tail" if half_tails else "Half pin"
    return run, [] if any(both) else [f"{edge}: {REST_RULE}."]


def _listed_edges(given: SpacingGiven, rest: Fraction) -> tuple[Fraction, Fraction]:
    if given.half_tail is not None:
        return given.half_tail, given.half_tail
    first, last = given.half_pin, given.half_pin_far
    if first is None and last is None:
        return rest / 2, rest / 2
    if first is None:
        return rest - sure(last), sure(last)
    return first, rest - first if last is None else last
