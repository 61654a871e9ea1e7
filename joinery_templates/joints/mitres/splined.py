"""What a splined mitre can be told, and what spline and feathers share."""

from collections.abc import Iterator
from typing import ClassVar

from joinery_templates.errors import Finding
from joinery_templates.exact import ONE, ZERO, Fraction, square_root
from joinery_templates.joints.checks import only_with, thicknesses_differ
from joinery_templates.joints.mitres.mitre import MitreCorner
from joinery_templates.joints.parameter import Quantity, Table, parameter, parameter_of
from joinery_templates.joints.shared_parameters import (
    choice_parameter,
    count_parameter,
    distance_parameter,
    size_parameter,
)
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Stage

ROOT_2 = square_root(Fraction(2))
"""The square root of 2, within `exact.ROOT_BOUND`."""
ALONG_CORNER = (ONE, ZERO, ZERO), (-ONE, ZERO, ZERO)
"""The ways in which a board goes along its own end, in the first board's frame."""
SPLINE, FEATHERS = "spline", "feathers"
FEATHERS_ONLY = ("feathers", "slot", "slot_reach", "slope")
SPLINE_ONLY = ("spline", "from_corner", "depth", "stop")


class Parameters(Table):
    """The parameters of a splined mitre."""

    form: str = choice_parameter(
        "A loose tongue in grooves inside the mitre, or feathers in slots that are sawn across the "
        "corner when it is glued.",
        SPLINE,
        FEATHERS,
    )
    spline: Fraction | None = size_parameter(
        "Thickness of the spline, and width of its grooves.",
        "a quarter of the boards' thickness, by the nearest of your chisels or else rounded to a "
        "gauge setting (our judgement)",
    )
    from_corner: Fraction | None = size_parameter(
        "From the inner corner to the grooves, along the mitre.",
        "a quarter of the boards' thickness, rounded to a gauge setting (our judgement)",
    )
    depth: Fraction | None = size_parameter(
        "How deep each groove is, square to the mitre.",
        "two fifths of the boards' thickness, rounded to a gauge setting (our judgement)",
    )
    stop: Fraction = distance_parameter(
        "How far from the far edge, the upper one, the grooves stop; 0 for right through.",
        "0, right through",
        default=ZERO,
    )
    feathers: int | None = count_parameter(
        "How many feathers stand in a corner.",
        "one for about twice the boards' thickness, and at least two (our judgement)",
        low=1,
        high=100,
    )
    slot: Fraction | None = size_parameter(
        "Width of the slots, and thickness of the feathers.",
        "your saw's cut where it is told, else 1 mm, or 1/32 in (our judgement)",
    )
    slot_reach: Fraction | None = size_parameter(
        "From the corner to the slots' ends, on both outside faces.",
        "four thirds of the boards' thickness, rounded down to a gauge setting: two thirds of the "
        "way in (our judgement)",
    )
    slope: Fraction | None = parameter(
        Quantity.SLOPE,
        "Slope of the slots on the outside faces, every other one the other way, as in a dovetail.",
        rule="level",
    )


class SplinedMitre(MitreCorner, frozen=True):
    """A square mitre of two boards of one thickness, and what is let into it."""

    not_given: ClassVar[tuple[str, ...]]
    """Parameters that mean nothing in this form."""
    other_form: ClassVar[str]
    stage: ClassVar[Stage]
    given: Parameters

    @property
    def thick(self) -> Fraction:
        """Of both boards."""
        return self.boards[0].thickness

    @property
    def width(self) -> Fraction:
        """Of both boards."""
        return self.boards[0].width

    def waste(self, number: int) -> Iterator[tuple[HalfSpace, ...]]:
        """What leaves a board besides its end."""
        raise NotImplementedError

    @property
    def parts(self) -> tuple[BoardEnd, BoardEnd]:
        """Both ends."""
        return self._cut_end(0), self._cut_end(1)

    def _cut_end(self, number: int) -> BoardEnd:
        """A board with its mitre, and what is cut into that afterwards."""
        mitred = self.end(number)
        (before,) = (cut.half_spaces for cut in mitred.cuts)
        behind = tuple(side.turned() for side in before)
        cuts = [Cut(before, Stage(1, "mitre"))]
        cuts += [Cut((*sides, *behind), self.stage) for sides in self.waste(number)]
        return BoardEnd(mitred.board, tuple(cuts), self.reach, gauged=False)

    @property
    def reach(self) -> Fraction:
        """How far along each board it comes."""
        return self.thick

    def impossible(self) -> Iterator[Finding]:
        """What cannot be cut."""
        yield from thicknesses_differ(
            self, "Plane both to one thickness: only then the mitre halves the corner."
        )
        message = f'It means nothing where form = "{self.given.form}".'
        for name in self.not_given:
            if getattr(self.given, name) != parameter_of(Parameters, name).default:
                yield only_with(name, self.other_form, message)


def along_mitre(from_outside: Fraction) -> HalfSpace:
    """What lies no farther along the mitre from the outer corner, in the frame of either board.

    Args:
        from_outside: times the root of 2.
    """
    return HalfSpace((ZERO, ONE, ONE), from_outside)
