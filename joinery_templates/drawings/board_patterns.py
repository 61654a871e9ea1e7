"""Patterns for a part of a board in the views asked for: the wrap, and its faces one by one."""

import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import product

from msgspec.structs import replace

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
from joinery_templates.drawings.fingerprint import JOB
from joinery_templates.drawings.grooves import groove_in_label, groove_words
from joinery_templates.drawings.guide_line import above_guide, guide_words
from joinery_templates.drawings.labels import (
    GRAIN,
    SLIM,
    face_label,
    heading,
    job_words,
    turned_words,
    ways,
    which_face,
)
from joinery_templates.drawings.lettering import ASCENT, DESCENT, LINE_PITCH, Paragraph, column
from joinery_templates.drawings.look import BODY, HEADING
from joinery_templates.drawings.placing import Ground
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.slanted_faces import CLEAR, slanted_outline, slanted_tab
from joinery_templates.drawings.trimming import EDGE, HOLD, RIM, across, outline, trimmed
from joinery_templates.drawings.waste_words import waste_in_label, waste_words
from joinery_templates.drawings.wrap import wrap
from joinery_templates.exact import ZERO, Fraction, ceil
from joinery_templates.joint import END_GRAIN, FACES, WRAP, Placed
from joinery_templates.wood.board import EDGES, Face
from joinery_templates.wood.cut import Part
from joinery_templates.wood.faces import laid_out

BESIDE = Fraction(55)
"""Room for the label beside a narrow face."""
NAME_STEP = 5
ARROWS = frozenset("▲▼◄►")
"""Words with one of these point somewhere."""
SLIMMEST = BODY * (ASCENT + DESCENT) + Fraction(2, 5)
"""A face that is narrower has no room even for words that run along it."""

STOCK_END = ("▲ end of the stock",), ("▲ end of", "the stock"), ("▲ end",), ("▲",)
"""Where a loose piece's stock ends, in as many words as have room there."""


def single_face(placed: Placed, face: Face, setup: DrawingSetup) -> Pattern:
    """One face by itself, as seen by someone who looks at it with the end at the top."""
    draw = _edge_face if face in EDGES else _end_grain if face is Face.END_GRAIN else _broad_face
    layers = draw(placed, face, setup)
    called = placed.board.called
    which = "template" if placed.is_loose else placed.member.part.called(face)
    return Pattern(f"{called} {which}", placed.corner.name, layers, short=called)


def _broad_face(placed: Placed, face: Face, setup: DrawingSetup) -> tuple[Figure, ...]:
    part, width = placed.member.part, placed.board.width
    # A loose piece is cut off its stock below the joint: no words may stand in that waste.
    slim = width < SLIM or placed.is_loose
    # At an end the baseline needs no telling; a line away from it does.
    room = BESIDE if slim else width
    label = face_label(
        placed, face, room, setup, guide_words(part, face), cut=_is_cut(width, setup)
    )
    name: tuple[str, ...] = (JOB,) if placed.is_loose else (heading(placed), JOB)
    if placed.place.on_leg:  # what is trimmed away cannot say which face this is
        left, _, right = ways(placed, face)
        name = (f"{heading(placed)} {face}", left, right, JOB)
    below = _short_name(name, width, setup) if slim else label
    lie = _lie(placed, face, part.reach + HOLD + below.height)
    lines = _face_lines(part, face, lie, setup.kerf)
    written = _written(part, face, lie, lines, below, setup)
    if placed.is_loose:
        ground = Ground(setup.lettering, lines.strokes, written.texts)
        written = replace(written, texts=(*written.texts, *_at_stock_end(width, lie, ground)))
    return _beside(lines, written, label if slim else None, setup)


def _at_stock_end(width: Fraction, lie: Lie, ground: Ground) -> tuple[Text, ...]:
    """Words at the end of the stock that a loose piece is cut from: on the paper that is kept."""
    u, pitch = lie.u0 + lie.u_sign * width / 2, BODY * LINE_PITCH
    return ground.placed_together(
        tuple(
            Text(
                words, (u, lie.v0 - down - pitch * row), BODY, Align.CENTRE, bold=True, opaque=True
            )
            for row, words in enumerate(rows, 1)
        )
        for rows in STOCK_END
        for down in (ZERO, pitch)
    )


def _is_cut(width: Fraction, setup: DrawingSetup) -> bool:
    """Whether no sheet is as wide as a pattern across a whole face, however it is turned."""
    return width + 2 * RIM > max(setup.sheet)


def _lie(placed: Placed, face: Face, shown: Fraction, v_sign: int = -1) -> Lie:
    """How a face lies on its own pattern, so much of paper or board shown below its zero."""
    width = laid_out(placed.member.part, face).width
    mirrored = seen_mirrored(face, placed.hand)
    return Lie(*lie_across(RIM, width, mirrored), EDGE + shown, v_sign)


def _written(
    part: Part, face: Face, lie: Lie, lines: Figure, name: Figure, setup: DrawingSetup
) -> Figure:
    """What is written on a face: a name or label below its lines, and words beside them."""
    layout = laid_out(part, face)
    written = name.moved(RIM, EDGE)
    ground = Ground(setup.lettering, lines.strokes, written.texts)
    said = (
        *(groove_words(part, lie, ground, setup.units) if face is Face.INSIDE else ()),
        *above_guide(part, lie, ground, layout, setup.lettering),
        *waste_words(part, layout, lie, setup.saying, ground),
    )
    return replace(written, texts=(*written.texts, *said))


def _short_name(told: Sequence[str], width: Fraction, setup: DrawingSetup) -> Figure:
    """A name for a face that has no room for its label; along the face where it is slim.

    A face that is slimmer than lettering is high has none.
    """
    cap, room, lettering = BODY, width - 2, setup.lettering
    whole = re.split(r"(?<![◄▲]) (?!►)", " ".join(told))  # an arrow stays with what it points from
    if all(lettering.width(word, cap) <= room for word in whole):
        rows = [Paragraph(words, cap) for words in told]
        name = column(rows, room, lettering).moved(Fraction(1), Fraction(0))
        named = (replace(one, part="name", stays=True) for one in name.texts)
        return replace(name, texts=tuple(named))
    if width < SLIMMEST:
        return Figure(width, Fraction(0))
    words = " · ".join(map(turned_words, told))
    # The paper is cut at the foot: not through the words.
    at = ((width + cap * (ASCENT - DESCENT)) / 2, Fraction(1))
    # In steps, so that corners whose names run alike wide share one drawing.
    long = Fraction(ceil((lettering.width(words, cap) + 1) / NAME_STEP) * NAME_STEP)
    text = Text(words, at, cap, turn=90, paragraph=words, stays=True)
    text = replace(text, either_way=ARROWS.isdisjoint(words))
    return Figure(width, long, texts=(text,))


def _beside(
    lines: Figure, words: Figure, label: Figure | None, setup: DrawingSetup
) -> tuple[Figure, ...]:
    """A face with its words, and its label on paper that is trimmed away.

    That is beside the face, or below it where more such patterns share a sheet, or where as many
    do and this takes less paper.
    """
    if label is None:
        return lines, replace(words, width=lines.width, height=lines.height)
    box = (lines.width + BESIDE, max(lines.height, label.height + 2 * EDGE))
    at, up = (lines.width, (box[1] - label.height) / 2), Fraction(0)
    below = (max(lines.width, BESIDE + EDGE), lines.height + label.height + EDGE)
    dear, dear_below = ((-setup.shared_by(*size), size[0] * size[1]) for size in (box, below))
    if dear_below < dear and setup.takes(*below):
        box, at, up = below, (EDGE, EDGE), label.height + EDGE
    lines, words = (one.moved(Fraction(0), up) for one in (lines, words))
    both = joined(*box, (words, label.as_part("label").moved(*at)))
    return replace(lines, width=box[0], height=box[1]), both


def _end_grain(placed: Placed, face: Face, setup: DrawingSetup) -> tuple[Figure, ...]:
    """The end grain with a tab for the label, which folds onto the outside face below it."""
    words = "fold this tab onto the outside face"
    width = placed.board.width
    label = face_label(placed, face, width, setup, words, cut=_is_cut(width, setup))
    part = placed.member.part
    lie = _lie(placed, face, label.height + (CLEAR if part.slant else 0), v_sign=1)
    grain = _end_grain_lines(part, lie, setup.kerf)
    ground = Ground(setup.lettering, grain.strokes)
    said = tuple(waste_words(part, laid_out(part, face), lie, setup.saying, ground))
    written = (label.moved(RIM, EDGE), replace(grain, strokes=(), texts=said))
    return grain, joined(grain.width, grain.height, written)


@lru_cache(maxsize=256)
def _end_grain_lines(part: Part, lie: Lie, kerf: Fraction | None) -> Figure:
    layout = laid_out(part, Face.END_GRAIN)
    left, right, top = RIM, RIM + layout.width, lie.v0 + layout.height
    around: Iterable[Stroke] = (
        line(Role.OUTLINE, left, top, right, top),
        *outline(left, EDGE, right, top),
    )
    if part.slant:
        around = slanted_tab(layout, lie)
    fold = across(Role.FOLD, left, right, lie.v0)
    return trimmed((*drawn_face(layout, lie, kerf=kerf), fold, *around))


def _edge_face(placed: Placed, face: Face, setup: DrawingSetup) -> tuple[Figure, ...]:
    """An edge: a short name on it, the full label beside it on paper that is trimmed away."""
    part = placed.member.part
    mirrored = seen_mirrored(face, placed.hand)
    side = f"{Face.OUTSIDE} ►" if mirrored else f"◄ {Face.OUTSIDE}"
    where = side.replace("face", f"face on the {'right' if mirrored else 'left'}")
    more = (
        "" if part.slant else guide_words(part, face),
        groove_in_label(part, face, setup.units),
        waste_in_label(part, face, setup.saying),
    )
    beside = column(
        (
            Paragraph(heading(placed), HEADING, bold=True),
            Paragraph(which_face(placed, face), BODY),
            *(Paragraph(words, BODY) for words in more if words),
            Paragraph(job_words(BESIDE - 4, setup), BODY),
            Paragraph(f"▲ {placed.up_end} · {GRAIN}", BODY, bold=True),
            Paragraph(where, BODY, bold=True),
        ),
        BESIDE - 4,
        setup.lettering,
    )
    # What is trimmed away cannot say which way the rest lies.
    up = () if part.folds or part.slant else (f"▲ {placed.up_end}".removesuffix(" end"),)
    told = (heading(placed), str(face), *up, side.replace(f"{Face.OUTSIDE}", "outside"), JOB)
    name = _short_name(told, placed.board.thickness, setup)
    lie = _lie(placed, face, part.reach + HOLD + name.height)
    lines = _face_lines(part, face, lie, setup.kerf)
    name, raised = _raised(name, lines, placed.board.thickness, setup)
    if raised:
        lie = replace(lie, v0=lie.v0 - raised)
        lines = _face_lines(part, face, lie, setup.kerf)
    return _beside(lines, _written(part, face, lie, lines, name, setup), beside, setup)


def _raised(
    name: Figure, lines: Figure, width: Fraction, setup: DrawingSetup
) -> tuple[Figure, Fraction]:
    """A name, and how far up it may stand beside lines that run aslant: so much paper is saved.

    Where a line comes lower than all that is sawn off, it stands further down.
    """
    ground = Ground(setup.lettering)
    for stroke in lines.strokes:
        if stroke.role is not Role.TRIM:  # which goes where the name ends
            ground.rule(stroke.start, stroke.end)
    if not name.texts:
        return name, Fraction(0)
    right = (replace(one, at=(width - 1, one.at[1]), align=Align.RIGHT) for one in name.texts)
    ways = (name, name if name.texts[0].turn else replace(name, texts=tuple(right)))
    for eighths, way in product(range(8, -9, -1), ways):
        up = name.height * eighths / 8
        if ground.placed_together([way.moved(RIM, EDGE + up).texts]):
            return way, up
    return name, Fraction(0)


@lru_cache(maxsize=256)
def _face_lines(part: Part, face: Face, lie: Lie, kerf: Fraction | None) -> Figure:
    """The strokes of a face of an end or a stretch, shown so far and trimmed all round."""
    layout = laid_out(part, face)
    drawn = drawn_face(layout, lie, part.reach + HOLD, kerf)
    if part.slant:
        return trimmed((*drawn, *slanted_outline(part.slant, part.board, layout, lie)))
    left, right, top = RIM, RIM + layout.width, lie.v0 - layout.low
    guides = [lie.v0 - part.guide[0]] if part.guide else []
    strokes = (
        *drawn,
        *(
            line(Role.GUIDE, left, v, right, v)
            if part.folds
            else across(Role.GUIDE, left, right, v)
            for v in guides
        ),
        *((line(Role.OUTLINE, left, top, right, top),) if part.folds or not part.guide else ()),
        *outline(left, EDGE, right, top),
    )
    return trimmed(strokes)


def views(names: Collection[str], placed: Placed, setup: DrawingSetup) -> Iterator[Pattern]:
    """The patterns of a piece in the views asked for, each once.

    Args:
        names: views; ``faces`` are all faces that carry lines, the end grain among them.
            Where nothing can be folded over an end, or the joint names faces that stand
            for the wrap, these come for it. A loose piece has one template.
        placed: the piece.
        setup: how patterns are drawn.
    """
    part, instead = placed.member.part, placed.member.faces
    if not part.cuts:
        return  # nothing is cut from it
    if placed.is_loose:
        names = (WRAP,)  # one template is all it needs
    wanted = set(part.faces) if FACES in names else set()
    if WRAP in names:
        if part.folds and not instead:
            yield wrap(placed, setup)
        else:
            wanted |= set(instead or part.faces)
    if END_GRAIN in names:
        wanted.add(Face.END_GRAIN)
    for face in part.faces:
        if face in wanted and laid_out(part, face).lines:
            yield single_face(placed, face, setup)
