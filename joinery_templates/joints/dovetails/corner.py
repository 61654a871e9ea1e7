r"""Tails in sockets where two boards meet at a right angle: the wood of every dovetailed corner.

Seen from the reference edge, the tail board lying and the pin board hanging from it::

        +-------+----------------+------------------  tail board's outside face
        |   ?   |   tail_lap     |
        +-------+----------------+
        |  lap  | tails and pins |     tail board
        |       |                |
        +-------+----------------+------------------  tail board's inside face
        |                        |
        |       pin board        |
        outside face       inside face

A through dovetail has no lap on either board, a lapped one `lap`, and others both. What
becomes of the corner marked ? is for the kind of joint to say by cuts of its own.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.exact import square_root
from joinery_templates.joints.spacing.tails import Spacing
from joinery_templates.wood.board import Board
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Surface, at_least, at_most
from joinery_templates.wood.placement import Placement, end_to_end

ZERO = Fraction(0)


@dataclass(frozen=True, slots=True)
class Reach:
    """How one board's end lies in the corner.

    Attributes:
        past: how far its end stands past the other board's outside face; negative
            where it stops short of it.
        start: how far from its end its tails, or pins, begin.
    """

    past: Fraction = ZERO
    start: Fraction = ZERO

    @property
    def lap(self) -> Fraction:
        """How much of the other board's thickness covers the ends of the tails, or pins."""
        return max(self.start - self.past, ZERO)


@dataclass(frozen=True, slots=True)
class DovetailCorner:
    """A spacing on two boards, and the wood that follows from it.

    Attributes:
        tail_board: the board with the tails.
        pin_board: the board with the pins.
        spacing: the tails at their ends, over the width between `edges`.
        slope: lean for each mm along a tail.
        fit: gap at each sloping side, square to it, taken off the pins.
        tails: how the tail board's end lies.
        pins: how the pin board's end lies.
        edges: how much of the width is kept free of the spacing at the reference
            edge and at the far edge.
    """

    tail_board: Board
    pin_board: Board
    spacing: Spacing
    slope: Fraction
    fit: Fraction
    tails: Reach = Reach()
    pins: Reach = Reach()
    edges: tuple[Fraction, Fraction] = (ZERO, ZERO)

    @property
    def width(self) -> Fraction:
        """The width of both boards."""
        return self.tail_board.width

    @property
    def depth(self) -> Fraction:
        """From the tail board's end to its baseline."""
        return self.pin_board.thickness + self.tails.past

    @property
    def pin_depth(self) -> Fraction:
        """From the pin board's end to its baseline."""
        return self.tail_board.thickness + self.pins.past

    @property
    def tail_length(self) -> Fraction:
        """From a tail's own end to the baseline."""
        return self.depth - self.tails.start

    @property
    def lean(self) -> Fraction:
        """How far a side comes in between a tail's end and the baseline."""
        return self.tail_length * self.slope

    @property
    def lean_at_front(self) -> Fraction:
        """How far a side has come in where it enters the pin board: 0 unless tails stand proud."""
        return max(self.tails.past - self.tails.start, ZERO) * self.slope

    @property
    def placement(self) -> Placement:
        """The pin board on the tail board."""
        return end_to_end(self.tails.past, self.pins.past)

    @property
    def fit_across(self) -> Fraction:
        """The fit allowance measured across the board, along x."""
        return self.fit * square_root(1 + self.slope**2)

    @property
    def pin_widths(self) -> tuple[Fraction, Fraction]:
        """Narrowest and widest whole pin: where a tail enters the pin board, and inside."""
        pins = self.spacing.pins or (ZERO,)
        less = 2 * self.fit_across
        return min(pins) + 2 * self.lean_at_front - less, max(pins) + 2 * self.lean - less

    def side_planes(self) -> tuple[tuple[HalfSpace | None, HalfSpace | None], ...]:
        """For each tail the half-spaces that hold it on its left and right, None at an edge."""
        slope, one = self.slope, Fraction(1)
        shift, back = self.edges[0], self.tails.start * self.slope
        return tuple(
            (
                HalfSpace((-one, slope, ZERO), back - (tail.left + shift))
                if tail.left_slopes
                else None,
                HalfSpace((one, slope, ZERO), back + tail.right + shift)
                if tail.right_slopes
                else None,
            )
            for tail in self.spacing.tails
        )

    def tail_end(self, *more: Cut) -> BoardEnd:
        """The tail board: `more`, and the spaces for the pins, are taken away."""
        return BoardEnd(self.tail_board, (*more, *self._spaces()), self.depth)

    def pin_end(self, *more: Cut) -> BoardEnd:
        """The pin board: `more`, and the tails moved out by the fit, are taken away."""
        return BoardEnd(self.pin_board, (*more, *self._sockets()), self.pin_depth)

    def _spaces(self) -> Iterator[Cut]:
        sides = self.side_planes()
        near, far = self.edges
        first = at_most(0, near) if near else None
        last = at_least(0, self.width - far) if far else None
        lefts = (first, *(right for _, right in sides))
        rights = (*(left for left, _ in sides), last)
        floor = _floor(self.depth, self.tails.start, self.pins.lap)
        for left, right in zip(lefts, rights, strict=True):
            if left or right:
                yield Cut((*(plane.turned() for plane in (left, right) if plane), *floor))

    def _sockets(self) -> Iterator[Cut]:
        onto_pins = self.placement.reversed()
        floor = _floor(self.pin_depth, self.pins.start, self.tails.lap)
        for sides in self.side_planes():
            held = (onto_pins.half_space(side).moved(self.fit) for side in sides if side)
            yield Cut((*held, *floor))

    def filled(self) -> tuple[tuple[HalfSpace, ...], ...]:
        """The corner where the boards cross: no wood may be missing in it when `fit` is 0."""
        low = self.tails.past
        return (
            (
                at_least(0, ZERO),
                at_most(0, self.width),
                at_least(1, low),
                at_most(1, low + self.pin_board.thickness),
                at_least(2, ZERO),
                at_most(2, self.tail_board.thickness),
            ),
        )


def _floor(depth: Fraction, start: Fraction, lap: Fraction) -> tuple[HalfSpace, ...]:
    """Where a space or socket ends: at the baseline, at its start, and at the board's own lap."""
    ends = [at_most(1, depth, Surface.SHOULDER)]
    if start:
        ends.append(at_least(1, start, Surface.SHOULDER))
    if lap:
        ends.append(at_least(2, lap, Surface.SHOULDER))
    return tuple(ends)
