"""What cannot be cut on these boards, and what the order of work then says of what can."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.dovetails.through_dovetail import KIND
from joinery_templates.joints.kind import Request
from tests.joints.strategies import dovetail, dovetails, with_given
from tests.strategies import PROPERTY

SOUND = {"tails": 3, "half_pin": "6 mm", "pin": "4 mm", "slope": "1:6"}


def request(**changes: object) -> Request:
    return dovetail("90 mm", ("12 mm", "15 mm"), **(SOUND | changes))


def codes(request_: Request) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        KIND.build(request_)
    assert all(finding.message and finding.remedy for finding in caught.value.findings)
    return [(finding.code, finding.place) for finding in caught.value.findings]


def with_boards(request_: Request, *changes: dict[str, Fraction]) -> Request:
    first, second = (
        replace(board, **change) for board, change in zip(request_.boards, changes, strict=True)
    )
    return replace(request_, boards=(first, second))


def told(joint: Joint) -> str:
    return " ".join(f"{step.heading}: {step.words}" for step in joint.steps)


def test_boards_of_different_widths_are_refused():
    wider = with_boards(request(), {}, {"width": Fraction("90.1")})
    with pytest.raises(InputError, match=r"90\.1 mm") as caught:
        KIND.build(wider)
    assert [finding.code for finding in caught.value.findings] == ["widths-differ"]


@pytest.mark.parametrize("short", [0, 1], ids=["tail board", "pin board"])
def test_a_board_no_longer_than_its_joint_is_refused(short):
    request_ = request(tails_proud="0.5 mm", pins_proud="0.25 mm")
    reach = KIND.build(request_).members[short].part.reach
    assert reach == [Fraction("15.5"), Fraction("12.25")][short]
    for length, refused in ((reach, True), (reach + Fraction(1, 1000), False)):
        changes: list[dict[str, Fraction]] = [{}, {}]
        changes[short] = {"length": length}
        changed = with_boards(request_, *changes)
        if refused:
            assert codes(changed) == [("board-too-short", "")]
        else:
            assert KIND.build(changed).rows == KIND.build(request_).rows


def test_all_that_is_wrong_with_the_boards_is_told_at_once():
    wrong = with_boards(
        request(), {"length": Fraction(3)}, {"width": Fraction(80), "length": Fraction(3)}
    )
    assert [code for code, _ in codes(wrong)] == [
        "widths-differ",
        "board-too-short",
        "board-too-short",
    ]


# With a slope of 7:24 a fit of 0.24 is 0.25 across (the triangle 7-24-25).
FITS = {
    "pins": ({"half_pin": "6 mm", "pin": "0.5 mm"}, "0.24 mm", "0.239 mm"),
    "half pins": ({"half_pin": "0.25 mm", "pin": "4 mm"}, "0.24 mm", "0.239 mm"),
    "half pins, no whole pin": (
        {"half_pin": "0.25 mm", "pin": None, "tails": 1},
        "0.24 mm",
        "0.239 mm",
    ),
    # A tail of 9.25 comes in by 15 * 7 / 24 = 4.375 on each side, which leaves 0.5.
    "sockets": (
        {"half_pin": None, "tail": "9.25 mm", "pin": "4 mm", "tails": 3},
        "-0.24 mm",
        "-0.239 mm",
    ),
    # A half tail comes in on one side only.
    "half sockets": (
        {"half_pin": None, "start": "half-tail", "half_tail": "4.625 mm", "tails": 2},
        "-0.24 mm",
        "-0.239 mm",
    ),
}


@pytest.mark.parametrize(("changes", "refused", "allowed"), FITS.values(), ids=FITS)
def test_a_fit_that_leaves_no_wood_or_no_room_is_refused_and_a_hair_less_is_not(
    changes, refused, allowed
):
    raw = SOUND | {"slope": "7:24"} | changes
    board = ("12 mm", "15 mm")
    assert codes(dovetail("90 mm", board, fit=refused, **raw)) == [("no-room", "fit")]
    assert_marks_in_order(KIND.build(dovetail("90 mm", board, fit=allowed, **raw)))


def assert_marks_in_order(joint: Joint) -> None:
    for row in joint.rows:
        positions = [Fraction(0), *(mark.position for mark in row.marks), row.width]
        assert positions == sorted(set(positions))


@PROPERTY
@given(dovetails(), st.integers(-100, 100).map(lambda hundredths: Fraction(hundredths, 100)))
def test_any_fit_keeps_every_mark_on_its_board_and_in_order_or_is_refused(request_, fit):
    narrow = with_given(request_, fit=fit)
    try:
        joint = KIND.build(narrow)
    except InputError as error:
        assert [finding.place for finding in error.findings] == ["fit"]  # noqa: PT017
        return
    assert_marks_in_order(joint)


def test_the_order_of_work_names_the_layouts_own_figures():
    words = told(KIND.build(request(tails_proud="0.5 mm", pins_proud="0.25 mm")))
    for figure in (
        "15.5 mm for the tail board (SIDE)",
        "12.25 mm for the pin board (END)",
        "3 tails at 1:6",
        "tails stand 0.5 mm",
        "pins stand 0.25 mm",
    ):
        assert figure in words


def test_the_order_of_work_says_nothing_of_planing_flush_where_nothing_stands_proud():
    assert "flush when" not in told(KIND.build(request()))
    assert "The pins stand 1 mm proud:" in told(KIND.build(request(pins_proud="1 mm")))


def test_the_order_of_work_suits_a_single_tail():
    words = told(KIND.build(dovetail("30 mm", tails=1, half_pin="8 mm")))
    assert "1 tail at" in words
    assert "Chop between" not in words  # there is no space between tails


def test_the_order_of_work_saws_the_edges_of_the_board_whose_edges_are_cut():
    """With half pins the tail board loses its edges; with half tails the pin board does."""
    pins = told(KIND.build(request()))
    assert "both edges of the tail board (SIDE)" in pins
    assert "half-pin waste" in pins
    assert "half-tail waste" not in pins
    tails = told(KIND.build(dovetail("90 mm", start="half-tail", tails=2, pin="5 mm")))
    assert "both edges of the pin board (END)" in tails
    assert "knife the baseline across the waste, on both faces and both edges. Saw off the" in tails
    # What is sawn off is pared too.
    assert tails.index("half-tail waste") < tails.index("pare all to the middle of the line")
    assert "half-pin waste" not in tails
    assert "2 tails and a half tail at each edge at 1:7" in tails


@pytest.mark.parametrize(
    ("tails", "names"),
    [
        (0, {"half tail at each edge, at the end"}),
        (1, {"half tail at each edge, at the end", "tail at the end (wide)"}),
    ],
)
def test_sizes_name_only_what_there_is(tails, names):
    joint = KIND.build(dovetail("60 mm", start="half-tail", tails=tails, pin="5 mm"))
    assert {size.name for size in joint.sizes if "at the end" in size.name} == names


def test_different_half_pins_are_both_listed():
    joint = KIND.build(request(half_pin_far="8 mm"))
    named = {size.name: size.length for size in joint.sizes}
    assert named["space for a half pin at the reference edge, at the tail board's end"] == 6
    assert named["space for a half pin at the far edge, at the tail board's end"] == 8
