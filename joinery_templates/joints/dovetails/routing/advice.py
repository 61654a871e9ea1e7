"""A corner and its cutter: which of its cuts are one pass, and what such a cutter cannot do."""

from collections.abc import Iterator

from msgspec import Struct

from joinery_templates.errors import COMMON, OURS, Finding, advice
from joinery_templates.exact import Fraction
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
    def reaches(self) -> bool:
        """Whether the cutter is long enough for the tails."""
        reach = self.cutter.depth
        return reach is None or self.corner.tail_length <= reach

    @property
    def one_pass(self) -> Fraction:
        """The space between tails that one pass leaves at the tails' ends."""
        return self.cutter.width_above_tip(self.corner.tail_length)

    @property
    def narrowest_pin(self) -> Fraction:
        """The space between tails that the cutter must pass; one pass where there is none."""
        return min(self.corner.spacing.pins, default=self.one_pass)

    @property
    def pins_fit(self) -> bool:
        """Whether the cutter passes between any two tails."""
        return self.narrowest_pin >= self.one_pass - SAME_CUT

    @property
    def one_pass_each(self) -> bool:
        """Whether no space between tails needs a second pass."""
        return all(abs(pin - self.one_pass) <= SAME_CUT for pin in self.corner.spacing.pins)

    @property
    def routs_spaces(self) -> bool:
        """Whether the cutter cuts the spaces between tails."""
        return self.reaches and self.pins_fit

    @property
    def sockets(self) -> tuple[Fraction, ...]:
        """The sockets of whole tails at the tails' wide ends."""
        whole = self.corner.spacing.whole_tails
        return tuple(tail.width + 2 * self.corner.fit_across for tail in whole)

    @property
    def sockets_fit(self) -> bool:
        """Whether the cutter passes into every socket of a lapped joint."""
        return all(socket >= self.cutter.diameter - SAME_CUT for socket in self.sockets)

    @property
    def one_pass_sockets(self) -> bool:
        """Whether no socket of a lapped joint needs a second pass."""
        return all(abs(socket - self.cutter.diameter) <= SAME_CUT for socket in self.sockets)

    @property
    def routs_laps(self) -> bool:
        """Whether the cutter cuts sockets that stop at a lap."""
        return self.is_lapped and self.reaches and self.sockets_fit

    @property
    def at_once(self) -> bool:
        """Whether both boards come out of the same cuts, one laid on the other."""
        alike = self.one_pass_each and self.one_pass_sockets and not any(self.corner.pair.insets)
        return self.is_lapped and self.reaches and alike

    @property
    def radii(self) -> tuple[Fraction, Fraction]:
        """Of a socket's round end: on the pin board's inside face, and at the lap line."""
        return self.one_pass / 2, self.cutter.diameter / 2


def advise_on_cutter(routing: Routing, given: RoutedParameters) -> Iterator[Finding]:
    """All of it, each with its remedy."""
    yield from _on_cutter(routing)
    if given.tails != 0 and not routing.corner.spacing.whole_tails:
        text = routing.corner.text
        yield advice(
            "cutter-no-whole-tail",
            f"With a cutter of {text(routing.cutter.diameter)} no whole tail comes on a board "
            f"{text(routing.corner.spacing.width)} wide, only a half tail at each edge.",
            WORKED,
            "Take a smaller cutter, or a wider board.",
            "cutter",
        )
    if not routing.pins_fit:
        yield _on_pins(routing, "cutter" if given.pin is None else "pin")
    reach = routing.cutter.depth
    if reach is not None and not routing.reaches:
        yield _on_depth(routing, reach)
    if routing.is_lapped and not routing.sockets_fit:
        yield _on_sockets(routing, "cutter" if given.tail is None else "tail")
    if routing.routs_laps:
        yield _on_round_ends(routing)


def _on_cutter(routing: Routing) -> Iterator[Finding]:
    """A cutter beyond what is run in a router held in the hands."""
    diameter, text = routing.cutter.diameter, routing.corner.text
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
            "Measure the cutter again; take a wider one, or one that leans less.",
            "cutter",
        )


def _on_pins(routing: Routing, place: str) -> Finding:
    text = routing.corner.text
    one_pass = text(routing.one_pass)
    return advice(
        "cutter-pin-narrow",
        f"Pins of {text(routing.narrowest_pin)} at the narrow side are narrower than the "
        f"{one_pass} that one pass of the cutter leaves.",
        WORKED,
        f"Give pins of {one_pass} or more, take a smaller cutter, or saw and chop these spaces by "
        "hand.",
        place,
    )


def _on_depth(routing: Routing, reach: Fraction) -> Finding:
    text = routing.corner.text
    thinner = "a thicker lap" if routing.is_lapped else "a thinner pin board"
    return advice(
        "cutter-short",
        f"The cut is {text(routing.corner.tail_length)} deep, and the cutter reaches "
        f"{text(reach)}.",
        WORKED,
        f"Take a longer cutter or {thinner}, or saw and chop by hand.",
        "cutter.depth",
    )


def _on_sockets(routing: Routing, place: str) -> Finding:
    text = routing.corner.text
    return advice(
        "cutter-socket-narrow",
        f"A socket of {text(min(routing.sockets))} at the lap line is narrower than the cutter "
        f"of {text(routing.cutter.diameter)}.",
        WORKED,
        "Give wider tails or fewer of them, take a smaller cutter, or chop these sockets by hand.",
        place,
    )


def _on_round_ends(routing: Routing) -> Finding:
    text = routing.corner.text
    narrow, wide = routing.radii
    return advice(
        "cutter-round-ends",
        "The cutter leaves the sockets' inner corners round, with a radius of "
        f"{text(wide)} at the lap line and {text(narrow)} on the inside face, and "
        f"their back walls leaning by {text(routing.corner.lean)}; the tails drawn here "
        "are square.",
        WORKED,
        "Pare the back walls upright and their corners square with a chisel, as the order of work "
        "says.",
        "cutter",
    )
