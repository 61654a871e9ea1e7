"""A corner and its cutter: which of its cuts are one pass, and what such a cutter cannot do."""

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from joinery_templates.errors import COMMON, OURS, Finding, advice
from joinery_templates.joints.dovetails.corner import DovetailCorner
from joinery_templates.joints.dovetails.routing.cutter import WORKED_OUT, Cutter, RoutedParameters

SAME_CUT = Fraction(1, 20)
"""Widths nearer to each other than this come out of the same pass (our judgement)."""
LARGEST_BY_HAND = Fraction(40)
"""A wider cutter is none for a router held in the hands (our judgement)."""
THINNEST_NECK = Fraction(2)
"""A cutter thinner than this where it leaves the wood may snap (our judgement)."""
WORKED = f"{WORKED_OUT}; {COMMON}"


class Routing(Struct, frozen=True):
    """A corner and its cutter."""

    corner: DovetailCorner
    cutter: Cutter

    @property
    def is_lapped(self) -> bool:
        """Whether the sockets stop at a lap: they are then cut with the same cutter."""
        return bool(self.corner.lap)

    @property
    def one_pass(self) -> Fraction:
        """The space between tails that one pass leaves at the tails' ends."""
        return self.cutter.width_above_tip(self.corner.tail_length)

    @property
    def pins_fit(self) -> bool:
        """Whether the cutter passes between any two tails."""
        return min(self.corner.spacing.pins, default=self.one_pass) >= self.one_pass - SAME_CUT

    @property
    def sockets(self) -> tuple[Fraction, ...]:
        """The sockets of whole tails at the tails' wide ends."""
        whole = self.corner.spacing.whole_tails
        return tuple(tail.width + 2 * self.corner.fit_across for tail in whole)

    @property
    def sockets_fit(self) -> bool:
        """Whether the cutter passes into every socket of a lapped joint."""
        diameter = self.cutter.diameter
        return min(self.sockets, default=diameter) >= diameter - SAME_CUT

    @property
    def reaches(self) -> bool:
        """Whether the cutter is long enough for the tails."""
        reach = self.cutter.depth
        return reach is None or self.corner.tail_length <= reach

    @property
    def routs_spaces(self) -> bool:
        """Whether the cutter cuts the spaces between tails."""
        return self.reaches and self.pins_fit

    @property
    def routs_sockets(self) -> bool:
        """Whether a router cuts the sockets: right through, a straight cutter does."""
        return not self.is_lapped or (self.reaches and self.sockets_fit)

    @property
    def routs_by_cutter(self) -> bool:
        """Whether the dovetail cutter cuts anything at all."""
        return self.routs_spaces or (self.is_lapped and self.routs_sockets)

    @property
    def at_once(self) -> bool:
        """Whether both boards come out of the same cuts, one laid on the other."""
        return self.is_lapped and self.reaches and self.one_pass_each and self.one_pass_sockets

    @property
    def one_pass_each(self) -> bool:
        """Whether no space between tails needs a second pass."""
        return all(abs(pin - self.one_pass) <= SAME_CUT for pin in self.corner.spacing.pins)

    @property
    def one_pass_sockets(self) -> bool:
        """Whether no socket of a lapped joint needs a second pass."""
        return all(abs(socket - self.cutter.diameter) <= SAME_CUT for socket in self.sockets)

    def text(self, length: Fraction) -> str:
        """A length in the person's units."""
        return self.corner.text(length)

    @property
    def radii(self) -> tuple[Fraction, Fraction]:
        """Of a socket's round end: on the pin board's inside face, and at the lap line."""
        return self.one_pass / 2, self.cutter.diameter / 2


def advise_on_cutter(routing: Routing, given: RoutedParameters) -> Iterator[Finding]:
    """All of it, each with its remedy."""
    yield from _on_cutter(routing)
    yield from _on_whole_tails(routing, given)
    yield from _on_pins(routing, given)
    yield from _on_depth(routing)
    if routing.is_lapped:
        yield from _on_sockets(routing, given)


def _on_cutter(routing: Routing) -> Iterator[Finding]:
    """A cutter beyond what is run in a hand router."""
    diameter, text = routing.cutter.diameter, routing.text
    if diameter > LARGEST_BY_HAND:
        yield advice(
            "cutter-large",
            f"A cutter of {text(diameter)} is more than a router held in the hands should drive.",
            f"{OURS}: {text(LARGEST_BY_HAND)}",
            f"Take a cutter of {text(LARGEST_BY_HAND)} or less.",
            "cutter.diameter",
        )
    if routing.one_pass < THINNEST_NECK:
        yield advice(
            "cutter-neck-thin",
            f"Where it leaves the wood the cutter is only {text(routing.one_pass)} thick, and may "
            "snap.",
            f"{OURS}: {text(THINNEST_NECK)}",
            "Measure the cutter again; take a wider one, or one of a smaller angle.",
            "cutter",
        )


def _on_whole_tails(routing: Routing, given: RoutedParameters) -> Iterator[Finding]:
    if given.tails == 0 or routing.corner.spacing.whole_tails:
        return
    yield advice(
        "cutter-no-whole-tail",
        f"With a cutter of {routing.text(routing.cutter.diameter)} no whole tail comes on a board "
        f"{routing.text(routing.corner.width)} wide, only a half tail at each edge.",
        WORKED,
        "Take a smaller cutter, or a wider board.",
        "cutter",
    )


def _on_pins(routing: Routing, given: RoutedParameters) -> Iterator[Finding]:
    if routing.pins_fit:
        return
    narrowest = min(routing.corner.spacing.pins)
    yield advice(
        "cutter-pin-narrow",
        f"Pins of {routing.text(narrowest)} at the narrow side are narrower than the "
        f"{routing.text(routing.one_pass)} that one pass of the cutter leaves.",
        WORKED,
        f"Give pins of {routing.text(routing.one_pass)} or more, take a smaller cutter, or saw "
        "and chop these spaces by hand.",
        "cutter" if given.pin is None else "pin",
    )


def _on_depth(routing: Routing) -> Iterator[Finding]:
    cut, reach = routing.corner.tail_length, routing.cutter.depth
    if reach is None or routing.reaches:
        return
    thinner = "a thicker lap" if routing.is_lapped else "a thinner pin board"
    yield advice(
        "cutter-short",
        f"The cut is {routing.text(cut)} deep, and the cutter reaches {routing.text(reach)}.",
        WORKED,
        f"Take a longer cutter or {thinner}, or saw and chop by hand.",
        "cutter.depth",
    )


def _on_sockets(routing: Routing, given: RoutedParameters) -> Iterator[Finding]:
    if not routing.sockets_fit:
        narrowest = min(routing.sockets)
        yield advice(
            "cutter-socket-narrow",
            f"A socket of {routing.text(narrowest)} at the lap line is narrower than the cutter "
            f"of {routing.text(routing.cutter.diameter)}.",
            WORKED,
            "Give wider tails or fewer of them, take a smaller cutter, or chop these sockets by "
            "hand.",
            "cutter" if given.tail is None else "tail",
        )
    if not routing.routs_sockets:
        return
    narrow, wide = routing.radii
    yield advice(
        "cutter-round-ends",
        "The cutter leaves the sockets' inner corners round, with a radius of "
        f"{routing.text(wide)} at the lap line and {routing.text(narrow)} on the inside face, and "
        f"their back walls leaning by {routing.text(routing.corner.lean)}; the tails drawn here "
        "are square.",
        WORKED,
        "Pare the back walls upright and their corners square with a chisel, as the order of work "
        "says.",
        "cutter",
    )
