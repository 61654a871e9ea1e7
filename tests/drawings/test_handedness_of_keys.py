"""Keys across a seam and across butted ends, unevenly spread, held to distances worked by hand.

Keys are 48 long, 18 wide and 10 at the waist, so 1 in 6; sockets are 8 deep. A mitre's keys
stand in `tests/joints/test_keyed_pages.py`.

    seam   middles at 30, 90 and 180: the second 60 and the third 150 from the first. The
           first board has its seam at the far edge, and the seam's start up; the second
           at the reference edge, and the seam's end up. 10 of wood are shown before the
           first tip, so that a middle is 19 down.
    butt   middles at 30 and 72 from the reference edge of boards 100 wide and 20 thick

Each face is held as someone sees it: s from the left, t down from the top of what is shown.
At A the first board has the hand whose reference edge is seen on the right, at B the second.
"""

import re
from functools import cache

import pytest

from tests.drawings.seen_faces import as_seen
from tests.pdf.drawn_jobs import pages_from
from tests.pdf.page_reading import KNIFE, SAW, Placement
from tests.pdf.wrap_reading import unmatched

JOB = """
title = "Handed"
[paper]
size = "300 x 600 mm"
[boards.left]
width = 100
thickness = 20
[boards.right]
width = 100
thickness = 20
[[joints]]
kind = "{kind}"
corners = [{{ name = "Corner A", like = "A" }}, {{ name = "Corner B", like = "B" }}]
views = ["faces"]
first_board = "left"
second_board = "right"
key_length = 48
key_width = 18
waist = 10
depth = 8
"""
SEAM = JOB.format(kind="dovetail-key") + (
    'seam = 230\npositions = [30, 90, 180]\ndrawn = "whole row"\n'
)
BUTT = JOB.format(kind="butt-dovetail-key") + "positions = [30, 72]\n"
FIRST, SECOND = "first board", "second board"
OUTSIDE, END, FAR, REFERENCE = "outside face", "end grain", "far edge", "reference edge"
LEFT, RIGHT = "left", "right"


def from_the_left(*middles: float) -> list:
    """Half sockets open to the left of a board 100 wide."""
    return [
        line
        for t in middles
        for line in (
            ((0, t - 5), (24, t - 9)),
            ((0, t + 5), (24, t + 9)),
            ((24, t - 9), (24, t + 9)),
        )
    ]


def from_the_right(*middles: float) -> list:
    return [
        line
        for t in middles
        for line in (
            ((100, t - 5), (76, t - 9)),
            ((100, t + 5), (76, t + 9)),
            ((76, t - 9), (76, t + 9)),
        )
    ]


def from_above(*middles: float) -> list:
    """Half sockets open at an end."""
    return [
        line
        for s in middles
        for line in (
            ((s - 5, 0), (s - 9, 24)),
            ((s + 5, 0), (s + 9, 24)),
            ((s - 9, 24), (s + 9, 24)),
        )
    ]


def mouths(*middles: float) -> tuple[list, list]:
    """On end grain, the outside face below: 8 of 20 deep."""
    sides = [((s + w, 12), (s + w, 20)) for s in middles for w in (-5, 5)]
    return sides, [((s - 5, 12), (s + 5, 12)) for s in middles]


def mouths_on_edge(arris: float, bottom: float, *middles: float) -> tuple[list, list]:
    """On an edge, from the arris of the outside face to the sockets' bottom."""
    sides = [((arris, t + w), (bottom, t + w)) for t in middles for w in (-5, 5)]
    return sides, [((bottom, t - 5), (bottom, t + 5)) for t in middles]


DOWN, UP = (19, 79, 169), (19, 109, 169)
"""From the seam's start, and from its end."""
# By corner, board and face: on which side the reference edge is, sawn lines, and bottoms.
TABLES = {
    "seam": (
        SEAM,
        {
            ("A", FIRST, OUTSIDE): (RIGHT, from_the_left(*DOWN), []),
            ("B", FIRST, OUTSIDE): (LEFT, from_the_right(*DOWN), []),
            ("A", SECOND, OUTSIDE): (LEFT, from_the_left(*UP), []),
            ("B", SECOND, OUTSIDE): (RIGHT, from_the_right(*UP), []),
            # A far edge has the outside face on its left where the reference edge is seen
            # on the left; a reference edge on its right.
            ("A", FIRST, FAR): (RIGHT, *mouths_on_edge(20, 12, *DOWN)),
            ("B", FIRST, FAR): (LEFT, *mouths_on_edge(0, 8, *DOWN)),
            ("A", SECOND, REFERENCE): (RIGHT, *mouths_on_edge(20, 12, *UP)),
            ("B", SECOND, REFERENCE): (LEFT, *mouths_on_edge(0, 8, *UP)),
        },
    ),
    "butt": (
        BUTT,
        {
            ("A", FIRST, OUTSIDE): (RIGHT, from_above(28, 70), []),
            ("B", FIRST, OUTSIDE): (LEFT, from_above(30, 72), []),
            ("A", SECOND, OUTSIDE): (LEFT, from_above(30, 72), []),
            ("B", SECOND, OUTSIDE): (RIGHT, from_above(28, 70), []),
            ("A", FIRST, END): (RIGHT, *mouths(28, 70)),
            ("B", FIRST, END): (LEFT, *mouths(30, 72)),
            ("A", SECOND, END): (LEFT, *mouths(30, 72)),
            ("B", SECOND, END): (RIGHT, *mouths(28, 70)),
        },
    ),
}


@cache
def faces_of(job: str) -> dict[tuple[str, str, str], Placement]:
    """By corner, board and face: the patterns of the boards."""
    found = {}
    for page in pages_from(job):
        for placement in page.placements[1:]:
            told = " ".join(words.text for words in placement.words)
            label = re.search(r"(first|second) board · (\w+ (?:face|grain|edge)) ·", told)
            if label:
                corner = re.search(r"Corner (A|B) · ", told)[1]
                key = (corner, f"{label[1]} board", label[2])
                assert key not in found
                found[key] = placement
    return found


@pytest.mark.parametrize(("job", "table"), TABLES.values(), ids=TABLES)
def test_every_face_has_its_sockets_where_they_were_worked_out(job, table):
    found = faces_of(job)
    assert found.keys() == table.keys()
    for key, (_, walls, bottoms) in table.items():
        assert as_seen(found[key], SAW) == [], "sockets are chopped"
        assert unmatched(as_seen(found[key], KNIFE), [*walls, *bottoms]) == [], key


@pytest.mark.parametrize(("job", "table"), TABLES.values(), ids=TABLES)
def test_words_say_on_which_side_the_reference_edge_or_the_outside_face_is(job, table):
    for (corner, role, face), (side, *_) in table.items():
        told = " ".join(words.text for words in faces_of(job)[corner, role, face].words)
        if "edge" in face:
            assert f"outside face on the {side}" in told
        else:
            assert ("◄ reference edge" in told) == (side == LEFT)
            assert ("reference edge ►" in told) == (side == RIGHT)


@pytest.mark.parametrize(("job", "table"), TABLES.values(), ids=TABLES)
def test_figures_of_the_other_hand_do_not_match(job, table):
    for (corner, role, face), (_, saws, _) in table.items():
        other = table["B" if corner == "A" else "A", role, face][1]
        assert unmatched(saws, other) != []
