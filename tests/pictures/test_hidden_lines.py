"""What a picture draws is what is seen: held against the kernel's solids and a depth buffer."""

from collections.abc import Iterator, Sequence
from math import ceil

import numpy as np
import pytest
from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, Member
from joinery_templates.joints.catalogue import kinds
from joinery_templates.pictures.pieces import apart, eye_of, piece, placed, seen_among
from joinery_templates.pictures.seen import Frame, Line, Segment, edges
from joinery_templates.pictures.solid import Shown
from joinery_templates.pictures.stages import WorkedPiece
from joinery_templates.wood.board import Board, Hand
from joinery_templates.wood.cut import BoardEnd, Cut, Surface
from joinery_templates.wood.hole import round_hole
from tests.joints.strategies import example_request
from tests.joints.varied import varied
from tests.pictures.z_buffer import NOTHING, SIDE, Looked, look, solid

SHOWN = Shown(Fraction(25))
EDGES = (Line.CONTOUR, Line.EDGE, Line.TORN)
NEAR = 2
"""So many squares beside a line still belong to it."""
AT_ENDS = 3 * SIDE
"""Nearer to its ends a line is not looked at: there other lines begin."""
SLOPE = 40 * SIDE
"""How much deeper a steep face may be a square further on, in mm."""

Standing = list[tuple[WorkedPiece, Frame]]


def standing(joint: Joint, is_apart: bool) -> Standing:
    eye, off = eye_of(joint, False), (0.0, 0.0, 0.0)
    if is_apart:
        off = apart(joint, joint.let_in, 21.3, 103.0)
    boards = zip(joint.members, (None, *joint.placements), strict=True)
    inside = [(one.member, at) for one in joint.loose if one.is_inside for at in one.placements]
    let_in = [(one.member, at) for one in joint.let_in for at in one.placements]
    found = []
    for number, (member, at) in enumerate((*boards, *inside, *let_in)):
        comes_off = number >= len(joint.members) if let_in else number == 0
        frame = placed(eye, at, off) if comes_off else placed(eye, at)
        found.append((WorkedPiece(member, member.part.cuts), frame))
    return found


def drawn(pieces: Standing, shown: Shown = SHOWN, pressed: float = 0.0) -> list[Segment]:
    made = [piece(worked, frame, shown) for worked, frame in pieces]
    return [line for lines in seen_among(made, pressed) for line in lines if line.line in EDGES]


def looked(pieces: Standing, shown: Shown = SHOWN) -> Looked:
    rounds = [(*worked.taken, Cut(worked.member.part.stock)) for worked, _ in pieces]
    bores = [[one.bore for one in cuts if one.bore] for cuts in rounds]
    return look([(solid(worked, shown), frame) for worked, frame in pieces], bores)


def samples(line: Segment) -> Iterator[tuple[float, float, float]]:
    """Points along a line, its ends left out."""
    low = AT_ENDS / line.length if line.length else 1.0
    if low >= 0.5:
        return
    count = ceil(line.length / (4 * SIDE))
    for number in range(count + 1):
        share = low + (1 - 2 * low) * number / count
        u, v, w = (a + share * (b - a) for a, b in zip(line.start, line.end, strict=True))
        yield u, v, w


def not_seen(lines: Sequence[Segment], seen: Looked) -> list[tuple[Segment, str]]:
    """Drawn lines of which a point is hidden, or lies where no other plane begins."""
    wrong = []
    for line in lines:
        for u, v, w in samples(line):
            depth, plane = seen.around(u, v, NEAR)
            if depth.min() > w + SLOPE / 10 or not (np.abs(depth - w) < SLOPE).any():
                wrong.append((line, "hidden"))
                break
            if plane.min() == plane.max():
                wrong.append((line, "no edge"))
                break
            if line.line is Line.CONTOUR and NOTHING not in plane:
                wrong.append((line, "no contour"))
                break
    return wrong


def mask(lines: Sequence[Segment], seen: Looked) -> np.ndarray:
    """The squares at lines, and a few beside them."""
    found = np.zeros(seen.plane.shape, bool)
    around = range(-NEAR, NEAR + 1)
    for line in lines:
        shares = np.linspace(0, 1, max(1, ceil(line.length / (SIDE / 2))) + 1)
        u, v = (line.start[a] + shares * (line.end[a] - line.start[a]) for a in (0, 1))
        columns = np.rint((u - seen.left) / SIDE).astype(int)
        rows = np.rint((v - seen.low) / SIDE).astype(int)
        found[rows, columns] = True
    for axis in (0, 1):
        found = np.logical_or.reduce([np.roll(found, beside, axis) for beside in around])
    return found


def not_drawn(lines: Sequence[Segment], seen: Looked) -> int:
    """How many squares there are where another plane begins and no line is drawn."""
    return int((seen.changes() & ~mask(lines, seen)).sum())


def contour_not_drawn(lines: Sequence[Segment], seen: Looked) -> int:
    """The same for the paper alone and the lines that stand out against it."""
    paper = on_paper(seen)
    heavy = [line for line in lines if line.line in (Line.CONTOUR, Line.TORN)]
    return int((paper.changes() & ~mask(heavy, paper)).sum())


def on_paper(seen: Looked) -> Looked:
    """Only whether there is anything."""
    return Looked(seen.left, seen.low, seen.depth, seen.plane != NOTHING)


@pytest.mark.parametrize("is_apart", [True, False], ids=["apart", "together"])
@pytest.mark.parametrize("name", kinds())
def test_a_picture_shows_each_edge_that_is_seen_and_no_other(name, is_apart):
    """Of the example and its variations each other one."""
    joints = varied(name)[is_apart::2]
    assert joints
    for joint in joints:
        pieces = standing(joint, is_apart)
        lines, seen = drawn(pieces, pressed=max(0.0, -float(joint.allowance))), looked(pieces)
        assert not_seen(lines, seen) == []
        assert not_drawn(lines, seen) == 0
        assert contour_not_drawn(lines, seen) == 0


def joint_of(name: str, **given: object) -> Joint:
    kind = kinds()[name]
    return kind.build(example_request(kind, **given))


def test_where_wood_is_pressed_into_wood_the_line_between_them_is_drawn():
    """The kernel knows no edge there; on the paper it is one, wherever two boards meet."""
    joint = joint_of("box-joint", fit="-0.1 mm", first_proud="2 mm", second_proud="2 mm")
    pieces = standing(joint, is_apart=False)
    seen = looked(pieces)
    assert not_drawn(drawn(pieces), seen) > 100
    assert not_drawn(drawn(pieces, pressed=0.1), seen) == 0


def test_so_it_does_of_boards_that_are_broken_off_across_their_joint():
    pieces = standing(joint_of("through-dovetail"), is_apart=True)
    shown = Shown(Fraction(25), Fraction(37))
    lines, seen = drawn(pieces, shown), looked(pieces, shown)
    assert not_seen(lines, seen) == []
    assert not_drawn(lines, seen) == 0


@pytest.fixture(scope="module")
def tails():
    pieces = standing(joint_of("through-dovetail"), is_apart=True)
    return pieces, drawn(pieces), looked(pieces)


def test_the_check_sees_a_line_left_out(tails):
    _, lines, seen = tails
    longest = sorted(lines, key=lambda line: line.length)[-10:]
    assert all(not_drawn([one for one in lines if one is not line], seen) for line in longest)


def test_the_check_sees_hidden_lines_drawn(tails):
    """All edges of the faces that look towards the eye, without asking what lies before them."""
    pieces, _, seen = tails
    made = [piece(worked, frame, SHOWN) for worked, frame in pieces]
    every = [line for one in made for line in edges(one.faces)]
    assert len(not_seen(every, seen)) > 5


def test_the_check_sees_a_line_out_of_place(tails):
    _, lines, seen = tails
    off = [line.beside(4 * SIDE) for line in lines if line.line is Line.EDGE]
    assert len(not_seen(off, seen)) > len(off) / 2


def test_the_check_sees_contour_and_edge_exchanged(tails):
    _, lines, seen = tails
    other = {Line.EDGE: Line.CONTOUR, Line.CONTOUR: Line.EDGE}
    exchanged = [replace(one, line=other.get(one.line, one.line)) for one in lines]
    assert {what for _, what in not_seen(exchanged, seen)} == {"no contour"}
    assert contour_not_drawn(exchanged, seen) > 100


def test_a_bored_hole_is_drawn_round_and_without_the_flats_that_make_it():
    """A post with a deep hole in an edge, one right through it, and one in its end."""
    middle = Fraction(20), Fraction(30), Fraction(15)
    holes = (
        round_hole(middle, 0, Fraction(12), Fraction(14)),
        round_hole((*middle[:1], Fraction(55), middle[2]), 2, Fraction(16)),
        round_hole(middle, 1, Fraction(10), Fraction(18)),
    )
    post = BoardEnd(Board("post", Fraction(40), Fraction(30)), holes, Fraction(70))
    worked = WorkedPiece(Member("post", post, Hand.LEFT), holes)
    rows = np.linalg.qr(np.array([[3.0, 1, 2], [2, -2, -1], [-1, -1.6, -1.2]]).T)[0].T
    pieces = [(worked, Frame(tuple(map(tuple, rows * np.sign(rows[:, :1])))))]
    lines, seen = drawn(pieces), looked(pieces)
    assert not_seen(lines, seen) == []
    assert not_drawn(lines, seen) == 0
    walls = [line for line in lines if line.face == (Surface.HOLE, Surface.HOLE)]
    assert sum(line.length for line in walls) < 1
