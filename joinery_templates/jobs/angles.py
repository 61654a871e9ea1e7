"""How the boards of a joint lie to each other, and which corners close a ring.

Seen from above, and however its boards lean, the corners of a closed ring of n sides add up to
(n - 2) times 180 degrees; equal ones have 180 - 360 / n each.
"""

import math
from collections.abc import Sequence

from joinery_templates.exact import Fraction, as_float
from joinery_templates.joint import Corner, Joint

NEARLY = 0.1
"""Degrees that a corner may be off: as near as a bevel is set (our judgement)."""
FLATTEST = Fraction(9, 10)
"""Faces whose angle has no greater cosine lie in two planes: no corner is laid out flatter."""
FEWEST = 3
"""Sides of a ring."""


def plan_of(joint: Joint) -> float:
    """The angle of a corner in degrees, inside it and seen from above, for telling."""
    cosine = as_float(joint.placement.rows[1][1])
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))


def at_angle(joint: Joint) -> bool:
    """Whether it joins the ends of two boards whose faces meet at an angle, as round a box."""
    ends = all(one.part.place(one.hand).end for one in joint.members)
    return ends and not joint.at_leg and abs(joint.placement.rows[2][2]) < FLATTEST


def rings_closed(count: int, plan_deg: float) -> int:
    """How many rings so many boards close that meet at equal corners; 0 where they close none."""
    sides = round(360 / (180 - plan_deg)) if plan_deg < 180 - NEARLY else 0
    if sides < FEWEST or abs(plan_of_ring(sides) - plan_deg) > NEARLY or count % sides:
        return 0
    return count // sides


def plan_of_ring(sides: int) -> float:
    """The angle of each corner of so many equal ones, in degrees."""
    return 180 - 360 / sides


def in_row(joint: Joint) -> bool:
    """Whether its boards lie edge to edge or end to end, their faces in one plane."""
    _, (_, along, _), (*_, through) = joint.placement.rows
    return through == 1 and abs(along) == 1


def joints_made(joint: Joint, corners: Sequence[Corner]) -> int:
    """For how many joints of the piece its corners stand, one by one or for several alike.

    Boards of one name in a row have a joint less than there are boards, those of a ring as many. Of
    two names in turn, each sort of corner stands as often as there are boards of the rarer one.
    """
    first, second = (member.part.board for member in joint.members)
    fewer = min(first.pieces or 0, second.pieces or 0)
    are_counted = any(member.pieces for member in joint.members)
    if are_counted or not fewer or not (at_angle(joint) or in_row(joint)):
        return len(corners)
    if first.name != second.name:
        made = fewer * len({corner.mirrored for corner in corners})
    elif at_angle(joint) and rings_closed(fewer, plan_of(joint)):
        made = fewer
    else:
        made = fewer - 1
    return max(len(corners), made)
