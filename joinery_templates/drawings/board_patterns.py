"""Patterns for a board's end: the wrap that folds over it, and its faces one by one.

The wrap, printed side towards you::

    +-- trim ----------------+
    |  label (upside down)   |
    |  inside face           |   v = reach + T + y
    +== fold ================+   v = reach + T
    |  end grain             |   v = reach + z
    +== fold ================+   v = reach
    |  outside face          |   v = reach - y
    |  label                 |
    +-- trim ----------------+
"""

from collections.abc import Iterator
from dataclasses import dataclass
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
from joinery_templates.drawings.lettering import Lettering, shortened
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import BoardEnd
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

VIEWS = ("wrap", "faces", "end-grain")
_EDGES = frozenset({Face.REFERENCE_EDGE, Face.FAR_EDGE})


@dataclass(frozen=True, slots=True)
class Spread:
    """Where the parts of a pattern of one face or three lie on the paper.

    Attributes:
        end: the board's end.
        hand: which end of the board it is.
        label_height: paper kept for the label below a face.
    """

    end: BoardEnd
    hand: Hand
    label_height: Fraction

    @property
    def shown(self) -> Fraction:
        """How much of the board is shown from its end on."""
        return self.end.reach + HOLD + self.label_height

    @property
    def mirrored(self) -> bool:
        """Whether x runs to the left on the outside face as drawn."""
        return seen_mirrored(Face.OUTSIDE, self.hand)


def wrap(place: Place, end: BoardEnd, lettering: Lettering) -> Pattern:
    """Outside face, end grain and inside face in one piece that folds over the end.

    Labels of both faces take the same number of lines, so the piece is of one height.
    """
    width = end.board.width
    outside = face_label(
        place, Face.OUTSIDE, not seen_mirrored(Face.OUTSIDE, place.hand), width, lettering
    )
    inside = face_label(
        place, Face.INSIDE, not seen_mirrored(Face.INSIDE, place.hand), width, lettering
    )
    spread = Spread(end, place.hand, max(outside.height, inside.height))
    lines = _wrap_lines(spread)
    words = joined(
        lines.width,
        lines.height,
        (
            outside.moved(SIDE, EDGE),
            inside.upside_down().moved(SIDE, lines.height - EDGE - inside.height),
            _side_words(spread, lines, lettering),
        ),
    )
    title = f"{place.board}, {place.role}, {place.hand}: wrap"
    return Pattern(title, place.corner, (lines, words))


@lru_cache(maxsize=256)
def _wrap_lines(spread: Spread) -> Figure:
    """The wrap's strokes; cached so that equal ends share one figure."""
    end, shown = spread.end, spread.shown
    board = end.board
    width = board.width + 2 * SIDE
    height = 2 * (EDGE + shown) + board.thickness
    u0, sign = lie_across(SIDE, board.width, spread.mirrored)
    fold = EDGE + shown
    far_fold = fold + board.thickness
    lies = {
        Face.OUTSIDE: Lie(u0, sign, fold, -1),
        Face.END_GRAIN: Lie(u0, sign, fold, 1),
        Face.INSIDE: Lie(u0, sign, far_fold, 1),
    }
    strokes: dict[Stroke, None] = {}
    for face, lie in lies.items():
        strokes.update(dict.fromkeys(drawn_face(lay_out(end, face, shown), lie)))
    left, right = SIDE, SIDE + board.width
    for v in (fold, far_fold):
        strokes[line(Role.FOLD, left - TICK, v, right + TICK, v)] = None
    for v in (fold - end.reach, far_fold + end.reach):
        strokes[line(Role.GUIDE, left, v, right, v)] = None
    for stroke in _outline(left, EDGE, right, height - EDGE):
        strokes[stroke] = None
    return Figure(width, height, tuple(strokes))


def _outline(
    left: Fraction, bottom: Fraction, right: Fraction, top: Fraction
) -> tuple[Stroke, ...]:
    """Board's edges up and down, and the lines to trim along, carried past the corners."""
    return (
        line(Role.OUTLINE, left, bottom, left, top),
        line(Role.OUTLINE, right, bottom, right, top),
        line(Role.TRIM, left - TICK, bottom, right + TICK, bottom),
        line(Role.TRIM, left - TICK, top, right + TICK, top),
    )


def _side_words(spread: Spread, lines: Figure, lettering: Lettering) -> Figure:
    """The words on the paper beside the board, which is trimmed away."""
    fold = EDGE + spread.shown
    far_fold = fold + spread.end.board.thickness
    texts = [
        Text("fold", (x, v - TINY_CAP / 2), TINY_CAP, align)
        for v in (fold, far_fold)
        for x, align in ((Fraction(1, 2), Align.LEFT), (lines.width - Fraction(1, 2), Align.RIGHT))
    ]
    left_words, right_words = "✂ reference edge", "✂ trim"
    if spread.mirrored:
        left_words, right_words = right_words, left_words
    room = spread.shown - 2 * TICK
    for v in (EDGE + TICK / 2, far_fold + TICK):
        for x, words in ((SIDE - 2, left_words), (lines.width - SIDE + 2 + TINY_CAP, right_words)):
            fitting = shortened(words, room, TINY_CAP, lettering)
            texts.append(Text(fitting, (x, v), TINY_CAP, Align.LEFT, 90))
    return Figure(lines.width, lines.height, texts=tuple(texts))


def single_face(place: Place, end: BoardEnd, face: Face, lettering: Lettering) -> Pattern:
    """One face by itself, as seen by someone who looks at it with the end at the top.

    A broad face carries its label; an edge has it beside, and the end grain below,
    on paper that is trimmed away. The end grain is seen with the outside face below.
    """
    mirrored = seen_mirrored(face, place.hand)
    if face in _EDGES:
        label = face_label(place, face, not mirrored, BESIDE, lettering, _edge_hint(mirrored))
        lines = _face_lines(end, face, mirrored, end.reach + HOLD + EDGE)
        at = (lines.width, (lines.height - label.height) / 2)
        box = (lines.width + BESIDE, max(lines.height, label.height))
    elif face is Face.END_GRAIN:
        label = face_label(
            place,
            face,
            not mirrored,
            max(BESIDE, end.board.width),
            lettering,
            "▼ outside face on this side",
        )
        lines = _face_lines(end, face, mirrored, Fraction(0)).moved(Fraction(0), label.height)
        at = (SIDE, Fraction(0))
        box = (max(lines.width, SIDE + label.width), lines.height + label.height)
    else:
        label = face_label(place, face, not mirrored, end.board.width, lettering)
        lines = _face_lines(end, face, mirrored, end.reach + HOLD + label.height)
        at = (SIDE, EDGE)
        box = (lines.width, lines.height)
    layers = (joined(*box, (lines,)), joined(*box, (label.moved(*at),)))
    title = f"{place.board}, {place.role}, {place.hand}: {face}"
    return Pattern(title, place.corner, layers)


@lru_cache(maxsize=256)
def _face_lines(end: BoardEnd, face: Face, mirrored: bool, shown: Fraction) -> Figure:
    """The strokes of one face, trimmed all round."""
    layout = lay_out(end, face, shown)
    height = layout.height
    u0, sign = lie_across(SIDE, layout.width, mirrored)
    end_grain = face is Face.END_GRAIN
    lie = Lie(u0, sign, EDGE, 1) if end_grain else Lie(u0, sign, EDGE + height, -1)
    left, right, bottom, top = SIDE, SIDE + layout.width, EDGE, EDGE + height
    strokes = dict.fromkeys(drawn_face(layout, lie))
    if not end_grain:
        across = line(Role.GUIDE, left, top - end.reach, right, top - end.reach)
        strokes.setdefault(across)
    ends = (bottom, top) if end_grain else (top,)
    closing = (line(Role.OUTLINE, left, v, right, v) for v in ends)
    for stroke in (*_outline(left, bottom, right, top), *closing):
        strokes.setdefault(stroke)
    return Figure(layout.width + 2 * SIDE, height + 2 * EDGE, tuple(strokes))


def _edge_hint(mirrored: bool) -> str:
    """Which side of an edge, as drawn, the outside face is on."""
    return "outside face on the right ►" if mirrored else "◄ outside face on the left"


def views(
    names: tuple[str, ...], place: Place, end: BoardEnd, lettering: Lettering
) -> Iterator[Pattern]:
    """The patterns of a board's end in the views asked for: wrap, faces, end-grain."""
    for name in names:
        if name == "wrap":
            yield wrap(place, end, lettering)
        elif name == "end-grain":
            yield single_face(place, end, Face.END_GRAIN, lettering)
        else:
            for face in Face:
                if face not in _EDGES or lay_out(end, face, end.reach + 1).lines:
                    yield single_face(place, end, face, lettering)
