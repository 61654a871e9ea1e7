"""Corners as handbooks give them, beyond the plain through dovetail: each with its source.

Where a source gives a method or a proportion and no sizes, the sizes are chosen and the
test says so. What the handbooks say of slopes, of advice and of the shoulder line is
held in `test_dovetail_worked_cases.py`, `test_dovetail_advice.py` and the styles' tests.
"""

from math import hypot

import pytest

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.catalogue import kinds
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import lay_out
from tests.joints.solids import CLOSE_MM3, board_solid, placed
from tests.joints.worked import request


def corner(
    kind: str, width: str, thicknesses: tuple[str, str], units: Units = Units.MM, **raw: object
) -> Joint:
    """A joint of two boards from values as a person writes them."""
    found = kinds()[kind]
    return found.build(request(found, width, thicknesses, units, names=("side", "front"), **raw))


def size(joint: Joint, name: str) -> Fraction:
    (found,) = (size.length for size in joint.sizes if size.name == name)
    return found


def main_marks(joint: Joint) -> list[Fraction]:
    return [mark.position for mark in joint.main_row.marks]


def codes(joint: Joint) -> list[str]:
    return [finding.code for finding in joint.findings]


FOSTER = ("3 in", ("1/2 in", "1/2 in"), Units.INCH)


def test_foster_s_box_with_three_dovetails_at_a_corner():
    """Foster, Carpentry and Woodwork, Figs. 180-181: sides 3 in high, 1/2 in walnut, three tails.

    In equal spaces they are 1 in apart. By Noyes's rule for the shoulder line (no. 48), with
    sockets of 3/8 in and 1:8, which are ours: divisions at 1 and 2, half a socket aside.
    """
    spacing = {"style": "shoulder", "socket": "3/8 in"}
    joint = corner("through-dovetail", *FOSTER, tails=3, slope="1:8", spacing=spacing)
    (divider,) = (s.length for s in joint.lengths if s.tool == "dividers")
    assert divider == INCH
    (shoulder,) = (
        [mark.position / INCH for mark in row.marks]
        for row in joint.rows
        if row.role == "tail board" and row.title == "along the baseline"
    )
    wanted = "0.1875 0.8125 1.1875 1.8125 2.1875 2.8125"
    assert shoulder == [Fraction(place) for place in wanted.split()]
    assert size(joint, "tail at the end (wide)") == Fraction(3, 4) * INCH
    assert size(joint, "space for a pin at the tail board's end") == INCH / 4


def test_the_number_proposed_from_foster_s_boards_alone_is_his():
    """Twelve dovetails at four corners; the rules here were not made from his box."""
    assert len(main_marks(corner("through-dovetail", *FOSTER))) == 2 * 12 / 4


def test_pins_a_quarter_as_wide_as_the_tails_draw_no_advice():
    """Amateur Work, vol. 5, Dovetail Joints; at half depth, which is our reading.

    Boards of 15 mm at 1:6: tails of 27.5 at their end are 25 wide at half depth, and pins
    of 3.75 are 6.25. Then 132.5 less 4 tails and 3 pins leaves half pins of 5.625.
    """
    joint = corner(
        "through-dovetail",
        "132.5 mm",
        ("15 mm", "15 mm"),
        tails=4,
        pin="3.75 mm",
        tail="27.5 mm",
        slope="1:6",
    )
    at_half_depth = size(joint, "tail at the end (wide)") - Fraction(15, 6)
    assert at_half_depth == 4 * (Fraction("3.75") + Fraction(15, 6))
    assert size(joint, "space for a half pin at each edge, at the tail board's end") == Fraction(
        "5.625"
    )
    assert codes(joint) == []


def test_a_carcase_is_lapped_with_tails_two_and_a_half_times_the_pins():
    """Joyce 1970, lapped dovetails; on average, so at half depth.

    Boards of 19 mm, a lap of 5, 1:7: sides lean 2 in all and 1 to the middle. Pins of 6 are
    8 wide there and tails 20, so 22 at their end; a half pin by rule is 6 + 2. Then four
    tails come to 8 + 4 * 22 + 3 * 6 + 8 = 122 (sizes ours); on wider boards they are wider.
    """
    joint = corner(
        "lapped-dovetail",
        "122 mm",
        ("19 mm", "19 mm"),
        use="carcase",
        slope="1:7",
        lap="5 mm",
        pin="6 mm",
    )
    assert main_marks(joint) == [x for n in range(4) for x in (8 + 28 * n, 30 + 28 * n)]


def test_a_front_has_half_pins_at_both_edges_and_the_others_equally_spaced():
    """From memory: front 3/4 in, lap 3/16 in, slope 1 in 6.

    The side is 5 in wide and its three tails are 1 in apart from 1/2 in on (sizes ours).
    """
    joint = drawer_front()
    assert [mark / INCH for mark in main_marks(joint)] == [
        Fraction(place) for place in ["0.5", "1.5", "2", "3", "3.5", "4.5"]
    ]
    # 9/16 in at 1 in 6 is 3/32 in: a pin of 1/2 in grows by twice as much.
    assert size(joint, "pin on the pin board's inside face (wide)") == Fraction(11, 16) * INCH


def drawer_front(**more: object) -> Joint:
    return corner(
        "lapped-dovetail",
        "5 in",
        ("1/2 in", "3/4 in"),
        Units.INCH,
        tails=3,
        half_pin="1/2 in",
        pin="1/2 in",
        lap="3/16 in",
        slope="1:6",
        **more,
    )


@pytest.mark.parametrize(
    ("from_edge", "found"),
    [
        ("19/32 in", []),
        ("37/64 in", ["groove-not-in-a-tail"]),
        ("37/32 in", []),
        ("75/64 in", ["groove-not-in-a-tail"]),
    ],
)
def test_a_drawer_bottom_s_groove_lies_in_the_lowest_tail_at_its_narrowest(from_edge, found):
    """Noyes 1910, p. 166: wholly inside it; p. 191: ordinarily 1/4 in wide.

    The lowest tail reaches from 16/32 to 48/32 in at its end, and from 19/32 to 45/32 at the
    baseline: a groove of 8/32 may begin from 19/32 to 37/32.
    """
    joint = drawer_front(groove={"from_edge": from_edge, "width": "1/4 in"})
    assert codes(joint) == found


@pytest.mark.parametrize(
    ("thickness", "units", "lap"),
    [("19 mm", Units.MM, Fraction(5)), ("3/4 in", Units.INCH, Fraction(3, 16) * INCH)],
)
def test_both_laps_of_a_double_lapped_corner_are_the_usual_ones(thickness, units, lap):
    """Joyce 1970: 3/16 in (5 mm) in 3/4 in (19 mm).

    That the tail board's lap follows the same rule is our judgement.
    """
    joint = corner("double-lapped-dovetail", "160 mm", (thickness, thickness), units, tails=4)
    assert size(joint, "lap, on the pin board's outside") == lap
    assert size(joint, "lap, on the tail board's outside") == lap


@pytest.mark.parametrize("kind", ["mitred-shoulder-dovetail", "full-blind-dovetail"])
@pytest.mark.parametrize("member", [0, 1], ids=["tail board", "pin board"])
def test_a_mitred_edge_halves_the_corner_and_is_as_long_as_a_square_s_diagonal(kind, member):
    """Noyes 1910, p. 167: the plane bisects the angle; p. 107: 54 by 54, 76.37.

    So boards 54 thick show a line of 76.37 on the edge, from the corner outside to the one
    inside.
    """
    joint = corner(kind, "300 mm", ("54 mm", "54 mm"), tails=2, mitre="20 mm")
    end = joint.members[member].part
    # Where the wood leaves in stages, the mitre's line is drawn in pieces.
    lines = lay_out(end, Face.REFERENCE_EDGE, end.reach + 10).lines
    mitre = [
        line for line in lines if line.start[0] == line.start[1] and line.end[0] == line.end[1]
    ]
    ends = sorted(point for line in mitre for point in (line.start, line.end))
    assert [*ends[1:-1:2]] == [*ends[2:-1:2]], "without a gap"
    (z0, y0), (z1, y1) = ends[0], ends[-1]
    assert (z0, y0) == (0, 0)
    assert z1 - z0 == y1 - y0
    assert round(hypot(float(z1), float(y1)), 2) == 76.37


def test_corner_locking_is_the_slip_joint_multiplied():
    """Noyes 1910, p. 164, no. 46; a plain tenon in thirds, p. 160.

    Three slip joints side by side, each of thirds of 36 mm, are nine fingers and spaces of
    12 on 108 mm (sizes ours), and each board has wood where the other has none.
    """
    joint = corner("box-joint", "108 mm", ("12 mm", "12 mm"), fingers=9)
    assert main_marks(joint) == [12 * n for n in range(1, 9)]
    one, other = (
        lay_out(member.part, Face.OUTSIDE, Fraction(20)).waste for member in joint.members
    )
    spans = sorted(
        (min(x for x, _ in shape.corners), max(x for x, _ in shape.corners))
        for shape in (*one, *other)
    )
    assert (len(one), len(other)) == (4, 5)
    assert spans == [(12 * n, 12 * n + 12) for n in range(9)]


@pytest.mark.parametrize("sides", ["upper", "lower"])
def test_a_dovetail_housing_sloped_on_one_side_is_enough(sides):
    """Noyes 1910, p. 206, no. 28: one side is usually sufficient.

    So it is built without advice against it, and drawn towards the shelf by 1 mm the tail
    is held by its one slope of 1:6 over the 5 mm of depth that are left and 100 of width:
    100 * 5 / 6 mm³ (sizes ours).
    """
    raw = {"sides": sides, "depth": "6 mm", "shoulder": "2 mm", "slope": "1:6"}
    joint = corner("sliding-dovetail", "100 mm", ("18 mm", "20 mm"), **raw)
    assert joint.findings == ()
    shelf, side = joint.members
    first = board_solid(shelf.part)
    second = placed(board_solid(side.part), joint.placement)
    drawn = first.translate((0, 1, 0))  # y runs from the shelf's end into the shelf
    assert (first ^ second).volume() < CLOSE_MM3
    assert (drawn ^ second).volume() == pytest.approx(100 * 5 / 6, rel=1e-6)


def test_a_plain_housing_takes_a_third_of_the_side_at_most():
    """From memory (periodicals): not deeper than about a third; 21 mm give 7 unless told."""
    joint = corner("sliding-dovetail", "100 mm", ("18 mm", "21 mm"))
    assert joint.members[0].part.reach == 7
