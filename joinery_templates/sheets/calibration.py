"""The sheet from which a printer is measured; drawn uncorrected, and it says so.

A rectangle whose sides are as 3 to 4, with its diagonals. At the far end of each of the four
lengths stand numbered lines, each a little short of a millimetre from the next: the one that
meets a millimetre of a rule tells the length to a twentieth. At each edge of the paper a
staircase of short lines shows how far the printer reaches.
"""

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text, box, joined
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.errors import refusal
from joinery_templates.exact import Fraction
from joinery_templates.lengths import INCH, Units, both_units, decimal_text, mm_text
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.page import Booklet, whole
from joinery_templates.sheets.rulers import FIGURE_CAP, LONGEST

TITLE = "Calibration sheet"
CLEAR, EDGE = Fraction(10), Fraction(3)
"""Room below and left of the rectangle, where numbered lines stand, and above and right."""
LENGTHS = ("across", "along", "rising", "falling")
LAST = 30
"""Lines are numbered from 0: twenty steps go from one millimetre to the next on a true sheet, and
nearly ten more where the lines are printed 1.5 % too far apart."""
DIVISION = Fraction(19, 20)
"""From one line to the next: 0.05 mm short of a millimetre."""
BACK = Fraction(8)
"""A diagonal's last line stands so far short of its cross, clear of the sides."""
BACKS = (Fraction(0), Fraction(0), BACK, BACK)
"""The same of each of the four lengths."""
RULE_ERROR = Fraction(15, 100)
"""What an eye reads off a steel rule to either side, in mm (our judgement)."""
LINE_ERROR = Fraction(5, 100)
"""What the numbered lines show to either side, in mm: a line too early or too late."""
SPAN = Fraction(250)
"""The length over which the accuracy is told, in mm."""
COARSE = Fraction(1, 10)
"""An error over that length, in mm, at which it is told how to come nearer (our judgement)."""
SIDES = ("left", "right", "top", "bottom")
STAIRS = {"left": 10, "right": 10, "top": 9, "bottom": 17}
"""How many millimetres each staircase counts: further in stand the rulers and the title."""
CAPS = tuple(Fraction(tenths, 10) for tenths in (26, 22, 19, 17, 14, 12))
STUB = Fraction(38)
"""Of a diagonal the ends are drawn, past its numbered lines; words stand between."""
SCALE_DEPTH = Fraction(31)
"""How far that reaches from the lower or the upper side: a diagonal is as 4 to 5."""
WIDEST_WORDS = Fraction(125)
NARROWEST = Fraction(85)
"""On a narrower rectangle the words and the numbered lines have no room."""
SMALL = Fraction(3, 2)


class Stated(Struct, frozen=True):
    """The true lengths of the rectangle on a calibration sheet, in mm."""

    across: Fraction
    along: Fraction

    @property
    def diagonal(self) -> Fraction:
        """Its diagonal, exact, since the sides are as 3 to 4."""
        return self.along * Fraction(5, 4)

    @property
    def lengths(self) -> tuple[Fraction, Fraction, Fraction, Fraction]:
        """In the order of `LENGTHS`."""
        return self.across, self.along, self.diagonal, self.diagonal

    def left_over(self, error: Fraction) -> Fraction:
        """How far off a line of 250 mm may still be, for an error of each reading, in mm."""
        return SPAN * error / min(self.across, self.along)


def rectangle(frame: Frame) -> Stated:
    """The largest rectangle for which a page has room, in whole millimetres or 1/8 inches.

    They are 3 and 4 of one unit, so that the diagonal is 5 of it exactly; and no diagonal is
    longer than a rule.

    Raises:
        InputError: `page-too-small`.
    """
    unit = INCH / 8 if frame.in_inches else Fraction(1)
    across, along = (room - CLEAR - EDGE for room in (frame.area.width, frame.area.height))
    units = min(across / 3, along / 4, LONGEST / 5) // unit * unit
    if 3 * units < NARROWEST:
        raise refusal(
            "page-too-small",
            f"Paper {frame.paper.name} is too small to calibrate on.",
            "Take a larger paper.",
            "--paper",
        )
    return Stated(3 * units, 4 * units)


def stated_text(frame: Frame, length: Fraction) -> str:
    """A length as the sheet of this paper states it."""
    return both_units(length, Units.INCH) if frame.in_inches else mm_text(length)


def command(frame: Frame, units: Units = Units.MM) -> str:
    """What is typed when the sheet has been measured.

    Args:
        frame: of the sheet.
        units: of figures that name none.
    """
    told = f" --units {units}" if units is not Units.MM else ""
    return f'joinery-templates calibrate NAME --paper "{frame.paper.name}"{told}'


def calibration_booklet(frame: Frame, lettering: Lettering, units: Units = Units.MM) -> Booklet:
    """The one page of the calibration sheet.

    Args:
        frame: of the page.
        lettering: how wide words run.
        units: of figures that name none, when the readings are typed.

    Raises:
        InputError: `page-too-small`.
    """
    frame.check_size()
    block = replace(frame.title_block(TITLE, 1, lettering), job="")
    sheet = whole(_sheet(frame, lettering, units))
    return frame.booklet(block, TITLE, "drawn without any correction", [[sheet]])


def _sheet(frame: Frame, lettering: Lettering, units: Units) -> Figure:
    stated = rectangle(frame)
    left, bottom = frame.area.left + CLEAR, frame.area.bottom + CLEAR
    right, top = left + stated.across, bottom + stated.along
    short, long = Fraction(3, 5), Fraction(4, 5)
    one, zero = Fraction(1), Fraction(0)
    scales: tuple[_NumberedLines | _Stairs, ...] = (
        _NumberedLines((right, bottom), (one, zero), (zero, -one), BACKS[0]),
        _NumberedLines((left, top), (zero, one), (-one, zero), BACKS[1]),
        _NumberedLines((right, top), (short, long), (-long, short), BACKS[2]),
        _NumberedLines((left, top), (-short, long), (long, short), BACKS[3]),
        *(_Stairs(frame, side) for side in SIDES),
    )
    strokes = [
        *_rectangle(left, bottom, right, top, STUB / stated.diagonal),
        *(stroke for scale in scales for stroke in scale.strokes()),
    ]
    texts = [text for scale in scales for text in scale.figures()]
    words = _words(frame, stated, lettering, units)
    at = ((left + right - words.width) / 2, (bottom + top - words.height) / 2)
    drawn = Figure(frame.width, frame.height, tuple(strokes), tuple(texts))
    return joined(frame.width, frame.height, (drawn, words.moved(*at)))


def _rectangle(
    left: Fraction, bottom: Fraction, right: Fraction, top: Fraction, share: Fraction
) -> Iterator[Stroke]:
    """The sides, which cross at the corners, and a share of each diagonal at either end."""
    yield from box(Role.MARK, left, bottom, right, top)
    for x, out in ((left, -2), (right, 2)):
        for y, up in ((bottom, -2), (top, 2)):
            yield Stroke(Role.MARK, (x, y), (x + out, y))
            yield Stroke(Role.MARK, (x, y), (x, y + up))
            inwards = ((left + right - 2 * x) * share, (bottom + top - 2 * y) * share)
            yield Stroke(Role.DIMENSION, (x, y), (x + inwards[0], y + inwards[1]))


class _NumberedLines(Struct, frozen=True):
    """The numbered lines at the far end of a length that is measured.

    Attributes:
        corner: where the length ends.
        along: its direction, one long.
        aside: the direction to the side where the lines stand, one long.
        back: how far before the corner the last line stands.
    """

    corner: Point
    along: Point
    aside: Point
    back: Fraction

    def point(self, number: int, distance: Fraction) -> Point:
        """A place on a line, at a distance from the length."""
        before = inset(number, self.back)
        x, y = (
            corner - before * along + distance * aside
            for corner, along, aside in zip(self.corner, self.along, self.aside, strict=True)
        )
        return x, y

    def strokes(self) -> Iterator[Stroke]:
        for number in range(LAST + 1):
            end = self.point(number, Fraction(3 if number % 5 else 5))
            yield Stroke(Role.TICK, self.point(number, Fraction(0)), end)

    def figures(self) -> Iterator[Text]:
        for number in range(0, LAST + 1, 5):
            x, y = self.point(number, Fraction(7))
            at = (x, y - FIGURE_CAP / 2)
            yield Text(str(number), at, FIGURE_CAP, Align.CENTRE)


def inset(number: int, back: Fraction) -> Fraction:
    """How far before the cross a numbered line stands."""
    return back + (LAST - number) * DIVISION


class _Stairs(Struct, frozen=True):
    """Short lines 1, 2, 3 ... mm from an edge of the paper, each with its figure after it."""

    frame: Frame
    side: str

    @property
    def upright(self) -> bool:
        return self.side in ("left", "right")

    def point(self, number: int, share: Fraction, towards_edge: Fraction = Fraction(0)) -> Point:
        """A place on a step: its share of the tread, and a distance back towards the edge."""
        extent = self.frame.height if self.upright else self.frame.width
        tread = min(Fraction(8), extent * 9 / 10 / STAIRS[self.side])
        along = extent / 2 + tread * (number - 1 + share - Fraction(STAIRS[self.side], 2))
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


def _words(frame: Frame, stated: Stated, lettering: Lettering, units: Units) -> Figure:
    """What to do with the sheet, in the middle of the rectangle."""
    told = dict(
        zip(LENGTHS, (stated_text(frame, length) for length in stated.lengths), strict=True)
    )
    blank = "________ line ____"
    rows = (
        "Print at 100 % and let the sheet lie flat for an hour. Take a steel rule in millimetres.",
        "1. Lay the rule's edge on the lower side, facing the numbered lines, its zero on the "
        "left-hand cross. Find a line that runs straight into a millimetre of the rule. Write "
        f"down both, such as {int(stated.across) - 12} line {LAST - 13}. Do the same on the left "
        "side and on both diagonals, always from the bottom up:",
        f"{blank}  across, the lower side: {told['across']}",
        f"{blank}  along, the left side: {told['along']}",
        f"{blank}  rising, lower left to upper right: {told['rising']}",
        f"{blank}  falling, lower right to upper left: {told['falling']}",
        "If your rule has no millimetres, write what it reads at the far cross.",
        "2. At each edge of the paper, write down the lowest figure whose line is printed: so many "
        "mm your printer cannot reach.",
        "left ____   right ____   top ____   bottom ____",
        "3. Type the line below, with a name of your own for the printer. You are asked for the "
        "four readings; what you found at the edges you can add, as --reach-left 4.",
        command(frame, units),
        _good_for(frame, stated),
    )
    room = min(stated.across - 6, WIDEST_WORDS)
    columns = (
        column([Paragraph(words, cap, after=cap / 2) for words in rows], room, lettering)
        for cap in CAPS
    )
    return next(words for words in columns if words.height <= stated.along - 2 * SCALE_DEPTH)


def _good_for(frame: Frame, stated: Stated) -> str:
    """How true lines are that are drawn after such a sheet."""
    span, share, unit, places = f"{SPAN} mm", Fraction(1), "mm", 2
    if frame.in_inches:
        span, share, unit, places = "10 in", 10 / SPAN, "in", 3
    lines, rule = (
        f"{decimal_text(round(stated.left_over(error) * share, places), places)} {unit}"
        for error in (LINE_ERROR, RULE_ERROR)
    )
    words = (
        f"What this is good for: {span}, drawn for your printer, come true to {lines}; read at "
        f"the crosses alone, to {rule}."
    )
    coarse = stated.left_over(LINE_ERROR) > COARSE
    return f"{words} A larger sheet does better, if your printer takes it." if coarse else words
