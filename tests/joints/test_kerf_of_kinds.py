"""For every kind: where a saw cut is shown, held against the solids and the order of work."""

import math
import re
from collections.abc import Iterator

import pytest

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, Member
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.housings.boards import SAWN_FROM
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Cut, HalfSpace, Part, Surface
from joinery_templates.wood.faces import FaceLayout, is_waste
from joinery_templates.wood.kerf import kerf_lines
from joinery_templates.wood.polygons import Edge
from tests.joints.varied import past_reach, varied

KERF = Fraction(1, 2)
NEAR = 1e-7
SAWN = (Surface.SIDE, Surface.SAWN_SHOULDER)
SHARES = (Fraction(1, 17), Fraction(4, 7))
AXES = {
    Face.OUTSIDE: (0, 1),
    Face.INSIDE: (0, 1),
    Face.END_GRAIN: (0, 2),
    Face.REFERENCE_EDGE: (2, 1),
    Face.FAR_EDGE: (2, 1),
}
Solid = list[float]
every_kind = pytest.mark.parametrize("kind", [kind for kind in kinds() if kind != "dowel"])
"""Of a dowelled joint nothing is sawn: see `test_sawn_or_chopped`."""


def faces_of(joint: Joint) -> Iterator[tuple[Member, FaceLayout]]:
    """All faces that carry lines, but the end grain that lies in a slanted plane of its own."""
    for member in joint.all_members:
        part = member.part
        for face in part.faces:
            if not (face is Face.END_GRAIN and part.slant):
                yield member, past_reach(part, face)


def in_board(part: Part, face: Face, point: tuple[Fraction, Fraction]) -> Solid:
    """A point of a face in the board's own frame."""
    place = [0.0, 0.0, 0.0]
    fixed = ({0, 1, 2} - set(AXES[face])).pop()
    far = {Face.INSIDE: part.board.thickness, Face.FAR_EDGE: part.board.width}
    place[fixed] = float(far.get(face, 0))
    for axis, value in zip(AXES[face], point, strict=True):
        place[axis] = float(value)
    return place


def beyond(plane: HalfSpace, place: Solid) -> float:
    """How far outside a half-space a place is, square to its boundary."""
    normal = [float(one) for one in plane.normal]
    dot = sum(n * p for n, p in zip(normal, place, strict=True))
    return (dot - float(plane.limit)) / math.hypot(*normal)


def inside(cut: Cut, place: Solid, slack: float = NEAR) -> bool:
    return all(beyond(plane, place) <= slack for plane in cut.half_spaces)


def on_board(layout: FaceLayout, place: tuple[float, float]) -> bool:
    """Whether a place of a face lies within the board's outline, which runs anticlockwise."""
    for edge in layout.outline.edges:
        (x0, y0), (x1, y1) = (tuple(map(float, end)) for end in (edge.start, edge.end))
        if (x1 - x0) * (place[1] - y0) < (y1 - y0) * (place[0] - x0):
            return False
    return True


def beyond_by(plane: HalfSpace, place: Solid) -> Iterator[Fraction]:
    """A place a hair outside a half-space: in the wood, where a face is left there at all."""
    for axis, at in enumerate(place):
        yield Fraction(at) + plane.normal[axis] / 10**6


def stands_on(line: Edge, place: tuple[float, float]) -> bool:
    """Whether a place is on a line; one that is only its end is on it too."""
    (x0, y0), (x1, y1) = (tuple(map(float, end)) for end in (line.start, line.end))
    long = math.hypot(x1 - x0, y1 - y0)
    along = ((place[0] - x0) * (x1 - x0) + (place[1] - y0) * (y1 - y0)) / long
    aside = ((place[0] - x0) * (y1 - y0) - (place[1] - y0) * (x1 - x0)) / long
    return abs(aside) < NEAR and -NEAR < along < long + NEAR


@every_kind
def test_each_shown_cut_lies_one_kerf_in_the_waste_beside_a_sawn_face(kind):
    for joint in varied(kind):
        for member, layout in faces_of(joint):
            part = member.part
            for line in kerf_lines(layout, KERF):
                ends = [in_board(part, layout.face, end) for end in (line.start, line.end)]
                middle = in_board(part, layout.face, line.at(Fraction(1, 2)))
                assert any(
                    plane.surface in SAWN
                    and all(abs(beyond(plane, end) + 0.5) < NEAR for end in ends)
                    and inside(cut, middle)
                    and (part.sawn is None or all(inside(Cut((part.sawn,)), end) for end in ends))
                    for cut in part.cuts
                    for plane in cut.half_spaces
                ), (member.role, layout.face, line)
                assert is_waste(part, *map(Fraction, (round(one, 9) for one in middle)))


@every_kind
def test_each_sawn_face_that_shows_a_line_has_its_cut_and_no_other_has(kind):
    found = 0
    for joint in varied(kind):
        for member, layout in faces_of(joint):
            part, cuts = member.part, kerf_lines(layout, KERF)
            first, second = AXES[layout.face]
            for line, share in ((line, share) for line in layout.lines for share in SHARES):
                at = line.at(share)
                place = in_board(part, layout.face, at)
                for cut in part.cuts:
                    for plane in cut.half_spaces:
                        if abs(beyond(plane, place)) > NEAR or not inside(cut, place):
                            continue
                        across = float(plane.normal[first]), float(plane.normal[second])
                        on_face = math.hypot(*across)
                        if not on_face or not _runs_along(line, across):
                            continue
                        # So far from the line on the face is half a mm square to the surface.
                        aside = 0.5 * math.hypot(*map(float, plane.normal)) / on_face / on_face
                        q = tuple(float(p) - aside * n for p, n in zip(at, across, strict=True))
                        in_waste = (
                            inside(cut, in_board(part, layout.face, q), -NEAR)
                            and on_board(layout, q)
                            and not is_waste(part, *beyond_by(plane, place))
                        )
                        reached = part.sawn is None or inside(Cut((part.sawn,)), place, -NEAR)
                        sawn = plane.surface in SAWN and line.surface in SAWN and reached
                        shown = any(stands_on(one, q) for one in cuts)
                        if in_waste:
                            assert shown == sawn, (member.role, layout.face, line, plane.surface)
                            found += sawn
    assert bool(found) == any(
        plane.surface in SAWN
        for joint in varied(kind)
        for member in joint.all_members
        for cut in member.part.cuts
        for plane in cut.half_spaces
    )


def _runs_along(line: Edge, across: tuple[float, float]) -> bool:
    run = [float(b - a) for a, b in zip(line.start, line.end, strict=True)]
    return abs(run[0] * across[0] + run[1] * across[1]) < NEAR * math.hypot(*run) * math.hypot(
        *across
    )


SAID = re.compile(
    r"[Ss]aw off the half-(?:pin|tail) waste|[Ss]aw off the spaces? at|"
    r"[Ss]aw across the (?:in|out)side|Saw the rebate|"
    r"[Ss]aw on (?:both faces|the (?:upper|lower) face) beside (?:it|the baseline)|"
    r"Saw out the front corner|saw beside it, on the waste side, \S+ mm deep|"
    r"Saw the square end|Saw and plane a square rebate|saw across beside the knifed shoulder"
)


@every_kind
def test_a_shoulder_is_sawn_where_the_order_of_work_says_so(kind):
    for joint in varied(kind):
        said = any(SAID.search(f"{step.heading}: {step.words}") for step in joint.steps)
        shoulders = [
            plane
            for member in joint.members
            for cut in member.part.cuts
            for plane in cut.half_spaces
            if plane.surface is Surface.SAWN_SHOULDER
        ]
        assert bool(shoulders) == said


def test_behind_a_housings_stop_the_walls_are_chopped_as_far_as_the_order_of_work_says():
    """Stopped 15 mm from the front edge, chopped for 30 mm more: the saw cuts begin at 45."""
    assert SAWN_FROM[Units.MM] == 30
    for joint in varied("sliding-dovetail"):
        side = joint.members[1].part
        layout = past_reach(side, Face.INSIDE)
        stop = min(x for shape in layout.waste for x, _ in shape.corners)
        begins = [min(one.start[0], one.end[0]) for one in kerf_lines(layout, KERF)]
        assert len(begins) == 2
        # Square to a wall that tapers the cut begins a hair further on or back.
        assert all(abs(x - (stop + 30 if stop else 0)) < 0.01 for x in begins)
