"""A shelf let into a side, whatever the housing: the boards, and what is refused and advised."""

from collections.abc import Iterator
from typing import Any, ClassVar

from joinery_templates.errors import COMMON, OURS, Finding, advice, mistake
from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.joints.gauge import at_most_as_a_gauge_is_set
from joinery_templates.joints.kind import BoardRole
from joinery_templates.joints.layout import Layout
from joinery_templates.joints.parameter import Table
from joinery_templates.joints.shared_parameters import distance_parameter, size_parameter
from joinery_templates.joints.sources import NOYES
from joinery_templates.joints.upright import TOP
from joinery_templates.joints.words import PLACE_CHOSEN
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Board
from joinery_templates.wood.cut import AT_ONCE, Cut, HalfSpace, Stage, Stretch, at_most
from joinery_templates.wood.placement import Placement, end_to_end

SHELF, SIDE = "shelf", "side"
LINE = "the shelf's upper face"
"""Squared across the side: where the housing is."""
DADO = f"{NOYES}, pp. 157-158: a housing must not weaken its board"


def depth_parameter(words: str, most: str = "") -> Any:
    """How deep the housing is; `most` says what else limits it."""
    rule = f"a third of the side's thickness{most}, rounded down to a gauge setting ({COMMON})"
    return size_parameter(words, rule)


def place_parameter() -> Any:
    """Where the housing is; it is cut by the squared line all the same."""
    return distance_parameter(
        f"From the side's top end to {LINE}; the side's other joints are then checked against it.",
        "left open: the shelf goes where you square its line",
    )


NEAREST_STOP = Fraction(5)
"""Less wood in front of a stopped housing breaks out (our judgement)."""
SAWN_FROM = {Units.MM: Fraction(30), Units.INCH: INCH * 5 / 4}
"""How long a space is chopped behind the stop, for the saw's toe."""


def stop_parameter() -> Any:
    """Where a housing begins that does not show in front."""
    words = "How far from the front edge the housing stops; 0 for right through."
    return distance_parameter(words, "0, through", default=ZERO)


def stop_clearance_parameter(what: str) -> Any:
    """How much later what goes into it begins."""
    words = f"How much further from the front edge {what} starts than a stopped housing."
    return distance_parameter(words, "1 mm", default=ONE, high=20)


CORNER = Stage(1, "corner")
"""The shelf's front corner is sawn out first, for all of its line to be there."""


class HousingParameters(Table):
    """What the parameters of every housing say; each kind declares them in its own words."""

    depth: Fraction | None
    at: Fraction | None
    stop: Fraction
    stop_clearance: Fraction


class ShelfInSide(Layout, frozen=True):
    """A shelf and the side that it is let into."""

    roles = (BoardRole(SHELF, SHELF), BoardRole(SIDE, SIDE))
    reference = "front edge"
    share_of_shelf: ClassVar[Fraction | None] = None
    """Of the shelf's thickness, what the depth comes to at the most by rule."""
    given: HousingParameters

    @property
    def shelf(self) -> Board:
        """The board that is let in."""
        return self.boards[0]

    @property
    def side(self) -> Board:
        """The board with the housing."""
        return self.boards[1]

    @property
    def depth(self) -> Fraction:
        """Of the housing: unless given a third of the side, or a little less."""
        if self.given.depth is not None:
            return self.given.depth
        usual = self.side.thickness / 3
        if self.share_of_shelf is not None:
            usual = min(usual, self.shelf.thickness * self.share_of_shelf)
        return at_most_as_a_gauge_is_set(usual, self.units)

    @property
    def start(self) -> Fraction:
        """Where what goes in starts, from the front edge: further back than a stopped housing."""
        return self.given.stop + self.given.stop_clearance if self.given.stop else ZERO

    def cut_back(self, shoulder: HalfSpace) -> tuple[Cut, ...]:
        """The front corner of the shelf's end, where the housing stops."""
        return (Cut((at_most(0, self.start), shoulder), CORNER),) if self.start else ()

    def after_corner(self, name: str) -> Stage:
        """When the rest of the shelf's end leaves: after the corner, where that is cut back."""
        return Stage(CORNER.number + 1, name) if self.start else AT_ONCE

    @property
    def placement(self) -> Placement:
        """The side on the shelf: the shelf's end stands at the bottom of the housing."""
        return end_to_end(self.depth - self.side.thickness)

    def housed(self, cuts: tuple[Cut, ...], reach: Fraction, sawn: HalfSpace | None) -> Stretch:
        """The side with its housing, measured from the squared line down.

        Args:
            cuts: the housing, and what else leaves the side.
            reach: how far down it comes.
            sawn: where a saw reaches its walls, None where it reaches all.
        """
        return Stretch(
            board=self.side,
            cuts=cuts,
            start=ZERO,
            reach=reach,
            line=self.line,
            up=TOP,
            hands=("left side", "right side"),
            along=self.given.at,
            sawn=sawn,
            is_lying=self.is_partition,
        )

    @property
    def is_partition(self) -> bool:
        """Whether it stands between boards that lie: these have no top, and are no pair."""
        return self.request.first_in_front

    @property
    def shelf_faces(self) -> tuple[str, str]:
        """The face that lies up, and the one that lies down; a partition has neither."""
        if self.is_partition:
            return "outside face", "inside face"
        return "upper face", "lower face"

    @property
    def inside_faces(self) -> str:
        """Those of the sides that are set out at once."""
        return "the inside face" if self.is_partition else "each inside face"

    @property
    def line(self) -> str:
        """What the squared line is."""
        return f"the shelf's {self.shelf_faces[0]}"

    def marking(self, called: str) -> str:
        """What is marked before all else, and how long the shelf is made.

        Args:
            called: what a shelf's faces are called on the templates; a partition's are called so.
        """
        shelf, side, between = self.named(0), self.named(1), "the sides"
        marks = (
            f"the upper face of {shelf}, the inside face and the top of {side}; lay the two sides "
            "as a pair"
        )
        if self.is_partition:
            marks = f"the outside face of {shelf}, and the inside face of {side}"
            called, between = "", "the boards that hold it"
        return (
            f"Mark the front edge of all boards, {marks}. On the templates the front edge is "
            f"called the reference edge and the back edge the far edge{called}. Make the shelf as "
            f"long as the space between {between} and {self.text(self.depth)} more at each end"
        )

    def squaring(self, edge: str, edges: str) -> str:
        """How the line is squared, over both sides at once where they are a pair.

        Args:
            edge: across which edge of one board, or edges.
            edges: across which of two.
        """
        square = f"Square the line of {self.line} across"
        if self.is_partition:
            return f"{square} the side's {edge}{self.line_place}, in pencil"
        return (
            "Clamp both sides together, inside faces out, front edges the same way and top ends "
            f"level. {square} their {edges}{self.line_place}, in pencil"
        )

    @property
    def line_place(self) -> str:
        """Added to where the line is squared, where that is told."""
        place = self.given.at
        if place is None:
            return PLACE_CHOSEN
        return f", {self.text(place)} from the {self.up_end(1)}"

    def depth_rule(self) -> Iterator[str]:
        """How a depth was decided that nobody gave."""
        if self.given.depth is None:
            yield (
                f"Depth of the housing: {self.text(self.depth)}, a third of the side's "
                f"thickness or a little less ({COMMON})."
            )

    def too_wide(self) -> Iterator[Finding]:
        """A shelf that stands out past the side."""
        shelf, side = self.boards
        if shelf.width > side.width:
            yield mistake(
                "widths-differ",
                f'The shelf "{shelf.name}" is {self.text(shelf.width)} wide and the side '
                f'"{side.name}" only {self.text(side.width)}.',
                "Their front edges are flush: make the shelf as wide as the side, or narrower by "
                "the gap that you want at the back.",
            )

    def too_deep(self) -> Iterator[Finding]:
        """A housing that leaves less than half of the side."""
        if self.depth > self.side.thickness / 2:
            yield mistake(
                "housing-too-deep",
                f"A housing {self._depth_in_side('half')}",
                "Make it shallower: about a third is usual.",
                "depth",
            )

    def deep(self) -> Iterator[Finding]:
        """A housing that weakens the side."""
        if self.depth > self.side.thickness / 3:
            yield advice(
                "housing-deep",
                f"A housing {self._depth_in_side('a third')}",
                f"{DADO}; a third: {COMMON}",
                "Make it shallower.",
                "depth",
            )

    def stopped_too_late(self, what: str) -> Iterator[Finding]:
        """A stop that leaves nothing of what goes in."""
        if self.start >= self.shelf.width:
            yield mistake(
                "no-room",
                f"{what} would start {self.text(self.start)} from the front edge of a shelf "
                f"{self.text(self.shelf.width)} wide.",
                "Stop the housing nearer to the front edge.",
                "stop",
            )

    def stopped_too_soon(self) -> Iterator[Finding]:
        """Little wood in front of a stopped housing."""
        if 0 < self.given.stop < NEAREST_STOP:
            yield advice(
                "stop-near-edge",
                f"Only {self.text(self.given.stop)} of wood stands in front of the housing, and "
                "may break out.",
                f"{OURS}; 8 to 12 mm or more: {COMMON}",
                "Stop it further from the front edge.",
                "stop",
            )

    def open_behind(self, covered: Fraction = ZERO) -> Iterator[Finding]:
        """A housing that runs on behind a narrower shelf; what a back covers does not count."""
        shelf, side = self.boards
        if shelf.width + covered < side.width:
            yield advice(
                "housing-open",
                f"The housing runs on behind the shelf, {self.text(shelf.width)} wide, to the back "
                "edge and stays open there.",
                OURS,
                "Let a back cover it, or make both of one width.",
            )

    def near_an_end(self) -> Iterator[Finding]:
        """Little wood between the housing and an end of the side: short grain, that splits off."""
        at, length, (_, housed) = self.given.at, self.side.length, self.parts
        if at is None:
            return
        below = None if length is None else length - at - housed.reach
        for end, left in (("top", at), ("bottom", below)):
            if left is not None and 0 < left < self.depth:
                yield advice(
                    "end-splits",
                    f"Only {self.text(left)} of the side is left between the housing and its "
                    f"{end} end, less than the housing is deep: short grain, that splits off.",
                    OURS,
                    "Let the housing stand further from that end, or level with it.",
                    "at",
                )

    def _depth_in_side(self, share: str) -> str:
        side = self.text(self.side.thickness)
        return f"{self.text(self.depth)} deep is more than {share} of the side, {side} thick."
