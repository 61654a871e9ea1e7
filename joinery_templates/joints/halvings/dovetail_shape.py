r"""The shape of a dovetailed halving: what leaves the rail's end, and what leaves the stile.

The rail's end, outside face, and the stile's face, with the rail in at its reference edge::

    +-----------------+  y = 0, the end        reference edge      far edge
    | \             / |                              +----------------+
    |  \ dovetail  /  |                              |       stile    |
    |   \         /   |                              |        ___-----|
    |    |       |    |  y = reach             neck  |  ---           |  wide
    |    + - - - +    |  shoulder                    |       socket   |
    |      neck       |                              |  ---___        |
    |      rail       |                              |        `-------|
"""

from collections.abc import Iterator

from joinery_templates.exact import ONE, ZERO, Fraction, square_root
from joinery_templates.joint import Pose
from joinery_templates.joints.gauge import at_most_as_a_gauge_is_set
from joinery_templates.joints.halvings.crossing import BESIDE_RAIL
from joinery_templates.joints.layout import RailAndStile, pose
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.joints.shared_parameters import (
    choice_parameter,
    fit_parameter,
    proud_parameter,
    size_parameter,
)
from joinery_templates.joints.sources import NOYES
from joinery_templates.wood import cut
from joinery_templates.wood.placement import Placement

BOTH, REFERENCE_EDGE, FAR_EDGE = "both", "reference edge", "far edge"
OUTSIDE, INSIDE = "outside", "inside"
HALVINGS = f"{NOYES}, nos. 14 to 17"
DOVETAILED = f"{NOYES}, no. 18, the dovetail halving (from memory)"
NECK = Fraction(1, 2)
"""Of the rail's width, what the neck keeps at the least (our judgement)."""
SLOPES = Fraction(1, 6), Fraction(1, 7), Fraction(1, 8)
"""As they are proposed, by what they leave of the neck (our judgement)."""


class Parameters(Table):
    """The parameters of a dovetailed halving."""

    slope: Fraction | None = parameter(
        Quantity.SLOPE,
        "Slope of the dovetail's sides, as a ratio or an angle.",
        rule="1:6, or 1:7 or 1:8 where the neck would otherwise be less than half of the rail; "
        "or one of your markers (our judgement)",
    )
    sides: str = choice_parameter(
        "Which sides of the dovetail slope: both, or only the one at this edge of the rail.",
        BOTH,
        REFERENCE_EDGE,
        FAR_EDGE,
    )
    shoulder: Fraction | None = size_parameter(
        "How far the dovetail's neck stands in from the rail's edge at each sloped side.",
        "so much that the dovetail is as wide as the rail at its end",
    )
    lap: Fraction | None = size_parameter(
        "Thickness of the dovetail. As much is let into the stile; where it shows inside, as much "
        "less or more as the stile is thinner or thicker than the rail.",
        f"half of the rail's thickness ({HALVINGS}), at most two thirds of the stile's; where it "
        "shows inside, the rail's thickness less half of the thinner board's",
    )
    lap_length: Fraction | None = size_parameter(
        "How far the dovetail reaches over the stile, where it stops short of the other edge.",
        "right across the stile, or as far as keeps the neck half of the rail (our judgement)",
    )
    shows: str = choice_parameter(
        "On which faces the dovetail shows; the outside faces are flush either way.",
        OUTSIDE,
        INSIDE,
    )
    enters: str = choice_parameter(
        "Which edge of the stile the rail comes in from.", REFERENCE_EDGE, FAR_EDGE
    )
    end_proud: Fraction = proud_parameter(
        "How far the dovetail's end stands past the stile's other edge, to be planed flush."
    )
    fit: Fraction = fit_parameter("at each sloping side, square to it, taken off the stile")


class DovetailHalving(RailAndStile, frozen=True):
    """A rail and a stile, and what is taken from both."""

    given: Parameters

    @property
    def reach(self) -> Fraction:
        """From the rail's end to its shoulder."""
        given = self.given
        if given.lap_length is not None:
            return given.lap_length
        across = self.stile.width + given.end_proud
        longest = self._longest(self.slope)
        is_told = given.end_proud or given.shoulder is not None or given.slope is not None
        if across <= longest or is_told:
            return across
        # It stops short, and leaves a sound edge of the stile.
        return at_most_as_a_gauge_is_set(min(longest, across - self.socket_depth / 2), self.units)

    @property
    def slope(self) -> Fraction:
        """How much the sides lean: a dovetail long for its width is flatter."""
        if self.given.slope is not None:
            return self.given.slope
        across = self.stile.width + self.given.end_proud
        reach = self.given.lap_length or across
        slopes = sorted(self.request.tools.slopes, reverse=True) or SLOPES
        return next((one for one in slopes if reach <= self._longest(one)), slopes[0])

    def _longest(self, slope: Fraction) -> Fraction:
        """How long a dovetail leaves a sound neck."""
        return self.rail.width * (1 - NECK) / (sum(self.sloped) * slope)

    @property
    def pose(self) -> Pose:
        """Flat on the bench; the rail is lifted off."""
        up = (0, 0, -1 if self.outside else 1)
        return pose(up, front=(-2, 1, 0), apart=up)

    @property
    def stopped(self) -> bool:
        """Whether the socket ends inside the stile."""
        return self.reach < self.stile.width

    @property
    def outside(self) -> bool:
        """Whether the dovetail shows on the outside faces."""
        return self.given.shows == OUTSIDE

    @property
    def lap(self) -> Fraction:
        """Thickness of the dovetail."""
        if self.given.lap is not None:
            return self.given.lap
        if self.outside:
            return min(self.rail.thickness / 2, self.stile.thickness * 2 / 3)
        return self.rail.thickness - self.thinner.thickness / 2

    @property
    def gauged(self) -> Fraction:
        """From the outside face of both boards to the flat where they meet."""
        return self.lap if self.outside else self.rail.thickness - self.lap

    @property
    def socket_depth(self) -> Fraction:
        """From the face that the socket is in to its floor."""
        return self.lap if self.outside else self.stile.thickness - self.gauged

    @property
    def kept(self) -> Fraction:
        """What is left of the stile's thickness at the socket."""
        return self.stile.thickness - self.socket_depth

    @property
    def lean(self) -> Fraction:
        """How far a sloped side comes in from the dovetail's end to the shoulder."""
        return self.reach * self.slope

    @property
    def shoulder(self) -> Fraction:
        """How far the neck stands in from the rail's edge at a sloped side."""
        return self.lean if self.given.shoulder is None else self.given.shoulder

    @property
    def at_end(self) -> Fraction:
        """How far the dovetail's end stands in from the rail's edge at a sloped side."""
        return self.shoulder - self.lean

    @property
    def at_other_edge(self) -> Fraction:
        """How far it stands in where it ends in the stile or comes out at its other edge."""
        return self.at_end + max(self.reach - self.stile.width, ZERO) * self.slope

    @property
    def sloped(self) -> tuple[bool, bool]:
        """Whether the side at the rail's reference edge slopes, and the one at its far edge."""
        return self.given.sides != FAR_EDGE, self.given.sides != REFERENCE_EDGE

    @property
    def neck(self) -> Fraction:
        """Width of the dovetail at the shoulder, where it is narrowest."""
        return self.rail.width - sum(self.sloped) * self.shoulder

    @property
    def socket_neck(self) -> Fraction:
        """Width of the socket where the rail comes in, with the fit."""
        return self.neck + sum(self.sloped) * self.fit_across

    @property
    def wide(self) -> Fraction:
        """Width of the dovetail at its end."""
        return self.rail.width - sum(self.sloped) * self.at_end

    @property
    def fit_across(self) -> Fraction:
        """The gap at a sloped side, measured along the stile."""
        return self.given.fit * square_root(1 + self.slope**2)

    @property
    def other_edge(self) -> str:
        """The stile's edge away from the rail."""
        return FAR_EDGE if self.given.enters == REFERENCE_EDGE else REFERENCE_EDGE

    @property
    def line(self) -> str:
        """The line squared across the stile: where an edge of the rail comes.

        It is the rail's edge of the name of the stile's edge that the rail comes in from: so
        rail and stile are of opposite hand, and the joint lies above the line either way.
        """
        return f"rail's {self.given.enters}"

    @property
    def placement(self) -> Placement:
        """The stile on the rail: outside faces level, the shoulder at the stile's edge."""
        inward = (ZERO, ZERO, ONE)
        if self.given.enters == REFERENCE_EDGE:
            rows = ((ZERO, -ONE, ZERO), (-ONE, ZERO, ZERO), inward)
            return Placement(rows, (ZERO, self.reach, ZERO))
        rows = ((ZERO, ONE, ZERO), (ONE, ZERO, ZERO), inward)
        return Placement(rows, (self.rail.width, self.reach - self.stile.width, ZERO))

    def beside(self) -> Iterator[cut.HalfSpace]:
        """What leaves the rail beside the dovetail, at each sloped side."""
        slope, inset = self.slope, self.at_end
        near, far = self.sloped
        if near:
            yield cut.HalfSpace((ONE, -slope, ZERO), inset)
        if far:
            yield cut.HalfSpace((-ONE, -slope, ZERO), inset - self.rail.width)

    @property
    def parts(self) -> tuple[cut.BoardEnd, cut.Stretch]:
        """The rail's end and the stile."""
        return self._rail_end(), self._stile_part()

    def _rail_end(self) -> cut.BoardEnd:
        """The rail with all but the dovetail taken away."""
        shoulder = cut.at_most(1, self.reach, cut.Surface.SAWN_SHOULDER)
        before, behind = cut.at_most(2, self.gauged), cut.at_least(2, self.gauged)
        cheek, lap = (behind, before) if self.outside else (before, behind)
        beside = (
            cut.Cut((side, lap, shoulder), cut.Stage(2, "dovetail")) for side in self.beside()
        )
        cuts = (cut.Cut((cheek, shoulder), cut.Stage(1, "lap")), *beside)
        return cut.BoardEnd(self.rail, cuts, self.reach)

    def _stile_part(self) -> cut.Stretch:
        """The stile with the socket, which is larger than the dovetail by the fit."""
        carried = self.placement.reversed().half_space
        socket = cut.Cut(tuple(carried(one) for one in self._socket()))
        return cut.Stretch(
            board=self.stile,
            cuts=(socket,),
            start=-self.rail.width,
            reach=ZERO,
            line=self.line,
            up=f"rail's {self.other_edge}",
            hands=BESIDE_RAIL,
        )

    def _socket(self) -> Iterator[cut.HalfSpace]:
        """The socket's walls, floor and end, in the rail's frame."""
        near, far = self.sloped
        yield from (side.turned().moved(self.given.fit) for side in self.beside())
        if not near:
            yield cut.at_least(0, ZERO)
        if not far:
            yield cut.at_most(0, self.rail.width)
        floor = cut.at_most if self.outside else cut.at_least
        yield floor(2, self.gauged, cut.Surface.SHOULDER)
        if self.stopped:
            yield cut.at_least(1, ZERO, cut.Surface.SHOULDER)
