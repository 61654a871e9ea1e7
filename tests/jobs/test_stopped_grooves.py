"""Where a panel groove stops in a stile or leg that goes on past its rails, worked by hand."""

import pytest

from joinery_templates.jobs.job import Job
from joinery_templates.jobs.order_of_work import orders_of_work
from joinery_templates.jobs.reader import read_job
from joinery_templates.joint import Task

BED = """\
units = "mm"
boards.post = {{ width = 68, thickness = 62, length = 1060 }}
boards.head = {{ width = 128, thickness = 27, length = 1004 }}
boards.lower = {{ width = 165, thickness = 27, length = 1004 }}
[[joints]]
kind = "{kind}"
name = "Head"
corners = ["A", "B"]
rail = "head"
stile = "post"
at = {at}
tenon_length = 47
shoulder_far = 20
groove = {{ depth = 11, width = {wide} }}
[[joints]]
kind = "mortise-and-tenon"
name = "Lower"
corners = ["C", "D"]
rail = "lower"
stile = "post"
at = 320
tenon_length = 47
shoulder_far = 25
groove = {{ depth = {deep}, width = {wide} }}
"""
CHEST = """\
units = "mm"
boards.post = {{ width = 56, thickness = 56, length = 550 }}
boards.high = {{ width = 90, thickness = 24, length = 900 }}
boards.low = {{ width = 120, thickness = 24, length = 900 }}
[[joints]]
kind = "mortise-and-tenon"
name = "High"
rail = "high"
stile = "post"
on = "{on}"
at = 0
groove = {{ depth = 9, width = 8 }}
haunch = "square"
[[joints]]
kind = "mortise-and-tenon"
name = "Low"
rail = "low"
stile = "post"
on = "{on}"
at = {at}
from_end = "bottom"
shoulder_far = 20
groove = {{ depth = 9, width = 8 }}
"""
CHEST = CHEST.replace("rail = ", 'corners = ["A", "B", "C", "D"]\nrail = ')


def bed(kind: str = "mortise-and-tenon", at: object = 40, deep: int = 11, wide: int = 8) -> Job:
    return read_job(BED.format(kind=kind, at=at, deep=deep, wide=wide))


def ploughed(job: Job) -> list[str]:
    steps = (step for steps in orders_of_work(job) for step in steps)
    return [step.words for step in steps if step.task is Task.PLOUGH]


def codes(job: Job) -> list[str]:
    return [one.code for joint in job.joints for one in joint.joint.findings]


def lengths_of_grooves(job: Job, number: int) -> list[tuple[bool, int]]:
    """Of a post's groove: whether it has a far bound along the post, and where, to a mm."""
    (groove,) = (cut for cut in job.joints[number].joint.members[1].part.cuts if cut.is_groove)
    return [
        (side.normal[1] > 0, round(side.limit / side.normal[1]))
        for side in groove.half_spaces
        if side.normal[1]
    ]


def test_a_post_that_goes_on_past_both_rails_has_its_groove_stopped_in_their_mortises() -> None:
    """The head rail covers 40 to 168: its mortise goes from 60 to 157, 11 short of the rail.

    The lower one covers 320 to 485: from 345 to 474.
    """
    job = bed()
    words = ploughed(job)
    assert (
        "over the mortises; but POST goes on past the outermost rail: stop its groove there, in "
        "the mortise of HEAD (between 60 mm and 157 mm from the end there) and in the mortise of "
        "LOWER (between 345 mm and 474 mm from the end there), and chop out what the plane leaves. "
    ) in words[0]
    assert words[1].startswith("As in step")
    assert "groove-shows" not in codes(job)
    # From each rail's line: 60 - 40 and 157 - 40; 345 - 320 and 474 - 320.
    ((is_far, at),) = lengths_of_grooves(job, 0)
    assert not is_far
    assert 20 < at < 117
    ((is_far, at),) = lengths_of_grooves(job, 1)
    assert not is_far
    assert 25 < at < 154


def test_places_of_a_stop_are_told_as_a_gauge_is_set_and_no_farther_apart() -> None:
    """From 60.3 to 157.3: half millimetres inside are 60.5 and 157."""
    assert "of HEAD (between 60.5 mm and 157 mm from the end there)" in ploughed(bed(at="40.3"))[0]


def test_a_haunch_in_the_groove_fills_it_to_the_rails_edge_and_there_it_stops() -> None:
    job = bed("haunched-mortise-and-tenon", wide=9)
    assert (
        "at the edge of HEAD (40 mm from the end there), where its haunch ends" in ploughed(job)[0]
    )
    assert lengths_of_grooves(job, 0) == [(False, 0)]
    assert "groove-shows" not in codes(job)


@pytest.mark.parametrize(
    ("kind", "found"), [("mortise-and-tenon", True), ("haunched-mortise-and-tenon", False)]
)
def test_at_the_end_itself_the_groove_runs_out_and_only_a_haunch_fills_it(kind, found) -> None:
    job = bed(kind, at=0, wide=9)
    assert "HEAD" not in ploughed(job)[0]
    assert ("groove-shows" in codes(job)) is found
    assert not lengths_of_grooves(job, 0)


@pytest.mark.parametrize("on", ["reference-edge", "inside"])
@pytest.mark.parametrize(("at", "stops"), [(75, True), (0, False)])
def test_at_a_foot_the_groove_comes_from_above(on, at, stops) -> None:
    """The low rail covers 75 to 195 above the floor, its groove 9 deep in its lower edge.

    So its mortise goes from 84 to 175; the top's haunch fills the groove to the top.
    """
    job = read_job(CHEST.format(on=on, at=at))
    first = ploughed(job)[0]
    told = "stop its groove there, in the mortise of LOW (between 84 mm and 175 mm from the end"
    assert (told in first) is stops
    assert "HIGH" not in first
    # From the line of the rail's far edge, its upper one, downwards: 20 to 111.
    bounds = lengths_of_grooves(job, 1)
    assert [is_far for is_far, _ in bounds] == [True] * stops
    assert all(20 < at < 111 for _, at in bounds)
    assert not lengths_of_grooves(job, 0)


def test_a_rail_without_a_groove_is_the_outermost_too() -> None:
    """The panel goes on to it, so its groove must run on past the rail that has one."""
    sill = """\
[[joints]]
kind = "mortise-and-tenon"
name = "Sill"
corners = [{ name = "Sill right", like = "C" }, { name = "Sill left", like = "D" }]
rail = "sill"
stile = "post"
at = 100
tenon_length = 47
"""
    head, joints = BED.format(kind="mortise-and-tenon", at=40, deep=11, wide=8).split("[[", 1)
    head += "boards.sill = { width = 60, thickness = 27, length = 1004 }\n"
    job = read_job(f"{head}[[{joints}{sill}")
    first = ploughed(job)[0]
    assert "in the mortise of HEAD" in first
    assert "LOWER" not in first


FOOT = """\
boards.foot = { width = 40, thickness = 24, length = 900 }
[[joints]]
kind = "mortise-and-tenon"
name = "Foot"
corners = ["A", "B", "C", "D"]
rail = "foot"
stile = "post"
on = "inside"
at = 20
from_end = "bottom"
groove = { depth = 9, width = 8 }
"""


@pytest.mark.parametrize(
    ("on", "more", "twice", "alone"),
    [
        ("inside", "", "", "LOW"),
        ("inside", FOOT, "LOW", "FOOT"),
        # What comes to the other face of the post closes nothing here.
        ("reference-edge", FOOT, "", "LOW"),
    ],
)
def test_below_the_lowest_rail_of_a_leg_stands_no_panel(on, more, twice, alone) -> None:
    """Its reference edge looks down, to the floor; the panel stands above it."""
    head, joints = CHEST.format(on=on, at=75).split("[[joints]]", 1)
    boards, _, foot = more.partition("[[joints]]")
    text = f"{head}{boards}[[joints]]{joints}" + (f"[[joints]]{foot}" if more else "")
    first = ploughed(read_job(text))[0]
    assert (f" A panel stands on either side of {twice}: work" in first) == bool(twice)
    assert f" A panel stands at the far edge of {alone} alone: work the far edge there" in first


def test_a_groove_that_the_other_rail_lacks_is_stopped_where_that_rail_covers_it() -> None:
    """Of 9 there and 11 here the deeper one shows: 474 from the end, and not its width, 165."""
    (words,) = (
        one.remedy
        for joint in bed(deep=9).joints
        for one in joint.joint.findings
        if one.code == "groove-shows"
    )
    assert "Stop it in the mortise there, between 345 mm and 474 mm from that end, or" in words
