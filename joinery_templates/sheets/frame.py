"""What stands on every page: two check rulers at right angles, the title, the page number.

+--------------------------------------+
| title                      page 3/12 |
| print at 100 % ...                   |
| |                                    |
| |        the drawing area            |
| |                                    |
| +----------------------------------- |  rulers meet at their zeros
|   nothing to be read below 17 mm     |
+--------------------------------------+
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text
from joinery_templates.drawings.lettering import Lettering, shortened
from joinery_templates.errors import InputError, mistake
from joinery_templates.lengths import INCH
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.page import Box
from joinery_templates.sheets.papers import POINT, Family, Paper

READABLE_FROM = Fraction(17)
"""Some printers do not reach the lowest 17 mm of a sheet; no words stand there."""
BAND = Fraction(6)
"""Paper on either side of a ruler's line for its graduations and figures."""
HEAD = Fraction(27, 2)
"""Paper above the drawing area for the title."""
TITLE_CAP = Fraction(4)
WORDS_CAP = Fraction(2)
ROW = Fraction(3, 2)
"""Distance of two rows of words in capital heights."""
FIGURE_CAP = Fraction(17, 10)
LONGEST_RULER = Fraction(1000)
"""Nobody checks with a steel rule longer than a metre (our judgement)."""
SHORTEST_RULER = Fraction(50)

LEVEL = "Print at 100 % (actual size), never fitted to the page."


@dataclass(frozen=True, slots=True)
class Frame:
    """The fixed parts of a page of one paper.

    Attributes:
        paper: the paper.
        margins: what the printer cannot reach.
    """

    paper: Paper
    margins: Margins

    @property
    def width(self) -> Fraction:
        """Width of the page as the PDF states it: whole points, in mm."""
        return self.paper.width_pt * POINT

    @property
    def height(self) -> Fraction:
        """Height of the page as the PDF states it: whole points, in mm."""
        return self.paper.height_pt * POINT

    @property
    def origin(self) -> Point:
        """Where the zeros of both rulers stand."""
        return (
            self.margins.left + BAND,
            max(self.margins.bottom, READABLE_FROM) + BAND,
        )

    @property
    def area(self) -> Box:
        """Where patterns may stand."""
        return Box(
            self.origin[0] + BAND,
            self.origin[1] + BAND,
            self.width - self.margins.right,
            self.height - self.margins.top - HEAD,
        )

    @property
    def across(self) -> "Ruler":
        """The ruler across the page."""
        return _ruler(self.area.right - self.origin[0])

    @property
    def along(self) -> "Ruler":
        """The ruler along the page."""
        return _ruler(self.area.top - self.origin[1])

    @property
    def ruler_lines(self) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
        """Base lines of the rulers across and along, start and end on the page."""
        x, y = self.origin
        return (
            ((x, y), (x + self.across.length, y)),
            ((x, y), (x, y + self.along.length)),
        )

    def check_size(self) -> None:
        """Refuse paper on which no ruler has room.

        Raises:
            InputError: `page-too-small`.
        """
        room = min(self.area.right - self.origin[0], self.area.top - self.origin[1])
        if room < SHORTEST_RULER + 3:
            raise InputError(
                mistake(
                    "page-too-small",
                    f"Paper {self.paper.name} with these margins leaves no room for a check "
                    "ruler of 50 mm.",
                    "Take a larger paper or smaller margins.",
                    "paper",
                )
            )

    def rulers(self) -> Figure:
        """Both rulers, on a figure as large as the page."""
        return _drawn_rulers(self)

    def head(self, title: str, holds: str, number: int, total: int, lettering: Lettering) -> Figure:
        """Title, page number, what the page holds, and that it must not be scaled."""
        top = self.height - self.margins.top
        below = top - TITLE_CAP * Fraction(6, 5)
        left, right = self.margins.left + 1, self.width - self.margins.right
        count = f"page {number} of {total}"
        room = right - left - lettering.width(count, TITLE_CAP, True) - 4
        check = (
            f"{LEVEL} Check with a steel rule: across {self._stated(self.across)}, "
            f"along {self._stated(self.along)}."
        )
        texts = (
            Text(
                shortened(title, room, TITLE_CAP, lettering, True),
                (left, top - TITLE_CAP),
                TITLE_CAP,
                Align.LEFT,
                0,
                True,
            ),
            Text(count, (right, top - TITLE_CAP), TITLE_CAP, Align.RIGHT, 0, True),
            Text(
                shortened(holds, right - left, WORDS_CAP, lettering, True),
                (left, below - WORDS_CAP * ROW),
                WORDS_CAP,
                bold=True,
            ),
            *self._check_words(check, left, below - WORDS_CAP * ROW, right - left, lettering),
        )
        return Figure(self.width, self.height, texts=texts)

    def _check_words(
        self, words: str, left: Fraction, top: Fraction, room: Fraction, lettering: Lettering
    ) -> tuple[Text, ...]:
        """The printing check on one line, or on two where the page is narrow."""
        lines: tuple[str, ...] = (words,)
        if lettering.width(words, WORDS_CAP) > room:
            lines = (LEVEL, words.removeprefix(f"{LEVEL} "))
        return tuple(
            Text(
                shortened(text, room, WORDS_CAP, lettering),
                (left, top - (number + 1) * WORDS_CAP * ROW),
                WORDS_CAP,
            )
            for number, text in enumerate(lines)
        )

    def _stated(self, ruler: "Ruler") -> str:
        metric, inches = f"{ruler.millimetres} mm", f"{ruler.inches} in"
        north_american = self.paper.family is Family.NORTH_AMERICA
        first, second = (inches, metric) if north_american else (metric, inches)
        return f"{first} ({second})"


@dataclass(frozen=True, slots=True)
class Ruler:
    """A check ruler with two scales from one zero: whole tens of mm, and whole inches."""

    millimetres: int
    inches: int

    @property
    def length(self) -> Fraction:
        """Length of the base line: to the end of the longer scale."""
        return max(Fraction(self.millimetres), self.inches * INCH)


def _ruler(room: Fraction) -> Ruler:
    room = min(room, LONGEST_RULER)
    return Ruler(millimetres=int(room // 10) * 10, inches=int(room // INCH))


@dataclass(frozen=True, slots=True)
class _Axis:
    """Carries a place along a ruler and a distance aside of it to the page.

    Aside is positive towards the drawing area, where the metric scale stands.
    """

    origin: Point
    upright: bool

    def point(self, along: Fraction, aside: Fraction) -> Point:
        x, y = self.origin
        return (x + aside, y + along) if self.upright else (x + along, y + aside)

    def figure(self, words: str, along: Fraction, metric: bool, last: bool) -> Text:
        """A figure of the scale beside its graduation, clear of the shorter ones.

        After it, but the last one before it, so that it does not run off the ruler.
        """
        near, far = Fraction(27, 10), Fraction(27, 10) + FIGURE_CAP
        # Lettering on the upright ruler is turned and stands to the left of its baseline.
        aside = (far if metric else -near) if self.upright else (near if metric else -far)
        shift = Fraction(-7, 10) if last else Fraction(7, 10)
        place = self.point(along + shift, aside)
        align = Align.RIGHT if last else Align.LEFT
        return Text(words, place, FIGURE_CAP, align, 90 if self.upright else 0)


@lru_cache(maxsize=8)
def _drawn_rulers(frame: Frame) -> Figure:
    strokes: list[Stroke] = []
    texts: list[Text] = []
    for ruler, axis in (
        (frame.across, _Axis(frame.origin, upright=False)),
        (frame.along, _Axis(frame.origin, upright=True)),
    ):
        zero = Fraction(0)
        strokes.append(Stroke(Role.RULER, axis.point(zero, zero), axis.point(ruler.length, zero)))
        strokes.extend(
            Stroke(Role.TICK, axis.point(place, zero), axis.point(place, aside))
            for place, aside in (*_metric_ticks(ruler), *_inch_ticks(ruler))
        )
        texts.extend(_figures(ruler, axis))
    return Figure(frame.width, frame.height, tuple(strokes), tuple(texts))


def _metric_ticks(ruler: Ruler) -> Iterator[tuple[Fraction, Fraction]]:
    """Places and lengths of the millimetre graduations, towards the drawing area."""
    lengths = ((10, Fraction(4)), (5, Fraction(5, 2)), (1, Fraction(3, 2)))
    for number in (0, *range(5, ruler.millimetres + 1)):  # both rulers share the corner
        yield Fraction(number), next(long for parts, long in lengths if number % parts == 0)


def _inch_ticks(ruler: Ruler) -> Iterator[tuple[Fraction, Fraction]]:
    """Places and lengths of the 1/16 in graduations, towards the paper's edge."""
    lengths = (
        (16, Fraction(4)),
        (8, Fraction(3)),
        (4, Fraction(5, 2)),
        (2, Fraction(2)),
        (1, Fraction(3, 2)),
    )
    for number in range(ruler.inches * 16 + 1):
        yield number * INCH / 16, -next(long for parts, long in lengths if number % parts == 0)


def _figures(ruler: Ruler, axis: _Axis) -> Iterator[Text]:
    """Figures of the scales: each whole centimetre in mm, each whole inch."""
    for number in range(10, ruler.millimetres + 1, 10):
        last = number == ruler.millimetres
        words = f"{number} mm" if last else f"{number}"
        yield axis.figure(words, Fraction(number), metric=True, last=last)
    for number in range(ruler.inches + 1):
        last = number == ruler.inches
        words = f"{number} in" if last else f"{number}"
        yield axis.figure(words, number * INCH, metric=False, last=last)
