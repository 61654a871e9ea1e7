"""Grooves and rebates as solids: the bottom goes into both boards, and no hole shows outside.

The kernel shares nothing with the layout engine. The bottom is worked out here from the
boards alone: it lies in the corner as deep as the groove in either board's inside face.
"""

import dataclasses
from dataclasses import dataclass
from functools import lru_cache

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from manifold3d import Manifold
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.corners.meeting import Meeting
from joinery_templates.joints.grooves.parameters import FAR, REFERENCE, Groove, Rebate
from joinery_templates.joints.kind import Request
from joinery_templates.joints.spacing.parameters import HALF_TAIL
from joinery_templates.wood.cut import BoardEnd, Cut, at_least, at_most
from tests.joints.solids import CLOSE_MM3, board_solid, convex, mate, placed
from tests.joints.strategies import GAPS, NO_FIT, dovetails, example_request, lengths, widened
from tests.joints.test_lapped_solids import DRESSINGS, corners
from tests.strategies import SOLID_PROPERTY

KINDS = ("through-dovetail", *DRESSINGS)
SKIN = 0.01
"""Nothing of a groove may lie within this of an outside face, in mm."""
PAST = 60.0
"""How far the bottom reaches past the corner: farther than the boards are built."""
every_kind = pytest.mark.parametrize("name", KINDS)


@dataclass(frozen=True)
class Bottom:
    """A bottom's edge in the first board's frame: where its corner is, and where it lies."""

    low: float
    high: float
    y: float
    z: float

    def solid(self, less: float = 0.0) -> Manifold:
        """The bottom far past the corner, smaller all round by `less`."""
        sizes = (self.high - self.low - 2 * less, PAST, PAST)
        return Manifold.cube(sizes).translate((self.low + less, self.y + less, self.z + less))


@lru_cache(2)
def wooden(joint: Joint) -> tuple[Manifold, Manifold]:
    one, other = joint.members
    return board_solid(one.part), placed(board_solid(other.part), joint.placement)


def bottom_of(joint: Joint, low: Fraction, high: Fraction, depth: Fraction) -> Bottom:
    """From the placement and the boards' thicknesses."""
    tails, pins = (member.part.board for member in joint.members)
    inside = joint.placement.point((Fraction(0), Fraction(0), pins.thickness))
    return Bottom(float(low), float(high), float(inside[1] - depth), float(tails.thickness - depth))


def built(name: str, request: Request) -> Joint | None:
    """The joint, None where the groove was refused."""
    try:
        return kinds()[name].build(request)
    except InputError as error:
        if any(not finding.code.endswith("-off-board") for finding in error.findings):
            raise
        return None


@st.composite
def requests(draw: st.DrawFn, name: str, fits: st.SearchStrategy[Fraction] = NO_FIT) -> Request:
    return draw(dovetails(fits) if name == "through-dovetail" else corners(name, fits))


@st.composite
def grooved(draw: st.DrawFn, name: str, fits: st.SearchStrategy[Fraction] = NO_FIT) -> Request:
    """A groove anywhere on the board: in a tail, in a pin, or across a side."""
    request = draw(requests(name, fits))
    width = request.boards[0].width
    thinner = min(board.thickness for board in request.boards)
    low = width * draw(st.integers(1, 90)) / 100
    wide = min(Fraction(draw(st.integers(5, 120)), 10), width * Fraction(19, 20) - low)
    assume(wide > 0)
    depth = thinner * draw(st.integers(1, 9)) / 10
    groove = Groove(from_edge=low, width=wide, depth=depth)
    return replace(request, given=request.given.but(groove=groove))


@st.composite
def rebated(draw: st.DrawFn, name: str) -> Request:
    """A rebate along either edge, within what stands there or not."""
    request = draw(requests(name))
    thinner = min(board.thickness for board in request.boards)
    wide = request.boards[0].width * draw(st.integers(1, 40)) / 100
    depth = thinner * draw(st.integers(1, 9)) / 10
    rebate = Rebate(width=wide, depth=depth, edge=draw(st.sampled_from([REFERENCE, FAR])))
    return replace(request, given=request.given.but(rebate=rebate))


@lru_cache(1)
def ploughed_out(joint: Joint) -> tuple[Manifold, Manifold]:
    """The wood that the grooves alone have taken, in the first board's frame."""
    with_grooves = wooden(joint)
    without = wooden(without_grooves(joint))
    return without[0] - with_grooves[0], without[1] - with_grooves[1]


def without_grooves(joint: Joint) -> Joint:
    return with_ends(joint, tuple(ungrooved(member.part) for member in joint.members))


def ungrooved(end: BoardEnd) -> BoardEnd:
    return replace(end, cuts=tuple(cut for cut in end.cuts if not is_groove(cut)))


def is_groove(cut: Cut) -> bool:
    return any(str(half_space.surface) == "groove" for half_space in cut.half_spaces)


def with_ends(joint: Joint, ends: tuple[BoardEnd, ...]) -> Joint:
    one, other = (
        replace(member, part=end) for member, end in zip(joint.members, ends, strict=True)
    )
    return replace(joint, members=(one, other))


def seen_outside(joint: Joint) -> float:
    """How much of a groove lies in the skin of the glued corner, planed flush: its two faces."""
    tails, pins = (member.part.board for member in joint.members)
    corner = joint.placement.point((Fraction(0), Fraction(0), Fraction(0)))
    # The tail board's outside face is z = 0, and the pin board's is y = this.
    face = float(corner[1])
    size = float(max(tails.width, pins.width)) + 100
    over = Manifold.cube((size, size, 50.0 + SKIN)).translate((-20, -20, -50.0))
    before = Manifold.cube((size, 50.0 + SKIN, size)).translate((-20, face - 50.0, -20))
    return sum((out ^ skin).volume() for out in ploughed_out(joint) for skin in (over, before))


def beyond(joint: Joint, bottom: Bottom) -> float:
    """What the grooves take from the wood of both boards in the corner, bottom aside."""
    return sum((out - bottom.solid(-1e-6)).volume() for out in ploughed_out(joint))


@st.composite
def perhaps_widened(draw: st.DrawFn, request: Request) -> tuple[Request, Fraction]:
    """One board wider, half the time; and what the groove then lies farther in on the first."""
    is_mitred = hasattr(request.given, "mitred_edge")  # there the boards must meet level
    if is_mitred or not isinstance(request.given, Meeting) or draw(st.booleans()):
        return request, Fraction(0)
    near, far = draw(lengths(1, 20)), draw(lengths(0, 20))
    number, groove = draw(st.sampled_from((0, 1))), request.given.groove
    # Told from the wider board's edge, wherever the narrower one stands.
    moved = request.given.but(groove=groove.but(from_edge=groove.from_edge + near))
    wide = widened(replace(request, given=moved), number, (near, far), draw(st.booleans()))
    return wide, Fraction(0) if number else near


@every_kind
@SOLID_PROPERTY
@given(st.data())
def test_a_groove_takes_the_bottom_and_shows_on_no_outside_face(name, data):
    plain = data.draw(grooved(name))
    request, farther = data.draw(perhaps_widened(plain))
    joint = built(name, request)
    assume(joint is not None)
    groove = plain.given.groove
    low = groove.from_edge + farther
    bottom = bottom_of(joint, low, low + groove.width, groove.depth)
    first, second = wooden(joint)
    # It goes in, and it is snug: a bottom larger by a tenth meets wood.
    assert sum((bottom.solid() ^ wood).volume() for wood in (first, second)) < CLOSE_MM3
    larger = dataclasses.replace(bottom, y=bottom.y - 0.1, z=bottom.z - 0.1).solid()
    assert sum((larger ^ wood).volume() for wood in (first, second)) > 0.1
    assert seen_outside(joint) < CLOSE_MM3
    # Stopped at each other's bottom, in whichever wood stands there, but for under a lap.
    if not any("lap covers" in step.words for step in joint.steps):
        assert beyond(joint, bottom) < 0.01
    mated = mate(joint)
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3


def joint_groove(joint: Joint) -> tuple[Fraction, Fraction, Fraction]:
    """From the table of sizes: its two sides and its depth."""
    sizes = {size.name: size.length for size in joint.sizes}
    low = sizes["groove, from the reference edge"]
    return low, low + sizes["groove, how wide"], sizes["groove, how deep"]


@every_kind
@SOLID_PROPERTY
@given(st.data())
def test_a_rebate_takes_the_bottom_and_nothing_more(name, data):
    """It is open to an edge, where any hole beside the bottom would be seen."""
    request = data.draw(rebated(name))
    joint = built(name, request)
    assume(joint is not None)
    rebate, width = request.given.rebate, request.boards[0].width
    low = Fraction(0) if rebate.edge == REFERENCE else width - rebate.width
    bottom = bottom_of(joint, low, low + rebate.width, rebate.depth)
    assert sum((bottom.solid() ^ wood).volume() for wood in wooden(joint)) < CLOSE_MM3
    assert beyond(joint, bottom) < 0.01
    assert seen_outside(joint) < CLOSE_MM3
    mated = mate(joint)
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3


@every_kind
@SOLID_PROPERTY
@given(st.data())
def test_with_a_clearance_the_bottom_goes_in_and_nothing_shows(name, data):
    request = data.draw(grooved(name, GAPS))
    joint = built(name, request)
    assume(joint is not None)
    bottom = bottom_of(joint, *joint_groove(joint))
    assert sum((bottom.solid() ^ wood).volume() for wood in wooden(joint)) < CLOSE_MM3
    assert seen_outside(joint) < CLOSE_MM3
    assert mate(joint).overlap < CLOSE_MM3


# Faults that these checks must see


def example_with_groove(name: str, from_edge: Fraction = Fraction(20)) -> Joint:
    """A kind's example with a groove of 5 x 4 mm, and half pins as they come out."""
    request = example_request(kinds()[name])
    groove = Groove(from_edge=from_edge, width=Fraction(5), depth=Fraction(4))
    return kinds()[name].build(
        replace(request, given=request.given.but(half_pin=None, groove=groove))
    )


def with_groove_from(joint: Joint, member: int, start: Fraction | None) -> Joint:
    """The groove of one board begun elsewhere: None lets it run out at the end."""

    def moved(cut: Cut) -> Cut:
        if not is_groove(cut):
            return cut
        kept = tuple(h for h in cut.half_spaces if not h.normal[1])
        return Cut(kept if start is None else (*kept, at_least(1, start)))

    ends = [one.part for one in joint.members]
    ends[member] = replace(ends[member], cuts=tuple(moved(cut) for cut in ends[member].cuts))
    return with_ends(joint, tuple(ends))


def test_the_check_sees_a_groove_run_out_through_a_tail():
    joint = example_with_groove("through-dovetail")
    assert seen_outside(joint) < CLOSE_MM3
    assert seen_outside(with_groove_from(joint, 0, None)) > 0.1


def test_the_check_sees_a_groove_stopped_too_early():
    joint = example_with_groove("through-dovetail")
    bottom = bottom_of(joint, Fraction(20), Fraction(25), Fraction(4)).solid()
    stopped = with_groove_from(joint, 0, Fraction(9))
    assert sum((bottom ^ wood).volume() for wood in wooden(joint)) < CLOSE_MM3
    assert sum((bottom ^ wood).volume() for wood in wooden(stopped)) > 1


def test_the_check_sees_a_groove_run_out_through_a_pin():
    """Near the reference edge it lies in a half pin, and would come out at the pin's end."""
    joint = example_with_groove("through-dovetail", Fraction(1, 2))
    assert seen_outside(joint) < CLOSE_MM3
    assert seen_outside(with_groove_from(joint, 1, None)) > 0.1


def test_a_rebate_in_a_half_tail_is_stopped_though_a_lap_covers_the_tail():
    """At the edge the hole beside the lap would be seen."""
    kind = kinds()["lapped-dovetail"]
    request = example_request(kind)
    given_ = kind.parameter_class(
        start=HALF_TAIL, rebate=Rebate(width=Fraction(5), depth=Fraction(4))
    )
    joint = kind.build(replace(request, given=given_))
    bottom = bottom_of(joint, Fraction(0), Fraction(5), Fraction(4))
    assert beyond(joint, bottom) < 0.01
    assert beyond(with_groove_from(joint, 0, None), bottom) > 1


# Corners that are not square in plan


def bottom_between(joint: Joint, low: Fraction, high: Fraction, depth: Fraction) -> Manifold:
    """A bottom whose edges reach to the floors of both boards' grooves, past the boards."""
    one, other = (member.part.board.thickness - depth for member in joint.members)
    held = (
        at_least(0, low),
        at_most(0, high),
        at_least(2, one),
        joint.placement.half_space(at_least(2, other)),
    )
    return convex(held, Manifold.cube((400, 400, 400), center=True))


@SOLID_PROPERTY
@given(
    plan=st.integers(60, 135),
    thick=st.tuples(lengths(9, 20), lengths(9, 20)),
    low=st.integers(1, 60),
    proud=st.sampled_from(["0", "1 mm"]),
    tails=st.integers(1, 3),
)
def test_at_any_plan_angle_the_bottom_goes_in_and_nothing_shows(plan, thick, low, proud, tails):
    kind = kinds()["angled-dovetail"]
    request = example_request(kind, plan=plan, tails_proud=proud, tails=tails)
    depth = Fraction(round(min(thick) * 4), 12)
    groove = Groove(from_edge=Fraction(low), width=Fraction(5), depth=depth)
    boards = [replace(b, thickness=t) for b, t in zip(request.boards, thick, strict=True)]
    told = request.given.but(half_pin=None, groove=groove)
    joint = kind.build(replace(request, boards=tuple(boards), given=told))
    bottom = bottom_between(joint, groove.from_edge, groove.from_edge + 5, depth)
    larger = bottom_between(joint, groove.from_edge, groove.from_edge + 5, depth + Fraction(1, 10))
    woods = wooden(joint)
    assert sum((bottom ^ wood).volume() for wood in woods) < CLOSE_MM3
    assert sum((larger ^ wood).volume() for wood in woods) > 0.1
    # The glued corner planed flush lies behind both outside faces.
    planed = at_least(2, Fraction(0)), joint.placement.half_space(at_least(2, Fraction(0)))
    skin = at_most(2, Fraction(SKIN))
    for out in ploughed_out(joint):
        assert (out - bottom).volume() < 0.01
        for face in (skin, joint.placement.half_space(skin)):
            assert convex((*planed, face), out).volume() < CLOSE_MM3
    mated = mate(joint)
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3
