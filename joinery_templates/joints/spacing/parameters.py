"""What fixes the spacing of tails, as a person can say it; shared by every joint with tails."""

from joinery_templates.exact import Fraction
from joinery_templates.joints.grooves.parameters import Groove, Rebate
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.joints.shared_parameters import (
    count_parameter,
    size_parameter,
    sizes_parameter,
)
from joinery_templates.joints.sources import JOYCE, NOYES_48

HALF_PIN = "half-pin"
HALF_TAIL = "half-tail"
MOST_TAILS = 200

PIN_RULE = (
    "a third of the pin board's thickness, within 3 and 12 mm (1/8 and 1/2 in); less where the "
    "board is too narrow for that (our judgement)"
)
TAIL_RULE = (
    "2 1/2 to 4 times the pins at half depth, more on a wide board, and at most 1 3/4 in "
    f"({JOYCE}; {NOYES_48})"
)
HALF_PIN_RULE = (
    "about as wide as a whole pin at the baseline, adjusted so that even tails come in figures of "
    "a rule (common practice, no source)"
)
LONE_TAIL_RULE = "wide enough for a sound neck, and at most 1 3/4 in (our judgement)"
HALF_TAIL_RULE = "half a tail at each edge, so that the pitch is even (common practice, no source)"
COUNT_RULE = "as many as bring the tails nearest to `tail`, or to their usual width (our judgement)"
DRAWER_RULE = (
    "for a drawer, two whole pins up to 6 in (152 mm) and three above, or more where the tails "
    f"would be too wide ({JOYCE})"
)

EVEN, SHOULDER, EQUAL, LISTED = "even", "shoulder", "equal", "listed"
GRADED, SMALL_EDGES, CLUSTERS = "graded", "small-edges", "clusters"
STEP, PIN = "step", "pin"
LINES = {"end": Fraction(0), "middle": Fraction(1, 2), "baseline": Fraction(1)}
"""Lines across the tails, by their share of the depth from the end."""


class StyleParameters(Table):
    """How the tails are spread; each style takes some of these."""

    style: str = parameter(
        Quantity.CHOICE,
        "even: all alike; shoulder: the shoulder line divided evenly; equal: tails as wide as "
        "pins; listed: the widths given; graded: growing towards the middle; small-edges: "
        "narrower near the edges; clusters: pins in twos or threes.",
        default=EVEN,
        choices=(EVEN, SHOULDER, EQUAL, LISTED, GRADED, SMALL_EDGES, CLUSTERS),
    )
    socket: Fraction | None = size_parameter(
        "shoulder: width of the space for a pin at the baseline, where it is widest.",
        "the pin and its lean on both sides",
    )
    at: str | None = parameter(
        Quantity.CHOICE,
        "equal: the line on which tails and pins are equally wide.",
        rule='"middle", halfway between the end and the baseline (our judgement)',
        choices=tuple(LINES),
    )
    widths: tuple[Fraction, ...] | None = sizes_parameter(
        "listed: widths of tails and pins in turn from the reference edge, measured at the end, "
        "without the pieces at the two edges; if mirrored, only up to the middle.",
        "needed by this style",
    )
    ratio: Fraction | None = parameter(
        Quantity.NUMBER,
        "graded: how many times as wide each tail is as its neighbour nearer the edge; below 1 "
        "they shrink towards the middle. small-edges: how many times as wide the other tails are "
        "as the small ones.",
        rule="5/4 when graded, 2 against small ones (our judgement)",
        low="1/4",
        high=4,
    )
    edge_tails: int | None = count_parameter(
        "small-edges: how many small tails at an edge.", "1", low=1, high=5
    )
    pins_together: int | None = count_parameter(
        "clusters: how many pins stand together.", "2", low=2, high=3
    )
    groups: int | None = count_parameter(
        "clusters: how many clusters of pins.", "as the tails come out", low=1, high=60
    )
    narrow_tail: Fraction | None = size_parameter(
        "clusters: width of the narrow tails between the pins of a cluster, wide side.",
        "as wide as a pin where both meet the baseline (our judgement)",
    )
    mirrored: bool | None = parameter(
        Quantity.FLAG,
        "listed, graded, small-edges: whether the far half of the board mirrors the near half; if "
        "not, the order runs on to the far edge.",
        rule="true, but false when listed",
    )
    round_to: Fraction | None = size_parameter(
        "Round the divider setting, or every pin, to a multiple of this, such as 1 mm, 1/16 in or "
        "a chisel's width; the pieces at the edges take up the rest.",
        "nothing is rounded",
        high=50,
    )
    round: str | None = parameter(
        Quantity.CHOICE,
        "What `round_to` rounds: the step from tail to tail, or every pin.",
        rule='"step"',
        choices=(STEP, PIN),
    )


class SpacingParameters(Table):
    """What fixes the spacing; every joint with tails has these parameters."""

    start: str | None = parameter(
        Quantity.CHOICE,
        "What stands at the two edges: half pins as cut by hand, or half tails as cut by machine.",
        rule=HALF_PIN,
        choices=(HALF_PIN, HALF_TAIL),
    )
    tails: int | None = count_parameter(
        "How many whole tails; half tails at the edges are not counted.",
        COUNT_RULE,
        low=0,
        high=MOST_TAILS,
    )
    pin: Fraction | None = size_parameter(
        "Width of a pin at its narrow side, between two tails.",
        PIN_RULE,
    )
    tail: Fraction | None = size_parameter(
        "Width of a tail at its wide side. Where `tails` is left out it is only aimed at: a whole "
        "number of tails comes as near to it as it can.",
        TAIL_RULE,
    )
    half_pin: Fraction | None = size_parameter(
        "Width of the half pin at the reference edge, narrow side; beside a mitred edge it is "
        "measured from the mitre.",
        HALF_PIN_RULE,
    )
    half_pin_far: Fraction | None = size_parameter(
        "Width of the half pin at the far edge, measured in the same way.",
        "the same as at the reference edge",
    )
    half_tail: Fraction | None = size_parameter(
        "Width of the half tails at the edges, wide side; only where `start` says half-tail.",
        HALF_TAIL_RULE,
    )
    spacing: StyleParameters | None = parameter(
        Quantity.TABLE,
        "How the tails are spread across the board: a style's name alone, or with its "
        "settings in braces.",
        rule="even tails",
        table=StyleParameters,
        short_for=("style",),
        example='{ style = "graded", ratio = "5/4" }',
    )
    groove: Groove | None = parameter(
        Quantity.TABLE,
        "A groove along both boards, as for a drawer bottom; it must lie wholly inside a tail.",
        rule="none",
        table=Groove,
        example="{ from_edge = 10, width = 6 }",
    )
    rebate: Rebate | None = parameter(
        Quantity.TABLE,
        "A rebate along an edge of both boards, on the inside, as for a bottom or a lid; it must "
        "lie wholly inside the half pin or half tail there.",
        rule="none",
        table=Rebate,
        example="{ width = 6 }",
    )

    @property
    def edges(self) -> str:
        """What stands at the two edges, given or not."""
        return self.start or HALF_PIN

    @property
    def chosen(self) -> StyleParameters:
        """The style, given or not."""
        return self.spacing or StyleParameters()
