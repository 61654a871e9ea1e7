"""Keys as solids: they fill their sockets, drop in square to the face, and lock the joint."""

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Vector
from joinery_templates.wood.faces import lay_out
from joinery_templates.wood.placement import Placement
from tests.joints.keyed_layouts import BUTT, EDGE, KEYED, MITRE, keyed
from tests.joints.solids import CLOSE_MM3, board_solid, mate, placed
from tests.joints.strategies import PRESSED, example_request
from tests.strategies import PROPERTY, SOLID_PROPERTY

WIDE_GAPS = st.integers(5, 50).map(lambda count: Fraction(count, 100))
every_keyed = pytest.mark.parametrize("kind", KEYED, ids=[kind.name for kind in KEYED])


def moved(placement: Placement, by: Vector) -> Placement:
    x, y, z = (Fraction(a) + Fraction(b) for a, b in zip(placement.shift, by, strict=True))
    return replace(placement, shift=(x, y, z))


def clash(joint: Joint, boards: tuple[float, ...], keys: tuple[float, ...]) -> float:
    """The volume that the keys share with the first board when both are moved, in mm³."""
    first = board_solid(joint.members[0].part).translate(boards)
    (loose,) = joint.loose
    solids = [placed(board_solid(loose.member.part), moved(at, keys)) for at in loose.placements]
    return sum((first ^ key).volume() for key in solids)


def square_to_the_line(kind) -> tuple[float, float, float]:
    """Out of the joint, into the first board, in its own frame."""
    return {EDGE: (-1.0, 0.0, 0.0), BUTT: (0.0, 1.0, 0.0), MITRE: (-0.7071, 0.7071, 0.0)}[kind]


def along_the_line(kind) -> tuple[float, float, float]:
    x, y, z = square_to_the_line(kind)
    return y, -x, z


@every_keyed
@SOLID_PROPERTY
@given(data=st.data())
def test_without_a_gap_keys_and_boards_fill_the_joint_and_share_nothing(kind, data):
    mated = mate(kind.build(data.draw(keyed(kind))))
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3


@every_keyed
@SOLID_PROPERTY
@given(data=st.data())
def test_a_gap_leaves_empty_what_shapely_finds_around_the_key(kind, data):
    """The key's outline moved out by the gap all round, with sharp corners."""
    request = data.draw(keyed(kind, WIDE_GAPS, most=1, longest=36))
    joint = kind.build(request)
    told = request.given
    length, half, waist = (float(x) for x in (told.key_length, told.key_width / 2, told.waist / 2))
    key = shapely.Polygon(
        [
            (-half, 0),
            (half, 0),
            (waist, length / 2),
            (half, length),
            (-half, length),
            (-waist, length / 2),
        ]
    )
    socket = key.buffer(float(told.fit), join_style="mitre", mitre_limit=10)
    depth = float(told.depth or request.boards[0].thickness)
    mated = mate(joint)
    assert mated.overlap < CLOSE_MM3
    # The region that is checked stays a thousandth inside the boards.
    assert mated.missing == pytest.approx((socket.area - key.area) * depth, rel=0.03)


@every_keyed
@SOLID_PROPERTY
@given(data=st.data())
def test_a_pressed_key_needs_more_room_than_it_has(kind, data):
    assert mate(kind.build(data.draw(keyed(kind, PRESSED, most=1)))).clash > 0.1


@every_keyed
@SOLID_PROPERTY
@given(data=st.data())
def test_a_board_can_move_neither_away_from_the_joint_line_nor_along_it(kind, data):
    joint = kind.build(data.draw(keyed(kind)))
    assert clash(joint, (0, 0, 0), (0, 0, 0)) < CLOSE_MM3
    for way in (square_to_the_line(kind), along_the_line(kind)):
        assert clash(joint, way, (0, 0, 0)) > 1
    back = tuple(-x for x in along_the_line(kind))
    assert clash(joint, back, (0, 0, 0)) > 1


@every_keyed
@SOLID_PROPERTY
@given(data=st.data())
def test_a_key_drops_in_square_to_the_face_and_a_floor_stops_it(kind, data):
    request = data.draw(keyed(kind))
    joint = kind.build(request)
    for lift in (0.01, 0.5, 3, 30):
        assert clash(joint, (0, 0, 0), (0, 0, -lift)) < CLOSE_MM3
    sunk = clash(joint, (0, 0, 0), (0, 0, 0.5))
    assert sunk < CLOSE_MM3 if request.given.through else sunk > 1


@every_keyed
@PROPERTY
@given(data=st.data())
def test_no_wood_is_told_as_waste_twice(kind, data):
    """A socket ends at the joint line: a mitre's waste before it is hatched by itself."""
    for member in kind.build(data.draw(keyed(kind, PRESSED))).members:
        face = lay_out(member.part, Face.OUTSIDE, member.part.reach + 1)
        waste = [shapely.Polygon(shape.corners) for shape in face.waste]
        told = sum(shape.area for shape in waste)
        assert told == pytest.approx(shapely.unary_union(waste).area, abs=1e-6)


def test_the_check_sees_a_key_that_is_no_dovetail():
    """A straight key lets its board go: the same check finds no clash."""
    joint = EDGE.build(example_request(EDGE))
    (loose,) = joint.loose
    end = loose.member.part
    (cut_off,) = (cut for cut in end.cuts if len(cut.half_spaces) == 1)
    straight = replace(end, board=replace(end.board, width=Fraction(1)), cuts=(cut_off,))
    thin = replace(loose, member=replace(loose.member, part=straight))
    assert clash(joint, (-1, 0, 0), (0, 0, 0)) > 1
    assert clash(replace(joint, loose=(thin,)), (-1, 0, 0), (0, 13, 0)) < CLOSE_MM3
