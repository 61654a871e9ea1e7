"""Where along a board its layout lines come to an edge, or run square across a face."""

from fractions import Fraction

from joinery_templates.wood.board import EDGES, Face
from joinery_templates.wood.cut import Part, Surface
from joinery_templates.wood.faces import laid_out

Span = tuple[Fraction, Fraction]


def marks_along(part: Part, face: Face) -> tuple[Fraction, ...]:
    """The y of every line that comes to an arris of an edge, or runs square across the face."""
    layout = laid_out(part, face)
    arrises = (0, layout.width) if face in EDGES else ()
    found = {
        y
        for line in layout.lines
        for x, y in (line.start, line.end)
        if line.surface is not Surface.GROOVE and (x in arrises or line.start[1] == line.end[1])
    }
    return tuple(sorted(found))


def marks_across(part: Part, face: Face) -> tuple[Fraction, ...]:
    """The x of every line that runs along the board on a broad face, as a stop's."""
    found = {
        line.start[0]
        for line in laid_out(part, face).lines
        if line.surface is not Surface.GROOVE and line.start[0] == line.end[0]
    }
    return tuple(sorted(found))


def waste_along(part: Part, face: Face) -> list[Span]:
    """From where to where along a face each piece of waste reaches, grooves left out."""
    shapes = (shape for shape in laid_out(part, face).waste if not shape.is_groove)
    along = ([y for _, y in shape.corners] for shape in shapes)
    return [(min(ys), max(ys)) for ys in along]
