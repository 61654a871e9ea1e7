"""A board's end sketched in characters, in proportion, for a terminal."""

from joinery_templates.exact import Fraction, as_float, rounded
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import HalfSpace, Part, at_least

MOST_ROWS = 40
"""A sketch that would be higher is made smaller: a long key fills no terminal (our judgement)."""
WOOD, WASTE, PAST = "#", ".", " "
CELL_SHAPE = 2
"""A terminal's character is about twice as high as wide (common practice, no source)."""
HAIR = 1e-9
"""Of a limit, in mm: what stands on a boundary is waste, whatever floats make of it."""


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
    columns = max(2, rounded(width / cell))
    rows = max(2, rounded(down / (cell * CELL_SHAPE)))
    wide, high, start = as_float(width) / columns, as_float(down) / rows, as_float(top)
    left = None if edge is None else as_float(edge)
    depth = as_float(end.board.thickness) if face is Face.INSIDE else 0.0
    nx, ny, nz, end_limit = _floats(end.slant.end if end.slant else at_least(1, top))
    cuts = [[_floats(side) for side in cut.half_spaces] for cut in end.cuts]

    def sign(row: int, column: int) -> str:
        across, along = wide * (column + 0.5), high * (row + 0.5)
        x, z = (across, depth) if left is None else (left, across)
        if face is Face.END_GRAIN:
            z = along
        end_at = (end_limit - nx * x - nz * z) / ny
        y = end_at if face is Face.END_GRAIN else start + along
        if y < end_at:
            return PAST
        is_waste = any(
            all(a * x + b * y + c * z <= limit + HAIR for a, b, c, limit in cut) for cut in cuts
        )
        return WASTE if is_waste else WOOD

    return tuple("".join(sign(row, column) for column in range(columns)) for row in range(rows))


def _floats(side: HalfSpace) -> tuple[float, float, float, float]:
    """Normal and limit: a sketch asks of so many points that rationals take too long."""
    x, y, z = map(as_float, side.normal)
    return x, y, z, as_float(side.limit)
