"""Patterns for a part of a board: the wrap that folds over it, and its faces one by one.

The wrap, printed side towards you::

    +-- trim ----------------+
    |  label (upside down)   |
    |  inside face           |   v = far fold + y
    +== fold ================+   v = far fold = fold + T + thickness of the paper
    |  end grain             |   v = fold + z
    +== fold ================+   v = fold
    |  outside face          |   v = fold - y
    |  label                 |
    +-- trim ----------------+
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from joinery_templates.drawings.face_view import Lie, drawn_face, lie_across, seen_mirrored
from joinery_templates.drawings.figure import (
    Align,
    Figure,
    Pattern,
    Role,
    Stroke,
    Text,
    joined,
    line,
)
from joinery_templates.drawings.grooves import groove_words
from joinery_templates.drawings.guide_line import above_guide, guide_words
from joinery_templates.drawings.labels import TINY_CAP, Place, face_label
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.drawings.slanted_faces import slanted_end_grain, slanted_face
from joinery_templates.drawings.trimming import EDGE, HOLD, SIDE, TICK, across
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import Part
from joinery_templates.wood.faces import lay_out

BESIDE = Fraction(62)
"""Room for the label beside a narrow face."""
SLIM = Fraction(40)
"""A broad face narrower than this has its label beside it, as edges have."""

WRAP, FACES, END_GRAIN = "wrap", "faces", "end-grain"
VIEWS = (WRAP, FACES, END_GRAIN)
_EDGES = frozenset({Face.REFERENCE_EDGE, Face.FAR_EDGE})


@dataclass(frozen=True, slots=True)
class Manner:
    """How patterns are drawn.

    Attributes:
        lettering: how wide words run.
        paper: thickness of the paper, which a wrap's fold takes up.
        sheet: width and height that one sheet offers; a wrap that misses it by its
            label gets a smaller label.
        seams: places across the board, from the reference edge, where the person wants
            a pattern cut that does not fit on one sheet.
        kerf: how wide the saw cuts, where that is to be seen.
    """

    lettering: Lettering
    paper: Fraction
    sheet: tuple[Fraction, Fraction]
    seams: tuple[Fraction, ...] = ()
    kerf: Fraction | None = None

    def takes(self, width: Fraction, height: Fraction) -> bool:
        """Whether one sheet takes a pattern of this size, upright or turned."""
        short, long = sorted((width, height))
        return short <= min(self.sheet) and long <= max(self.sheet)


@dataclass(frozen=True, slots=True)
class Spread:
    """Where the parts of a wrap lie on the paper.

    Attributes:
        end: the board's end.
        hand: which end of the board it is.
        label_height: paper kept for the label below a face.
        paper: thickness of the paper.
        kerf: how wide the saw cuts, where that is to be seen.
    """

    end: Part
    hand: Hand
    label_height: Fraction
    paper: Fraction
    kerf: Fraction | None = None

    @property
    def shown(self) -> Fraction:
        """How much of the board is shown from its end on."""
        return self.end.reach + HOLD + self.label_height

    @property
    def mirrored(self) -> bool:
        """Whether x runs to the left on the outside face as drawn."""
        return seen_mirrored(Face.OUTSIDE, self.hand)

    @property
    def fold(self) -> Fraction:
        """Where the fold on the outside arris is."""
        return EDGE + self.shown

    @property
    def far_fold(self) -> Fraction:
        """Where the fold on the inside arris is."""
        return self.fold + self.end.board.thickness + self.paper

    @property
    def size(self) -> tuple[Fraction, Fraction]:
        """Width and height of the whole pattern."""
        return self.end.board.width + 2 * SIDE, self.far_fold + self.shown + EDGE


def wrap(place: Place, end: Part, manner: Manner) -> Pattern:
    """Outside face, end grain and inside face in one piece that folds over the end."""
    for small, cut in ((False, False), (True, False), (False, True)):
        labels, spread = _wrap_labels(place, end, manner, small, cut)
        if manner.takes(*spread.size):
            break
    outside, inside = labels
    lines = _wrap_lines(spread)
    words = joined(
        lines.width,
        lines.height,
        (
            outside.moved(SIDE, EDGE),
            inside.upside_down().moved(SIDE, lines.height - EDGE - inside.height),
            _side_words(spread, lines, manner.lettering),
            _groove_words(end, spread.mirrored, spread.far_fold, 1, manner.lettering),
        ),
    )
    u0, sign = lie_across(SIDE, end.board.width, spread.mirrored)
    seams = tuple(sorted(u0 + sign * seam for seam in manner.seams))
    return Pattern(f"{place.board} wrap", place.corner, (lines, words), seams)


def _wrap_labels(
    place: Place, end: Part, manner: Manner, small: bool, cut: bool
) -> tuple[tuple[Figure, Figure], Spread]:
    """The labels of the outside and the inside face, and the wrap that they lead to."""
    outside, inside = (
        face_label(
            place,
            face,
            not seen_mirrored(face, place.hand),
            end.board.width,
            manner.lettering,
            small=small,
            cut=cut,
        )
        for face in (Face.OUTSIDE, Face.INSIDE)
    )
    height = max(outside.height, inside.height)
    return (outside, inside), Spread(end, place.hand, height, manner.paper, manner.kerf)


@lru_cache(maxsize=256)
def _wrap_lines(spread: Spread) -> Figure:
    """The wrap's strokes; cached so that equal ends share one figure."""
    end, shown = spread.end, spread.shown
    width, height = spread.size
    u0, sign = lie_across(SIDE, end.board.width, spread.mirrored)
    lies = {
        Face.OUTSIDE: Lie(u0, sign, spread.fold, -1),
        Face.END_GRAIN: Lie(u0, sign, spread.fold, 1),
        Face.INSIDE: Lie(u0, sign, spread.far_fold, 1),
    }
    left, right = SIDE, SIDE + end.board.width
    # No gauge line is asked for on a face from which nothing is cut.
    layouts = {face: lay_out(end, face, shown) for face in lies}
    strokes = [
        *(
            stroke
            for face, lie in lies.items()
            for stroke in drawn_face(
                layouts[face],
                lie,
                None if face is Face.END_GRAIN else end.reach + HOLD,
                spread.kerf,
            )
        ),
        *(across(Role.FOLD, left, right, v) for v in (spread.fold, spread.far_fold)),
        *(
            line(Role.GUIDE, left, v, right, v)
            for face, v in (
                (Face.OUTSIDE, spread.fold - end.reach),
                (Face.INSIDE, spread.far_fold + end.reach),
            )
            if layouts[face].waste and end.guide
        ),
        *_outline(left, EDGE, right, height - EDGE),
    ]
    return Figure(width, height, tuple(dict.fromkeys(strokes)))


def _outline(
    left: Fraction, bottom: Fraction, right: Fraction, top: Fraction
) -> tuple[Stroke, ...]:
    """Board's edges up and down, and the lines to trim along."""
    return (
        line(Role.OUTLINE, left, bottom, left, top),
        line(Role.OUTLINE, right, bottom, right, top),
        across(Role.TRIM, left, right, bottom),
        across(Role.TRIM, left, right, top),
    )


def _side_words(spread: Spread, lines: Figure, lettering: Lettering) -> Figure:
    """The words on the paper beside the board, which is trimmed away."""
    texts = [
        Text("fold", (x, v - TINY_CAP / 2), TINY_CAP, align)
        for v in (spread.fold, spread.far_fold)
        for x, align in ((Fraction(1, 2), Align.LEFT), (lines.width - Fraction(1, 2), Align.RIGHT))
    ]
    left_edge, right_edge = "reference edge", "far edge"
    if spread.mirrored:
        left_edge, right_edge = right_edge, left_edge
    room = spread.shown - 2 * TICK
    for v in (EDGE + TICK / 2, spread.far_fold + TICK):
        for x, edge in ((SIDE - 2, left_edge), (lines.width - SIDE + 2 + TINY_CAP, right_edge)):
            words = next(
                (
                    w
                    for w in (f"✂ cut here: {edge}", f"✂ {edge}")
                    if lettering.width(w, TINY_CAP) <= room
                ),
                "✂",
            )
            texts.append(Text(words, (x, v), TINY_CAP, Align.LEFT, 90))
    return Figure(lines.width, lines.height, texts=tuple(texts))


def single_face(place: Place, end: Part, face: Face, manner: Manner) -> Pattern:
    """One face by itself, as seen by someone who looks at it with the end at the top."""
    draw = _edge_face if face in _EDGES else _end_grain if face is Face.END_GRAIN else _broad_face
    return Pattern(f"{place.board} {face}", place.corner, draw(place, end, face, manner))


def _broad_face(place: Place, end: Part, face: Face, manner: Manner) -> tuple[Figure, ...]:
    mirrored = seen_mirrored(face, place.hand)
    # At an end the baseline needs no telling; a line away from it does.
    words = guide_words(end)
    slim = end.board.width < SLIM
    room = BESIDE if slim else end.board.width
    label = face_label(place, face, not mirrored, room, manner.lettering, words)
    below = _short_name(place.heading, end.board.width, manner) if slim else label
    shown = end.reach + HOLD + below.height
    lines = _face_lines(end, face, mirrored, shown, manner.kerf)
    written = [below.moved(SIDE, EDGE)]
    if face is Face.INSIDE:
        zero = EDGE + HOLD + below.height + end.reach
        written.append(_groove_words(end, mirrored, zero, -1, manner.lettering))
    lie = Lie(*lie_across(SIDE, end.board.width, mirrored), EDGE + shown, -1)
    written.append(above_guide(end, lay_out(end, face, shown), lie, manner.lettering))
    return _beside(lines, written, label if slim else None)


def _short_name(words: str, width: Fraction, manner: Manner) -> Figure:
    """A name for a face that has no room for its label."""
    name = column((Paragraph(words, Fraction(17, 10)),), width - 1, manner.lettering)
    return name.moved(Fraction(1, 2), Fraction(0))


def _beside(lines: Figure, words: list[Figure], label: Figure | None) -> tuple[Figure, ...]:
    """A face with its words, and its label beside it on paper that is trimmed away."""
    if label is None:
        return lines, joined(lines.width, lines.height, words)
    box = (lines.width + BESIDE, max(lines.height, label.height))
    words = [*words, label.moved(lines.width, (box[1] - label.height) / 2)]
    return replace(lines, width=box[0], height=box[1]), joined(*box, words)


def _groove_words(
    end: Part, mirrored: bool, zero: Fraction, v_sign: int, lettering: Lettering
) -> Figure:
    """The words beside the grooves of an inside face, just past the baseline.

    Args:
        end: the board's part.
        mirrored: whether x runs to the left on the paper.
        zero: where y = 0 lies on the paper.
        v_sign: 1 where y runs up and the face is read upside down, else -1.
        lettering: how wide words run.
    """
    u0, sign = lie_across(SIDE, end.board.width, mirrored)
    layout = lay_out(end, Face.INSIDE, end.reach + HOLD)
    turn = 180 if v_sign > 0 else 0
    return groove_words(layout, Lie(u0, sign, zero, v_sign), end.reach + HOLD / 2, turn, lettering)


def _end_grain(place: Place, end: Part, face: Face, manner: Manner) -> tuple[Figure, ...]:
    """The end grain with a tab for the label, which folds onto the outside face below it."""
    mirrored = seen_mirrored(face, place.hand)
    label = face_label(
        place,
        face,
        not mirrored,
        end.board.width,
        manner.lettering,
        "fold this tab onto the outside face",
    )
    grain = _end_grain_lines(end, mirrored, label.height, manner.kerf)
    return grain, joined(grain.width, grain.height, (label.moved(SIDE, EDGE),))


@lru_cache(maxsize=256)
def _end_grain_lines(end: Part, mirrored: bool, tab: Fraction, kerf: Fraction | None) -> Figure:
    if end.slant:
        layout = lay_out(end, Face.END_GRAIN, end.reach)
        return slanted_end_grain(layout, mirrored, tab, kerf)
    board = end.board
    fold = EDGE + tab
    top = fold + board.thickness
    u0, sign = lie_across(SIDE, board.width, mirrored)
    strokes = (
        *drawn_face(lay_out(end, Face.END_GRAIN, end.reach), Lie(u0, sign, fold, 1), kerf=kerf),
        across(Role.FOLD, SIDE, SIDE + board.width, fold),
        line(Role.OUTLINE, SIDE, top, SIDE + board.width, top),
        *_outline(SIDE, EDGE, SIDE + board.width, top),
    )
    return Figure(board.width + 2 * SIDE, top + EDGE, tuple(dict.fromkeys(strokes)))


def _edge_face(place: Place, end: Part, face: Face, manner: Manner) -> tuple[Figure, ...]:
    """An edge: a short name on it, the full label beside it on paper that is trimmed away."""
    mirrored = seen_mirrored(face, place.hand)
    outside = "outside face on the right ►" if mirrored else "◄ outside face on the left"
    beside = column(
        (
            Paragraph(place.heading, Fraction(4), bold=True),
            Paragraph(f"{place.role} · {face} · {place.place} · ▲ {place.up}", TINY_CAP),
            Paragraph(outside, TINY_CAP, bold=True),
            *(Paragraph(words, TINY_CAP) for words in (guide_words(end),) if words),
        ),
        BESIDE - 4,
        manner.lettering,
    )
    name = _short_name(f"{place.heading} {face}", end.board.thickness, manner)
    shown = end.reach + HOLD + name.height
    lines = _face_lines(end, face, mirrored, shown, manner.kerf)
    return _beside(lines, [name.moved(SIDE, EDGE)], beside)


@lru_cache(maxsize=256)
def _face_lines(
    end: Part, face: Face, mirrored: bool, shown: Fraction, kerf: Fraction | None
) -> Figure:
    """The strokes of a face of an end or a stretch, trimmed all round."""
    layout = lay_out(end, face, shown)
    if end.slant:
        return slanted_face(end.slant, end.board, layout, mirrored, kerf)
    u0, sign = lie_across(SIDE, layout.width, mirrored)
    left, right, top = SIDE, SIDE + layout.width, EDGE + layout.height
    zero = top + layout.low
    guides = [zero - end.guide[0]] if end.guide else []
    strokes = (
        *drawn_face(layout, Lie(u0, sign, zero, -1), end.reach + HOLD, kerf),
        *(
            line(Role.GUIDE, left, v, right, v) if end.folds else across(Role.GUIDE, left, right, v)
            for v in guides
        ),
        *((line(Role.OUTLINE, left, top, right, top),) if end.folds else ()),
        *_outline(left, EDGE, right, top),
    )
    return Figure(layout.width + 2 * SIDE, layout.height + 2 * EDGE, tuple(dict.fromkeys(strokes)))


def views(names: tuple[str, ...], place: Place, end: Part, manner: Manner) -> Iterator[Pattern]:
    """The patterns of a board's end in the views asked for, each once.

    ``faces`` are all faces that carry lines, the end grain among them. Where nothing can
    be folded over an end, they stand for the wrap.
    """
    wrapped = WRAP in names and end.folds
    if wrapped:
        yield wrap(place, end, manner)
    for face in end.faces:
        named = FACES in names or (face is Face.END_GRAIN and END_GRAIN in names)
        if (named or (WRAP in names and not wrapped)) and lay_out(end, face, end.reach + 1).lines:
            yield single_face(place, end, face, manner)
