"""The exact check behind the solids: what it confirms, what it does not, and volumes by hand."""

import pytest

from joinery_templates.exact import Fraction
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.kind import Request
from joinery_templates.joints.parameter import read_parameters
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, at_least, at_most
from tests.joints.exact_overlap import overlap, wood_of
from tests.joints.solids import CLOSE_MM3, exact_overlap, mate, with_fault
from tests.joints.strategies import example_request

BLOCK = Board("block", Fraction(10), Fraction(6))
ROOF = HalfSpace((Fraction(3), Fraction(0), Fraction(5)), Fraction(30))
"""From the edge at x = 10 to the one at z = 6: half of the block."""


@pytest.mark.parametrize(
    ("cuts", "kept"),
    [
        ((), 10 * 20 * 6),
        ((Cut((at_most(1, Fraction(5)),)),), 10 * 15 * 6),
        ((Cut((ROOF,)),), 10 * 20 * 6 / 2),
        # A channel along the top, and one under it that overlaps the first by half.
        (
            (
                Cut((at_most(2, Fraction(2)), at_least(0, Fraction(4)), at_most(0, Fraction(6)))),
                Cut((at_most(2, Fraction(3)), at_least(0, Fraction(5)), at_most(0, Fraction(7)))),
            ),
            20 * (10 * 6 - 2 * 2 - 2 * 3 + 1 * 2),
        ),
    ],
    ids=["whole", "shortened", "halved aslant", "two channels"],
)
def test_wood_overlaps_itself_by_its_own_volume(cuts, kept):
    part = BoardEnd(BLOCK, cuts, Fraction(5))
    wood = wood_of(part, Fraction(20), None)
    assert Face.OUTSIDE in part.faces
    assert overlap(wood, wood) == kept


def test_a_finger_out_of_place_claims_what_it_takes_of_the_other_board():
    """A finger moved by 0.2 mm, in boards of 12 mm."""
    joint = kinds()["box-joint"].build(example_request(kinds()["box-joint"]))
    assert exact_overlap(joint) == 0
    faulty = with_fault(joint, 0, Fraction("0.2"), 1)
    assert exact_overlap(faulty) == Fraction("0.2") * 12 * 12
    assert mate(faulty).overlap == pytest.approx(28.8)


def test_an_overlap_that_only_the_floating_kernel_sees_does_not_fail_a_test():
    """It reported 21 mm³ in this corner, where exact tests of points find none."""
    kind, width = kinds()["full-blind-dovetail"], Fraction(78121, 1600)
    raw = {"tails": 1, "pin": 2, "half_pin": 6, "half_pin_far": 3, "slope": "7:40"}
    raw |= {"lap": "11.46", "mitre": 1, "fit": "0.01"}
    boards = Board("side", width, Fraction("26.7")), Board("front", width, Fraction("19.1"))
    given = read_parameters(kind.parameter_class, raw, Units.MM)
    joint = kind.build(Request(boards, given, Units.MM, Tools()))
    assert exact_overlap(joint) == 0
    assert mate(joint).overlap < CLOSE_MM3
