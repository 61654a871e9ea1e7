"""What all pages look like, told in one place: sizes of type, pens, hatching.

Three sizes serve the whole file, each for one purpose. They are heights of a capital letter,
as on workshop drawings: 3.5 and 5 mm are two of the nominal heights of ISO 3098 (from memory);
its 2.5 mm is raised a little, since that is less than the 10 points that are read with ease at
a bench. In DejaVu Sans Condensed a capital is 0.729 of the type's size. Where words have no
room they go elsewhere, into more lines, or onto the next page: they are never made smaller.
"""

from fractions import Fraction

from msgspec import Struct

from joinery_templates.drawings.figure import Role

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


class Pen(Struct, frozen=True):
    """A line's width and dash pattern, in mm; no dash is a full line."""

    width: float
    dash: tuple[float, ...] = ()


PENS = {
    Role.SAW: Pen(0.35),
    Role.KNIFE: Pen(0.7),
    Role.GUIDE: Pen(0.13, (3.0, 1.5)),
    Role.GROOVE: Pen(0.35, (2.4, 0.8)),
    Role.HOLE: Pen(0.25),
    Role.KERF: Pen(0.13, (0.6, 0.6)),
    Role.MARK: Pen(0.25),
    Role.OUTLINE: Pen(0.13),
    Role.FOLD: Pen(0.25, (5.0, 1.2, 0.6, 1.2)),
    Role.TRIM: Pen(0.25, (1.2, 1.2)),
    Role.HATCH: Pen(0.1),
    Role.OPEN_HATCH: Pen(0.13, (1.6, 2.3)),
    Role.CROSS: Pen(0.18),
    Role.PRICK: Pen(0.13),
    Role.DIMENSION: Pen(0.18),
    Role.RULER: Pen(0.18),
    Role.TICK: Pen(0.13),
    Role.FRAME: Pen(0.18),
    Role.SEAM: Pen(0.18, (6.0, 1.5, 1.5, 1.5)),
    Role.MATCH: Pen(0.18),
    Role.CONTOUR: Pen(0.35),
    Role.INNER: Pen(0.18),
    Role.THIN: Pen(0.13),
}
