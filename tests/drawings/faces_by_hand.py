r"""Joints of two board ends whose layout is not symmetrical: every face worked by hand.

Dovetails: boards 100 wide; from the reference edge 10 | tail 30 | pin 20 | tail 25 | 15 at
the tails' ends. Tails are 12 long at 1:6, so that each side comes in by 2. Where an edge
is mitred for 5 mm, the half pin beside it is narrower by as much and the tails stay.

    reference edge on the left           reference edge on the right
    0  10    40  60   85   100           0   15   40  60    90 100
    |   \    /    \   /     |            |    \   /    \    /   |     tails' ends
    |    \__/      \_/      |            |     \_/      \__/    |     tails' feet
        12  38    62 83                       17 38    62  88

Box joint: 4 fingers and spaces, the two in the middle 20 wide, so 30 | 20 | 20 | 30; the
second board's spaces are wider by a fit of 0.5 at each sawn side.

Each face is held as someone sees it who looks at it with the end at the top: s from the
left, t down from the end. Nothing is mirrored here: both sides' figures are written out.
"""

from dataclasses import dataclass

from tests.pdf.dovetail_table import Segment

HEAD = """
title = "Handed"
[paper]
size = "A3"
[boards.side]
width = 100
thickness = {thicknesses[0]}
[boards.end]
width = 100
thickness = {thicknesses[1]}
[[joints]]
kind = "{kind}"
corners = ["A", "B", "C", "D"]
views = ["wrap", "faces"]
"""
TAILS = """tail_board = "side"
pin_board = "end"
slope = "1:6"
spacing = {{ style = "listed", widths = [30, 20, 25] }}
half_pin = {edges[0]}
half_pin_far = {edges[1]}
"""
FINGERS = """first_board = "side"
second_board = "end"
fingers = 4
finger = 20
fit = 0.5
"""


@dataclass(frozen=True)
class Row:
    """Distances from the left, or pairs of them.

    On faces and end grain `left` holds where the reference edge is on the left, on the two
    edges of a board where its outside face is on the left.
    """

    left: tuple
    right: tuple


@dataclass(frozen=True)
class Lines:
    """Lines of one face: from a place in one row to its like in another, or along a depth."""

    down: tuple[tuple[Row, float, Row, float], ...] = ()
    along: tuple[tuple[Row, float], ...] = ()

    def seen(self, side: str) -> list[Segment]:
        found = [
            ((a, t), (b, u))
            for above, t, below, u in self.down
            for a, b in zip(getattr(above, side), getattr(below, side), strict=True)
        ]
        found += [((a, t), (b, t)) for row, t in self.along for a, b in getattr(row, side)]
        return found


ENDS = Row((10, 40, 60, 85), (15, 40, 60, 90))
FEET = Row((12, 38, 62, 83), (17, 38, 62, 88))
TAILS_AT_ENDS = Row(((10, 40), (60, 85)), ((15, 40), (60, 90)))
TAILS_AT_FEET = Row(((12, 38), (62, 83)), ((17, 38), (62, 88)))
PINS_AT_FEET = Row(((0, 12), (38, 62), (83, 100)), ((0, 17), (38, 62), (88, 100)))
WHOLE = Row(((0, 100),), ((0, 100),))
# Mitred for 5 at the reference edge, and at both edges.
NEAR, NEAR_STRIP = Row((5,), (95,)), Row(((0, 5),), ((95, 100),))
BOTH, BOTH_STRIPS = Row((5, 95), (5, 95)), Row(((0, 5), (95, 100)), ((0, 5), (95, 100)))
PINS_BEYOND_NEAR = Row(((5, 12), (38, 62), (83, 100)), ((0, 17), (38, 62), (88, 95)))
PINS_BETWEEN = Row(((5, 12), (38, 62), (83, 95)), ((5, 17), (38, 62), (88, 95)))
# Fingers: saw cuts, and the spaces between them.
CUTS = Row((30, 50, 70), (30, 50, 70))
SPACES = Row(((30, 50), (70, 100)), ((0, 30), (50, 70)))
WIDER_CUTS = Row((30.5, 49.5, 70.5), (29.5, 50.5, 69.5))
WIDER_SPACES = Row(((0, 30.5), (49.5, 70.5)), ((29.5, 50.5), (69.5, 100)))


def thick(thickness: int) -> Row:
    """Right across an edge."""
    return Row(((0, thickness),), ((0, thickness),))


NONE = Lines()
TAIL, PIN, FIRST, SECOND = "tail board", "pin board", "first board", "second board"
OUTSIDE, INSIDE, END = "outside face", "inside face", "end grain"
REFERENCE, FAR = "reference edge", "far edge"

SLANTED = Lines(((ENDS, 0, FEET, 12),)), Lines(along=((PINS_AT_FEET, 12),))
THROUGH_TAILS = {
    (TAIL, OUTSIDE): SLANTED,
    (TAIL, INSIDE): SLANTED,
    (TAIL, END): (Lines(((ENDS, 0, ENDS, 10),)), NONE),
    (TAIL, REFERENCE): (NONE, Lines(along=((thick(10), 12),))),
    (TAIL, FAR): (NONE, Lines(along=((thick(10), 12),))),
}
# On end grain the inside face is above, the outside face below.
LAP_LINE = Lines(((FEET, 0, ENDS, 12),)), Lines(along=((TAILS_AT_ENDS, 12),))
SQUARE_AT_FEET = Lines(((FEET, 0, FEET, 10),)), Lines(along=((TAILS_AT_FEET, 10),))
# The tail board's lap is 4 of its 10: rebate and space of the half pin end there. The rebate,
# 6 wide, is cut first and has its whole line.
LAPPED_EDGE = (
    NONE,
    Lines(
        ((Row((4,), (6,)), 0, Row((4,), (6,)), 6), (Row((4,), (6,)), 6, Row((4,), (6,)), 18)),
        ((Row(((4, 10),), ((0, 6),)), 6), (Row(((4, 10),), ((0, 6),)), 18)),
    ),
)
# Mitres run from the arris outside at the end to the baseline at the inside face.
MITRE_12 = Lines(((Row((0,), (12,)), 0, Row((12,), (0,)), 12),)), NONE
AT_6 = Row((6,), (12,))
MITRE_18 = (
    Lines(((Row((0,), (18,)), 0, AT_6, 6), (AT_6, 6, Row((18,), (0,)), 18))),
    Lines(((AT_6, 0, AT_6, 6),), ((Row(((6, 18),), ((0, 12),)), 6),)),
)
"""Behind the rebate, 6 wide and down to 6, that is cut first."""


@dataclass(frozen=True)
class Case:
    """One kind of joint: its job, and sawn lines and baselines of every face that has any."""

    thicknesses: tuple[int, int]
    rest: str
    faces: dict[tuple[str, str], tuple[Lines, Lines]]

    def job(self, kind: str) -> str:
        return HEAD.format(kind=kind, thicknesses=self.thicknesses) + self.rest


CASES = {
    "through-dovetail": Case(
        (10, 12),
        TAILS.format(edges=(10, 15)),
        THROUGH_TAILS
        | {
            (PIN, OUTSIDE): (Lines(((ENDS, 0, ENDS, 10),)), Lines(along=((TAILS_AT_ENDS, 10),))),
            (PIN, INSIDE): SQUARE_AT_FEET,
            (PIN, END): (Lines(((FEET, 0, ENDS, 12),)), NONE),
        },
    ),
    "lapped-dovetail": Case(
        (10, 18),
        TAILS.format(edges=(10, 15)) + "lap = 6\n",
        THROUGH_TAILS | {(PIN, INSIDE): SQUARE_AT_FEET, (PIN, END): LAP_LINE},
    ),
    "double-lapped-dovetail": Case(
        (10, 18),
        TAILS.format(edges=(10, 15)) + "lap = 6\ntail_lap = 4\n",
        {
            (TAIL, INSIDE): (
                Lines(((ENDS, 6, FEET, 18),)),
                Lines(along=((WHOLE, 6), (PINS_AT_FEET, 18))),
            ),
            (TAIL, END): (NONE, Lines(along=((WHOLE, 6),))),
            (TAIL, REFERENCE): LAPPED_EDGE,
            (TAIL, FAR): LAPPED_EDGE,
            (PIN, INSIDE): (
                Lines(((FEET, 0, FEET, 6),)),
                Lines(along=((TAILS_AT_FEET, 6),)),
            ),
            (PIN, END): LAP_LINE,
        },
    ),
    "mitred-shoulder-dovetail": Case(
        (12, 12),
        TAILS.format(edges=(5, 15)) + "mitre = 5\n",
        {
            (TAIL, OUTSIDE): (
                Lines(((NEAR, 0, NEAR, 12), (ENDS, 0, FEET, 12))),
                Lines(along=((PINS_BEYOND_NEAR, 12),)),
            ),
            (TAIL, INSIDE): (
                Lines(((NEAR, 0, NEAR, 12), (ENDS, 0, FEET, 12)), ((NEAR_STRIP, 12),)),
                Lines(along=((PINS_BEYOND_NEAR, 12),)),
            ),
            (TAIL, END): (Lines(((NEAR, 0, NEAR, 12), (ENDS, 0, ENDS, 12))), NONE),
            (TAIL, REFERENCE): MITRE_12,
            (TAIL, FAR): (NONE, Lines(along=((thick(12), 12),))),
            (PIN, OUTSIDE): (Lines(((ENDS, 0, ENDS, 12),)), Lines(along=((TAILS_AT_ENDS, 12),))),
            (PIN, INSIDE): (
                Lines(((NEAR, 0, NEAR, 12), (FEET, 0, FEET, 12)), ((NEAR_STRIP, 12),)),
                Lines(along=((TAILS_AT_FEET, 12),)),
            ),
            (PIN, END): (Lines(((NEAR, 0, NEAR, 12), (FEET, 0, ENDS, 12))), NONE),
            (PIN, REFERENCE): MITRE_12,
        },
    ),
    "full-blind-dovetail": Case(
        (18, 18),
        TAILS.format(edges=(5, 10)) + "mitre = 5\nlap = 6\n",
        {
            (TAIL, INSIDE): (
                Lines(((BOTH, 6, BOTH, 18), (ENDS, 6, FEET, 18)), ((BOTH_STRIPS, 18),)),
                Lines(along=((WHOLE, 6), (PINS_BETWEEN, 18))),
            ),
            (TAIL, END): (NONE, Lines(along=((WHOLE, 12),))),
            (TAIL, REFERENCE): MITRE_18,
            (TAIL, FAR): MITRE_18,
            (PIN, INSIDE): (
                Lines(((BOTH, 6, BOTH, 18), (FEET, 6, FEET, 18)), ((BOTH_STRIPS, 18),)),
                Lines(along=((WHOLE, 6), (TAILS_AT_FEET, 18))),
            ),
            (PIN, END): (NONE, Lines(along=((WHOLE, 12),))),
            (PIN, REFERENCE): MITRE_18,
            (PIN, FAR): MITRE_18,
        },
    ),
    "box-joint": Case(
        (10, 12),
        FINGERS,
        {
            (FIRST, OUTSIDE): (Lines(((CUTS, 0, CUTS, 12),)), Lines(along=((SPACES, 12),))),
            (FIRST, INSIDE): (Lines(((CUTS, 0, CUTS, 12),)), Lines(along=((SPACES, 12),))),
            (FIRST, END): (Lines(((CUTS, 0, CUTS, 10),)), NONE),
            (FIRST, FAR): (NONE, Lines(along=((thick(10), 12),))),
            (SECOND, OUTSIDE): (
                Lines(((WIDER_CUTS, 0, WIDER_CUTS, 10),)),
                Lines(along=((WIDER_SPACES, 10),)),
            ),
            (SECOND, INSIDE): (
                Lines(((WIDER_CUTS, 0, WIDER_CUTS, 10),)),
                Lines(along=((WIDER_SPACES, 10),)),
            ),
            (SECOND, END): (Lines(((WIDER_CUTS, 0, WIDER_CUTS, 12),)), NONE),
            (SECOND, REFERENCE): (NONE, Lines(along=((thick(12), 10),))),
        },
    ),
}

# The ends that meet: of the board with tails, or the first, and of the other one.
HANDS = {
    "A": ("right-hand end", "left-hand end"),
    "B": ("left-hand end", "right-hand end"),
    "C": ("right-hand end", "left-hand end"),
    "D": ("left-hand end", "right-hand end"),
}
# On which side the reference edge is seen; and for the two edges, the outside face.
SIDES = {
    "left-hand end": {
        OUTSIDE: "left",
        END: "left",
        INSIDE: "right",
        REFERENCE: "right",
        FAR: "left",
    },
    "right-hand end": {
        OUTSIDE: "right",
        END: "right",
        INSIDE: "left",
        REFERENCE: "left",
        FAR: "right",
    },
}
