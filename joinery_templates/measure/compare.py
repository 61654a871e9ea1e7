"""The pages as found held against the pages as designed.

The rulers of each found page are taken as right: what they read is the scale,
and every other line is measured from their corner in the millimetres they show.
So a page shrunk as a whole shows a wrong scale and no error, a drawing moved
beside its rulers shows the true scale and an error.
"""

import math
from collections.abc import Sequence
from functools import cached_property

from msgspec import Struct

from joinery_templates.measure.lines import Lines, joined
from joinery_templates.measure.plane import Segment
from joinery_templates.measure.report import USUAL, PageReport, Report, Tolerance
from joinery_templates.measure.rulers import Placing, find_placing
from joinery_templates.measure.strokes import PageStrokes

_REACH = 2.0
"""A line farther off than this (true mm) is not the line that is looked for."""
_EDGE = 0.1
"""A line this near outside the visible page still shows, having a width."""
_ALIKE = 0.98
"""So much of every page found in its place, and no other order is tried."""
_HALF_ALIKE = 0.25
"""A line this far off (true mm) counts half when pages are told apart."""
_FOR_MISSING = 0.1
"""What a line that is not found takes from the likeness, in lines."""
_SURE = 0.02
"""A line no farther off than this (true mm) is in its place."""
_ALL_WITH_ALL = 25
"""Of so many pages each is held against each; of more only against its neighbours."""
_CLEARLY = 0.05
"""Pages designed alike differ by less, in lines, and then the nearer place decides."""


class ExpectedStroke(Struct, frozen=True):
    """A straight line as designed, as far as it can be seen on its page.

    Attributes:
        role: what it is, in the person's words, such as ``scribe line``.
        line: where it is, in mm from the lower left corner of the page.
    """

    role: str
    line: Segment


class ExpectedPage(Struct, frozen=True, dict=True):
    """A page as designed, in mm from its lower left corner.

    Attributes:
        ruler_across: base line of the ruler, from the corner to the right; like the other
            one, the same on every page of a booklet.
        ruler_along: base line of the other ruler, from the same corner upwards.
        strokes: all other straight lines that can be seen on the page.
    """

    ruler_across: Segment
    ruler_along: Segment
    strokes: tuple[ExpectedStroke, ...]

    @cached_property
    def lines(self) -> tuple[Segment, ...]:
        """Where the strokes are."""
        return tuple(stroke.line for stroke in self.strokes)


class _Found:
    """A found page on which the rulers were seen.

    Attributes:
        page: as it was read.
        placing: where the rulers are.
        lines: what is on it, in true mm as the rulers show them, in the frame of the design.
    """

    def __init__(self, page: PageStrokes, placing: Placing) -> None:
        self.page = page
        self.placing = placing
        self.lines = Lines(map(placing.matrix.inverse.segment, page.segments), _REACH)

    def likeness(self, page: ExpectedPage) -> float:
        """How many lines of a designed page are found, less some for those that are not.

        One out of place counts in part. What else is found does not count: not all
        that is drawn is looked for.
        """
        offs = (max(0.0, self.lines.distance(line) - _SURE) for line in page.lines)
        near = sum(1 / (1 + (off / _HALF_ALIKE) ** 2) for off in offs)
        return near - _FOR_MISSING * (len(page.lines) - near)


_Matches = dict[int, int]
"""Which designed page is which found page, both counted from 0."""


def compare_pages(
    expected: Sequence[ExpectedPage],
    found: Sequence[PageStrokes],
    tolerance: Tolerance = USUAL,
) -> Report:
    """Compare a file as read with the pages as designed.

    Pages are matched by what is on them, so that a dropped page is named by its
    own number; pages that are alike in everything are matched in order.
    """
    seen = _with_rulers(expected, found)
    matches = dict(sorted(_matched(expected, seen).items()))
    places = list(matches.values())
    return Report(
        tuple(
            _page_report(number, place, expected[number], seen[place])
            for number, place in matches.items()
        ),
        tuple(number + 1 for number in range(len(expected)) if number not in matches),
        tuple(place + 1 for place in seen if place not in places),
        tuple(place + 1 for place in range(len(found)) if place not in seen),
        places == sorted(places),
        tolerance,
    )


def _with_rulers(
    expected: Sequence[ExpectedPage], found: Sequence[PageStrokes]
) -> dict[int, _Found]:
    """The found pages that have rulers, known by what stands on every designed page."""
    if not expected:
        return {}
    shared = set.intersection(*(set(page.lines) for page in expected))
    first = expected[0]
    furniture = [line for line in first.lines if line in shared]
    seen = {}
    for place, page in enumerate(found):
        placing = find_placing(first.ruler_across, first.ruler_along, furniture, page.segments)
        if placing is not None:
            seen[place] = _Found(page, placing)
    return seen


def _matched(expected: Sequence[ExpectedPage], found: dict[int, _Found]) -> _Matches:
    """Every page with the one most like it, the surest pairs first.

    Whatever has befallen a found page, no other designed page explains more of its lines
    than its own does, so it is not given away.
    """
    straight = {number: number for number in range(len(expected))}
    if list(found) == list(straight) and all(
        found[number].likeness(page) >= _ALIKE * len(page.lines)
        for number, page in enumerate(expected)
    ):
        return straight
    window = abs(len(expected) - len(found)) + 3
    if max(len(expected), len(found)) <= _ALL_WITH_ALL:
        window = _ALL_WITH_ALL
    likeness = {
        (number, place): _CLEARLY * round(found[place].likeness(page) / _CLEARLY)
        for number, page in enumerate(expected)
        for place in range(number - window, number + window + 1)
        if place in found
    }
    least, most = sorted((0, len(expected) - len(found)))

    def turn(pair: tuple[int, int]) -> tuple[float, int, tuple[int, int]]:
        """The likest first, then what has moved no further than missing pages let it."""
        moved = pair[0] - pair[1]
        return -likeness[pair], max(0, least - moved, moved - most), pair

    matches: _Matches = {}
    for number, place in sorted(likeness, key=turn):
        if number not in matches and place not in matches.values():
            matches[number] = place
    return matches


def _page_report(number: int, place: int, page: ExpectedPage, found: _Found) -> PageReport:
    distances = {line: found.lines.distance(line) for line in page.lines}
    if max(distances.values(), default=0.0) > _SURE:
        for line, distance in joined(page.lines, found.lines.found).items():
            distances[line] = min(distance, distances[line])
    errors = [(distances[stroke.line], stroke.role) for stroke in page.strokes]
    missing = [role for error, role in errors if error == math.inf]
    worst_error, worst_role = max(
        (pair for pair in errors if 0 < pair[0] < math.inf),
        key=lambda pair: pair[0],
        default=(0.0, ""),
    )
    placing = found.placing
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
        _is_cropped(page, found),
        found.page.text_seen,
        found.page.fonts_missing,
    )


def _is_cropped(page: ExpectedPage, found: _Found) -> bool:
    lines = map(found.placing.matrix.segment, (page.ruler_across, page.ruler_along, *page.lines))
    crop = found.page.crop
    return not all(
        crop.holds(x0, y0, _EDGE) and crop.holds(x1, y1, _EDGE) for x0, y0, x1, y1 in lines
    )
