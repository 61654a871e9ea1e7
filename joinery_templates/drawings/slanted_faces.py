"""Faces of a slanted end, one by one: the slanting end is the outline that is laid on the arris.

A broad face, and the end grain in true shape with its tab::

          ___---+   end              +------------+   inside arris
    +----       |                   /            /
    |           |                  +== fold ====+     outside arris
    |           |                  |  tab       |
    +-- trim ---+                  +-- trim ----+
"""

from collections.abc import Iterator
from fractions import Fraction

from joinery_templates.drawings.face_view import Lie, drawn_face, lie_across
from joinery_templates.drawings.figure import Figure, Point, Role, Stroke, line
from joinery_templates.drawings.trimming import EDGE, RIM, TICK, across, trimmed
from joinery_templates.wood.board import Board
from joinery_templates.wood.cut import HalfSpace, Slant
from joinery_templates.wood.faces import FaceLayout, trace

CLEAR = Fraction(2)
"""Between the fold and the words on the tab."""


def slanted_face(
    slant: Slant,
    board: Board,
    layout: FaceLayout,
    mirrored: bool,
    shown: Fraction,
    grooves_to: Fraction,
    kerf: Fraction | None,
) -> Figure:
    """The strokes of a broad face or an edge of a slanted end, trimmed all round.

    Args:
        slant: of the board's end.
        board: the board.
        layout: of the face.
        mirrored: whether its first coordinate runs to the left on the paper.
        shown: up to which y the board is shown.
        grooves_to: where the lines of grooves break off, before the label.
        kerf: how wide the saw cuts, where that is to be seen.
    """
    u0, sign = lie_across(RIM, layout.width, mirrored)
    lie = Lie(u0, sign, EDGE + shown, -1)
    strokes = (
        *drawn_face(layout, lie, grooves_to, kerf),
        _traced(Role.GUIDE, slant.baseline, board, layout, lie),
        _traced(Role.TRIM, slant.end, board, layout, lie, TICK),
        *_outlined(layout, lie, layout.height, shown),
        across(Role.TRIM, RIM, RIM + layout.width, EDGE),
    )
    return trimmed(strokes)


def slanted_end_grain(
    layout: FaceLayout, mirrored: bool, tab: Fraction, kerf: Fraction | None
) -> Figure:
    """The strokes of the end grain of a slanted end, with a tab along the outside arris.

    Args:
        layout: of the end grain.
        mirrored: whether its first coordinate runs to the left on the paper.
        tab: height of the words on the tab.
        kerf: how wide the saw cuts, where that is to be seen.
    """
    fold = EDGE + tab + CLEAR
    left, right, top = RIM, RIM + layout.width, fold + layout.height
    u0, sign = lie_across(RIM, layout.width, mirrored)
    lie = Lie(u0, sign, fold, 1)
    strokes = (
        *drawn_face(layout, lie, kerf=kerf),
        across(Role.FOLD, left, right, fold),
        *_outlined(layout, lie, Fraction(0), Fraction(0)),
        *(across(Role.TRIM, left, right, v) for v in (EDGE, top)),
        *(line(Role.TRIM, u, EDGE, u, fold) for u in (left, right)),
    )
    return trimmed(strokes)


def _traced(
    role: Role,
    plane: HalfSpace,
    board: Board,
    layout: FaceLayout,
    lie: Lie,
    past: Fraction = Fraction(0),
) -> Stroke:
    """Where a plane crosses a face, carried so far past both of its sides."""
    (x0, y0), (x1, y1) = trace(plane, board, layout.face)
    rise = (y1 - y0) / (x1 - x0) * past
    start, stop = (x0 - past, y0 - rise), (x1 + past, y1 + rise)
    return Stroke(role, lie.point(start), lie.point(stop))


def _outlined(
    layout: FaceLayout, lie: Lie, open_side: Fraction, shown: Fraction
) -> Iterator[Stroke]:
    """The wood's outline, but for the side where the pattern is folded or goes on to `shown`."""

    def point(corner: Point) -> Point:
        return lie.point((corner[0], shown) if corner[1] == open_side else corner)

    for edge in layout.outline.edges:
        if not edge.start[1] == edge.end[1] == open_side:
            yield Stroke(Role.OUTLINE, point(edge.start), point(edge.end))
