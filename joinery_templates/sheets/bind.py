"""From patterns to pages: tile, pack, number, and put the overview first."""

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from functools import cache
from itertools import chain, groupby, islice
from operator import attrgetter

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import Block, Figure, Pattern, Role
from joinery_templates.drawings.lettering import Lettering, turned_round
from joinery_templates.exact import Fraction
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
        spots: where each tile lies, of all pages.
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


class _Read(Struct, frozen=True):
    """A text laid on pages that are not drawn yet.

    Attributes:
        held: what it is.
        stack: its blocks; of the overview only the room that is kept for it is known.
        first: its first page, counted from 0.
    """

    held: Held
    stack: Stack
    first: int

    @property
    def past(self) -> int:
        """The page after its last."""
        return self.first + self.stack.count


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
        cut = tuple(self._cut(scissors))
        overview = self._overview(cut)
        # The overview lists all pages, its own too, and what follows goes on below it: laid out
        # anew until it needs no more room than was kept for it.
        needed = overview(())
        while True:
            kept = needed
            read = self._read(kept)
            laid = tuple(self._laid(cut, read[-1]))
            blank = [Page(held, ()) for held in _held(read, laid)]
            needed = overview(blank)
            if (needed.count, needed.depth) <= (kept.count, kept.depth):
                break
        windows = self._windows((needed, *(text.stack for text in read[1:])), read, laid)
        pages = [replace(page, windows=tuple(windows[n])) for n, page in enumerate(blank)]
        correction = self.setup.correction
        return Booklet(
            width_pt=frame.paper.width_pt,
            height_pt=frame.paper.height_pt,
            pages=tuple(self._furnished(with_sheets_named(pages))),
            bookmarks=tuple(_bookmarks(read, laid)),
            rulers=frame.ruler_lines,
            paper_used=self._share_used(laid),
            page_map=correction.page_map(frame.width, frame.height) if correction else NO_MAP,
            findings=tuple(advise_on_seams([one.tiled for one in laid], frame, scissors)),
        ).marked()

    def _overview(self, cut: Sequence[_Laid]) -> Callable[[Sequence[Page]], Stack]:
        """What lays out the first pages when it is given all pages to list."""
        area, contents = self.frame.reading, self.contents
        width, spread = column_width(area.width), [one.tiled for one in cut if one.taping]
        roles = _roles(cut) | ({Role.MATCH} if spread and self.setup.marks else set())
        opening = tuple(opening_blocks(contents.opening, self.frame, width, self.lettering))
        below = what_follows(contents.opening, width, spread, roles, self.lettering)
        read = [block for text in contents.readings for block in text.blocks] if self.wide else []
        return lambda pages: stacked((*opening, below(pages), *read), area.width, area.height)

    def _read(self, room: Stack) -> list[_Read]:
        """All that is read, so much room kept for the overview.

        A text shares a page with the one before where that saves one.
        """
        area, texts = self.frame.reading, [_Read(Held(self.first_title), room, 0)]
        for text in () if self.wide else self.contents.readings:
            last = texts[-1]
            alone = stacked(text.blocks, area.width, area.height)
            below = stacked(text.blocks, area.width, area.height, last.stack.depth + APART)
            shares = below.count <= alone.count
            held = Held(text.group, text.title)
            texts.append(_Read(held, below if shares else alone, last.past - shares))
        return texts

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

    def _laid(self, cut: Sequence[_Laid], last: _Read) -> Iterator[_Laid]:
        """The patterns on pages, the first of them below the last text."""
        area, used, before = self.frame.area, last.stack.depth, last.past - 1
        # In so wide a gap nothing has room beside or below anything else.
        gap = area.width + area.height if self.setup.one_per_page else GAP
        lying = [
            [Piece(*size, may_turn=not one.taping) for one in group for size in one.tiled.sizes]
            for _, group in groupby(cut, key=attrgetter("group"))
        ]
        spots = chain.from_iterable(pack(lying, (area.width, area.height), gap, used))
        of_all = (replace(spot, page=before + spot.page) for spot in spots)
        for one in cut:
            own = tuple(islice(of_all, len(one.tiled.tiles)))
            turned = one.tiled.turned if one.taping else own[0].turned
            yield replace(one, tiled=replace(one.tiled, turned=turned), spots=own)

    def _windows(
        self, stacks: Sequence[Stack], read: Sequence[_Read], laid: Sequence[_Laid]
    ) -> dict[int, list[Window]]:
        """What is seen on each page.

        Args:
            stacks: the blocks of each text, the overview's as it is in the end.
            read: the texts.
            laid: all patterns.
        """
        at = (self.frame.reading.left, self.frame.reading.bottom)
        windows: dict[int, list[Window]] = defaultdict(list)
        legible = cache(_legible)  # figures that are shared stay one
        for text, stack in zip(read, stacks, strict=True):
            for page, figure in enumerate(stack.drawn(), text.first):
                windows[page].append(whole(figure, at))
        for one in laid:
            sheets = [spot.page + 1 for spot in one.spots]
            own = one.taping.of_tiles(sheets) if one.taping else ()
            for number, spot in enumerate(one.spots):
                figures = (*one.figures, *own[number : number + 1])
                if one.tiled.turned:
                    figures = tuple(map(legible, figures))
                windows[spot.page] += (self._window(one, number, figure) for figure in figures)
        return windows

    def _window(self, laid: _Laid, number: int, figure: Figure) -> Window:
        """Where a tile shows a figure."""
        tiled, spot, area = laid.tiled, laid.spots[number], self.frame.area
        view = tiled.tiles[number]
        height = view.width if tiled.turned else view.height
        return Window(figure, view, (area.left + spot.x, area.top - spot.y - height), tiled.turned)

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


def _legible(figure: Figure) -> Figure:
    """A figure that lies turned, its words read from below or from the right where they may be."""
    texts = tuple(
        turned_round(text) if text.either_way and text.turn in (90, 180) else text
        for text in figure.texts
    )
    return figure if texts == figure.texts else replace(figure, texts=texts)


def _roles(laid: Sequence[_Laid]) -> frozenset[Role]:
    """What is drawn on any pattern."""
    figures = {id(figure): figure for one in laid for figure in one.figures}
    return frozenset(stroke.role for figure in figures.values() for stroke in figure.strokes)


def _held(read: Sequence[_Read], laid: Sequence[_Laid]) -> Iterator[tuple[Held, ...]]:
    """What each page holds, and which parts of a pattern."""
    held: dict[int, list[Held]] = defaultdict(list)
    for text in read:
        for page in range(text.first, text.past):
            held[page].append(text.held)
    for one in laid:
        pattern, count = one.tiled.pattern, len(one.spots)
        parts: dict[int, list[int]] = defaultdict(list)
        for part, spot in enumerate(one.spots, 1):
            parts[spot.page].append(part)
        short = pattern.short or pattern.title
        for page, here in parts.items():
            held[page].append(Held(pattern.group, pattern.title, short, tuple(here), count))
    return (tuple(held[page]) for page in range(len(held)))


def _bookmarks(read: Sequence[_Read], laid: Sequence[_Laid]) -> Iterator[Bookmark]:
    """What is read first, then the patterns by group, each at its first page."""
    for text in read:
        yield Bookmark(": ".join(filter(None, (text.held.group, text.held.title))), text.first)
    for group, members in groupby(laid, key=attrgetter("group")):
        inside = tuple(Bookmark(one.tiled.pattern.title, one.spots[0].page) for one in members)
        yield Bookmark(group, inside[0].page, inside)
