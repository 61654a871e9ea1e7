"""The pages as found held against the pages as designed.

The rulers of each found page are taken as right: what they read is the scale,
and every other line is measured from their corner in the millimetres they show.
So a page shrunk as a whole shows a wrong scale and no error, a drawing moved
beside its rulers shows the true scale and an error.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from joinery_templates.measure.causes import likely_cause
from joinery_templates.measure.plane import Matrix, Segment
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
_RELATED = 0.3
_ALL_WITH_ALL = 60


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


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class Tolerance:
    """What still passes as true to size.

    Attributes:
        scale: how far a scale may be from 1.
        error: how far a line's end may be from its place, mm.
        skew_deg: how far the rulers may be from square.
    """

    scale: float = 0.001
    error: float = 0.05
    skew_deg: float = 0.05


@dataclass(frozen=True, slots=True)
class PageReport:
    """One page as found.

    Attributes:
        number: which designed page it is, from 1.
        found_number: which page of the file it is, from 1.
        scale_across: 1.0 = true.
        scale_along: 1.0 = true.
        skew_deg: by how much the angle between the rulers is wider than square.
        turned_deg: how far the page was turned, counter-clockwise.
        worst_error: largest distance of a line's end from its place, true mm.
        worst_role: role of that line; empty where there is none.
        missing: how many lines were not found within 2 mm of their place.
        missing_roles: their roles, each once.
        cropped: whether anything designed lies outside the visible page.
        text_seen: whether there is lettering in a font that is in the file.
        fonts_missing: fonts that lettering asks for and that are not in the file.
    """

    number: int
    found_number: int
    scale_across: float
    scale_along: float
    skew_deg: float
    turned_deg: float
    worst_error: float
    worst_role: str
    missing: int
    missing_roles: tuple[str, ...]
    cropped: bool
    text_seen: bool
    fonts_missing: tuple[str, ...]

    def true_to_size(self, tolerance: Tolerance) -> bool:
        """Whether one can cut to this page; lettering does not count."""
        return (
            abs(self.scale_across - 1) <= tolerance.scale
            and abs(self.scale_along - 1) <= tolerance.scale
            and abs(self.skew_deg) <= tolerance.skew_deg
            and self.worst_error <= tolerance.error
            and not self.missing
            and not self.cropped
        )


@dataclass(frozen=True, slots=True)
class Report:
    """A whole file as found.

    Attributes:
        pages: a report on every designed page that was found, in the designed order.
        missing_pages: numbers of designed pages that were not found, from 1.
        surplus_pages: numbers of pages of the file that belong to no designed page, from 1.
        in_order: whether the pages found stand in the designed order.
        tolerance: what passes.
    """

    pages: tuple[PageReport, ...]
    missing_pages: tuple[int, ...]
    surplus_pages: tuple[int, ...]
    in_order: bool
    tolerance: Tolerance

    @property
    def true_to_size(self) -> bool:
        """Whether every designed page is there, once, and true."""
        return (
            bool(self.pages)
            and not self.missing_pages
            and not self.surplus_pages
            and all(page.true_to_size(self.tolerance) for page in self.pages)
        )


def compare_pages(
    expected: Sequence[ExpectedPage],
    found: Sequence[PageStrokes],
    tolerance: Tolerance = Tolerance(),
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
    """Every page with the one most like it, the surest pairs first."""
    window = abs(len(expected) - len(found)) + 3
    if max(len(expected), len(found)) <= _ALL_WITH_ALL:
        window = _ALL_WITH_ALL
    ranked = []
    for number, page in enumerate(expected):
        for place in range(max(0, number - window), min(len(found), number + window + 1)):
            placing, share, likeness = _likeness(page, found[place])
            if placing is not None and share >= _RELATED:
                ranked.append((-likeness, abs(number - place), number, place, placing))
    ranked.sort(key=lambda pair: pair[:4])
    matches: _Matches = {}
    numbers, places = set[int](), set[int]()
    for *_, number, place, placing in ranked:
        if number not in numbers and place not in places:
            matches[number, place] = placing
            numbers.add(number)
            places.add(place)
    return matches


def _likeness(page: ExpectedPage, found: Found) -> tuple[Placing | None, float, float]:
    """The map of a page, the share of its lines found, and how like the two are (both 0 to 1).

    Likeness counts lines on either side that have no partner, so that a page
    with little on it is not taken for every page that has the same furniture.
    """
    strokes = [stroke.line for stroke in page.strokes]
    placing = find_placing(page.ruler_across, page.ruler_along, strokes, found)
    if placing is None:
        return None, 0.0, 0.0
    lines = found.lines(placing.scale)
    hits = sum(lines.partner(placing.matrix.segment(stroke)) is not None for stroke in strokes)
    whole = len(strokes) + 2
    return placing, (hits + 2) / whole, 2 * (hits + 2) / (whole + len(found.segments))


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
    for stroke in page.strokes:
        mapped = placing.matrix.segment(stroke.line)
        partner = partners.partner(mapped)
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
        placing.skew_deg,
        placing.turned_deg,
        worst_error,
        worst_role,
        len(missing),
        tuple(dict.fromkeys(missing)),
        _is_cropped(page, found, placing.matrix),
        found.text_seen,
        found.fonts_missing,
    )


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
