"""The dovetailed halving at both ends of its rail: every face read off the page, worked by hand.

The rail is 40 x 20, the stile 60 x 20, the lap 10; at 1:6 a side comes in by 10 in 60 mm, by 8
in 48 mm. Only the side at the rail's reference edge slopes, where nothing else is said.

Seen from outside with the rail's reference edge down and that edge's line as height 0:

    rail's left-hand end                      rail's right-hand end
     stile                                              stile
    0        60   reference edge of           0        60   reference edge of
    +--------+    the stile on the right      +--------+    the stile on the left
    |        |------- 40                40 ---|        |
    |  socket          rail            rail      socket  |
    |    ___-|------- 10                10 ---|-___    |
    |---     |------- 0                  0 ---|    ---|
    +--------+                                +--------+

Rails are held with s from the left and t down from their end, stiles with s from the left
and t up from the dashed line. Nothing is mirrored here: the figures of both ends are written
out.
"""

import re

import pytest

from tests.pdf.drawn_jobs import pages_from
from tests.pdf.page_reading import GUIDE, KNIFE, SAW, THIN, Place, Placement
from tests.pdf.wrap_reading import unmatched

JOB = """
title = "Handed"
[paper]
size = "A3"
[boards.bar]
width = 40
thickness = 20
[boards.post]
width = 60
thickness = 20
[[joints]]
kind = "dovetail-halving"
corners = [{ name = "Left", like = "A" }, { name = "Right", like = "B" }]
views = ["faces"]
rail = "bar"
stile = "post"
slope = "1:6"
"""
ONE_SIDE = JOB + 'sides = "reference edge"\n'
FROM_FAR_EDGE = ONE_SIDE + 'enters = "far edge"\n'
STOPPED = JOB + "lap_length = 48\n"
SHOWN_INSIDE = ONE_SIDE + 'shows = "inside"\n'

OUTSIDE, INSIDE, END = "outside face", "inside face", "end grain"
REFERENCE, FAR = "reference edge", "far edge"
Lines = list[tuple[Place, Place]]
Table = dict[tuple[str, str], tuple[Lines, Lines]]


def opening(low: float, high: float, left: float, right: float, floor: float) -> tuple[Lines, ...]:
    """A socket's walls and floor where it comes out at an edge of the stile."""
    walls = [((left, height), (right, height)) for height in (low, high)]
    return walls, [((floor, low), (floor, high))]


RAIL_LEFT: Table = {
    ("rail", OUTSIDE): ([((0, 0), (10, 60))], [((0, 60), (10, 60))]),
    ("rail", INSIDE): ([], [((0, 60), (40, 60))]),
    ("rail", END): ([((0, 10), (40, 10))], []),
    # Seen with the outside face on the right; the lap is sawn before the dovetail leaves this edge.
    ("rail", REFERENCE): ([((10, 0), (10, 60))], [((0, 60), (10, 60)), ((10, 60), (20, 60))]),
    # With the outside face on the left; the straight side of the dovetail.
    ("rail", FAR): ([((10, 0), (10, 60))], [((10, 60), (20, 60))]),
}
RAIL_RIGHT: Table = {
    ("rail", OUTSIDE): ([((40, 0), (30, 60))], [((40, 60), (30, 60))]),
    ("rail", INSIDE): ([], [((0, 60), (40, 60))]),
    ("rail", END): ([((0, 10), (40, 10))], []),
    ("rail", REFERENCE): ([((10, 0), (10, 60))], [((0, 60), (10, 60)), ((10, 60), (20, 60))]),
    ("rail", FAR): ([((10, 0), (10, 60))], [((0, 60), (10, 60))]),
}
TABLES: dict[str, tuple[str, str, Table]] = {
    "right across, left": (
        ONE_SIDE,
        "Left",
        {
            **RAIL_LEFT,
            ("stile", OUTSIDE): ([((0, 0), (60, 10)), ((0, 40), (60, 40))], []),
            # It is on the right and looks to the right: the outside face is on the left.
            ("stile", REFERENCE): opening(10, 40, 0, 10, floor=10),
            ("stile", FAR): opening(0, 40, 20, 10, floor=10),
        },
    ),
    "right across, right": (
        ONE_SIDE,
        "Right",
        {
            **RAIL_RIGHT,
            ("stile", OUTSIDE): ([((60, 0), (0, 10)), ((0, 40), (60, 40))], []),
            ("stile", REFERENCE): opening(10, 40, 20, 10, floor=10),
            ("stile", FAR): opening(0, 40, 0, 10, floor=10),
        },
    ),
    # The piece is turned over in its plane: the rail's far edge is down, and the left-hand
    # end of the rail comes in from the left, at the stile's far edge.
    "from the far edge, left": (
        FROM_FAR_EDGE,
        "Left",
        {
            **RAIL_LEFT,
            ("stile", OUTSIDE): ([((0, 0), (60, 0)), ((0, 30), (60, 40))], []),
            ("stile", FAR): opening(0, 30, 20, 10, floor=10),
            ("stile", REFERENCE): opening(0, 40, 0, 10, floor=10),
        },
    ),
    "from the far edge, right": (
        FROM_FAR_EDGE,
        "Right",
        {
            **RAIL_RIGHT,
            ("stile", OUTSIDE): ([((0, 0), (60, 0)), ((60, 30), (0, 40))], []),
            ("stile", FAR): opening(0, 30, 0, 10, floor=10),
            ("stile", REFERENCE): opening(0, 40, 20, 10, floor=10),
        },
    ),
    "stopped 12 short, left": (
        STOPPED,
        "Left",
        {
            ("rail", OUTSIDE): (
                [((0, 0), (8, 48)), ((40, 0), (32, 48))],
                [((0, 48), (8, 48)), ((32, 48), (40, 48))],
            ),
            ("rail", INSIDE): ([], [((0, 48), (40, 48))]),
            ("rail", END): ([((0, 10), (40, 10))], []),
            ("rail", REFERENCE): (
                [((10, 0), (10, 48))],
                [((0, 48), (10, 48)), ((10, 48), (20, 48))],
            ),
            ("rail", FAR): ([((10, 0), (10, 48))], [((0, 48), (10, 48)), ((10, 48), (20, 48))]),
            ("stile", OUTSIDE): ([((12, 0), (60, 8)), ((12, 40), (60, 32))], [((12, 0), (12, 40))]),
            ("stile", REFERENCE): opening(8, 32, 0, 10, floor=10),
        },
    ),
    "stopped 12 short, right": (
        STOPPED,
        "Right",
        {
            ("rail", OUTSIDE): (
                [((0, 0), (8, 48)), ((40, 0), (32, 48))],
                [((0, 48), (8, 48)), ((32, 48), (40, 48))],
            ),
            ("rail", INSIDE): ([], [((0, 48), (40, 48))]),
            ("rail", END): ([((0, 10), (40, 10))], []),
            ("rail", REFERENCE): (
                [((10, 0), (10, 48))],
                [((0, 48), (10, 48)), ((10, 48), (20, 48))],
            ),
            ("rail", FAR): ([((10, 0), (10, 48))], [((0, 48), (10, 48)), ((10, 48), (20, 48))]),
            ("stile", OUTSIDE): ([((48, 0), (0, 8)), ((48, 40), (0, 32))], [((48, 0), (48, 40))]),
            ("stile", REFERENCE): opening(8, 32, 20, 10, floor=10),
        },
    ),
    # Seen from inside the rail's left-hand end comes in from the left.
    "shown inside, left": (
        SHOWN_INSIDE,
        "Left",
        {
            ("rail", OUTSIDE): ([], [((0, 60), (40, 60))]),
            ("rail", INSIDE): ([((40, 0), (30, 60))], [((40, 60), (30, 60))]),
            ("rail", END): ([((0, 10), (40, 10))], []),
            ("rail", REFERENCE): (
                [((10, 0), (10, 60))],
                [((0, 60), (10, 60)), ((10, 60), (20, 60))],
            ),
            ("rail", FAR): ([((10, 0), (10, 60))], [((0, 60), (10, 60))]),
            ("stile", INSIDE): ([((60, 0), (0, 10)), ((0, 40), (60, 40))], []),
            ("stile", REFERENCE): opening(10, 40, 10, 20, floor=10),
            ("stile", FAR): opening(0, 40, 0, 10, floor=10),
        },
    ),
}


def faces_of(job: str, corner: str) -> dict[tuple[str, str], Placement]:
    """The patterns of one end, by role and face as their labels say."""
    found = {}
    for page in pages_from(job):
        for placement in page.placements[1:]:
            told = " ".join(words.text for words in placement.words)
            label = re.search(
                r"\b(rail|stile) · "
                r"(outside face|inside face|end grain|reference edge|far edge|tenon's "
                r"outside cheek)",
                told,
            )
            if label and f"{corner} · " in told:
                assert label.groups() not in found
                found[label.groups()] = placement
    return found


def as_seen(placement: Placement, role: str, pen: tuple[float, tuple[float, ...]]) -> Lines:
    """Lines with s from the left edge; t down from a rail's end, or up from the dashed line."""
    turn = next(w.turn for w in placement.words if re.search(r"\b(rail|stile) ·", w.text))

    def read(point: Place) -> Place:
        assert turn in (0, 90)
        return point if turn == 0 else (point[1], -point[0])

    ends = [
        read(end)
        for line in placement.drawn_with(THIN)
        if line.length > 2
        for end in (line.start, line.end)
    ]
    left, top = min(x for x, _ in ends), max(y for _, y in ends)
    if role == "rail":
        return [
            tuple((read(end)[0] - left, top - read(end)[1]) for end in (line.start, line.end))
            for line in placement.drawn_with(pen)
        ]
    (dashed,) = placement.drawn_with(GUIDE)
    zero = read(dashed.start)[1]
    return [
        tuple((read(end)[0] - left, read(end)[1] - zero) for end in (line.start, line.end))
        for line in placement.drawn_with(pen)
    ]


@pytest.mark.parametrize(("job", "corner", "table"), TABLES.values(), ids=TABLES)
def test_every_face_has_its_lines_where_they_were_worked_out(job, corner, table):
    found = faces_of(job, corner)
    assert found.keys() == table.keys()
    for (role, face), (saws, bases) in table.items():
        placement = found[role, face]
        assert unmatched(as_seen(placement, role, SAW), saws) == [], (role, face)
        assert unmatched(as_seen(placement, role, KNIFE), bases) == [], (role, face)


@pytest.mark.parametrize(
    ("job", "line", "up"),
    [
        (ONE_SIDE, "dashed line: rail's reference edge", "rail's far edge"),
        # The straight side of the socket stands on the line.
        (
            FROM_FAR_EDGE,
            "dashed line, solid where it is cut: rail's far edge",
            "rail's reference edge",
        ),
    ],
)
@pytest.mark.parametrize(("corner", "where"), [("Left", "left"), ("Right", "right")])
def test_the_stiles_pattern_says_what_its_dashed_line_is_and_what_lies_above(
    job, line, up, corner, where
):
    placement = faces_of(job, corner)["stile", OUTSIDE]
    told = " ".join(words.text for words in placement.words)
    assert line in told
    assert f"outside face · {where} of the rail" in told
    assert f"▲ {up}" in told
    assert f"meets BAR, {where}-hand end" in told
    # As drawn, the edge that the rail comes in from is on the right of a rail's left-hand end
    # if it is the reference edge; from the far edge the piece is turned, and so again.
    assert ("reference edge ►" in told) == (corner == "Left")


def test_the_comparison_sees_a_line_two_thousandths_off_and_one_mirrored():
    placement = faces_of(ONE_SIDE, "Left")["stile", OUTSIDE]
    lines = as_seen(placement, "stile", SAW)
    shifted = [((0.002, 0), (60.002, 10)), ((0, 40), (60, 40))]
    mirrored = [((60, 0), (0, 10)), ((0, 40), (60, 40))]
    assert len(unmatched(lines, shifted)) == 2
    assert len(unmatched(lines, mirrored)) == 2
