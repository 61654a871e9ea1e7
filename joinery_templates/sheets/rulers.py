"""Check rulers: a base line with millimetres on one side and inches on the other."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import cycle
from math import lcm

from msgspec import Struct

from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text
from joinery_templates.lengths import INCH

BAND = Fraction(6)
"""Paper on either side of a ruler's line for its graduations and figures."""
FIGURE_CAP = Fraction(17, 10)
LONGEST = Fraction(1000)
"""Nobody checks with a steel rule longer than a metre (our judgement)."""

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


class _Scale(Struct, frozen=True):
    """Graduations on one side of a ruler's line.

    Attributes:
        step: from one graduation to the next.
        reach: how far aside each of one division goes, the one with the figure first.
    """

    step: Fraction
    reach: tuple[Fraction, ...]


def _reaching(*lengths: str) -> tuple[Fraction, ...]:
    return tuple(Fraction(length) for length in lengths)


_METRIC = _Scale(Fraction(1), _reaching("4", *["1.5"] * 4, "2.5", *["1.5"] * 4))
_INCH = _Scale(
    INCH / 16,
    _reaching(*"-4 -1.5 -2 -1.5 -2.5 -1.5 -2 -1.5 -3 -1.5 -2 -1.5 -2.5 -1.5 -2 -1.5".split()),
)


class _Axis(Struct, frozen=True):
    """Carries a place along a ruler and a distance aside of it to the page.

    Aside is positive towards the drawing area, where the metric scale stands.
    """

    origin: Point
    upright: bool

    def point(self, along: Fraction, aside: Fraction) -> Point:
        x, y = self.origin
        return (x + aside, y + along) if self.upright else (x + along, y + aside)

    def graduations(self, scale: _Scale, count: int) -> Iterator[Stroke]:
        """The zero and so many graduations more.

        There are hundreds: their places are counted in whole parts of a millimetre.
        """
        start, line = self.origin[::-1] if self.upright else self.origin
        parts = lcm(start.denominator, scale.step.denominator)
        first, step = int(start * parts), int(scale.step * parts)
        ends = cycle([line + reach for reach in scale.reach])
        for place, end in zip(range(first, first + count * step + 1, step), ends):
            along = Fraction(place, parts)
            if scale is _METRIC and place == first + step:
                # In the corner that the rulers share, this one ends where that of the other does.
                end = line + scale.step
            if self.upright:
                yield Stroke(Role.TICK, (line, along), (end, along))
            else:
                yield Stroke(Role.TICK, (along, line), (along, end))

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
        strokes.extend(axis.graduations(_METRIC, ruler.millimetres))
        strokes.extend(axis.graduations(_INCH, ruler.inches * 16))
        texts.extend(_figures(ruler, axis))
    return Figure(width, height, tuple(strokes), tuple(texts))


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
