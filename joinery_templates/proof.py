"""Holding a PDF to the job that it carries: what should stand on each page, and what does."""

from collections.abc import Callable, Iterator
from fractions import Fraction

from joinery_templates.drawings.figure import Point, Role
from joinery_templates.measure.compare import ExpectedPage, ExpectedStroke
from joinery_templates.measure.plane import Segment
from joinery_templates.sheets.page import Booklet, Page, Window
from joinery_templates.sheets.papers import POINT

_NOT_HELD = frozenset({Role.HATCH, Role.CROSS, Role.FRAME})
"""Strokes that only show something; no tool follows them."""


def expected_pages(booklet: Booklet) -> tuple[ExpectedPage, ...]:
    """What a PDF of these pages must show, in millimetres on the page.

    A line that a seam cuts off is left out on the page where it is not whole.
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
            if stroke.role not in _NOT_HELD and _seen(window, stroke.start, stroke.end):
                start = moved(window.on_page(stroke.start))
                end = moved(window.on_page(stroke.end))
                yield ExpectedStroke(str(stroke.role), *(float(c) for c in (*start, *end)))


def _seen(window: Window, *points: Point) -> bool:
    return all(window.view.contains(point) for point in points)


def _segment(start: Point, end: Point) -> Segment:
    numbers: list[Fraction] = [*start, *end]
    return Segment(*(float(number) for number in numbers))
