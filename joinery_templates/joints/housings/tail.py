"""What a sliding dovetail can be told, and its tail and housing in figures."""

from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.joints.kind import BoardRole
from joinery_templates.joints.layout import Layout, one_in
from joinery_templates.joints.parameter import Quantity, parameter
from joinery_templates.joints.shared_parameters import (
    choice_parameter,
    fit_parameter,
    size_parameter,
)
from joinery_templates.wood.board import Board
from joinery_templates.wood.cut import HalfSpace

SHELF, SIDE = "shelf", "side"
ROLES = (BoardRole("shelf", SHELF), BoardRole("side", SIDE))
BOTH, UPPER, LOWER = "both", "upper", "lower"
ZERO = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Parameters:
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
    depth: Fraction | None = size_parameter(
        "Depth of the housing, which is the tail's length.",
        "a third of the side's thickness, rounded down to what a gauge can be set to",
    )
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


class SlidingTail(Layout, frozen=True):
    """A tail and its housing in the shelf's frame.

    Attributes:
        sloped: whether the upper and the lower side of the tail slope.
        slope: lean for each mm along the tail.
        depth: from the shelf's end to the shoulders.
        shoulder: width of the shoulder at a sloping side, at the back.
        stop: where the housing starts, from the front edge.
        start: where the tail starts.
        taper: 1 in this many; 0 where it is parallel.
        fit: gap at each sloping side, square to it.
    """

    roles = ROLES
    sloped: tuple[bool, bool]
    slope: Fraction
    depth: Fraction
    shoulder: Fraction
    stop: Fraction
    start: Fraction
    taper: Fraction
    fit: Fraction

    @property
    def shelf(self) -> Board:
        """The board with the tail."""
        return self.boards[0]

    @property
    def side(self) -> Board:
        """The board with the housing."""
        return self.boards[1]

    @property
    def one_in(self) -> str:
        """The slope as a ratio."""
        return one_in(self.slope)

    @property
    def lean(self) -> Fraction:
        """How far a sloping side leans from the shoulder to the end."""
        return self.slope * self.depth

    @property
    def tapered(self) -> tuple[bool, bool]:
        """Whether the upper and the lower side come in towards the front: the lower if it may."""
        lower = self.sloped[1]
        return bool(self.taper) and not lower, bool(self.taper) and lower

    @property
    def walls(self) -> tuple[HalfSpace, HalfSpace]:
        """What lies above the housing's upper wall, and below its lower one; no fit."""
        return self._wall(0), self._wall(1)

    @property
    def sloped_walls(self) -> tuple[HalfSpace, ...]:
        """The walls at sloping sides."""
        return tuple(wall for wall, sloped in zip(self.walls, self.sloped, strict=True) if sloped)

    def _wall(self, number: int) -> HalfSpace:
        down = Fraction(-1 if number else 1)
        face = -self.shelf.thickness if number else ZERO
        if not self.sloped[number]:
            return HalfSpace((ZERO, ZERO, down), face)
        comes_in = 1 / self.taper if self.tapered[number] else ZERO
        at_back = self.shoulder - self.lean + comes_in * self.shelf.width
        return HalfSpace((comes_in, -self.slope, down), face + at_back)

    def edges(self, x: Fraction, y: Fraction) -> tuple[Fraction, Fraction]:
        """Where the housing's walls are, from the shelf's upper face down."""
        upper, lower = (_down_to(wall, x, y) for wall in self.walls)
        return upper, lower

    def mouth(self, x: Fraction) -> Fraction:
        """The housing's width on the side's inside face."""
        upper, lower = self.edges(x, self.depth)
        return lower - upper

    def bottom(self, x: Fraction) -> Fraction:
        """The housing's width at its bottom."""
        upper, lower = self.edges(x, ZERO)
        return lower - upper

    def inset(self, number: int, x: Fraction, y: Fraction) -> Fraction:
        """How far the tail's upper (0) or lower (1) side lies inside the shelf's face.

        The fit is taken off; 0 at a side that does not slope.
        """
        if not self.sloped[number]:
            return ZERO
        at = _down_to(self.walls[number].moved(self.fit), x, y)
        return self.shelf.thickness - at if number else at

    def width_at(self, x: Fraction, y: Fraction) -> Fraction:
        """The tail's thickness from its upper to its lower side, less the fit."""
        return self.shelf.thickness - self.inset(0, x, y) - self.inset(1, x, y)


def _down_to(wall: HalfSpace, x: Fraction, y: Fraction) -> Fraction:
    across, along, down = wall.normal
    return (wall.limit - across * x - along * y) / down
