"""A groove or a rebate along both boards, as it is told, and where it lies across their width."""

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joints.parameter import Table
from joinery_templates.joints.shared_parameters import (
    FAR,
    REFERENCE,
    choice_parameter,
    distance_parameter,
    size_parameter,
)

GROOVE_DEPTH_RULE = (
    "a third of the thinner board, rounded to a gauge setting (common practice, no source)"
)


class Groove(Table):
    """A groove along both boards, as for a drawer bottom."""

    from_edge: Fraction = distance_parameter(
        "From the reference edge to the groove; the wider board's, where one is wider.",
        "needed",
        needed=True,
    )
    width: Fraction = size_parameter("How wide the groove is.", "needed", needed=True)
    depth: Fraction | None = size_parameter("How deep it is.", GROOVE_DEPTH_RULE)
    face: str = choice_parameter("Which face it is in.", "inside", "outside")


class Rebate(Table):
    """A rebate along an edge of both boards, on the inside, as for a box's bottom or lid."""

    width: Fraction = size_parameter("How wide it is, from the edge.", "needed", needed=True)
    depth: Fraction | None = size_parameter("How deep it is.", GROOVE_DEPTH_RULE)
    edge: str = choice_parameter("Which edge it runs along.", REFERENCE, FAR)


class Channel(Struct, frozen=True):
    """A groove or rebate across a board's width.

    Attributes:
        name: of the parameter: ``groove`` or ``rebate``.
        low: from the reference edge to where it begins.
        high: from the reference edge to where it ends.
        depth: into the board, None where a rule decides.
        outside: whether it is in the outside face.
    """

    name: str
    low: Fraction
    high: Fraction
    depth: Fraction | None
    outside: bool = False

    @property
    def width(self) -> Fraction:
        """Across the board."""
        return self.high - self.low

    def span(self, start: Fraction) -> tuple[Fraction, Fraction]:
        """From and to, measured from a line `start` mm from the reference edge."""
        return self.low - start, self.high - start

    def moved(self, distance: Fraction) -> "Channel":
        """The same, so much farther from the reference edge."""
        return replace(self, low=self.low + distance, high=self.high + distance)

    def is_open(self, width: Fraction) -> bool:
        """Whether it can be seen from an edge of a board so wide, as a rebate can."""
        return self.low <= 0 or self.high >= width

    def meets(self, other: "Channel") -> bool:
        """Whether no wood is left between two channels."""
        return self.low <= other.high and other.low <= self.high


def channels_of(
    groove: Groove | None, rebate: Rebate | None, width: Fraction
) -> tuple[Channel, ...]:
    """The groove and the rebate that are given, on a board of a width."""
    found = []
    if groove:
        ends = (groove.from_edge, groove.from_edge + groove.width)
        found.append(Channel("groove", *ends, groove.depth, groove.face == "outside"))
    if rebate:
        low = Fraction(0) if rebate.edge == REFERENCE else width - rebate.width
        found.append(Channel("rebate", low, low + rebate.width, rebate.depth))
    return tuple(found)
