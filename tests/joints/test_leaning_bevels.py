"""Bevels of leaning corners against published formulas, and corners that cannot be cut."""

import math

import pytest
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joints.box_joints import canted_box_joint
from joinery_templates.joints.dovetails import angled_dovetail, canted_dovetail
from joinery_templates.joints.kind import Request
from joinery_templates.joints.mitres import angled_mitre
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Surface, at_least
from joinery_templates.wood.faces import lay_out
from tests.joints.leaning import CANTED, SAME_MM, leaning
from tests.joints.strategies import example_request

LEANING = (*CANTED, angled_dovetail, angled_mitre)


# Bevels


def settings_of(joint, words):
    found = [s for s in joint.slopes if words in s.use]
    assert found
    return [math.degrees(math.atan(float(s.slope))) for s in found]


@pytest.mark.parametrize("module", [canted_dovetail, canted_box_joint])
def test_bevels_at_5_degrees_are_those_of_the_published_formulas(module):
    """tan(end) = sin(lean); cos(angle of faces) = -sin(lean) squared (from memory)."""
    joint = leaning(module, 5)
    lean = math.radians(5)
    assert settings_of(joint, "end, across") == [
        pytest.approx(math.degrees(math.atan(math.sin(lean))), abs=SAME_MM)
    ]
    off = math.degrees(math.acos(-(math.sin(lean) ** 2))) - 90
    assert settings_of(joint, "through the thickness") == [pytest.approx(off, abs=SAME_MM)]
    assert settings_of(joint, "to lie level") == [pytest.approx(5, abs=SAME_MM)]


@pytest.mark.parametrize("module", CANTED)
def test_bevels_at_15_and_10_degrees_are_those_of_the_published_formulas(module):
    """tan(end) = cos(own lean) tan(other lean) (from memory)."""
    joint = leaning(module, 15, 10)
    own, other = math.radians(15), math.radians(10)
    ends = [
        math.degrees(math.atan(math.cos(a) * math.tan(b))) for a, b in ((own, other), (other, own))
    ]
    assert settings_of(joint, "end, across") == pytest.approx(ends, abs=SAME_MM)
    assert settings_of(joint, "to lie level") == pytest.approx([15, 10], abs=SAME_MM)


@pytest.mark.parametrize(
    ("lean", "low", "high"), [(12, "outside", "inside"), (-12, "inside", "outside")]
)
def test_where_the_stock_lies_for_a_level_edge_the_blade_leans_past_the_board(lean, low, high):
    """Up a face that leans by 12 and level through the wood below it: 90 + 12 on its lower side."""
    (edges,) = (one for one in leaning(canted_dovetail, lean).slopes if "to lie level" in one.use)
    up = math.sin(math.radians(lean)), math.cos(math.radians(lean))  # outwards, upwards
    inwards = {"outside": (-1, 0), "inside": (1, 0)}[low]
    between = math.degrees(math.acos(sum(a * b for a, b in zip(up, inwards, strict=True))))
    assert between == pytest.approx(102)
    assert f"{low} face at the reference edge, on the {high} face at the far edge" in edges.use
    assert edges.leans_to == "to the edge"


def test_mitres_of_a_six_sided_piece_are_30_degrees_off_square():
    """Half of 180 - 120 (Noyes: the plane of a mitre halves the angle)."""
    joint = angled_mitre.KIND.build(example_request(angled_mitre.KIND))
    assert settings_of(joint, "through the thickness") == [pytest.approx(30, abs=1e-6)]
    inside = lay_out(joint.members[0].part, Face.INSIDE, Fraction(40)).lines
    (line,) = inside
    assert float(line.start[1]) == pytest.approx(12 * math.tan(math.radians(30)), abs=1e-6)


# What is refused


@pytest.mark.parametrize(
    ("given_", "code"),
    [
        ({"lean": 55, "second_lean": 55, "plan": 40}, "end-too-steep"),
        ({"plan": 30, "lean": 15, "second_lean": -15}, "corner-too-sharp"),
        ({"plan": 150, "lean": 20}, "corner-too-flat"),
        ({"lean": 20, "second_lean": 0}, "heights-differ"),
    ],
)
@pytest.mark.parametrize("module", CANTED)
def test_angles_that_cannot_be_cut_are_refused_with_the_limit(module, given_, code):
    with pytest.raises(InputError) as caught:
        module.KIND.build(example_request(module.KIND, **given_))
    assert code in [finding.code for finding in caught.value.findings]
    assert all(any(sign.isdigit() for sign in f.remedy) for f in caught.value.findings)


@pytest.mark.parametrize(
    ("second_width", "is_taken"),
    [
        # The first board, 70 wide, leans out by 12: its outside arrises lie 70 cos 12 = 68.47
        # apart in height. The second, 12 thick, leans in by 5, and its inside arris above lies
        # 12 sin 5 = 1.046 lower than the outside one: planed level it ends so much lower.
        ("68.73", True),  # 68.47 / cos 5: the outside arrises end at one height
        ("69.78", True),  # (68.47 + 1.046) / cos 5: they do when planed level
        ("69.2", True),
        ("68.24", True),  # 0.49 lower than the outside arris of the first
        ("68.21", False),
        ("70.26", True),  # 0.48 higher than its levelled edge
        ("70.3", False),
    ],
)
def test_heights_agree_at_the_outside_arrises_or_when_planed_level(second_width, is_taken):
    request = example_request(canted_dovetail.KIND, lean=12, second_lean=-5)
    boards = tuple(
        replace(board, width=Fraction(width), thickness=Fraction(12))
        for board, width in zip(request.boards, ("70", second_width), strict=True)
    )
    request = replace(request, boards=boards)
    if is_taken:
        assert canted_dovetail.KIND.build(request)
        return
    with pytest.raises(InputError) as caught:
        canted_dovetail.KIND.build(request)
    (finding,) = caught.value.findings
    assert (finding.code, finding.place) == ("heights-differ", "second_lean")
    # The wider one is planed: the second to the figure above, or the first to
    # (68.21 cos 5 - 1.046) / cos 12, to the hundredth and not beyond it.
    wanted = {"70.3": "≈69.78 mm", "68.21": "≈68.4 mm"}[second_width]
    assert finding.remedy.endswith(f"to a width of {wanted}.")


def test_upright_boards_of_two_widths_are_not_said_to_lean():
    request = example_request(angled_dovetail.KIND)
    first, second = request.boards
    with pytest.raises(InputError) as caught:
        angled_dovetail.KIND.build(
            replace(request, boards=(first, replace(second, width=Fraction(80))))
        )
    (finding,) = caught.value.findings
    assert "ean" not in finding.message
    assert finding.place == ""
    assert "to a width of 80 mm" in finding.remedy


def test_the_width_told_for_the_other_board_is_taken():
    request = example_request(canted_dovetail.KIND, lean=20, second_lean=0)
    with pytest.raises(InputError, match="to a width of"):
        canted_dovetail.KIND.build(request)
    first, second = request.boards
    wanted = replace(second, width=Fraction("84.6"))
    assert canted_dovetail.KIND.build(replace(request, boards=(first, wanted)))


def test_a_board_shorter_than_its_slanting_joint_is_refused():
    request = example_request(canted_dovetail.KIND)
    first, second = request.boards
    reach = canted_dovetail.KIND.build(request).members[0].part.reach
    for length, is_refused in ((reach, True), (reach + 1, False)):
        boards = (replace(first, length=length), second)
        if is_refused:
            with pytest.raises(InputError) as caught:
                canted_dovetail.KIND.build(replace(request, boards=boards))
            assert caught.value.findings[0].code == "board-too-short"
        else:
            assert canted_dovetail.KIND.build(replace(request, boards=boards))


@pytest.mark.parametrize("module", LEANING)
def test_only_a_corner_square_in_plan_is_shown_as_one_of_a_four_sided_piece(module):
    request: Request = example_request(module.KIND, Units.MM, plan=90)
    assert module.KIND.build(request).at_corner
    assert not module.KIND.build(example_request(module.KIND, Units.MM, plan=108)).at_corner


CHANNELS = {"groove": {"from_edge": 10, "width": 4}, "rebate": {"width": 4}}


def test_where_boards_lean_a_groove_is_refused_and_not_left_out_in_silence():
    with pytest.raises(InputError) as caught:
        canted_dovetail.KIND.build(example_request(canted_dovetail.KIND, **CHANNELS))
    assert [finding.place for finding in caught.value.findings] == ["groove", "rebate"]


@pytest.mark.parametrize("name", CHANNELS)
def test_in_upright_boards_a_groove_ends_at_the_bottom_of_the_other_boards(name):
    """Boards of 12 mm, 4 mm deep: either groove begins 8 mm behind the other board's outside."""
    kind = angled_dovetail.KIND
    joint = kind.build(example_request(kind, **{name: CHANNELS[name] | {"depth": 4}}))
    ways = joint.placement, joint.placement.reversed()
    for member, carried in zip(joint.members, ways, strict=True):
        begins = member.part.cuts[-1].half_spaces[-1]
        behind = carried.half_space(at_least(2, Fraction(8), Surface.GROOVE))
        assert begins == behind


def test_widths_that_cannot_add_up_once_the_edges_are_level_are_told_to_leave_one_out():
    kind = canted_dovetail.KIND
    given = {"tails": 3, "tail": "18 mm", "half_pin": "9 mm", "half_pin_far": "9 mm"}
    with pytest.raises(InputError) as caught:
        kind.build(example_request(kind, **given))
    assert "leave one of the widths out" in caught.value.findings[0].remedy
