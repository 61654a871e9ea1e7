"""Holding a PDF to the job that it carries: what should stand on each page, and what does."""

import math
from collections.abc import Callable, Iterator

from joinery_templates.drawings.figure import HATCHES, Point, Role, Stroke
from joinery_templates.exact import Fraction, as_float
from joinery_templates.measure.compare import ExpectedPage, ExpectedStroke
from joinery_templates.measure.plane import Segment
from joinery_templates.sheets.page import Booklet, Box, Window

_NOT_HELD = HATCHES | {Role.CROSS, Role.FRAME, Role.CONTOUR, Role.INNER, Role.THIN, Role.DOT}
"""Strokes that only show something; no tool follows them."""
SHORTEST = 0.2
"""A piece that a seam leaves of a line, in mm; a shorter one is not looked for."""


def expected_pages(booklet: Booklet) -> tuple[ExpectedPage, ...]:
    """What a PDF of these pages must show, in millimetres on the page.

    Of a line that a seam cuts, the part on each page. Where no seam cuts, every line whole:
    else a page that lost the end of one would pass.
    """
    moved = booklet.page_map.point
    # The rulers stand on every page as the same figure: worked out once.
    known: dict[tuple[int, Box, Point, bool], tuple[ExpectedStroke, ...]] = {}

    def seen(window: Window) -> tuple[ExpectedStroke, ...]:
        key = (id(window.figure), window.view, window.at, window.turned)
        if key not in known:
            known[key] = tuple(_strokes(window, moved))
        return known[key]

    across, along = (_segment(moved(start), moved(end)) for start, end in booklet.rulers)
    return tuple(
        ExpectedPage(
            ruler_across=across,
            ruler_along=along,
            strokes=tuple(stroke for window in page.windows for stroke in seen(window)),
        )
        for page in booklet.pages
    )


def _strokes(window: Window, moved: Callable[[Point], Point]) -> Iterator[ExpectedStroke]:
    shows_all = window.shows_all
    for stroke in window.figure.strokes:
        if stroke.role in _NOT_HELD:
            continue
        seen = (stroke.start, stroke.end) if shows_all else _seen(stroke, window.view)
        if seen is not None:
            start, end = (moved(window.on_page(point)) for point in seen)
            yield ExpectedStroke(str(stroke.role), _segment(start, end))


def _seen(stroke: Stroke, view: Box) -> tuple[Point, Point] | None:
    """The part of a stroke within a view, None where there is none worth looking for."""
    if view.contains(stroke.start) and view.contains(stroke.end):
        return stroke.start, stroke.end
    shares = view.part_of(stroke.start, stroke.end)
    if shares is None:
        return None
    low, high = shares
    run, rise = (as_float(b - a) for a, b in zip(stroke.start, stroke.end, strict=True))
    if (high - low) * math.hypot(run, rise) < SHORTEST:
        return None
    return _between(stroke, low), _between(stroke, high)


def _between(stroke: Stroke, share: float) -> Point:
    part = Fraction(share)
    return (
        stroke.start[0] + part * (stroke.end[0] - stroke.start[0]),
        stroke.start[1] + part * (stroke.end[1] - stroke.start[1]),
    )


def _segment(start: Point, end: Point) -> Segment:
    return Segment(as_float(start[0]), as_float(start[1]), as_float(end[0]), as_float(end[1]))
