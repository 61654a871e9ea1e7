"""Even spacing, by the shoulder line, with tails equal to pins, or as listed."""

from fractions import Fraction

from joinery_templates.errors import InputError, mistake
from joinery_templates.joints.spacing import parameters
from joinery_templates.joints.spacing.solver import HALF, ONE, UNKNOWN, Asked, Edges, Pattern, Width
from joinery_templates.joints.spacing.terms import Run, check_count

SHOULDER_RULE = (
    "half the greatest width of a socket, at the shoulder line "
    "(Noyes, Handwork in Wood, 1910, ch. VII, no. 48)"
)
EQUAL_RULE = (
    "of one width at the line named, which is strongest "
    "(Noyes, Handwork in Wood, 1910, ch. VII, no. 48; which line is our judgement)"
)
REST_RULE = "what the widths given leave over, the same at both edges (our judgement)"


def even(asked: Asked) -> Run:
    """All whole tails of one width and all pins of one width.

    What is not given follows: the pins where tails and their number are, what stands at the
    edges where all else is, and otherwise the tails.
    """
    given, ground = asked.given, asked.ground
    more = given.tails is not None and (asked.half_tails or given.tails > 1)
    pin_follows = given.pin is None and given.tail is not None and more
    pin = UNKNOWN
    if not pin_follows:
        pin = Width(asked.pin(told=asked.half_tails or given.tails != 1))
    tail_known = given.tail is not None and given.tails is not None
    edges_follow = tail_known and not pin_follows
    tail = Width(given.tail) if tail_known and given.tail is not None else UNKNOWN

    def edges() -> Edges:
        if asked.half_tails:
            half = given.half_tail
            if half is None and not edges_follow:
                asked.decide("Half tail", parameters.HALF_TAIL_RULE)
            by_rule = UNKNOWN if edges_follow else Width(tail.fixed / 2, tail.share / 2)
            return (by_rule if half is None else Width(half),) * 2
        ends = given.half_pin, given.half_pin_far
        if edges_follow:
            first, last = (UNKNOWN if end is None else Width(end) for end in ends)
            return first, last
        if pin_follows:
            return asked.half_pins(Width(ground.lean, ONE))
        return asked.half_pins(Width(asked.half_pin_by_rule(pin.fixed)))

    def pattern(count: int) -> Pattern:
        return asked.pattern((tail,) * count, pin, ends)

    if asked.half_tails:
        half = given.half_tail
        ends: Edges = ((Width(share=HALF) if half is None else Width(half)),) * 2
        count = asked.tails(pattern, lambda: asked.tail_wish(pin.fixed))
        ends = edges()
    else:
        ends = edges()
        count = asked.tails(pattern, lambda: asked.tail_wish(pin.fixed))
    return pattern(count).filling(ground, "tails")


def by_shoulder(asked: Asked) -> Run:
    """The shoulder line in as many equal parts as tails.

    Half the greatest width of a socket is set off on each side of every division and
    from both edges (Noyes, Handwork in Wood, 1910, ch. VII, no. 48). At the shoulder a
    half pin is therefore half as wide as a whole one.

    Raises:
        InputError: with half tails, or where pin and socket contradict each other.
    """
    if asked.half_tails:
        raise InputError(
            mistake(
                "not-with-this-style",
                "This rule has half pins at the edges.",
                f'Leave it out, or set start = "{parameters.HALF_PIN}".',
                "start",
            )
        )
    given, ground = asked.given, asked.ground
    socket, lean = given.chosen.socket, ground.lean
    if socket is not None and given.pin is not None and socket != given.pin + 2 * lean:
        raise InputError(
            mistake(
                "does-not-add-up",
                f"A pin of {ground.text(given.pin)} is {ground.text(given.pin + 2 * lean)} "
                f"wide at the shoulder line, and not {ground.text(socket)}.",
                "Leave out the pin or the socket.",
                "spacing.socket",
            )
        )
    pin = asked.pin() if socket is None else socket - 2 * lean
    half = Width(pin / 2)  # at the shoulder pin / 2 + lean: half of pin + 2 lean

    def pattern(count: int) -> Pattern:
        return asked.pattern((UNKNOWN,) * count, Width(pin), (half, half))

    count = asked.tails(pattern, lambda: asked.tail_wish(pin))
    asked.decide("Half pin", SHOULDER_RULE)
    return pattern(count).filling(ground, "tails")


def equal_to_pins(asked: Asked) -> Run:
    """Tails as wide as the pins at a line across them.

    Strongest, by Noyes (Handwork in Wood, 1910, ch. VII, no. 48); he does not say at
    which line. What is not known is that width, or, where it follows from what is given,
    what stands at the edges.

    Raises:
        InputError: where the widths given do not add up.
    """
    given, ground = asked.given, asked.ground
    lean = ground.lean * parameters.LINES[given.chosen.at or "middle"]
    asked.decide("Tails and pins", EQUAL_RULE)
    known = None if given.pin is None else given.pin + 2 * lean
    if given.tail is not None and given.tails is not None:
        known = given.tail - 2 * lean
    if given.pin is not None and given.tail not in (None, given.pin + 4 * lean):
        raise InputError(
            mistake(
                "does-not-add-up",
                f"A pin of {ground.text(given.pin)} and a tail of "
                f"{ground.text(given.tail or Fraction(0))} at the end are not of one width at "
                "that line.",
                "Leave one of them out.",
                "tail",
            )
        )
    ends = (given.half_tail,) * 2
    by_rule, rule, piece = Width(lean, HALF), parameters.HALF_TAIL_RULE, "Half tail"
    if not asked.half_tails:
        last = given.half_pin if given.half_pin_far is None else given.half_pin_far
        ends, piece = (given.half_pin, last), "Half pin"
        by_rule, rule = Width(ground.lean - 2 * lean, ONE), parameters.HALF_PIN_RULE

    def pattern(count: int, width: Width = UNKNOWN, edge: Width = by_rule) -> Pattern:
        tail, pin = (Width(width.fixed + more, width.share) for more in (2 * lean, -2 * lean))
        first, last = (edge if end is None else Width(end) for end in ends)
        return asked.pattern((tail,) * count, pin, (first, last))

    def wish() -> Fraction:
        if known is not None:
            return known
        wished = ground.pin_thickness if given.tail is None else given.tail - 2 * lean
        return max(wished, Fraction(1, 10))

    count = asked.tails(pattern, wish)
    if None in ends:
        asked.decide(piece, rule if known is None else REST_RULE)
    if known is None:
        return pattern(count).filling(ground, "tails")
    return pattern(count, Width(known), UNKNOWN).filling(ground, "tails")


def as_listed(asked: Asked) -> Run:
    """The tails and pins of a list, in order; what stands at the edges takes up the rest.

    Raises:
        InputError: where the list is missing, begins or ends wrongly, or does not fit.
    """
    given, half_tails = asked.given, asked.half_tails
    widths = given.chosen.widths or ()
    if not widths:
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
                f"The list has {len(widths)} widths; it begins and ends with a {piece}, so "
                "that their number is odd.",
                "Add or take away one, or write mirrored = true to list up to the middle only.",
                "spacing.widths",
            )
        )
    first, then = (tuple(Width(width) for width in widths[start::2]) for start in (0, 1))
    tails, pins = (then, first) if half_tails else (first, then)
    check_count(len(tails))
    ends = (given.half_tail,) * 2 if half_tails else (given.half_pin, given.half_pin_far)
    if not any(ends):
        asked.decide("Half tail" if half_tails else "Half pin", REST_RULE)
    near, far = (UNKNOWN if end is None else Width(end) for end in ends)
    return Pattern(given.edges, (near, far), tails, pins).filling(asked.ground, "spacing.widths")
