"""The two boards of a through dovetail as solids: they mate, and the check can see that not."""

from math import sqrt

import pytest
from hypothesis import given

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.dovetails.through_dovetail import KIND
from joinery_templates.wood.cut import at_least, at_most
from tests.joints.solids import CLOSE_MM3, SHY_MM, board_solid, convex, mate, placed, with_fault
from tests.joints.strategies import GAPS, PRESSED, ZERO, dovetail, dovetails
from tests.strategies import SOLID_PROPERTY

CASES = {
    "flush": {},
    "proud": {"tails_proud": "1/32 in", "pins_proud": "0.5 mm"},
    "half tails": {
        "start": "half-tail",
        "half_pin": None,
        "tails": 2,
        "pin": "5 mm",
        "tails_proud": "1 mm",
        "pins_proud": "0.4 mm",
    },
}


def worked(**changes: object) -> Joint:
    raw = {"tails": 3, "half_pin": "6 mm", "pin": "4 mm", "slope": "1:6"} | changes
    return KIND.build(dovetail("90 mm", ("12 mm", "15 mm"), **raw))


def sloping_sides(joint: Joint) -> int:
    return len(joint.main_row.marks)


def side_area(joint: Joint, shy: Fraction = ZERO) -> float:
    """One sloping side's area where both boards meet it, in mm²; less a rim."""
    tails, pins = (member.part.board.thickness - 2 * shy for member in joint.members)
    slope = float(joint.slopes[0].slope)
    return float(tails) * float(pins) * sqrt(1 + slope**2)


@SOLID_PROPERTY
@given(dovetails())
def test_the_boards_fill_the_corner_and_do_not_overlap(request_):
    mated = mate(KIND.build(request_))
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3


@SOLID_PROPERTY
@given(dovetails(fits=GAPS))
def test_a_clearance_is_missing_at_every_sloping_side_and_nowhere_else(request_):
    joint = KIND.build(request_)
    mated = mate(joint)
    fit = float(joint.allowance)
    assert mated.overlap < CLOSE_MM3
    assert mated.missing == pytest.approx(
        sloping_sides(joint) * fit * side_area(joint, SHY_MM), rel=1e-6, abs=CLOSE_MM3
    )


@SOLID_PROPERTY
@given(dovetails(fits=GAPS))
def test_the_gap_measured_square_to_a_sloping_side_is_the_fit(request_):
    joint = KIND.build(request_)
    mated = mate(joint)
    tails, pins = (member.part.board.thickness for member in joint.members)
    first = request_.given.tails_proud + pins * Fraction(1, 3)
    # Away from the shoulders, where the boards do touch.
    slab = (
        at_least(1, first),
        at_most(1, first + pins / 3),
        at_least(2, tails / 3),
        at_most(2, tails * Fraction(2, 3)),
    )
    one, other = (convex(slab, solid) for solid in (mated.first, mated.second))
    assert one.min_gap(other, 5) == pytest.approx(float(joint.allowance), abs=1e-6)


@SOLID_PROPERTY
@given(dovetails(fits=PRESSED))
def test_a_negative_fit_overlaps_at_every_sloping_side_and_nowhere_else(request_):
    joint = KIND.build(request_)
    mated = mate(joint)
    assert mated.clash == pytest.approx(
        sloping_sides(joint) * -float(joint.allowance) * side_area(joint),
        rel=1e-6,
        abs=CLOSE_MM3,
    )
    assert abs(mated.missing) < CLOSE_MM3


@pytest.mark.parametrize("changes", CASES.values(), ids=CASES)
@pytest.mark.parametrize("member", [0, 1], ids=["tail board", "pin board"])
@pytest.mark.parametrize("distance", ["0.2", "-0.2", "0.001"])
def test_the_check_sees_a_socket_out_of_place(changes, member, distance):
    joint = worked(**changes)
    sound = mate(joint)
    assert max(sound.overlap, abs(sound.missing)) < CLOSE_MM3
    middle = len(joint.members[member].part.cuts) // 2
    shift = Fraction(distance)
    faulty = mate(with_fault(joint, member, shift, middle))
    # One side rubs by the shift and the other side gapes by it, over the boards' crossing.
    volume = abs(float(shift)) * float(12 * 15)
    assert faulty.clash == pytest.approx(volume, rel=1e-3)
    assert faulty.missing == pytest.approx(volume, rel=1e-3)


def test_putting_a_board_in_place_keeps_its_volume_though_it_is_mirrored():
    joint = worked()
    one, two, three = joint.placement.rows
    determinant = sum(
        one[i] * (two[j] * three[k] - two[k] * three[j])
        for i, j, k in ((0, 1, 2), (1, 2, 0), (2, 0, 1))
    )
    assert determinant == -1
    loose = board_solid(joint.members[1].part)
    stood = placed(loose, joint.placement)
    # 90 wide, 12 + 10 long, 15 thick, less three tails of 70 / 3 at the end that narrow by 5.
    assert loose.volume() == pytest.approx(90 * 22 * 15 - (70 - 3 * 2.5) * 12 * 15)
    assert stood.volume() == pytest.approx(loose.volume())


@pytest.mark.parametrize("changes", CASES.values(), ids=CASES)
def test_a_tail_board_leaves_only_across_its_length_not_along_it(changes):
    """The tails hold: pulled 0.1 mm along the tail board the joint jams, lifted out it is free."""
    joint = worked(**changes)
    mated = mate(joint)
    pulled = mated.first.translate((0, 0.1, 0))
    lifted = mated.first.translate((0, 0, -0.1))
    assert (pulled ^ mated.second).volume() > 0.1
    assert (lifted ^ mated.second).volume() < CLOSE_MM3
