"""Two boards edge to edge: what can be told of them, and their tongue and groove."""

from collections.abc import Iterator
from fractions import Fraction

from joinery_templates.errors import COMMON
from joinery_templates.joint import Loose, Member
from joinery_templates.joints.gauge import as_a_gauge_is_set
from joinery_templates.joints.layout import Layout, block, sawn_off
from joinery_templates.joints.parameter import Table
from joinery_templates.joints.shared_parameters import choice_parameter, size_parameter
from joinery_templates.joints.sources import NOYES
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Place, Surface, at_least, at_most
from joinery_templates.wood.placement import Placement

ZERO, ONE = Fraction(0), Fraction(1)
SOLID, LOOSE = "solid", "loose"
CENTRED = f"{NOYES}, p. 174: in the middle of the edge"
THIRD = f"a third: {COMMON}"
AS_DEEP = f"{NOYES}, p. 164: a groove about as deep as it is wide"
THINNEST, THICKEST = Fraction(1, 4), Fraction(2, 5)
"""Of the thickness (our judgement)."""
SPARE = {Units.MM: ONE, Units.INCH: INCH / 32}
"""How much deeper than the tongue is long a groove is (our judgement)."""
SHOWN = Fraction(20)
"""Of the board's length, for the picture: the joint runs on to the other end."""


class AlongEdge(BoardEnd, frozen=True, cache_hash=True):
    """A board that is worked along an edge; its end shows the section, and stays free."""

    @property
    def faces(self) -> tuple[Face, ...]:
        """The end alone: along the edge all lines are gauged, for they are as long as the board."""
        return (Face.END_GRAIN,)

    def place(self, hand: Hand) -> Place:
        """No end of the board is taken."""
        return Place("joint along the edge")


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


class Edges(Layout, frozen=True):
    """Two boards edge to edge."""

    given: Parameters

    @property
    def thin(self) -> Fraction:
        """The thinner board's thickness."""
        return self.thinner.thickness

    @property
    def is_solid(self) -> bool:
        """Whether the tongue is the first board's own."""
        return self.given.form == SOLID

    @property
    def tongue(self) -> Fraction:
        """Its thickness."""
        third, low, high = self.thin / 3, self.thin * THINNEST, self.thin * THICKEST
        chisel = self.request.tools.nearest_chisel(third, low, high)
        return self.given.tongue or chisel or as_a_gauge_is_set(third, self.units)

    @property
    def low(self) -> Fraction:
        """From the outside face of both boards to the tongue."""
        return (self.thin - self.tongue) / 2

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
    def shows(self) -> Fraction:
        """Of the first board's width."""
        return self.boards[0].width - (self.long if self.is_solid else ZERO)

    def member(self, number: int) -> Member:
        """A board with its edge worked; both lie the same way round."""
        board = self.boards[number]
        floor = self.depth
        within = (at_least(2, self.low, Surface.WALL), at_most(2, self.high, Surface.WALL))
        if number:
            cuts = [Cut((*within, at_most(0, floor, Surface.SHOULDER)))]
        elif self.is_solid:
            shoulder = at_least(0, self.shows, Surface.SHOULDER)
            cuts = [Cut((shoulder, side.turned())) for side in within]
        else:
            cuts = [Cut((*within, at_least(0, board.width - floor, Surface.SHOULDER)))]
        part = AlongEdge(board, tuple(cuts), SHOWN, gauged=False)
        return Member(self.roles[number].words, part, Hand.LEFT, faces=(Face.END_GRAIN,))

    @property
    def placement(self) -> Placement:
        """The second board on the first, their ends in one line."""
        rows = ((ONE, ZERO, ZERO), (ZERO, ONE, ZERO), (ZERO, ZERO, ONE))
        return Placement(rows, (self.shows, ZERO, ZERO))

    def loose(self) -> tuple[Loose, ...]:
        """A loose tongue, its grain across the joint."""
        if self.is_solid:
            return ()
        across = 2 * self.long
        end = sawn_off("tongue", SHOWN, self.tongue, across)
        rows = ((ZERO, ONE, ZERO), (ONE, ZERO, ZERO), (ZERO, ZERO, ONE))
        at = Placement(rows, (self.boards[0].width - self.long, ZERO, self.low))
        stock = Member("tongue", end, Hand.LEFT, faces=(Face.OUTSIDE,))
        return (Loose(stock, (at,), is_inside=True, runs_on=True),)

    def filled(self) -> Iterator[tuple[HalfSpace, ...]]:
        """All but the bottoms of the grooves."""
        right = self.shows + self.boards[1].width
        start = self.shows if self.is_solid else self.shows - self.long
        yield block((ZERO, ZERO, ZERO), (right, SHOWN, self.low))
        yield block((ZERO, ZERO, self.high), (right, SHOWN, self.thin))
        yield block((start, ZERO, self.low), (self.shows + self.long, SHOWN, self.high))
