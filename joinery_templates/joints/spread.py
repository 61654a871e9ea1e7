"""Layouts worth comparing, from bold to fine: what a kind's `spread` is made of."""

from collections.abc import Iterator, Mapping
from itertools import pairwise

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.gauge import as_a_gauge_is_set
from joinery_templates.lengths import Units

Layouts = Iterator[Mapping[str, object]]
"""Each by the parameters that make it: lengths in mm, None where the rule is to decide."""
STEPS = (-2, -1, 0, 1, 2)
"""How much finer than what is proposed; a step is told apart at arm's length (our judgement)."""


def tails_and_spaces(joint: Joint) -> tuple[list[Fraction], list[Fraction]]:
    """Widths along the main row of the tails or fingers, and of the spaces between them."""
    marks = joint.main_row.marks if joint.main_row else ()
    tails: list[Fraction] = []
    spaces: list[Fraction] = []
    for one, other in pairwise(marks):
        (tails if one.starts else spaces).append(other.position - one.position)
    return tails, spaces


def bolder_and_finer_tails(joint: Joint, units: Units) -> Layouts:
    """Fewer tails with stouter pins, then more with narrower ones, about what is proposed.

    A step is a quarter of the pin's width, and a fifth of the tails but one at least.
    """
    tails, pins = tails_and_spaces(joint)
    pin = min(pins, default=joint.members[1].part.board.thickness / 3)
    more = max(1, round(len(tails) / 5))
    for finer in STEPS:
        count = len(tails) + finer * more
        if count > 0:
            width = as_a_gauge_is_set(pin * (4 - finer) / 4, units)
            yield {"tails": count, "pin": width, "half_pin": None, "half_pin_far": None}


def more_or_fewer_fingers(joint: Joint, units: Units) -> Layouts:
    """Wide fingers, then narrower ones; odd numbers stay odd, so that the edges look alike."""
    del units
    pieces = len(joint.main_row.marks) + 1 if joint.main_row else 0
    for finer in STEPS:
        if pieces + 2 * finer > 1:
            yield {"fingers": pieces + 2 * finer, "finger": None}


def more_or_fewer_keys(joint: Joint, units: Units) -> Layouts:
    """One key fewer than proposed, and one more."""
    del units
    keys = len(joint.main_row.marks) if joint.main_row else 0
    yield from ({"keys": count, "positions": None} for count in range(max(1, keys - 1), keys + 2))


def usual_slopes(joint: Joint, units: Units) -> Layouts:
    """The slopes that workshops use, from much to little (common practice, no source)."""
    del joint, units
    yield from ({"slope": slope} for slope in ("1:5", "1:6", "1:8"))


def thin_and_thick_tenons(joint: Joint, units: Units) -> Layouts:
    """From two fifths of the rail's thickness down to a quarter, the shares that books name."""
    for share in (Fraction(2, 5), Fraction(1, 3), Fraction(1, 4)):
        width = as_a_gauge_is_set(joint.members[0].part.board.thickness * share, units)
        yield {"tenon_thickness": width}
