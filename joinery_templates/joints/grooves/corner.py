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
through a board's end only where that is covered or cut away.
"""

from collections.abc import Iterator
from enum import StrEnum
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.errors import mistake
from joinery_templates.joint import Size
from joinery_templates.joints.checks import refuse
from joinery_templates.joints.corners.layout import CornerLayout
from joinery_templates.joints.corners.pair import BoardPair
from joinery_templates.joints.gauge import as_a_gauge_is_set
from joinery_templates.joints.grooves.parameters import Channel
from joinery_templates.wood.cut import Cut, HalfSpace, Surface, at_least, at_most


class Ending(StrEnum):
    """How a groove ends at a board's end."""

    STOPPED = "is stopped"
    UNDER_LAP = "runs out at the end, which the lap covers"
    IN_SOCKET = "runs out into the socket"
    IN_SPACE = "runs out into the space for the half pin"
    IN_MITRE = "runs out through the mitre"


class Crossed(StrEnum):
    """What a groove lies wholly inside of where the boards cross."""

    FIRST = "a tail or finger of the first board"
    SECOND = "what stands at the edge of the second board"
    MITRE = "a mitre from corner to corner"
    BOTH = "parts of both boards"


Region = tuple[HalfSpace, ...]


class CornerGroove(Struct, frozen=True):
    """A groove or rebate in a corner.

    Attributes:
        corner: the layout.
        channel: where it lies across the width.
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
    def endings(self) -> tuple[Ending, Ending]:
        """How it ends at the first board's end, and at the second board's."""
        if self.crossed is Crossed.MITRE:
            return Ending.IN_MITRE, Ending.IN_MITRE
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
        if number == 0 and self.endings[0] is Ending.UNDER_LAP:
            return Fraction(0)
        left = max(Fraction(0), pair.depth(number) - self.depth)
        return left * pair.gauge(number) / pair.depth(number)

    def cut(self, number: int) -> Cut:
        """The waste of one board's groove, up to the bottom of the other's."""
        board, start = self.corner.boards[number], self.start(number)
        floor = at_least(2, board.thickness - self.depth, Surface.GROOVE)
        ends = (self._behind_the_other(number),) if start else ()
        return Cut((*self._across, floor, *ends))

    def _behind_the_other(self, number: int) -> HalfSpace:
        """What lies behind the bottom of the other board's groove."""
        pair = self.corner.pair
        plane = pair.behind(number, pair.boards[1 - number].thickness - self.depth)
        return replace(plane, surface=Surface.GROOVE)

    def outside_of(self, region: Region) -> Iterator[Region]:
        """What the groove in the joined corner leaves of a convex region, in convex pieces."""
        pair = self.corner.pair
        floor = pair.boards[0].thickness - self.depth
        end = self._behind_the_other(0)
        if self.endings[0] is Ending.UNDER_LAP and pair.depth(0) - self.depth > pair.starts[0]:
            end = pair.start_plane(0)
        for side in self._across:
            yield (*region, side.turned())
        yield (*region, *self._across, at_most(2, floor))
        yield (*region, *self._across, at_least(2, floor), end.turned())

    @property
    def sizes(self) -> Iterator[Size]:
        """Rows for the table of sizes."""
        name, low = self.channel.name, self.channel.low
        if name == "rebate":
            yield Size(f"rebate, from the {'far' if low else 'reference'} edge", self.channel.width)
        else:
            yield Size(f"{name}, from the reference edge", low)
            yield Size(f"{name}, how wide", self.channel.width)
        yield Size(f"{name}, how deep", self.depth)
        for number, ending in enumerate(self.endings):
            if ending is Ending.STOPPED:
                role = self.corner.roles[number].words
                yield Size(f"{name} stops, from the {role}'s end", self.start(number))

    @property
    def _across(self) -> tuple[HalfSpace, ...]:
        """Its two sides; at an edge that it is open to there is none."""
        low, high = self.channel.low, self.channel.high
        return (
            *((at_least(0, low, Surface.GROOVE),) if low > 0 else ()),
            *((at_most(0, high, Surface.GROOVE),) if high < self.corner.boards[0].width else ()),
        )


def check_upright(channels: tuple[Channel, ...], pair: BoardPair) -> None:
    """In boards that lean a bottom lies level and its groove would lean: that is not laid out.

    Raises:
        InputError: where there is a channel all the same.
    """
    if pair.is_upright:
        return
    refuse(
        mistake(
            "not-with-this-corner",
            f"A {channel.name} is not laid out where the boards lean.",
            "Leave it out, and plough it when the corner has been tried dry.",
            channel.name,
        )
        for channel in channels
    )
