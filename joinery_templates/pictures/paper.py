"""Lines and words of a picture as a figure: in millimetres, in a box just large enough."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot, pi, sin

from joinery_templates.drawings.figure import Figure, Point, Role, Stroke, Text
from joinery_templates.drawings.lettering import Lettering, text_corners
from joinery_templates.exact import Fraction, as_float
from joinery_templates.pictures.seen import Line, Segment
from joinery_templates.pictures.words import Said, Spot

MARGIN = 1.0
"""Paper round a picture, in mm."""
ROLES = {
    Line.CONTOUR: Role.CONTOUR,
    Line.EDGE: Role.INNER,
    Line.TORN: Role.THIN,
    Line.WASTE: Role.INNER,
    Line.SAWN: Role.CONTOUR,
    Line.HATCH: Role.HATCH,
    Line.GUIDE: Role.THIN,
    Line.GRAIN: Role.THIN,
}
"""A contour is twice as wide as an edge, a torn end is thin (ISO 128-2, from memory)."""
WAVE, SWING, BENDS = 16.0, 0.7, 8
"""Where a board is broken off the line swings so far to either side, once in so many mm, and is
drawn in so many straight pieces."""

Drawn = tuple[Role, tuple[Spot, Spot]]
"""A line on the paper."""


def ruled(line: Segment, scale: float) -> Iterator[Drawn]:
    """A line on the paper; wavy where the board is broken off."""
    (u, v), (u1, v1) = line.at(0), line.at(1)
    x, y, x1, y1 = u * scale, v * scale, u1 * scale, v1 * scale
    spots = [(x, y), (x1, y1)]
    long = hypot(x1 - x, y1 - y)
    if line.line is Line.TORN and long > 2 * SWING:
        count = BENDS * max(1, round(long / WAVE))
        across = (y - y1) / long * SWING, (x1 - x) / long * SWING
        swings = ((n / count, sin(2 * pi * n / BENDS)) for n in range(count + 1))
        spots = [
            (x + share * (x1 - x) + swing * across[0], y + share * (y1 - y) + swing * across[1])
            for share, swing in swings
        ]
    return ((ROLES[line.line], ends) for ends in pairwise(spots))


def boxed(
    drawn: Sequence[Drawn],
    said: Sequence[Said],
    lettering: Lettering,
    room: Fraction | None = None,
    foot: Fraction = Fraction(0),
) -> Figure:
    """Lines and words in a box that is just large enough.

    Args:
        drawn: the lines.
        said: the words.
        lettering: how wide words run.
        room: how wide the box is in the middle of which they stand instead.
        foot: left free below them.
    """
    spots = [spot for _, line in drawn for spot in line]
    texts = [_text(one, (0.0, 0.0)) for one in said]
    corners = (corner for text in texts for corner in text_corners(text, lettering))
    spots += [(as_float(x), as_float(y)) for x, y in corners]
    across, up = zip(*spots, strict=True)
    left, right, low = min(across) - MARGIN, max(across) + MARGIN, min(up) - MARGIN - as_float(foot)
    if room is not None:
        left -= (as_float(room) - (right - left)) / 2
    off = left, low
    width, height = _exact((right, max(up) + MARGIN), off)
    strokes = tuple(Stroke(role, _exact(a, off), _exact(b, off)) for role, (a, b) in drawn)
    return Figure(room or width, height, strokes, tuple(_text(one, off) for one in said))


def _text(one: Said, off: Spot) -> Text:
    words, cap, bold = one.row
    return Text(words, _exact(one.at, off), cap, one.align, bold=bold)


def _exact(spot: Spot, off: Spot) -> Point:
    """A point of the paper to a thousandth of a millimetre."""
    x, y = round(1000 * (spot[0] - off[0])), round(1000 * (spot[1] - off[1]))
    return Fraction(x, 1000), Fraction(y, 1000)
