r"""Two boards that dowels join, and the forms in which they meet.

Seen on the outside faces, and for the corner and the tee along the boards' width::

     frame               edge                  corner               tee
    |     |           +----+----+         z = 0 +----+-----    |    |
    |   ==|====       |    |    |               |  ==|==       |    |
    |     |           |  ==|==  |               |    +-----    |    +-----  the line
    |   ==|====       |    |    |               |    |         |  ==|==
    |     |           |  ==|==  |               |    |         |    +-----
    second first      first second            second first   second first

Both hole patterns come from one row: a hole's middle in the second board is the first board's,
carried over where the boards meet. Both are gauged from the outside faces.
"""

import math
from collections.abc import Iterator
from fractions import Fraction
from typing import Any, ClassVar

from msgspec.structs import replace

from joinery_templates.exact import ONE, ZERO
from joinery_templates.joint import Loose, Member
from joinery_templates.joints.gauge import at_least_as_a_gauge_is_set, at_most_as_a_gauge_is_set
from joinery_templates.joints.layout import Layout, block, pose
from joinery_templates.joints.parameter import Table
from joinery_templates.joints.shared_parameters import (
    choice_parameter,
    count_parameter,
    distance_parameter,
    size_parameter,
    sizes_parameter,
)
from joinery_templates.joints.sources import CABINET_MAKING, COMPENDIUM, NOYES
from joinery_templates.joints.tools import nearest_size
from joinery_templates.joints.upright import LEGS, TOP, UPRIGHTS, Upright, on_parameter
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import EDGES, Board, Face, Hand
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Part, Stretch, Vector
from joinery_templates.wood.hole import round_hole, round_stock
from joinery_templates.wood.placement import AGAINST, AS_IT_IS, Placement, end_to_end

ONE_HOLE, WHOLE_ROW = "one hole", "whole row"

MIDDLE = f"{NOYES}, p. 175: in the middle, gauged from the outside faces; all 1 in deep"
APART = f"{COMPENDIUM}: 3 to 12 in apart"
SHORTER = f"{COMPENDIUM}: 1/8 in shorter than both holes together"
RODS = f"{NOYES}, p. 127: rods are 3/16 to 1 in thick"
BAND = "a third of the thickness, or about half: two books of our time, read in part"
THIN_STOCK = f"{CABINET_MAKING}: hardly in stuff under 3/4 in"

NEAREST, FARTHEST = 3 * INCH, 12 * INCH
"""From dowel to dowel (`APART`)."""
USUAL_IN_A_SEAM = 6 * INCH
"""From dowel to dowel in a long edge: within `APART` (our judgement)."""
THINNEST, THICKEST = Fraction(1, 3), Fraction(1, 2)
"""Of the board's thickness (`BAND`)."""
USUAL = (THINNEST + THICKEST) / 2
SIZES = {
    Units.MM: tuple(map(Fraction, (2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25))),
    Units.INCH: tuple(INCH * Fraction(n, 16) for n in (1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 14, 16)),
}
"""Of dowels that are sold, and thinner pins (from memory)."""
DEEP = {Units.MM: Fraction(25), Units.INCH: INCH}
"""Of a hole (`MIDDLE`)."""
DIAMETERS_DEEP = 4
"""No hole is proposed deeper than so many diameters (our judgement)."""
MOST_OF_A_BOARD = Fraction(3, 4)
"""A hole goes so deep into it at the most by rule: the bit's point needs room (our judgement)."""
SPARE = {Units.MM: Fraction(3), Units.INCH: INCH / 8}
"""What a dowel is shorter than both its holes (`SHORTER`)."""


class Parameters(Table):
    """What can be told of dowels."""

    form: str = choice_parameter(
        "How the boards meet: the first one's end on the second one's edge (frame), edge to edge "
        "(edge), or its end on the second one's inside face, at the end (corner) or away from it "
        "(tee).",
        "frame",
        "edge",
        "corner",
        "tee",
    )
    dowels: int | None = count_parameter(
        "How many dowels stand in the row.",
        "two at least: in an edge about 6 in apart, in an end as many as stand 3 in apart; one "
        "where an end has no room for two (our judgement)",
        low=1,
        high=200,
    )
    pitch: Fraction | None = size_parameter(
        "From the middle of one dowel to the middle of the next.", "evenly spread"
    )
    end_distance: Fraction | None = size_parameter(
        "From each end of the row's line to the middle of the nearest dowel.",
        "half of what is between two",
    )
    positions: tuple[Fraction, ...] | None = sizes_parameter(
        "Where the middle of each dowel comes, in order from the row's start.",
        "evenly spaced",
    )
    diameter: Fraction | None = size_parameter(
        "Diameter of dowels and holes.",
        "between a third and a half of the thickness, of your bits if one serves, else a size "
        "that is sold",
    )
    depth: Fraction | None = size_parameter(
        "Depth of the holes in the first board.",
        "25 mm or 1 in, at most four diameters, and in a seam half of the board's width",
    )
    second_depth: Fraction | None = size_parameter(
        "Depth of the holes in the second board.",
        "as in the first; at most three quarters of the board, and in a seam half of its width",
    )
    spare: Fraction | None = size_parameter(
        "How much shorter a dowel is than its two holes together.", "3 mm, or 1/8 in", high=20
    )
    drawn: str = choice_parameter(
        "What the templates of a seam show: one hole, laid on at each mark of the setting-out "
        "strip, or the whole row in one long template.",
        ONE_HOLE,
        WHOLE_ROW,
    )
    seam: Fraction | None = size_parameter(
        "Length of the seam, where boards meet edge to edge.", "the shorter board's length"
    )
    at: Fraction | None = distance_parameter(
        "In a frame from the second board's end to the first one's far edge; in a tee from the "
        "second one's top end to the first one's outside face.",
        "not told: you square its line where it comes",
    )
    on: str | None = on_parameter("in a frame a stile, which is no leg: its reference edge")


class Dowelled(Layout, frozen=True):
    """Two boards that dowels join; each form says how they meet."""

    own: ClassVar[tuple[str, ...]] = ()
    """The parameters that not every form has."""
    into: ClassVar[tuple[tuple[int, int], tuple[int, int]]]
    """For each board the axis that its holes run along, and which way they go into it."""
    most: ClassVar[tuple[Fraction | None, Fraction | None]] = (None, MOST_OF_A_BOARD)
    """Of what each board has below the holes' mouths, how much they take at most by rule."""
    stance = pose(up=(0, 0, -1), front=(-2, 1, 0), apart=(0, 1, 0))
    limits: ClassVar[tuple[str, str]] = EDGES
    """Where the row is measured from, and where its line ends."""
    usual_pitch: ClassVar[Fraction] = NEAREST
    given: Parameters

    @property
    def line_told(self) -> Fraction | None:
        """How long the line is on which the dowels stand; None where nobody told it."""
        raise NotImplementedError

    @property
    def line(self) -> Fraction:
        """The same where it is told, as it is of a row that was not refused."""
        assert self.line_told is not None
        return self.line_told

    @property
    def placement(self) -> Placement:
        """The second board on the first."""
        raise NotImplementedError

    @property
    def as_met(self) -> Placement:
        """The same as the first board meets it, whatever the second one's own marks."""
        return self.placement

    @property
    def on_second(self) -> str:
        """Added to where the line is gauged from, where the second board has another face there."""
        return ""

    @property
    def parts(self) -> tuple[Part, Part]:
        """Both boards with their holes."""
        raise NotImplementedError

    @property
    def rooms(self) -> tuple[Fraction | None, Fraction | None]:
        """For each board how much wood there is below the holes' mouths; None if not told."""
        raise NotImplementedError

    @property
    def thick(self) -> Fraction:
        """In the middle of which thickness the dowels stand."""
        return self.thinner.thickness

    @property
    def band(self) -> tuple[Fraction, Fraction]:
        """From how thin to how thick a dowel may be: `BAND`, of an end whichever way it is less."""
        thick = min(self.thick, self.line)
        return thick * THINNEST, thick * THICKEST

    @property
    def usual_count(self) -> int:
        """How many dowels stand in the row where nobody told it."""
        fitting = self.line / self.usual_pitch
        return max(2 if self.line >= 4 * self.diameter else 1, math.floor(fitting))

    @property
    def positions(self) -> tuple[Fraction, ...]:
        """The dowels' middles, from the row's start."""
        line, given = self.line, self.given
        if given.positions is not None:
            return given.positions
        count, pitch, end = given.dowels, given.pitch, given.end_distance
        if count is None:
            count = self.usual_count
            if pitch is not None:  # a dowel's thickness of wood is left at each end
                count = max(math.floor((line - 2 * self.diameter) / pitch), 0) + 1
        if pitch is None:
            pitch = at_least_as_a_gauge_is_set(line / count, self.units)
            if end is not None:
                pitch = (line - 2 * end) / max(count - 1, 1)
        if end is None:
            end = (line - (count - 1) * pitch) / 2
        return tuple(end + number * pitch for number in range(count))

    @property
    def shown(self) -> tuple[Fraction, ...]:
        """The dowels that templates and pictures show."""
        return self.positions

    @property
    def diameter(self) -> Fraction:
        """Of dowels and holes."""
        if self.given.diameter is not None:
            return self.given.diameter
        low, high = self.band
        owned = [bit for bit in self.request.tools.bits if low <= bit <= high]
        sold = [size for size in SIZES[self.units] if low <= size <= high]
        wanted = min(self.thick * USUAL, self.line / 3)  # two want room beside each other
        near = nearest_size(owned or sold, wanted)
        return near or at_most_as_a_gauge_is_set(high, self.units)

    @property
    def depths(self) -> tuple[Fraction, Fraction]:
        """Of the holes in the first and in the second board."""
        given, usual = self.given, min(DEEP[self.units], DIAMETERS_DEEP * self.diameter)
        first = self._at_most(usual, 0) if given.depth is None else given.depth
        second = given.second_depth
        return first, self._at_most(first, 1) if second is None else second

    def _at_most(self, depth: Fraction, number: int) -> Fraction:
        """A depth, or what goes into a board at the most by rule."""
        room, share = self.rooms[number], self.most[number]
        if room is None or share is None or depth <= room * share:
            return depth
        return at_most_as_a_gauge_is_set(room * share, self.units)

    @property
    def spare(self) -> Fraction:
        """How much shorter a dowel is than both its holes."""
        return self.given.spare or SPARE[self.units]

    @property
    def dowel(self) -> Fraction:
        """Length of a dowel."""
        return sum(self.depths, -self.spare)

    @property
    def standing(self) -> Fraction:
        """How far a dowel stands out of the second board when it goes home."""
        return self.depths[0] - self.spare / 2

    def mouth(self, position: Fraction) -> Vector:
        """Where the boards meet on a dowel's axis, in the first board's frame."""
        return position, ZERO, self.thick / 2

    def holes(self, number: int) -> tuple[Cut, ...]:
        """A board's holes."""
        (axis, way), depth = self.into[number], self.depths[number]
        onto_second = self.as_met.reversed()
        mouths = map(self.mouth, self.shown)
        places = map(onto_second.point, mouths) if number else mouths
        return tuple(
            round_hole(at, axis, self.diameter, at[axis] + way * depth, way > 0) for at in places
        )

    @property
    def stock(self) -> BoardEnd:
        """One of the dowels."""
        return round_stock("dowel", self.diameter, self.dowel)

    def _frames(self) -> tuple[Placement, ...]:
        """Each dowel in the first board's frame, as far from the bottom of one hole as the other.

        Its y runs into the first board.
        """
        axis, way = self.into[0]
        turned = ((ZERO, ONE * way, ZERO), (ONE, ZERO, ZERO), AS_IT_IS[2])
        found = []
        for position in self.shown:
            corner = [at - self.diameter / 2 for at in self.mouth(position)]
            start = self.depths[1] - self.spare / 2
            corner[axis] = self.mouth(position)[axis] - way * start
            rows = AS_IT_IS if axis else turned
            found.append(Placement(rows, (corner[0], corner[1], corner[2])))
        return tuple(found)

    def filled(self) -> Iterator[tuple[HalfSpace, ...]]:
        """Where the dowels go and the wood round them: there nothing is missing."""
        axis, way = self.into[0]
        low, high = [ZERO] * 3, [self.boards[0].width, ZERO, self.thick]
        if axis == 0:
            low[1], high[1] = -self.diameter, self.shown[-1] - self.shown[0] + self.diameter
        one, other = (depth - self.spare / 2 for depth in self.depths)
        ends = -way * other, way * one
        at = self.mouth(ZERO)[axis]
        low[axis], high[axis] = sorted(at + end for end in ends)
        yield block((low[0], low[1], low[2]), (high[0], high[1], high[2]))

    def drawn(self, number: int, part: Part) -> tuple[Face, ...]:
        """Of an end the one face that has the holes."""
        return (Face.INSIDE if number else Face.END_GRAIN,) if part.folds else ()

    def loose(self) -> Iterator[Loose]:
        """The dowels."""
        count = len(self.positions)
        stock = Member("dowel", self.stock, Hand.LEFT)
        yield Loose(stock, self._frames(), is_inside=True, count=count)


class OnEnd(Dowelled, frozen=True):
    """Dowels in the first board's end."""

    @property
    def line_told(self) -> Fraction:
        """The first board's width."""
        return self.boards[0].width

    def end(self) -> BoardEnd:
        """The first board's end; no line is carried round it."""
        return BoardEnd(self.boards[0], self.holes(0), self.depths[0], gauged=False)


class Frame(OnEnd, frozen=True):
    """A rail's end on a stile's edge, whose reference edges face into the frame; or on a leg."""

    own = ("at", "on")
    into = ((1, 1), (0, 1))
    stance = pose(up=(1, 0, 0), front=(0, 1, -1), apart=(0, 1, 0))
    limits = ("first board's reference edge", "first board's far edge")

    @property
    def upright(self) -> Upright:
        """What the second board is."""
        return UPRIGHTS[self.given.on]

    @property
    def met(self) -> Board:
        """The second board as the rail meets it."""
        return self.upright.met(self.boards[1])

    @property
    def thick(self) -> Fraction:
        """The thinner one's, as they meet."""
        return min(self.boards[0].thickness, self.met.thickness)

    @property
    def rooms(self) -> tuple[Fraction | None, Fraction | None]:
        """Along the first board, across the second."""
        return self.boards[0].length, self.met.width

    @property
    def as_met(self) -> Placement:
        """Outside faces level, the stile's reference edge at the rail's end."""
        rows = ((ZERO, -ONE, ZERO), (-ONE, ZERO, ZERO), (ZERO, ZERO, ONE))
        return Placement(rows, (self.line, ZERO, ZERO))

    @property
    def placement(self) -> Placement:
        """The same in the frame of a leg's own marks."""
        return self.upright.on_rail(self.as_met, self.boards[1])

    @property
    def on_second(self) -> str:
        """On a leg's inside face it is gauged from its far edge."""
        face = self.upright.gauged
        return "" if face is Face.OUTSIDE else f"; on the leg from its {face}"

    @property
    def parts(self) -> tuple[Part, Part]:
        """The rail's end, and the stile from the line of the rail's far edge on."""
        at, is_leg = self.given.at, self.upright.is_leg
        stile = Stretch(
            board=self.boards[1],
            cuts=tuple(self.upright.as_marked(self.met, hole) for hole in self.holes(1)),
            start=ZERO,
            reach=self.line,
            line="" if at == 0 and not is_leg else "first board's far edge",
            up=TOP if is_leg else "end past the first board's far edge",
            hands=LEGS if is_leg else ("towards its right-hand end", "towards its left-hand end"),
            along=at,
            is_paired=not at and not is_leg,
            on_leg=is_leg,
            is_upright=not is_leg,
        )
        return self.end(), stile

    def members(self, *parts: Part) -> tuple[Member, ...]:
        """Both boards; on a leg's inside face the rail's other end, as with tenons."""
        rail, other = super().members(*parts)
        is_turned = self.upright.entered is Face.INSIDE
        return replace(rail, hand=rail.hand.other) if is_turned else rail, other


class Corner(OnEnd, frozen=True):
    """An end on the inside face of another board, flush with that one's end."""

    into = ((1, 1), (2, -1))
    at_corner = True

    @property
    def thick(self) -> Fraction:
        """The first board's."""
        return self.boards[0].thickness

    @property
    def rooms(self) -> tuple[Fraction | None, Fraction | None]:
        """Along the first board, through the second."""
        return self.boards[0].length, self.boards[1].thickness

    @property
    def placement(self) -> Placement:
        """The first board's end on the inside face, its outside face at y = 0."""
        return end_to_end(-self.boards[1].thickness, ZERO)

    @property
    def parts(self) -> tuple[Part, Part]:
        """Both ends."""
        return self.end(), BoardEnd(self.boards[1], self.holes(1), self.thick)


class Tee(Corner, frozen=True):
    """An end on the inside face of another board, away from its ends."""

    own = ("at",)
    at_corner = False

    @property
    def parts(self) -> tuple[Part, Part]:
        """The end, and the other board from the line of the first one's outside face down."""
        other = Stretch(
            board=self.boards[1],
            cuts=self.holes(1),
            start=ZERO,
            reach=self.thick,
            line="first board's outside face",
            up="top end",
            hands=("left side", "right side"),
            along=self.given.at,
        )
        return self.end(), other


class Edge(Dowelled, frozen=True):
    """The first board's far edge on the second's reference edge, measured from the first hole.

    The frames of two parts that meet are mirror images: the second one's runs the other way.
    """

    own = ("seam", "drawn")
    hands = (Hand.RIGHT, Hand.LEFT)
    into = ((0, -1), (0, 1))
    most = (Fraction(1, 2), Fraction(1, 2))
    stance = pose(up=(0, 0, -1), front=(-2, -1, 0), apart=(-1, 0, 0))
    limits = ("start of the seam", "end of the seam")
    usual_pitch = USUAL_IN_A_SEAM

    @property
    def line_told(self) -> Fraction | None:
        """Of the seam."""
        told = [board.length for board in self.boards if board.length is not None]
        return self.given.seam or min(told, default=None)

    @property
    def shown(self) -> tuple[Fraction, ...]:
        """The first dowel alone, unless the whole row is wished for."""
        return self.positions if self.given.drawn == WHOLE_ROW else self.positions[:1]

    @property
    def rooms(self) -> tuple[Fraction | None, Fraction | None]:
        """Across both boards."""
        return self.boards[0].width, self.boards[1].width

    @property
    def placement(self) -> Placement:
        """Outside faces level."""
        return Placement(AGAINST, (self.boards[0].width, ZERO, ZERO))

    def mouth(self, position: Fraction) -> Vector:
        """On the first board's far edge."""
        return self.boards[0].width, position - self.positions[0], self.thick / 2

    @property
    def parts(self) -> tuple[Part, Part]:
        """From half a diameter before the first hole to as much past the last that is shown."""
        low, high = -self.diameter / 2, self.shown[-1] - self.shown[0] + self.diameter / 2
        line = "middle of hole 1" if len(self.shown) > 1 else "middle of the hole"
        start, end = self.limits
        ends = ((low, high, start, "far"), (-high, -low, end, "reference"))
        one, other = (
            Stretch(
                self.boards[number],
                self.holes(number),
                start,
                reach,
                line,
                up,
                (f"joint at {edge} edge",) * 2,
            )
            for number, (start, reach, up, edge) in enumerate(ends)
        )
        return one, other


FORMS: dict[str, Any] = {"frame": Frame, "edge": Edge, "corner": Corner, "tee": Tee}
