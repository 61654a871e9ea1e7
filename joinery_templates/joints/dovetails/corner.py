r"""Tails in sockets where two boards meet: the wood of every dovetailed corner.

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
becomes of the corner marked ? is for the kind of joint to say by cuts of its own. Tails are
spaced over what mitred edges, and edges planed level, leave of the width; their places are
measured square across the tail board's outside face, at their own ends.
"""

from collections.abc import Iterator
from functools import cached_property
from typing import Self

from msgspec.structs import replace

from joinery_templates.errors import OURS, Finding, InputError, refuse
from joinery_templates.exact import ZERO, Fraction, square_root
from joinery_templates.joints.corners.interlocked import InterlockedCorner
from joinery_templates.joints.corners.pair import BoardPair, Side, Sides
from joinery_templates.joints.dovetails.parameters import DovetailParameters
from joinery_templates.joints.dovetails.routing.cutter import RoutedParameters, settle
from joinery_templates.joints.grooves.corner import is_past_the_other, not_laid_out
from joinery_templates.joints.grooves.parameters import Channel, channels_of
from joinery_templates.joints.kind import BoardRole, Request
from joinery_templates.joints.sources import JOYCE
from joinery_templates.joints.spacing.parameters import EVEN
from joinery_templates.joints.spacing.tails import space_tails
from joinery_templates.joints.spacing.terms import Ground, Spacing
from joinery_templates.joints.words import slope_text
from joinery_templates.wood.board import Board
from joinery_templates.wood.cut import at_least, at_most

DEFAULT_SLOPE = Fraction(1, 7)
SLOPE_RULE = f"Slope: 1:7, usual for show work and drawer sides ({JOYCE})."
TAIL_BOARD, PIN_BOARD = "tail board", "pin board"
ROLES = (BoardRole("tail_board", TAIL_BOARD), BoardRole("pin_board", PIN_BOARD))
"""The boards of every dovetailed corner."""


class DovetailCorner(InterlockedCorner, frozen=True, dict=True):
    """A spacing on two boards, and the wood that follows from it.

    Attributes:
        mitres: how much is mitred right through at the reference edge and at the far edge,
            where neither board runs on past the other.
        spacing: the tails at their ends, over the width between `margins`; none at first.
        decided: what was decided by a rule, in words.
    """

    roles = ROLES
    given: DovetailParameters
    mitres: tuple[Fraction, Fraction]
    spacing: Spacing = Spacing(ZERO, ())
    decided: tuple[str, ...] = ()

    @classmethod
    def laid_out(
        cls,
        request: Request,
        pair: BoardPair,
        mitres: tuple[Fraction, Fraction] = (ZERO, ZERO),
        most_pins: int | None = None,
        decided: tuple[str, ...] = (),
    ) -> Self:
        """The corner with its tails on what is free of the width.

        Args:
            request: units and tools; spacing, slope and fit, and perhaps a cutter that decides
                some.
            pair: both boards in the corner.
            mitres: how much is mitred at the reference edge and at the far edge.
            most_pins: how many whole pins are enough, where even tails are proposed.
            decided: what else was decided by a rule.

        Raises:
            InputError: where nothing that can be cut follows.
        """
        given: DovetailParameters = request.given
        rules: tuple[str, ...] = ()
        if isinstance(given, RoutedParameters):
            low, high = pair.shared
            shared = replace(request.boards[0], width=high - low)
            given, rules = settle(given, shared, pair.depth(0), request.units)
        bare = cls(request, given, pair, mitres)
        refuse(not_laid_out(bare.channels, bare))
        margins = bare.margins
        ground = Ground(
            width=bare.tail_board.width - sum(margins),
            lean=bare.lean,
            pin_thickness=bare.pin_board.thickness,
            units=request.units,
            smallest_pin=request.tools.narrowest_space,
            tail_thickness=bare.tail_board.thickness - bare.tail_lap,
            most_pins=most_pins if given.chosen.style == EVEN else None,
            margins=margins,
            channels=tuple(one for one in bare.channels if not is_past_the_other(one, pair)),
        )
        try:
            spacing = space_tails(given, ground)
        except InputError as error:
            raise InputError(*bare._told_of_what_is_left(error)) from None
        if given.slope is None:
            owned = f"Slope: {slope_text(bare.slope)}, the nearest of your markers to 1:7 ({OURS})."
            rules = (owned if request.tools.slopes else SLOPE_RULE,)
        return replace(bare, spacing=spacing, decided=(*rules, *spacing.rules, *decided))

    def _told_of_what_is_left(self, error: InputError) -> Iterator[Finding]:
        """What is wrong with a spacing, which speaks of the board and means what is left of it."""
        left = self.text(self.tail_board.width - sum(self.margins))
        follow = "leave one of the widths out, so that it can follow."
        words = ""
        if any(self.mitres):
            words = f"Between the mitred edges {left} are left for the tails. "
        elif any(self.pair.past_the_other(0)):
            words = f"The boards meet over {left} of the width: {follow} "
        elif any(self.margins):
            words = f"Planing the edges level leaves {left} for tails and pins: {follow} "
        for finding in error.findings:
            yield replace(finding, remedy=f"{words}{finding.remedy}".rstrip())

    @property
    def tail_board(self) -> Board:
        """The board with the tails."""
        return self.boards[0]

    @property
    def pin_board(self) -> Board:
        """The board with the pins."""
        return self.boards[1]

    @property
    def slope(self) -> Fraction:
        """Lean from the grain for each mm along a tail."""
        return self.given.slope or self.request.tools.nearest_slope(DEFAULT_SLOPE)

    @property
    def channels(self) -> tuple[Channel, ...]:
        """The groove and the rebate that are given, across the tail board's width."""
        wider, given = self.pair.wider, self.given
        told = channels_of(given.groove, given.rebate, self.boards[wider].width)
        return tuple(channel.moved(-self.pair.shift_to(wider)) for channel in told)

    @property
    def margins(self) -> tuple[Fraction, Fraction]:
        """How much of the width is free of the spacing at the reference edge and the far edge."""
        (low, high), (near, far) = self.pair.shared, self.mitres
        return low + near, self.tail_board.width - high + far

    @property
    def tail_length(self) -> Fraction:
        """From a tail's own end to the baseline."""
        return self.lean / self.slope

    @property
    def lap(self) -> Fraction:
        """What of the pin board's thickness covers the ends of the tails."""
        return self.pair.lap(1)

    @property
    def tail_lap(self) -> Fraction:
        """What of the tail board's thickness covers the ends of the pins."""
        return self.pair.lap(0)

    @property
    def leans(self) -> tuple[Fraction, Fraction]:
        """How far a tail's lower and upper side come in between its end and the baseline."""
        pair, slope = self.pair, self.slope
        across, length = pair.end_slope(0), pair.depth_along(0) - pair.starts[0]
        # Along a side the slanting baseline comes nearer or goes away.
        return length * slope / (1 - across * slope), length * slope / (1 + across * slope)

    @property
    def lean(self) -> Fraction:
        """The greater of both; they are one where the end is not slanting."""
        return max(self.leans)

    @property
    def fit_across(self) -> Fraction:
        """The fit allowance measured across a square corner's board, along x."""
        return self.given.fit * square_root(1 + self.slope**2)

    @cached_property
    def sides(self) -> Sides:
        """For each tail the half-spaces that hold it, None at an edge of the board."""
        shift, slope, side = self.margins[0], self.slope, self.pair.side
        return tuple(
            (
                side(tail.left + shift, slope, lower=True) if tail.left_slopes else None,
                side(tail.right + shift, slope, lower=False) if tail.right_slopes else None,
            )
            for tail in self.spacing.tails
        )

    def mitred_edges(self, number: int) -> tuple[Side, Side]:
        """None where `mitres` are nothing."""
        near, far = self.mitres
        return (
            at_most(0, near) if near else None,
            at_least(0, self.boards[number].width - far) if far else None,
        )
