"""Boards of unequal width at a corner: the joint lies where both have wood, and stays what it is.

A drawer's back is worked by hand. For random joints the joint of two equal boards is the
measure: its wood, moved across, is all that tells the wider board's end from a plain one.
"""

import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.jobs.reader import read_job
from joinery_templates.joint import Joint, Task
from joinery_templates.joints.box_joints import box_joint
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.lengths import length_text
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import BoardEnd, Surface
from joinery_templates.wood.faces import laid_out
from tests.joints.solids import CLOSE_MM3, board_solid, mate
from tests.joints.spaced_corners import SPACED, spaced, starts
from tests.joints.strategies import lengths, widened
from tests.joints.test_box_joint import box_joints
from tests.joints.worked import face, lines, refused, request_of
from tests.pdf.drawn_jobs import sample_text
from tests.strategies import cases

TAKERS = [kind for kind in kinds().values() if "offset" in {p.name for p in kind.parameters}]
EDGES = "reference edge", "far edge"
SAME_MM3 = 1e-3
"""Wood of two boards of unequal size, cut alike, is built by the kernel to this volume."""


def asked(kind: str, widths: tuple[str, str], **raw: object) -> Request:
    """A side and a back of such widths, 12 mm thick."""
    one, other = ((width, "12 mm") for width in widths)
    return request_of(kinds()[kind], one, other, names=("side", "back"), **raw)


def built(kind: str, widths: tuple[str, str], **raw: object) -> Joint:
    return kinds()[kind].build(asked(kind, widths, **raw))


def step(joint: Joint, task: Task) -> str:
    return next(step.words for step in joint.steps if step.task is task)


# A drawer's back, by hand

BACK = {"slope": "1:6", "tails": 2, "half_pin": "8 mm", "pin": "7 mm"}
"""On 95 mm: tails of (95 - 16 - 7) / 2 = 36 mm from 8 and from 51; each side leans 2 in 12."""
GROOVE = {"from_edge": 10, "width": 6, "depth": 4}


def drawer_back(**raw: object) -> Joint:
    return built("through-dovetail", ("115 mm", "95 mm"), **BACK, offset="16 mm", **raw)


def by_hand(*ends: tuple[tuple[int, int], tuple[int, int]]) -> set[frozenset[tuple[int, int]]]:
    return {frozenset(line) for line in ends}


def test_a_back_that_sits_on_the_bottom_is_let_into_the_side_at_its_own_height():
    """Its edges come at 16 and 111 on the side, whose wood runs on below and above."""
    side = face(drawer_back(), 0, Face.OUTSIDE)
    assert lines(side, Surface.SIDE) == by_hand(
        ((16, 0), (16, 12)),
        ((24, 0), (26, 12)),
        ((60, 0), (58, 12)),
        ((67, 0), (69, 12)),
        ((103, 0), (101, 12)),
        ((111, 0), (111, 12)),
    )
    assert lines(side, Surface.SHOULDER) == by_hand(
        ((16, 12), (26, 12)), ((58, 12), (69, 12)), ((101, 12), (111, 12))
    )
    # The back is cut as for a side of its own width.
    alike = built("through-dovetail", ("95 mm", "95 mm"), **BACK)
    assert drawer_back().members[1] == alike.members[1]


def test_the_bottoms_groove_passes_below_the_back_and_runs_out_at_the_sides_end():
    joint = drawer_back(groove=GROOVE)
    assert joint.findings == ()
    assert lines(face(joint, 0, Face.INSIDE), Surface.GROOVE) == by_hand(
        ((10, 0), (10, 22)), ((16, 12), (16, 22))
    )
    assert lines(face(joint, 1, Face.INSIDE), Surface.GROOVE) == set()
    assert "of the tail board (SIDE) alone, from 10 mm to 16 mm" in step(joint, Task.PLOUGH)
    mated = mate(joint)
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3


def test_a_groove_through_both_boards_is_gauged_from_each_ones_own_edge():
    """40 mm up the side is 24 mm up the back, which stands in 16 mm."""
    joint = drawer_back(groove=GROOVE | {"from_edge": 40, "width": 10})
    for number, low in enumerate((40, 24)):
        ends = {
            x for line in lines(face(joint, number, Face.INSIDE), Surface.GROOVE) for x, _ in line
        }
        assert ends == {low, low + 10}
    words = step(joint, Task.PLOUGH)
    assert "from 40 mm to 50 mm from the reference edge of the tail board" in words
    assert "from 24 mm to 34 mm from the reference edge of the pin board" in words


def test_a_drawer_whose_back_sits_on_the_bottom_keeps_its_groove_at_both_ends_of_the_side():
    told = sample_text("kitchen_drawer")
    groove = "groove = { from_edge = 10, width = 6, depth = 4 }"
    head, _, tail = told.rpartition(groove)
    assert [one.joint.findings for one in read_job(told).joints] == [(), ()]
    front, _ = read_job(head + tail).joints
    assert [finding.code for finding in front.joint.findings] == ["groove-shows"]


# Any joint


@st.composite
def requests(draw: st.DrawFn, kind: Kind) -> Request:
    """Equal boards; a groove, which then counts from the wider one's edge, apart."""
    if kind is box_joint.KIND:
        request = draw(box_joints())
        told = kind.parameter_class(**vars(request.given))
    else:
        start = draw(st.sampled_from(starts(kind)))
        request = draw(spaced(SPACED[kind.name], "even", start))
        told = request.given.but(groove=None, rebate=None)
    return replace(request, given=told)


def differs(one: BoardEnd, other: BoardEnd, by: Fraction) -> float:
    """The volume that one end has and the other has not, this one moved across."""
    a, b = board_solid(one), board_solid(other).translate((float(by), 0, 0))
    return a.volume() + b.volume() - 2 * (a ^ b).volume()


@pytest.mark.parametrize("kind", TAKERS, ids=[kind.name for kind in TAKERS])
@cases(6)
@given(data=st.data())
def test_the_joint_lies_where_both_boards_have_wood_and_is_told_there(kind, data):
    request = data.draw(requests(kind))
    inset = st.just(Fraction(0)) | lengths(1, 30)
    near, far = data.draw(inset), data.draw(inset)
    number = data.draw(st.sampled_from((0, 1)))
    mitred = getattr(request.given, "mitred_edge", "")
    near, far = near * (mitred not in ("reference", "both")), far * (mitred not in ("far", "both"))
    assume(near or far)
    try:
        plain = kind.build(request)
    except InputError:
        return
    wide = widened(request, number, (near, far), data.draw(st.booleans()))
    joint = kind.build(wide)
    # The wood.
    narrow_end, wide_end = joint.members[1 - number].part, joint.members[number].part
    assert narrow_end == plain.members[1 - number].part
    uncut = board_solid(replace(wide_end, cuts=())).volume()
    more = uncut * float((near + far) / wide_end.board.width)
    taken = differs(wide_end, plain.members[number].part, near)
    assert taken == pytest.approx(more, abs=SAME_MM3)
    mated = mate(joint)
    assert joint.allowance < 0 or mated.overlap < CLOSE_MM3
    assert joint.allowance > 0 or abs(mated.missing) < CLOSE_MM3
    # What is told, from where the second board stands on the first.
    first, second = (member.part.board for member in joint.members)
    low = joint.placement.point((Fraction(0),) * 3)[0]
    stands_in = [abs(low), abs(first.width - second.width - low)]
    names = [member.role for member in joint.members]
    narrow, wider = names[1 - number], names[number]
    told = {setting.use: setting.length for setting in joint.lengths if "edge, from" in setting.use}
    assert told == {
        f"{narrow}'s {edge}, from the {wider}'s {edge}": length
        for edge, length in zip(EDGES, stands_in, strict=True)
        if length
    }
    runs_on = [
        f"{length_text(length, wide.units)} at the {edge}"
        for edge, length in zip(EDGES, stands_in, strict=True)
        if length
    ]
    words = " ".join(one.words for one in joint.steps)
    assert f"{wider} then runs on past the {narrow}, {' and '.join(runs_on)}." in words
    come = [one.replace(" at the ", " from its ") for one in runs_on]
    gauged = re.findall(r"from the end to the tick alone, where (.*?): go no further", words)
    edges = "edges come" if len(come) > 1 else "edge comes"
    assert {*gauged} <= {f"the {narrow}'s {edges}, {' and '.join(come)}"}
    assert gauged
    stopping = [one.words for one in joint.steps if "go no further" in one.words]
    # No line may be drawn yet: what the gauge stops at is ticked.
    ticked = rf"First tick in pencil where the baseline of the {wider}(?: \(\w+\))? will come, "
    assert all(re.match(ticked, one) for one in stopping)
    is_lapped = not laid_out(wide_end, Face.OUTSIDE).waste
    assert all(("across the end grain" in one.split(":")[0]) == is_lapped for one in stopping)
    assert ("Bring the reference edges level" in words) == (not stands_in[0])
    assert ("Bring the far edges level" in words) == (not stands_in[1])
    comes_at = near, wide_end.board.width - far
    x_of = {f"{narrow}'s {edge}": x for edge, x in zip(EDGES, comes_at, strict=True)}
    for row in joint.rows:
        marks = {mark.what: mark.position for mark in row.marks if mark.what.endswith("edge")}
        assert marks.items() <= x_of.items()
        assert not marks or row.role == wider


def told(joint: Joint) -> list[str]:
    return [finding.code for finding in joint.findings]


def test_what_runs_on_makes_an_edge_piece_strong_and_a_strip_beside_a_space_weak():
    """Half pins of 3 mm beside pins of 6 mm; it is the pin board's wood that they are of."""
    weak = {"tails": 3, "pin": "6 mm", "half_pin": "3 mm"}
    assert told(built("through-dovetail", ("95 mm", "95 mm"), **weak)) == ["half-pin-narrow"]
    assert told(built("through-dovetail", ("95 mm", "103 mm"), **weak, offset="4 mm")) == []
    below = {"tails": 3, "pin": "6 mm", "half_pin": "7 mm", "meet": "far"}
    assert told(built("through-dovetail", ("97.9 mm", "95 mm"), **below)) == ["strip-narrow"]
    assert told(built("through-dovetail", ("98 mm", "95 mm"), **below)) == []
    # Fingers of the first board stand at both edges, and are narrow on it alone.
    fingers = {"fingers": 9, "finger": "12 mm", "meet": "reference"}
    assert told(built("box-joint", ("94 mm", "94 mm"), **fingers)) == ["edge-finger-narrow"]
    assert told(built("box-joint", ("104 mm", "94 mm"), **fingers, offset="5 mm")) == []
    assert told(built("box-joint", ("94 mm", "104 mm"), **fingers, offset="5 mm")) == [
        "edge-finger-narrow"
    ]


# What is refused


@pytest.mark.parametrize(
    ("kind", "widths", "raw", "code", "remedy"),
    [
        ("lapped-dovetail", ("115 mm", "95 mm"), {}, "widths-differ", '`meet = "reference"`'),
        ("box-joint", ("95 mm", "115 mm"), {"offset": 21}, "offset-too-far", "at most 20 mm"),
        ("box-joint", ("95 mm", "95 mm"), {"offset": 1}, "offset-too-far", "Leave it out"),
        (
            "through-dovetail",
            ("115 mm", "95 mm"),
            {"offset": 13, "groove": GROOVE},
            "groove-split",
            "stand in 16 mm",
        ),
        (
            "mitred-shoulder-dovetail",
            ("115 mm", "95 mm"),
            {"meet": "far", "mitre": 5},
            "mitre-past-the-edge",
            "the other edge",
        ),
        ("full-blind-dovetail", ("115 mm", "95 mm"), {}, "widths-differ", "plane them together."),
    ],
)
def test_what_cannot_be_meant_is_refused_once_with_a_remedy(kind, widths, raw, code, remedy):
    (finding,) = refused(asked(kind, widths, **raw), kinds()[kind].build)
    assert finding.code == code
    assert remedy in finding.remedy


@pytest.mark.parametrize(
    ("raw", "said", "wide"),
    [
        # A top of 106 ends 9 before the far edge of a side of 115, and a rebate of 10 begins at
        # 105: there it may end. A groove from 102 to 108 begins at 102.
        ({"rebate": {"width": 10, "edge": "far"}}, "rebate, 10 mm wide, 9 mm lie past", "105 mm"),
        ({"groove": GROOVE | {"from_edge": 102}}, "groove, 6 mm wide, 2 mm lie past", "102 mm"),
    ],
)
def test_what_an_edge_would_split_is_told_with_its_amount_and_a_width_that_works(raw, said, wide):
    told = {"meet": "reference", **raw}
    (finding,) = refused(
        asked("through-dovetail", ("115 mm", "106 mm"), **told), kinds()["through-dovetail"].build
    )
    assert f"Of the {said} the far edge of" in finding.message
    assert f" {wide} wide, level at the reference edge, so that it ends at" in finding.remedy
    assert built("through-dovetail", ("115 mm", wide), **told)


def test_at_the_reference_edge_as_much_is_told_of_what_lies_past_it():
    """From 10 to 16, beside a board that stands in 13.5."""
    (finding,) = refused(
        asked("through-dovetail", ("115 mm", "95 mm"), offset="13.5 mm", groove=GROOVE),
        kinds()["through-dovetail"].build,
    )
    assert "Of the groove, 6 mm wide, 3.5 mm lie past the reference edge of" in finding.message
