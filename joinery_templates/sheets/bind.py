"""From patterns to pages: tile, pack, number, and put the overview first."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import chain, groupby, islice
from operator import attrgetter

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import Block, Figure, Pattern, Role
from joinery_templates.drawings.lettering import Lettering
from joinery_templates.lengths import Units
from joinery_templates.sheets.correction import NO_MAP
from joinery_templates.sheets.flow import Stack, column_count, column_width, stacked
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.overview import Opening, opening_blocks, what_follows
from joinery_templates.sheets.packing import Piece, Spot, pack
from joinery_templates.sheets.page import (
    Booklet,
    Bookmark,
    Held,
    Page,
    Window,
    whole,
    with_sheets_named,
)
from joinery_templates.sheets.seam_advice import advise_on_seams
from joinery_templates.sheets.seam_marks import Taping
from joinery_templates.sheets.setup import SheetSetup
from joinery_templates.sheets.tiling import Scissors, Tiled

GAP = Fraction(3)
"""Room for scissors between two patterns on one page."""
APART = Fraction(12)
"""Between two texts on one page."""
OVERVIEW = "Overview"


class Reading(Struct, frozen=True):
    """A text that runs over whole pages: its sort, such as the bench page, title and blocks."""

    group: str
    title: str
    blocks: tuple[Block, ...]


class Contents(Struct, frozen=True):
    """What is to be bound.

    Attributes:
        opening: the top of the first page; its title stands on every page.
        readings: texts that come after the first page.
        patterns: what is printed full size, in order.
    """

    opening: Opening
    readings: tuple[Reading, ...]
    patterns: tuple[Pattern, ...]


def bind(contents: Contents, setup: SheetSetup, frame: Frame, lettering: Lettering) -> Booklet:
    """All pages of the PDF.

    Args:
        contents: what is to be bound.
        setup: how sheets are made up.
        frame: of every page.
        lettering: how wide words run.

    Raises:
        InputError: where the paper is too small for the patterns.
    """
    frame.check_size()
    return _Binding(contents, setup, frame, lettering).booklet()


def text_width(frame: Frame) -> Fraction:
    """The width of a column of words on a page."""
    return column_width(frame.reading.width)


class _Laid(Struct, frozen=True):
    """A pattern with a spot for each of its tiles.

    Attributes:
        tiled: the pattern and its tiles.
        spots: where each tile lies; the last page that is read is the first.
        taping: what stands along its seams, where it has any.
        figures: of which every tile shows its part.
    """

    tiled: Tiled
    spots: tuple[Spot, ...]
    taping: Taping | None
    figures: tuple[Figure, ...]

    @property
    def group(self) -> str:
        """What the pattern belongs to."""
        return self.tiled.pattern.group

    def numbers(self, before: int) -> tuple[int, ...]:
        """Page numbers of the tiles, when so many pages come before."""
        return tuple(before + spot.page + 1 for spot in self.spots)


class _Read(Struct, frozen=True):
    """What is read, laid on pages that are not drawn yet.

    Attributes:
        texts: what each is, its blocks, and whether it begins on the last page of the one
            before; first the overview, of which only the room that is kept for it is known.
        marks: where each begins, its pages counted from 0.
        count: of all pages.
        used: how far down the last page is used.
    """

    texts: tuple[tuple[Held, Stack, bool], ...]
    marks: tuple[Bookmark, ...]
    count: int
    used: Fraction


class _Binding(Struct, frozen=True):
    contents: Contents
    setup: SheetSetup
    frame: Frame
    lettering: Lettering

    @property
    def wide(self) -> bool:
        """On paper for several columns all words share sheets: a large one is dear."""
        return column_count(self.frame.area.width) > 1

    @property
    def first_title(self) -> str:
        """What the first pages are called."""
        return f"{OVERVIEW} and bench page" if self.wide else OVERVIEW

    def booklet(self) -> Booklet:
        frame = self.frame
        scissors = Scissors(
            (frame.area.width, frame.area.height), self.setup.overlap, self.lettering
        )
        cut, width = tuple(self._cut(scissors)), column_width(frame.reading.width)
        opening = tuple(opening_blocks(self.contents.opening, frame, width, self.lettering))
        # The overview lists all pages, its own too, and what follows goes on below it: laid out
        # anew until it needs no more room.
        zero = Fraction(0)
        room, overview = Stack(zero, zero, (), zero), self._overview(opening, (), cut)
        while (overview.count, overview.depth) > (room.count, room.depth):
            room = overview
            read = self._read(room)
            laid = tuple(self._laid(cut, read.used))
            blank = self._bound(self._pages(read), laid, numbered=False)
            overview = self._overview(opening, blank, laid)
        pages = with_sheets_named(self._bound(self._pages(read, overview), laid))
        correction = self.setup.correction
        return Booklet(
            width_pt=frame.paper.width_pt,
            height_pt=frame.paper.height_pt,
            pages=tuple(self._furnished(pages)),
            bookmarks=tuple(_bookmarks(read, laid)),
            rulers=frame.ruler_lines,
            paper_used=self._share_used(laid),
            page_map=correction.page_map(frame.width, frame.height) if correction else NO_MAP,
            findings=tuple(advise_on_seams([one.tiled for one in laid], frame, scissors)),
        ).marked()

    def _read(self, room: Stack) -> _Read:
        """All that is read, so much room kept for the overview.

        A text shares a page with the one before where that saves one.
        """
        area, used, count = self.frame.reading, room.depth, room.count
        first = Held(self.first_title)
        texts, marks = [(first, room, False)], [Bookmark(self.first_title, 0)]
        for text in () if self.wide else self.contents.readings:
            stack = stacked(text.blocks, area.width, area.height)
            below = stacked(text.blocks, area.width, area.height, used + APART)
            shares = below.count <= stack.count
            stack = below if shares else stack
            texts.append((Held(text.group, text.title), stack, shares))
            count += stack.count - shares
            marks.append(Bookmark(f"{text.group}: {text.title}", count - stack.count))
            used = stack.depth
        return _Read(tuple(texts), tuple(marks), count, used)

    def _pages(self, read: _Read, overview: Stack | None = None) -> tuple[Page, ...]:
        """The pages that are read; all are blank until the overview is known."""
        at, pages = (self.frame.reading.left, self.frame.reading.bottom), tuple[Page, ...]()
        for held, stack, shares in read.texts:
            drawn = (stack if pages else overview).drawn() if overview is not None else ()
            own = [Page((held,), (whole(figure, at),)) for figure in drawn]
            own += [Page((held,), ())] * (stack.count - len(own))
            pages = _followed(pages, own, shares)
        return pages

    def _cut(self, scissors: Scissors) -> Iterator[_Laid]:
        """All patterns in reading order with what stands on their seams, not laid yet."""
        setup, units = self.setup, self.frame.units or Units.MM
        groups: dict[str, list[Pattern]] = {}
        for pattern in self.contents.patterns:
            groups.setdefault(pattern.group, []).append(pattern)
        for tiled in map(scissors.cut, chain.from_iterable(groups.values())):
            taping, figures = None, tiled.pattern.layers
            if tiled.seams:
                taping = Taping(tiled, setup.overlap, setup.marks, units, self.lettering)
                figures += (taping.figure,)
            yield _Laid(tiled, (), taping, figures)

    def _laid(self, cut: Sequence[_Laid], used: Fraction) -> Iterator[_Laid]:
        """The patterns on pages, the first of which is used so far down."""
        area = self.frame.area
        # In so wide a gap nothing has room beside or below anything else.
        gap = area.width + area.height if self.setup.one_per_page else GAP
        lying = [
            [Piece(*size, may_turn=not one.taping) for one in group for size in one.tiled.sizes]
            for _, group in groupby(cut, key=attrgetter("group"))
        ]
        spots = chain.from_iterable(pack(lying, (area.width, area.height), gap, used))
        for one in cut:
            own = tuple(islice(spots, len(one.tiled.tiles)))
            turned = one.tiled.turned if one.taping else own[0].turned
            yield replace(one, tiled=replace(one.tiled, turned=turned), spots=own)

    def _bound(
        self, read: tuple[Page, ...], laid: Sequence[_Laid], numbered: bool = True
    ) -> tuple[Page, ...]:
        """All pages.

        Args:
            read: those that are read.
            laid: all patterns.
            numbered: False while it is not known how many pages come first: then nothing that
                a tile alone shows is there.
        """
        windows: dict[int, list[Window]] = {}
        held: dict[int, list[tuple[_Laid, int]]] = {}
        for one in laid:
            numbers = one.numbers(len(read) - 1)
            own = one.taping.of_tiles(numbers) if one.taping and numbered else ()
            for number, spot in enumerate(one.spots):
                held.setdefault(spot.page, []).append((one, number))
                figures = (*one.figures, *own[number : number + 1])
                shown = windows.setdefault(spot.page, [])
                shown += (self._window(one, number, figure) for figure in figures)
        patterns = [Page(tuple(_held(held[page])), tuple(shown)) for page, shown in windows.items()]
        return _followed(read, patterns, 0 in windows)

    def _window(self, laid: _Laid, number: int, figure: Figure) -> Window:
        """Where a tile shows a figure."""
        tiled, spot, area = laid.tiled, laid.spots[number], self.frame.area
        view = tiled.tiles[number]
        height = view.width if tiled.turned else view.height
        return Window(figure, view, (area.left + spot.x, area.top - spot.y - height), tiled.turned)

    def _overview(
        self, opening: Sequence[Block], pages: Sequence[Page], laid: Sequence[_Laid]
    ) -> Stack:
        spread = [one.tiled for one in laid if one.taping]
        area = self.frame.reading
        below = what_follows(
            self.contents.opening,
            column_width(area.width),
            pages,
            spread,
            _roles(laid) | ({Role.MATCH} if spread and self.setup.marks else set()),
            self.lettering,
        )
        read = (block for text in self.contents.readings for block in text.blocks)
        return stacked((*opening, below, *(read if self.wide else ())), area.width, area.height)

    def _furnished(self, pages: Sequence[Page]) -> Iterator[Page]:
        """The pages with rulers and words round them: what all share is one drawing."""
        frame = self.frame
        block = frame.title_block(self.contents.opening.title, len(pages), self.lettering)
        shared = whole(frame.furniture(block))
        for number, page in enumerate(pages, 1):
            own = block.own((page.title, page.listed, page.brief), page.part, number)
            yield replace(page, windows=(shared, whole(own), *page.windows))

    def _share_used(self, laid: Sequence[_Laid]) -> Fraction:
        area, pages = self.frame.area, {spot.page for one in laid for spot in one.spots}
        covered = sum((v.width * v.height for one in laid for v in one.tiled.tiles), Fraction(0))
        return covered / (area.width * area.height * max(len(pages), 1))


def _roles(laid: Sequence[_Laid]) -> frozenset[Role]:
    """What is drawn on any pattern."""
    figures = {id(figure): figure for one in laid for figure in one.figures}
    return frozenset(stroke.role for figure in figures.values() for stroke in figure.strokes)


def _held(tiles: Sequence[tuple[_Laid, int]]) -> Iterator[Held]:
    """What a page holds, and which parts of a pattern."""
    for _, own in groupby(tiles, key=lambda entry: id(entry[0])):
        (one, *_), numbers = zip(*own, strict=True)
        pattern, parts = one.tiled.pattern, tuple(number + 1 for number in numbers)
        short = pattern.short or pattern.title
        yield Held(pattern.group, pattern.title, short, parts, len(one.spots))


def _followed(pages: Sequence[Page], more: Sequence[Page], on_one: bool) -> tuple[Page, ...]:
    """Pages and more pages, the last of the ones and the first of the others on one."""
    if not on_one:
        return (*pages, *more)
    (*before, last), (first, *after) = pages, more
    return (*before, last.with_more(first), *after)


def _bookmarks(read: _Read, laid: Sequence[_Laid]) -> Iterator[Bookmark]:
    """What is read first, then the patterns by group, each at its first page."""
    yield from read.marks
    before = read.count - 1
    for group, members in groupby(laid, key=attrgetter("group")):
        inside = tuple(
            Bookmark(one.tiled.pattern.title, before + one.spots[0].page) for one in members
        )
        yield Bookmark(group, inside[0].page, inside)
