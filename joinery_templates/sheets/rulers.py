"""Check rulers: a base line with millimetres on one side and inches on the other."""

from collections.abc import Iterator

from msgspec import Struct

from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text
from joinery_templates.exact import Fraction
from joinery_templates.lengths import INCH

BAND = Fraction(6)
"""Paper on either side of a ruler's line for its graduations and figures."""
LONGEST = Fraction(1000)
"""Nobody checks with a steel rule longer than a metre (our judgement)."""
STILL_GOOD = (
    {250: "0.5 mm over 250 mm", 200: "0.4 mm over 200 mm", 0: "0.2 mm over 100 mm"},
    {8: "1/64 in over 8 in", 0: "1/128 in over 4 in"},
)
"""How true a ruler must be, by how long it is: to 0.2 % (our judgement), in mm and in inches.

Office paper is said to grow by 0.1 to 0.4 % between dry air and damp (paper makers' figures at
second hand); and a steel rule is read to 0.15 mm, so that less is not seen on a short ruler.
"""
FIGURE_CAP = Fraction(17, 10)
UNIT_CAP = Fraction(3, 2)

_FIGURE = Fraction(32, 10)
"""How far from the line the figures begin, clear of the longest graduations below them."""
_UNIT = Fraction(16, 10)
"""The same of the unit, which stands before the last graduation and clear of short ones."""
_BEFORE = Fraction(7, 10)
_DIGIT = Fraction(7, 8) * FIGURE_CAP
"""Room for a digit (measured, DejaVu Condensed Bold: 0.86 of its height)."""


class Ruler(Struct, frozen=True):
    """A check ruler with two scales from one zero: whole tens of mm, and whole inches.

    Attributes:
        room: how far along its line a figure may reach.
        millimetres: to which the one scale counts.
        inches: to which the other counts.
    """

    room: Fraction
    millimetres: int
    inches: int

    @property
    def length(self) -> Fraction:
        """Length of the base line: to the end of the longer scale."""
        return max(Fraction(self.millimetres), self.inches * INCH)

    def still_good(self, in_inches: bool) -> str:
        """How far off it may be over a length that it has."""
        long = self.inches if in_inches else self.millimetres
        return next(words for least, words in STILL_GOOD[in_inches].items() if long >= least)


def longest_ruler(room: Fraction) -> Ruler:
    """The longest ruler that fits a room, in mm."""
    longest = min(room, LONGEST)
    return Ruler(room, millimetres=int(longest // 10) * 10, inches=int(longest // INCH))


class _Scale(Struct, frozen=True):
    """Graduations on one side of a ruler's line.

    Attributes:
        step: from one graduation to the next.
        reach: how far aside each of one division goes, the one with the figure first.
    """

    step: Fraction
    reach: tuple[Fraction, ...]


def _tenths(*reach: int) -> tuple[Fraction, ...]:
    return tuple(Fraction(length, 10) for length in reach)


_METRIC = _Scale(Fraction(1), _tenths(30, 13, 13, 13, 13, 22, 13, 13, 13, 13))
_INCH = _Scale(
    INCH / 16,
    _tenths(-30, -13, -17, -13, -21, -13, -17, -13, -26, -13, -17, -13, -21, -13, -17, -13),
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
        """The zero and so many graduations more."""
        start, line = self.origin[::-1] if self.upright else self.origin
        ends = [line + reach for reach in scale.reach]
        for number in range(count + 1):
            along = start + number * scale.step
            end = ends[number % len(ends)]
            if number == 1 and scale is _METRIC:
                end = line + 1  # where it meets the first of the other ruler, in their corner
            if self.upright:
                yield Stroke(Role.TICK, (line, along), (end, along))
            else:
                yield Stroke(Role.TICK, (along, line), (along, end))

    def words(
        self, words: str, along: Fraction, near: Fraction, far: Fraction, cap: Fraction, bold: bool
    ) -> Text:
        """Words between two distances from the line: a figure at a place, a unit before it."""
        # Lettering rises from its baseline; on the upright ruler it is turned, and stands left.
        place = self.point(along, max(near, far) if self.upright else min(near, far))
        align = Align.CENTRE if words.isdigit() else Align.RIGHT
        return Text(words, place, cap, align, 90 if self.upright else 0, bold=bold)


def drawn_rulers(
    origin: Point,
    across: Ruler,
    along: Ruler,
    width: Fraction,
    height: Fraction,
    in_inches: bool = False,
) -> Figure:
    """Two rulers at right angles from one corner, in a box of a width and height.

    The figures of the scale that the person measures by are bold.
    """
    strokes: list[Stroke] = []
    texts: list[Text] = []
    for ruler, axis in ((across, _Axis(origin, False)), (along, _Axis(origin, True))):
        zero = Fraction(0)
        strokes.append(Stroke(Role.RULER, axis.point(zero, zero), axis.point(ruler.length, zero)))
        strokes.extend(axis.graduations(_METRIC, ruler.millimetres))
        strokes.extend(axis.graduations(_INCH, ruler.inches * 16))
        texts.extend(_figures(ruler, axis, in_inches))
    return Figure(width, height, tuple(strokes), tuple(texts))


def _figures(ruler: Ruler, axis: _Axis, in_inches: bool) -> Iterator[Text]:
    """At each whole centimetre and inch its figure, and beside the last the unit.

    The last figure stands as far before its graduation as the paper ends too early for it.
    Where the zero in mm would stand, the other ruler has its graduations.
    """
    for unit, height, numbers, step, side in (
        ("mm", UNIT_CAP * 3 / 4, range(10, ruler.millimetres + 1, 10), Fraction(1), 1),
        ("in", UNIT_CAP, range(ruler.inches + 1), INCH, -1),
    ):
        near, far, bold = side * _FIGURE, side * (_FIGURE + FIGURE_CAP), in_inches == (side < 0)
        for number in numbers:
            along = min(number * step, ruler.room - len(str(number)) * _DIGIT / 2)
            yield axis.words(str(number), along, near, far, FIGURE_CAP, bold)
        near, far = side * _UNIT, side * (_UNIT + height)
        yield axis.words(unit, numbers[-1] * step - _BEFORE, near, far, UNIT_CAP, bold)
