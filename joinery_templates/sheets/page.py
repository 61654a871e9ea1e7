"""A page is windows on drawings: what the PDF writer gets."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from hashlib import sha256
from itertools import groupby

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import FIRST_PLACE, Figure, Point, Stroke, Text
from joinery_templates.drawings.fingerprint import fingerprint, marked
from joinery_templates.errors import Finding
from joinery_templates.exact import ZERO, Fraction, as_float, in_bytes
from joinery_templates.sheets.correction import NO_MAP, PageMap


class Box(Struct, frozen=True):
    """An upright rectangle in mm."""

    left: Fraction
    bottom: Fraction
    right: Fraction
    top: Fraction

    @property
    def width(self) -> Fraction:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> Fraction:
        """From bottom to top."""
        return self.top - self.bottom

    def part_of(self, start: Point, end: Point) -> tuple[float, float] | None:
        """Between which shares of its way a straight line is in the box, None if never.

        Liang and Barsky's rule, in floats: near enough to say what is seen.
        """
        low, high = 0.0, 1.0
        (x, y), (x1, y1) = ((as_float(point[0]), as_float(point[1])) for point in (start, end))
        for step, before, after in (
            (x1 - x, x - as_float(self.left), as_float(self.right) - x),
            (y1 - y, y - as_float(self.bottom), as_float(self.top) - y),
        ):
            if step:
                near, far = sorted((-before / step, after / step))
                low, high = max(low, near), min(high, far)
            elif min(before, after) < 0:
                return None
        return (low, high) if low <= high else None

    def contains(self, point: Point) -> bool:
        """Whether a point lies in the box or on its edge."""
        return self.left <= point[0] <= self.right and self.bottom <= point[1] <= self.top


class Window(Struct, frozen=True):
    """Part of a figure, at its place on a page.

    Attributes:
        figure: what is seen.
        view: which part of the figure; nothing outside is printed.
        at: where the lower left corner of the part lies on the page, after turning.
        turned: a quarter turn anticlockwise.
    """

    figure: Figure
    view: Box
    at: Point
    turned: bool = False

    def on_page(self, point: Point) -> Point:
        """A point of the figure on the page."""
        u, v = point[0] - self.view.left, point[1] - self.view.bottom
        if self.turned:
            return (self.at[0] + self.view.height - v, self.at[1] + u)
        return (self.at[0] + u, self.at[1] + v)

    @property
    def origin(self) -> Point:
        """Where the figure's own lower left corner lies on the page."""
        return self.on_page((ZERO, ZERO))

    @property
    def shows_all(self) -> bool:
        """Whether the whole figure is seen, so that nothing needs to be cut off."""
        return self.view == Box(ZERO, ZERO, self.figure.width, self.figure.height)


class Held(Struct, frozen=True):
    """A pattern on a page, or a text.

    Attributes:
        group: what it belongs to, or what sort of text it is.
        title: what it is; empty where the group says it.
        short: of a pattern, its board or what else it is, in a word or two.
        parts: which of its parts are there, counted from 1.
        count: of all its parts.
    """

    group: str
    title: str = ""
    short: str = ""
    parts: tuple[int, ...] = (1,)
    count: int = 1

    @property
    def part(self) -> str:
        """What is to be added to its title where only some of its parts are there."""
        return f", {part_words(*self.parts, of=self.count)}" if len(self.parts) < self.count else ""


class Page(Struct, frozen=True):
    """One page.

    Attributes:
        held: what it holds, in order.
        windows: in drawing order.
    """

    held: tuple[Held, ...]
    windows: tuple[Window, ...]

    @property
    def sheet(self) -> tuple[int, int] | None:
        """Which part of how many of its only pattern it is, where that is taped."""
        one, *others = self.held
        is_one = not others and len(one.parts) < 2 <= one.count
        return (one.parts[0], one.count) if is_one else None

    @property
    def part(self) -> str:
        """What is to be added to the title of one sheet of several."""
        return self.held[0].part if self.sheet else ""

    @property
    def title(self) -> str:
        """What it holds."""
        return self._told(lambda one: one.title)

    @property
    def listed(self) -> str:
        """The same with boards told and not their faces, for the list of pages."""
        return self._told(lambda one: one.short or one.title)

    @property
    def brief(self) -> str:
        """The same in fewest words: the groups alone."""
        return self._told(lambda one: "")

    @property
    def boards(self) -> set[tuple[str, str]]:
        """Of which boards it has something, each with its group."""
        return {(one.group, one.short) for one in self.held if one.short}

    def _told(self, name: Callable[[Held], str]) -> str:
        """What it holds, group by group, each text by itself."""

        def words(one: Held) -> str:
            return f"{said}{'' if self.sheet else one.part}" if (said := name(one)) else ""

        groups = groupby(self.held, lambda one: (one.group, not one.short and one.title))
        told = ((group, dict.fromkeys(map(words, ones))) for (group, _), ones in groups)
        return "; ".join(": ".join(filter(None, (group, ", ".join(ones)))) for group, ones in told)


class Bookmark(Struct, frozen=True):
    """An entry of the PDF's outline: its page counts from 0."""

    title: str
    page: int
    inside: tuple["Bookmark", ...] = ()


class Booklet(Struct, frozen=True):
    """All pages of one PDF, of one size, upright.

    Attributes:
        width_pt: page width in whole points.
        height_pt: page height in whole points.
        pages: in order.
        bookmarks: the outline.
        rulers: the two check rulers' base lines on every page, across and along, as
            start and end in mm on the page.
        page_map: what every page is drawn through, to undo what the printer does.
        paper_used: share of the drawing area that patterns cover, over the pages
            that carry patterns.
        findings: advice on how this paper cuts the patterns.
        layout: a short word that changes when any line moves, once the pages are `marked`: two
            versions can lay out otherwise.
    """

    width_pt: int
    height_pt: int
    pages: tuple[Page, ...]
    bookmarks: tuple[Bookmark, ...]
    rulers: tuple[tuple[Point, Point], tuple[Point, Point]]
    paper_used: Fraction
    page_map: PageMap = NO_MAP
    findings: tuple[Finding, ...] = ()
    layout: str = ""

    @property
    def fingerprint(self) -> str:
        """The layout, short enough to be read and compared: it stands on every page."""
        return fingerprint(self.layout)

    def marked(self) -> "Booklet":
        """The pages with the fingerprint in their words; what is drawn once stays so."""
        layout = _layout_of(self.pages)
        signs = fingerprint(layout)
        known: dict[int, Figure] = {}

        def told(window: Window) -> Window:
            figure = window.figure
            if id(figure) not in known:
                known[id(figure)] = marked(figure, signs)
            return replace(window, figure=known[id(figure)])

        return replace(
            self,
            pages=tuple(
                replace(page, windows=tuple(map(told, page.windows))) for page in self.pages
            ),
            layout=layout,
        )


def _layout_of(pages: Iterable[Page]) -> str:
    drawn: dict[int, bytes] = {}
    told = sha256()
    for page in pages:
        told.update(b"page")
        for window in page.windows:
            figure, view = window.figure, window.view
            if id(figure) not in drawn:
                drawn[id(figure)] = sha256(b" ".join(_told(figure.strokes))).digest()
            told.update(drawn[id(figure)])
            box = view.left, view.bottom, view.right, view.top
            told.update(b" ".join(map(in_bytes, (*box, *window.at))) + bytes([window.turned]))
    return told.hexdigest()[:16]


def _told(strokes: Iterable[Stroke]) -> Iterator[bytes]:
    """What each stroke is, and its ends exactly."""
    for one in strokes:
        yield one.role.encode()
        yield from map(in_bytes, (*one.start, *one.end))


def with_sheets_named(pages: Sequence[Page]) -> Sequence[Page]:
    """Pages whose words name the sheet of a place that they point to."""
    sheets = {
        ord(text.part): str(number)
        for number, page in enumerate(pages, 1)
        for window in page.windows
        for text in window.figure.texts
        if text.part >= FIRST_PLACE
    }

    def told(text: Text) -> Text:
        words, whole = (said.translate(sheets) for said in (text.words, text.paragraph))
        return replace(text, words=words, paragraph=whole)

    def named(window: Window) -> Window:
        figure = window.figure
        if all(text.part < FIRST_PLACE for text in figure.texts):
            return window
        return replace(window, figure=replace(figure, texts=tuple(map(told, figure.texts))))

    if not sheets:
        return pages
    return [replace(page, windows=tuple(map(named, page.windows))) for page in pages]


def part_words(*numbers: int, of: int) -> str:
    """Which parts of a taped pattern, counted from 1."""
    *before, last = map(str, numbers)
    parts = f"parts {', '.join(before)} and" if before else "part"
    return f"{parts} {last} of {of}"


def whole(figure: Figure, at: Point = (ZERO, ZERO)) -> Window:
    """A window on all of a figure, which may be as large as the page."""
    return Window(figure, Box(ZERO, ZERO, figure.width, figure.height), at)
