"""What a sliding dovetail can be told, and its tail and housing in figures."""

from fractions import Fraction

from joinery_templates.joints.gauge import as_a_gauge_is_set
from joinery_templates.joints.housings.boards import (
    ShelfInSide,
    depth_parameter,
    place_parameter,
)
from joinery_templates.joints.layout import one_in
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.joints.shared_parameters import (
    choice_parameter,
    fit_parameter,
    size_parameter,
)
from joinery_templates.wood.cut import HalfSpace

BOTH, UPPER, LOWER = "both", "upper", "lower"
FACES = (UPPER, LOWER)
"""Of the shelf, as the sides of its tail are called."""
ZERO = Fraction(0)
PAST_LEAN = Fraction(1)
"""How much of the face is left beside the tail's wide end: 1 mm for a clean arris (ours)."""


class Parameters(Table):
    """The parameters of a sliding dovetail."""

    sides: str = choice_parameter(
        "Which sides of the tail slope; the other one is flush with the shelf's face.",
        BOTH,
        UPPER,
        LOWER,
    )
    slope: Fraction = parameter(
        Quantity.SLOPE,
        "How much the sloping sides lean, as a ratio or an angle.",
        default=Fraction(1, 7),
        rule="1:7",
    )
    depth: Fraction | None = depth_parameter("Depth of the housing, which is the tail's length.")
    at: Fraction | None = place_parameter()
    shoulder: Fraction | None = size_parameter(
        "Width of the shoulder at each sloping side, at the back: how far the housing's mouth "
        "is from the shelf's face.",
        "what the side leans and 1 mm more, as a gauge can be set",
    )
    stop: Fraction = parameter(
        Quantity.LENGTH,
        "How far from the front edge the housing stops; 0 runs it through.",
        default=ZERO,
        rule="0, through",
        low=0,
    )
    stop_clearance: Fraction = parameter(
        Quantity.LENGTH,
        "How much further from the front edge the tail starts than its stopped housing.",
        default=Fraction(1),
        rule="1 mm",
        low=0,
        high=20,
    )
    taper: Fraction = parameter(
        Quantity.TAPER,
        'How the tail narrows towards the front, such as "1:100"; 0 leaves it parallel.',
        default=ZERO,
        rule="0, parallel",
        low=0,
        high=1000,
    )
    fit: Fraction = fit_parameter("at each sloping side, square to it, taken off the tail")


class SlidingTail(ShelfInSide, frozen=True):
    """A tail and its housing in the shelf's frame; a side of the tail is 0, upper, or 1, lower.

    Attributes:
        given: the parameters.
    """

    given: Parameters

    @property
    def one_in(self) -> str:
        """The slope as a ratio."""
        return one_in(self.given.slope)

    @property
    def lean(self) -> Fraction:
        """How far a sloping side leans from the shoulder to the end."""
        return self.given.slope * self.depth

    @property
    def shoulder(self) -> Fraction:
        """Width of the shoulder at a sloping side, at the back."""
        if self.given.shoulder is not None:
            return self.given.shoulder
        return as_a_gauge_is_set(self.lean + PAST_LEAN, self.units)

    @property
    def start(self) -> Fraction:
        """Where the tail starts, from the front edge: further back than a stopped housing."""
        return self.given.stop + self.given.stop_clearance if self.given.stop else ZERO

    @property
    def sloping(self) -> tuple[int, ...]:
        """The sides that slope."""
        return {BOTH: (0, 1), UPPER: (0,), LOWER: (1,)}[self.given.sides]

    @property
    def tapered(self) -> int | None:
        """The side that comes in towards the front: the lower one if it may."""
        return self.sloping[-1] if self.given.taper else None

    @property
    def walls(self) -> tuple[HalfSpace, HalfSpace]:
        """What lies above the housing's upper wall, and below its lower one; no fit."""
        return self._wall(0), self._wall(1)

    def _wall(self, number: int) -> HalfSpace:
        down = Fraction(-1 if number else 1)
        face = -self.shelf.thickness if number else ZERO
        if number not in self.sloping:
            return HalfSpace((ZERO, ZERO, down), face)
        comes_in = 1 / self.given.taper if number == self.tapered else ZERO
        at_back = self.shoulder - self.lean + comes_in * self.shelf.width
        return HalfSpace((comes_in, -self.given.slope, down), face + at_back)

    def edges(self, x: Fraction, y: Fraction) -> tuple[Fraction, Fraction]:
        """Where the housing's walls are, from the shelf's upper face down."""
        upper, lower = (_down_to(wall, x, y) for wall in self.walls)
        return upper, lower

    def housing_width(self, x: Fraction, y: Fraction) -> Fraction:
        """From wall to wall: at the bottom of the housing where y is 0, or at its mouth."""
        upper, lower = self.edges(x, y)
        return lower - upper

    def inset(self, number: int, x: Fraction, y: Fraction) -> Fraction:
        """How far a side of the tail lies inside the shelf's face.

        The fit is taken off; 0 at a side that does not slope.
        """
        if number not in self.sloping:
            return ZERO
        at = _down_to(self.walls[number].moved(self.given.fit), x, y)
        return self.shelf.thickness - at if number else at

    def width_at(self, x: Fraction, y: Fraction) -> Fraction:
        """The tail's thickness from its upper to its lower side, less the fit."""
        return self.shelf.thickness - self.inset(0, x, y) - self.inset(1, x, y)


def _down_to(wall: HalfSpace, x: Fraction, y: Fraction) -> Fraction:
    across, along, down = wall.normal
    return (wall.limit - across * x - along * y) / down
