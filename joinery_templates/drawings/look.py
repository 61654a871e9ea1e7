"""What all pages look like, told in one place: sizes of type, pens, hatching.

Three sizes serve the whole file, each for one purpose. They are heights of a capital letter,
as on workshop drawings: 3.5 and 5 mm are two of the nominal heights of ISO 3098 (from memory);
its 2.5 mm is raised a little, since that is less than the 10 points that are read with ease at
a bench. In DejaVu Sans Condensed a capital is 0.729 of the type's size. Where words have no
room they go elsewhere, into more lines, or onto the next page: they are never made smaller.
"""

from msgspec import Struct

from joinery_templates.drawings.figure import Role
from joinery_templates.exact import Fraction

BODY = Fraction(13, 5)
"""Whatever is read, and words beside lines: 10.1 points."""
HEADING = Fraction(7, 2)
"""Headings, and the fields of the title block: 13.6 points."""
TITLE = Fraction(5)
"""Once a page or a pattern, to be read at arm's length: its title or its name; 19.4 points."""

NAMES = (TITLE, HEADING, BODY)
"""A name takes the largest of these at which it has room."""

HATCH_RISE = 0.5
"""Hatching rises or falls 1 in 2: no dovetail slope, no mitre and no edge runs that way."""
HATCH_PITCH = 2.5
"""Distance of two hatch lines, measured upright."""
GROUND = Fraction(1, 10)
"""White round words that stand on hatching: with half the widest pen less than words keep from
lines (`placing.CLEAR`), so that no line is ever hidden by it."""


THIN, WORK, WIDE = 0.18, 0.35, 0.7
"""The three pens, each twice as wide as the one before (of ISO 128-2's row, from memory).

A knifed line is the widest, for it ends the waste; what is sawn or set out is worked to as well,
and stands out from all that only explains. In a picture the contour is twice as wide as an edge.
"""


class Pen(Struct, frozen=True):
    """A line's width and dash pattern, in mm; no dash is a full line."""

    width: float
    dash: tuple[float, ...] = ()


PENS = {
    Role.SAW: Pen(WORK),
    Role.KNIFE: Pen(WIDE),
    Role.GUIDE: Pen(THIN, (3.0, 1.5)),
    Role.GROOVE: Pen(WORK, (2.4, 0.8)),
    Role.HOLE: Pen(WORK),
    Role.KERF: Pen(THIN, (0.6, 0.6)),
    Role.MARK: Pen(WORK),
    Role.SETTING: Pen(WORK),
    Role.OUTLINE: Pen(THIN),
    Role.FOLD: Pen(THIN, (5.0, 1.2, 0.6, 1.2)),
    Role.TRIM: Pen(THIN, (1.2, 1.2)),
    Role.HATCH: Pen(THIN),
    Role.OPEN_HATCH: Pen(THIN, (2.16, 3.24)),
    Role.CROSS: Pen(THIN),
    Role.PRICK: Pen(THIN),
    Role.DIMENSION: Pen(THIN),
    Role.RULER: Pen(THIN),
    Role.TICK: Pen(THIN),
    Role.FRAME: Pen(THIN),
    Role.SEAM: Pen(THIN, (6.0, 1.2, 0.6, 1.2, 0.6, 1.2)),
    Role.MATCH: Pen(THIN),
    Role.CONTOUR: Pen(WORK),
    Role.INNER: Pen(THIN),
    Role.THIN: Pen(THIN),
    Role.DOT: Pen(WIDE),
}
"""Thin lines are told apart by their dashes: guide, fold, seam, trim, saw cut, waste that stops."""
