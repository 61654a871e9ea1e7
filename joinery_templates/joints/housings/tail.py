"""What a sliding dovetail can be told, and its tail and housing in figures."""

from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joints.gauge import as_a_gauge_is_set, nearest_setting
from joinery_templates.joints.housings import boards
from joinery_templates.joints.parameter import Quantity, parameter
from joinery_templates.joints.shared_parameters import fit_parameter, size_parameter
from joinery_templates.wood.cut import HalfSpace

BOTH, UPPER, LOWER = "both", "upper", "lower"
FACES = (UPPER, LOWER)
"""Of the shelf, as the sides of its tail are called."""
THIN_SHELF = Fraction(10)
"""Two shoulders would leave little of the tail on a thinner shelf (our judgement)."""
LONGEST_PARALLEL = Fraction(150)
"""A longer parallel tail binds before it is home (our judgement)."""
MOST_TAPERED = Fraction(2)
"""A tail narrows by no more over its length, or by a sixth of a thin shelf (our judgement)."""
FINEST_TAPER = Fraction(1000)
PAST_LEAN = Fraction(1)
"""How much of the face is left beside the tail's wide end: 1 mm (our judgement)."""

DEFAULT_SLOPE = Fraction(1, 7)


class Parameters(boards.HousingParameters):
    """The parameters of a sliding dovetail."""

    sides: str | None = parameter(
        Quantity.CHOICE,
        "Which sides of the tail slope; a side that does not is flush with the shelf's face.",
        rule=f'"{BOTH}", or "{UPPER}" on a shelf thinner than 10 mm (our judgement)',
        choices=(BOTH, UPPER, LOWER),
    )
    slope: Fraction | None = parameter(
        Quantity.SLOPE,
        "Slope of the tail's sides, as a ratio or an angle.",
        rule="1:7, or the nearest of your markers",
    )
    depth: Fraction | None = boards.depth_parameter(
        "Depth of the housing, which is the tail's length.",
        ", at most two thirds of the shelf's",
    )
    at: Fraction | None = boards.place_parameter()
    shoulder: Fraction | None = size_parameter(
        "Width of the shoulder at each sloping side, at the back: how far the housing's mouth "
        "is from the shelf's face.",
        "what the side leans and 1 mm more, rounded to a gauge setting (our judgement)",
    )
    stop: Fraction = boards.stop_parameter()
    stop_clearance: Fraction = boards.stop_clearance_parameter("the tail")
    taper: Fraction | None = parameter(
        Quantity.TAPER,
        'How the tail narrows towards the front, such as "1:100"; 0 leaves it parallel.',
        rule="0; on a tail over 150 mm long about 2 mm in all, or a sixth of a thin shelf's "
        "thickness (our judgement)",
        low=0,
        high=FINEST_TAPER,
    )
    fit: Fraction = fit_parameter("at each sloping side, square to it, taken off the tail")


class SlidingTail(boards.ShelfInSide, frozen=True):
    """A tail and its housing in the shelf's frame; a side of the tail is 0, upper, or 1, lower."""

    share_of_shelf = Fraction(2, 3)
    given: Parameters

    @property
    def sides(self) -> str:
        """Which sides slope, given or by rule: one is usually enough (Noyes 1910, p. 206)."""
        thin = self.shelf.thickness < THIN_SHELF
        return self.given.sides or (UPPER if thin else BOTH)

    @property
    def taper(self) -> Fraction:
        """In how many millimetres the tail comes in by one; 0 where it is parallel."""
        if self.given.taper is not None:
            return self.given.taper
        long = self.shelf.width - self.start
        if long <= LONGEST_PARALLEL:
            return ZERO
        in_all = min(MOST_TAPERED, self.shelf.thickness / 6)
        return min(nearest_setting(long / in_all, Fraction(10)), FINEST_TAPER)

    @property
    def slope(self) -> Fraction:
        """How much the sloping sides lean."""
        return self.given.slope or self.request.tools.nearest_slope(DEFAULT_SLOPE)

    @property
    def lean(self) -> Fraction:
        """How far a sloping side leans from the shoulder to the end."""
        return self.slope * self.depth

    @property
    def shoulder(self) -> Fraction:
        """Width of the shoulder at a sloping side, at the back."""
        if self.given.shoulder is not None:
            return self.given.shoulder
        return as_a_gauge_is_set(self.lean + PAST_LEAN, self.units)

    @property
    def sloping(self) -> tuple[int, ...]:
        """The sides that slope."""
        return {BOTH: (0, 1), UPPER: (0,), LOWER: (1,)}[self.sides]

    @property
    def tapered(self) -> int | None:
        """The side that comes in towards the front: the lower one if it may."""
        return self.sloping[-1] if self.taper else None

    @property
    def walls(self) -> tuple[HalfSpace, HalfSpace]:
        """What lies above the housing's upper wall, and below its lower one; no fit."""
        return self._wall(0), self._wall(1)

    def _wall(self, number: int) -> HalfSpace:
        down = Fraction(-1 if number else 1)
        face = -self.shelf.thickness if number else ZERO
        if number not in self.sloping:
            return HalfSpace((ZERO, ZERO, down), face)
        comes_in = 1 / self.taper if number == self.tapered else ZERO
        at_back = self.shoulder - self.lean + comes_in * self.shelf.width
        return HalfSpace((comes_in, -self.slope, down), face + at_back)

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
