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
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from joinery_templates.measure.pairing import Lines, farther_end
from joinery_templates.measure.plane import Matrix, Segment

REACH = 2.0
"""A line farther off than this (true mm) is not the line that is looked for."""

_CORNER = 0.2
_RATIO = 0.05
_SMALLEST, _LARGEST = 0.2, 5.0
_MOST_CANDIDATES = 2_000
_MOST_PAIRS = 40_000
_SAMPLE = 48
_SOUGHT_CLOSELY = 0.05


@dataclass(frozen=True, slots=True)
class Placing:
    """How a page lies on the paper.

    Attributes:
        matrix: from the page as designed to the page as found.
        scale_across: found length of the across ruler over its true length.
        scale_along: the same for the ruler along.
        skew_deg: by how much the angle between the rulers is wider than 90 degrees.
        turned_deg: how far the page was turned, counter-clockwise.
    """

    matrix: Matrix
    scale_across: float
    scale_along: float
    skew_deg: float
    turned_deg: float

    @property
    def scale(self) -> float:
        """Mean of both scales."""
        return math.sqrt(self.scale_across * self.scale_along)


class Found:
    """The lines of one found page, sorted once for every question asked about them."""

    def __init__(self, segments: Sequence[Segment]) -> None:
        """The segments in mm on the paper."""
        self.segments = segments
        self._lines: dict[int, Lines] = {}
        self._candidates: dict[tuple[float, float], list[Placing]] = {}
        self._nearness: dict[Matrix, dict[Segment, float]] = {}

    def lines(self, scale: float) -> Lines:
        """The lines, ready for looking up within `REACH` true mm on a page of that scale."""
        step = round(math.log(scale) * 10)
        if step not in self._lines:
            self._lines[step] = Lines(self.segments, REACH * math.exp(step / 10))
        return self._lines[step]

    def nearness(self, placing: Matrix) -> dict[Segment, float]:
        """A place to keep how near designed lines, so placed, come to lines of this page."""
        return self._nearness.setdefault(placing, {})

    def candidates(self, across: Segment, along: Segment) -> list[Placing]:
        """The maps given by all pairs of lines that could be the rulers, true scale first."""
        key = (across.length, along.length)
        if key not in self._candidates:
            placings = [_placing(*key, *pair) for pair in _corner_pairs(*key, self.segments)]
            placings.sort(key=lambda placing: abs(math.log(placing.scale)))
            self._candidates[key] = placings[:_MOST_CANDIDATES]
        return self._candidates[key]


def find_placing(
    across: Segment, along: Segment, strokes: Sequence[Segment], found: Found
) -> Placing | None:
    """The map under which most strokes are found again; None if no rulers are there.

    Args:
        across: base line of the ruler across, from the corner to the right.
        along: base line of the ruler along, from the same corner upwards.
        strokes: the other lines of the page as designed.
        found: all lines of the page as found.
    """
    sample = strokes[:: max(1, len(strokes) // _SAMPLE)]
    from_corner = _to_rulers(across, along)
    best: Placing | None = None
    best_score = (-1, 0.0)
    for candidate in found.candidates(across, along):
        placing = replace(candidate, matrix=from_corner.then(candidate.matrix))
        score = _score(placing, sample, found.lines(placing.scale), best_score[0])
        if score > best_score:
            best, best_score = placing, score
        if score[0] == len(sample) and score[1] > -_SOUGHT_CLOSELY * len(sample):
            break
    return best


def _to_rulers(across: Segment, along: Segment) -> Matrix:
    """From the page as designed to distances along its two rulers, which may lean a little."""
    ax, ay = (across.x1 - across.x0) / across.length, (across.y1 - across.y0) / across.length
    bx, by = (along.x1 - along.x0) / along.length, (along.y1 - along.y0) / along.length
    area = ax * by - ay * bx
    turn = Matrix(by / area, -ay / area, -bx / area, ax / area, 0, 0)
    return Matrix(1, 0, 0, 1, -across.x0, -across.y0).then(turn)


def _score(
    placing: Placing, sample: Sequence[Segment], lines: Lines, to_beat: int
) -> tuple[int, float]:
    """How many lines of a sample are found again; then how well, as the negative sum of errors."""
    count, errors = 0, 0.0
    for done, stroke in enumerate(sample):
        if count + len(sample) - done < to_beat:
            break
        mapped = placing.matrix.segment(stroke)
        partner = lines.partner(mapped)
        if partner is not None:
            count += 1
            errors += farther_end(mapped, partner)
    return count, -errors


def _corner_pairs(
    across: float, along: float, found: Sequence[Segment]
) -> list[tuple[Segment, Segment]]:
    """All pairs of found lines that share a corner and could be the rulers of these lengths."""
    shortest = _SMALLEST * min(across, along) * (1 - _RATIO)
    corners: dict[tuple[int, int], list[Segment]] = defaultdict(list)
    for line in found:
        if line.length >= shortest:
            for ray in (line, line.turned_about):
                corners[round(ray.x0 / _CORNER), round(ray.y0 / _CORNER)].append(ray)
    pairs: dict[tuple[Segment, Segment], None] = {}
    for (column, row), rays in corners.items():
        around = rays + [
            ray
            for moved in ((1, 0), (0, 1), (1, 1), (1, -1))
            for ray in corners.get((column + moved[0], row + moved[1]), ())
        ]
        pairs.update(dict.fromkeys(_pairs(across, along, around)))
        if len(pairs) > _MOST_PAIRS:
            break
    return list(pairs)


def _pairs(
    across: float, along: float, rays: Sequence[Segment]
) -> Iterator[tuple[Segment, Segment]]:
    """Rays from one corner, paired with those a quarter turn on that have the right length."""
    quarters: list[list[tuple[float, Segment]]] = [[], [], [], []]
    for ray in rays:
        turn = math.atan2(ray.y1 - ray.y0, ray.x1 - ray.x0) / (math.pi / 2)
        if abs(turn - round(turn)) < 0.05:
            quarters[round(turn) % 4].append((ray.length, ray))
    for quarter in quarters:
        quarter.sort()
    for place, quarter in enumerate(quarters):
        others = quarters[(place + 1) % 4]
        for length, ray in quarter:
            scale = length / across
            start = bisect_left(others, (scale * along * (1 - _RATIO),))
            for other_length, other in others[start:]:
                if other_length > scale * along * (1 + _RATIO):
                    break
                if _SMALLEST <= scale <= _LARGEST:
                    yield ray, other


def _placing(across: float, along: float, ray: Segment, other: Segment) -> Placing:
    """The map that takes two rulers on the origin, of these lengths, to two found rays."""
    ax, ay = (ray.x1 - ray.x0) / across, (ray.y1 - ray.y0) / across
    bx, by = (other.x1 - other.x0) / along, (other.y1 - other.y0) / along
    turned, other_turned = math.degrees(math.atan2(ay, ax)), math.degrees(math.atan2(by, bx))
    return Placing(
        Matrix(ax, ay, bx, by, ray.x0, ray.y0),
        math.hypot(ax, ay),
        math.hypot(bx, by),
        (other_turned - turned + 90) % 360 - 180,
        turned % 360,
    )
