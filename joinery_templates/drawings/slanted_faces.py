"""Faces of a slanted end, one by one: the slanting end is the outline that is laid on the arris.

A broad face, and the end grain in true shape with its tab::

          ___---+   end              +------------+   inside arris
    +----       |                   /            /
    |           |                  +== fold ====+     outside arris
    |           |                  |  tab       |
    +-- trim ---+                  +-- trim ----+
"""

from collections.abc import Iterator

from joinery_templates.drawings.face_view import Lie
from joinery_templates.drawings.figure import Point, Role, Stroke, line
from joinery_templates.drawings.trimming import EDGE, RIM, TICK, across
from joinery_templates.exact import Fraction
from joinery_templates.wood.board import Board
from joinery_templates.wood.cut import HalfSpace, Slant
from joinery_templates.wood.faces import FaceLayout, trace

CLEAR = Fraction(2)
"""Between the fold and the words on the tab."""


def slanted_outline(slant: Slant, board: Board, layout: FaceLayout, lie: Lie) -> Iterator[Stroke]:
    """What stands round the layout of a broad face or an edge: baseline, edges, lines to trim.

    Args:
        slant: of the board's end.
        board: the board.
        layout: of the face.
        lie: where it lies, the board's left edge at `RIM`; it is shown down to `EDGE`.
    """
    yield _traced(Role.GUIDE, slant.baseline, board, layout, lie)
    yield _traced(Role.TRIM, slant.end, board, layout, lie, TICK)
    yield from _outlined(layout, lie, layout.height, lie.v0 - EDGE)
    yield across(Role.TRIM, RIM, RIM + layout.width, EDGE)


def slanted_tab(layout: FaceLayout, lie: Lie) -> Iterator[Stroke]:
    """What stands round the end grain, with a tab from the outside arris down to `EDGE`.

    Args:
        layout: of the end grain.
        lie: where it lies, the board's left edge at `RIM`.
    """
    left, right, fold = RIM, RIM + layout.width, lie.v0
    yield from _outlined(layout, lie, Fraction(0), Fraction(0))
    yield from (across(Role.TRIM, left, right, v) for v in (EDGE, fold + layout.height))
    yield from (line(Role.TRIM, u, EDGE, u, fold) for u in (left, right))


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
