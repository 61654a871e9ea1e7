"""Whether four upright sides that do not meet squarely are as long as their angles want them.

Seen from above a side is an arrow as long as its board is outside; one after the other they lead
back to where they began. Complex numbers are such arrows. Square pieces, of which boards tell each
other's places in space, are in `space_between`.
"""

import cmath
import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import accumulate

from msgspec import Struct

from joinery_templates.errors import OURS, advice
from joinery_templates.exact import ZERO, Fraction, as_float
from joinery_templates.jobs.angles import NEARLY, plan_of
from joinery_templates.jobs.space_between import OFF, as_measured
from joinery_templates.jobs.standing import Standing, Told
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Board

FOUR = "ABCD"
MOST = 2
"""No board is told to be so many times as long, or as short (our judgement)."""
ACROSS = 0.01
"""Two sides of one board whose arrows add up to less do not move the end by their length."""


class Side(Struct, frozen=True):
    """One of four sides.

    Attributes:
        board: of it.
        long: outside, from corner to corner.
        way: in which it runs.
    """

    board: Board
    long: float
    way: complex


def four_lengths(
    at: Sequence[Standing], by_letter: Mapping[str, Standing], units: Units
) -> Iterator[Told]:
    """What is told of four sides whose lengths do not come round.

    Args:
        at: both boards at every corner.
        by_letter: the first board at each corner from A to D, whose angles come round.
        units: that figures are told in.
    """
    corners = by_letter.values()
    upright = all(one.one.joint.placement.rows[0][0] == 1 for one in corners)
    if all(one.is_square for one in corners) or not upright:
        return
    sides = [*_sides(at, by_letter)]
    gap = sum((side.long * side.way for side in sides), 0j)
    near = as_float(OFF) + max((side.long for side in sides), default=0.0) * math.radians(NEARLY)
    if len(sides) < len(FOUR) or abs(gap) <= near:
        return
    remedies = []
    for board in {side.board.name: side.board for side in sides}.values():
        own = sum((side.way for side in sides if side.board.name == board.name), 0j)
        longer = -(gap * own.conjugate()).real / abs(own) ** 2 if abs(own) > ACROSS else ZERO
        length = board.length or ZERO
        right = length + Fraction(longer)
        if abs(gap + longer * own) <= near and length < MOST * right < MOST**2 * length:
            remedies.append(f'make "{board.name}" {as_measured(right, units)} long')
    first = "; or ".join(remedies) or "correct the lengths or angles"
    last = max(corners, key=lambda one: one.number)
    finding = advice(
        "ring-open",
        "Gone round outside, by their lengths and angles, the four sides end "
        f"{as_measured(Fraction(abs(gap)), units)} from where they began.",
        OURS,
        f"{first[0].upper()}{first[1:]}.",
    )
    yield Told(last, by_letter["A"], finding)


def _sides(at: Sequence[Standing], by_letter: Mapping[str, Standing]) -> Iterator[Side]:
    """Those from A round to A whose lengths are told, their boards being the same at both ends."""
    turns = [180 - plan_of(by_letter[letter].one.joint) for letter in FOUR]
    for letter, following, turn in zip(FOUR, FOUR[1:] + FOUR[0], accumulate(turns), strict=True):
        start, end = (
            next(
                each
                for each in at
                if each.key[:2] == by_letter[there].key[:2]
                and each.is_from_a_to_b == (letter in "AC")
            )
            for there in (letter, following)
        )
        length = start.board.length
        if length is not None and start.board.name == end.board.name:
            long = as_float(length - _past(start) - _past(end))
            yield Side(start.board, long, cmath.rect(1, math.radians(turn)))


def _past(one: Standing) -> Fraction:
    """How far a board stands past the arris outside in which both faces meet."""
    placement, ends = one.one.joint.placement, [each.part for each in one.one.joint.members]
    _, (_, along, _), (_, inwards, _) = placement.rows
    other = -placement.shift[2] / inwards
    first = placement.shift[1] + along * other
    return (other if one.member else first) - (ends[one.member].left_longer or ZERO)
