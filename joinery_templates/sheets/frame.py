"""What stands on every page: two check rulers at right angles, and the title block below them.

::

    +--------------------------------------+
    | |                                    |
    | |        the drawing area            |
    | |                                    |
    | +----------------------------------- |  rulers meet at their zeros
    | [ title block                      ] |
    |                                      |  nothing to be read below 17 mm
    +--------------------------------------+
"""

from collections.abc import Sequence
from functools import cached_property

from msgspec import Struct

from joinery_templates.drawings.figure import Figure, Point, joined
from joinery_templates.drawings.lettering import Lettering
from joinery_templates.errors import refusal
from joinery_templates.exact import Fraction
from joinery_templates.lengths import Units
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.page import Booklet, Bookmark, Box, Held, Page, Window, whole
from joinery_templates.sheets.papers import LARGEST, POINT, Family, Paper
from joinery_templates.sheets.rulers import BAND, Ruler, drawn_rulers, longest_ruler
from joinery_templates.sheets.title_block import TitleBlock, block_height

READABLE_FROM = Fraction(17)
"""Some printers do not reach the lowest 17 mm of a sheet; no words stand there."""
FOOT = Fraction(1)
"""Paper between that and the title block."""
AIR = Fraction(2)
"""Between the figures of the upright ruler and words that are read."""
SHORTEST_RULER = Fraction(50)


class Frame(Struct, frozen=True, dict=True):
    """The fixed parts of a page of one paper.

    Attributes:
        paper: the paper.
        margins: what the printer cannot reach.
        footer: lines at the foot of every title block, such as the printer's profile.
        units: of the job; the paper's own where there is none.
    """

    paper: Paper
    margins: Margins
    footer: tuple[str, ...] = ()
    units: Units | None = None

    @property
    def in_inches(self) -> bool:
        """Whether inches come first on the rulers and where they are told."""
        if self.units is None:
            return self.paper.family is Family.NORTH_AMERICA
        return self.units is Units.INCH

    @property
    def width(self) -> Fraction:
        """Width of the page as the PDF states it: whole points, in mm."""
        return self.paper.width_pt * POINT

    @property
    def height(self) -> Fraction:
        """Height of the page as the PDF states it: whole points, in mm."""
        return self.paper.height_pt * POINT

    @cached_property
    def block(self) -> Box:
        """Where the title block stands."""
        left, right = self.margins.left, self.width - self.margins.right
        low = max(self.margins.bottom, READABLE_FROM + FOOT)
        return Box(left, low, right, low + block_height(right - left, self.footer))

    @cached_property
    def origin(self) -> Point:
        """Where the zeros of both rulers stand."""
        return self.margins.left + BAND, self.block.top + BAND

    @cached_property
    def area(self) -> Box:
        """Where patterns may stand."""
        return Box(
            self.origin[0] + BAND,
            self.origin[1] + BAND,
            self.width - self.margins.right,
            self.height - self.margins.top,
        )

    @property
    def reading(self) -> Box:
        """Where words to be read may stand: clear of the ruler's figures."""
        return Box(self.area.left + AIR, self.area.bottom, self.area.right, self.area.top)

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
            raise refusal(
                "page-too-small",
                f"Paper {self.paper.name} with these margins leaves no room for a check "
                "ruler of 50 mm.",
                "Take a larger paper or smaller margins.",
                "paper",
            )

    def title_block(self, piece: str, total: int, lettering: Lettering) -> TitleBlock:
        """The title block of a document of so many sheets."""
        return TitleBlock(self.block, piece, total, self.footer, lettering)

    def furniture(self, block: TitleBlock) -> Figure:
        """What all pages share, on a figure as large as one of them."""
        rulers = drawn_rulers(
            self.origin, self.across, self.along, self.width, self.height, self.in_inches
        )
        return joined(self.width, self.height, (rulers, block.shared()))

    def booklet(
        self, block: TitleBlock, title: str, told: str, pages: Sequence[Sequence[Window]]
    ) -> Booklet:
        """Sheets of one title that are no job's, each with its windows and the title block."""
        shared = whole(self.furniture(block))
        return Booklet(
            width_pt=self.paper.width_pt,
            height_pt=self.paper.height_pt,
            pages=tuple(
                Page((Held(title),), (shared, whole(block.own((told,), "", number)), *windows))
                for number, windows in enumerate(pages, 1)
            ),
            bookmarks=(Bookmark(title, 0),),
            rulers=self.ruler_lines,
            paper_used=Fraction(1),
        )

    @property
    def check_words(self) -> str:
        """What the rulers must read, in the person's units first, and how much off is good."""
        metric = f"{self.across.millimetres} mm across and {self.along.millimetres} mm along"
        inches = f"{self.across.inches} in across and {self.along.inches} in along"
        first, second = (inches, metric) if self.in_inches else (metric, inches)
        return (
            f"{first} (or {second}). A difference of {self.along.still_good(self.in_inches)} is "
            "still good: paper itself moves as much between dry air and damp."
        )
