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

from collections.abc import Iterator
from typing import ClassVar

from joinery_templates.exact import ONE, ZERO, Fraction, floor
from joinery_templates.joint import Loose, Member
from joinery_templates.joints.gauge import at_least_as_a_gauge_is_set, at_most_as_a_gauge_is_set
from joinery_templates.joints.layout import Layout, pose
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
from joinery_templates.joints.upright import UPRIGHTS, Upright, on_parameter
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import EDGES, Face, Hand
from joinery_templates.wood.cut import BoardEnd, Cut, Part, Vector
from joinery_templates.wood.hole import round_hole, round_stock
from joinery_templates.wood.placement import AS_IT_IS, Placement

FRAME, EDGE, CORNER, TEE = "frame", "edge", "corner", "tee"
FORMS_WITH = {"at": (FRAME, TEE), "on": (FRAME,), "seam": (EDGE,), "drawn": (EDGE,)}
"""The parameters that not every form has, and the forms that have them."""
ONE_HOLE, WHOLE_ROW = "one hole", "whole row"

MIDDLE = f"{NOYES}, p. 175: in the middle, gauged from the outside faces; all 1 in deep"
APART = f"{COMPENDIUM}: 3 to 12 in apart"
SHORTER = f"{COMPENDIUM}: 1/8 in shorter than both holes together"
RODS = f"{NOYES}, p. 127: rods are 3/16 to 1 in thick"
BAND = "a third of the thickness, or about half: two books of our time, read in part"
THIN_STOCK = f"{CABINET_MAKING}: hardly in stuff under 3/4 in"

NEAREST = {Units.MM: Fraction(75), Units.INCH: 3 * INCH}
FARTHEST = {Units.MM: Fraction(305), Units.INCH: 12 * INCH}
"""From dowel to dowel (`APART`), and in an edge no nearer; in such millimetres as are used."""
DIAMETERS_APART = 2
"""In an end, which is short and must hold: as much wood is left between two dowels as one is thick
(our judgement)."""
USUAL_IN_AN_END = 3 * INCH
"""From dowel to dowel, where there are more than two (our judgement)."""
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
        FRAME,
        EDGE,
        CORNER,
        TEE,
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

    into: ClassVar[tuple[tuple[int, int], tuple[int, int]]]
    """For each board the axis that its holes run along, and which way they go into it."""
    most: ClassVar[tuple[Fraction | None, Fraction | None]] = (None, MOST_OF_A_BOARD)
    """Of what each board has below the holes' mouths, how much they take at most by rule."""
    stance = pose(up=(0, 0, -1), front=(-2, 1, 0), apart=(0, 1, 0))
    limits: ClassVar[tuple[str, str]] = EDGES
    """Where the row is measured from, and where its line ends."""
    usual_pitch: ClassVar[Fraction] = USUAL_IN_AN_END
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
    def upright(self) -> Upright:
        """What the second board of a frame is."""
        return UPRIGHTS[self.given.on]

    @property
    def as_met(self) -> Placement:
        """The same as the first board meets it, whatever the second one's own marks."""
        return self.placement

    @property
    def on_second(self) -> str:
        """Added to where the line is gauged from, where the second board has another face there."""
        return ""

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
    def positions(self) -> tuple[Fraction, ...]:
        """The dowels' middles, from the row's start."""
        line, given = self.line, self.given
        if given.positions is not None:
            return given.positions
        count, pitch, end = given.dowels, given.pitch, given.end_distance
        if count is None:
            least = 2 if line >= 4 * self.diameter else 1
            count = max(least, floor(line / self.usual_pitch))
            if pitch is not None:  # a dowel's thickness of wood is left at each end
                count = max(floor((line - 2 * self.diameter) / pitch), 0) + 1
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

    def drawn(self, number: int, part: Part) -> tuple[Face, ...]:
        """Of an end the one face that has the holes."""
        return (Face.INSIDE if number else Face.END_GRAIN,) if part.folds else ()

    def loose(self) -> Iterator[Loose]:
        """The dowels."""
        count = len(self.positions)
        stock = Member("dowel", self.stock, Hand.LEFT)
        yield Loose(stock, self._frames(), is_inside=True, count=count)
