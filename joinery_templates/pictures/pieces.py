"""The pieces of a joint as they stand on the paper: put together, apart, or alone at a stage."""

from collections.abc import Collection, Iterator, Sequence
from itertools import product
from math import ceil, floor, sqrt

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.exact import as_float
from joinery_templates.joint import Joint, Loose, Member
from joinery_templates.pictures.seen import (
    Frame,
    Line,
    Seen,
    Segment,
    contoured,
    edges,
    in_front,
    seen,
    visible,
)
from joinery_templates.pictures.solid import (
    Shown,
    Spot,
    blank,
    chord,
    cross,
    dot,
    flats,
    plane_of,
    region_of,
    unit,
)
from joinery_templates.pictures.stages import WorkedPiece
from joinery_templates.wood.board import BROAD, Face, Hand
from joinery_templates.wood.cut import Part, Surface, Vector, at_most
from joinery_templates.wood.faces import laid_out
from joinery_templates.wood.placement import Placement
from joinery_templates.wood.polygons import Waste

SINE, COSINE = 0.45, sqrt(1 - 0.45**2)
"""The eye stands 27 degrees above the bench (our judgement)."""
STEEPEST = 4
"""Along the line of sight what lies in wood is at most so many times as deep as square to it."""
GRAIN = ((0.22, 0.30, 0.80), (0.30, 0.50, 0.95), (0.38, 0.20, 0.60))
"""Lines of the grain: how far across the board, and from where to where behind the joint."""


AS_IT_IS = Frame(((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)))
"""The first piece's own frame."""


class Piece(Struct, frozen=True):
    """A piece as it is seen.

    Attributes:
        worked: which one, and how far it is cut.
        faces: those that look towards the eye.
        lines: on it, as far as it does not hide them itself.
    """

    worked: WorkedPiece
    faces: tuple[Seen, ...]
    lines: tuple[Segment, ...]


def eye_of(joint: Joint, mirrored: bool, is_behind: bool = False) -> Frame:
    """The first piece's frame as it is looked at.

    Args:
        joint: the joint.
        mirrored: whether it stands at a corner whose ends are the mirror image.
        is_behind: whether the eye is as far behind what comes off as it else is before it.
    """
    up, way = unit(_floats(joint.pose.up)), unit(_floats(joint.pose.apart))
    front = _floats(joint.pose.front)
    if is_behind:
        front = _mixed(front, 1.0, way, -2 * dot(front, way))
    rise = dot(front, up)
    level = unit(tuple(f - rise * u for f, u in zip(front, up, strict=True)))
    eye = _mixed(level, COSINE, up, SINE)
    upwards = _mixed(level, -SINE, up, COSINE)
    hand = joint.members[0].hand
    # A left-hand end's frame is right-handed; the other one is its mirror image.
    sign = 1.0 if (hand.other if mirrored else hand) is Hand.LEFT else -1.0
    right = _mixed(cross(upwards, eye), sign, eye, 0.0)
    return Frame((right, upwards, eye))


def placed(frame: Frame, at: Placement | None, off: Spot = (0.0, 0.0, 0.0)) -> Frame:
    """A piece's frame on the paper.

    Args:
        frame: of the first piece, as it is looked at.
        at: the piece's frame in that of the first; None for the first itself.
        off: moved so far, in the first one's frame.
    """
    if at is None:
        return Frame(frame.rows, frame.spot(off))
    columns = tuple(zip(*(_floats(row) for row in at.rows), strict=True))
    rows = tuple(tuple(dot(row, column) for column in columns) for row in frame.rows)
    shift = _mixed(_floats(at.shift), 1.0, off, 1.0)
    return Frame(rows, frame.spot(shift))  # type: ignore[arg-type]


def piece(worked: WorkedPiece, frame: Frame, shown: Shown) -> Piece:
    """How a piece looks, worked so far.

    Args:
        worked: the piece, and how far it is cut.
        frame: where it stands on the paper.
        shown: how much of it.
    """
    part = worked.member.part
    taken, waste = (tuple(map(region_of, cuts)) for cuts in (worked.taken, worked.waste))
    found = flats(blank(part, shown), taken, waste, frame.eye)
    faces = tuple(seen(flat, frame) for flat in found)
    lines = list(edges(faces))
    if worked.is_sawn:
        lines = [_sawn(line) for line in lines]
    if worked.has_guide and part.guide:
        plane = plane_of(part.slant.baseline if part.slant else at_most(1, part.guide[0]))
        lined = _lined(part, {face.name for face in faces})
        for flat, face in zip(found, faces, strict=True):
            if face.name in lined and (line := chord(flat, plane)):
                lines += _over(face, line, frame, Line.GUIDE)
    own = in_front(faces)
    return Piece(worked, faces, tuple(contoured(visible(lines, own), own)))


def _lined(part: Part, seen: Collection[str]) -> set[str]:
    """Of the seen faces those with the line: where waste ends in it, and of others any waste."""

    def is_lined(waste: Waste) -> bool:
        return not part.folds or sum(y == part.reach for _, y in waste.corners) > 1

    faces = (face for face in part.faces if face in seen)
    return {str(face) for face in faces if any(map(is_lined, laid_out(part, face).waste))}


def seen_among(pieces: Sequence[Piece], pressed: float = 0.0) -> Iterator[list[Segment]]:
    """For each piece what is seen of its lines.

    Args:
        pieces: all that stand together.
        pressed: how far one's wood may lie inside another's, whose lines are seen all the same.
    """
    for one in pieces:
        # What it hides of itself is left out already.
        others = in_front(
            face.lowered(STEEPEST * pressed)
            for other in pieces
            if other is not one
            for face in other.faces
        )
        yield list(contoured(visible(one.lines, others), others))


def _sawn(line: Segment) -> Segment:
    """The line of a side of waste, where the saw has gone down it."""
    is_side = line.line is Line.WASTE and Surface.SIDE in line.face
    return replace(line, line=Line.SAWN) if is_side else line


def _over(face: Seen, line: tuple[Spot, Spot], frame: Frame, what: Line) -> Iterator[Segment]:
    """What of a line on a face lies on its wood."""
    segment = Segment(what, frame.spot(line[0]), frame.spot(line[1]), (face.name, ""))
    for span in face.wood(segment):
        yield segment.part(*span)


def grain(one: Piece, frame: Frame, shown: Shown) -> Iterator[Segment]:
    """A few lines along the grain, on the broad faces behind the joint.

    Args:
        one: the piece.
        frame: where it stands on the paper.
        shown: how much of it.
    """
    part = one.worked.member.part
    wide = as_float(min(part.board.width, shown.across or part.board.width))
    reach, thick = as_float(part.reach), as_float(part.board.thickness)
    for face in one.faces:
        if face.name in BROAD:
            z = thick if face.name == Face.INSIDE else 0.0
            for x, low, high in GRAIN:
                ys = (reach + share * as_float(shown.past) for share in (low, high))
                start, end = ((x * wide, y, z) for y in ys)
                yield from _over(face, (start, end), frame, Line.GRAIN)


def hatching(one: Piece, pitch: float, rise: float) -> Iterator[Segment]:
    """Lines over the waste of a piece, on one grid for all its faces.

    Args:
        one: the piece.
        pitch: from line to line, measured upright.
        rise: how steep the lines are.
    """
    for face, outline, ring in ((f, *waste) for f in one.faces for waste in f.waste):
        offsets = [v - rise * u for (u, v, _), _ in ring]
        left, _, right, _ = outline.box
        p, q, r = face.depth
        for number in range(ceil(min(offsets) / pitch), floor(max(offsets) / pitch) + 1):
            ends = [(u, rise * u + number * pitch) for u in (left - 1, right + 1)]
            start, end = ((u, v, p * u + q * v + r) for u, v in ends)
            segment = Segment(Line.HATCH, start, end, (face.name, ""))
            span = outline.of(segment)
            if span:
                part = segment.part(*span)
                yield from (part.part(*wood) for wood in face.wood(part))


def zone(member: Member, at: Placement | None) -> Iterator[Spot]:
    """The corners of the part of a board that its joint takes up, in the first one's frame."""
    part, board = member.part, member.part.board
    along = part.shown_from(part.reach), part.reach
    spans = product(
        (0.0, as_float(board.width)), map(as_float, along), (0.0, as_float(board.thickness))
    )
    return map(placed(AS_IT_IS, at).spot, spans)


def apart(joint: Joint, let_in: Sequence[Loose], gap: float, most: float) -> Spot:
    """How far what comes off is moved, in the first one's frame.

    Args:
        joint: the joint.
        let_in: the loose pieces that come off; the first board where there are none.
        gap: left between what comes off and what stays.
        most: no farther than this, though they still touch: what slides along a groove.
    """
    pose = joint.pose
    way = unit(_floats(pose.apart if let_in or not joint.let_in else pose.also[0]))
    boards = list(zip(joint.members, (None, *joint.placements), strict=True))
    loose = [(one.member, at) for one in let_in for at in one.placements]
    still, off = (boards, loose) if loose else (boards[1:], boards[:1])
    far = max(dot(way, spot) for one, at in still for spot in zone(one, at))
    near = min(dot(way, spot) for one, at in off for spot in zone(one, at))
    return _mixed(way, min(far - near + gap, most), way, 0.0)


def _floats(vector: Vector | Spot) -> Spot:
    x, y, z = vector
    return as_float(x), as_float(y), as_float(z)


def _mixed(one: Spot, much: float, other: Spot, more: float) -> Spot:
    x, y, z = (much * a + more * b for a, b in zip(one, other, strict=True))
    return x, y, z
