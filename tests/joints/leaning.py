"""Joints of boards that lean, built from the kinds' examples."""

import math

from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joints.box_joints import canted_box_joint
from joinery_templates.joints.dovetails import canted_dovetail
from joinery_templates.joints.mitres import canted_mitre
from joinery_templates.wood.board import Board
from tests.joints.strategies import example_request

CANTED = (canted_dovetail, canted_box_joint, canted_mitre)
SAME_MM = 0.001
"""Also for degrees: what the drawn lines and bevels are held to."""


def leaning(
    module, lean, second=None, plan=90, width=90, thicknesses=(12, 10), length=None, **more
):
    """A joint of two boards that come to one height."""
    second = lean if second is None else second
    narrower = width * math.cos(math.radians(lean)) / math.cos(math.radians(second))
    boards = (
        Board("long", Fraction(width), Fraction(thicknesses[0]), length),
        Board("short", Fraction(round(narrower * 100), 100), Fraction(thicknesses[1]), length),
    )
    request = example_request(module.KIND, **more)
    changes = {"lean": Fraction(lean), "second_lean": Fraction(second), "plan": Fraction(plan)}
    return module.KIND.build(replace(request, boards=boards, given=request.given.but(**changes)))
