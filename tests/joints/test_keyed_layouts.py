"""Keyed joints in figures: worked cases, rules, what is refused and what is advised."""

import re
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import is_waste, lay_out
from joinery_templates.wood.placement import Placement
from tests.joints.keyed_layouts import BUTT, EDGE, KEYED, MITRE, joint, keyed
from tests.joints.told_steps import faults
from tests.strategies import PROPERTY

KEY = {"key_length": "66 mm", "key_width": "28 mm", "waist": "17 mm", "depth": "10 mm"}
SMALL = {"key_length": "36 mm", "key_width": "15 mm", "waist": "9 mm", "depth": "8 mm"}
every_keyed = pytest.mark.parametrize("kind", KEYED, ids=[kind.name for kind in KEYED])


def segments(end, face):
    """The lines of a face as pairs of points."""
    return {frozenset((line.start, line.end)) for line in lay_out(end, face, end.reach + 10).lines}


def pairs(*lines):
    return {frozenset(tuple(map(Fraction, point)) for point in line) for line in lines}


def middles(made):
    return [mark.position for mark in made.rows[0].marks]


# Worked by hand


def test_the_key_by_hand():
    """28 wide, 17 at the waist: each side comes in by 5.5 in 33, which is 1 in 6."""
    made = joint(EDGE, "150 mm", seam="800 mm", keys=3, proud="1 mm", **KEY)
    (loose,) = made.loose
    assert (loose.member.role, loose.made) == ("key", 3)
    assert (loose.member.part.board.width, loose.member.part.board.thickness) == (28, 11)
    assert loose.member.part.reach == 66
    assert segments(loose.member.part, Face.OUTSIDE) == pairs(
        ((0, 0), ("5.5", 33)),
        (("5.5", 33), (0, 66)),
        ((28, 0), ("22.5", 33)),
        (("22.5", 33), (28, 66)),
        ((0, 66), (28, 66)),
    )
    assert [setting.slope for setting in made.slopes] == [Fraction(1, 6)]


@every_keyed
@pytest.mark.parametrize("through", [True, False])
def test_what_is_knifed_glued_and_planed_is_where_the_sockets_have_a_mouth_or_a_floor(
    kind, through
):
    key = SMALL | {"depth": None, "through": True} if through else SMALL
    given = {name: value for name, value in key.items() if value is not None}
    raw = {"seam": "300 mm"} if kind is EDGE else {}
    made = joint(kind, "90 mm", keys=1, proud="0.5 mm", **given, **raw)
    part, (loose,) = made.members[0].part, made.loose
    x, y, _ = loose.placements[0].point((Fraction(15, 2), Fraction(30), Fraction(0)))
    # Just within the inside face, half way from the waist to the key's end.
    assert is_waste(part, x, y, part.board.thickness - Fraction(1, 100)) == through
    words = {step.heading: step.words for step in made.steps}
    assert ("inside face" in words["Lay on the templates"]) == through
    assert ("On the inside face knife round" in words["Mark from the key itself"]) == through
    assert ("floor" in words["Chop the sockets"] + words["Fit and glue"]) != through
    assert re.search(
        r"Make one for each (seam|joint line|mitre), all marked from the first\.$",
        words["Make the key"],
    )
    assert [fault for step in made.steps for fault in faults(made, step.words)] == []


def test_the_sockets_of_a_seam_by_hand():
    """In from the first board's far edge, x = 150, and from the second's reference edge."""
    first, second = (
        m.part for m in joint(EDGE, "150 mm", seam="800 mm", keys=3, fit="0.1 mm", **KEY).members
    )
    # A side moved out by 0.1 meets the seam 0.1 √(1 + 1/36) = 0.101379 further out, and the
    # tip, 0.1 further away, another 0.1 / 6.
    mouth, wide = 8.5 + 0.1 * sqrt(37) / 6, 14 + 0.1 * sqrt(37) / 6 + 0.1 / 6
    for end, seam, tip in ((first, 150, 116.9), (second, 0, 33.1)):
        found = {
            tuple(sorted((round(float(x), 9), round(float(y), 9)) for x, y in line))
            for line in segments(end, Face.OUTSIDE)
        }
        wanted = [
            ((seam, -mouth), (tip, -wide)),
            ((seam, mouth), (tip, wide)),
            ((tip, -wide), (tip, wide)),
        ]
        assert found == {
            tuple(sorted((round(x, 9), round(y, 9)) for x, y in line)) for line in wanted
        }
        assert segments(end, Face.INSIDE) == set()


def test_a_socket_shows_on_the_meeting_edge_as_deep_and_wide_as_the_waist():
    first, second = (m.part for m in joint(EDGE, "150 mm", seam="800 mm", keys=1, **KEY).members)
    half = Fraction("8.5")
    rectangle = pairs(((0, -half), (10, -half)), ((0, half), (10, half)), ((10, -half), (10, half)))
    assert segments(first, Face.FAR_EDGE) == segments(second, Face.REFERENCE_EDGE) == rectangle
    assert segments(first, Face.REFERENCE_EDGE) == segments(second, Face.FAR_EDGE) == set()


def test_a_whole_row_stands_from_the_first_key_on_and_the_second_board_is_turned():
    raw = {"seam": "800 mm", "positions": ["100 mm", "300 mm", "700 mm"], "drawn": "whole row"}
    first, second = (m.part for m in joint(EDGE, "150 mm", **raw, **KEY).members)
    assert (first.start, first.reach) == (-14, 614)
    assert (second.start, second.reach) == (-614, 14)
    tips = {
        frozenset(y for _, y in line)
        for line in segments(second, Face.OUTSIDE)
        if {x for x, _ in line} == {33}
    }
    assert tips == {frozenset((y - 14, y + 14)) for y in (0, -200, -600)}


def test_two_keys_across_butted_ends_by_hand():
    """150 wide in two shares: middles at 37.5 and 112.5, mouths 8.5 to each side."""
    made = joint(BUTT, "150 mm", keys=2, **KEY)
    assert middles(made) == [29, 46, 104, 121]
    for member in made.members:
        assert member.part.reach == 33
        assert segments(member.part, Face.OUTSIDE) == pairs(
            *(((c - Fraction("8.5"), 0), (c - 14, 33)) for c in (Fraction("37.5"), 112.5)),
            *(((c + Fraction("8.5"), 0), (c + 14, 33)) for c in (Fraction("37.5"), 112.5)),
            *(((c - 14, 33), (c + 14, 33)) for c in (Fraction("37.5"), 112.5)),
        )


@pytest.mark.parametrize("number", [0, 1])
def test_a_key_across_a_mitre_by_hand(number):
    """Members 70 wide, the key's middle 50 along the mitre: everything turned by 45 degrees."""
    made = joint(MITRE, "70 mm", ("20 mm", "20 mm"), positions=["50 mm"], **SMALL)
    end = made.members[number].part

    def at(along, back):
        return round((along - back) / sqrt(2), 9), round((along + back) / sqrt(2), 9)

    wanted = {
        frozenset({(0, 0), (70, 70)}),  # the mitre is sawn first, and whole at the mouth, 9 wide
        frozenset({at(45.5, 0), at(42.5, 18)}),
        frozenset({at(54.5, 0), at(57.5, 18)}),
        frozenset({at(42.5, 18), at(57.5, 18)}),
    }
    found = {
        frozenset((round(float(x), 9), round(float(y), 9)) for x, y in line)
        for line in segments(end, Face.OUTSIDE)
    }
    assert found == wanted
    assert segments(end, Face.INSIDE) == pairs(((0, 0), (70, 70)))


def test_the_bench_top_in_inches_by_hand():
    """54 in of seam, 5 keys, 5 in from each end: (54 - 10) / 4 = 11 in apart."""
    made = joint(
        EDGE,
        "7 1/2 in",
        ("1 3/4 in", "1 3/4 in"),
        board_length="54 in",
        units=Units.INCH,
        keys=5,
        end_distance="5 in",
        key_length="3 in",
        key_width="1 3/8 in",
        waist="7/8 in",
        depth="3/4 in",
    )
    assert middles(made) == [n * INCH for n in (5, 16, 27, 38, 49)]


# Rules


def test_what_rules_make_of_two_boards_alone():
    """Boards 24 thick: keys 72 by 30, 1:6, so 18 at the waist, 12 deep; 10 widths for each."""
    made = joint(EDGE, "200 mm", board_length="1200 mm")
    sizes = {size.name: size.length for size in made.sizes}
    assert sizes["key, from tip to tip"] == 72
    assert sizes["key, at its ends"] == 30
    assert sizes["key, at its waist"] == 18
    assert sizes["key, thickness of its stock"] == 12
    assert middles(made) == [150, 450, 750, 1050]
    assert len(made.rules) == 6


def test_a_seam_of_untold_length_is_as_long_as_three_keys_want():
    made = joint(EDGE, "200 mm")
    assert middles(made) == [150, 450, 750]
    assert made.rows[0].width == 900


def test_the_shorter_board_is_the_seam_unless_that_is_told():
    assert joint(EDGE, "200 mm", board_length="600 mm", keys=2).rows[0].width == 600
    assert joint(EDGE, "200 mm", board_length="600 mm", seam="500 mm", keys=2).rows[0].width == 500


@pytest.mark.parametrize(
    ("told", "length", "width", "waist"),
    [
        ({"key_width": "40 mm"}, 96, 40, 24),  # 40 x 12 / 5, and 96 / 6 = 16 narrower
        ({"key_length": "60 mm"}, 60, 25, 15),
        ({"key_length": "60 mm", "slope": "1:5"}, 60, 25, 13),
        ({"waist": "10 mm"}, 72, 30, 10),
    ],
)
def test_what_is_told_of_a_key_decides_the_rest(told, length, width, waist):
    sizes = [size.length for size in joint(EDGE, "200 mm", **told).sizes]
    assert sizes[:3] == [length, width, waist]


def test_the_even_row_on_a_mitre_leaves_out_what_would_break_through_the_outer_edge():
    """Reach 18 of 98.995: shares begin there, so one key stands at 18 + 80.995 / 2."""
    made = joint(MITRE, "70 mm", ("20 mm", "20 mm"), keys=1, **SMALL)
    starts, ends = middles(made)
    assert float(starts + ends) / 2 == pytest.approx(18 + (70 * sqrt(2) - 18) / 2, abs=1e-9)
    assert float(ends - starts) == pytest.approx(9, abs=1e-9)


# Congruent outlines


def sides(placement: Placement | None, end):
    """Lines of a piece's outside face in the first board's frame, by their ends."""
    found = set()
    for line in lay_out(end, Face.OUTSIDE, end.reach).lines:
        points = ((*line.start, Fraction(0)), (*line.end, Fraction(0)))
        carried = [placement.point(p) if placement else p for p in points]
        found.add(frozenset((round(float(x), 7), round(float(y), 7)) for x, y, _ in carried))
    return found


@every_keyed
@PROPERTY
@given(data=st.data())
def test_without_a_gap_every_side_of_a_key_is_a_line_of_a_socket(kind, data):
    request = data.draw(keyed(kind))
    made = kind.build(replace(request, given=request.given.but(proud=Fraction(0))))
    first, second = made.members
    sockets = sides(None, first.part) | sides(made.placement, second.part)
    (loose,) = made.loose
    for at in loose.placements:
        key = sides(at, loose.member.part)
        assert len(key) == 4
        assert key <= sockets


# Refused


@pytest.mark.parametrize(
    ("kind", "width", "raw", "code", "place"),
    [
        (EDGE, "150 mm", {"waist": "10 mm", "slope": "1:8"}, "does-not-add-up", "waist"),
        (EDGE, "150 mm", {"key_length": "90 mm", "key_width": "12 mm"}, "no-room", "key_length"),
        (EDGE, "150 mm", {"key_width": "20 mm", "waist": "20 mm"}, "no-taper", "waist"),
        (EDGE, "150 mm", {"key_length": "9 mm", "waist": "1 mm", "fit": -1}, "no-room", "fit"),
        (EDGE, "150 mm", {"depth": "24 mm"}, "no-room", "depth"),
        (EDGE, "150 mm", {"depth": "9 mm", "through": True}, "does-not-add-up", "depth"),
        (EDGE, "36 mm", {"key_length": "72 mm"}, "no-room", "key_length"),
        (EDGE, "36 mm", {"key_width": "30 mm"}, "no-room", "key_width"),
        (EDGE, "150 mm", {"seam": "90 mm", "keys": 3}, "no-room", "keys"),
        (EDGE, "150 mm", {"positions": [90, 100], "keys": 3}, "does-not-add-up", "positions"),
        (EDGE, "150 mm", {"positions": [300, 100]}, "not-in-order", "positions"),
        (EDGE, "150 mm", {"positions": [100, 100]}, "not-in-order", "positions"),
        (EDGE, "150 mm", {"positions": [100, 120]}, "no-room", "positions"),
        (EDGE, "150 mm", {"seam": "500 mm", "positions": [600]}, "no-room", "positions"),
        (EDGE, "150 mm", {"seam": "500 mm", "end_distance": 251}, "no-room", "end_distance"),
        (EDGE, "150 mm", {"seam": "27 mm", "keys": 1, **KEY}, "no-room", "keys"),
        (EDGE, "150 mm", {"seam": "10 mm", "key_width": "10 mm"}, "no-room", "key_width"),
        (EDGE, "150 mm", {"positions": [100], "end_distance": 90}, "does-not-add-up", None),
        (EDGE, "150 mm", {"seam": "500 mm", "end_distance": 10}, "no-room", "end_distance"),
        (EDGE, "150 mm", {"seam": "90 m", "key_width": "10 mm"}, "too-many-keys", ""),
        (
            EDGE,
            "150 mm",
            {"slope": "1:2"},
            "no-room",
            "slope",
        ),
        (BUTT, "25 mm", {"key_length": "60 mm"}, "no-room", "key_length"),
        (MITRE, "40 mm", {"key_length": "66 mm"}, "no-room", "key_length"),
        # The tips break through the outer edge, or the mouth leaves the mitre inside.
        (MITRE, "70 mm", {**SMALL, "positions": ["25.5 mm"]}, "no-room", "positions"),
        (MITRE, "70 mm", {**SMALL, "positions": ["94.5 mm"]}, "no-room", "positions"),
    ],
)
def test_what_cannot_be_cut_is_refused(kind, width, raw, code, place):
    with pytest.raises(InputError) as caught:
        joint(kind, width, **raw)
    finding = caught.value.findings[0]
    assert finding.code == code
    assert finding.place == place or place is None
    assert finding.place in ("", *raw), "it points at what was not given"
    assert finding.remedy


@pytest.mark.parametrize(
    ("raw", "told"),
    [
        ({"positions": ["20 in", "10 in"]}, "20 in is followed by 10 in"),
        (
            {"end_distance": "40 in", "keys": 5},
            "An end distance of 40 in lies beyond the middle of the seam, which is 54 in long",
        ),
        (
            {"positions": ["60 in"]},
            "A key's middle would lie beyond the end of the seam: the seam is 54 in long",
        ),
        (
            {"positions": ["0.5 in"], "key_length": "3 in"},
            "A socket would break out at the start of the seam, 1/2 in from its key's middle",
        ),
    ],
)
def test_places_are_refused_in_the_words_in_which_they_were_given(raw, told):
    with pytest.raises(InputError) as caught:
        joint(EDGE, "150 mm", seam="54 in", units=Units.INCH, **raw)
    (finding,) = caught.value.findings
    assert told in finding.message


def test_what_is_not_drawn_by_default_is_what_a_closed_joint_hides():
    """A seam's edges are shut away before sockets are marked; through keys show on both faces."""
    for kind in (EDGE, MITRE):
        blind = joint(kind, "150 mm", keys=1)
        through = joint(kind, "150 mm", keys=1, through=True)
        for member in blind.members:
            assert member.faces == (Face.OUTSIDE,)
        for member in through.members:
            assert member.faces == (Face.OUTSIDE, Face.INSIDE)


def test_just_inside_those_limits_it_is_drawn():
    for position in ("25.6 mm", "94.4 mm"):
        assert joint(MITRE, "70 mm", positions=[position], **SMALL).members


def test_boards_of_two_thicknesses_take_blind_keys_and_no_through_ones():
    assert joint(EDGE, "150 mm", ("24 mm", "20 mm"), seam="800 mm").loose
    with pytest.raises(InputError, match="thick"):
        joint(EDGE, "150 mm", ("24 mm", "20 mm"), seam="800 mm", through=True)


def test_short_boards_are_refused():
    for kind, raw in ((BUTT, KEY), (MITRE, SMALL)):
        with pytest.raises(InputError):
            joint(kind, "70 mm", board_length="30 mm", keys=1, **raw)
        assert joint(kind, "70 mm", board_length="80 mm", keys=1, **raw).members


# Advised


@pytest.mark.parametrize(
    ("kind", "raw", "code"),
    [
        (EDGE, {**KEY, "waist": "14 mm"}, "slope-steep"),
        (EDGE, {**KEY, "waist": "20 mm"}, "slope-flat"),
        (EDGE, {**KEY, "key_width": "20 mm", "waist": "7.9 mm"}, "waist-thin"),
        (EDGE, {**KEY, "depth": "7.9 mm"}, "depth-shallow"),
        (EDGE, {**KEY, "depth": "18.1 mm"}, "floor-thin"),
        (EDGE, {**KEY, "positions": ["100 mm", "155 mm"]}, "keys-close"),
        (EDGE, {**KEY, "positions": ["27 mm"], "seam": "800 mm"}, "key-near-end"),
        (EDGE, {"key_length": "101 mm", "key_width": "42 mm"}, "key-long-across-grain"),
        (EDGE, {**KEY, "fit": "0.21 mm"}, "fit-loose"),
        (MITRE, KEY, "mitre-wide"),
    ],
)
def test_what_is_unwise_is_told_with_its_source(kind, raw, code):
    found = joint(kind, "150 mm", **raw).findings
    (finding,) = (one for one in found if one.code == code)
    assert finding.source
    assert code not in [one.code for one in joint(kind, "70 mm", keys=1, **SMALL).findings]


def test_a_long_key_along_the_grain_of_butted_boards_is_no_matter():
    codes = [
        one.code for one in joint(BUTT, "150 mm", key_length="101 mm", key_width="42 mm").findings
    ]
    assert "key-long-across-grain" not in codes


def test_movement_over_a_long_key_by_the_published_coefficient():
    """Wood Handbook, table 13-5: black cherry, tangential, 0.00248; 300 x 0.00248 x 4 = 2.976."""
    found = joint(EDGE, "200 mm", key_length="300 mm", key_width="120 mm", seam="3000 mm").findings
    (told,) = (one.message for one in found if one.code == "key-long-across-grain")
    assert "moves ≈2.98 mm" in told
