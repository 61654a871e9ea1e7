"""Faces of random dovetails: neighbours agree, mirrors mirror, metric and inch are one layout."""

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.dovetails.through_dovetail import KIND, Parameters
from joinery_templates.joints.kind import Request
from joinery_templates.joints.parameter import Quantity, read_parameters
from joinery_templates.joints.spacing.parameters import HALF_PIN
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units, read_length
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import BoardEnd
from joinery_templates.wood.faces import FaceLayout, lay_out
from tests.joints.strategies import GAPS, NO_FIT, PRESSED, dovetails, with_given
from tests.strategies import PROPERTY
from tests.wood.slices import length_of_lines, outline_of_waste, shared_stretches

ANY = dovetails(fits=NO_FIT | GAPS | PRESSED)
Place = tuple[Fraction, Fraction, Fraction]
Lines = set[frozenset[tuple[Fraction, Fraction]]]


def face_layouts(end: BoardEnd) -> dict[Face, FaceLayout]:
    return {face: lay_out(end, face, end.reach + 10) for face in Face}


def in_space(end: BoardEnd, face: Face, point: tuple[Fraction, Fraction]) -> Place:
    """A point of a face in the board's frame."""
    one, two = point
    width, thickness, zero = end.board.width, end.board.thickness, Fraction(0)
    return {
        Face.OUTSIDE: (one, two, zero),
        Face.INSIDE: (one, two, thickness),
        Face.END_GRAIN: (one, zero, two),
        Face.REFERENCE_EDGE: (zero, two, one),
        Face.FAR_EDGE: (width, two, one),
    }[face]


def lies_on(end: BoardEnd, face: Face, place: Place) -> bool:
    x, y, z = place
    return {
        Face.OUTSIDE: z == 0,
        Face.INSIDE: z == end.board.thickness,
        Face.END_GRAIN: y == 0,
        Face.REFERENCE_EDGE: x == 0,
        Face.FAR_EDGE: x == end.board.width,
    }[face]


def line_ends(end: BoardEnd, layout: FaceLayout) -> set[Place]:
    return {
        in_space(end, layout.face, point)
        for line in layout.lines
        for point in (line.start, line.end)
    }


def disagreements(end: BoardEnd, layouts: dict[Face, FaceLayout]) -> set[Place]:
    """Points on an arris where a line ends on one of its two faces only."""
    places = {face: line_ends(end, layout) for face, layout in layouts.items()}
    return {
        place
        for one, other in combinations(Face, 2)
        for place in places[one] ^ places[other]
        if lies_on(end, one, place) and lies_on(end, other, place)
    }


def lines(layout: FaceLayout) -> Lines:
    return {frozenset((line.start, line.end)) for line in layout.lines}


@PROPERTY
@given(ANY)
def test_lines_of_neighbouring_faces_meet_on_the_arris_they_share(request_):
    for member in KIND.build(request_).members:
        layouts = face_layouts(member.part)
        assert disagreements(member.part, layouts) == set()
        # Each face's lines do reach the end, so that there is something to agree on.
        assert any(place[1] == 0 for place in line_ends(member.part, layouts[Face.OUTSIDE]))


def test_the_check_of_neighbours_sees_a_face_from_another_layout():
    joint = KIND.build(worked_request())
    end = joint.members[0].part
    other = KIND.build(with_given(worked_request(), half_pin=Fraction("7.01"))).members[0].part
    for face in (Face.OUTSIDE, Face.INSIDE, Face.END_GRAIN):
        mixed = face_layouts(end) | {face: face_layouts(other)[face]}
        assert disagreements(end, mixed)


@PROPERTY
@given(ANY)
def test_every_face_shows_the_boundary_of_its_waste_once(request_):
    """Against shapely's union of the waste."""
    for member in KIND.build(request_).members:
        for face, layout in face_layouts(member.part).items():
            expected = outline_of_waste(member.part, face, member.part.reach + 10)
            assert length_of_lines(layout) == pytest.approx(expected.length, abs=1e-7)
            assert shared_stretches(layout.lines) == 0


@PROPERTY
@given(ANY)
def test_every_line_lies_on_its_face_and_not_past_the_baseline(request_):
    for member in KIND.build(request_).members:
        board = member.part.board
        for layout in face_layouts(member.part).values():
            for x, y, z in line_ends(member.part, layout):
                assert 0 <= x <= board.width
                assert 0 <= y <= member.part.reach
                assert 0 <= z <= board.thickness


@PROPERTY
@given(ANY)
def test_tails_and_pins_are_the_width_on_every_row(request_):
    joint = KIND.build(request_)
    for row in joint.rows:
        positions = [Fraction(0), *(mark.position for mark in row.marks), row.width]
        steps = [after - before for before, after in pairwise(positions)]
        assert all(step > 0 for step in steps)
        assert sum(steps) == row.width == request_.boards[0].width


@PROPERTY
@given(ANY)
def test_rows_stand_where_the_lines_on_the_faces_do(request_):
    joint = KIND.build(request_)
    tails, pins = (member.part for member in joint.members)
    outside, baseline, pins_outside, pins_inside = (
        {mark.position for mark in row.marks} for row in joint.rows
    )
    width = request_.boards[0].width
    assert xs_at(tails, Face.OUTSIDE, Fraction(0)) == outside
    assert xs_at(tails, Face.OUTSIDE, tails.reach) - {0, width} == baseline
    assert xs_at(pins, Face.OUTSIDE, Fraction(0)) == pins_outside
    assert xs_at(pins, Face.INSIDE, Fraction(0)) == pins_inside


def xs_at(end: BoardEnd, face: Face, y: Fraction) -> set[Fraction]:
    layout = lay_out(end, face, end.reach + 10)
    return {x for x, at, _ in line_ends(end, layout) if at == y}


@PROPERTY
@given(dovetails(fits=NO_FIT | GAPS, starts=(HALF_PIN,)))
def test_half_pins_exchanged_give_the_mirrored_layout(request_):
    given_ = request_.given
    joint = KIND.build(request_)
    mirrored = KIND.build(
        with_given(request_, half_pin=given_.half_pin_far, half_pin_far=given_.half_pin)
    )
    for one, other in zip(joint.members, mirrored.members, strict=True):
        layouts, others = face_layouts(one.part), face_layouts(other.part)
        for face in (Face.OUTSIDE, Face.INSIDE, Face.END_GRAIN):
            width = one.part.board.width
            flipped = {frozenset((width - x, y) for x, y in line) for line in lines(layouts[face])}
            assert flipped == lines(others[face])
        assert lines(layouts[Face.REFERENCE_EDGE]) == lines(others[Face.FAR_EDGE])
        assert lines(layouts[Face.FAR_EDGE]) == lines(others[Face.REFERENCE_EDGE])
    assert joint.lengths == mirrored.lengths


def worked_request() -> Request:
    board = Board("board", Fraction(90), Fraction(12))
    given_ = Parameters(tails=3, half_pin=Fraction(7), pin=Fraction(4), slope=Fraction(1, 7))
    return Request((board, board), given_, Units.MM, Tools())


def written(request: Request, units: Units) -> Request:
    """The same request read back from bare text in other units."""

    def text(length: Fraction) -> str:
        return str(length / units.mm)

    raw: dict[str, object] = {}
    for parameter in KIND.parameters:
        value = getattr(request.given, parameter.name)
        if value is None:
            continue
        if parameter.quantity is Quantity.LENGTH:
            raw[parameter.name] = text(value)
        elif parameter.quantity is Quantity.SLOPE:
            raw[parameter.name] = f"{value.numerator}:{value.denominator}"
        else:
            raw[parameter.name] = value
    boards = tuple(
        replace(
            board,
            width=read_length(text(board.width), units),
            thickness=read_length(text(board.thickness), units),
        )
        for board in request.boards
    )
    given_ = read_parameters(Parameters, raw, units)
    return replace(request, boards=boards, given=given_, units=units)


def geometry(joint: Joint) -> Joint:
    """A joint without its words, which name the figures in the person's units."""
    return replace(joint, findings=(), steps=())


@PROPERTY
@given(dovetails(fits=NO_FIT | GAPS))
def test_metric_and_inch_forms_of_a_layout_are_equal_exactly(request_):
    metric, inch = (KIND.build(written(request_, units)) for units in (Units.MM, Units.INCH))
    assert geometry(metric) == geometry(inch) == geometry(KIND.build(request_))
    assert [f.code for f in metric.findings] == [f.code for f in inch.findings]


def test_the_comparison_of_metric_and_inch_sees_a_hair():
    request = worked_request()
    hair = with_given(request, pin=Fraction(4) + INCH / 10**9)
    assert geometry(KIND.build(written(hair, Units.MM))) != geometry(KIND.build(request))
