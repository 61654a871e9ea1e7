"""The sheet from which a printer is measured; drawn uncorrected, and it says so.

A rectangle whose sides are as 3 to 4, with its diagonals; at the far end of each of the
four lengths a fine comparison scale; and at each edge of the paper a staircase of short
lines that shows how far the printer reaches.
"""

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from joinery_templates.drawings.figure import (
    Align,
    Figure,
    Point,
    Role,
    Stroke,
    Text,
    cross,
    joined,
)
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.errors import InputError, mistake
from joinery_templates.lengths import INCH, inch_text, mm_text
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.page import Booklet, Bookmark, Page, whole
from joinery_templates.sheets.papers import Family

TITLE = "Calibration sheet"
CLEAR = Fraction(12)
"""Room round the rectangle for the comparison scales."""
DIVISIONS = 20
DIVISION = Fraction(19, 20)
"""20 divisions of the comparison scale take 19 mm: each is 0.05 mm short of a millimetre."""
BACK = Fraction(8)
"""A diagonal's scale ends so many whole millimetres short of its cross, clear of the sides."""
SIDES = ("left", "right", "top", "bottom")
STAIRS = {"left": 10, "right": 10, "top": 9, "bottom": 17}
"""How many millimetres each staircase counts: further in stand the rulers and the title."""
CAPS = (Fraction(21, 10), Fraction(9, 5), Fraction(8, 5), Fraction(1))
SCALE_DEPTH = Fraction(22)
"""How far a diagonal's scale reaches down from the rectangle's upper side."""
NARROWEST = Fraction(75)
"""On a narrower rectangle the words and the scales have no room."""
SMALL = Fraction(3, 2)


def rectangle_sides(frame: Frame) -> tuple[Fraction, Fraction]:
    """Width and height of the rectangle: the largest of whole centimetres, or half inches.

    They are 3 and 4 of one unit, so that the diagonal is 5 of it exactly.

    Raises:
        InputError: `page-too-small`.
    """
    unit = INCH / 2 if frame.paper.family is Family.NORTH_AMERICA else Fraction(10)
    across, along = frame.area.width - 2 * CLEAR, frame.area.height - 2 * CLEAR
    count = min(int(across // (3 * unit)), int(along // (4 * unit)))
    if 3 * unit * count < NARROWEST:
        raise InputError(
            mistake(
                "page-too-small",
                f"Paper {frame.paper.name} is too small to calibrate on.",
                "Take a larger paper.",
                "--paper",
            )
        )
    return 3 * unit * count, 4 * unit * count


def stated_text(frame: Frame, length: Fraction) -> str:
    """A length as the sheet of this paper states it."""
    told = inch_text if frame.paper.family is Family.NORTH_AMERICA else mm_text
    return told(length)


def calibration_booklet(frame: Frame, lettering: Lettering) -> Booklet:
    """The one page of the calibration sheet.

    Raises:
        InputError: `page-too-small`.
    """
    frame.check_size()
    zero = (Fraction(0), Fraction(0))
    block = frame.title_block(TITLE, 1, lettering)
    own = block.own(("drawn without any correction",), "", 1)
    figures = (frame.furniture(block), own, _sheet(frame, lettering))
    return Booklet(
        width_pt=frame.paper.width_pt,
        height_pt=frame.paper.height_pt,
        pages=(Page(TITLE, tuple(whole(figure, zero) for figure in figures)),),
        bookmarks=(Bookmark(TITLE, 0),),
        rulers=frame.ruler_lines,
        paper_used=Fraction(1),
    )


def _sheet(frame: Frame, lettering: Lettering) -> Figure:
    width, height = rectangle_sides(frame)
    left, bottom = frame.area.left + CLEAR, frame.area.bottom + CLEAR
    right, top = left + width, bottom + height
    stairs = [_Stairs(frame, side) for side in SIDES]
    short, long = Fraction(3, 5), Fraction(4, 5)
    one, zero = Fraction(1), Fraction(0)
    scales = (
        _Comparison((right, bottom), (one, zero), (zero, -one)),
        _Comparison((left, top), (zero, one), (-one, zero)),
        _Comparison((right, top), (short, long), (-long, short), BACK),
        _Comparison((left, top), (-short, long), (long, short), BACK),
    )
    strokes = [
        *_rectangle(((left, bottom), (right, bottom), (right, top), (left, top))),
        *(stroke for scale in scales for stroke in scale.strokes()),
        *(stroke for side in stairs for stroke in side.strokes()),
    ]
    texts = [
        *(text for scale in scales for text in scale.figures()),
        *(text for side in stairs for text in side.figures()),
    ]
    words = _words(frame, lettering)
    at = (left + (width - words.width) / 2, bottom + (height - words.height) / 2)
    drawn = Figure(frame.width, frame.height, tuple(strokes), tuple(texts))
    return joined(frame.width, frame.height, (drawn, words.moved(*at)))


def _rectangle(corners: tuple[Point, ...]) -> Iterator[Stroke]:
    """The sides, and of each diagonal the two ends: words stand in the middle."""
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        yield Stroke(Role.MARK, start, end)
    for start, end in ((corners[0], corners[2]), (corners[3], corners[1])):
        yield Stroke(Role.DIMENSION, start, _between(start, end, Fraction(1, 6)))
        yield Stroke(Role.DIMENSION, _between(start, end, Fraction(5, 6)), end)
    for corner in corners:
        yield from cross(Role.PRICK, corner, Fraction(3, 2))


def _between(start: Point, end: Point, share: Fraction) -> Point:
    return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)


class _Comparison(Struct, frozen=True):
    """Twenty divisions on 19 mm, at the far end of a length that is measured.

    Attributes:
        corner: where the length ends.
        along: its direction, one long.
        aside: the direction to the side where the scale stands, one long.
        back: how far before the corner the scale ends.
    """

    corner: Point
    along: Point
    aside: Point
    back: Fraction = Fraction(0)

    def point(self, number: int, distance: Fraction) -> Point:
        """A place on the scale's line of a number, at a distance from the length."""
        before = inset(Fraction(number), self.back)
        x, y = (
            corner - before * along + distance * aside
            for corner, along, aside in zip(self.corner, self.along, self.aside, strict=True)
        )
        return x, y

    def strokes(self) -> Iterator[Stroke]:
        for number in range(DIVISIONS + 1):
            length = Fraction(5 if number % 10 == 0 else 4 if number % 2 == 0 else 3)
            start, end = self.point(number, Fraction(1)), self.point(number, 1 + length)
            yield Stroke(Role.TICK, start, end)

    def figures(self) -> Iterator[Text]:
        for number, words in ((0, "0"), (10, "0.5"), (20, "0")):
            x, y = self.point(number, Fraction(7))
            across, up = self.aside
            align = Align.RIGHT if across < 0 else Align.LEFT if across > 0 else Align.CENTRE
            yield Text(words, (x, y - SMALL if up < 0 else y - SMALL / 2), SMALL, align)


def inset(line: Fraction, back: Fraction) -> Fraction:
    """How far before the cross a line of a comparison scale stands; lines count from 0 to 20."""
    return back + (DIVISIONS - line) * DIVISION


class _Stairs(Struct, frozen=True):
    """Short lines 1, 2, 3 ... mm from an edge of the paper, each with its figure after it."""

    frame: Frame
    side: str

    @property
    def upright(self) -> bool:
        return self.side in ("left", "right")

    @property
    def tread(self) -> Fraction:
        extent = self.frame.height if self.upright else self.frame.width
        return min(Fraction(8), extent * 9 / 10 / STAIRS[self.side])

    def point(self, number: int, share: Fraction, towards_edge: Fraction = Fraction(0)) -> Point:
        """A place on a step: its share of the tread, and a distance back towards the edge."""
        extent = self.frame.height if self.upright else self.frame.width
        along = extent / 2 + self.tread * (number - 1 + share - Fraction(STAIRS[self.side], 2))
        depth = number - towards_edge
        return {
            "left": (depth, along),
            "right": (self.frame.width - depth, along),
            "bottom": (along, depth),
            "top": (along, self.frame.height - depth),
        }[self.side]

    def strokes(self) -> Iterator[Stroke]:
        for number in range(1, STAIRS[self.side] + 1):
            start, end = self.point(number, Fraction(0)), self.point(number, Fraction(1, 2))
            yield Stroke(Role.TICK, start, end)

    def figures(self) -> Iterator[Text]:
        # Upright lettering rises from its baseline, turned lettering to the left of it.
        half = SMALL / 2 if self.side in ("bottom", "right") else -SMALL / 2
        for number in range(1, STAIRS[self.side] + 1):
            at = self.point(number, Fraction(3, 5), half)
            yield Text(str(number), at, SMALL, Align.LEFT, 90 if self.upright else 0)


def _words(frame: Frame, lettering: Lettering) -> Figure:
    """What to do with the sheet, in the middle of the rectangle."""
    width, height = rectangle_sides(frame)
    across, along, diagonal = (
        stated_text(frame, length) for length in (width, height, height * 5 / 4)
    )
    rows = (
        "Print at 100 %, let the sheet lie for an hour. It is drawn without any correction.",
        f"1. Measure the rectangle from cross to cross: across (the lower side), stated {across}; "
        f"along (the left side), stated {along}; both diagonals, stated {diagonal}: "
        "rising to the right, then falling.",
        "2. Finer: lay a millimetre rule's zero on the lower (or left) cross and find the line "
        "of the comparison scale near the other that stands exactly on a graduation. Its figure, "
        "in steps of 0.05, tells the decimals of what the cross reads. Do so with all four, and "
        "say --fine.",
        "3. At each edge of the paper: the lowest figure whose line is printed is how far your "
        "printer reaches there, in mm.",
        "4. Give the readings to the program: joinery-templates calibrate NAME asks for them.",
    )
    columns = (
        column(
            [Paragraph(words, cap, after=Fraction(1)) for words in rows], width * 13 / 20, lettering
        )
        for cap in CAPS
    )
    return next(words for words in columns if words.height <= height - 2 * SCALE_DEPTH)
