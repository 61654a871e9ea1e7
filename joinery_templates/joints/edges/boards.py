"""Two boards edge to edge: what can be told of them, and their tongue and groove."""

from collections.abc import Iterator

from msgspec.structs import replace

from joinery_templates.errors import COMMON
from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.joint import Loose, Member
from joinery_templates.joints.layout import Layout, let_between, pose
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.joints.shared_parameters import (
    choice_parameter,
    count_parameter,
    size_parameter,
)
from joinery_templates.joints.sources import NOYES
from joinery_templates.joints.tongues import usual_tongue
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood import cut
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import BoardEnd
from joinery_templates.wood.placement import ACROSS, AS_IT_IS, Placement

SOLID, LOOSE = "solid", "loose"
CENTRED = f"{NOYES}, p. 174: in the middle of the edge"
THIRD = f"a third: {COMMON}"
AS_DEEP = f"{NOYES}, p. 164: a groove about as deep as it is wide"
SPARE = {Units.MM: ONE, Units.INCH: INCH / 32}
"""How much deeper than the tongue is long a groove is (our judgement)."""
SHOWN = Fraction(20)
"""Of the board's length, for the picture: the joint runs on to the other end."""


class AlongEdge(BoardEnd, frozen=True, cache_hash=True):
    """A board that is worked along an edge; its end shows the section, and stays free.

    Attributes:
        worked: what is along which edge.
    """

    worked: str = ""

    @property
    def faces(self) -> tuple[Face, ...]:
        """The end alone: along the edge all lines are gauged, for they are as long as the board."""
        return (Face.END_GRAIN,)

    def place(self, hand: Hand) -> cut.Place:
        """No end of the board is taken; its template shows one."""
        return cut.Place(f"{hand}, {self.worked}")


class Parameters(Table):
    """The parameters of tongue and groove."""

    form: str = choice_parameter(
        "A tongue on the first board's far edge, or a loose one in grooves in both.", SOLID, LOOSE
    )
    tongue: Fraction | None = size_parameter(
        "Thickness of the tongue, and width of the groove.",
        "a third of the thinner board, by the nearest of your chisels or plough irons or else "
        f"rounded to a gauge setting ({THIRD})",
    )
    tongue_length: Fraction | None = size_parameter(
        "How far the tongue goes into a groove.", f"as long as it is thick ({AS_DEEP})"
    )
    depth: Fraction | None = size_parameter(
        "How deep a groove is: more than the tongue is long.",
        "1 mm, or 1/32 in, more than the tongue is long (our judgement)",
    )
    board_count: int | None = count_parameter(
        "How many boards lie side by side, the first among them; those after the second are as "
        "wide as that one.",
        "2",
        low=2,
        high=100,
    )
    glued: bool = parameter(
        Quantity.FLAG,
        "Whether the boards are glued to each other, as in a panel; in a back or a floor each "
        "swells and shrinks by itself.",
        default=True,
        rule="true, a panel",
    )


class Edges(Layout, frozen=True):
    """Two boards edge to edge."""

    hands = (Hand.LEFT, Hand.LEFT)
    stance = pose((0, 0, -1), (-1, -2, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0))
    given: Parameters

    @property
    def is_solid(self) -> bool:
        """Whether the tongue is the first board's own."""
        return self.given.form == SOLID

    @property
    def tongue(self) -> Fraction:
        """Its thickness, given or usual."""
        return self.given.tongue or usual_tongue(self)

    @property
    def low(self) -> Fraction:
        """From the outside face of both boards to the tongue."""
        return (self.thinner.thickness - self.tongue) / 2

    @property
    def high(self) -> Fraction:
        """From the outside face to the tongue's other side."""
        return self.low + self.tongue

    @property
    def long(self) -> Fraction:
        """How far the tongue goes into a groove."""
        return self.given.tongue_length or self.tongue

    @property
    def depth(self) -> Fraction:
        """Of a groove."""
        return self.given.depth or self.long + SPARE[self.units]

    @property
    def count(self) -> int:
        """Of the boards."""
        return self.given.board_count or 2

    @property
    def whole(self) -> Fraction:
        """Width of all boards together."""
        first, second = (board.width for board in self.boards)
        hidden = self.long if self.is_solid else ZERO
        return first + (second - hidden) * (self.count - 1)

    @property
    def shows(self) -> Fraction:
        """Of the first board's width."""
        return self.boards[0].width - (self.long if self.is_solid else ZERO)

    @property
    def parts(self) -> tuple[cut.Part, cut.Part]:
        """Both boards with an edge worked; they lie the same way round."""
        return self._part(0), self._part(1)

    def members(self) -> Iterator[Member]:
        """Both boards, and how many of each there are where that is told."""
        told = (1, self.count - 1) if self.given.board_count else (0, 0)
        for member, pieces in zip(super().members(), told, strict=True):
            yield replace(member, pieces=pieces)

    def drawn(self, number: int, part: cut.Part) -> tuple[Face, ...]:
        """The end, which shows the edge."""
        return (Face.END_GRAIN,)

    def _part(self, number: int) -> AlongEdge:
        board = self.boards[number]
        floor = self.depth
        within = (
            cut.at_least(2, self.low, cut.Surface.WALL),
            cut.at_most(2, self.high, cut.Surface.WALL),
        )
        if number:
            cuts = [cut.Cut((*within, cut.at_most(0, floor, cut.Surface.SHOULDER)))]
        elif self.is_solid:
            shoulder = cut.at_least(0, self.shows, cut.Surface.SHOULDER)
            cuts = [cut.Cut((shoulder, side.turned())) for side in within]
        else:
            cuts = [cut.Cut((*within, cut.at_least(0, board.width - floor, cut.Surface.SHOULDER)))]
        worked = "tongue on the far edge" if self.is_solid else "groove in the far edge"
        if number:
            worked = "groove in the reference edge"
        return AlongEdge(board, tuple(cuts), SHOWN, gauged=False, worked=worked)

    @property
    def placement(self) -> Placement:
        """The second board on the first, their ends in one line."""
        return Placement(AS_IT_IS, (self.shows, ZERO, ZERO))

    def loose(self) -> tuple[Loose, ...]:
        """A loose tongue for each seam, its grain across the joint."""
        if self.is_solid:
            return ()
        at = Placement(ACROSS, (self.boards[0].width - self.long, ZERO, self.low))
        made = let_between("tongue", SHOWN, self.tongue, 2 * self.long, at)
        return (replace(made, count=self.count - 1, runs_on=True),)
