"""One of several layouts, full size, to be laid against the board: face, end grain and figures."""

from collections.abc import Iterator, Sequence

from joinery_templates.drawings.face_view import Lie, drawn_face, lie_across, seen_mirrored
from joinery_templates.drawings.figure import (
    Figure,
    Pattern,
    Role,
    Stroke,
    Text,
    closed,
    distinct,
    joined,
)
from joinery_templates.drawings.lettering import Paragraph, column
from joinery_templates.drawings.look import BODY, TITLE
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, Member
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import laid_out
from joinery_templates.wood.polygons import HalfPlane, Polygon

PAST = Fraction(8)
"""What is shown of the board past its baseline."""
GAP = Fraction(3)
NARROWEST = Fraction(110)
"""Figures beside a narrower board run past it."""


def choice_pattern(
    letter: str, joint: Joint, figures: Sequence[str], group: str, setup: DrawingSetup
) -> Pattern:
    """A layout with its letter and figures.

    Args:
        letter: what it is called.
        joint: the layout.
        figures: what is told of it.
        group: what it belongs to.
        setup: how patterns are drawn.
    """
    member = set_out_first(joint)
    wood = _seen(member)
    left = setup.lettering.width(letter, TITLE, True) + GAP
    width = max(left + wood.width, min(NARROWEST, max(setup.sheet))) + 1
    told = column([Paragraph(" · ".join(figures), BODY)], width - left, setup.lettering)
    height = told.height + GAP + wood.height + 1
    drawn = wood.moved(left, told.height + GAP)
    name = Text(letter, (Fraction(0), height - 1 - TITLE), TITLE, bold=True)
    lines = Figure(width, height, drawn.strokes)
    words = joined(
        width, height, [told.moved(left, Fraction(0)), Figure(width, height, (), (name,))]
    )
    return Pattern(f"choice {letter}", group, (lines, words))


def set_out_first(joint: Joint) -> Member:
    """The piece that shows the layout: the one that is stepped off, else the first board."""
    row = joint.main_row
    named = [one for one in joint.all_members if row and one.role == row.role]
    return (named or [one for one in joint.members if one.part.cuts] or list(joint.members))[0]


def seen_face(member: Member) -> Face:
    """The face of a piece that carries the layout; any where only the end grain does."""
    part = member.part
    faces = [face for face in part.faces if face is not Face.END_GRAIN]
    return next((face for face in faces if laid_out(part, face).lines), faces[0])


def _seen(member: Member) -> Figure:
    """The face that carries the layout with the end grain above it, as one looks at them."""
    part = member.part
    face = seen_face(member)
    layout, shown = laid_out(part, face), part.reach + PAST
    zero = shown
    lie = Lie(*lie_across(Fraction(0), layout.width, seen_mirrored(face, member.hand)), zero, -1)
    strokes = list(drawn_face(layout, lie, shown))
    outline = layout.outline.clipped(HalfPlane(Fraction(0), Fraction(1), shown))
    strokes += _edges(outline, lie) if outline else ()
    top = zero - layout.low
    if Face.END_GRAIN in part.faces and part.slant is None:
        grain = laid_out(part, Face.END_GRAIN)
        mirrored = seen_mirrored(Face.END_GRAIN, member.hand)
        above = Lie(*lie_across(Fraction(0), grain.width, mirrored), zero, 1)
        strokes += drawn_face(grain, above)
        strokes += _edges(grain.outline, above)
        top = zero + grain.height
    return Figure(layout.width, top, distinct(strokes))


def _edges(shape: Polygon, lie: Lie) -> Iterator[Stroke]:
    return closed(Role.OUTLINE, [lie.point(corner) for corner in shape.corners])


def below_each_other(drawn: Sequence[tuple[Figure, ...]], gap: Fraction) -> Figure:
    """Drawings below each other in one figure, with a gap between and all round."""
    width = max(layers[0].width for layers in drawn) + 2 * gap
    height = top = sum((layers[0].height + gap for layers in drawn), gap)
    parts = []
    for layers in drawn:
        top -= layers[0].height + gap
        parts += [figure.moved(gap, top) for figure in layers]
    return joined(width, height, parts)
