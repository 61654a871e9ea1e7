"""Whole frames as solids: two rails with both their ends, two stiles with all their joints."""

import pytest
from hypothesis import given, reject
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.catalogue import kinds
from joinery_templates.wood.placement import AGAINST, AS_IT_IS, ORIGIN, Placement
from tests.joints.exact_overlap import Wood, overlap, wood_of
from tests.joints.solids import full_regions
from tests.joints.worked import request_of
from tests.strategies import cases

KINDS = ("mortise-and-tenon", "haunched-mortise-and-tenon", "bridle", "halving")
RAIL, STILE = Fraction(330), Fraction(510)
IN_PLACE = Placement(AS_IT_IS, ORIGIN)


def from_far_end(length: Fraction) -> Placement:
    """The frame of a board's other end, its mirror image, in that of the one."""
    return Placement(AGAINST, (Fraction(0), length, Fraction(0)))


def with_both_ends(joint: Joint, number: int, lies: tuple[Placement, Placement]) -> Wood:
    """A board of the joint that has one at either end, each frame placed as told."""
    part, long = joint.members[number].part, (RAIL, STILE)[number]
    ahead = part.place(joint.members[number].hand).along or Fraction(0)
    sides, near = wood_of(part, long - ahead, lies[0])
    far_sides, far = wood_of(part, long - ahead, lies[1])
    return (*sides, *far_sides), (*near, *far)


@st.composite
def frames(draw: st.DrawFn) -> Joint:
    """A corner of a frame: of rails and stiles of any two sizes, with a horn or none."""
    name = draw(st.sampled_from(KINDS))
    rail, stile = draw(st.integers(40, 90)), draw(st.integers(40, 80))
    thick, more = draw(st.integers(15, 30)), draw(st.integers(0, 6))
    raw: dict[str, object] = {}
    if "tenon" in name:
        raw["horn"] = draw(st.integers(0, 25))
        raw["groove"] = draw(st.sampled_from([None, {"depth": draw(st.integers(4, 12))}]))
        raw["shoulder_far"] = draw(st.sampled_from([None, draw(st.integers(8, 20))]))
        if name.startswith("haunched"):
            raw["haunch"] = {"form": draw(st.sampled_from(["square", "sloping"]))}
        else:
            raw["through"] = draw(st.sampled_from([None, True]))
    else:
        raw["mitred"] = draw(st.booleans())
        raw["overhang"] = draw(st.integers(0, 5))
    sizes = (f"{rail} mm", f"{thick} mm"), (f"{stile} mm", f"{thick + more} mm")
    told = {key: value for key, value in raw.items() if value is not None}
    try:
        return kinds()[name].build(request_of(kinds()[name], *sizes, **told))
    except InputError:
        reject()


@cases(4)
@given(frames())
def test_no_wood_of_a_whole_frame_is_claimed_twice_and_none_is_missing(joint: Joint) -> None:
    ahead = joint.members[1].part.place(joint.members[1].hand).along or Fraction(0)
    along, up = from_far_end(RAIL), from_far_end(STILE - 2 * ahead)
    on_rail = joint.placement
    # All in the frame of the upper rail's left-hand end: the stiles, and the lower rail on them.
    below = on_rail.of(up).of(on_rail.reversed())
    rails = [with_both_ends(joint, 0, (lie, lie.of(along))) for lie in (IN_PLACE, below)]
    stiles = [
        with_both_ends(joint, 1, (lie.of(on_rail), lie.of(on_rail).of(up)))
        for lie in (IN_PLACE, along)
    ]
    assert [overlap(rail, stile) for rail in rails for stile in stiles] == [0] * 4
    # The first corner, and the one across from it.
    for lie, woods in (
        (IN_PLACE, (rails[0], stiles[0])),
        (below.of(along), (rails[1], stiles[1])),
    ):
        for region in full_regions(joint):
            block: Wood = (tuple(map(lie.half_space, region)), ())
            held = sum(overlap(block, wood) for wood in woods)
            assert held == overlap(block, block) > 0


@pytest.mark.parametrize("kind", ["mortise-and-tenon", "bridle"])
def test_the_check_sees_a_rail_that_is_a_hair_too_long(kind: str) -> None:
    sizes = (("60 mm", "20 mm"),) * 2
    joint = kinds()[kind].build(request_of(kinds()[kind], *sizes))
    pushed = Placement(AS_IT_IS, (Fraction(0), Fraction(1, 10), Fraction(0)))
    near = pushed.of(joint.placement)
    rail = with_both_ends(joint, 0, (IN_PLACE, from_far_end(RAIL)))
    assert overlap(rail, with_both_ends(joint, 1, (near, near.of(from_far_end(STILE))))) > 0
