"""Widths that add up to the board: the one way in which every style of spacing is worked out.

Each piece from edge to edge is so many millimetres, and a share of the one width that is
not known yet: of a tail, a pin or a half pin, as the style says. What the board leaves,
divided by the shares, is that width. How many tails there are follows, where it is not
given, from the width that is wished for.
"""

from collections.abc import Callable, Iterable
from fractions import Fraction

from msgspec import Struct, field

from joinery_templates.errors import InputError, mistake
from joinery_templates.joints.gauge import as_a_gauge_is_set
from joinery_templates.joints.spacing.parameters import (
    COUNT_RULE,
    HALF_PIN_RULE,
    HALF_TAIL,
    PIN_RULE,
    TAIL_RULE,
    SpacingParameters,
)
from joinery_templates.joints.spacing.terms import (
    Ground,
    Run,
    check_count,
    does_not_add_up,
    nearest_whole,
    proposed_pin,
    proposed_tail,
)

ZERO, ONE, HALF = Fraction(0), Fraction(1), Fraction(1, 2)


class Width(Struct, frozen=True):
    """So many millimetres, and so many times the width that is not known yet."""

    fixed: Fraction = ZERO
    share: Fraction = ZERO

    def at(self, unknown: Fraction) -> Fraction:
        """The width, once that is known."""
        return self.fixed + self.share * unknown


UNKNOWN = Width(share=ONE)
Edges = tuple[Width, Width]


class Pattern(Struct, frozen=True):
    """The pieces from edge to edge before they are known; see `Run` for the attributes."""

    start: str
    edges: Edges
    tails: tuple[Width, ...]
    pins: tuple[Width, ...]

    def at(self, unknown: Fraction) -> Run:
        """The pieces, once the unknown width is known."""
        tails, pins = ([one.at(unknown) for one in each] for each in (self.tails, self.pins))
        first, last = (edge.at(unknown) for edge in self.edges)
        return Run(self.start, first, tuple(tails), tuple(pins), last)

    def filling(self, ground: Ground, place: str) -> Run:
        """The pieces that fill the board.

        Raises:
            InputError: `does-not-add-up`, at a parameter, where nothing is left unknown.
        """
        shares = sum(one.share for one in (*self.edges, *self.tails, *self.pins))
        left = ground.width - self.at(ZERO).total
        run = self.at(left / shares if shares else ZERO)
        if run.total != ground.width:
            raise does_not_add_up(ground, run.total, place)
        return run


class Asked(Struct, frozen=True):
    """What the person said of a spacing, and what was decided beside it.

    Attributes:
        given: what was said.
        ground: what it stands on.
        rules: what was decided by a rule so far.
    """

    given: SpacingParameters
    ground: Ground
    rules: list[str] = field(default_factory=list)

    @property
    def half_tails(self) -> bool:
        """Whether half tails stand at the edges, and not half pins."""
        return self.given.edges == HALF_TAIL

    def decide(self, what: str, rule: str) -> None:
        """Keep a rule that decided."""
        self.rules.append(f"{what}: {rule}.")

    def pin(self, told: bool = True) -> Fraction:
        """The pins' width, given or by rule; `told` where the rule is to be kept."""
        if self.given.pin is not None:
            return self.given.pin
        if told:
            self.decide("Pin", PIN_RULE)
        return proposed_pin(self.ground)

    def tail_wish(self, pin: Fraction, least: Fraction = ZERO, wide_rule: str = "") -> Fraction:
        """The width wished for of an ordinary tail; by rule at least `least`."""
        if self.given.tail is not None:
            return self.given.tail
        proposed = proposed_tail(pin, self.ground)
        self.decide("Tail", TAIL_RULE if proposed >= least else wide_rule)
        return max(proposed, least)

    def half_pin_by_rule(self, pin: Fraction) -> Fraction:
        """About as wide as a whole pin at the baseline."""
        return as_a_gauge_is_set(pin + self.ground.lean, self.ground.units)

    def half_pins(self, by_rule: Width, rule: str = HALF_PIN_RULE) -> Edges:
        """The half pins: given, the far one like the near one unless given, or by rule."""
        first, last = self.given.half_pin, self.given.half_pin_far
        if first is None:
            self.decide("Half pin", rule)
        near = by_rule if first is None else Width(first)
        return near, near if last is None else Width(last)

    def pattern(self, tails: Iterable[Width], pin: Width, edges: Edges) -> Pattern:
        """Tails in order, with pins of one width between and, with half tails, beside them."""
        listed = tuple(tails)
        pins = (pin,) * max(0, len(listed) + (1 if self.half_tails else -1))
        return Pattern(self.given.edges, edges, listed, pins)

    def count(
        self,
        pattern: Callable[[int], Pattern],
        wish: Callable[[], Fraction],
        least: int | None = None,
        what: str = "Number of tails",
    ) -> int:
        """How many: as many as come nearest to filling the board at the width wished for.

        Args:
            pattern: of so many.
            wish: the width wished for of what is not known.
            least: there must be; 1, or with half tails none, unless told.
            what: they are, for the rule.

        Raises:
            InputError: `too-many-tails`.
        """
        least = least if least is not None else 0 if self.half_tails else 1
        width = wish()
        self.decide(what, COUNT_RULE)
        # Every one more takes as much again.
        one, two = (pattern(number).at(width).total for number in (2, 3))
        each = max(two - one, Fraction(1, 1000))
        found = max(least, nearest_whole(2 + (self.ground.width - one) / each))
        check_count(found)
        return found

    def tails(
        self, pattern: Callable[[int], Pattern], wish: Callable[[], Fraction], least: int = 0
    ) -> int:
        """How many whole tails: given, or counted.

        Raises:
            InputError: `too-few-tails`, `too-many-tails`.
        """
        given = self.given.tails
        if given is None:
            return self.count(pattern, wish, least or None)
        if given < least:
            raise InputError(
                mistake(
                    "too-few-tails",
                    f"This spacing needs at least {least} whole tails.",
                    "Give more tails, or another style.",
                    "tails",
                )
            )
        check_count(given)
        return given
