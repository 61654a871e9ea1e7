"""What each role looks like: told apart by weight and dash alone, for black and white.

Widths follow the series 0.13, 0.18, 0.25, 0.35, 0.5 mm (ISO 128-2, from memory); none
is below 0.1 mm, which some printers drop.
"""

from msgspec import Struct

from joinery_templates.drawings.figure import Role


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
