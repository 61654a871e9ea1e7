"""The box joint: worked cases, what is proposed, refused and advised, and solids that mate."""

import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, Task
from joinery_templates.joints.box_joints import canted_box_joint
from joinery_templates.joints.box_joints.box_joint import KIND
from joinery_templates.joints.box_joints.fingers import FINGER, SPACE, Parameters, lay_fingers
from joinery_templates.joints.kind import Request
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.faces import is_waste, lay_out
from tests.joints import worked
from tests.joints.solids import CLOSE_MM3, SHY_MM, mate, with_fault
from tests.joints.strategies import GAPS, NO_FIT, PRESSED, PROUD, example_request, lengths
from tests.strategies import PROPERTY, SOLID_PROPERTY


def request(
    width: str, thicknesses: tuple[str, str] = ("12 mm", "12 mm"), **raw: object
) -> Request:
    return worked.request(KIND, width, thicknesses, **raw)


def marks(joint: Joint, number: int) -> list[Fraction]:
    return [mark.position for mark in joint.rows[number].marks]


def widths(given_: Request) -> list[Fraction]:
    pieces, _ = lay_fingers(given_.given, given_.boards, given_.units)
    return [piece.width for piece in pieces]


# Worked by hand


def test_the_tray_in_inches_by_hand():
    """2 5/8 in in 7 fingers: 3/8 in each; baselines 3/8 + 1/64 = 25/64 in."""
    joint = KIND.build(
        request(
            "2 5/8 in",
            ("3/8 in", "3/8 in"),
            units=Units.INCH,
            fingers=7,
            first_proud="1/64 in",
            second_proud="1/64 in",
            fit="0.002 in",
        )
    )
    eighths = [Fraction(3 * number, 8) * INCH for number in range(1, 7)]
    assert marks(joint, 0) == eighths
    gap = INCH * 2 / 1000
    # The second board has fingers 2, 4 and 6 of the seven, each less the gap on both sides.
    assert marks(joint, 1) == [
        eighths[0] + gap,
        eighths[1] - gap,
        eighths[2] + gap,
        eighths[3] - gap,
        eighths[4] + gap,
        eighths[5] - gap,
    ]
    assert [member.part.reach for member in joint.members] == [INCH * 25 / 64] * 2
    assert [setting.length for setting in joint.lengths] == [
        INCH * 25 / 64,
        INCH * 25 / 64,
        INCH * 3 / 8,
    ]


def test_lines_and_waste_of_an_even_number_by_hand():
    """60 mm in 4, boards of 10 and 8: the far edge is a space of the first board."""
    joint = KIND.build(request("60 mm", ("10 mm", "8 mm"), fingers=4, first_proud="0.5 mm"))
    first, second = (member.part for member in joint.members)
    assert (first.reach, second.reach) == (Fraction("8.5"), 10)
    lines = {
        (line.start, line.end) if line.start < line.end else (line.end, line.start)
        for line in lay_out(first, Face.OUTSIDE, Fraction(20)).lines
    }
    base = Fraction("8.5")
    assert lines == {
        ((15, 0), (15, base)),
        ((15, base), (30, base)),
        ((30, 0), (30, base)),
        ((45, 0), (45, base)),
        ((45, base), (60, base)),
    }
    assert [
        (
            x,
            is_waste(first, Fraction(x), Fraction(4), Fraction(5)),
            is_waste(second, Fraction(x), Fraction(4), Fraction(4)),
        )
        for x in (7, 22, 37, 52)
    ] == [(7, False, True), (22, True, False), (37, False, True), (52, True, False)]


@pytest.mark.parametrize(
    ("proud", "words"),
    [
        ({"first_proud": "0.5 mm"}, "0.5 mm proud: plane them flush"),
        (
            {"first_proud": "0.5 mm", "second_proud": "0.3 mm"},
            "0.5 mm proud and the second board's fingers stand 0.3 mm",
        ),
    ],
)
def test_all_that_stands_proud_is_planed_flush(proud, words):
    joint = KIND.build(request("60 mm", ("10 mm", "8 mm"), fingers=4, **proud))
    assert words in joint.steps[-1].words


def test_a_square_corner_is_pressed_both_ways_and_a_leaning_one_over_blocks():
    square = KIND.build(request("60 mm", ("10 mm", "8 mm"), fingers=4)).steps[-1].words
    assert "clamp both ways, over straight battens as cauls, and check" in square
    tray = canted_box_joint.KIND.build(example_request(canted_box_joint.KIND))
    (glue,) = (step.words for step in tray.steps if step.task is Task.GLUE)
    assert "clamp over blocks bevelled as the boards lean, 12° off square" in glue


def test_a_space_at_an_edge_is_sawn_off_beside_a_line_knifed_there():
    """Of seven pieces the second board's are the spaces at both edges; of four, one of each."""
    for fingers, edges in ((7, ("", "both edges")), (4, ("the far edge", "the reference edge"))):
        joint = KIND.build(request("84 mm", ("12 mm", "12 mm"), fingers=fingers))
        cuts = [one.words for one in joint.steps if one.task in (Task.SAW_FIRST, Task.CUT_SECOND)]
        for words, edge in zip(cuts, edges, strict=True):
            first = r"beside .*? \(knife it there first\)"
            said = re.findall(rf"saw off the spaces? at (.*?) {first}", words)
            assert said == [edge] * bool(edge)


def test_three_pieces_are_the_slip_joint_that_corner_locking_multiplies():
    """Noyes 1910, no. 46: tongue and slot, thirds of the width alike."""
    joint = KIND.build(request("36 mm", fingers=3))
    assert len(joint.members[0].part.cuts) == 1
    assert len(joint.members[1].part.cuts) == 2
    assert marks(joint, 0) == marks(joint, 1) == [12, 24]


@pytest.mark.parametrize(
    ("raw", "expected"),
    [
        ({"fingers": 5}, ["20"] * 5),
        ({"fingers": 6}, ["50/3"] * 6),
        ({"finger": "20 mm"}, ["20"] * 5),
        ({"finger": "12.5 mm"}, ["12.5"] * 8),
        # 100 / 12 = 8.33: eight, and what six of them leave is 28.
        ({"finger": "12 mm"}, ["14", *["12"] * 6, "14"]),
        ({"finger": "12 mm", "fingers": 9}, ["8", *["12"] * 7, "8"]),
        ({"finger": "50 mm"}, ["50", "50"]),
        # 100 / 45 = 2.2, but two fingers would not be 45: three.
        ({"finger": "45 mm"}, ["27.5", "45", "27.5"]),
        # Boards of 12 mm: 100 / 12 = 8.33, and 9 is the odd number next to it; 100 / 9 = 11.1
        # is nearest to 11 in half millimetres, and the edges share the rest.
        ({}, ["11.5", *["11"] * 7, "11.5"]),
    ],
)
def test_each_way_of_fixing_the_fingers(raw, expected):
    assert widths(request("100 mm", **raw)) == [Fraction(width) for width in expected]


@pytest.mark.parametrize(
    ("width", "thicknesses", "count"),
    [
        ("84 mm", ("12 mm", "12 mm"), 7),
        ("84 mm", ("20 mm", "12 mm"), 7),  # the thinner board decides
        ("95 mm", ("12 mm", "12 mm"), 7),  # 7.9: nearer to 7 than to 9
        ("97 mm", ("12 mm", "12 mm"), 9),  # 8.1
        ("20 mm", ("18 mm", "18 mm"), 3),  # never fewer
    ],
)
def test_the_number_by_rule_is_odd_and_makes_fingers_as_wide_as_the_wood_is_thick(
    width, thicknesses, count
):
    """Common practice, no source."""
    assert len(widths(request(width, thicknesses))) == count


def test_what_a_rule_decided_is_told():
    told = [rule.partition(":")[0] for rule in KIND.build(request("100 mm", finger="12 mm")).rules]
    assert told == ["Number of fingers", "Edges"]
    assert KIND.build(request("100 mm", fingers=5)).rules == ()
    (rule,) = KIND.build(request("100 mm", finger="20 mm")).rules
    assert rule.startswith("Number of fingers: as many")


def test_starting_with_a_space_exchanges_fingers_and_spaces():
    one = KIND.build(request("60 mm", fingers=5))
    other = KIND.build(request("60 mm", fingers=5, start=SPACE))
    assert one.members[0].part.cuts == other.members[1].part.cuts
    assert one.members[1].part.cuts == other.members[0].part.cuts


# Refused and advised

REFUSED = {
    "nothing at the edges": ({"finger": "20 mm", "fingers": 7}, ("no-room", "finger")),
    "just nothing at the edges": ({"finger": "12.5 mm", "fingers": 10}, ("no-room", "finger")),
    "two that are not halves": ({"finger": "40 mm", "fingers": 2}, ("does-not-add-up", "finger")),
    "wider than the board": ({"finger": "101 mm"}, ("no-room", "finger")),
    "too many": ({"finger": "0.49 mm"}, ("too-many-fingers", "finger")),
    "fit eats a finger": ({"fingers": 50, "fit": "1 mm"}, ("no-room", "fit")),
    "fit closes a space": ({"fingers": 50, "fit": "-1 mm"}, ("no-room", "fit")),
}


@pytest.mark.parametrize(("raw", "expected"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused_with_its_code_and_place(raw, expected):
    with pytest.raises(InputError) as caught:
        KIND.build(request("100 mm", **raw))
    (finding,) = caught.value.findings
    assert (finding.code, finding.place) == expected
    assert finding.remedy


def test_boards_of_two_widths_or_too_short_are_refused_all_at_once():
    wide = Board("side", Fraction(60), Fraction(12), Fraction(10))
    narrow = Board("end", Fraction(58), Fraction(12), Fraction(12))
    with pytest.raises(InputError) as caught:
        KIND.build(Request((wide, narrow), Parameters(fingers=5), Units.MM, Tools()))
    assert [finding.code for finding in caught.value.findings] == [
        "widths-differ",
        "board-too-short",
        "board-too-short",
    ]


ADVISED = {
    "none": ({"fingers": 9}, []),
    "twice as wide as thick": ({"fingers": 4, "width": "96 mm"}, []),
    "wider": ({"fingers": 4, "width": "97 mm"}, ["finger-wide"]),
    "half as wide as thick": ({"fingers": 16, "width": "96 mm"}, []),
    "narrower": ({"fingers": 17, "width": "96 mm"}, ["finger-narrow"]),
    "narrow edges": ({"fingers": 9, "finger": "13 mm"}, ["edge-finger-narrow"]),
    "edges of half a finger": ({"finger": "12.5 mm", "fingers": 9}, []),
    "loose": ({"fingers": 9, "fit": "0.21 mm"}, ["fit-loose"]),
    "easy": ({"fingers": 9, "fit": "0.2 mm"}, []),
}


@pytest.mark.parametrize(("raw", "codes"), ADVISED.values(), ids=ADVISED)
def test_advice_is_given_where_it_is_due_and_only_there(raw, codes):
    raw = {"width": "100 mm", **raw}
    findings = KIND.build(request(**raw)).findings
    assert [finding.code for finding in findings] == codes
    assert all(finding.source and finding.remedy for finding in findings)


# Properties


@st.composite
def box_joints(draw: st.DrawFn, fits: st.SearchStrategy[Fraction] = NO_FIT) -> Request:
    """Box joints that can be cut, whose edges may differ from the other fingers."""
    finger, count = draw(lengths(3, 20)), draw(st.integers(2, 12))
    edge = draw(lengths(3, 20)) if count > 2 else finger
    width = (count - 2) * finger + 2 * edge
    boards = (Board("side", width, draw(lengths(3, 25))), Board("end", width, draw(lengths(3, 25))))
    given_ = Parameters(
        start=draw(st.sampled_from([FINGER, SPACE])),
        fingers=count,
        finger=finger,
        first_proud=draw(PROUD),
        second_proud=draw(PROUD),
        fit=draw(fits),
    )
    return Request(boards, given_, draw(st.sampled_from(list(Units))), Tools())


def sides(joint: Joint) -> int:
    return len(joint.main_row.marks)


def side_area(joint: Joint, shy: Fraction = Fraction(0)) -> float:
    one, other = (member.part.board.thickness - 2 * shy for member in joint.members)
    return float(one * other)


@PROPERTY
@given(box_joints())
def test_widths_add_up_and_both_boards_share_every_mark(request_):
    pieces, _ = lay_fingers(request_.given, request_.boards, request_.units)
    assert sum(piece.width for piece in pieces) == request_.boards[0].width
    assert all(one.high == other.low for one, other in pairwise(pieces))
    assert all(one.finger is not other.finger for one, other in pairwise(pieces))
    joint = KIND.build(request_)
    assert marks(joint, 0) == marks(joint, 1) == [piece.low for piece in pieces[1:]]


@PROPERTY
@given(
    st.builds(
        Parameters, fingers=st.none() | st.integers(2, 200), finger=st.none() | lengths(1, 60)
    ),
    lengths(10, 600),
    lengths(3, 40),
)
def test_whatever_is_given_is_kept_and_adds_up_or_is_refused_kindly(given_, width, thickness):
    boards = (Board("side", width, thickness), Board("end", width, thickness))
    try:
        pieces, _ = lay_fingers(given_, boards, Units.MM)
    except InputError as error:
        assert all(f.message and f.remedy and f.place for f in error.findings)  # noqa: PT017
        return
    found = [piece.width for piece in pieces]
    assert sum(found) == width
    assert min(found) > 0
    assert found == found[::-1]
    if given_.fingers is not None:
        assert len(found) == given_.fingers
    if given_.finger is not None:
        assert set(found[1:-1]) <= {given_.finger}
        assert len(found) > 2 or set(found) == {given_.finger}


@SOLID_PROPERTY
@given(box_joints())
def test_the_boards_fill_the_corner_and_do_not_overlap(request_):
    mated = mate(KIND.build(request_))
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3


@SOLID_PROPERTY
@given(box_joints(fits=GAPS))
def test_a_clearance_is_missing_at_every_side_and_nowhere_else(request_):
    joint = KIND.build(request_)
    mated = mate(joint)
    assert mated.overlap < CLOSE_MM3
    assert mated.missing == pytest.approx(
        sides(joint) * float(joint.allowance) * side_area(joint, SHY_MM), rel=1e-6
    )


@SOLID_PROPERTY
@given(box_joints(fits=PRESSED))
def test_a_negative_fit_overlaps_at_every_side_and_nowhere_else(request_):
    joint = KIND.build(request_)
    mated = mate(joint)
    assert abs(mated.missing) < CLOSE_MM3
    assert mated.clash == pytest.approx(
        sides(joint) * -float(joint.allowance) * side_area(joint), rel=1e-6
    )


@pytest.mark.parametrize("member", [0, 1])
@pytest.mark.parametrize("distance", ["0.2", "-0.2", "0.001"])
def test_the_check_of_solids_sees_a_space_out_of_place(member, distance):
    joint = KIND.build(request("60 mm", ("10 mm", "8 mm"), fingers=5))
    faulty = mate(with_fault(joint, member, Fraction(distance), 1))
    volume = abs(float(Fraction(distance))) * 10 * 8
    # A space of the first board is closed on both sides; the second's middle one too.
    assert faulty.clash == pytest.approx(volume, rel=1e-3)
    assert faulty.missing == pytest.approx(volume, rel=1e-3)


def test_fingers_slide_apart_along_either_board_for_only_glue_holds_them():
    mated = mate(KIND.build(request("60 mm", fingers=5)))
    for pull in ((0, 0.1, 0), (0, 0, -0.1)):
        assert (mated.first.translate(pull) ^ mated.second).volume() < CLOSE_MM3
    assert (mated.first.translate((0.1, 0, 0)) ^ mated.second).volume() > 1
