"""The housing: worked cases, solids, pages, what is refused and advised."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.housings.housing import KIND
from joinery_templates.joints.housings.trench import BackRebate, Parameters
from joinery_templates.joints.kind import Request
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.faces import lay_out
from tests.joints.solids import CLOSE_MM3, SHY_MM, mate
from tests.joints.strategies import lengths
from tests.joints.varied import CHANGES, changed
from tests.joints.worked import codes_of, refused, request_of, with_lengths
from tests.pdf.drawn_jobs import pages_from
from tests.strategies import SOLID_PROPERTY


def request(
    shelf: tuple[str, str] = ("200 mm", "18 mm"),
    side: tuple[str, str] = ("200 mm", "20 mm"),
    **raw: object,
) -> Request:
    return request_of(KIND, shelf, side, names=("board", "post"), **raw)


def lines(joint: Joint, face: Face) -> set[frozenset[tuple[Fraction, Fraction]]]:
    end = joint.members[1].part
    return {frozenset((line.start, line.end)) for line in lay_out(end, face, end.reach + 20).lines}


def as_set(*segments: tuple[tuple[float, float], tuple[float, float]]) -> set[frozenset[object]]:
    return {frozenset(segment) for segment in segments}


def test_the_housing_is_as_wide_as_the_shelf_and_a_third_of_the_side_deep():
    """Width: Noyes 1910, pp. 157-158. A third of 20 is 6.67, down to 6.5."""
    joint = KIND.build(request())
    assert [setting.length for setting in joint.lengths] == [Fraction("6.5"), 18]
    assert [size.length for size in joint.sizes] == [Fraction("6.5"), Fraction("13.5")]
    assert len(joint.rules) == 1
    assert joint.findings == ()
    inches = KIND.build(request(("8 in", "3/4 in"), ("8 in", "1 in"), units=Units.INCH))
    assert [setting.length / INCH for setting in inches.lengths] == [
        Fraction(5, 16),
        Fraction(3, 4),
    ]


def test_every_face_of_the_side_by_hand():
    """5 deep in 20 with a fit of 0.1: the upper wall stays on the line, the lower one gives."""
    joint = KIND.build(request(depth="5 mm", fit="0.1 mm"))
    low = Fraction("18.1")
    edge = as_set(((15, 0), (20, 0)), ((15, low), (20, low)), ((15, 0), (15, low)))
    assert {face: lines(joint, face) for face in Face} == {
        Face.OUTSIDE: set(),
        Face.INSIDE: as_set(((0, 0), (200, 0)), ((0, low), (200, low))),
        Face.END_GRAIN: set(),
        Face.REFERENCE_EDGE: edge,
        Face.FAR_EDGE: edge,
    }


def test_a_stopped_and_shouldered_housing_before_a_rebate_by_hand():
    """Shelf 192 x 18 in a side of 200: stop 12, cut back 13; tongue 12; rebate 8 wide, 7 deep."""
    joint = KIND.build(
        request(
            ("192 mm", "18 mm"),
            depth="5 mm",
            stop="12 mm",
            shoulder="6 mm",
            rebate={"width": "8 mm", "depth": "7 mm"},
        )
    )
    shelf = lay_out(joint.members[0].part, Face.INSIDE, Fraction(20))
    assert {frozenset((line.start, line.end)) for line in shelf.lines} == as_set(
        ((13, 0), (13, 5)), ((0, 5), (13, 5)), ((13, 5), (192, 5))
    )
    end = lay_out(joint.members[0].part, Face.END_GRAIN, Fraction(20))
    assert {frozenset((line.start, line.end)) for line in end.lines} == as_set(
        ((13, 0), (13, 18)), ((13, 12), (192, 12))
    )
    # The side: the housing is cut before the rebate is planed, so its lines run on to the back.
    inside = lines(joint, Face.INSIDE)
    assert as_set(((12, 0), (200, 0)), ((12, 12), (200, 12)), ((12, 0), (12, 12))) <= inside
    assert {x for line in inside for x, _ in line} == {12, 192, 200}
    assert lines(joint, Face.REFERENCE_EDGE) == set(), "it does not show in front"
    assert joint.findings == ()
    told = " ".join(step.words for step in joint.steps)
    assert "stopping 12 mm from the front edge" in told
    assert "13 mm from the front edge and 5 mm from the end" in told
    assert "a tongue 12 mm thick is left" in told
    assert "8 mm from the back edge and 7 mm deep" in told
    assert "Once, when all housings are cut and the paper is peeled off. From end to end" in told


@st.composite
def housings(draw: st.DrawFn, fits: st.SearchStrategy[Fraction], plain: bool) -> Request:
    """Housings that can be cut; the shelf may be narrower than the side."""
    shelf, thick = draw(lengths(20, 90)), draw(lengths(6, 30))
    depth, left = draw(lengths(2, 10)), draw(lengths(10, 20))
    told = {"depth": depth, "fit": draw(fits)}
    behind = draw(lengths(0, 20))
    if not plain:
        told["stop"] = draw(st.sampled_from((Fraction(0), Fraction(7))))
        told["shoulder"] = draw(st.sampled_from((Fraction(0), Fraction(2))))
        if behind:
            told["rebate"] = BackRebate(width=behind, depth=left)
    boards = Board("board", shelf, thick), Board("post", shelf + behind, depth + left)
    return Request(boards, Parameters(**told), Units.MM, Tools())


@SOLID_PROPERTY
@given(housings(st.integers(-30, 50).map(lambda count: Fraction(count, 100)), plain=True))
def test_the_shelf_fills_the_housing_but_for_the_fit_at_its_lower_face(request_):
    mated = mate(KIND.build(request_))
    shelf, given_ = request_.boards[0], request_.given
    area = float(shelf.width * given_.depth)
    # What lies behind the housing is looked at too, so its floor is no face of a region.
    kept = float((shelf.width - 2 * SHY_MM) * (given_.depth - SHY_MM))
    gap = max(float(given_.fit - (SHY_MM if given_.fit else 0)), 0)
    assert mated.missing == pytest.approx(gap * kept, abs=CLOSE_MM3, rel=1e-6)
    assert mated.overlap == pytest.approx(max(float(-given_.fit), 0) * area, abs=CLOSE_MM3)
    # It goes in square to the inside face, and slides in along the side.
    assert (mated.first.translate((0, 60, 0)) ^ mated.second).volume() < CLOSE_MM3
    assert (mated.first.translate((0, -1, 0)) ^ mated.second).volume() > 1


@SOLID_PROPERTY
@given(housings(st.just(Fraction(0)), plain=False))
def test_stopped_shouldered_and_rebated_housings_are_full_and_nothing_overlaps(request_):
    joint = KIND.build(request_)
    mated = mate(joint)
    assert mated.overlap < CLOSE_MM3
    assert mated.missing < CLOSE_MM3
    # In front of a stop the side is whole: nothing shows there.
    is_stopped = request_.given.stop > 0
    assert bool(lines(joint, Face.REFERENCE_EDGE)) is not is_stopped


JOB = """
title = "Shelf"
[boards.board]
width = 150
thickness = 18
[boards.post]
width = 150
thickness = 20
[[joints]]
kind = "housing"
corners = [{ name = "Left end", like = "A" }]
views = ["wrap", "faces", "end-grain"]
shelf = "board"
side = "post"
"""


def test_the_shelf_loses_no_wood_and_has_no_pattern():
    told = [
        words.text for page in pages_from(JOB) for one in page.placements for words in one.words
    ]
    assert any("side · inside face" in words for words in told)
    assert any("side · far edge" in words for words in told)
    assert not any("shelf · " in words for words in told)


REFUSED = {
    "more than half": ({"depth": "10.1 mm"}, ("housing-too-deep", "depth")),
    "a shelf too wide": ({"shelf": ("201 mm", "18 mm")}, ("widths-differ", "")),
    "into the rebate": (
        {"rebate": {"width": "1 mm"}},
        ("widths-differ", "rebate"),
    ),
    "right through": (
        {"shelf": ("190 mm", "18 mm"), "rebate": {"width": "8 mm", "depth": "20 mm"}},
        ("rebate-too-deep", "rebate"),
    ),
    "no shelf left": ({"stop": "199 mm"}, ("no-room", "stop")),
    "no tongue": ({"shoulder": "18 mm"}, ("no-room", "shoulder")),
    "pressed away": ({"shelf": ("200 mm", "1 mm"), "fit": "-1 mm"}, ("no-room", "fit")),
}


@pytest.mark.parametrize(("raw", "expected"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused_with_its_code_and_place(raw, expected):
    (finding,) = refused(request(**raw), KIND.build)
    assert (finding.code, finding.place) == expected
    assert finding.remedy


def test_boards_too_short_are_told_together():
    told = refused(with_lengths(request(depth="6 mm"), 6, 18), KIND.build)
    assert [finding.code for finding in told] == ["board-too-short"] * 2


ADVISED = {
    "a third": ({"side": ("200 mm", "18 mm"), "depth": "6 mm"}, []),
    "deeper": ({"side": ("200 mm", "18 mm"), "depth": "6.1 mm"}, ["housing-deep"]),
    "open behind": ({"shelf": ("199 mm", "18 mm")}, ["housing-open"]),
    "easy": ({"fit": "0.2 mm"}, []),
    "loose": ({"fit": "0.21 mm"}, ["fit-loose"]),
    "near the edge": ({"stop": "4.9 mm"}, ["stop-near-edge"]),
    "half a tongue": ({"shoulder": "9 mm"}, []),
    "as far from the end as it is deep": ({"depth": "6 mm", "at": "6 mm"}, []),
    "nearer to the end": ({"depth": "6 mm", "at": "5.9 mm"}, ["end-splits"]),
    "level with the end": ({"depth": "6 mm", "at": 0}, []),
    "thin tongue": ({"shoulder": "9.1 mm"}, ["tongue-thin"]),
    "closed by a back": ({"shelf": ("192 mm", "18 mm"), "rebate": {"width": "8 mm"}}, []),
}


@pytest.mark.parametrize(("raw", "codes"), ADVISED.values(), ids=ADVISED)
def test_advice_is_given_where_it_is_due_and_only_there(raw, codes):
    assert codes_of(KIND.build(request(**raw)).findings) == codes


@pytest.mark.parametrize(("at", "codes"), [("176 mm", []), ("176.1 mm", ["end-splits"])])
def test_short_grain_is_told_at_the_bottom_too_where_the_sides_length_is(at, codes):
    """A side of 200 mm, a shelf of 18: 6 or 5.9 mm are left below a housing 6 mm deep."""
    told = with_lengths(request(depth="6 mm", at=at), 300, 200)
    assert codes_of(KIND.build(told).findings) == codes


def test_the_steps_make_the_shelf_longer_for_both_ends_and_tell_the_gap():
    told = " ".join(step.words for step in KIND.build(request(depth="6 mm", fit="0.1 mm")).steps)
    assert "as long as the space between the sides and 6 mm more at each end" in told
    assert "come to the lower line but for 0.1 mm of gap" in told


AS_A_PARTITION = {
    "upper face": "outside face",
    "lower face": "inside face",
    "lower line": "other line",
    "towards the top end": "towards the end that its template names",
    " End grain holds little: what carries the shelf is the lower wall.": "",
}
"""What stands between boards that lie has neither top nor upper face; its outside face is the one
that is upper in a shelf (`told_steps` holds a shelf's faces against the wood)."""


@pytest.mark.parametrize("kind", ["housing", "sliding-dovetail"])
def test_a_partition_is_told_as_a_shelf_is_but_by_the_faces_that_it_has(kind):
    for changes in ({}, *CHANGES[kind]):
        asked = changed(kinds()[kind], changes, (0, 0))
        shelf, partition = (
            kinds()[kind].build(replace(asked, first_in_front=front)).steps
            for front in (False, True)
        )
        for one, other in zip(shelf, partition, strict=True):
            assert (one.task, one.heading) == (other.task, other.heading)
            if one.heading in ("Prepare", "Square the line"):
                continue  # below
            words = one.words
            for of_shelf, of_partition in AS_A_PARTITION.items():
                words = words.replace(of_shelf, of_partition)
            assert other.words == words


def test_a_partition_is_marked_and_its_line_squared_on_one_board_after_the_other():
    """Boards that lie are no pair with inside faces out and tops level: one may be a shelf."""
    joint = KIND.build(replace(request(depth="6 mm"), first_in_front=True))
    prepare, square = (step.words for step in joint.steps[:2])
    assert prepare.startswith(
        "Mark the front edge of all boards, the outside face of the shelf (BOARD), and the inside "
        "face of the side (POST). On the templates the front edge is called the reference edge "
        "and the back edge the far edge. Make the shelf as long as the space between the boards "
        "that hold it and 6 mm more at each end, ends square"
    )
    assert square == (
        "Square the line of the shelf's outside face across the side's front edge, at a place that "
        "you choose, in pencil; carry it from there across the inside face and the back edge. "
        "Gauge the depth, 6 mm, on both edges with the stock on the inside face."
    )
