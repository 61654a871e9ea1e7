"""A joint's pictures as figures: apart, together, with its waste; and one for each step."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise
from math import hypot, pi, sin

from msgspec import Struct

from joinery_templates.drawings.figure import Align, Figure, Role, Stroke, Text
from joinery_templates.drawings.lettering import (
    Lettering,
    Paragraph,
    column,
    text_corners,
    wrapped,
)
from joinery_templates.joint import Joint, Member
from joinery_templates.pictures.pieces import Piece, apart, extent, eye_of, piece, placed
from joinery_templates.pictures.seen import Frame, Line, Segment, visible
from joinery_templates.pictures.solid import Spot
from joinery_templates.pictures.stages import Stage, View, finished, views, with_waste
from joinery_templates.pictures.words import BROAD, FACE_CAP, OnPaper, Row, Writer, exact
from joinery_templates.wood.placement import Placement

NAME_CAPS = Fraction(11, 5), Fraction(9, 5), Fraction(8, 5)
APART, TOGETHER, WASTE = "Apart", "Together", "Waste, hatched"
CAPTION_CAP = Fraction(23, 10)
WIDEST_NAMES = Fraction(30), Fraction(14)
"""A longer name takes several lines."""
MARGIN = Fraction(1)
"""Paper round a picture, in mm."""
WORDS_BESIDE = Fraction(9)
"""Room that is left for words beside the pieces, all round."""
HATCHING = 1.5
"""From one line of hatching to the next, on the paper."""
HERE: Spot = (0.0, 0.0, 0.0)

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
WAVE, SWING, BENDS = 16.0, 0.7, 12
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
        self._past = max(3 * thick, Fraction(20))
        places = zip(joint.members, (None, *joint.placements), strict=True)
        loose = ((one.member, at) for one in joint.loose for at in one.placements)
        self._stands = (
            *(_Stand(one, at, at is None and not joint.loose) for one, at in places),
            *(_Stand(one, at, True) for one, at in loose),
        )
        self._off = apart(joint, 2 * float(thick), 6 * float(thick))
        self._pieces: dict[tuple[int, Stage, Spot, bool, float], Piece] = {}

    def of_joint(self, width: Fraction, height: Fraction) -> tuple[Figure, ...]:
        """The joint apart, together, and the board that is set out first with its waste.

        Args:
            width: that one of them may have.
            height: that one of them may have, and a little more for its caption.
        """
        shown = {
            APART: finished(self._joint, is_apart=True),
            TOGETHER: finished(self._joint),
        }
        if any(one.part.cuts for one in self._joint.members):
            shown[WASTE] = with_waste(self._joint)
        scale = self._scale(shown.values(), width - 2 * WORDS_BESIDE, height - 2 * WORDS_BESIDE)
        return tuple(
            self._captioned(words, self._figure(view, scale, with_edges=words != TOGETHER))
            for words, view in shown.items()
        )

    def of_steps(self, width: Fraction, height: Fraction) -> tuple[Figure | None, ...]:
        """For each step of the order of work how things are then; None where nothing new shows.

        Args:
            width: that one of them may have, names beside the pieces left aside.
            height: that one of them may have.
        """
        shown = views(self._joint)
        room = width - 2 * MARGIN, height - 2 * MARGIN
        scale = self._scale((view for view in shown if view), *room)
        return tuple(self._figure(view, scale, small=True) if view else None for view in shown)

    def _captioned(self, words: str, figure: Figure) -> Figure:
        caption = Paragraph(words, CAPTION_CAP, align=Align.CENTRE)
        below = column((caption,), figure.width, self._lettering)
        up = figure.moved(Fraction(0), below.height + 1)
        return Figure(
            figure.width, up.height + below.height + 1, up.strokes, (*up.texts, *below.texts)
        )

    def _scale(self, shown: Iterable[View], width: Fraction, height: Fraction) -> float:
        """The largest at which all of several pictures fit, and not above full size."""
        boxes = [extent(list(self._bodies(view)), self._past) for view in shown]
        return min(
            1.0,
            *(float(width) / (right - left) for left, _, right, _ in boxes),
            *(float(height) / (high - low) for _, low, _, high in boxes),
        )

    def _bodies(self, view: View) -> Iterator[tuple[Member, Frame]]:
        return ((stage.member, frame) for _, stage, frame in self._placed(view))

    def _placed(self, view: View) -> Iterator[tuple[int, Stage, Frame]]:
        """The pieces of a picture: their numbers, how far they are cut, where they stand."""
        for stage in view.stages:
            for number, stand in enumerate(self._stands):
                if stand.member is stage.member:
                    off = self._off if view.is_apart and stand.comes_off else HERE
                    yield number, stage, placed(self._eye, stand.at, off)

    def _figure(
        self, view: View, scale: float, small: bool = False, with_edges: bool = False
    ) -> Figure:
        def on_paper(u: float, v: float) -> tuple[float, float]:
            return u * scale, v * scale

        pitch = HATCHING / scale
        pieces = [self._piece(*one, pitch, not small) for one in self._placed(view)]
        faces = [face for one in pieces for face in one.faces]
        seen = [(one, list(visible(one.lines, faces))) for one in pieces]
        drawn = {
            what: [
                s
                for _, lines in seen
                for line in lines
                if (line.line is Line.GRAIN) is what
                for s in _strokes(line, on_paper)
            ]
            for what in (False, True)
        }
        writer = Writer(faces, drawn[False], on_paper, scale, self._lettering)
        told: set[str] = set()
        for one, lines in seen:
            if one.member.role not in told:
                told.add(one.member.role)
                writer.name(one, list(self._ways(one, small)))
                if with_edges and one.member in self._joint.members:
                    writer.reference_edge(one, lines)
        grain = writer.clear(drawn[True])
        strokes = (*drawn[False], *grain, *writer.strokes)
        return _cropped(strokes, tuple(writer.texts), self._lettering)

    def _ways(self, one: Piece, small: bool) -> Iterator[list[Row]]:
        """Ways to write a piece's name, its role and face; in a small picture the name alone."""
        member = one.member
        name, role = member.part.board.name, member.role
        face = next((face.name for face in one.faces if face.name in BROAD), "")
        is_short = small or member not in self._joint.members
        more = () if is_short else (role if role != name else "", face)
        for cap in NAME_CAPS[is_short:]:
            for room in WIDEST_NAMES:
                rows: list[Row] = [
                    (words, cap, True)
                    for words in wrapped(name, room, cap, self._lettering, bold=True)
                ]
                yield rows + [(words, FACE_CAP, False) for words in more if words]

    def _piece(
        self, number: int, stage: Stage, frame: Frame, pitch: float, with_grain: bool
    ) -> Piece:
        key = (number, stage, frame.shift, with_grain, pitch if stage.waste else 0.0)
        if key not in self._pieces:
            self._pieces[key] = piece(stage, frame, self._past, pitch, with_grain)
        return self._pieces[key]


def _strokes(line: Segment, on_paper: OnPaper) -> Iterator[Stroke]:
    """A line on the paper; wavy where the board is broken off."""
    (x, y), (x1, y1) = on_paper(*line.at(0)), on_paper(*line.at(1))
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
    for one, other in pairwise(spots):
        yield Stroke(ROLES[line.line], exact(*one), exact(*other))


def _cropped(strokes: tuple[Stroke, ...], texts: tuple[Text, ...], lettering: Lettering) -> Figure:
    """A figure just large enough."""
    corners = [spot for stroke in strokes for spot in (stroke.start, stroke.end)]
    corners += [spot for text in texts for spot in text_corners(text, lettering)]
    (left, right), (low, high) = ((min(one), max(one)) for one in zip(*corners, strict=True))
    figure = Figure(right - left + 2 * MARGIN, high - low + 2 * MARGIN, strokes, texts)
    return figure.moved(MARGIN - left, MARGIN - low)
