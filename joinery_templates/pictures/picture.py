"""A joint's pictures as figures: apart, together, with its waste; and one for each step."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from math import hypot, pi, sin

from msgspec import Struct

from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text
from joinery_templates.drawings.lettering import (
    Lettering,
    Paragraph,
    column,
    text_corners,
    wrapped,
)
from joinery_templates.joint import Joint, Member
from joinery_templates.pictures import solid
from joinery_templates.pictures.pieces import (
    Piece,
    apart,
    extent,
    eye_of,
    grain,
    hatching,
    piece,
    placed,
    seen_among,
)
from joinery_templates.pictures.seen import Box, Frame, Line, Segment, visible
from joinery_templates.pictures.stages import Stage, View, finished, views, with_waste
from joinery_templates.pictures.words import BROAD, FACE_CAP, Row, Said, Spot, Writer
from joinery_templates.wood.placement import Placement

NAME_CAPS = Fraction(11, 5), Fraction(9, 5), Fraction(8, 5)
APART, TOGETHER, WASTE = "Apart", "Together", "Waste, hatched"
CAPTION_CAP = Fraction(23, 10)
WIDEST_NAMES = Fraction(30), Fraction(14)
"""A longer name takes several lines."""
MARGIN = 1.0
"""Paper round a picture, in mm."""
WORDS_BESIDE = 9.0
"""Room that is left for words beside the pieces, all round."""
HATCHING = 1.5
"""From one line of hatching to the next, on the paper."""
WIDE, VERY_WIDE = 9, 13
"""A board more than so many times as wide as thick is shown only so many times as wide."""
HERE: solid.Spot = (0.0, 0.0, 0.0)

ROLES = {
    Line.CONTOUR: Role.CONTOUR,
    Line.EDGE: Role.INNER,
    Line.TORN: Role.THIN,
    Line.WASTE: Role.INNER,
    Line.SAWN: Role.CONTOUR,
    Line.HATCH: Role.HATCH,
    Line.GUIDE: Role.THIN,
    Line.GRAIN: Role.THIN,
}
"""A contour is twice as wide as an edge, and that twice as a thin line (ISO 128-2, from memory)."""
WAVE, SWING, BENDS = 16.0, 0.7, 8
"""Where a board is broken off the line swings so far to either side, once in so many mm, and is
drawn in so many straight pieces."""


class _Stand(Struct, frozen=True):
    """Where a piece stands: its frame in the first one's, and whether it is what comes off."""

    member: Member
    at: Placement | None
    comes_off: bool


class Pictures:
    """All pictures of one joint; no piece is worked out twice.

    Args:
        joint: the joint.
        mirrored: whether it stands at a corner whose ends are the mirror image.
        lettering: how wide words run.
    """

    def __init__(self, joint: Joint, mirrored: bool, lettering: Lettering) -> None:
        self._joint, self._lettering = joint, lettering
        self._eye = eye_of(joint, mirrored)
        boards = [member.part.board for member in joint.members]
        thick = max(board.thickness for board in boards)
        self._shown = solid.Shown(max(3 * thick, Fraction(20)), _across(joint, thick))
        places = zip(joint.members, (None, *joint.placements), strict=True)
        loose = ((one.member, at) for one in joint.loose for at in one.placements)
        self._stands = (
            *(_Stand(one, at, at is None and not joint.loose) for one, at in places),
            *(_Stand(one, at, True) for one, at in loose),
        )
        self._off = apart(joint, 2.1 * float(thick), 5.9 * float(thick))
        self._pieces: dict[tuple[int, solid.Spot], list[Piece]] = {}

    def of_joint(self, width: Fraction, height: Fraction) -> tuple[Figure, ...]:
        """The joint apart, together, and the board that is set out first with its waste.

        Args:
            width: that one of them may have.
            height: that one of them may have, its caption left aside.
        """
        shown = {
            APART: finished(self._joint, is_apart=True),
            TOGETHER: finished(self._joint),
        }
        if any(one.part.cuts for one in self._joint.members):
            shown[WASTE] = with_waste(self._joint)
        room = float(width), float(height)
        scale = self._scale(shown.values(), room, WORDS_BESIDE)
        return tuple(
            self._captioned(words, self._figure(view, scale, room, with_edges=words != TOGETHER))
            for words, view in shown.items()
        )

    def of_steps(self, width: Fraction, height: Fraction) -> tuple[Figure | None, ...]:
        """For each step of the order of work how things are then; None where nothing new shows.

        Args:
            width: that one of them may have.
            height: that one of them may have.
        """
        shown = views(self._joint)
        room = float(width), float(height)
        scale = self._scale((view for view in shown if view), room, MARGIN + SWING)
        return tuple(
            self._figure(view, scale, room, small=True) if view else None for view in shown
        )

    def _captioned(self, words: str, figure: Figure) -> Figure:
        caption = Paragraph(words, CAPTION_CAP, align=Align.CENTRE)
        below = column((caption,), figure.width, self._lettering)
        up = figure.moved(Fraction(0), below.height + 1)
        return Figure(
            figure.width, up.height + below.height + 1, up.strokes, (*up.texts, *below.texts)
        )

    def _scale(self, shown: Iterable[View], room: Spot, beside: float) -> float:
        """The largest at which all of several pictures fit, and not above full size."""
        scale = 1.0
        for view in shown:
            left, low, right, high = self._extent(view)
            for free, size in zip(room, (right - left, high - low), strict=True):
                scale = min(scale, (free - 2 * beside) / size)
        return scale

    def _extent(self, view: View) -> Box:
        bodies = ((stage.member, frame) for _, stage, frame in self._placed(view))
        return extent(list(bodies), self._shown)

    def _placed(self, view: View) -> Iterator[tuple[int, Stage, Frame]]:
        """The pieces of a picture: their numbers, how far they are cut, where they stand."""
        for stage in view.stages:
            for number, stand in enumerate(self._stands):
                if stand.member is stage.member:
                    off = self._off if view.is_apart and stand.comes_off else HERE
                    yield number, stage, placed(self._eye, stand.at, off)

    def _figure(
        self,
        view: View,
        scale: float,
        room: Spot,
        small: bool = False,
        with_edges: bool = False,
    ) -> Figure:
        left, low, right, high = self._extent(view)
        u, v = scale * (left + right) / 2, scale * (low + high) / 2
        across, up = room[0] / 2 - MARGIN, room[1] / 2 - MARGIN
        page = (u - across, v - up), (u + across, v + up)
        standing = [(*one, self._piece(*one)) for one in self._placed(view)]
        pieces = [one for *_, one in standing]
        pressed = max(0.0, -float(self._joint.allowance))
        faces = [face for one in pieces for face in one.faces]
        seen = list(zip(pieces, seen_among(pieces, pressed), strict=True))
        drawn = [ruled for _, own in seen for line in own for ruled in _ruled(line, scale)]
        writer = Writer(faces, (line for _, line in drawn), scale, page, self._lettering)
        told: set[str] = set()
        for one, own in seen:
            member = one.stage.member
            if member.role not in told:
                told.add(member.role)
                writer.name(one, self._ways(one, small))
                if with_edges and member in self._joint.members:
                    writer.reference_edge(one, own)
        hatch = (line for one, _ in seen for line in hatching(one, HATCHING / scale))
        drawn += (ruled for line in visible(hatch, faces) for ruled in _ruled(line, scale))
        if not small:
            lines = (line for _, _, at, one in standing for line in grain(one, at, self._shown))
            along = (line for one in visible(lines, faces) for _, line in _ruled(one, scale))
            drawn += ((Role.THIN, line) for line in writer.clear(along))
        drawn += ((Role.THIN, line) for line in writer.pointers)
        return _figure(drawn, writer.said, self._lettering)

    def _ways(self, one: Piece, small: bool) -> Iterator[list[Row]]:
        """Ways to write a piece's name, its role and face; in a small picture the name alone."""
        member = one.stage.member
        name, role = member.part.board.name, member.role
        face = next((face.name for face in one.faces if face.name in BROAD), "")
        is_short = small or member not in self._joint.members
        more = () if is_short else (role if role != name else "", face)
        for room in WIDEST_NAMES:
            for cap in NAME_CAPS[is_short:]:
                rows: list[Row] = [
                    (words, cap, True)
                    for words in wrapped(name, room, cap, self._lettering, bold=True)
                ]
                yield rows + [(words, FACE_CAP, False) for words in more if words]

    def _piece(self, number: int, stage: Stage, frame: Frame) -> Piece:
        known = self._pieces.setdefault((number, frame.shift), [])
        made = next((one for one in known if one.stage == stage), None)
        if made is None:
            made = piece(stage, frame, self._shown)
            known.append(made)
        return made


def _across(joint: Joint, thick: Fraction) -> Fraction | None:
    """How much of very wide boards is shown, where the joint runs along both their ends."""
    is_along = all(at.rows[0][0] == 1 and not at.shift[0] for at in joint.placements)
    widest = max(member.part.board.width for member in joint.members)
    return WIDE * thick if is_along and widest > VERY_WIDE * thick else None


def _ruled(line: Segment, scale: float) -> Iterator[tuple[Role, tuple[Spot, Spot]]]:
    """A line on the paper; wavy where the board is broken off."""
    (x, y), (x1, y1) = ((u * scale, v * scale) for u, v in (line.at(0), line.at(1)))
    spots = [(x, y), (x1, y1)]
    long = hypot(x1 - x, y1 - y)
    if line.line is Line.TORN and long > 2 * SWING:
        count = BENDS * max(1, round(long / WAVE))
        across = (y - y1) / long * SWING, (x1 - x) / long * SWING
        swings = ((n / count, sin(2 * pi * n / BENDS)) for n in range(count + 1))
        spots = [
            (x + share * (x1 - x) + swing * across[0], y + share * (y1 - y) + swing * across[1])
            for share, swing in swings
        ]
    return ((ROLES[line.line], ends) for ends in pairwise(spots))


def _figure(
    drawn: Sequence[tuple[Role, tuple[Spot, Spot]]], said: Sequence[Said], lettering: Lettering
) -> Figure:
    """Lines and words in a box that is just large enough."""
    spots = [spot for _, line in drawn for spot in line]
    for one in said:
        text = Text(one.row[0], _exact(one.at, (0.0, 0.0)), one.row[1], one.align, bold=one.row[2])
        for corner in text_corners(text, lettering):
            spots.append((float(corner[0]), float(corner[1])))
    across, up = zip(*spots, strict=True)
    off = min(across) - MARGIN, min(up) - MARGIN
    width, height = _exact((max(across) + MARGIN, max(up) + MARGIN), off)
    strokes = tuple(Stroke(role, _exact(a, off), _exact(b, off)) for role, (a, b) in drawn)
    texts = (
        Text(words, _exact(one.at, off), cap, one.align, bold=bold)
        for one in said
        for words, cap, bold in (one.row,)
    )
    return Figure(width, height, strokes, tuple(texts))


def _exact(spot: Spot, off: Spot) -> Point:
    """A point of the paper to a thousandth of a millimetre."""
    x, y = (round(1000 * (at - start)) for at, start in zip(spot, off, strict=True))
    return Fraction(x, 1000), Fraction(y, 1000)
