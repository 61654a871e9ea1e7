"""Left-hand and right-hand ends: a layout that is not symmetrical, worked by hand.

Both boards are 60 wide; the tail board is 10 thick, the pin board 12. Two tails, half
pins of 5 at the reference edge and 8 at the far edge, a pin of 3, slope 1:6. Then a tail
is (60 - 5 - 8 - 3) / 2 = 22 wide. The baseline of the tail board is 12 from its end; a
side leans 12 / 6 = 2. From the reference edge the tails reach

    at the end        5 to 27    30 to 52
    at the baseline   7 to 25    32 to 50

Each face is held as someone sees it who looks at it with the end at the top: s from the
left, t down from the end. The tables are for left-hand ends; at a right-hand end all is
seen in a mirror.
"""

import pytest

from tests.drawings.seen_faces import as_seen, single_faces
from tests.pdf.drawn_jobs import pages_from
from tests.pdf.page_reading import KNIFE, SAW
from tests.pdf.wrap_reading import unmatched, wraps_on

JOB = """
title = "Handed"
[paper]
size = "A3"
[boards.side]
width = 60
thickness = 10
[boards.end]
width = 60
thickness = 12
[[joints]]
kind = "through-dovetail"
corners = ["A", "B", "C", "D"]
tail_board = "side"
pin_board = "end"
slope = "1:6"
tails = 2
half_pin = 5
half_pin_far = 8
pin = 3
views = ["wrap", "faces"]
"""
# Half tails at the edges leave waste on the pin board's edges: the baseline, 10 from the end.
HALF_TAILS = JOB.replace("half_pin = 5\nhalf_pin_far = 8", 'start = "half-tail"')
WIDTH = 60.0
RIGHT_TAILS = {"A": True, "B": False, "C": True, "D": False}

# As seen at a left-hand end: sawn lines and baselines as (s, t) to (s, t).
TAIL_OUTSIDE = (
    [((5, 0), (7, 12)), ((27, 0), (25, 12)), ((30, 0), (32, 12)), ((52, 0), (50, 12))],
    [((0, 12), (7, 12)), ((25, 12), (32, 12)), ((50, 12), (60, 12))],
)
TAIL_INSIDE = (  # the reference edge is on the right: 60 - 5 = 55, 60 - 7 = 53 and so on
    [((55, 0), (53, 12)), ((33, 0), (35, 12)), ((30, 0), (28, 12)), ((8, 0), (10, 12))],
    [((60, 12), (53, 12)), ((35, 12), (28, 12)), ((10, 12), (0, 12))],
)
TAIL_END = ([((5, 0), (5, 10)), ((27, 0), (27, 10)), ((30, 0), (30, 10)), ((52, 0), (52, 10))], [])
TAIL_EDGE = ([], [((0, 12), (10, 12))])
PIN_OUTSIDE = (
    [((5, 0), (5, 10)), ((27, 0), (27, 10)), ((30, 0), (30, 10)), ((52, 0), (52, 10))],
    [((5, 10), (27, 10)), ((30, 10), (52, 10))],
)
PIN_INSIDE = (  # tails are narrower here: 7 to 25 and 32 to 50, seen from the other side
    [((53, 0), (53, 10)), ((35, 0), (35, 10)), ((28, 0), (28, 10)), ((10, 0), (10, 10))],
    [((35, 10), (53, 10)), ((10, 10), (28, 10))],
)
PIN_END = (  # the outside face is below, at t = 12
    [((5, 12), (7, 0)), ((27, 12), (25, 0)), ((30, 12), (32, 0)), ((52, 12), (50, 0))],
    [],
)
FACES = {
    ("tail board", "outside face"): (WIDTH, TAIL_OUTSIDE),
    ("tail board", "inside face"): (WIDTH, TAIL_INSIDE),
    ("tail board", "end grain"): (WIDTH, TAIL_END),
    ("tail board", "reference edge"): (10.0, TAIL_EDGE),
    ("tail board", "far edge"): (10.0, TAIL_EDGE),
    ("pin board", "outside face"): (WIDTH, PIN_OUTSIDE),
    ("pin board", "inside face"): (WIDTH, PIN_INSIDE),
    ("pin board", "end grain"): (WIDTH, PIN_END),
}


def mirrored(lines: list, width: float) -> list:
    return [((width - s0, t0), (width - s1, t1)) for (s0, t0), (s1, t1) in lines]


@pytest.mark.parametrize("corner", RIGHT_TAILS)
@pytest.mark.parametrize(("role", "face"), FACES)
def test_each_face_is_as_someone_sees_it_who_looks_at_it(corner, role, face):
    hand, placement = single_faces(JOB)[corner, role, face]
    right = RIGHT_TAILS[corner] == (role == "tail board")
    assert hand == ("right-hand end" if right else "left-hand end")
    width, (saws, bases) = FACES[role, face]
    if right:
        saws, bases = mirrored(saws, width), mirrored(bases, width)
    assert unmatched(as_seen(placement, SAW), saws) == []
    assert unmatched(as_seen(placement, KNIFE), bases) == []


@pytest.mark.parametrize("corner", RIGHT_TAILS)
@pytest.mark.parametrize(
    ("role", "outside", "end", "inside"),
    [
        ("tail board", TAIL_OUTSIDE, TAIL_END, TAIL_INSIDE),
        ("pin board", PIN_OUTSIDE, PIN_END, PIN_INSIDE),
    ],
)
def test_a_wrap_holds_three_faces_that_fold_onto_the_board(corner, role, outside, end, inside):
    """Below the fold the outside face; above it the end grain; above that, turned over, the inside.

    In this frame t runs up from the fold at the outside face and s from the reference edge,
    wherever that is: so every wrap, left or right, holds the same numbers.
    """
    (wrap,) = (
        one
        for one in wraps_on(pages_from(JOB))
        if one.role == role and one.corner == f"Corner {corner}"
    )
    right = RIGHT_TAILS[corner] == (role == "tail board")
    assert wrap.hand == ("right-hand end" if right else "left-hand end")
    assert wrap.reference_on_left == (not right)
    thick = 10 if role == "tail board" else 12
    far = thick + 0.1  # the fold takes up the paper's own thickness
    saws = [((s0, -t0), (s1, -t1)) for (s0, t0), (s1, t1) in outside[0]]
    saws += [((s0, thick - t0), (s1, thick - t1)) for (s0, t0), (s1, t1) in end[0]]
    # Turned over about the fold, the inside face's left is its right.
    saws += [((60 - s0, far + t0), (60 - s1, far + t1)) for (s0, t0), (s1, t1) in inside[0]]
    bases = [((s0, -t0), (s1, -t1)) for (s0, t0), (s1, t1) in outside[1]]
    bases += [((60 - s0, far + t0), (60 - s1, far + t1)) for (s0, t0), (s1, t1) in inside[1]]
    assert unmatched(wrap.lines(SAW), saws) == []
    assert unmatched(wrap.lines(KNIFE), bases) == []


@pytest.mark.parametrize("corner", RIGHT_TAILS)
def test_words_say_on_which_side_the_reference_edge_is(corner):
    """Left-hand end: outside face on the left, inside face on the right; right-hand otherwise."""
    for role in ("tail board", "pin board"):
        for face in ("outside face", "inside face"):
            hand, placement = single_faces(JOB)[corner, role, face]
            on_left = (hand == "left-hand end") == (face == "outside face")
            texts = [w.text for w in placement.words if "reference edge" in w.text]
            arrows = [text for text in texts if "◄" in text or "►" in text]
            assert arrows
            assert all(("◄" in text) == on_left and ("►" in text) != on_left for text in arrows)


@pytest.mark.parametrize("corner", RIGHT_TAILS)
def test_words_on_an_edge_say_on_which_side_the_outside_face_is(corner):
    """Turn the left-hand end's reference edge towards you: the outside face goes to the right."""
    for face, right_at_left_hand in (("reference edge", True), ("far edge", False)):
        hand, placement = single_faces(JOB)[corner, "tail board", face]
        on_right = right_at_left_hand == (hand == "left-hand end")
        (words,) = [w.text for w in placement.words if "outside face" in w.text]
        assert ("►" in words) == on_right
        assert ("◄" in words) == (not on_right)


def test_edges_without_lines_are_not_drawn():
    """With half pins at its edges the pin board loses no wood there."""
    faces = single_faces(JOB)
    assert all((corner, "pin board", "far edge") not in faces for corner in RIGHT_TAILS)
    assert all((corner, "pin board", "reference edge") not in faces for corner in RIGHT_TAILS)


@pytest.mark.parametrize("corner", RIGHT_TAILS)
@pytest.mark.parametrize("face", ["reference edge", "far edge"])
def test_half_tails_leave_a_baseline_on_the_pin_boards_edges(corner, face):
    _, placement = single_faces(HALF_TAILS)[corner, "pin board", face]
    assert as_seen(placement, SAW) == []
    assert unmatched(as_seen(placement, KNIFE), [((0, 10), (12, 10))]) == []


def test_a_face_held_to_the_wrong_hand_does_not_match():
    _, placement = single_faces(JOB)["B", "tail board", "outside face"]
    saws, _ = TAIL_OUTSIDE
    assert unmatched(as_seen(placement, SAW), mirrored(saws, WIDTH)) != []
