"""The pages as found held against the pages as designed.

The rulers of each found page are taken as right: what they read is the scale,
and every other line is measured from their corner in the millimetres they show.
So a page shrunk as a whole shows a wrong scale and no error, a drawing moved
beside its rulers shows the true scale and an error.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from joinery_templates.measure.causes import likely_cause
from joinery_templates.measure.pairing import Joined, Lines, farther_end
from joinery_templates.measure.plane import Matrix, Segment
from joinery_templates.measure.report import USUAL, PageReport, Report, Tolerance
from joinery_templates.measure.rulers import Found, Placing, find_placing
from joinery_templates.measure.strokes import PageStrokes

__all__ = [
    "ExpectedPage",
    "ExpectedStroke",
    "PageReport",
    "Report",
    "Tolerance",
    "compare_pages",
    "likely_cause",
]

_EDGE = 0.1
"""A line this near outside the visible page still shows, having a width."""
_ALIKE = 0.98
_HALF_ALIKE = 0.25
"""A line this far off (true mm) counts half when pages are told apart."""
_SURE = 0.02
_ALIKE_PLACES = 4
"""Pages designed alike tie in so many decimals, and then the nearer place decides."""
_ALL_WITH_ALL = 25
_CLEARLY = 0.0005


@dataclass(frozen=True, slots=True)
class ExpectedStroke:
    """A straight line as designed, as far as it can be seen on its page.

    Attributes:
        role: what it is, in the person's words, such as ``scribe line``.
        x0: start, mm from the lower left corner of the page; so the rest.
    """

    role: str
    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def line(self) -> Segment:
        """Where it is."""
        return Segment(self.x0, self.y0, self.x1, self.y1)


@dataclass(frozen=True)
class ExpectedPage:
    """A page as designed, in mm from its lower left corner.

    Attributes:
        width: of the page.
        height: of the page.
        ruler_across: base line of the ruler, from the corner to the right.
        ruler_along: base line of the other ruler, from the same corner upwards.
        strokes: all other straight lines that can be seen on the page.
    """

    width: float
    height: float
    ruler_across: Segment
    ruler_along: Segment
    strokes: tuple[ExpectedStroke, ...]

    @cached_property
    def lines(self) -> tuple[Segment, ...]:
        """Where the strokes are."""
        return tuple(stroke.line for stroke in self.strokes)


def compare_pages(
    expected: Sequence[ExpectedPage],
    found: Sequence[PageStrokes],
    tolerance: Tolerance = USUAL,
) -> Report:
    """Compare a file as read with the pages as designed.

    Pages are matched by what is on them, so that a dropped page is named by its
    own number; pages that are alike in everything are matched in order.
    """
    lines = [Found(page.segments) for page in found]
    matches = _matched(expected, lines)
    reports = tuple(
        _page_report(number, place, expected[number], found[place], lines[place], placing)
        for (number, place), placing in sorted(matches.items())
    )
    places = [report.found_number for report in reports]
    return Report(
        reports,
        tuple(sorted(set(range(1, len(expected) + 1)) - {report.number for report in reports})),
        tuple(sorted(set(range(1, len(found) + 1)) - set(places))),
        places == sorted(places),
        tolerance,
    )


_Matches = dict[tuple[int, int], Placing]


def _matched(expected: Sequence[ExpectedPage], found: Sequence[Found]) -> _Matches:
    """Pairs of a designed and a found page (counted from 0), and how the one lies on the other."""
    if len(expected) == len(found):
        straight: _Matches = {}
        for place, page in enumerate(expected):
            placing, share, _ = _likeness(page, found[place])
            if placing is None or share < _ALIKE:
                break
            straight[place, place] = placing
        else:
            return straight
    return _best_matches(expected, found)


def _best_matches(expected: Sequence[ExpectedPage], found: Sequence[Found]) -> _Matches:
    """Every page with the one most like it: the surest pairs first, then mended."""
    window = abs(len(expected) - len(found)) + 3
    if max(len(expected), len(found)) <= _ALL_WITH_ALL:
        window = _ALL_WITH_ALL
    placings: _Matches = {}
    likeness: dict[tuple[int, int], float] = {}
    for number, page in enumerate(expected):
        for place in range(max(0, number - window), min(len(found), number + window + 1)):
            placing, _, like = _likeness(page, found[place])
            if placing is not None:
                placings[number, place] = placing
                likeness[number, place] = round(like, _ALIKE_PLACES)
    matches: dict[int, int] = {}
    places = set[int]()
    for number, place in sorted(
        likeness, key=lambda pair: (-likeness[pair], abs(pair[0] - pair[1]), pair)
    ):
        if number not in matches and place not in places:
            matches[number] = place
            places.add(place)
    _exchange(matches, likeness, 2 * window)
    return {pair: placings[pair] for pair in matches.items()}


def _exchange(matches: dict[int, int], likeness: dict[tuple[int, int], float], reach: int) -> None:
    """Change partners where two pairs of pages are more alike that way, taken together.

    A page that was harmed may be very like one that has little on it.
    """
    for _ in range(_ALL_WITH_ALL):
        changed = False
        near = (
            (one, other)
            for one in sorted(matches)
            for other in range(one + 1, one + reach + 1)
            if other in matches
        )
        for one, other in near:
            pairs = ((one, matches[other]), (other, matches[one]))
            if not all(pair in likeness for pair in pairs):
                continue
            now = likeness[one, matches[one]] + likeness[other, matches[other]]
            if sum(likeness[pair] for pair in pairs) > now + _CLEARLY:
                matches.update(pairs)
                changed = True
        if not changed:
            return


def _likeness(page: ExpectedPage, found: Found) -> tuple[Placing | None, float, float]:
    """The map of a page, how well its lines are found, and how like the two are (both 0 to 1).

    Likeness counts lines on either side that have no partner, so that a page
    with little on it is not taken for every page that has the same furniture.
    """
    strokes = page.lines
    placing = find_placing(page.ruler_across, page.ruler_along, strokes, found)
    if placing is None:
        return None, 0.0, 0.0
    # Pages have their furniture in common: what was worked out for one serves the next.
    known = found.nearness(placing.matrix)
    near = 2.0
    for stroke in strokes:
        nearness = known.get(stroke)
        if nearness is None:
            nearness = known[stroke] = _nearness(stroke, placing, found)
        near += nearness
    whole = len(strokes) + 2
    return placing, near / whole, 2 * near / (whole + len(found.segments))


def _nearness(stroke: Segment, placing: Placing, found: Found) -> float:
    """1 for a line that is in its place, 0 for one that is not there."""
    mapped = placing.matrix.segment(stroke)
    partner = found.lines(placing.scale).partner(mapped)
    if partner is None:
        return 0.0
    off = max(0.0, farther_end(mapped, partner) / placing.scale - _SURE)
    return 1 / (1 + (off / _HALF_ALIKE) ** 2)


def _page_report(
    number: int,
    place: int,
    page: ExpectedPage,
    found: PageStrokes,
    lines: Found,
    placing: Placing,
) -> PageReport:
    worst_error, worst_role = 0.0, ""
    missing: list[str] = []
    partners = lines.lines(placing.scale)
    joined = Joined((placing.matrix.segment(stroke.line) for stroke in page.strokes), partners)
    for stroke in page.strokes:
        mapped = placing.matrix.segment(stroke.line)
        partner = _partner(mapped, partners, joined)
        if partner is None:
            missing.append(stroke.role)
            continue
        error = _true_error(mapped, partner, placing.matrix)
        if error > worst_error:
            worst_error, worst_role = error, stroke.role
    return PageReport(
        number + 1,
        place + 1,
        placing.scale_across,
        placing.scale_along,
        placing.skew_deg - _skew_deg(page),
        placing.turned_deg,
        worst_error,
        worst_role,
        len(missing),
        tuple(dict.fromkeys(missing)),
        _is_cropped(page, found, placing.matrix),
        found.text_seen,
        found.fonts_missing,
    )


def _skew_deg(page: ExpectedPage) -> float:
    """By how much the rulers are meant to be wider than square: a corrected page leans."""
    (ax, ay), (bx, by) = (
        (ruler.x1 - ruler.x0, ruler.y1 - ruler.y0)
        for ruler in (page.ruler_across, page.ruler_along)
    )
    return math.degrees(math.atan2(ax * by - ay * bx, ax * bx + ay * by)) - 90


def _partner(mapped: Segment, lines: Lines, joined: Joined) -> Segment | None:
    """The found line, or the part of a joined line, that lies nearest."""
    direct = lines.partner(mapped)
    if direct is not None and farther_end(mapped, direct) <= _SURE:
        return direct
    parts = [part for part in (direct, joined.partner(mapped)) if part is not None]
    return min(parts, key=lambda part: farther_end(mapped, part), default=None)


def _true_error(mapped: Segment, partner: Segment, matrix: Matrix) -> float:
    """The larger distance between ends, in the millimetres that the rulers show."""
    return max(
        math.hypot(*matrix.step_back(partner.x0 - mapped.x0, partner.y0 - mapped.y0)),
        math.hypot(*matrix.step_back(partner.x1 - mapped.x1, partner.y1 - mapped.y1)),
    )


def _is_cropped(page: ExpectedPage, found: PageStrokes, matrix: Matrix) -> bool:
    lines = (page.ruler_across, page.ruler_along, *(stroke.line for stroke in page.strokes))
    return not all(
        found.crop.holds(x, y, _EDGE)
        for line in map(matrix.segment, lines)
        for x, y in (line[:2], line[2:])
    )
