"""What is proposed where nobody says it: how wide pins and tails are on a board.

One rule for every joint with tails, and one place for the limits that advice is given by, so
that no proposal is advised against. It knows the width of the board, how far the sides lean
and both thicknesses:

* a pin is a third of the pin board's thickness at its narrow side, thinner where the board has
  no room for that;
* a tail is a sixth of the board's width, but at half the depth of the joint from 2 1/2 to 4
  times as wide as a pin there, and never beyond what is ordinary;
* a half pin is as wide as a whole pin where both are widest.

Widths are those at the tails' end, where a pin is narrow and a tail wide.
"""

from collections.abc import Iterator

from msgspec import Struct

from joinery_templates.exact import ZERO, Fraction, ceil, floor
from joinery_templates.joints.gauge import as_a_gauge_is_set, gauge_step
from joinery_templates.joints.spacing.parameters import TAIL_RULE
from joinery_templates.joints.spacing.terms import Ground
from joinery_templates.lengths import INCH, Units

WIDEST_TAIL = Fraction(7, 4) * INCH
"""1 3/4 in: a tail is ordinarily not wider (Noyes 1910, no. 48)."""
MOST_TAIL_TO_PIN = 4
"""For looks a tail is up to four times as wide as the space (Noyes 1910, no. 48)."""
TAILS_PER_PIN = Fraction(5, 2)
"""Tails are on average 2 1/2 times the pins in carcase work (Joyce 1970); taken here at half the
depth of the joint."""
LEAST_TAIL_TO_PIN = Fraction(3, 2)
"""Strongest is a tail as wide as the space (Noyes 1910, no. 48), but at half depth such tails look
all pins: this is the least that is proposed (our judgement)."""
USUAL_TAILS = 6
"""A tail is wished for as wide as a sixth of the board, if the pins allow (our judgement)."""
PIN_LIMITS = {Units.MM: (Fraction(3), Fraction(12)), Units.INCH: (INCH / 8, INCH / 2)}
"""The narrowest chisel that most people have, and enough in the thickest stuff (our judgement)."""
LONE_NECK = Fraction(2, 5)
"""Of a narrow board's width, what a lone tail keeps at the baseline (our judgement)."""
WEAK_PIN = Fraction(3, 2)
"""A pin narrower than this at its narrow side breaks easily (our judgement)."""


class TailWidths(Struct, frozen=True):
    """Widths of a tail: the usual one, and what is not advised against, with the rule for it.

    The rule is empty where they are given.
    """

    low: Fraction
    usual: Fraction
    high: Fraction
    rule: str = ""


def just(width: Fraction, rule: str = "") -> TailWidths:
    """One width and no other."""
    return TailWidths(width, width, width, rule)


def tail_widths(ground: Ground, pin: Fraction) -> TailWidths:
    """How wide tails beside such pins are, by rule."""
    lean = ground.lean
    middle = pin + lean
    low = max(ground.weakest_tail + 2 * lean, middle * LEAST_TAIL_TO_PIN + lean)
    high = min(WIDEST_TAIL, MOST_TAIL_TO_PIN * (pin + 2 * lean))
    strong, fine = (middle * share + lean for share in (TAILS_PER_PIN, MOST_TAIL_TO_PIN))
    wish = max(strong, min(fine, ground.width / USUAL_TAILS))
    return TailWidths(low, max(low, min(wish, high)), high, TAIL_RULE)


def proposed_half_pin(ground: Ground, pin: Fraction) -> Fraction:
    """As wide at the baseline as a whole pin there, in a figure that can be set."""
    return as_a_gauge_is_set(pin + ground.lean, ground.units)


def proposed_pin(ground: Ground) -> Fraction:
    """A pin's narrow width, in a figure that a joiner can set.

    A third of the pin board's thickness within `PIN_LIMITS`, or the next thinner one, else the
    next wider, with which tails of a sound width fill the board; never below what the person's
    tools can clear.
    """
    low, high = PIN_LIMITS[ground.units]
    low = max(low, ground.smallest_pin or ZERO)
    usual = max(min(as_a_gauge_is_set(ground.pin_thickness / 3, ground.units), high), low)
    return next((pin for pin in _pins(ground, low, usual, high) if _fills(ground, pin)), usual)


def _pins(ground: Ground, low: Fraction, usual: Fraction, high: Fraction) -> Iterator[Fraction]:
    step = gauge_step(ground.units)
    yield from (usual - n * step for n in range(floor((usual - low) / step) + 1))
    yield from (usual + n * step for n in range(1, floor((high - usual) / step) + 1))


def _fills(ground: Ground, pin: Fraction) -> bool:
    """Whether some number of tails of a sound width fills the board beside such pins."""
    widths = tail_widths(ground, pin)
    # Every tail but the last has a pin after it.
    room = ground.width - 2 * proposed_half_pin(ground, pin) + pin
    most = floor(room / (widths.low + pin))
    return most >= 1 and ceil(room / (widths.high + pin)) <= most


def lone_tail(ground: Ground, usual: Fraction) -> Fraction:
    """The width of a board's only tail: as `usual`, or what keeps it and its half pins sound."""
    strong = max(ground.weakest_tail, ground.width * LONE_NECK) + 2 * ground.lean
    room = ground.width - 2 * WEAK_PIN
    return min(max(usual, strong), WIDEST_TAIL, max(usual, room))
