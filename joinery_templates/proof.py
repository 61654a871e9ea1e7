"""Holding a PDF to the job that it carries: what should stand on each page, and what does."""

from collections.abc import Callable, Iterator
from fractions import Fraction

from joinery_templates.drawings.figure import Point, Role, Stroke
from joinery_templates.measure.compare import ExpectedPage, ExpectedStroke
from joinery_templates.measure.plane import Segment
from joinery_templates.sheets.page import Booklet, Box, Page
from joinery_templates.sheets.papers import POINT

_NOT_HELD = frozenset({Role.HATCH, Role.CROSS, Role.FRAME})
"""Strokes that only show something; no tool follows them."""
SHORTEST = 0.2
"""A piece that a seam leaves of a line, in mm; a shorter one is not looked for."""


def expected_pages(booklet: Booklet) -> tuple[ExpectedPage, ...]:
    """What a PDF of these pages must show, in millimetres on the page.

    Of a line that a seam cuts, the part on each page.
    """
    moved = booklet.page_map.point
    across, along = (_segment(moved(start), moved(end)) for start, end in booklet.rulers)
    return tuple(
        ExpectedPage(
            width=float(booklet.width_pt * POINT),
            height=float(booklet.height_pt * POINT),
            ruler_across=across,
            ruler_along=along,
            strokes=tuple(_strokes(page, moved)),
        )
        for page in booklet.pages
    )


def _strokes(page: Page, moved: Callable[[Point], Point]) -> Iterator[ExpectedStroke]:
    for window in page.windows:
        for stroke in window.figure.strokes:
            seen = None if stroke.role in _NOT_HELD else _seen(stroke, window.view)
            if seen is not None:
                start, end = (moved(window.on_page(point)) for point in seen)
                yield ExpectedStroke(str(stroke.role), *_segment(start, end))


def _seen(stroke: Stroke, view: Box) -> tuple[Point, Point] | None:
    """The part of a stroke within a view, None where there is none worth looking for.

    Liang and Barsky's rule: the shares of the way at which the stroke enters and leaves.
    """
    if view.contains(stroke.start) and view.contains(stroke.end):
        return stroke.start, stroke.end
    low, high = 0.0, 1.0
    (x, y), (x1, y1) = ((float(p[0]), float(p[1])) for p in (stroke.start, stroke.end))
    for step, room_before, room_after in (
        (x1 - x, x - float(view.left), float(view.right) - x),
        (y1 - y, y - float(view.bottom), float(view.top) - y),
    ):
        if step == 0:
            if min(room_before, room_after) < 0:
                return None
            continue
        ends = sorted((-room_before / step, room_after / step))
        low, high = max(low, ends[0]), min(high, ends[1])
    if (high - low) * abs(complex(x1 - x, y1 - y)) < SHORTEST:
        return None
    return _between(stroke, low), _between(stroke, high)


def _between(stroke: Stroke, share: float) -> Point:
    part = Fraction(share)
    return (
        stroke.start[0] + part * (stroke.end[0] - stroke.start[0]),
        stroke.start[1] + part * (stroke.end[1] - stroke.start[1]),
    )


def _segment(start: Point, end: Point) -> Segment:
    return Segment(float(start[0]), float(start[1]), float(end[0]), float(end[1]))
