"""What stands on every page: two check rulers at right angles, the title, the page number.

::

    +--------------------------------------+
    | title                                |
    | what this page holds       page 3/12 |
    | print at 100 % ...                   |
    | |                                    |
    | |        the drawing area            |
    | |                                    |
    | +----------------------------------- |  rulers meet at their zeros
    |   printer profile                    |  nothing to be read below 17 mm
    +--------------------------------------+
"""

from fractions import Fraction

from msgspec import Struct

from joinery_templates.drawings.figure import Align, Figure, Point, Text
from joinery_templates.drawings.lettering import Lettering, largest_cap, shortened
from joinery_templates.errors import InputError, mistake
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.page import Box
from joinery_templates.sheets.papers import LARGEST, POINT, Family, Paper
from joinery_templates.sheets.rulers import BAND, Ruler, drawn_rulers, longest_ruler

READABLE_FROM = Fraction(17)
"""Some printers do not reach the lowest 17 mm of a sheet; no words stand there."""
FOOT = Fraction(3, 2)
"""Paper below the rulers' figures for the footer."""
HEAD = Fraction(12)
"""Paper above the drawing area for the title."""
NARROW = Fraction(150)
"""On a narrower page the words on printing take two rows, and what it holds all of one."""
TITLE_CAP = Fraction(4)
NUMBER_CAP = Fraction(5)
NARROW_NUMBER_CAP = Fraction(15, 4)
"""A page number of this size keeps above the row of words below the title."""
WORDS_CAP = Fraction(2)
CHECK_CAPS = (WORDS_CAP, Fraction(19, 10), Fraction(9, 5), Fraction(17, 10), Fraction(3, 2))
"""What the rulers must read is never cut short: it is told smaller."""
FOOT_CAP = Fraction(8, 5)
BELOW_TITLE = Fraction(7, 5)
ROW = Fraction(3)
"""Distance of two rows of words."""
SHORTEST_RULER = Fraction(50)

LEVEL = "Print at 100 % (actual size), never fitted to the page."


class Frame(Struct, frozen=True):
    """The fixed parts of a page of one paper.

    Attributes:
        paper: the paper.
        margins: what the printer cannot reach.
        footer: words at the foot of every page, such as the printer's profile.
    """

    paper: Paper
    margins: Margins
    footer: str = ""

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
            max(self.margins.bottom, READABLE_FROM) + FOOT + BAND,
        )

    @property
    def area(self) -> Box:
        """Where patterns may stand."""
        head = HEAD + ROW if self._is_narrow else HEAD
        return Box(
            self.origin[0] + BAND,
            self.origin[1] + BAND,
            self.width - self.margins.right,
            self.height - self.margins.top - head,
        )

    @property
    def largest_piece(self) -> tuple[Fraction, Fraction]:
        """Width and height of the largest pattern that one sheet takes.

        A roll of open length takes any length that a page can have.
        """
        if self.paper.is_open_roll:
            return self.area.width, LARGEST - (self.height - self.area.height)
        return self.area.width, self.area.height

    @property
    def across(self) -> Ruler:
        """The ruler across the page."""
        return longest_ruler(self.area.right - self.origin[0])

    @property
    def along(self) -> Ruler:
        """The ruler along the page."""
        return longest_ruler(self.area.top - self.origin[1])

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
        if room < SHORTEST_RULER + BAND:
            raise InputError(
                mistake(
                    "page-too-small",
                    f"Paper {self.paper.name} with these margins leaves no room for a check "
                    "ruler of 50 mm.",
                    "Take a larger paper or smaller margins.",
                    "paper",
                )
            )

    def furniture(self, title: str, total: int, lettering: Lettering) -> Figure:
        """What all pages share, on a figure as large as one of them.

        Both rulers and the footer, the title, and that the page must not be scaled.
        """
        rulers = drawn_rulers(self.origin, self.across, self.along, self.width, self.height)
        left, right, top = self._edges
        title = shortened(title, self._room(total, lettering), TITLE_CAP, lettering, True)
        low = top - TITLE_CAP - BELOW_TITLE - WORDS_CAP
        texts = [Text(title, (left, top - TITLE_CAP), TITLE_CAP, bold=True)]
        for row, words in enumerate(self._check_words(), start=1):
            cap = largest_cap(words, right - left, CHECK_CAPS, lettering)
            texts.append(Text(words, (left, low - row * ROW), cap))
        if self.footer:
            # In the lowest band that every printer reaches, below the rulers' figures.
            foot = max(self.margins.bottom, READABLE_FROM) + Fraction(3, 10)
            texts.append(Text(self.footer, (self.margins.left + BAND, foot), FOOT_CAP))
        return Figure(self.width, self.height, rulers.strokes, (*rulers.texts, *texts))

    def head(self, holds: tuple[str, str], number: int, total: int, lettering: Lettering) -> Figure:
        """Page number and what the page holds; of that the last words are never cut short."""
        left, right, top = self._edges
        count, cap = f"page {number} of {total}", self._number_cap
        room = right - left if self._is_narrow else self._room(total, lettering)
        room -= lettering.width(holds[1], WORDS_CAP, True)
        words = shortened(holds[0], room, WORDS_CAP, lettering, True) + holds[1]
        low = top - TITLE_CAP - BELOW_TITLE - WORDS_CAP
        texts = (
            Text(count, (right, top - cap), cap, Align.RIGHT, bold=True),
            Text(words, (left, low), WORDS_CAP, bold=True),
        )
        return Figure(self.width, self.height, texts=texts)

    @property
    def _edges(self) -> tuple[Fraction, Fraction, Fraction]:
        """Left, right and top of the words in the head."""
        return (
            self.margins.left + 1,
            self.width - self.margins.right,
            self.height - self.margins.top,
        )

    @property
    def _number_cap(self) -> Fraction:
        left, right, _ = self._edges
        return min(NARROW_NUMBER_CAP if self._is_narrow else NUMBER_CAP, (right - left) / 20)

    @property
    def _is_narrow(self) -> bool:
        return self.width < NARROW

    def _room(self, total: int, lettering: Lettering) -> Fraction:
        """Room for words beside the page number, whichever it is."""
        left, right, _ = self._edges
        widest = lettering.width(f"page {total} of {total}", self._number_cap, True)
        return right - left - widest - 4

    def _check_words(self) -> tuple[str, ...]:
        """The printing check on one row, or on two where the page is narrow."""
        metric = f"{self.across.millimetres} mm across and {self.along.millimetres} mm along"
        inches = f"{self.across.inches} in across and {self.along.inches} in along"
        north_american = self.paper.family is Family.NORTH_AMERICA
        first, second = (inches, metric) if north_american else (metric, inches)
        if self._is_narrow:
            return (LEVEL, f"The rulers must read {first}.")
        return (f"{LEVEL} By a steel rule the rulers must read {first}; or {second}.",)
