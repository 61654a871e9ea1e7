"""Which ends meet at a box's corners: plan, templates and the boards as solids say the same.

README: corners go clockwise seen from above, A at the front left; at A and C the right-hand end of
the board at the sides meets the left-hand end of the one at the front or back.
"""

import re
from collections.abc import Iterator
from functools import cache

import pytest

from joinery_templates.drawings.labels import which_face
from joinery_templates.exact import Fraction
from joinery_templates.jobs.job import Job, JointJob
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.starter import starter
from joinery_templates.joints.catalogue import kinds
from joinery_templates.patterns import plans
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.wood.cut import dot
from joinery_templates.wood.placement import Placement, Rows

LEFT, RIGHT = "left-hand end", "right-hand end"
AT_SIDE = {"A": RIGHT, "B": LEFT, "C": RIGHT, "D": LEFT}
TO_PIECE = {"A": (1, 1), "B": (1, -1), "C": (-1, -1), "D": (-1, 1)}
"""From each corner into the piece: to the right of who looks at the plan, and away from him."""
CORNERS = 'corners = ["A", "B", "C", "D"]'
FORMS = {"dowel": 'form = "corner"'}
"""Of kinds that have several, the one that stands at a corner."""


def text_of(name: str) -> str:
    """The kind's own starter, at a corner where it can stand there."""
    form = FORMS.get(name, r"\g<0>")
    return re.sub(r"^form = .*", form, starter(kinds()[name]), flags=re.MULTILINE)


@cache
def job_of(name: str, front: int | None = None) -> Job:
    """The kind's own starter at all four corners; `front` is the board that is said to be there."""
    text = re.sub(r"corners = \[.*?\]", CORNERS, text_of(name), flags=re.DOTALL)
    if front is not None:
        board = kinds()[name].roles[front].key.removesuffix("_board")
        text = text.replace(CORNERS, f'{CORNERS}\nfront = "{board}"')
    return read_job(text)


def only_joint(job: Job) -> JointJob:
    (one,) = job.joints
    return one


AT_CORNERS = [name for name in kinds() if only_joint(read_job(text_of(name))).joint.at_corner]


def ends_in_plan(job: Job) -> Iterator[tuple[str, str, str, str, str]]:
    """Letter, board at the side and its end, board in front or at the back and its end."""
    ((_, words),) = plans(job, (), Fraction(175), DejaVu())
    for line in words:
        yield from re.findall(
            r"^([A-D]), .*: (.+) \(([\w-]+ end)\) meets (.+) \(([\w-]+ end)\)$", line.words
        )


def hand_of(rows: Rows) -> str:
    """Of an end whose frame stands so.

    That of a left-hand one, as `wood/board.py` draws it, has x to the right, y down and z away
    from who looks at it: a right-handed frame.
    """
    (a, b, c), (d, e, f), (g, h, i) = rows
    turning = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)
    return LEFT if turning > 0 else RIGHT


def columns(rows: Rows) -> list[tuple[Fraction, ...]]:
    return [*zip(*rows, strict=True)]


@pytest.mark.parametrize("front", [None, 0, 1])
@pytest.mark.parametrize("kind", AT_CORNERS)
def test_at_a_the_board_at_the_sides_meets_with_its_right_hand_end(kind, front):
    job = job_of(kind, front)
    one = only_joint(job)
    first, second = (member.part.board.called for member in one.joint.members)
    side, across = (second, first) if front == 0 else (first, second)
    other = {LEFT: RIGHT, RIGHT: LEFT}
    wanted = [(at, side, end, across, other[end]) for at, end in AT_SIDE.items()]
    assert [*ends_in_plan(job)] == wanted
    on_templates = {
        (placed.corner.letter, placed.board.called, words)
        for placed in one.placed
        if not placed.is_loose
        for words in which_face(placed, placed.member.part.faces[0]).split(" · ")
        if words in other
    }
    assert on_templates == {
        one for at, a, end, b, far in wanted for one in ((at, a, end), (at, b, far))
    }


@pytest.mark.parametrize("front", [None, 0, 1])
@pytest.mark.parametrize("kind", AT_CORNERS)
def test_boards_put_together_from_their_printed_ends_are_the_plan_s(kind, front):
    """Reference edges down and outside faces out, each runs from the corner along the piece."""
    job = job_of(kind, front)
    placement = only_joint(job).joint.placement
    for letter, _, end, _, far in ends_in_plan(job):
        right, away = TO_PIECE[letter]
        # How x, y and z of a board at a side run: up, along the side, and to its inside.
        at_side: Rows = ((0, 0, right), (0, away, 0), (1, 0, 0))
        across: Rows = ((0, right, 0), (0, 0, away), (1, 0, 0))
        first, second = (across, at_side) if front == 0 else (at_side, across)
        assert [hand_of(rows) for rows in (at_side, across)] == [end, far]
        met = Placement(first, (0, 0, 0)).of(placement).rows
        # Sides that lean are square to nothing, and still look the same way.
        assert all(dot(*ways) > 0 for ways in zip(columns(met), columns(second), strict=True))
        assert hand_of(met) == hand_of(second)
