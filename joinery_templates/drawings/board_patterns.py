"""Patterns for a part of a board in the views asked for: the wrap, and its faces one by one."""

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from math import ceil

from msgspec.structs import replace

from joinery_templates.drawings.face_view import (
    Lie,
    drawn_face,
    laid_out,
    lie_across,
    seen_mirrored,
)
from joinery_templates.drawings.figure import (
    Figure,
    Pattern,
    Role,
    Text,
    joined,
    line,
)
from joinery_templates.drawings.grooves import inside_groove_words
from joinery_templates.drawings.guide_line import above_guide, guide_words
from joinery_templates.drawings.labels import TINY_CAP, Place, face_label, which_face
from joinery_templates.drawings.lettering import Paragraph, column
from joinery_templates.drawings.manner import Manner
from joinery_templates.drawings.slanted_faces import slanted_end_grain, slanted_face
from joinery_templates.drawings.trimming import EDGE, HOLD, SIDE, across, outline, trimmed
from joinery_templates.drawings.wrap import wrap
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Part

BESIDE = Fraction(62)
"""Room for the label beside a narrow face."""
NAME_STEP = 5
SLIM = Fraction(40)
"""A broad face narrower than this has its label beside it, as edges have."""

WRAP, FACES, END_GRAIN = "wrap", "faces", "end-grain"
VIEWS = (WRAP, FACES, END_GRAIN)
_EDGES = frozenset({Face.REFERENCE_EDGE, Face.FAR_EDGE})


def single_face(place: Place, end: Part, face: Face, manner: Manner) -> Pattern:
    """One face by itself, as seen by someone who looks at it with the end at the top."""
    draw = _edge_face if face in _EDGES else _end_grain if face is Face.END_GRAIN else _broad_face
    return Pattern(f"{place.board} {face}", place.corner, draw(place, end, face, manner))


def _broad_face(place: Place, end: Part, face: Face, manner: Manner) -> tuple[Figure, ...]:
    mirrored = seen_mirrored(face, place.hand)
    # At an end the baseline needs no telling; a line away from it does.
    words = guide_words(end, face)
    # A loose piece is cut off its stock below the joint: no words may stand in that waste.
    slim = end.board.width < SLIM or place.is_loose
    room = BESIDE if slim else end.board.width
    label = face_label(place, face, not mirrored, room, manner.lettering, words)
    name = "" if place.is_loose else place.heading
    below = _short_name(name, end.board.width, manner) if slim else label
    shown = end.reach + HOLD + below.height
    lines = _face_lines(end, face, mirrored, shown, manner.kerf)
    written = [below.moved(SIDE, EDGE)]
    if face is Face.INSIDE:
        zero = EDGE + HOLD + below.height + end.reach
        written.append(inside_groove_words(end, mirrored, zero, -1, manner.lettering))
    lie = Lie(*lie_across(SIDE, end.board.width, mirrored), EDGE + shown, -1)
    written.append(above_guide(end, laid_out(end, face, shown), lie, manner.lettering))
    return _beside(lines, written, label if slim else None)


def _short_name(words: str, width: Fraction, manner: Manner) -> Figure:
    """A name for a face that has no room for its label; along the face where it is slim."""
    cap, room = Fraction(17, 10), width - 1
    if all(manner.lettering.width(word, cap) <= room for word in words.split()):
        name = column((Paragraph(words, cap),), room, manner.lettering)
        return name.moved(Fraction(1, 2), Fraction(0))
    at = ((width + cap) / 2, Fraction(0))
    # In steps, so that corners whose names run alike wide share one drawing.
    long = Fraction(ceil((manner.lettering.width(words, cap) + 1) / NAME_STEP) * NAME_STEP)
    return Figure(width, long, texts=(Text(words, at, cap, turn=90),))


def _beside(lines: Figure, words: list[Figure], label: Figure | None) -> tuple[Figure, ...]:
    """A face with its words, and its label beside it on paper that is trimmed away."""
    if label is None:
        return lines, joined(lines.width, lines.height, words)
    box = (lines.width + BESIDE, max(lines.height, label.height))
    words = [*words, label.moved(lines.width, (box[1] - label.height) / 2)]
    return replace(lines, width=box[0], height=box[1]), joined(*box, words)


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
        layout = laid_out(end, Face.END_GRAIN, end.reach)
        return slanted_end_grain(layout, mirrored, tab, kerf)
    board = end.board
    fold = EDGE + tab
    top = fold + board.thickness
    u0, sign = lie_across(SIDE, board.width, mirrored)
    strokes = (
        *drawn_face(laid_out(end, Face.END_GRAIN, end.reach), Lie(u0, sign, fold, 1), kerf=kerf),
        across(Role.FOLD, SIDE, SIDE + board.width, fold),
        line(Role.OUTLINE, SIDE, top, SIDE + board.width, top),
        *outline(SIDE, EDGE, SIDE + board.width, top),
    )
    return trimmed(strokes)


def _edge_face(place: Place, end: Part, face: Face, manner: Manner) -> tuple[Figure, ...]:
    """An edge: a short name on it, the full label beside it on paper that is trimmed away."""
    mirrored = seen_mirrored(face, place.hand)
    outside = "outside face on the right ►" if mirrored else "◄ outside face on the left"
    beside = column(
        (
            Paragraph(place.heading, Fraction(4), bold=True),
            Paragraph(which_face(place, face), TINY_CAP),
            Paragraph(outside, TINY_CAP, bold=True),
            *(Paragraph(w, TINY_CAP) for w in (guide_words(end, face),) if w and not end.slant),
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
    layout = laid_out(end, face, shown)
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
        *outline(left, EDGE, right, top),
    )
    return trimmed(strokes)


def views(
    names: tuple[str, ...],
    place: Place,
    end: Part,
    manner: Manner,
    instead: tuple[Face, ...] = (),
) -> Iterator[Pattern]:
    """The patterns of a board's part in the views asked for, each once.

    Args:
        names: views; ``faces`` are all faces that carry lines, the end grain among them.
        place: where the patterns belong.
        end: the board's part.
        manner: how patterns are drawn.
        instead: faces that stand for the wrap; all where nothing can be folded over an end.
    """
    if WRAP in names and end.folds and not instead:
        yield wrap(place, end, manner)
    wanted = set(end.faces) if FACES in names else set()
    if WRAP in names and (instead or not end.folds):
        wanted |= set(instead or end.faces)
    if END_GRAIN in names:
        wanted.add(Face.END_GRAIN)
    for face in end.faces:
        if face in wanted and laid_out(end, face, end.reach + 1).lines:
            yield single_face(place, end, face, manner)
