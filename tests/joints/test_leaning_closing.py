"""In which directions the corners of a leaning or many-sided piece close, by solids.

A ring is as many boards as close it; all that matters of it are the directions in which
its corners let go. Boards are carried away from each other as solids and must share nothing.
"""

import math

import pytest

from joinery_templates.joints.box_joints import canted_box_joint
from joinery_templates.joints.dovetails import angled_dovetail, canted_dovetail
from joinery_templates.wood.board import Face
from tests.joints.leaning import leaning
from tests.joints.solids import CLOSE_MM3, mate
from tests.joints.strategies import example_request

WAY = (0.5, 2, 5, 11)
"""In mm; the boards are 12 and 10 thick."""


def clash(joint, first_moves):
    """The volume that both boards share when the first one is moved, in mm³."""
    mated = mate(joint)
    return max(
        (mated.first.translate(tuple(way * part for part in first_moves)) ^ mated.second).volume()
        for way in WAY
    )


def level(joint, lean, plan):
    """Level unit vectors in the first board's frame: out of both boards' faces, and along them.

    From the corner's own directions: along the first board, out of it, and up.
    """
    tilt, turn = math.radians(lean), math.radians(plan)

    def seen(along, out):
        return out * math.sin(tilt), along, -out * math.cos(tilt)

    first_out, first_along = seen(0, 1), seen(1, 0)
    second_out = seen(-math.sin(turn), -math.cos(turn))
    second_along = seen(math.cos(turn), -math.sin(turn))
    return first_out, first_along, second_out, second_along


def turned(vector, by=-1.0):
    return tuple(by * part for part in vector)


@pytest.mark.parametrize(("lean", "plan"), [(0, 120), (12, 120), (12, 90), (-8, 75)])
def test_tails_come_out_along_the_grain_of_the_pin_board_and_no_other_way(lean, plan):
    joint = leaning(canted_dovetail, lean, plan=plan)
    first_out, first_along, second_out, second_along = level(joint, lean, plan)
    away = turned(second_along)  # the pin board runs into itself; the tail board leaves it
    assert clash(joint, away) < CLOSE_MM3
    for other in (first_along, second_out, first_out):
        # At a right angle the pin board's grain is square to the tail board's face.
        assert (clash(joint, other) < CLOSE_MM3) is (other == first_out and plan == 90)


def test_grain_of_opposite_pin_boards_is_one_direction_only_where_the_plan_is_square():
    """A tail board between two pin boards: its own grain is turned by the plan angle at both."""
    for lean, plan in ((0, 90), (12, 90), (0, 120), (12, 120), (0, 108)):
        _, _, _, grain = level(None, lean, plan)
        # At the tail board's other end all is mirrored: along it the other way.
        other = (grain[0], -grain[1], grain[2])
        assert (math.dist(grain, other) < 1e-9) is (plan == 90)


@pytest.mark.parametrize("lean", [0, 12])
def test_all_six_close_together_when_the_tail_boards_come_in_twice_as_far(lean):
    """Out of the ring by 1 and by 1/2: what is left between the two lies along the pins' grain."""
    joint = leaning(canted_dovetail, lean, plan=120)
    first_out, _, second_out, second_along = level(joint, lean, 120)
    apart = tuple(one - other / 2 for one, other in zip(first_out, second_out, strict=True))
    assert math.dist(apart, turned(second_along, -math.sin(math.radians(60)))) < 1e-9
    assert clash(joint, apart) < CLOSE_MM3
    unlike = tuple(one - other for one, other in zip(first_out, second_out, strict=True))
    assert clash(joint, unlike) > 1


@pytest.mark.parametrize(("plan", "goes_in_last"), [(75, True), (90, True), (108, False)])
def test_a_board_between_two_fingered_corners_goes_in_last_only_up_to_a_right_angle(
    plan, goes_in_last
):
    """Straight in from outside, as it must to meet both neighbours alike."""
    joint = leaning(canted_box_joint, 12, plan=plan)
    first_out, *_ = level(joint, 12, plan)
    assert (clash(joint, first_out) < CLOSE_MM3) is goes_in_last


@pytest.mark.parametrize(("plan", "sides"), [(108, 5), (120, 6), (135, 8)])
def test_two_halves_of_a_fingered_ring_go_straight_together(plan, sides):
    """The half with the first board moves out by the middle of its boards' directions."""
    joint = leaning(canted_box_joint, 12, plan=plan)
    boards = sides // 2
    away = math.radians(360 / sides * (boards - 1) / 2)
    first_out, first_along, *_ = level(joint, 12, plan)
    for towards, closes in ((1, True), (-1, False)):
        # The rest of the half lies from the corner on along the first board, and not beyond it.
        moves = tuple(
            math.cos(away) * out + towards * math.sin(away) * along
            for out, along in zip(first_out, first_along, strict=True)
        )
        assert (clash(joint, moves) < CLOSE_MM3) is closes


# On paper and in words


@pytest.mark.parametrize("module", [canted_dovetail, canted_box_joint])
def test_edges_are_drawn_only_where_all_faces_are_asked_for(module):
    for member in leaning(module, 12).members:
        assert member.faces == (Face.OUTSIDE, Face.INSIDE, Face.END_GRAIN)
    for member in leaning(module, 0).members:
        assert member.part.folds
        assert member.faces == (), "a wrap"


def words(joint):
    return {step.heading: step.words for step in joint.steps}


def test_only_a_ring_that_is_not_square_is_told_to_be_drawn_in_all_at_once():
    ring = words(angled_dovetail.KIND.build(example_request(angled_dovetail.KIND)))
    told = ring["Close the ring and glue"]
    assert "the last cannot be entered" in told
    assert told.index("dry run") < told.index("draw it up with a band clamp")
    assert "bevel at 120° before" in told
    tray = words(canted_dovetail.KIND.build(example_request(canted_dovetail.KIND)))
    assert "Close the ring and glue" not in tray
    assert "the other on both at once" in tray["Fit and glue"]
    assert "blocks bevelled as the tail board leans, 12° off square" in tray["Fit and glue"]


def test_ends_that_slant_nowhere_are_not_said_to_slant():
    ring = words(angled_dovetail.KIND.build(example_request(angled_dovetail.KIND)))
    assert "slant" not in ring["Cut the ends"]
    tray = words(canted_dovetail.KIND.build(example_request(canted_dovetail.KIND)))
    assert "slanting end" in tray["Cut the ends"]


@pytest.mark.parametrize(
    ("lean", "longer"), [(12, "at the far edge"), (-12, "at the reference edge")]
)
def test_a_boards_length_is_measured_on_its_longer_arris(lean, longer):
    """A board that leans outwards is longer above, at its far edge."""
    told = words(leaning(canted_dovetail, lean))["Cut the ends"]
    assert told.count(f"on the outside face along its arris {longer}") == 2  # thickness differs


def test_figures_that_are_square_to_the_edges_say_so_where_the_end_is_not():
    for joint, is_told in (
        (leaning(canted_dovetail, 12), True),
        (leaning(canted_box_joint, 12), True),
        (angled_dovetail.KIND.build(example_request(angled_dovetail.KIND)), False),
    ):
        names = ("tail", "space for a half pin", "space for a pin", "finger")
        sizes = [
            size.name
            for size in joint.sizes
            if size.name.startswith(names) and ", out " not in size.name
        ]
        assert sizes
        assert all(("square to the edges" in name) is is_told for name in sizes)
        (step,) = (one.use for one in joint.lengths if one.tool == "dividers")
        assert ("slanting end" in step) is is_told
