"""Corners that lean or are not square in plan, against solids, formulas and the plain joints."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joints.box_joints import box_joint, canted_box_joint, fingers
from joinery_templates.joints.dovetails import angled_dovetail, canted_dovetail, through_dovetail
from joinery_templates.joints.kind import Request
from joinery_templates.joints.mitres import canted_mitre
from joinery_templates.joints.parameter import names_of
from joinery_templates.joints.spacing.parameters import SpacingParameters
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import Surface
from joinery_templates.wood.faces import lay_out
from tests.joints.leaning import CANTED, SAME_MM, leaning
from tests.joints.solids import CLOSE_MM3, board_solid, mate
from tests.joints.strategies import dovetails, example_request
from tests.joints.unfolded import Plane, unfolded
from tests.strategies import cases

CORNERS = [(5, 5, 90), (15, 10, 90), (0, 0, 120), (12, 12, 120), (-8, 6, 75), (30, 30, 90)]
GRID = 1e-6
PAST = 10


def plane_of(end, face, mate_outside=None):
    """A face's plane, with the coordinates that a layout of it has, in floats.

    Args:
        end: the board's end.
        face: which face.
        mate_outside: three points of the other board's outside face, for the end grain.
    """
    width, thickness = float(end.board.width), float(end.board.thickness)
    x, y, z = np.eye(3)
    if face is not Face.END_GRAIN:
        origin = {Face.INSIDE: thickness * z, Face.FAR_EDGE: width * x}.get(face, np.zeros(3))
        return Plane(origin, z if "edge" in face else x, y)
    one, two, three = mate_outside
    normal = np.cross(two - one, three - one)
    ends = [
        np.array([x0, (normal @ one - normal[0] * x0 - normal[2] * z0) / normal[1], z0])
        for x0, z0 in ((0.0, 0.0), (width, 0.0), (0.0, thickness))
    ]
    first = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
    second = np.cross(first, normal)
    second *= math.copysign(1, second[2]) / np.linalg.norm(second)
    return Plane(ends[0] + min(0.0, (ends[2] - ends[0]) @ first) * first, first, second)


def outside_of_mate(joint, number):
    """Three points of the other board's outside face, in a board's frame."""
    placement = joint.placement.reversed() if number else joint.placement
    corners = ((0, 20, 0), (50, 20, 0), (0, 60, 0))
    return [np.array(placement.point(tuple(map(Fraction, c))), dtype=float) for c in corners]


def drawn_wood(layout):
    """What is drawn as wood: the outline without the waste."""
    wood, *waste = (
        shapely.Polygon([tuple(map(float, corner)) for corner in shape.corners])
        for shape in (layout.outline, *layout.waste)
    )
    # On a grid: waste and wood share their outline to the last bit only as fractions.
    return shapely.difference(wood, shapely.unary_union(waste, grid_size=GRID), grid_size=GRID)


# Against the plain joints


def upright(plain, module, parameter_class):
    """The same request for a joint that could lean, standing upright and square."""
    values = {name: getattr(plain.given, name) for name in names_of(parameter_class)}
    more = ("slope", "tails_proud", "pins_proud", "fit")
    values |= {name: getattr(plain.given, name) for name in more if hasattr(plain.given, name)}
    return module.KIND.build(replace(plain, given=module.Parameters(**values)))


@cases(6)
@given(dovetails(fits=st.sampled_from([Fraction(0), Fraction(1, 20)])))
def test_upright_and_square_it_is_the_through_dovetail_in_all_that_is_told(request_):
    plain = through_dovetail.KIND.build(request_)
    joint = upright(request_, canted_dovetail, SpacingParameters)
    assert replace(joint, kind=plain.kind, title=plain.title) == plain


@pytest.mark.parametrize("changes", [{}, {"fingers": 4, "fit": "0.1 mm"}, {"start": "space"}])
def test_upright_and_square_it_is_the_box_joint_in_all_that_is_told(changes):
    request = example_request(box_joint.KIND, **changes)
    plain = box_joint.KIND.build(request)
    joint = upright(request, canted_box_joint, fingers.Parameters)
    assert replace(joint, kind=plain.kind, title=plain.title) == plain


@pytest.mark.parametrize("plan", [90, 108, 120])
def test_a_chisel_is_held_against_the_socket_as_it_stands_on_the_wood(plan):
    """With a fit, and tails that stand proud: read off the waste on the pin board's faces."""
    kind = angled_dovetail.KIND
    request = example_request(kind, plan=plan, fit="0.1 mm", tails_proud="1 mm")
    joint = kind.build(request)
    (socket,) = (one for one in joint.clearings if one.what.startswith("pin board"))
    end = joint.members[1].part
    for face, width in ((Face.INSIDE, socket.narrowest), (Face.OUTSIDE, socket.widest)):
        shapes = lay_out(end, face, end.reach + 10).waste
        assert len(shapes) == 3
        for shape in shapes:
            along = [x for x, y in shape.corners if y == min(y for _, y in shape.corners)]
            assert max(along) - min(along) == width


# Against solids


@pytest.mark.parametrize("module", CANTED)
@pytest.mark.parametrize(("lean", "second", "plan"), CORNERS)
def test_boards_meet_without_overlap_and_fill_the_corner(module, lean, second, plan):
    mated = mate(leaning(module, lean, second, plan))
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3


@pytest.mark.parametrize(("lean", "second", "plan"), CORNERS)
def test_half_tails_at_the_edges_mate_and_unfold_as_drawn(lean, second, plan):
    narrower = 90 * math.cos(math.radians(lean)) / math.cos(math.radians(second))
    boards = (
        Board("long", Fraction(90), Fraction(12)),
        Board("short", Fraction(round(narrower * 100), 100), Fraction(10)),
    )
    given_ = canted_dovetail.Parameters(
        start="half-tail",
        tails=2,
        half_tail=Fraction(15),
        pin=Fraction(5),
        slope=Fraction(1, 7),
        lean=Fraction(lean),
        second_lean=Fraction(second),
        plan=Fraction(plan),
        tails_proud=Fraction(1, 2),
        pins_proud=Fraction(1, 4),
    )
    joint = canted_dovetail.KIND.build(Request(boards, given_, Units.MM, Tools()))
    mated = mate(joint)
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3
    for member in joint.members:
        for face in (Face.OUTSIDE, Face.INSIDE, Face.REFERENCE_EDGE):
            wood = unfolded(board_solid(member.part), plane_of(member.part, face))
            drawn = drawn_wood(lay_out(member.part, face, member.part.reach + PAST))
            assert wood.boundary.hausdorff_distance(drawn.boundary) < SAME_MM


@cases(15)
@given(
    st.sampled_from(CANTED),
    st.integers(-300, 350),
    st.integers(-300, 350),
    st.integers(500, 1400),
    st.tuples(st.integers(6, 25), st.integers(6, 25)),
)
def test_whatever_the_angles_the_boards_mate_or_are_refused(module, lean, second, plan, thick):
    lean, second, plan = lean / 10, second / 10, plan / 10
    try:
        joint = leaning(module, lean, second, plan, 120, thick)
    except InputError:
        assume(False)
    if module is canted_mitre:
        # It reaches less far along a thick board than its thin mate lies beside it.
        longer = (replace(m, part=replace(m.part, reach=m.part.reach + 60)) for m in joint.members)
        joint = replace(joint, members=tuple(longer))
    mated = mate(joint)
    assert mated.overlap < CLOSE_MM3 * 10
    assert abs(mated.missing) < CLOSE_MM3 * 10


@pytest.mark.parametrize("module", CANTED)
@pytest.mark.parametrize(("lean", "second", "plan"), CORNERS)
@pytest.mark.parametrize("face", Face)
def test_faces_unfolded_from_the_solids_are_the_faces_drawn(module, lean, second, plan, face):
    joint = leaning(module, lean, second, plan)
    if module is canted_mitre and face is Face.END_GRAIN:
        return  # nothing is left of the square end
    for number, member in enumerate(joint.members):
        end = member.part
        layout = lay_out(end, face, end.reach + PAST)
        plane = plane_of(end, face, outside_of_mate(joint, number))
        wood = unfolded(board_solid(end), plane)
        drawn = drawn_wood(layout)
        assert wood.hausdorff_distance(drawn) < SAME_MM
        assert wood.boundary.hausdorff_distance(drawn.boundary) < SAME_MM
        edges = wood.boundary
        for line in layout.lines:
            for x, y in (line.start, line.end):
                assert edges.distance(shapely.Point(float(x), float(y))) < SAME_MM


def test_a_solid_cut_a_hundredth_of_a_millimetre_off_is_seen():
    """The check above cannot pass by being blunt."""
    joint = leaning(canted_dovetail, 15, 10)
    end = joint.members[0].part
    slant = replace(end.slant, end=end.slant.end.moved(Fraction(1, 100)))
    moved = replace(end, slant=slant)
    plane = plane_of(end, Face.OUTSIDE)
    wood = unfolded(board_solid(moved), plane)
    drawn = drawn_wood(lay_out(end, Face.OUTSIDE, end.reach + PAST))
    assert wood.boundary.hausdorff_distance(drawn.boundary) > SAME_MM * 5


@pytest.mark.parametrize(("lean", "second", "plan"), CORNERS)
def test_the_ends_lie_flush_in_the_other_boards_outside_face(lean, second, plan):
    joint = leaning(canted_dovetail, lean, second, plan)
    for number, member in enumerate(joint.members):
        normal = np.array(member.part.slant.end.normal, dtype=float)
        for point in outside_of_mate(joint, number):
            assert normal @ point == pytest.approx(float(member.part.slant.end.limit), abs=1e-8)


# Along the grain


@pytest.mark.parametrize(("lean", "second", "plan"), CORNERS)
def test_tails_and_pins_stand_along_the_grain_and_not_square_to_the_end(lean, second, plan):
    joint = leaning(canted_dovetail, lean, second, plan)
    tails, pins = (member.part for member in joint.members)
    for face in (Face.OUTSIDE, Face.INSIDE):
        leans = {
            (line.end[0] - line.start[0]) / (line.end[1] - line.start[1])
            for line in lay_out(tails, face, tails.reach + PAST).lines
            if line.surface is Surface.SIDE
        }
        assert leans == {Fraction(1, 7), Fraction(-1, 7)}
        sides = [
            line
            for line in lay_out(pins, face, pins.reach + PAST).lines
            if line.surface is Surface.SIDE
        ]
        assert len(sides) == 6
        assert all(line.start[0] == line.end[0] for line in sides)


@pytest.mark.parametrize(("lean", "second"), [(12, 12), (15, 10), (-10, -10)])
def test_half_pins_keep_their_width_when_the_edges_are_planed_level(lean, second):
    """A level cut through the outside arris, or the inside arris where that is higher."""
    joint = leaning(canted_dovetail, lean, second)
    end = joint.members[0].part
    sine, cosine = math.sin(math.radians(lean)), math.cos(math.radians(lean))
    rises = [12 * sine, 10 * math.sin(math.radians(second))]
    bottom = max(0, *rises)
    for face, z in ((Face.OUTSIDE, 0), (Face.INSIDE, 12)):
        lines = lay_out(end, face, end.reach + PAST).lines
        lowest = min(
            (x, y)
            for line in lines
            if line.surface is Surface.SIDE
            for x, y in (line.start, line.end)
        )
        height = float(lowest[0]) * cosine + z * sine - bottom
        assert height / cosine == pytest.approx(6, abs=1e-6)
