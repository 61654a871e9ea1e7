"""A single tail, half tails alone and few fingers: what is chopped, sawn off and pared, by hand.

A single tail has one socket between two half pins, and its own waste is at the edges alone, where
it is sawn off. Two half tails have one pin between them: its waste is at the edges of the pin
board, where it is sawn off too, or stopped by a lap.
"""

import pytest

from joinery_templates.joint import Joint, Task
from joinery_templates.joints.catalogue import kinds
from tests.joints.varied import HALF_TAILS, ONE_TAIL, Changes, changed

HALF_TAILS_ALONE = HALF_TAILS | {"tails": 0, "half_tail": None}
CUTTER = {"cutter": {"diameter": "12 mm", "side_angle": 7}, "slope": None, "tails": 1, "pin": None}
PARED_BESIDE_ONE_TAIL = "Pare both shoulders to its middle, and test with a square."


def built(kind: str, changes: Changes) -> Joint:
    return kinds()[kind].build(changed(kinds()[kind], changes, (0, 0)))


def step(joint: Joint, task: Task) -> str:
    (one,) = (step for step in joint.steps if step.task is task)
    return f"{one.heading}: {one.words}"


@pytest.mark.parametrize(
    ("kind", "changes", "heading", "chopped"),
    [
        ("through-dovetail", ONE_TAIL, "Saw and chop the pins", "Chop the socket half way"),
        ("through-dovetail", {"tails": 2}, "Saw and chop the pins", "Chop the sockets half way"),
        ("through-dovetail", HALF_TAILS | {"tails": 1}, "Saw and chop the pins", "the socket half"),
        ("through-dovetail", HALF_TAILS_ALONE, "Saw the pins", None),
        ("lapped-dovetail", ONE_TAIL, "Saw and chop the socket", None),
        ("lapped-dovetail", HALF_TAILS | {"tails": 1}, "Saw and chop the sockets", None),
        ("lapped-dovetail", HALF_TAILS_ALONE, "Saw and chop the half sockets", None),
        ("double-lapped-dovetail", ONE_TAIL, "Saw and chop the socket", None),
        ("lapped-dovetail", CUTTER, "Rout the socket", None),
        ("angled-dovetail", HALF_TAILS_ALONE, "Saw the pins", None),
    ],
)
def test_what_is_chopped_of_the_pin_board_is_what_is_there(kind, changes, heading, chopped):
    words = step(built(kind, changes), Task.CUT_SECOND)
    assert words.startswith(f"{heading}: ")
    assert (chopped or "") in words
    # Without anything to chop no chisel is told to cut down from both faces.
    assert ("half way from each face" in words) == bool(chopped)


@pytest.mark.parametrize(
    ("kind", "pared"),
    [
        ("through-dovetail", PARED_BESIDE_ONE_TAIL),
        ("lapped-dovetail", PARED_BESIDE_ONE_TAIL),
        # 120 degrees in plan: the shoulders lean by 30.
        ("angled-dovetail", "as steep as a bevel set to 30° shows."),
    ],
)
def test_the_shoulders_beside_a_single_tail_are_pared_when_they_are_sawn(kind, pared):
    joint = built(kind, ONE_TAIL)
    assert not any(step.task is Task.CLEAR_FIRST for step in joint.steps)
    sawn = step(joint, Task.SAW_FIRST)
    assert sawn.index("saw off the half-pin waste at both edges") < sawn.index("Pare ")
    assert sawn.endswith(pared)


def test_where_tails_are_chopped_between_all_is_pared_there():
    joint = built("through-dovetail", {"tails": 2})
    assert PARED_BESIDE_ONE_TAIL not in step(joint, Task.SAW_FIRST)
    assert "Last, pare to the middle of the line" in step(joint, Task.CLEAR_FIRST)


def test_beside_a_mitred_strip_a_single_tail_has_nothing_between_tails():
    words = step(built("mitred-shoulder-dovetail", ONE_TAIL), Task.CLEAR_FIRST)
    assert words.startswith("Chop beside the tail: ")
    assert "the waste beside the mitred strip, half way" in words
    assert "between the tails" not in words


def test_spaces_that_stop_at_a_lap_and_lie_at_the_edges_alone_are_not_like_any_others():
    tail = step(built("double-lapped-dovetail", ONE_TAIL), Task.SAW_FIRST)
    assert tail.endswith("Here the only waste is the half-pin waste.")
    pin = step(built("double-lapped-dovetail", HALF_TAILS_ALONE), Task.CUT_SECOND)
    assert pin.endswith("Here the only waste is the half-tail waste.")
    pin = step(built("double-lapped-dovetail", HALF_TAILS), Task.CUT_SECOND)
    assert pin.endswith("The half-tail waste at both edges is taken out in the same way.")


CLEARED = "lear the space with a chisel, half way from each face"


@pytest.mark.parametrize(
    ("changes", "first", "second"),
    [
        # finger, space: each board keeps one, and one leaves at an edge.
        ({"fingers": 2}, ("Saw the first", False), ("Saw the second", False)),
        # finger, space, finger: the space between the first board's two is chopped.
        ({"fingers": 3}, ("Saw and chop the first", True), ("Saw the second", False)),
        # space, finger, space: now it is the second board's.
        (
            {"fingers": 3, "start": "space"},
            ("Saw the first", False),
            ("Saw and chop the second", True),
        ),
    ],
)
def test_of_few_fingers_a_space_is_chopped_only_between_two(changes, first, second):
    joint = built("box-joint", changes)
    for task, (heading, is_cleared) in ((Task.SAW_FIRST, first), (Task.CUT_SECOND, second)):
        words = step(joint, task)
        assert words.startswith(heading)
        assert (CLEARED in words) == is_cleared
        assert ("aw off the space" in words) == (not is_cleared)


def test_of_many_fingers_the_second_board_is_cut_as_the_first():
    joint = built("box-joint", {"fingers": 7})
    assert "Clear the spaces with a chisel" in step(joint, Task.SAW_FIRST)
    assert "chisel" not in step(joint, Task.CUT_SECOND)
