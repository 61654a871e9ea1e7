"""A fully stated spacing of tails, and what it stands on.

All widths here are measured where the joiner sets out: on the tail board's
outside face, at its very end. Every width is exact and they add up to the board.

    edge |half pin| tail |pin| tail |pin| tail |half pin| edge
         0        h     h+t          marks                W
"""

from itertools import pairwise

from msgspec import Struct

from joinery_templates.errors import Finding
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joints.grooves.parameters import Channel
from joinery_templates.lengths import Units, length_text


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

    def between(self, lean: Fraction) -> tuple[Fraction, Fraction]:
        """Where its sides stand when each that slopes has come in by `lean` mm."""
        return self.left + lean * self.left_slopes, self.right - lean * self.right_slopes

    def moved(self, shift: Fraction) -> "Tail":
        """The tail with every sloping side moved; a board's edge stays."""
        return Tail(
            self.left + shift * self.left_slopes,
            self.right + shift * self.right_slopes,
            self.left_slopes,
            self.right_slopes,
        )

    def width_at(self, lean: Fraction) -> Fraction:
        """The width where each sloping side has come in by `lean` mm."""
        left, right = self.between(lean)
        return right - left


class Spacing(Struct, frozen=True):
    """A fully stated spacing.

    Attributes:
        width: the board's width, or what of it is dovetailed.
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
        starts = [tail.right for tail in self.tails if tail.right_slopes]
        if self.half_pins:
            starts = [tail.left for tail in self.tails]
        steps = {after - before for before, after in pairwise(starts)}
        return steps.pop() if len(steps) == 1 else None


class Ground(Struct, frozen=True):
    """What a spacing stands on.

    Attributes:
        width: what of the board's width is dovetailed.
        lean: how far a side comes in between the end and the baseline.
        pin_thickness: thickness of the pin board.
        units: for the figures that a proposal is rounded to.
        smallest_pin: no proposed pin is narrower than this.
        tail_thickness: how thick the tails are; 0 where it does not matter.
        most_pins: how many whole pins are enough where their number is proposed; None for
            as many as come.
        margins: what of the width is not dovetailed, at the reference edge and the far edge.
        channels: the groove and the rebate that cross the joint.
    """

    width: Fraction
    lean: Fraction
    pin_thickness: Fraction
    units: Units
    smallest_pin: Fraction | None = None
    tail_thickness: Fraction = ZERO
    most_pins: int | None = None
    margins: tuple[Fraction, Fraction] = (ZERO, ZERO)
    channels: tuple[Channel, ...] = ()

    @property
    def weakest_tail(self) -> Fraction:
        """A tail narrower than this at the baseline is weak."""
        return weakest_tail(self.tail_thickness)

    @property
    def board_width(self) -> Fraction:
        """Of the whole board."""
        return self.width + sum(self.margins)

    def text(self, length: Fraction) -> str:
        """A length in the person's units."""
        return length_text(length, self.units)


def weakest_tail(thickness: Fraction) -> Fraction:
    """A tail narrower than this at the baseline is weak on a board so thick (our judgement)."""
    return max(Fraction(3), thickness / 4)
