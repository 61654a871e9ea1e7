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
from joinery_templates.drawings.labels import TINY_CAP, Place, face_label
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import Part
from joinery_templates.wood.faces import lay_out

SIDE = Fraction(11)
"""Paper beside the board, for the words that are trimmed away."""
HOLD = Fraction(6)
"""Paper past the baseline before the label, to hold the pattern by."""
EDGE = Fraction(4)
"""Paper past the trim line."""
TICK = Fraction(5)
"""How far fold and trim lines are carried into the paper beside the board."""
BESIDE = Fraction(62)
"""Room for the label beside a narrow face."""

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
    """

    lettering: Lettering
    paper: Fraction
    sheet: tuple[Fraction, Fraction]
    seams: tuple[Fraction, ...] = ()

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
    """

    end: Part
    hand: Hand
    label_height: Fraction
    paper: Fraction

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
    return (outside, inside), Spread(end, place.hand, height, manner.paper)


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
        *(stroke for face, lie in lies.items() for stroke in drawn_face(layouts[face], lie)),
        *(_across(Role.FOLD, left, right, v) for v in (spread.fold, spread.far_fold)),
        *(
            line(Role.GUIDE, left, v, right, v)
            for face, v in (
                (Face.OUTSIDE, spread.fold - end.reach),
                (Face.INSIDE, spread.far_fold + end.reach),
            )
            if layouts[face].waste
        ),
        *_outline(left, EDGE, right, height - EDGE),
    ]
    return Figure(width, height, tuple(dict.fromkeys(strokes)))


def _across(role: Role, left: Fraction, right: Fraction, v: Fraction) -> Stroke:
    """A line across the board, carried into the paper beside it."""
    return line(role, left - TICK, v, right + TICK, v)


def _outline(
    left: Fraction, bottom: Fraction, right: Fraction, top: Fraction
) -> tuple[Stroke, ...]:
    """Board's edges up and down, and the lines to trim along."""
    return (
        line(Role.OUTLINE, left, bottom, left, top),
        line(Role.OUTLINE, right, bottom, right, top),
        _across(Role.TRIM, left, right, bottom),
        _across(Role.TRIM, left, right, top),
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
    words = "" if end.folds else f"line carried across: {end.guide[1]}"
    label = face_label(place, face, not mirrored, end.board.width, manner.lettering, words)
    lines = _face_lines(end, face, mirrored, end.reach + HOLD + label.height)
    return lines, joined(lines.width, lines.height, (label.moved(SIDE, EDGE),))


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
    grain = _end_grain_lines(end, mirrored, label.height)
    return grain, joined(grain.width, grain.height, (label.moved(SIDE, EDGE),))


@lru_cache(maxsize=256)
def _end_grain_lines(end: Part, mirrored: bool, tab: Fraction) -> Figure:
    board = end.board
    fold = EDGE + tab
    top = fold + board.thickness
    u0, sign = lie_across(SIDE, board.width, mirrored)
    strokes = (
        *drawn_face(lay_out(end, Face.END_GRAIN, end.reach), Lie(u0, sign, fold, 1)),
        _across(Role.FOLD, SIDE, SIDE + board.width, fold),
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
        ),
        BESIDE - 4,
        manner.lettering,
    )
    room = end.board.thickness - 1
    name = column((Paragraph(f"{place.heading} {face}", Fraction(17, 10)),), room, manner.lettering)
    lines = _face_lines(end, face, mirrored, end.reach + HOLD + name.height)
    box = (lines.width + BESIDE, max(lines.height, beside.height))
    words = (
        name.moved(SIDE + Fraction(1, 2), EDGE),
        beside.moved(lines.width, (box[1] - beside.height) / 2),
    )
    return replace(lines, width=box[0], height=box[1]), joined(*box, words)


@lru_cache(maxsize=256)
def _face_lines(end: Part, face: Face, mirrored: bool, shown: Fraction) -> Figure:
    """The strokes of a face of an end or a stretch, trimmed all round."""
    layout = lay_out(end, face, shown)
    u0, sign = lie_across(SIDE, layout.width, mirrored)
    left, right, top = SIDE, SIDE + layout.width, EDGE + layout.height
    zero = top + layout.low
    guide = zero - end.guide[0]
    strokes = (
        *drawn_face(layout, Lie(u0, sign, zero, -1)),
        line(Role.GUIDE, left, guide, right, guide)
        if end.folds
        else _across(Role.GUIDE, left, right, guide),
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
