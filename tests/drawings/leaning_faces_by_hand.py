"""Tails and fingers of boards that lean: every face worked by hand, with 3, 4 and 5.

Boards lean by the angle whose sine is 3/5 and whose cosine is 4/5. As in `faces_by_hand`,
each face is held as someone sees it who looks at it with the end at the top: s from the
left, and t down from the highest point of what is left of the board. Nothing is mirrored
here: both sides' figures are written out, for the reference edge on the left and on the
right.

Leaning, both boards alike: an end falls 3/5 for each mm across towards the reference edge,
and 9/20 for each mm through it towards the outside; it is longest at the far edge, inside.
A board 8 thick takes 10 of the other along the grain, one 12 thick 15. Planing the edges
level takes 12 * 3/4 = 9 off the reference edge. All is 109 wide, so that 100 are left:

    9 | 10 | tail 30 | pin 20 | tail 25 | 15         from the reference edge, along the end
    9 | finger 30 | space 20 | finger 20 | space 30

A side goes along the other board's grain from face to face: on the inside it is 3/4 of the
thickness nearer to the reference edge, 6 and 9. Sides of tails lean 1 in 5.4 from the grain,
so that those that face the reference edge come in by 15 / (5.4 + 0.6) = 2.5 up to the
baseline, and the others by 15 / (5.4 - 0.6) = 3.125.
"""

from math import sqrt

from tests.drawings.faces_by_hand import (
    END,
    FAR,
    FIRST,
    INSIDE,
    OUTSIDE,
    PIN,
    REFERENCE,
    SECOND,
    TAIL,
)
from tests.pdf.dovetail_table import Segment

Listed = list[Segment]
Sided = dict[str, tuple[Listed, Listed]]
"""Sawn lines and baselines where the reference edge is on the left, and on the right; on the
two edges of a board where its outside face is."""

LEAN = "36.869897645844"
HEAD = """
title = "Handed"
[paper]
size = "A3"
[boards.side]
width = {width}
thickness = {thicknesses[0]}
[boards.end]
width = {width}
thickness = {thicknesses[1]}
[[joints]]
kind = "{kind}"
corners = [{{ name = "Corner A", like = "A" }}, {{ name = "Corner B", like = "B" }}]
views = ["faces"]
"""
TAILS = """tail_board = "side"
pin_board = "end"
spacing = { style = "listed", widths = [30, 20, 25] }
half_pin = 10
"""
"""The far half pin follows: what is left of leaning edges is 100 within a millionth only."""
BOARDS = """first_board = "side"
second_board = "end"
"""


def job(kind: str, width: int, thicknesses: tuple[int, int], rest: str) -> str:
    return HEAD.format(kind=kind, width=width, thicknesses=thicknesses) + rest


# Both edges of a board 8 thick whose waste goes right across: it ends 15 below the end, which
# is 8 * 9/20 = 3.6 lower outside.
EDGE_8: Sided = {
    "left": ([], [((0, 18.6), (8, 15))]),
    "right": ([], [((8, 18.6), (0, 15))]),
}

# Leaning tails. At s from the reference edge an end is 0.6 (109 - s) below its highest point.
LEANING_TAILS: dict[tuple[str, str], Sided] = {
    (TAIL, OUTSIDE): {
        "left": (
            [
                ((19, 54), (21.5, 67.5)),
                ((49, 36), (45.875, 52.875)),
                ((69, 24), (71.5, 37.5)),
                ((94, 9), (90.875, 25.875)),
            ],
            [
                ((0, 80.4), (21.5, 67.5)),
                ((45.875, 52.875), (71.5, 37.5)),
                ((90.875, 25.875), (109, 15)),
            ],
        ),
        "right": (
            [
                ((90, 54), (87.5, 67.5)),
                ((60, 36), (63.125, 52.875)),
                ((40, 24), (37.5, 37.5)),
                ((15, 9), (18.125, 25.875)),
            ],
            [
                ((109, 80.4), (87.5, 67.5)),
                ((63.125, 52.875), (37.5, 37.5)),
                ((18.125, 25.875), (0, 15)),
            ],
        ),
    },
    (TAIL, INSIDE): {
        "left": (
            [
                ((13, 57.6), (15.5, 71.1)),
                ((43, 39.6), (39.875, 56.475)),
                ((63, 27.6), (65.5, 41.1)),
                ((88, 12.6), (84.875, 29.475)),
            ],
            [
                ((0, 80.4), (15.5, 71.1)),
                ((39.875, 56.475), (65.5, 41.1)),
                ((84.875, 29.475), (109, 15)),
            ],
        ),
        "right": (
            [
                ((96, 57.6), (93.5, 71.1)),
                ((66, 39.6), (69.125, 56.475)),
                ((46, 27.6), (43.5, 41.1)),
                ((21, 12.6), (24.125, 29.475)),
            ],
            [
                ((109, 80.4), (93.5, 71.1)),
                ((69.125, 56.475), (43.5, 41.1)),
                ((24.125, 29.475), (0, 15)),
            ],
        ),
    },
    (TAIL, REFERENCE): EDGE_8,
    (TAIL, FAR): EDGE_8,
    (PIN, OUTSIDE): {
        "left": (
            [
                ((19, 54), (19, 64)),
                ((49, 36), (49, 46)),
                ((69, 24), (69, 34)),
                ((94, 9), (94, 19)),
            ],
            [((19, 64), (49, 46)), ((69, 34), (94, 19))],
        ),
        "right": (
            [
                ((90, 54), (90, 64)),
                ((60, 36), (60, 46)),
                ((40, 24), (40, 34)),
                ((15, 9), (15, 19)),
            ],
            [((90, 64), (60, 46)), ((40, 34), (15, 19))],
        ),
    },
    # 9 nearer to the reference edge, and come in by 2.5 or 3.125.
    (PIN, INSIDE): {
        "left": (
            [
                ((12.5, 57.9), (12.5, 67.9)),
                ((36.875, 43.275), (36.875, 53.275)),
                ((62.5, 27.9), (62.5, 37.9)),
                ((81.875, 16.275), (81.875, 26.275)),
            ],
            [((12.5, 67.9), (36.875, 53.275)), ((62.5, 37.9), (81.875, 26.275))],
        ),
        "right": (
            [
                ((96.5, 57.9), (96.5, 67.9)),
                ((72.125, 43.275), (72.125, 53.275)),
                ((46.5, 27.9), (46.5, 37.9)),
                ((27.125, 16.275), (27.125, 26.275)),
            ],
            [((96.5, 67.9), (72.125, 53.275)), ((46.5, 37.9), (27.125, 26.275))],
        ),
    },
}

# The slanted end grain in true shape, the inside face above. The end is R = √(1 + 0.6²) long
# for each mm across; through 8 mm of wood it goes on by 8 * 0.6 * 0.45 / R = 2.16 / R towards
# the far edge and is 10 / R wide, through 12 mm by 3.24 / R and 15 / R wide.
R = sqrt(1.36)
OUT_8, HIGH_8 = 109 * R + 2.16 / R, 10 / R
OUT_12, HIGH_12 = 109 * R + 3.24 / R, 15 / R
"""From the reference edge at the arris to the far edge inside; and the width."""
LEANING_TAILS[TAIL, END] = {
    # From the arris below to the inside, 6 nearer across: 6 R - 2.16 / R = 6 / R.
    "left": ([((x * R, HIGH_8), (x * R - 6 / R, 0)) for x in (19, 49, 69, 94)], []),
    "right": (
        [((OUT_8 - x * R, HIGH_8), (OUT_8 - x * R + 6 / R, 0)) for x in (19, 49, 69, 94)],
        [],
    ),
}
_PINS = ((19, 12.5), (49, 36.875), (69, 62.5), (94, 81.875))
LEANING_TAILS[PIN, END] = {
    "left": ([((x * R, HIGH_12), (i * R + 3.24 / R, 0)) for x, i in _PINS], []),
    "right": ([((OUT_12 - x * R, HIGH_12), ((109 - i) * R, 0)) for x, i in _PINS], []),
}

# Leaning fingers: at 39, 59 and 79; the first board has the one at the reference edge.
LEANING_FINGERS: dict[tuple[str, str], Sided] = {
    (FIRST, OUTSIDE): {
        "left": (
            [((39, 42), (39, 57)), ((59, 30), (59, 45)), ((79, 18), (79, 33))],
            [((39, 57), (59, 45)), ((79, 33), (109, 15))],
        ),
        "right": (
            [((70, 42), (70, 57)), ((50, 30), (50, 45)), ((30, 18), (30, 33))],
            [((70, 57), (50, 45)), ((30, 33), (0, 15))],
        ),
    },
    (FIRST, INSIDE): {
        "left": (
            [((33, 45.6), (33, 60.6)), ((53, 33.6), (53, 48.6)), ((73, 21.6), (73, 36.6))],
            [((33, 60.6), (53, 48.6)), ((73, 36.6), (109, 15))],
        ),
        "right": (
            [((76, 45.6), (76, 60.6)), ((56, 33.6), (56, 48.6)), ((36, 21.6), (36, 36.6))],
            [((76, 60.6), (56, 48.6)), ((36, 36.6), (0, 15))],
        ),
    },
    (FIRST, END): {
        "left": ([((x * R, HIGH_8), (x * R - 6 / R, 0)) for x in (39, 59, 79)], []),
        "right": (
            [((OUT_8 - x * R, HIGH_8), (OUT_8 - x * R + 6 / R, 0)) for x in (39, 59, 79)],
            [],
        ),
    },
    (FIRST, FAR): EDGE_8,
    (SECOND, OUTSIDE): {
        "left": (
            [((39, 42), (39, 52)), ((59, 30), (59, 40)), ((79, 18), (79, 28))],
            [((0, 75.4), (39, 52)), ((59, 40), (79, 28))],
        ),
        "right": (
            [((70, 42), (70, 52)), ((50, 30), (50, 40)), ((30, 18), (30, 28))],
            [((109, 75.4), (70, 52)), ((50, 40), (30, 28))],
        ),
    },
    (SECOND, INSIDE): {
        "left": (
            [((30, 47.4), (30, 57.4)), ((50, 35.4), (50, 45.4)), ((70, 23.4), (70, 33.4))],
            [((0, 75.4), (30, 57.4)), ((50, 45.4), (70, 33.4))],
        ),
        "right": (
            [((79, 47.4), (79, 57.4)), ((59, 35.4), (59, 45.4)), ((39, 23.4), (39, 33.4))],
            [((109, 75.4), (79, 57.4)), ((59, 45.4), (39, 33.4))],
        ),
    },
    # 9 nearer across, 12 through: 9 R - 3.24 / R = 9 / R.
    (SECOND, END): {
        "left": ([((x * R, HIGH_12), (x * R - 9 / R, 0)) for x in (39, 59, 79)], []),
        "right": (
            [((OUT_12 - x * R, HIGH_12), (OUT_12 - x * R + 9 / R, 0)) for x in (39, 59, 79)],
            [],
        ),
    },
    # The end is 12 * 9/20 = 5.4 lower outside.
    (SECOND, REFERENCE): {
        "left": ([], [((0, 15.4), (12, 10))]),
        "right": ([], [((12, 15.4), (0, 10))]),
    },
}

CASES: dict[str, tuple[str, dict[tuple[str, str], Sided]]] = {
    "canted-dovetail": (
        job("canted-dovetail", 109, (8, 12), f'{TAILS}slope = "1:5.4"\nlean = {LEAN}\n'),
        LEANING_TAILS,
    ),
    "canted-box-joint": (
        job(
            "canted-box-joint",
            109,
            (8, 12),
            f"{BOARDS}fingers = 4\nfinger = 20\nlean = {LEAN}\n",
        ),
        LEANING_FINGERS,
    ),
}
