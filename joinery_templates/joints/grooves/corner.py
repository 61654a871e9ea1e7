r"""A groove or rebate along the inside of a corner, for a bottom: where it ends.

The corner cut open along the groove, seen from the reference edge::

    +------------+-----------------  first board's outside face
    |            |   first board
    |  tail  +---+- - - - - - - - -  bottom of the first board's groove
    |        |:::::: the bottom ::
    +--------+---+-----------------  first board's inside face
    | second :   |
    |  board :   |
    outside  :   inside
             bottom of the second board's groove

In the corner both grooves reach just to each other's bottom, whichever board's wood stands
there: so the bottom passes the corner, and nothing shows outside. A groove may run on
through a board's end only where that is covered or cut away. What lies past the edge of a
narrower board is in the wider one alone, and runs out at its end: so a drawer's bottom goes
in from behind, below a back that sits on it.
"""

from collections.abc import Iterator
from enum import StrEnum

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.errors import Finding, mistake
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joint import Size
from joinery_templates.joints.corners.layout import CornerLayout
from joinery_templates.joints.corners.pair import BoardPair
from joinery_templates.joints.gauge import as_a_gauge_is_set
from joinery_templates.joints.grooves.parameters import Channel
from joinery_templates.wood.board import EDGES, Face
from joinery_templates.wood.cut import Cut, HalfSpace, Surface, at_least, at_most


class Ending(StrEnum):
    """How a groove ends at a board's end."""

    STOPPED = "is stopped"
    UNDER_LAP = "runs out at the end, which the lap covers"
    IN_SOCKET = "runs out into the socket"
    IN_SPACE = "runs out into the space for the half pin"
    IN_MITRE = "runs out through the mitre"
    PAST_THE_OTHER = "runs out at the end, past the other board's edge"


class Crossed(StrEnum):
    """What a groove lies wholly inside of where the boards cross."""

    FIRST = "a tail or finger of the first board"
    SECOND = "what stands at the edge of the second board"
    MITRE = "a mitre that begins at the corner outside"
    BOTH = "parts of both boards"
    NOTHING = "the wider board, past the edge of the other"


class CornerGroove(Struct, frozen=True):
    """A groove or rebate in a corner.

    Attributes:
        corner: the layout.
        channel: where it lies across the first board's width.
        crossed: what it lies in where the boards cross.
    """

    corner: CornerLayout
    channel: Channel
    crossed: Crossed

    @property
    def depth(self) -> Fraction:
        """Into both boards, as told or by `GROOVE_DEPTH_RULE`."""
        corner = self.corner
        return self.channel.depth or as_a_gauge_is_set(corner.thinner.thickness / 3, corner.units)

    def _clear_of_lap(self, number: int) -> bool:
        pair = self.corner.pair
        return pair.boards[number].thickness - self.depth >= pair.lap(number)

    def _ends_in_the_other(self, number: int) -> bool:
        """Whether a board stops so short that its end lies in the other board's groove."""
        return self.corner.pair.depth(number) <= self.depth

    @property
    def lies_in(self) -> tuple[int, ...]:
        """The boards that have it."""
        return (self.corner.pair.wider,) if self.crossed is Crossed.NOTHING else (0, 1)

    def on(self, number: int) -> Channel:
        """Where it lies across a board's width."""
        return self.channel.moved(self.corner.pair.shift_to(number))

    @property
    def endings(self) -> tuple[Ending, Ending]:
        """How it ends at the first board's end, and at the second board's, where they have it."""
        if self.crossed is Crossed.NOTHING:
            return Ending.PAST_THE_OTHER, Ending.PAST_THE_OTHER
        if self.crossed is Crossed.MITRE:
            # A mitre of 45 degrees takes more of a thinner board than its groove should.
            one, other = (board.thickness for board in self.corner.boards)
            return (
                Ending.STOPPED if one < other else Ending.IN_MITRE,
                Ending.STOPPED if other < one else Ending.IN_MITRE,
            )
        first = second = Ending.STOPPED
        in_first = self.crossed is Crossed.FIRST
        covered = in_first and self.corner.pair.lap(1) > 0 and self._clear_of_lap(0)
        if self.crossed is Crossed.SECOND and self._clear_of_lap(0):
            first = Ending.IN_SPACE
        # Beside the lap the hole would be seen from an edge.
        elif self._ends_in_the_other(0) or (
            covered and not self.channel.is_open(self.corner.boards[0].width)
        ):
            first = Ending.UNDER_LAP
        if in_first and self._clear_of_lap(1):
            second = Ending.IN_SOCKET
        elif self._ends_in_the_other(1):
            second = Ending.UNDER_LAP
        return first, second

    def start(self, number: int) -> Fraction:
        """From a board's end to where its groove begins, on its face; 0 where it runs out there."""
        pair = self.corner.pair
        ending = self.endings[number]
        if ending is Ending.PAST_THE_OTHER or (number == 0 and ending is Ending.UNDER_LAP):
            return ZERO
        left = max(ZERO, pair.depth(number) - self.depth)
        return left * pair.gauge(number) / pair.depth(number)

    def cut(self, number: int) -> Cut:
        """The waste of one board's groove, up to the bottom of the other's."""
        board, start = self.corner.boards[number], self.start(number)
        floor = at_least(2, board.thickness - self.depth, Surface.GROOVE)
        ends = (self._behind_the_other(number),) if start else ()
        return Cut((*self._across(number), floor, *ends))

    def _behind_the_other(self, number: int) -> HalfSpace:
        """What lies behind the bottom of the other board's groove."""
        pair = self.corner.pair
        plane = pair.behind(number, pair.boards[1 - number].thickness - self.depth)
        return replace(plane, surface=Surface.GROOVE)

    @property
    def sizes(self) -> Iterator[Size]:
        """Rows for the table of sizes."""
        name = self.channel.name
        if name == "rebate":
            low = self.on(self.corner.pair.wider).low
            yield Size(f"rebate, from the {'far' if low else 'reference'} edge", self.channel.width)
        else:
            lows = [self.on(number).low for number in self.lies_in]
            if len({*lows}) > 1:
                yield from self.corner.told_of_both(f"{name}, from the reference edge", lows)
            else:
                yield Size(f"{name}, from the reference edge", lows[0])
            yield Size(f"{name}, how wide", self.channel.width)
        yield Size(f"{name}, how deep", self.depth)
        for number in self.lies_in:
            if self.endings[number] is Ending.STOPPED:
                role = self.corner.role(number)
                yield Size(f"{name} stops, from the {role}'s end", self.start(number))

    def _across(self, number: int) -> tuple[HalfSpace, ...]:
        """Its two sides on a board; at an edge that it is open to there is none."""
        low, high = self.on(number).low, self.on(number).high
        width = self.corner.boards[number].width
        return (
            *((at_least(0, low, Surface.GROOVE),) if low > 0 else ()),
            *((at_most(0, high, Surface.GROOVE),) if high < width else ()),
        )


def is_past_the_other(channel: Channel, pair: BoardPair) -> bool:
    """Whether a channel lies in the wider board alone, past an edge of the other."""
    low, high = pair.shared
    own = channel.moved(pair.shift_to(pair.wider))
    on_board = channel.name == "rebate" or not own.is_open(pair.boards[pair.wider].width)
    return any(pair.insets) and on_board and (channel.high <= low or channel.low >= high)


def not_laid_out(channels: tuple[Channel, ...], layout: CornerLayout) -> Iterator[Finding]:
    """Channels in boards that lean, or that the narrower board's edge would split.

    In boards that lean a bottom lies level, and its groove would lean.
    """
    for channel in channels:
        if not layout.pair.is_upright:
            yield mistake(
                "not-with-this-corner",
                f"A {channel.name} is not laid out where the boards lean.",
                "Leave it out, and plough it when the corner has been tried dry.",
                channel.name,
            )
            continue
        for edge, inset, at in zip(EDGES, layout.pair.insets, layout.pair.shared, strict=True):
            if inset and channel.low < at < channel.high:
                yield _split(channel, layout, edge, at)
                break


def _split(channel: Channel, layout: CornerLayout, edge: Face, at: Fraction) -> Finding:
    """One of which so much lies past an edge of the narrower board, and the rest on it."""
    pair, name = layout.pair, channel.name
    narrow, remedy = layout.boards[1 - pair.wider], f"Move the {name}."
    beyond, on_it = channel.high - at, at - channel.low
    if edge is Face.REFERENCE_EDGE:
        beyond, on_it = on_it, beyond
    elif not pair.insets[0] and narrow.width > on_it:
        remedy = (
            f'Make "{narrow.name}" {layout.text(narrow.width - on_it)} wide, level at the '
            f"reference edge, so that it ends at the {name}, or move the {name}."
        )
    above = channel.moved(pair.shift_to(pair.wider)).high
    if channel.low < pair.shared[0] and above <= sum(pair.insets):
        remedy = (
            f'Let "{narrow.name}" stand in {layout.text(above)} at the reference edge, so that it '
            f"sits on what is in the {name}, or move the {name}."
        )
    return mistake(
        f"{name}-split",
        f"Of the {name}, {layout.text(channel.width)} wide, {layout.text(beyond)} lie past the "
        f'{edge} of "{narrow.name}", the narrower board.',
        remedy,
        name,
    )
