"""A board's end sketched in characters, in proportion, for a terminal."""

from fractions import Fraction

from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Part
from joinery_templates.wood.faces import is_waste
from joinery_templates.wood.slanted import end_plane

MOST_ROWS = 40
"""A sketch that would be higher is made smaller: a long key fills no terminal (our judgement)."""
WOOD, WASTE, PAST = "#", ".", " "
CELL_SHAPE = 2
"""A terminal's character is about twice as high as wide (common practice, no source)."""


def sketched(end: Part, face: Face, columns: int = 72) -> tuple[str, ...]:
    """One face, or the end grain, from the reference edge on the left; an edge from outside.

    A face is shown from its end (above) to a little past the baseline.

    Args:
        end: the board's end or stretch.
        face: any of them.
        columns: how many characters wide at the most.
    """
    past = (end.reach - end.shown_from(end.reach)) / 4
    top = end.shown_from(end.reach + past)
    down = end.board.thickness if face is Face.END_GRAIN else end.reach + past - top
    edge = {Face.REFERENCE_EDGE: Fraction(0), Face.FAR_EDGE: end.board.width}.get(face)
    width = end.board.width if edge is None else end.board.thickness
    cell = max(width / columns, down / (MOST_ROWS * CELL_SHAPE))
    columns = max(2, round(width / cell))
    rows = max(2, round(down / (cell * CELL_SHAPE)))
    cell = width / columns
    depth = end.board.thickness if face is Face.INSIDE else Fraction(0)
    plane = end_plane(end.slant.end, end.board) if end.slant else None

    def sign(row: int, column: int) -> str:
        across, along = cell * (column + Fraction(1, 2)), down / rows * (row + Fraction(1, 2))
        x, z = (across, depth) if edge is None else (edge, across)
        if face is Face.END_GRAIN:
            z = along
        end_at = plane.y(x, z) if plane else top
        y = end_at if face is Face.END_GRAIN else top + along
        if y < end_at:
            return PAST
        return WASTE if is_waste(end, x, y, z) else WOOD

    return tuple("".join(sign(row, column) for column in range(columns)) for row in range(rows))
