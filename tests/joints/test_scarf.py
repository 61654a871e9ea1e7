"""Scarfs against the rules of handbooks, and as solids."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.scarfs.scarf import KIND
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import lay_out
from tests.joints.solids import CLOSE_MM3, mate
from tests.joints.strategies import lengths
from tests.joints.worked import request


def scarf(thick="100 mm", width="80 mm", other="", **raw) -> Joint:
    return KIND.build(request(KIND, width, (thick, other or thick), Units.MM, **raw))


def length_of(joint: Joint) -> Fraction:
    return next(one.length for one in joint.sizes if one.name.startswith("scarf, length"))


def told(**raw) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        scarf(**raw)
    return [(finding.code, finding.place) for finding in caught.value.findings]


def advised(**raw) -> list[str]:
    return [finding.code for finding in scarf(**raw).findings]


@pytest.mark.parametrize(
    ("wood", "held_by", "form", "length"),
    [
        ("hard", "nothing", "plain", 600),
        ("hard", "bolts", "plain", 300),
        ("hard", "bolts", "hooked", 200),
        ("straight-grained", "nothing", "plain", 1200),
        ("straight-grained", "bolts", "plain", 600),
        ("straight-grained", "bolts", "keyed", 400),
    ],
)
def test_lengths_are_those_of_tredgolds_table(wood, held_by, form, length):
    """Depth 100: without bolts, with bolts, with bolts and indents.

    Building Construction, Tredgold's rules; Chambers's Encyclopaedia, Carpentry.
    """
    joint = scarf(wood=wood, held_by=held_by, form=form)
    assert length_of(joint) == length
    assert joint.findings == ()


def test_the_hook_is_a_third_of_the_depth_and_without_bolts_has_wood_enough_before_it():
    """Indents come to a third of the depth; 8 to 10, or 16 to 20 times theirs is before them."""
    for wood, before in (("hard", 300), ("straight-grained", 600)):
        joint = scarf(form="hooked", wood=wood, held_by="nothing")
        sizes = {one.name: one.length for one in joint.sizes}
        assert sizes["hook, depth"] == Fraction(100, 3)
        assert sizes["from the scarf's ends to the hook"] == before
        assert joint.findings == ()
    # 200 mm before a hook of 33.3 is 6 times: too little even of oak.
    short = scarf(form="hooked", wood="hard", held_by="nothing", scarf_length=400)
    assert [one.code for one in short.findings] == ["scarf-short", "hook-shears"]
    assert advised(form="hooked", hook=40) == ["hook-deep"]


def test_a_glued_scarf_is_twelve_times_as_long_as_deep_and_not_less_than_eight():
    """20 mm at 1 in 12 is 240 long, at 4.764 degrees (Wood Handbook 2010, chapter 10)."""
    joint = scarf("20 mm")
    assert length_of(joint) == 240
    assert math.degrees(math.atan(joint.slopes[0].slope)) == pytest.approx(4.764, abs=5e-4)
    assert advised(thick="20 mm", scarf_length=160) == []
    assert advised(thick="20 mm", scarf_length="159.9 mm") == ["slope-steep"]


def test_both_boards_show_the_key_where_it_is_worked_out_by_hand():
    """60 deep and 300 long: hook 20, from 20 to 40; nib 10; a key of 30, from 135 to 165.

    Each slant falls from 50 to 20 on the one side of the hook, and from 40 to 10 on the other.
    """
    joint = scarf("60 mm", form="keyed", scarf_length=300, nib=10)
    for number, member in enumerate(joint.members):
        found = set()
        for line in lay_out(member.part, Face.REFERENCE_EDGE, Fraction(310)).lines:
            for a, b in (line.start, line.end):
                y, z = (a, b) if a > 60 or b in (10, 20, 40, 50) else (b, a)
                found.add((y, 60 - z if number else z))
        assert {(0, 50), (135, 20), (135, 40), (165, 40), (300, 10)} <= found


def test_the_key_is_two_wedges_longer_than_the_board_is_wide_and_driven_head_to_tail():
    """A key 30 by 20 across 80: 20 more at each edge are 120; at 1 in 40 that is 3 mm of taper."""
    (wedges,) = scarf("60 mm", form="keyed", scarf_length=360).loose
    part = wedges.member.part
    assert (wedges.made, part.reach) == (2, 120)
    assert (part.board.width, part.board.thickness) == (Fraction(33, 2), 20)
    lines = lay_out(part, Face.OUTSIDE, Fraction(130)).lines
    assert {frozenset((line.start, line.end)) for line in lines} == {
        frozenset({(Fraction(27, 2), 0), (Fraction(33, 2), 120)}),
        frozenset({(0, 120), (Fraction(33, 2), 120)}),
    }


def test_wedges_across_a_wide_board_keep_a_third_of_the_key_at_their_thin_end():
    """Across 300, 1 in 40 would take 8.5 of the 12 mm."""
    (wedges,) = scarf("60 mm", "300 mm", form="keyed", key=12).loose
    (slope, _) = lay_out(wedges.member.part, Face.OUTSIDE, Fraction(350)).lines
    assert sorted(x for x, _ in (slope.start, slope.end)) == [4, 8]


def test_what_cannot_be_cut_is_refused_at_its_place():
    assert told(other="90 mm") == [("thicknesses-differ", "")]
    assert told(hook=20) == [("not-together", "hook")]
    assert told(form="hooked", key=20) == [("not-together", "key")]
    assert told(form="hooked", hook=100) == [("no-room", "hook")]
    assert told(form="hooked", nib=34) == [("no-room", "nib")]
    assert told(form="keyed", key=90, scarf_length=90) == [("no-room", "key")]


@given(data=st.data())
@settings(max_examples=12, derandomize=True, deadline=None)
def test_boards_and_keys_take_up_no_room_twice_and_leave_none(data):
    raw = {"form": data.draw(st.sampled_from(["plain", "hooked", "keyed"]))}
    raw["held_by"] = data.draw(st.sampled_from(["glue", "bolts", "nothing"]))
    mated = mate(scarf(str(data.draw(lengths(12, 60))), str(data.draw(lengths(20, 90))), **raw))
    assert mated.clash < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3
