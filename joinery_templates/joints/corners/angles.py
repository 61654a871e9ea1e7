"""The angles of a corner, as they can be told; and what cannot be cut at such angles."""

from collections.abc import Iterator
from typing import Any

from joinery_templates.errors import Finding, mistake, refuse
from joinery_templates.exact import ZERO, Fraction, degrees_of
from joinery_templates.joints.checks import too_short, widths_differ
from joinery_templates.joints.corners.meeting import LEVEL, SAY_HOW, Meeting, insets_of
from joinery_templates.joints.corners.pair import BoardPair
from joinery_templates.joints.kind import Request
from joinery_templates.joints.layout import Layout
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.wood.leaning import SQUARE, LeaningCorner, leaning_corner

MOST_LEAN = 60
LEAST_PLAN, MOST_PLAN = 30, 150
STEEPEST_END = Fraction(1)
"""No end is cut at more than 45 degrees across the faces (our judgement)."""
LEAST_FACES_DEG, MOST_FACES_DEG = 29.9, 150.1
"""Between the faces; outside of this the joint is more than twice as long as the board is
thick (our judgement)."""
NEARLY = Fraction(1, 2)
"""Edges that differ less than this in height are planed level with the bevel."""
SIX_SIDES = Fraction(120)
SIX_SIDES_CORNERS = tuple((f"Corner {n}", "A" if n % 2 else "B") for n in range(1, 7))
"""From corner to corner the boards meet with their other ends."""

RATIOS = "standard trigonometry of compound mitres, as handbooks tabulate it (from memory)"
ALONG_THE_GRAIN = "tails and pins along the grain of both boards: common practice, no source"


def plan_parameter(default: Fraction = SQUARE) -> Any:
    """The corner seen from above."""
    rule = "90, square" if default == SQUARE else "120, as in a six-sided piece"
    return parameter(
        Quantity.ANGLE,
        "The angle inside the corner seen from above, in degrees.",
        default=default,
        rule=rule,
        low=LEAST_PLAN,
        high=MOST_PLAN,
    )


class Canted(Table):
    """What a kind whose boards lean can be told."""

    lean: Fraction = parameter(
        Quantity.ANGLE,
        "How far the first board leans outwards from upright, in degrees; negative for inwards.",
        default=ZERO,
        rule="0, upright",
        low=-MOST_LEAN,
        high=MOST_LEAN,
    )
    second_lean: Fraction | None = parameter(
        Quantity.ANGLE,
        "The same for the second board, where it differs.",
        rule="the same as the first board",
        low=-MOST_LEAN,
        high=MOST_LEAN,
    )
    plan: Fraction = plan_parameter()

    @property
    def angles(self) -> LeaningCorner:
        """All three together."""
        second_lean = self.lean if self.second_lean is None else self.second_lean
        return leaning_corner((self.lean, second_lean), self.plan)


class Angled(Table):
    """What a kind whose boards stand upright can be told."""

    plan: Fraction = plan_parameter(SIX_SIDES)

    @property
    def angles(self) -> LeaningCorner:
        """With no lean."""
        return leaning_corner((ZERO, ZERO), self.plan)


UPRIGHT_AND_SQUARE = leaning_corner((ZERO, ZERO))


def pair_of(
    request: Request,
    where: str,
    past: tuple[Fraction, Fraction] = (ZERO, ZERO),
    starts: tuple[Fraction, Fraction] = (ZERO, ZERO),
    mitred: bool = False,
) -> BoardPair:
    """Both boards in the corner.

    Args:
        request: boards and units, and the angles where they can be told.
        where: what such a corner is called where its boards differ, such as ``At a lapped
            corner``.
        past: how far each end stands past the other board's outside face.
        starts: how far from each end its tails, pins or fingers begin.
        mitred: whether both ends are cut along one mitre.

    Raises:
        InputError: where such a corner cannot be cut from these boards.
    """
    given = request.given
    layout = Layout(request, given)
    insets = insets_of(layout)
    angles = given.angles if isinstance(given, Canted | Angled) else UPRIGHT_AND_SQUARE
    pair = BoardPair(request.boards, angles, past, starts, mitred, insets)
    refuse(_on_angles(pair))
    unlike = () if insets != LEVEL else _on_widths(layout, pair, where)
    refuse((*unlike, *too_short(layout, (pair.reach(0), pair.reach(1)))))
    return pair


def _on_widths(layout: Layout, pair: BoardPair, where: str) -> Iterator[Finding]:
    """Boards that are to meet at both edges, and do not."""
    if pair.is_slanted:
        yield from _on_heights(layout, pair)
    else:
        can_be_told = isinstance(layout.given, Meeting)
        yield from widths_differ(layout, where, SAY_HOW if can_be_told else "")


def _on_angles(pair: BoardPair) -> Iterator[Finding]:
    """Ends too steep to cut, and faces that meet too sharply or too flatly."""
    steepest = max(abs(pair.end_slope(0)), abs(pair.end_slope(1)))
    if steepest > STEEPEST_END:
        yield mistake(
            "end-too-steep",
            "At these angles an end would be cut at "
            f"{degrees_of(steepest, Fraction(1)):.1f}° across the faces.",
            "The most that is laid out is 45°: let the boards lean less.",
            "lean",
        )
    faces = pair.angles.faces_deg
    if not LEAST_FACES_DEG <= faces <= MOST_FACES_DEG:
        yield mistake(
            "corner-too-sharp" if faces < 90 else "corner-too-flat",
            f"At these angles the boards' faces meet at {faces:.1f}°.",
            "30° to 150° is laid out: beyond that the joint would be more than twice as long as "
            "the boards are thick.",
            "plan",
        )


def _on_heights(layout: Layout, pair: BoardPair) -> Iterator[Finding]:
    """Both boards must come to one height, or nearly so.

    Level edges always do: the higher board loses more. No board may lose much more than
    its bevel, though. So either the arrises outside end at one height before the edges are
    planed, or the upper edges do once each is just level, or it lies between the two.
    """
    boards, outside = layout.boards, pair.heights
    # How far the inside arris of the upper edge lies below the outside one.
    lost = [max(ZERO, -rise) for rise in pair.rises]
    by_arris, by_level = outside[0], outside[0] - lost[0] + lost[1]
    low, high = sorted((by_arris, by_level))
    if not low - NEARLY <= outside[1] <= high + NEARLY:
        wider = 1 if outside[1] > high else 0
        wanted = (by_level, outside[1] - lost[1] + lost[0])[1 - wider]
        width = wanted * boards[wider].width / outside[wider]
        leans = pair.angles.leans_deg
        told = [f'"{board.name}", {layout.text(board.width)} wide,' for board in boards]
        yield mistake(
            "heights-differ",
            f"{'B' if pair.is_upright else 'Leaning as they do, b'}oard {told[0]} and "
            f"{told[1]} do not come to one height.",
            f'Plane "{boards[wider].name}" to a width of {layout.text(width)}.',
            "second_lean" if leans[0] != leans[1] else "",
        )
    if sum(pair.level_edges) >= boards[0].width:
        yield mistake(
            "no-room",
            "Planing the edges level would take the whole width of a board.",
            "Give wider boards, or let them lean less.",
            "lean",
        )
