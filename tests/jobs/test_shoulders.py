"""What is left between the shoulders of a slanting rail, by hand, where the job tells both ends."""

from joinery_templates.jobs.order_of_work import orders_of_work
from joinery_templates.jobs.reader import read_job
from joinery_templates.joint import Task

RAIL = """
[boards.rail]
width = 40
thickness = 20
length = 700

[boards.stile]
width = 45
thickness = 20

[boards."wide stile"]
width = 60
thickness = 20
"""
END = """
[[joints]]
kind = "halving"
name = "{0}"
corners = [{{ name = "{0}", like = "{1}" }}]
rail = "rail"
stile = "{2}"
form = "tee"
angle = {3}
overhang = 2
"""
BOTH = "so are its shoulders"


def prepared(*ends: tuple[str, float]) -> list[str]:
    """The first step of the joint at each end: at A on the left, at B on the right."""
    text = RAIL + "".join(
        END.format(name, letter, stile, angle)
        for (stile, angle), name, letter in zip(ends, ("Left", "Right"), "AB", strict=False)
    )
    found = [steps[0] for steps in orders_of_work(read_job(text))]
    assert all(step.task is Task.PREPARE for step in found)
    return [step.words for step in found]


def test_between_parallel_stiles_one_length_is_told_and_no_other():
    """60° on the left, 120° on the right: each end stands 2 mm over at its longest.

    A stile of 45 mm is 45 / sin 60° = 51.96 wide along the rail. Its shoulder is 40 / tan 60° =
    23.09 aslant: from the end to it are 2 + 23.09 + 51.96 = 77.06 along the one edge, 53.96 along
    the other. At the right the edges change: 700 - 77.06 - 53.96 = 568.98.
    """
    first, second = prepared(("stile", 60), ("stile", 120))
    told = "The stiles are parallel, and so are its shoulders: ≈568.98 mm are left between them."
    assert told in first
    for words in (first, second):
        assert "only where they are not" not in words
        assert "Where the stiles are parallel" not in words


def test_stiles_of_unequal_width_are_measured_each_by_itself():
    """The right one is 60 / sin 60° = 69.28 wide along the rail: 17.32 more, 551.66 are left."""
    first, _ = prepared(("stile", 60), ("wide stile", 120))
    assert "and so are its shoulders: ≈551.66 mm are left between them." in first


def test_stiles_that_lean_against_each_other_leave_two_lengths():
    """60° at both ends: 700 - 2 × 77.056 = 545.89 along the one edge, 700 - 2 × 53.962 = 592.08."""
    first, _ = prepared(("stile", 60), ("stile", 60))
    assert (
        "Between its shoulders ≈545.89 mm are left along its reference edge and ≈592.08 mm along "
        "its far edge." in first
    )
    assert BOTH not in first


def test_at_unlike_angles_that_close_no_parallel_both_lengths_are_those_of_both_ends():
    """60° on the left, 90° on the right: 700 - 77.06 - 47 = 575.94, and 700 - 53.96 - 47."""
    first, second = prepared(("stile", 60), ("stile", 90))
    assert "≈575.94 mm are left along its reference edge and ≈599.04 mm along its far" in first
    assert "are left along" not in second


def test_where_the_other_end_is_not_told_both_cases_stay():
    (words,) = prepared(("stile", 60))
    assert f"Where the stiles are parallel, {BOTH}, with ≈568.98 mm between them" in words
    assert "only where they are not, and it meets the other one too at 60°, ≈545.89 mm" in words


def test_where_rails_of_one_name_differ_at_their_other_end_no_length_is_told_for_both():
    """The rail at A ends in a stile of 45 mm, the one below it, at D, in a stile of 60 mm."""
    left = END.format("Left", "A", "stile", 60).replace("}]", '}, { name = "Below", like = "D" }]')
    right = END.format("Right", "B", "stile", 120) + END.format("Wide", "C", "wide stile", 120)
    steps, *_ = orders_of_work(read_job(RAIL + left + right))
    assert f"Where the stiles are parallel, {BOTH}" in steps[0].words


def test_a_rail_that_goes_on_in_line_has_no_shoulder_there():
    """Scarfed to another rail at its right end: 700 mm do not run from shoulder to shoulder."""
    scarf = """
[boards."next rail"]
width = 40
thickness = 20
length = 700

[[joints]]
kind = "scarf"
name = "Scarf"
corners = [{ name = "Scarf", like = "C" }]
first_board = "rail"
second_board = "next rail"
"""
    _, steps = orders_of_work(read_job(RAIL + scarf + END.format("Left", "A", "stile", 60)))
    assert f"Where the stiles are parallel, {BOTH}" in steps[0].words
