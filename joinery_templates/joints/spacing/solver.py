"""Widths that add up to the board: the one way in which every style of spacing is worked out.

A style says how wide each piece from edge to edge is, given the one width that is not known
yet: of a tail, a pin or a half pin. What the board leaves tells that width. How many tails
there are follows, where it is not given, from the width wished for.
"""

from collections.abc import Callable, Iterable, Sequence

from msgspec import Struct, field

from joinery_templates.errors import refusal
from joinery_templates.exact import ZERO, Fraction, ceil, floor
from joinery_templates.joints.gauge import nearest_whole
from joinery_templates.joints.spacing import parameters, proposal
from joinery_templates.joints.spacing.terms import Ground, Spacing, Tail


class Run(Struct, frozen=True):
    """The widths from edge to edge, while a spacing is being worked out.

    Attributes:
        half_tails: whether half tails stand at the edges, and not half pins.
        first: the piece at the reference edge.
        tails: widths of the whole tails.
        pins: widths of the whole pins: one less than tails with half pins, else one more.
        last: the piece at the far edge.
    """

    half_tails: bool
    first: Fraction
    tails: tuple[Fraction, ...]
    pins: tuple[Fraction, ...]
    last: Fraction

    @property
    def total(self) -> Fraction:
        """What all the widths come to."""
        return self.first + sum(self.tails) + sum(self.pins) + self.last

    def spaced(self, rules: Iterable[str]) -> Spacing:
        """The tails in their places."""
        tails, place, pins = [], self.first, iter(self.pins)
        if self.half_tails:
            tails.append(Tail(ZERO, self.first, left_slopes=False))
            place += next(pins)
        for width in self.tails:
            tails.append(Tail(place, place + width))
            place += width + next(pins, ZERO)
        if self.half_tails:
            tails.append(Tail(self.total - self.last, self.total, right_slopes=False))
        return Spacing(self.total, tuple(tails), tuple(rules))


class Asked(Struct, frozen=True):
    """What the person said of a spacing, and what was decided beside it.

    Attributes:
        given: what was said.
        ground: what it stands on.
        rules: what was decided by a rule so far.
    """

    given: parameters.SpacingParameters
    ground: Ground
    rules: list[str] = field(default_factory=list)

    @property
    def half_tails(self) -> bool:
        """Whether half tails stand at the edges, and not half pins."""
        return self.given.edges == parameters.HALF_TAIL

    @property
    def ends(self) -> tuple[Fraction | None, Fraction | None]:
        """What is told of the pieces at the reference edge and at the far edge."""
        if self.half_tails:
            return self.given.half_tail, self.given.half_tail
        return self.given.half_pin, self.given.half_pin_far

    def decide(self, what: str, rule: str) -> None:
        """Keep a rule that decided."""
        self.rules.append(f"{what}: {rule}.")

    def decide_edges(self, rule: str = "") -> None:
        """Keep the rule for what stands at the edges, where nothing is told of the near one.

        It is the usual one unless another is given.
        """
        if self.ends[0] is None and self.half_tails:
            self.decide("Half tail", rule or parameters.HALF_TAIL_RULE)
        elif self.ends[0] is None:
            self.decide("Half pin", rule or parameters.HALF_PIN_RULE)

    def pin(self, told: bool = True) -> Fraction:
        """The pins' width, given or by rule; `told` where the rule is to be kept."""
        if self.given.pin is not None:
            return self.given.pin
        if told:
            self.decide("Pin", parameters.PIN_RULE)
        return proposal.proposed_pin(self.ground)

    def tail_wish(self, pin: Fraction) -> proposal.TailWidths:
        """Widths for an ordinary tail beside such pins, as given or by rule."""
        given = self.given.tail
        return proposal.tail_widths(self.ground, pin) if given is None else proposal.just(given)

    def run(
        self, tails: Sequence[Fraction], pin: Fraction, *by_rule: Fraction, alike: bool = True
    ) -> Run:
        """Tails in order, with pins of one width between and, with half tails, beside them.

        Args:
            tails: widths of the whole ones.
            pin: width of all.
            by_rule: what stands at either edge, or at the near and the far one, if not told.
            alike: whether the far one is like the near one unless it is told.
        """
        near, far = self.ends
        if alike:
            far = far or near
        pins = (pin,) * max(0, len(tails) + (1 if self.half_tails else -1))
        return Run(self.half_tails, near or by_rule[0], tuple(tails), pins, far or by_rule[-1])

    def count(
        self,
        run: Callable[[int, Fraction], Run],
        wish: proposal.TailWidths,
        least: int,
        what: str = "Number of tails",
    ) -> int:
        """How many: as many as come nearest to filling the board at the width wished for.

        They are no more than are enough, but none comes wider, or narrower, than is sound if
        another number helps.

        Args:
            run: the pieces, of so many and of the width that is not known.
            wish: the widths wished for.
            least: there must be.
            what: they are, for the rule.

        Raises:
            InputError: `too-many-tails`.
        """
        if wish.rule:
            self.decide("Tail", wish.rule)
        rule, usual = parameters.COUNT_RULE, nearest_whole(self._filling(run, wish.usual))
        if wish.low < wish.high:
            enough = self.ground.most_pins
            if enough is not None and usual > enough + 1 and not self.half_tails:
                usual, rule = enough + 1, parameters.DRAWER_RULE
            usual = max(usual, ceil(self._filling(run, wish.high)))
            usual = min(usual, floor(self._filling(run, wish.low)))
        self.decide(what, rule)
        found = max(least, usual)
        check_count(found)
        return found

    def _filling(self, run: Callable[[int, Fraction], Run], width: Fraction) -> Fraction:
        """How many of a width fill the board, in whole and parts."""
        # Every one more takes as much again.
        two, three = (run(number, width).total for number in (2, 3))
        return 2 + (self.ground.width - two) / max(three - two, Fraction(1, 1000))

    def tails(
        self,
        run: Callable[[int, Fraction], Run],
        wish: proposal.TailWidths,
        least: int | None = None,
    ) -> int:
        """How many whole tails: given, or counted; see `count`.

        Raises:
            InputError: `too-few-tails`, `too-many-tails`.
        """
        if least is None:
            least = 0 if self.half_tails else 1
        given = self.given.tails
        if given is None:
            return self.count(run, wish, least)
        if given < least:
            raise refusal(
                "too-few-tails",
                f"This spacing needs at least {least} whole tails.",
                "Give more tails, or another style.",
                "tails",
            )
        check_count(given)
        return given

    def fill(self, run: Callable[[Fraction], Run], place: str) -> Run:
        """The pieces that fill the board.

        Args:
            run: the pieces, of the width that is not known. All grow evenly with it, so two
                tries tell what it is.
            place: the parameter to look at where nothing is left unknown.

        Raises:
            InputError: `does-not-add-up`.
        """
        ground = self.ground
        without, each = run(ZERO).total, run(Fraction(1)).total - run(ZERO).total
        filled = run((ground.width - without) / each if each else ZERO)
        if filled.total != ground.width:
            raise refusal(
                "does-not-add-up",
                f"The widths given add up to {ground.text(filled.total)}, "
                f"and the board is {ground.text(ground.width)} wide.",
                "Leave one of them out and it will be worked out.",
                place,
            )
        return filled


def check_count(count: int) -> None:
    """There are not more tails than can be laid out.

    Raises:
        InputError: `too-many-tails`.
    """
    if count > parameters.MOST_TAILS:
        raise refusal(
            "too-many-tails",
            f"That would be {count} tails; this program lays out at most {parameters.MOST_TAILS}.",
            "Give wider tails or pins.",
            "tail",
        )
