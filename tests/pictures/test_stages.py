"""Which stage of the work a picture shows: by the steps that a joiner goes through."""

import pytest

from joinery_templates.joint import Task
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.dovetails.through_dovetail import KIND
from joinery_templates.pictures.stages import finished, views, with_waste
from joinery_templates.wood.cut import Surface
from tests.joints.strategies import example_request

KINDS = kinds()


def joint_of(name, **given):
    return KINDS[name].build(example_request(KINDS[name], **given))


def shown(joint):
    """For each step with a picture: its task, which boards, what is gone and what is waste."""
    number = {id(one): n for n, one in enumerate(joint.all_members)}
    return [
        (
            step.task,
            *(
                (number[id(one.member)], len(one.taken), len(one.waste), one.has_guide, one.is_sawn)
                for one in view.stages
            ),
        )
        for step, view in zip(joint.steps, views(joint), strict=True)
        if view
    ]


def test_a_through_dovetail_step_by_step():
    """Three tails and half pins: 4 pieces of waste beside the tails, 2 of them at the edges."""
    assert shown(joint_of(KIND.name)) == [
        (Task.GAUGE, (0, 0, 0, True, False), (1, 0, 0, True, False)),
        (Task.LAY_ON, (0, 0, 4, False, False)),
        (Task.SAW_FIRST, (0, 2, 2, False, True)),
        (Task.CLEAR_FIRST, (0, 4, 0, False, False)),
        (Task.LAY_ON, (1, 0, 3, False, False)),
        (Task.CUT_SECOND, (1, 3, 0, False, False)),
        (Task.GLUE, (0, 4, 0, False, False), (1, 3, 0, False, False)),
    ]


def test_a_mitred_edge_stays_until_it_is_mitred():
    """Of the tail board's 5 pieces of waste the mitred edge's is the last to go."""
    told = shown(joint_of("mitred-shoulder-dovetail"))
    on_first = [one for one in told if one[1][0] == 0 and len(one) == 2]
    assert [(task, gone, waste) for task, (_, gone, waste, *_) in on_first] == [
        (Task.LAY_ON, 0, 5),
        (Task.SAW_FIRST, 1, 4),
        (Task.CLEAR_FIRST, 4, 1),
        (Task.MITRE, 5, 0),
    ]


def test_behind_laps_rebates_go_first_and_mitres_last():
    """In the order in which the steps tell it: both rebates, the pins, the tails, the mitres.

    Of each board a rebate; 3 mitred places; 3 sockets, and 4 spaces between and beside the tails.
    """
    assert [
        (task, *((board, gone, left) for board, gone, left, *_ in boards))
        for task, *boards in shown(joint_of("full-blind-dovetail"))
    ] == [
        (Task.GAUGE, (0, 0, 0), (1, 0, 0)),
        (Task.LAY_ON, (0, 0, 8), (1, 0, 7)),
        (Task.REBATE, (0, 1, 7), (1, 1, 6)),
        (Task.CUT_SECOND, (1, 4, 3)),
        (Task.LAY_ON, (0, 1, 7)),
        (Task.SAW_FIRST, (0, 5, 3)),
        (Task.MITRE, (0, 8, 0), (1, 7, 0)),
        (Task.GLUE, (0, 8, 0), (1, 7, 0)),
    ]


def test_the_lap_of_a_halving_is_sawn_before_its_dovetail():
    on_rail = [one for one in shown(joint_of("dovetail-halving")) if one[0] is Task.SAW_FIRST]
    assert [(gone, left) for _, (_, gone, left, *_) in on_rail] == [(1, 2), (3, 0)]


def test_a_mitre_that_keys_cross_is_cut_before_the_boards_are_joined():
    joined = next(one for one in shown(joint_of("mitre-dovetail-key")) if one[0] is Task.JOIN)
    assert [(gone, left) for _, gone, left, *_ in joined[1:]] == [(1, 0), (1, 0)]


def test_what_takes_several_steps_is_shown_when_the_last_of_them_is_done():
    """A housing is chopped at its stop, sawn, and cleared; before that it is not there."""
    joint = joint_of("sliding-dovetail")
    steps = [n for n, step in enumerate(joint.steps) if step.task is Task.CUT_SECOND]
    assert len(steps) == 3
    assert [views(joint)[number] is None for number in steps] == [True, True, False]


def test_keys_are_made_then_boards_joined_then_sockets_chopped_in_both():
    assert shown(joint_of("butt-dovetail-key")) == [
        (Task.MAKE_KEYS, (2, 3, 0, False, False)),
        (Task.JOIN, (0, 0, 0, False, False), (1, 0, 0, False, False)),
        (Task.LAY_ON, (0, 0, 2, False, False), (1, 0, 2, False, False)),
        (Task.CUT_SECOND, (0, 2, 0, False, False), (1, 2, 0, False, False)),
        (
            Task.GLUE,
            (0, 2, 0, False, False),
            (1, 2, 0, False, False),
            (2, 3, 0, False, False),
        ),
    ]


def test_a_groove_is_in_no_picture_before_it_is_ploughed():
    joint = joint_of(KIND.name, groove={"width": "4 mm", "from_edge": "10 mm"})
    tasks = [step.task for step in joint.steps]
    grooved = [
        any(
            half.surface is Surface.GROOVE
            for one in view.stages
            for cut in one.taken
            for half in cut.half_spaces
        )
        if view
        else None
        for view in views(joint)
    ]
    at = tasks.index(Task.PLOUGH)
    assert True not in grooved[:at]
    assert grooved[at:].count(True) >= 1


@pytest.mark.parametrize("name", KINDS)
def test_every_kind_ends_with_all_pieces_whole_and_shows_no_stage_twice(name):
    joint = joint_of(name)
    told = [view for view in views(joint) if view]
    assert told[-1] == finished(joint)
    assert len(told) >= 3
    assert all(one not in told[:number] for number, one in enumerate(told))
    for view in told:
        for one in view.stages:
            assert set(one.taken) <= set(one.member.part.cuts)
            assert not set(one.taken) & set(one.waste)


@pytest.mark.parametrize("name", KINDS)
def test_the_waste_of_the_board_that_is_set_out_first_is_all_that_leaves_it(name):
    joint = joint_of(name)
    first, *_ = with_waste(joint).stages
    assert first.waste
    assert {*first.taken, *first.waste} == set(first.member.part.cuts)
