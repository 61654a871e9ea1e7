"""Dovetailed halvings of every form as solids: they fill the crossing, hold and lift out."""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.exact import Fraction
from joinery_templates.joints.halvings.dovetail_halving import KIND
from joinery_templates.joints.halvings.dovetail_shape import (
    BOTH,
    FAR_EDGE,
    INSIDE,
    OUTSIDE,
    REFERENCE_EDGE,
    DovetailHalving,
    Parameters,
)
from joinery_templates.joints.kind import Request
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Board
from tests.joints.solids import CLOSE_MM3, SHY_MM, mate, with_fault
from tests.joints.strategies import (
    GAPS,
    NO_FIT,
    PRESSED,
    PROUD,
    SLOPES,
    ZERO,
    example_request,
    lengths,
)
from tests.strategies import SOLID_PROPERTY


@st.composite
def halvings(
    draw: st.DrawFn, fits: st.SearchStrategy[Fraction] = NO_FIT, least_at_end: int = 0
) -> Request:
    """Dovetailed halvings that can be cut, of every form.

    Args:
        draw: Hypothesis's.
        fits: the fit.
        least_at_end: how far a sloped side stays in from the rail's edge at least.
    """
    slope, sides = draw(SLOPES), draw(st.sampled_from([BOTH, REFERENCE_EDGE, FAR_EDGE]))
    stile_width, neck = draw(lengths(20, 90)), draw(lengths(15, 50))
    stops = draw(st.booleans())
    reach = stile_width * draw(st.integers(5, 9)) / 10 if stops else None
    proud = ZERO if stops else draw(PROUD)
    lean = (reach or stile_width + proud) * slope
    shoulder = lean + draw(st.one_of(st.just(Fraction(least_at_end)), lengths(least_at_end, 6)))
    thick, other = draw(lengths(8, 40)), draw(lengths(8, 40))
    shows = draw(st.sampled_from([OUTSIDE, INSIDE]))
    gauged = min(thick, other) * draw(st.integers(2, 8)) / 10
    given_ = Parameters(
        slope=slope,
        sides=sides,
        shoulder=shoulder if shoulder > lean or draw(st.booleans()) else None,
        lap=gauged if shows == OUTSIDE else thick - gauged,
        lap_length=reach,
        shows=shows,
        enters=draw(st.sampled_from([REFERENCE_EDGE, FAR_EDGE])),
        end_proud=proud,
        fit=draw(fits),
    )
    width = neck + (2 if sides == BOTH else 1) * shoulder
    boards = (Board("bar", width, thick), Board("post", stile_width, other))
    return Request(boards, given_, draw(st.sampled_from(list(Units))), Tools())


def side_area(request_: Request, shy: Fraction = ZERO) -> float:
    """Of one mm of gap, square to the side, at all sloped sides where both boards meet."""
    rail, stile = request_.boards
    given_ = request_.given
    run = float(given_.lap_length or stile.width) - float(shy) * (1 if given_.lap_length else 2)
    shared = given_.lap
    if given_.shows == INSIDE:
        shared = min(rail.thickness, stile.thickness) - (rail.thickness - given_.lap)
    count = 2 if given_.sides == BOTH else 1
    return count * run * sqrt(1 + float(given_.slope) ** 2) * (float(shared) - float(shy))


@SOLID_PROPERTY
@given(halvings())
def test_the_boards_fill_the_crossing_and_do_not_overlap(request_):
    mated = mate(KIND.build(request_))
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3


@SOLID_PROPERTY
@given(halvings(fits=GAPS, least_at_end=1))
def test_a_clearance_is_missing_at_every_sloping_side_and_nowhere_else(request_):
    mated = mate(KIND.build(request_))
    assert mated.overlap < CLOSE_MM3
    wanted = float(request_.given.fit) * side_area(request_, SHY_MM)
    assert mated.missing == pytest.approx(wanted, rel=1e-4)


@SOLID_PROPERTY
@given(halvings(fits=PRESSED))
def test_a_negative_fit_overlaps_at_every_sloping_side_and_nowhere_else(request_):
    mated = mate(KIND.build(request_))
    assert abs(mated.missing) < CLOSE_MM3
    assert mated.clash == pytest.approx(-float(request_.given.fit) * side_area(request_), rel=0.02)


@SOLID_PROPERTY
@given(halvings())
def test_the_outside_faces_are_one_plane_without_a_hole(request_):
    """Just under z = 0 both together are a T without a gap: stile, and rail past its shoulder."""
    joint = KIND.build(request_)
    mated = mate(joint)
    assert mated.first.bounding_box()[2] == mated.second.bounding_box()[2] == 0
    level = 1e-6
    rail, stile = joint.members[0].part, joint.members[1].part
    shown = 10  # of the rail past its shoulder, and of the stile to both sides of the rail
    wanted = stile.board.width * (rail.board.width + 2 * shown) + rail.board.width * shown
    if request_.given.shows == OUTSIDE:
        halving = DovetailHalving(request_, request_.given)
        at_edge = rail.board.width - sum(halving.sloped) * halving.at_other_edge
        wanted += request_.given.end_proud * (halving.wide + at_edge) / 2
    area = sum(solid.slice(level).area() for solid in (mated.first, mated.second))
    assert area == pytest.approx(float(wanted), rel=1e-6)


@SOLID_PROPERTY
@given(halvings())
def test_the_rail_cannot_be_drawn_out_along_its_length_but_lifts_out_square_to_the_face(request_):
    mated = mate(KIND.build(request_))
    given_ = request_.given
    drawn_out = (mated.first.translate((0, 1, 0)) ^ mated.second).volume()
    # Each sloping side of the dovetail is drawn into the wall in front of it.
    assert drawn_out > 0.5 * float(given_.slope) * side_area(request_)
    out = -1 if given_.shows == OUTSIDE else 1
    for distance in (0.01, 1, 7, 60):
        lifted = mated.first.translate((0, 0, out * distance))
        assert (lifted ^ mated.second).volume() < CLOSE_MM3
    assert (mated.first.translate((0, 0, -out)) ^ mated.second).volume() > 1


@pytest.mark.parametrize("member", [0, 1])
@pytest.mark.parametrize("axis", [0, 1, 2])
def test_the_check_of_solids_sees_a_cut_out_of_place(member, axis):
    joint = KIND.build(example_request(KIND, lap_length="50 mm", end_proud="0 mm"))
    number = 1 if member == 0 and axis == 0 else 0  # a side of the dovetail; lap; socket
    for distance in (Fraction("0.2"), Fraction("-0.2")):
        faulty = mate(with_fault(joint, member, distance, number, axis))
        assert max(faulty.clash, faulty.missing) > 10
