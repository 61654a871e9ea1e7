"""How long a piece is cut off a roll."""

from collections.abc import Sequence

from msgspec.structs import replace

from joinery_templates.drawings.figure import Pattern
from joinery_templates.exact import Fraction
from joinery_templates.lengths import Units
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.papers import LARGEST

ROUND = Fraction(50)
"""Pieces are cut to whole 50 mm."""
SHORTEST = Fraction(300)


def cut_off(frame: Frame, patterns: Sequence[Pattern]) -> Frame:
    """A frame on a sheet; a roll of open length is cut so that the longest pattern fits.

    A page is never wider than it is long, so that nothing in the print chain turns it.

    Args:
        frame: on any paper.
        patterns: what is to be printed.
    """
    if not frame.paper.is_open_roll:
        return frame
    paper, units = frame.paper, frame.units or Units.MM
    shortest = max(paper.width, SHORTEST)
    trial = replace(frame, paper=paper.with_length(shortest, units))
    lost = trial.height - trial.area.height
    room = trial.area.width
    longest = max((_run(pattern, room) for pattern in patterns), default=Fraction(0))
    wanted = -(-(longest + lost + 1) // ROUND) * ROUND
    length = min(max(wanted, shortest), LARGEST)
    return replace(frame, paper=paper.with_length(length, units))


def _run(pattern: Pattern, room: Fraction) -> Fraction:
    """How far a pattern runs along the roll, the way round that is shorter if both fit."""
    ways = [
        along
        for across, along in ((pattern.width, pattern.height), (pattern.height, pattern.width))
        if across <= room
    ]
    return min(ways, default=Fraction(0))
