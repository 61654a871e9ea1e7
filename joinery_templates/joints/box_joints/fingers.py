"""How a box joint's fingers are spread across a board, and what it can be told.

Some fingers, all of one width; whatever that leaves over goes to the two at the edges.
"""

from collections.abc import Iterator
from itertools import pairwise

from msgspec import Struct

from joinery_templates.errors import Finding, mistake, refuse
from joinery_templates.exact import Fraction, floor
from joinery_templates.joints.gauge import nearest_setting, nearest_whole, rule_steps
from joinery_templates.joints.parameter import Table
from joinery_templates.joints.shared_parameters import (
    choice_parameter,
    count_parameter,
    fit_parameter,
    proud_parameter,
    size_parameter,
)
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Board

FINGER = "finger"
SPACE = "space"
MOST_FINGERS = 200

COUNT_RULE = (
    "an odd number, so that both edges look alike, each about as wide as the thinner board is "
    "thick (common practice, no source)"
)
NEAREST_RULE = "as many as come nearest to the width of the board (our judgement)"
EDGE_DIFFERS = Fraction(1, 8)
"""By so much of a finger may the pieces at the edges differ in a proposal (our judgement)."""
EDGE_RULE = "what is left over is shared by the two pieces at the edges (our judgement)"


class Parameters(Table):
    """The parameters of a box joint."""

    start: str = choice_parameter(
        "What the first board has at the reference edge: a finger, or a space.", FINGER, SPACE
    )
    fingers: int | None = count_parameter(
        "How many fingers and spaces in all, odd or even; a space takes the other board's finger.",
        COUNT_RULE,
        low=2,
        high=MOST_FINGERS,
    )
    finger: Fraction | None = size_parameter(
        "Width of a finger, such as a chisel's; the two pieces at the edges take up what is left.",
        "all the same; if their number is left open too, a width that you can read on a rule",
    )
    first_proud: Fraction = proud_parameter(
        "How far the first board's fingers stand past the second board's face, to be planed flush."
    )
    second_proud: Fraction = proud_parameter(
        "How far the second board's fingers stand past the first board's face, to be planed flush."
    )
    fit: Fraction = fit_parameter("at each side of a finger, taken off the second board's fingers")


class Division(Struct, frozen=True):
    """A share of the first board's width: a finger, or a space for a finger of the second."""

    low: Fraction
    high: Fraction
    finger: bool

    @property
    def width(self) -> Fraction:
        """Across the board."""
        return self.high - self.low


def lay_fingers(
    given: Parameters, boards: tuple[Board, Board], units: Units
) -> tuple[tuple[Division, ...], tuple[str, ...]]:
    """The divisions across the board, from the reference edge, and the rules that decided.

    All are `finger` wide but the two at the edges, which share the rest.

    Raises:
        InputError: `no-room`, `does-not-add-up` or `too-many-fingers`.
    """
    width, rules = boards[0].width, []
    count, finger = given.fingers, given.finger
    if count is None:
        thickness = min(board.thickness for board in boards)
        nearest_odd = 2 * floor(width / thickness / 2) + 1
        count = min(max(3, nearest_odd), MOST_FINGERS - 1)
        rule = COUNT_RULE
        if finger is not None:
            count, rule = max(3, nearest_whole(width / finger)), NEAREST_RULE
            count = 2 if width == 2 * finger else count
        rules.append(f"Number of fingers: {rule}.")
    if finger is None:
        finger = width / count
        if given.fingers is None:
            finger = _as_a_rule_has(finger, width, count, units)
    edge = (width - (count - 2) * finger) / 2
    refuse(_on_edges(count, finger, edge, units))
    if edge != finger:
        rules.append(f"Edges: {EDGE_RULE}.")
    inner = (edge + number * finger for number in range(count - 1))
    walls = (Fraction(0), *inner, width)
    first = 0 if given.start == FINGER else 1
    divisions = (
        Division(low, high, number % 2 == first)
        for number, (low, high) in enumerate(pairwise(walls))
    )
    return tuple(divisions), tuple(rules)


def _as_a_rule_has(finger: Fraction, width: Fraction, count: int, units: Units) -> Fraction:
    """The nearest such figure with which the pieces at the edges hardly differ; else as it is."""
    for step in rule_steps(units):
        nearest = nearest_setting(finger, step)
        edge = (width - (count - 2) * nearest) / 2
        if abs(edge - nearest) <= nearest * EDGE_DIFFERS:
            return nearest
    return finger


def _on_edges(count: int, finger: Fraction, edge: Fraction, units: Units) -> Iterator[Finding]:
    if count > MOST_FINGERS:
        yield mistake(
            "too-many-fingers",
            f"That would be {count} fingers; at most {MOST_FINGERS} are laid out.",
            "Give wider fingers.",
            "finger",
        )
    elif edge <= 0:
        yield mistake(
            "no-room",
            f"{count} fingers {length_text(finger, units)} wide leave nothing at the edges: "
            f"those two would be {length_text(edge, units)} wide.",
            "Give fewer or narrower fingers, or a wider board.",
            "finger",
        )
    elif count == 2 and edge != finger:
        yield mistake(
            "does-not-add-up",
            f"Two fingers across this board are {length_text(edge, units)} wide, not "
            f"{length_text(finger, units)}.",
            "Leave one of the two out and it will be worked out.",
            "finger",
        )
