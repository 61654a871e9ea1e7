"""From patterns to pages: tile, pack, number, and put the overview first."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain

from joinery_templates.drawings.figure import Figure, Pattern
from joinery_templates.drawings.lettering import Lettering
from joinery_templates.lengths import Units
from joinery_templates.sheets.correction import NO_MAP, Correction
from joinery_templates.sheets.flow import column_count, column_width, stacked
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.free_space import Piece
from joinery_templates.sheets.overview import Opening, TiledPattern, overview_blocks
from joinery_templates.sheets.packing import Spot, pack
from joinery_templates.sheets.page import Booklet, Bookmark, Page, Window, whole
from joinery_templates.sheets.seam_marks import (
    SeamPlan,
    plan_seams,
    seam_lines,
    seam_notes,
    without_cut_words,
)
from joinery_templates.sheets.tiling import Letters, Tiled, tile

GAP = Fraction(6)
"""Room for scissors between two patterns on one page."""
OVERVIEW = "Overview"


@dataclass(frozen=True, slots=True)
class Reading:
    """A text that runs over whole pages, such as the bench page: its title and blocks."""

    title: str
    blocks: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class Contents:
    """What is to be bound.

    Attributes:
        opening: the top of the first page; its title stands on every page.
        readings: texts that come after the first page.
        patterns: what is printed full size, in order.
    """

    opening: Opening
    readings: tuple[Reading, ...]
    patterns: tuple[Pattern, ...]


@dataclass(frozen=True, slots=True)
class Wishes:
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


def text_height(frame: Frame) -> Fraction:
    """The height of all columns of words on a page together."""
    return frame.area.height * column_count(frame.area.width)


@dataclass(frozen=True, slots=True)
class _Packed:
    """Patterns cut into tiles, and where each tile is; pages count from 0."""

    tiled: tuple[Tiled, ...]
    spots: tuple[tuple[Spot, ...], ...]
    seams: tuple["_Seams | None", ...]

    @property
    def page_count(self) -> int:
        return 1 + max((spot.page for spots in self.spots for spot in spots), default=-1)

    def numbers(self, before: int) -> tuple[tuple[int, ...], ...]:
        """Page numbers of every pattern's tiles, when so many pages come before."""
        return tuple(tuple(before + spot.page + 1 for spot in spots) for spots in self.spots)


@dataclass(frozen=True, slots=True)
class _Seams:
    """A pattern's seams as planned and drawn, made once for all its tiles."""

    plans: tuple[SeamPlan, ...]
    lines: Figure


@dataclass(frozen=True, slots=True)
class _Binding:
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
        packed = self._packed()
        reading = [
            Page(text.title, (self._in_area(figure),))
            for text in (() if self.wide else self.contents.readings)
            for figure in stacked(text.blocks, frame.area.width, frame.area.height)
        ]
        first = [Page(self.first_title, ())]
        # The overview lists all pages, its own too: laid out anew until its length settles.
        while True:
            before = len(first) + len(reading)
            patterns = self._pattern_pages(packed, before)
            overview = self._overview([*first, *reading, *patterns], packed, before)
            if len(overview) <= len(first):
                first = [*overview, *first[len(overview) :]]
                break
            first = [Page(self.first_title, ())] * len(overview)
        pages = [*first, *reading, *patterns]
        correction = self.wishes.correction
        return Booklet(
            width_pt=frame.paper.width_pt,
            height_pt=frame.paper.height_pt,
            pages=tuple(
                self._furnished(page, number, len(pages)) for number, page in enumerate(pages, 1)
            ),
            bookmarks=_bookmarks(packed, pages, len(first) + len(reading)),
            rulers=frame.ruler_lines,
            paper_used=self._share_used(packed),
            page_map=correction.page_map(frame.width, frame.height) if correction else NO_MAP,
        )

    def _in_area(self, figure: Figure) -> Window:
        return whole(figure, (self.frame.area.left, self.frame.area.bottom))

    def _packed(self) -> _Packed:
        area, letters = self.frame.area, Letters()
        overlap = self.wishes.overlap
        cut = (
            tile(pattern, (area.width, area.height), overlap, letters)
            for pattern in self.contents.patterns
        )
        tiled = tuple(
            without_cut_words(one, overlap, self.lettering) if one.seams else one for one in cut
        )
        pieces = [
            Piece(*_lying(view.width, view.height, one.turned), one.pattern.group, not one.seams)
            for one in tiled
            for view in one.tiles
        ]
        gap = area.width + area.height if self.wishes.one_per_page else GAP
        spots = iter(pack(pieces, area.width, area.height, gap))
        laid = tuple(tuple(next(spots) for _ in one.tiles) for one in tiled)
        return _Packed(tiled, laid, tuple(self._seams(one) for one in tiled))

    def _seams(self, tiled: Tiled) -> _Seams | None:
        if not tiled.seams:
            return None
        wishes = self.wishes
        plans = plan_seams(tiled, wishes.overlap, self.lettering)
        return _Seams(plans, seam_lines(tiled, plans, wishes.match_marks, wishes.units))

    def _pattern_pages(self, packed: _Packed, before: int) -> list[Page]:
        windows: list[list[Window]] = [[] for _ in range(packed.page_count)]
        titles: list[dict[str, list[str]]] = [{} for _ in range(packed.page_count)]
        numbers = packed.numbers(before)
        parts = zip(packed.tiled, packed.spots, packed.seams, numbers, strict=True)
        for tiled, spots, seams, pages in parts:
            for number, spot in enumerate(spots):
                figures = list(tiled.pattern.layers)
                if seams is not None:
                    overlap = self.wishes.overlap
                    notes = seam_notes(tiled, seams.plans, number, pages, overlap, self.lettering)
                    figures += [seams.lines, notes]
                windows[spot.page].extend(self._windows(tiled, number, spot, figures))
                part = f", sheet {number + 1} of {len(tiled.tiles)}" if tiled.seams else ""
                held = titles[spot.page].setdefault(tiled.pattern.group, [])
                held.append(f"{tiled.pattern.title}{part}")
        return [
            Page(
                "; ".join(f"{group}: {', '.join(held)}" for group, held in named.items()),
                tuple(shown),
                full_size=True,
            )
            for named, shown in zip(titles, windows, strict=True)
        ]

    def _windows(
        self, tiled: Tiled, number: int, spot: Spot, figures: Sequence[Figure]
    ) -> Sequence[Window]:
        view, area = tiled.tiles[number], self.frame.area
        turned = spot.turned or tiled.turned
        _, height = _lying(view.width, view.height, turned)
        # Packed from the lower left; read from the top.
        at = (area.left + spot.x, area.top - spot.y - height)
        return [Window(figure, view, at, turned) for figure in figures]

    def _overview(self, pages: Sequence[Page], packed: _Packed, before: int) -> list[Page]:
        spread = [
            TiledPattern(tiled, numbers)
            for tiled, numbers in zip(packed.tiled, packed.numbers(before), strict=True)
            if tiled.seams
        ]
        area = self.frame.area
        blocks = overview_blocks(
            self.contents.opening,
            self.frame,
            column_width(area.width),
            pages,
            spread,
            self.lettering,
        )
        if self.wide:
            read = (block for text in self.contents.readings for block in text.blocks)
            blocks = chain(blocks, read)
        figures = stacked(blocks, area.width, area.height)
        return [Page(self.first_title, (self._in_area(figure),)) for figure in figures]

    def _furnished(self, page: Page, number: int, total: int) -> Page:
        zero = (Fraction(0), Fraction(0))
        title = self.contents.opening.title
        head = self.frame.head(title, page.title, number, total, self.lettering)
        furniture = (whole(self.frame.furniture(), zero), whole(head, zero))
        return Page(page.title, (*furniture, *page.windows), page.full_size)

    def _share_used(self, packed: _Packed) -> Fraction:
        if not packed.page_count:
            return Fraction(0)
        area = self.frame.area
        covered = sum((v.width * v.height for one in packed.tiled for v in one.tiles), Fraction(0))
        return covered / (area.width * area.height * packed.page_count)


def _lying(width: Fraction, height: Fraction, turned: bool) -> tuple[Fraction, Fraction]:
    return (height, width) if turned else (width, height)


def _bookmarks(packed: _Packed, pages: Sequence[Page], before: int) -> tuple[Bookmark, ...]:
    """What is read first, then the patterns by group, each at its first page."""
    first_pages: dict[str, int] = {}
    for number, page in enumerate(pages[:before]):
        first_pages.setdefault(page.title, number)
    marks = [Bookmark(title, number) for title, number in first_pages.items()]
    groups: dict[str, list[Bookmark]] = {}
    for tiled, spots in zip(packed.tiled, packed.spots, strict=True):
        entry = Bookmark(tiled.pattern.title, before + min(spot.page for spot in spots))
        groups.setdefault(tiled.pattern.group, []).append(entry)
    marks += [
        Bookmark(group, min(entry.page for entry in entries), tuple(entries))
        for group, entries in groups.items()
    ]
    return tuple(marks)
