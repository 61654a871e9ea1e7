"""From patterns to pages: tile, pack, number, and put the overview first."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import chain, groupby, islice
from operator import attrgetter

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import Figure, Pattern
from joinery_templates.drawings.lettering import Lettering
from joinery_templates.lengths import Units
from joinery_templates.sheets.correction import NO_MAP, Correction
from joinery_templates.sheets.flow import column_count, column_width, stacked
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.overview import Opening, overview_blocks
from joinery_templates.sheets.packing import Piece, Spot, pack
from joinery_templates.sheets.page import Booklet, Bookmark, Page, Window, part_words, whole
from joinery_templates.sheets.seam_advice import advise_on_seams
from joinery_templates.sheets.seam_marks import Taping
from joinery_templates.sheets.tiling import Scissors, Tiled

GAP = Fraction(6)
"""Room for scissors between two patterns on one page."""
OVERVIEW = "Overview"


class Reading(Struct, frozen=True):
    """A text that runs over whole pages, such as the bench page: its title and blocks."""

    title: str
    blocks: tuple[Figure, ...]


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


class Wishes(Struct, frozen=True):
    """How sheets are made up.

    Attributes:
        overlap: paper shared by two taped sheets.
        match_marks: False leaves them out.
        one_per_page: every pattern on a page of its own.
        correction: the printer's profile, or None.
        units: of lengths that sheets state.
    """

    overlap: Fraction
    match_marks: bool = True
    one_per_page: bool = False
    correction: Correction | None = None
    units: Units = Units.MM


def bind(contents: Contents, wishes: Wishes, frame: Frame, lettering: Lettering) -> Booklet:
    """All pages of the PDF.

    Raises:
        InputError: where the paper is too small for the patterns.
    """
    frame.check_size()
    return _Binding(contents, wishes, frame, lettering).booklet()


def text_width(frame: Frame) -> Fraction:
    """The width of a column of words on a page."""
    return column_width(frame.area.width)


class _Laid(Struct, frozen=True):
    """A pattern with a spot for each of its tiles; pages count from 0.

    Attributes:
        tiled: the pattern and its tiles.
        spots: where each tile lies.
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


class _Binding(Struct, frozen=True):
    contents: Contents
    wishes: Wishes
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
        laid = tuple(self._laid_out())
        patterns = self._pattern_pages(laid)
        reading = [
            Page(text.title, (self._in_area(figure),))
            for text in (() if self.wide else self.contents.readings)
            for figure in stacked(text.blocks, frame.area.width, frame.area.height)
        ]
        first: list[Page] = []
        overview = [Page(self.first_title, ())]
        # The overview lists all pages, its own too: laid out anew until its length settles.
        while len(overview) > len(first):
            first = [Page(self.first_title, ())] * len(overview)
            overview = self._overview([*first, *reading, *patterns], laid)
        words = [*overview, *first[len(overview) :], *reading]
        pages = [*words, *self._pattern_pages(laid, len(words))]
        correction = self.wishes.correction
        return Booklet(
            width_pt=frame.paper.width_pt,
            height_pt=frame.paper.height_pt,
            pages=tuple(self._furnished(pages)),
            bookmarks=_bookmarks(laid, words),
            rulers=frame.ruler_lines,
            paper_used=self._share_used(laid, len(patterns)),
            page_map=correction.page_map(frame.width, frame.height) if correction else NO_MAP,
            findings=tuple(
                advise_on_seams(
                    [one.tiled for one in laid], frame, self.wishes.overlap, self.lettering
                )
            ),
        ).marked()

    def _in_area(self, figure: Figure) -> Window:
        return whole(figure, (self.frame.area.left, self.frame.area.bottom))

    def _laid_out(self) -> Iterator[_Laid]:
        """All patterns in reading order: what belongs together one after the other."""
        area, wishes = self.frame.area, self.wishes
        size = area.width, area.height
        groups: dict[str, list[Pattern]] = {}
        for pattern in self.contents.patterns:
            groups.setdefault(pattern.group, []).append(pattern)
        scissors = Scissors(size, wishes.overlap, self.lettering)
        cut = [[scissors.cut(pattern) for pattern in group] for group in groups.values()]
        # In so wide a gap nothing has room beside or below anything else.
        gap = area.width + area.height if wishes.one_per_page else GAP
        lying = [
            [Piece(*tile, may_turn=not tiled.seams) for tiled in group for tile in tiled.sizes]
            for group in cut
        ]
        spots = chain.from_iterable(pack(lying, size, gap))
        for tiled in chain.from_iterable(cut):
            own = tuple(islice(spots, len(tiled.tiles)))
            taping, figures = None, tiled.pattern.layers
            tiled = replace(tiled, turned=tiled.turned != own[0].turned)
            if tiled.seams:
                taping = Taping(
                    tiled, wishes.overlap, wishes.match_marks, wishes.units, self.lettering
                )
                figures += (taping.figure,)
            yield _Laid(tiled, own, taping, figures)

    def _pattern_pages(self, laid: Sequence[_Laid], before: int | None = None) -> list[Page]:
        """The pages with patterns.

        Args:
            laid: all patterns.
            before: how many pages come before; while that is not known, nothing that a tile
                alone shows is there.
        """
        windows: dict[int, list[Window]] = {}
        held: dict[int, list[tuple[_Laid, int]]] = {}
        for one in laid:
            own = one.taping.of_tiles(one.numbers(before)) if one.taping and before else ()
            for number, spot in enumerate(one.spots):
                held.setdefault(spot.page, []).append((one, number))
                figures = (*one.figures, *own[number : number + 1])
                shown = windows.setdefault(spot.page, [])
                shown += (self._window(one, number, figure) for figure in figures)
        return [
            Page(
                _title(held[page]),
                tuple(shown),
                short=_short(held[page]),
                full_size=True,
                sheet=_only_sheet(held[page]),
            )
            for page, shown in windows.items()
        ]

    def _window(self, laid: _Laid, number: int, figure: Figure) -> Window:
        """Where a tile shows a figure."""
        tiled, spot, area = laid.tiled, laid.spots[number], self.frame.area
        view = tiled.tiles[number]
        height = view.width if tiled.turned else view.height
        return Window(figure, view, (area.left + spot.x, area.top - spot.y - height), tiled.turned)

    def _overview(self, pages: Sequence[Page], laid: Sequence[_Laid]) -> list[Page]:
        spread = [one.tiled for one in laid if one.taping]
        area = self.frame.area
        blocks = overview_blocks(
            self.contents.opening,
            self.frame,
            column_width(area.width),
            pages,
            spread,
            self.lettering,
            self.wishes.match_marks,
        )
        if self.wide:
            read = (block for text in self.contents.readings for block in text.blocks)
            blocks = chain(blocks, read)
        figures = stacked(blocks, area.width, area.height)
        return [Page(self.first_title, (self._in_area(figure),)) for figure in figures]

    def _furnished(self, pages: Sequence[Page]) -> Iterator[Page]:
        """The pages with rulers and words round them: what all share is one drawing."""
        zero, frame = (Fraction(0), Fraction(0)), self.frame
        block = frame.title_block(self.contents.opening.title, len(pages), self.lettering)
        shared = frame.furniture(block)
        for number, page in enumerate(pages, 1):
            own = block.own([way for way in (page.title, page.short) if way], page.part, number)
            yield replace(page, windows=(whole(shared, zero), whole(own, zero), *page.windows))

    def _share_used(self, laid: Sequence[_Laid], pages: int) -> Fraction:
        area = self.frame.area
        covered = sum((v.width * v.height for one in laid for v in one.tiled.tiles), Fraction(0))
        return covered / (area.width * area.height * max(pages, 1))


def _title(held: Sequence[tuple[_Laid, int]]) -> str:
    """What a page holds, group by group: patterns' titles, and which sheet of one each is."""
    alone = _only_sheet(held)

    def told(one: _Laid, number: int) -> str:
        title = one.tiled.pattern.title
        parted = one.taping and not alone
        return f"{title}, {part_words(number + 1, len(one.spots))}" if parted else title

    groups = groupby(held, key=lambda entry: entry[0].group)
    return "; ".join(
        f"{group}: {', '.join(told(*entry) for entry in entries)}" for group, entries in groups
    )


def _short(held: Sequence[tuple[_Laid, int]]) -> str:
    """The groups of a page, each with its boards."""
    groups = groupby((one.tiled.pattern for one, _ in held), key=attrgetter("group"))
    return "; ".join(
        f"{group}: {', '.join(dict.fromkeys(one.short or one.title for one in patterns))}"
        for group, patterns in groups
    )


def _only_sheet(held: Sequence[tuple[_Laid, int]]) -> tuple[int, int] | None:
    """Which sheet of its pattern a page is that holds nothing else."""
    (one, number), *others = held
    return (number + 1, len(one.spots)) if one.taping and not others else None


def _bookmarks(laid: Sequence[_Laid], words: Sequence[Page]) -> tuple[Bookmark, ...]:
    """What is read first, then the patterns by group, each at its first page."""
    first_pages: dict[str, int] = {}
    for number, page in enumerate(words):
        first_pages.setdefault(page.title, number)
    marks = [Bookmark(title, number) for title, number in first_pages.items()]
    for group, members in groupby(laid, key=attrgetter("group")):
        inside = tuple(
            Bookmark(one.tiled.pattern.title, len(words) + one.spots[0].page) for one in members
        )
        marks.append(Bookmark(group, inside[0].page, inside))
    return tuple(marks)
