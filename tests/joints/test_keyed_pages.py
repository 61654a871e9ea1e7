"""Keyed joints as printed: the lines of the pages, by a reader that shares no code."""

from math import sqrt
from pathlib import Path

import pytest

from joinery_templates.jobs.reader import read_job
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import laid_out
from tests.drawings.seen_faces import single_faces
from tests.pdf.drawn_jobs import pages_from
from tests.pdf.page_reading import GUIDE, KNIFE, SAW, THIN, Placement
from tests.pdf.wrap_reading import unmatched

BENCH_TOP = (Path(__file__).parents[2] / "sample_jobs" / "bench_top.toml").read_text("utf-8")
INCH = 25.4
FRAME = """
title = "Frame"
[boards.stile]
width = 70
thickness = 20
[boards.rail]
width = 70
thickness = 20
[[joints]]
kind = "mitre-dovetail-key"
corners = ["A", "B", "C", "D"]
first_board = "stile"
second_board = "rail"
positions = [50]
key_length = 36
key_width = 15
waist = 9
depth = 8
"""


def pattern(job: str, *said: str) -> Placement:
    """The one pattern on which all of these words stand."""
    (found,) = (
        placement
        for page in pages_from(job)
        for placement in page.placements[1:]
        if all(words in " ".join(one.text for one in placement.words) for words in said)
    )
    return found


def seen(placement: Placement, pen) -> list:
    """Lines from the upper left corner of what is shown of the board, s right and t down."""
    turn = next(words.turn for words in placement.words if " · " in words.text)

    def upright(point):
        return point if turn == 0 else (point[1], -point[0])

    assert turn in (0, 90)
    outline = [
        upright(end)
        for line in placement.drawn_with(THIN)
        if line.length > 2
        for end in (line.start, line.end)
    ]
    left, top = min(x for x, _ in outline), max(y for _, y in outline)
    return [
        tuple((upright(end)[0] - left, top - upright(end)[1]) for end in (line.start, line.end))
        for line in placement.drawn_with(pen)
    ]


# The bench top: keys 3 in long, 1 3/8 in wide, 7/8 in at the waist, gap 0.002 in. The slope is
# 1/4 in 1 1/2, so 1 in 6; the sockets' sides stand out by the gap times √37 / 6 at the seam.
GAP = 0.002 * INCH
MOUTH = 7 / 16 * INCH + GAP * sqrt(37) / 6
REACH = 1.5 * INCH + GAP
WIDE = MOUTH + REACH / 6


@pytest.mark.parametrize(
    ("board", "role", "arrow"),
    [
        ("front plank", "first board", "reference edge ►"),
        ("back plank", "second board", "◄ reference edge"),
    ],
)
def test_both_planks_show_half_a_socket_in_from_the_seam(board, role, arrow):
    """The seam is on the left where the reference edge is on the right, else on the left too."""
    placement = pattern(BENCH_TOP, f"Seam · {board.upper()}", f"{role} · outside face", arrow)
    middle = 10 + WIDE  # 10 mm of wood are shown before the joint
    assert (
        unmatched(
            seen(placement, KNIFE),
            [
                ((0, middle - MOUTH), (REACH, middle - WIDE)),
                ((0, middle + MOUTH), (REACH, middle + WIDE)),
                ((REACH, middle - WIDE), (REACH, middle + WIDE)),
            ],
        )
        == []
    )
    ((_, t0), (_, t1)) = seen(placement, GUIDE)[0]
    assert abs(t0 - middle) < 0.001
    assert abs(t1 - middle) < 0.001


def test_the_key_is_drawn_with_its_own_taper_and_says_how_many():
    placement = pattern(BENCH_TOP, "Seam · KEY", "key, make 5")
    wide, length, lean = 1.375 * INCH, 3 * INCH, 0.25 * INCH
    assert (
        unmatched(
            seen(placement, SAW),
            [
                ((0, 0), (lean, length / 2)),
                ((lean, length / 2), (0, length)),
                ((wide, 0), (wide - lean, length / 2)),
                ((wide - lean, length / 2), (wide, length)),
                ((0, length), (wide, length)),
            ],
        )
        == []
    )
    assert seen(placement, GUIDE) == [], "a dashed line says that nothing is cut there"


def test_the_middle_of_a_key_is_named_where_no_wood_is_cut():
    """On the back plank the socket is at the first edge, and 6 3/4 in have room past it."""
    placement = pattern(BENCH_TOP, "Seam · BACK PLANK", "second board")
    (words,) = (words for words in placement.words if words.text == "middle of the key")
    across = 1 if words.turn else 0
    edge = min(
        end[across] for line in placement.drawn_with(KNIFE) for end in (line.start, line.end)
    )
    assert min(words.at[across], words.end[across]) > edge + REACH


def test_one_template_serves_the_keys_of_all_corners():
    assert pattern(FRAME, "Keyed mitre · KEY", "key, make 4")


def test_the_strip_along_the_seam_has_a_mark_at_every_key():
    job = BENCH_TOP.replace('size = "Letter"', 'size = "300 x 1500 mm"')
    strip = pattern(job, "Setting-out strip for FRONT PLANK")
    ticks = sorted({round(line.start[axis], 4) for line in strip.drawn_with(SAW) for axis in (1,)})
    assert len(ticks) == 5
    steps = [(after - ticks[0]) / INCH for after in ticks]
    assert steps == pytest.approx([0, 11, 22, 33, 44], abs=0.0001)


# A frame: key 36 long, 15 wide, 9 at the waist, its middle 50 along the mitre.


def at(along: float, back: float) -> tuple[float, float]:
    return (along - back) / sqrt(2), (along + back) / sqrt(2)


SOCKET = [
    (at(45.5, 0), at(42.5, 18)),
    (at(54.5, 0), at(57.5, 18)),
    (at(42.5, 18), at(57.5, 18)),
]
HANDS = {
    "A": ("right", "left"),
    "B": ("left", "right"),
    "C": ("right", "left"),
    "D": ("left", "right"),
}


@pytest.mark.parametrize("corner", HANDS)
@pytest.mark.parametrize(("number", "role"), [(0, "first board"), (1, "second board")])
def test_each_member_of_a_frame_is_mitred_to_its_own_hand(corner, number, role):
    """From the outer edge, which is on the left of left-hand ends; 10 are left long."""
    hand, placement = single_faces(FRAME)[corner, role, "outside face"]
    assert hand == f"{HANDS[corner][number]}-hand end"
    mirrored = hand.startswith("right")
    for pen, lines in ((SAW, [((0, 0), (70, 70))]), (KNIFE, SOCKET)):
        wanted = [tuple((70 - x if mirrored else x, y + 10) for x, y in line) for line in lines]
        assert unmatched(seen(placement, pen), wanted) == []


def test_the_picture_frames_rebate_lies_clear_of_its_keys():
    """Its notes. By hand: a socket reaches farthest where half its waist meets the mitre.

    Along the mitre that is 1 1/2 + 5/32 in from the outer corner, 1.171 in across a board of 2.
    """
    job = read_job((Path(__file__).parents[2] / "sample_jobs" / "picture_frame.toml").read_text())
    assert "along its far edge, which is the frame's inner one: 1/4 in wide" in job.notes
    for member in job.joints[0].joint.members:
        waste = laid_out(member.part, Face.OUTSIDE).waste
        xs = [x for one in waste if one.stage.name == "chop" for x, _ in one.corners]
        left = (member.part.board.width - max(xs)) / INCH
        assert float(left) == pytest.approx(2 - (1.5 + 5 / 32) / sqrt(2))
        assert left > 1 / 4
