r"""A groove or rebate along the inside of a dovetailed corner, for a bottom: where it ends.

The corner cut open along the groove, seen from the reference edge::

    +------------+-----------------  tail board's outside face
    |            |   tail board
    |  tail  +---+- - - - - - - - -  bottom of the tail board's groove
    |        |:::::: the bottom ::
    +--------+---+-----------------  tail board's inside face
    |  pin   :   |
    |  board :   |
    outside  :   inside
             bottom of the pin board's groove

In the corner both grooves reach just to each other's bottom, whichever board's wood stands
there: so the bottom passes the corner, and nothing shows outside. A groove may run on
through a board's end only where that is covered or cut away.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction

from joinery_templates.errors import OURS, Finding, InputError, advice, mistake
from joinery_templates.joints.dovetails.corner import DovetailCorner
from joinery_templates.joints.joint import Request, Size
from joinery_templates.joints.settable import settable
from joinery_templates.joints.spacing.keep_clear import (
    Channel,
    channels_of,
    in_a_half_pin,
    in_a_tail,
)
from joinery_templates.joints.spacing.parameters import GROOVE_DEPTH_RULE, SpacingGiven
from joinery_templates.lengths import length_text
from joinery_templates.wood.board import Board
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Surface, at_least, at_most


class Ending(StrEnum):
    """How a groove ends at a board's end."""

    STOPPED = "is stopped"
    UNDER_LAP = "runs out at the end, which the lap covers"
    IN_SOCKET = "runs out into the socket"
    IN_SPACE = "runs out into the space for the half pin"
    IN_MITRE = "runs out through the mitre"


Region = tuple[HalfSpace, ...]


@dataclass(frozen=True, slots=True)
class CornerGroove:
    """A groove or rebate in a corner.

    Attributes:
        corner: the layout.
        channel: where it lies across the width.
        depth: into both boards.
    """

    corner: DovetailCorner
    channel: Channel
    depth: Fraction

    @property
    def is_open_at_edge(self) -> bool:
        """Whether it can be seen from an edge, as a rebate can."""
        return self.channel.low <= 0 or self.channel.high >= self.corner.width

    @property
    def tail_ending(self) -> Ending:
        """How it ends at the tail board's end."""
        corner = self.corner
        clear_of_lap = corner.tail_board.thickness - self.depth >= corner.pins.lap
        if self._in_a_mitre:
            return Ending.IN_MITRE
        if self._in_a_half_pin and clear_of_lap:
            return Ending.IN_SPACE
        covered = self._in_a_tail and corner.tails.lap > 0 and clear_of_lap
        # Beside the lap the hole would be seen from an edge.
        if corner.depth <= self.depth or (covered and not self.is_open_at_edge):
            return Ending.UNDER_LAP
        return Ending.STOPPED

    @property
    def pin_ending(self) -> Ending:
        """How it ends at the pin board's end."""
        corner = self.corner
        if self._in_a_mitre:
            return Ending.IN_MITRE
        if self._in_a_tail and corner.pin_board.thickness - self.depth >= corner.tails.lap:
            return Ending.IN_SOCKET
        return Ending.UNDER_LAP if corner.pin_depth <= self.depth else Ending.STOPPED

    @property
    def tail_start(self) -> Fraction:
        """From the tail board's end to where its groove begins, 0 where it runs out there."""
        if self.tail_ending is Ending.UNDER_LAP:
            return Fraction(0)
        return self.corner.depth - self.depth

    @property
    def pin_start(self) -> Fraction:
        """From the pin board's end to where its groove begins, 0 where it runs out there."""
        return max(Fraction(0), self.corner.pin_depth - self.depth)

    def cut(self, board: Board, start: Fraction) -> Cut:
        """The waste of one board's groove, from `start` on."""
        sides = self._across(board.width)
        floor = at_least(2, board.thickness - self.depth, Surface.GROOVE)
        return Cut((*sides, floor, *((at_least(1, start, Surface.GROOVE),) if start else ())))

    def outside_of(self, region: Region) -> Iterator[Region]:
        """What the groove in the joined corner leaves of a convex region, in convex pieces."""
        corner = self.corner
        floor = corner.tail_board.thickness - self.depth
        end = corner.depth - self.depth
        if self.tail_ending is Ending.UNDER_LAP:
            end = min(end, corner.tails.start)
        held = self._across(corner.width)
        for side in held:
            yield (*region, side.turned())
        yield (*region, *held, at_most(2, floor))
        yield (*region, *held, at_least(2, floor), at_most(1, end))

    @property
    def sizes(self) -> tuple[Size, ...]:
        """Rows for the table of sizes."""
        name = self.channel.name
        wide = self.channel.high - self.channel.low
        where: tuple[tuple[str, Fraction], ...] = (
            (f"{name}, from the reference edge", self.channel.low),
            (f"{name}, how wide", wide),
        )
        if name == "rebate":
            where = ((f"rebate, from the {'far' if self.channel.low else 'reference'} edge", wide),)
        rows = (*where, (f"{name}, how deep", self.depth))
        stops = (
            ("tail board", self.tail_ending, self.tail_start),
            ("pin board", self.pin_ending, self.pin_start),
        )
        return (
            *(Size(words, length) for words, length in rows if length > 0),
            *(
                Size(f"{name} stops, from the {role}'s end", start)
                for role, ending, start in stops
                if ending is Ending.STOPPED
            ),
        )

    @property
    def _in_spacing(self) -> tuple[Fraction, Fraction]:
        before = self.corner.edges[0]
        return self.channel.low - before, self.channel.high - before

    @property
    def _in_a_tail(self) -> bool:
        return in_a_tail(self.corner.spacing, self._in_spacing, self.corner.lean)

    @property
    def _in_a_half_pin(self) -> bool:
        return in_a_half_pin(self.corner.spacing, self._in_spacing)

    @property
    def _in_a_mitre(self) -> bool:
        """Whether it lies in a mitred edge where the mitre runs from corner to corner."""
        corner, (near, far) = self.corner, self.corner.edges
        in_edge = self.channel.high <= near or self.channel.low >= corner.width - far
        return in_edge and corner.tail_board.thickness == corner.pin_board.thickness

    def _across(self, width: Fraction) -> tuple[HalfSpace, ...]:
        """Its two sides; at an edge that it is open to there is none."""
        low, high = self.channel.low, self.channel.high
        return (
            *((at_least(0, low, Surface.GROOVE),) if low > 0 else ()),
            *((at_most(0, high, Surface.GROOVE),) if high < width else ()),
        )


def grooves_in(request: Request, corner: DovetailCorner) -> tuple[CornerGroove, ...]:
    """The groove and the rebate on the inside of a corner, where they are given.

    Raises:
        InputError: where it goes through a board, or the two run into each other.
    """
    given = request.given
    assert isinstance(given, SpacingGiven)
    thinner = _thinner(corner)
    usual = settable(thinner.thickness / 3, request.units)
    channels = channels_of(given, corner.width)
    found = tuple(
        CornerGroove(corner, channel, channel.depth or usual)
        for channel in channels
        if not channel.outside
    )
    findings = [
        mistake(
            f"{groove.channel.name}-too-deep",
            f"A {groove.channel.name} {length_text(groove.depth, request.units)} deep goes right "
            f'through "{thinner.name}", {length_text(thinner.thickness, request.units)} thick.',
            "About a third of the board is usual.",
            groove.channel.name,
        )
        for groove in found
        if groove.depth >= thinner.thickness
    ]
    if len(found) > 1 and found[0].channel.meets(found[1].channel):
        findings.append(
            mistake(
                "groove-in-rebate",
                "The groove and the rebate run into each other.",
                "Move the groove, or give a narrower rebate.",
                "groove",
            )
        )
    if findings:
        raise InputError(*findings)
    return found


def outside_channels(request: Request, corner: DovetailCorner) -> tuple[Channel, ...]:
    """Grooves in the outside face: kept clear of, and cut right round the glued corner."""
    given = request.given
    assert isinstance(given, SpacingGiven)
    return tuple(channel for channel in channels_of(given, corner.width) if channel.outside)


def grooved(
    ends: tuple[BoardEnd, BoardEnd], grooves: tuple[CornerGroove, ...]
) -> tuple[BoardEnd, BoardEnd]:
    """The tail board's and the pin board's end with the grooves ploughed."""
    tails, pins = ends
    tail_cuts = (groove.cut(tails.board, groove.tail_start) for groove in grooves)
    pin_cuts = (groove.cut(pins.board, groove.pin_start) for groove in grooves)
    return (
        replace(tails, cuts=(*tails.cuts, *tail_cuts)),
        replace(pins, cuts=(*pins.cuts, *pin_cuts)),
    )


def filled_but_for(
    regions: tuple[Region, ...], grooves: tuple[CornerGroove, ...]
) -> tuple[Region, ...]:
    """Convex regions without what the grooves take out of them."""
    for groove in grooves:
        regions = tuple(part for region in regions for part in groove.outside_of(region))
    return regions


def groove_rules(grooves: tuple[CornerGroove, ...]) -> tuple[str, ...]:
    """What was decided by a rule."""
    return tuple(
        f"Depth of the {groove.channel.name}: {GROOVE_DEPTH_RULE}."
        for groove in grooves
        if groove.channel.depth is None
    )


def advise_on_depth(request: Request, grooves: tuple[CornerGroove, ...]) -> Iterator[Finding]:
    """A groove that leaves little of a board."""
    for groove in grooves:
        board, name = _thinner(groove.corner), groove.channel.name
        if groove.depth * 2 > board.thickness:
            yield advice(
                f"{name}-deep",
                f"A {name} {length_text(groove.depth, request.units)} deep takes more than half "
                f'of "{board.name}".',
                OURS,
                "About a third of the board is usual.",
                name,
            )


def _thinner(corner: DovetailCorner) -> Board:
    return min((corner.tail_board, corner.pin_board), key=lambda board: board.thickness)
