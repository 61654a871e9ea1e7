r"""A dovetail cutter in a router, and the layout that follows from it.

The tail board stands upright; the cutter's axis runs along the tails::

     \      | axis |      /    the tail board's end: diameter - 2 depth slope, a whole pin
      \     |      |     /
       \    |      |    /      depth of cut: the length of the tails
        \   |      |   /
         +--+------+--+        the baseline, at the cutter's tip: the diameter

So the slope is the cutter's, and one pass leaves the narrowest space that it can cut. What
the program says of a layout that is routed stands in `advice` and `work`.
"""

from collections.abc import Iterator, Mapping
from typing import ClassVar

from joinery_templates.errors import OURS, Finding, mistake, refusal
from joinery_templates.exact import Fraction, degrees_of, tangent
from joinery_templates.joints.dovetails.parameters import DovetailParameters
from joinery_templates.joints.gauge import nearest_whole
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.joints.shared_parameters import like, size_parameter
from joinery_templates.joints.sources import JOYCE
from joinery_templates.joints.spacing import parameters
from joinery_templates.joints.spacing.solver import check_count
from joinery_templates.joints.spacing.terms import weakest_tail
from joinery_templates.joints.words import slope_text
from joinery_templates.lengths import Units, decimal_text, length_text
from joinery_templates.wood.board import Board

SAME_RATIO = Fraction(1, 100)
"""A slope of 1:8.14 beside a cutter of 1:8.1443 was rounded by the person and is no other one."""
EVEN_WITHIN = Fraction(1, 10)
"""A board this near to a whole number of pitches comes out even (our judgement)."""
WORKED_OUT = "worked out from the cutter's sizes"
_PIN_MAY_FOLLOW = frozenset(
    {parameters.EVEN, parameters.GRADED, parameters.SMALL_EDGES, parameters.CLUSTERS}
)
"""Styles in which a pin can be given beside what else is given."""


class Cutter(Table):
    """A dovetail cutter, widest at its tip."""

    diameter: Fraction = size_parameter(
        "The cutter's largest diameter, at its tip.", "needed", high=100, needed=True
    )
    side_angle: Fraction | None = parameter(
        Quantity.ANGLE,
        "Angle of one side from the cutter's axis, in degrees, as most catalogues give it.",
        rule="half of included_angle",
        low=2,
        high=20,
    )
    included_angle: Fraction | None = parameter(
        Quantity.ANGLE,
        "Angle between both sides, in degrees, if that is what the catalogue gives.",
        rule="twice side_angle",
        low=4,
        high=40,
    )
    depth: Fraction | None = size_parameter("How deep it can cut.", "not said", high=200)

    unclear: ClassVar[Mapping[str, str]] = {
        "angle": "Write side_angle for the angle of one side, which most catalogues give, or "
        "included_angle for the angle between both."
    }

    def contradictions(self) -> Iterator[Finding]:
        """One angle is needed, and no more."""
        if (self.side_angle is None) == (self.included_angle is None):
            given = "neither" if self.side_angle is None else "both"
            yield mistake(
                "cutter-angle",
                f"The cutter has {given} of side_angle and included_angle.",
                "Write one of them.",
            )

    @property
    def leans(self) -> Fraction:
        """The angle of one side from the axis, in degrees."""
        if self.side_angle is not None:
            return self.side_angle
        assert self.included_angle is not None
        return self.included_angle / 2

    @property
    def slope(self) -> Fraction:
        """How far a side leans for each mm along the axis."""
        return tangent(self.leans)

    @property
    def angle_text(self) -> str:
        """How far a side leans, in words."""
        return f"{decimal_text(self.leans, 2)}° a side"

    def width_above_tip(self, height: Fraction) -> Fraction:
        """How wide its cut is `height` mm above its tip."""
        return self.diameter - 2 * height * self.slope


class RoutedParameters(DovetailParameters):
    """The parameters of a joint with tails that may be cut by hand or with a cutter."""

    start: str | None = like(
        DovetailParameters,
        "start",
        rule="half-pin, but half-tail where the cutter alone decides the spacing",
    )
    slope: Fraction | None = like(
        DovetailParameters,
        "slope",
        rule="1:7, or the nearest of your markers, or as the cutter leans",
    )
    cutter: Cutter | None = parameter(
        Quantity.TABLE,
        "A router's dovetail cutter. It sets the slope and the narrowest pin and, if nothing else "
        "is said of the spacing, an even pitch with half tails at the edges.",
        rule="none, for work by hand",
        table=Cutter,
        example='{ diameter = "12.7 mm", side_angle = 14, depth = "12 mm" }',
    )


def settle(
    given: RoutedParameters, board: Board, depth: Fraction, units: Units
) -> tuple[RoutedParameters, tuple[str, ...]]:
    """Slope and spacing from the cutter, as far as the person left them open.

    Args:
        given: the joint's parameters.
        board: with the tails, as wide as both boards meet.
        depth: length of the tails, which is the depth of cut.
        units: for the figures in words.

    Returns:
        The parameters with what follows from the cutter filled in, and what it decided, in
        words with the source.

    Raises:
        InputError: where slope and cutter contradict each other, or no such cutter
            can make this cut.
    """
    cutter = given.cutter
    if cutter is None:
        return given, ()
    _check_slope(given.slope, cutter)
    _check_neck(cutter, depth, units)
    given = given.but(slope=cutter.slope)
    rules = [
        f"Slope: the cutter's {cutter.angle_text}; machine-cut dovetails usually have 10° "
        f"({JOYCE})."
    ]
    if _all_is_open(given):
        given, more = _equal_pitch(given, board, cutter, depth, units)
        rules += more
    elif _pin_is_open(given):
        given = given.but(pin=cutter.width_above_tip(depth))
        rules.append(f"Pin: one pass ({WORKED_OUT}).")
    return given, tuple(rules)


def _check_slope(slope: Fraction | None, cutter: Cutter) -> None:
    if slope is None or abs(1 / slope - 1 / cutter.slope) <= SAME_RATIO:
        return
    needed = degrees_of(slope, Fraction(1))
    raise refusal(
        "slope-not-the-cutters",
        f"The slope is {slope_text(slope)}, but a cutter of {cutter.angle_text} cuts "
        f"{slope_text(cutter.slope)}.",
        f"Leave out slope, or take a cutter of {needed:.1f}° a side.",
        "slope",
    )


def _check_neck(cutter: Cutter, depth: Fraction, units: Units) -> None:
    """A cutter's sides must not meet before its cut is deep enough."""
    for reach, name, remedy in (
        (cutter.depth, "cutter.depth", "Measure the cutter again."),
        (depth, "cutter", "Take a wider cutter, one with less slope, or a thinner pin board."),
    ):
        if reach is not None and cutter.width_above_tip(reach) <= 0:
            shown = length_text(cutter.diameter, units)
            raise refusal(
                "cutter-no-neck",
                f"A cutter {shown} wide with {cutter.angle_text} runs to a point before it is "
                f"{length_text(reach, units)} deep.",
                remedy,
                name,
            )


def _all_is_open(given: RoutedParameters) -> bool:
    """Whether the whole spacing is left to the cutter."""
    sizes = (given.tails, given.pin, given.tail)
    edges = (given.half_pin, given.half_pin_far, given.half_tail)
    said = [one for one in (*sizes, *edges, given.spacing) if one is not None]
    return not said and given.start in (None, parameters.HALF_TAIL)


def _pin_is_open(given: RoutedParameters) -> bool:
    """Whether a pin's width is neither given nor follows from what is."""
    follows = given.tails is not None and given.tail is not None
    chosen = given.chosen
    free = chosen.style in _PIN_MAY_FOLLOW and chosen.round != parameters.PIN
    return given.pin is None and free and not follows


def _equal_pitch(
    given: RoutedParameters, board: Board, cutter: Cutter, depth: Fraction, units: Units
) -> tuple[RoutedParameters, tuple[str, ...]]:
    """Tails and pins of one width at half depth, half tails at the edges, each space one pass."""
    tail, pin = cutter.diameter, cutter.width_above_tip(depth)
    pitch, lean = tail + pin, depth * cutter.slope
    count = max(nearest_whole(board.width / pitch) - 1, 0)
    half = (board.width + tail - (count + 1) * pitch) / 2
    if count and half - lean < weakest_tail(board.thickness):
        count, half = count - 1, half + pitch / 2
    check_count(count)
    if half <= lean:
        raise refusal(
            "cutter-wide",
            f"A board {length_text(board.width, units)} wide has no room for two half tails "
            f"beside one cut of {length_text(tail, units)}.",
            "Take a smaller cutter, or a wider board.",
            "cutter",
        )
    rules = (
        "Tails and pins: equally wide at half depth, one pass for each space; pitch "
        f"{length_text(pitch, units)} ({WORKED_OUT}; machines usually have 1/2, 3/4 or 1 in, "
        f"{JOYCE}).",
        _edges_rule(board.width, pitch, units),
    )
    return given.but(start=parameters.HALF_TAIL, tails=count, pin=pin, tail=tail), rules


def _edges_rule(width: Fraction, pitch: Fraction, units: Units) -> str:
    nearest = nearest_whole(width / pitch)
    if abs(width - nearest * pitch) <= EVEN_WITHIN:
        return (
            f"Edges: half tails; the board is {nearest} pitches wide and comes out even ({OURS})."
        )
    below = width // pitch
    widths = [length_text(n * pitch, units) for n in (below, below + 1) if n]
    return (
        f"Edges: half tails, alike, take up the difference; a board "
        f"{' or '.join(widths)} wide would come out even ({OURS})."
    )
