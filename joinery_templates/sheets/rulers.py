"""Check rulers: a base line with millimetres on one side and inches on the other."""

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text
from joinery_templates.lengths import INCH

BAND = Fraction(6)
"""Paper on either side of a ruler's line for its graduations and figures."""
FIGURE_CAP = Fraction(17, 10)
LONGEST = Fraction(1000)
"""Nobody checks with a steel rule longer than a metre (our judgement)."""

_METRIC = ((10, Fraction(4)), (5, Fraction(5, 2)), (1, Fraction(3, 2)))
"""Of which millimetres the graduation has which length."""
_INCH = (
    (16, Fraction(4)),
    (8, Fraction(3)),
    (4, Fraction(5, 2)),
    (2, Fraction(2)),
    (1, Fraction(3, 2)),
)
"""Of which sixteenths of an inch the graduation has which length."""
_NEAR, _FAR = Fraction(27, 10), Fraction(27, 10) + FIGURE_CAP
"""Between which distances from the line the figures stand, clear of the shorter graduations."""


class Ruler(Struct, frozen=True):
    """A check ruler with two scales from one zero: whole tens of mm, and whole inches."""

    millimetres: int
    inches: int

    @property
    def length(self) -> Fraction:
        """Length of the base line: to the end of the longer scale."""
        return max(Fraction(self.millimetres), self.inches * INCH)


def longest_ruler(room: Fraction) -> Ruler:
    """The longest ruler that fits a room, in mm."""
    room = min(room, LONGEST)
    return Ruler(millimetres=int(room // 10) * 10, inches=int(room // INCH))


class _Axis(Struct, frozen=True):
    """Carries a place along a ruler and a distance aside of it to the page.

    Aside is positive towards the drawing area, where the metric scale stands.
    """

    origin: Point
    upright: bool

    def point(self, along: Fraction, aside: Fraction) -> Point:
        x, y = self.origin
        return (x + aside, y + along) if self.upright else (x + along, y + aside)

    def figure(self, words: str, along: Fraction, metric: bool, last: bool) -> Text:
        """A figure of the scale beside its graduation.

        After it, but the last one before it, so that it does not run off the ruler.
        """
        # Lettering on the upright ruler is turned and stands to the left of its baseline.
        aside = (_FAR if metric else -_NEAR) if self.upright else (_NEAR if metric else -_FAR)
        place = self.point(along + (Fraction(-7, 10) if last else Fraction(7, 10)), aside)
        align = Align.RIGHT if last else Align.LEFT
        return Text(words, place, FIGURE_CAP, align, 90 if self.upright else 0)


def drawn_rulers(
    origin: Point, across: Ruler, along: Ruler, width: Fraction, height: Fraction
) -> Figure:
    """Two rulers at right angles from one corner, in a box of a width and height."""
    strokes: list[Stroke] = []
    texts: list[Text] = []
    for ruler, axis in ((across, _Axis(origin, False)), (along, _Axis(origin, True))):
        zero = Fraction(0)
        strokes.append(Stroke(Role.RULER, axis.point(zero, zero), axis.point(ruler.length, zero)))
        strokes.extend(
            Stroke(Role.TICK, axis.point(place, zero), axis.point(place, aside))
            for place, aside in (*_metric_ticks(ruler), *_inch_ticks(ruler))
        )
        texts.extend(_figures(ruler, axis))
    return Figure(width, height, tuple(strokes), tuple(texts))


def _metric_ticks(ruler: Ruler) -> Iterator[tuple[Fraction, Fraction]]:
    """Places and lengths of the millimetre graduations, towards the drawing area."""
    for number in range(ruler.millimetres + 1):
        long = next(long for parts, long in _METRIC if number % parts == 0)
        # In the corner that the rulers share, the first of one ends where that of the other does.
        yield Fraction(number), min(long, Fraction(number)) if number else long


def _inch_ticks(ruler: Ruler) -> Iterator[tuple[Fraction, Fraction]]:
    """Places and lengths of the 1/16 in graduations, towards the paper's edge."""
    for number in range(ruler.inches * 16 + 1):
        yield number * INCH / 16, -next(long for parts, long in _INCH if number % parts == 0)


def _figures(ruler: Ruler, axis: _Axis) -> Iterator[Text]:
    """Figures of the scales: each whole centimetre in mm, each whole inch.

    Where the zero in mm would stand, the other ruler has its graduations.
    """
    last = ruler.millimetres
    for number in range(10, last + 1, 10):
        words = f"{number} mm" if number == 10 else f"{number}"
        if number != last - 10 or last < 1000:  # four figures before the end need its room
            yield axis.figure(words, Fraction(number), True, number == last)
    for number in range(ruler.inches + 1):
        words = f"{number} in" if number == 1 else f"{number}"
        yield axis.figure(words, number * INCH, False, number == ruler.inches)
