"""Where a page has gone: the map from the page as designed to the page as found.

The two rulers of a page stand on one corner, one across to the right and one
along upwards. Every pair of found lines that could be them gives a map; the one
under which most of the other lines are found again is taken. It may scale, move,
shear and turn the page; it cannot mirror it.

        along
          |
          |
          +------ across
"""

import math
from collections.abc import Iterator, Sequence
from heapq import nlargest, nsmallest

from msgspec import Struct

from joinery_templates.measure.lines import Grid, Lines
from joinery_templates.measure.plane import Matrix, Segment

_CORNER = 0.2
"""Two lines that start no farther apart (mm) have a corner in common."""
_RATIO = 0.05
"""By so much of its length may one ruler be stretched more than the other."""
_SQUARE_DEG = 5
_SMALLEST, _LARGEST = 0.2, 5.0
"""Scales that are looked for."""
_LONGEST = 1_000
"""Among so many of the longest lines are the rulers."""
_MOST_CANDIDATES = 2_000
_SAMPLE = 48
"""So many lines tell whether a corner is the rulers'."""
_REACH = 0.5
"""A line farther off than this (mm as found) is not the line that is looked for."""
_SOUGHT_CLOSELY = 0.005
"""With all lines this near (mm, on an average) no better corner is looked for."""


class Placing(Struct, frozen=True):
    """How a page lies on the paper.

    Attributes:
        matrix: from the page as designed to the page as found.
        scale_across: found length of the across ruler over its true length.
        scale_along: the same for the ruler along.
        skew_deg: by how much the angle between the rulers is wider than it should be.
        turned_deg: how far the page was turned, counter-clockwise.
    """

    matrix: Matrix
    scale_across: float
    scale_along: float
    skew_deg: float
    turned_deg: float


def find_placing(
    across: Segment, along: Segment, others: Sequence[Segment], found: Sequence[Segment]
) -> Placing | None:
    """The map under which most lines are found again; None if no rulers are there.

    Args:
        across: base line of the ruler across, from the corner to the right.
        along: base line of the ruler along, from the same corner upwards.
        others: other lines of the page as designed.
        found: all lines of the page as found.
    """
    sample = others[:: max(1, len(others) // _SAMPLE)]
    lines = Lines(found, _REACH)
    back = _frame(across, along).inverse
    corners = nsmallest(
        _MOST_CANDIDATES,
        _corners(across.length, along.length, found),
        key=lambda rays: abs(math.log(rays[0].length / across.length)),
    )
    best, best_score = None, (-1, 0.0)
    for ray, other in corners:
        matrix = back.then(_frame(ray, other))
        distances = [lines.distance(matrix.segment(line)) for line in sample]
        near = [distance for distance in distances if distance < math.inf]
        score = (len(near), -sum(near))
        if score > best_score:
            best_score = score
            best = Placing(
                matrix,
                ray.length / across.length,
                other.length / along.length,
                _between_deg(ray, other) - _between_deg(across, along),
                math.degrees(math.atan2(ray.y1 - ray.y0, ray.x1 - ray.x0)) % 360,
            )
        if score[0] == len(sample) and score[1] > -_SOUGHT_CLOSELY * len(sample):
            break
    return best


def _corners(
    across: float, along: float, found: Sequence[Segment]
) -> Iterator[tuple[Segment, Segment]]:
    """Lines from one corner that could be rulers of these lengths, at one scale."""
    shortest = _SMALLEST * min(across, along) * (1 - _RATIO)
    long = (line for line in found if line.length >= shortest)
    rays = [
        ray
        for line in nlargest(_LONGEST, long, key=lambda line: line.length)
        for ray in (line, line.turned_about)
    ]
    starts: Grid[Segment] = Grid(_CORNER)
    for ray in rays:
        starts.put(ray.x0, ray.y0, ray)
    for ray in rays:
        scale = ray.length / across
        if _SMALLEST <= scale <= _LARGEST:
            low, high = scale * along * (1 - _RATIO), scale * along * (1 + _RATIO)
            for other in starts.near(ray.x0, ray.y0):
                if (
                    low <= other.length <= high
                    and abs(_between_deg(ray, other) - 90) <= _SQUARE_DEG
                ):
                    yield ray, other


def _between_deg(ray: Segment, other: Segment) -> float:
    """How far the second line is turned from the first, counter-clockwise."""
    (ax, ay), (bx, by) = ((one.x1 - one.x0, one.y1 - one.y0) for one in (ray, other))
    return math.degrees(math.atan2(ax * by - ay * bx, ax * bx + ay * by))


def _frame(ray: Segment, other: Segment) -> Matrix:
    """The map that takes the unit square to the corner between two lines."""
    return Matrix(
        ray.x1 - ray.x0, ray.y1 - ray.y0, other.x1 - other.x0, other.y1 - other.y0, ray.x0, ray.y0
    )
