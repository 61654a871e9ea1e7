"""Joints of any two kinds on one board: refused where and only where no wood is left between them.

What they take is sampled point by point from the half-spaces of the cuts, in floats: that shares
nothing with the check, which clips solids.
"""

import json
from collections.abc import Iterator
from functools import cache

import numpy as np
import pytest
from hypothesis import given, reject
from hypothesis import strategies as st

from joinery_templates.errors import Finding, InputError
from joinery_templates.jobs.job import Job
from joinery_templates.jobs.reader import read_job
from joinery_templates.joint import Placed
from joinery_templates.joints.catalogue import kinds
from joinery_templates.wood.board import Hand
from tests.strategies import cases

LONG, WIDE, THICK = 400, 60, 24
STEP = 1
"""From one sampled point to the next along each axis, in mm."""
BOARDS = "".join(
    f"[boards.{name}]\nwidth = {WIDE}\nthickness = {THICK}\nlength = {LONG}\n"
    for name in ("post", "first", "second", "third")
)
Table = dict[str, object]


def tables() -> Iterator[Table]:
    """Every kind in every form, with the post as either of its boards."""
    for name, kind in kinds().items():
        forms = next((one.choices for one in kind.parameters if one.name == "form"), [None])
        for form in forms:
            for post, mate in (kind.roles, kind.roles[::-1]):
                roles = {"kind": name, post.key: "post", mate.key: "mate"}
                yield roles | ({"form": form} if form else {})


def text(*ones: Table) -> str:
    """All of them at the same corner, each with a mate of its own."""
    written = BOARDS
    for mate, table in zip(("first", "second", "third"), ones, strict=False):
        values = {"name": mate} | table | {next(key for key in table if table[key] == "mate"): mate}
        lines = "".join(f"{key} = {json.dumps(value)}\n" for key, value in values.items())
        written += f'[[joints]]\n{lines}corners = [{{ name = "{mate} corner", like = "A" }}]\n'
    return written


@cache
def alone(written: str) -> Job | None:
    try:
        return read_job(written)
    except InputError:
        return None


def on_post(job: Job) -> Placed:
    """Where the post stands in a joint that has it to itself."""
    (joint,) = job.joints
    placed = joint.joint.placed(joint.corners[0])
    return next(one for one in placed if one.board.name == "post")


@cache
def standing() -> tuple[list[Table], list[Table]]:
    """What is let into the post where the job says, and what stands at its end."""
    let_in, at_end = [], []
    for table in tables():
        if (job := alone(text(table | {"at": "100"}))) and on_post(job).place.along == 100:
            let_in.append(table)
        if (job := alone(text(table))) and on_post(job).place.end:
            at_end.append(table)
    return let_in, at_end


def taken(placed: Placed, as_hand: Hand) -> np.ndarray:
    """Which points of the post it takes, from the post's end of a hand."""
    part = placed.member.part
    axes = [np.arange(0.37, size, STEP) for size in (WIDE, LONG, THICK)]
    x, y, z = np.meshgrid(*axes, indexing="ij")
    y = (y if placed.hand is as_hand else LONG - y) - float(placed.place.along or 0)

    def holds(sides) -> np.ndarray:
        found = np.ones(x.shape, bool)
        for side in sides:
            a, b, c = map(float, side.normal)
            found &= a * x + b * y + c * z <= float(side.limit)
        return found

    wastes = [cut.half_spaces for cut in part.cuts if not cut.is_groove]
    return np.any([holds(sides) for sides in wastes], axis=0) if wastes else np.zeros(x.shape, bool)


def grown(points: np.ndarray) -> np.ndarray:
    """With the next point every way."""
    for axis in range(3):
        ahead, back = (np.roll(points, way, axis) for way in (1, -1))
        ahead[(slice(None),) * axis + (0,)] = back[(slice(None),) * axis + (-1,)] = False
        points = points | ahead | back
    return points


def told(*ones: Table) -> list[Finding]:
    try:
        return list(read_job(text(*ones)).findings)
    except InputError as error:
        return list(error.findings)


@cases(30)
@given(st.data(), st.integers(0, 90), st.integers(0, 90), st.booleans())
def test_any_two_are_refused_where_no_wood_is_left_between_them(data, first, second, both) -> None:
    let_in, at_end = standing()
    one = data.draw(st.sampled_from(let_in)) | {"at": str(first)}
    other = data.draw(st.sampled_from(let_in if both else at_end))
    other |= {"at": str(second)} if both else {}
    held_against_the_wood(one, other)


@pytest.mark.parametrize(
    ("at", "found"),
    # The slot runs to 5 + 60, and a third of the post is 8.
    [("10", "joints-meet"), ("65", "joints-meet"), ("72", "wall-thin"), ("73", None)],
)
def test_a_bridle_that_takes_what_another_one_leaves(at: str, found: str | None) -> None:
    """The slot takes the middle of the post and the tee both sides: nothing of it is left."""
    corner: Table = {"kind": "bridle", "rail": "mate", "stile": "post"}
    tee = corner | {"form": "tee", "at": at}
    assert held_against_the_wood(tee, corner) == {found} - {None}


@pytest.mark.parametrize(("at", "left"), [("174.3", "≈4.346 mm"), ("178.6", None)])
def test_a_slanting_wall_is_measured_square_to_itself(at: str, left: str | None) -> None:
    """At 60 degrees a rail of 60 takes 69.28; from 169.28 on, 5.02 along are 5.02 sin 60."""
    tee = {"kind": "halving", "form": "tee", "rail": "mate", "stile": "post", "angle": 60}
    walls = [one for one in told(tee | {"at": "100"}, tee | {"at": at}) if one.code == "wall-thin"]
    assert [left and f"only {left} of" in one.message for one in walls] == [True] * bool(left)


def test_a_long_joint_is_held_against_all_that_stand_beside_it() -> None:
    """At 30 degrees a rail of 60 runs over 224 mm of the post: two mortises are in its way."""
    tee = {"kind": "halving", "form": "tee", "rail": "mate", "stile": "post", "angle": 30}
    mortise: Table = {"kind": "mortise-and-tenon", "rail": "mate", "stile": "post"}
    found = told(tee | {"at": "110"}, mortise | {"at": "100"}, mortise | {"at": "170"})
    assert [one.code for one in found] == ["joints-meet"] * 2


def held_against_the_wood(one: Table, other: Table) -> set[str]:
    """What is told of two, when it is true."""
    jobs = [alone(text(table)) for table in (one, other)]
    if None in jobs:
        reject()
    here, there = (on_post(job) for job in jobs if job)
    wood, beside = taken(here, here.hand), taken(there, here.hand)
    codes = {finding.code for finding in told(one, other)}
    if (wood & beside).any():
        assert "joints-meet" in codes
    elif (grown(wood) & beside).any():
        assert codes & {"joints-meet", "wall-thin"}
    else:
        assert "joints-meet" not in codes
    return codes & {"joints-meet", "wall-thin"}
