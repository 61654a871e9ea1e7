"""From patterns to pages: tile, pack, number, and put the overview first."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.drawings.figure import Figure, Pattern
from joinery_templates.drawings.lettering import Lettering
from joinery_templates.sheets.flow import stacked
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.overview import TiledPattern, overview_blocks
from joinery_templates.sheets.packing import Piece, Spot, pack
from joinery_templates.sheets.page import Booklet, Bookmark, Page, Window, whole
from joinery_templates.sheets.tiling import Tiled, match_marks, seam_notes, tile

GAP = Fraction(6)
"""Room for scissors between two patterns on one page."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A text that runs over whole pages, such as the bench page: its title and blocks."""

    title: str
    blocks: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class Contents:
    """What is to be bound.

    Attributes:
        title: the job's, on every page.
        notes: paragraphs for the first page.
        readings: texts that come after the first page.
        patterns: what is printed full size, in order.
        overlap: paper shared by two taped sheets.
    """

    title: str
    notes: tuple[str, ...]
    readings: tuple[Reading, ...]
    patterns: tuple[Pattern, ...]
    overlap: Fraction


@dataclass(frozen=True, slots=True)
class _Packed:
    """Patterns cut into tiles, and where each tile is; pages count from 0."""

    tiled: tuple[Tiled, ...]
    spots: tuple[tuple[Spot, ...], ...]

    @property
    def page_count(self) -> int:
        return 1 + max((spot.page for spots in self.spots for spot in spots), default=-1)


def bind(contents: Contents, frame: Frame, lettering: Lettering) -> Booklet:
    """All pages of the PDF.

    Raises:
        InputError: where the paper is too small for the patterns.
    """
    frame.check_size()
    packed = _packed(contents, frame)
    reading = [
        Page(text.title, (whole(figure, _corner(frame)),))
        for text in contents.readings
        for figure in stacked(text.blocks, frame.area.width, frame.area.height)
    ]
    first: list[Page] = [Page("Overview", ())]
    # The overview lists all pages, its own included: laid out anew until its length settles.
    while True:
        before = len(first) + len(reading)
        pattern_pages = _pattern_pages(contents, packed, frame, before, lettering)
        overview = _overview(
            contents, frame, [*first, *reading, *pattern_pages], packed, before, lettering
        )
        if len(overview) <= len(first):
            first = [*overview, *first[len(overview) :]]
            break
        first = [Page("Overview", ())] * len(overview)
    pages = [*first, *reading, *pattern_pages]
    return Booklet(
        width_pt=frame.paper.width_pt,
        height_pt=frame.paper.height_pt,
        pages=tuple(
            _furnished(page, number, len(pages), contents.title, frame, lettering)
            for number, page in enumerate(pages, start=1)
        ),
        bookmarks=_bookmarks(packed, pages, len(first) + len(reading)),
        rulers=frame.ruler_lines,
        paper_used=_share_used(packed, frame),
    )


def _corner(frame: Frame) -> tuple[Fraction, Fraction]:
    return (frame.area.left, frame.area.bottom)


def _packed(contents: Contents, frame: Frame) -> _Packed:
    area = frame.area
    tiled = tuple(
        tile(pattern, (area.width, area.height), contents.overlap) for pattern in contents.patterns
    )
    pieces = [
        Piece(view.width, view.height, one.pattern.group) for one in tiled for view in one.tiles
    ]
    spots = iter(pack(pieces, area.width, area.height, GAP))
    return _Packed(tiled, tuple(tuple(next(spots) for _ in one.tiles) for one in tiled))


def _pattern_pages(
    contents: Contents, packed: _Packed, frame: Frame, before: int, lettering: Lettering
) -> list[Page]:
    windows: list[list[Window]] = [[] for _ in range(packed.page_count)]
    titles: list[dict[str, None]] = [{} for _ in range(packed.page_count)]
    for tiled, spots in zip(packed.tiled, packed.spots, strict=True):
        numbers = [before + spot.page + 1 for spot in spots]
        marks = (match_marks(tiled, contents.overlap),) if tiled.seams else ()
        for number, (view, spot) in enumerate(zip(tiled.tiles, spots, strict=True)):
            notes = (
                (seam_notes(tiled, number, numbers, contents.overlap, lettering),) if marks else ()
            )
            height = view.width if spot.turned else view.height
            # Packed from the lower left; read from the top.
            at = (frame.area.left + spot.x, frame.area.top - spot.y - height)
            windows[spot.page].extend(
                Window(figure, view, at, spot.turned)
                for figure in (*tiled.pattern.layers, *marks, *notes)
            )
            titles[spot.page].setdefault(_title(tiled, number))
    return [
        Page("; ".join(named), tuple(shown)) for named, shown in zip(titles, windows, strict=True)
    ]


def _title(tiled: Tiled, number: int) -> str:
    pattern = tiled.pattern
    part = f", sheet {number + 1} of {len(tiled.tiles)}" if tiled.seams else ""
    return f"{pattern.group + ': ' if pattern.group else ''}{pattern.title}{part}"


def _overview(
    contents: Contents,
    frame: Frame,
    pages: Sequence[Page],
    packed: _Packed,
    before: int,
    lettering: Lettering,
) -> list[Page]:
    spread = [
        TiledPattern(tiled, tuple(before + spot.page + 1 for spot in spots))
        for tiled, spots in zip(packed.tiled, packed.spots, strict=True)
        if tiled.seams
    ]
    blocks = overview_blocks(contents.title, contents.notes, frame, pages, spread, lettering)
    figures = stacked(blocks, frame.area.width, frame.area.height)
    return [Page("Overview", (whole(figure, _corner(frame)),)) for figure in figures]


def _furnished(
    page: Page, number: int, total: int, title: str, frame: Frame, lettering: Lettering
) -> Page:
    zero = (Fraction(0), Fraction(0))
    furniture = (
        whole(frame.furniture(), zero),
        whole(frame.head(title, page.title, number, total, lettering), zero),
    )
    return Page(page.title, (*furniture, *page.windows))


def _bookmarks(packed: _Packed, pages: Sequence[Page], before: int) -> tuple[Bookmark, ...]:
    """What is read first, then the patterns by group, each at its first page."""
    first_pages: dict[str, int] = {}
    for number, page in enumerate(pages[:before]):
        first_pages.setdefault(page.title, number)
    marks = [Bookmark(title, number) for title, number in first_pages.items()]
    groups: dict[str, list[Bookmark]] = {}
    for tiled, spots in zip(packed.tiled, packed.spots, strict=True):
        entry = Bookmark(tiled.pattern.title, before + min(s.page for s in spots))
        groups.setdefault(tiled.pattern.group, []).append(entry)
    marks += [
        Bookmark(group, min(entry.page for entry in entries), tuple(entries))
        for group, entries in groups.items()
    ]
    return tuple(marks)


def _share_used(packed: _Packed, frame: Frame) -> Fraction:
    if not packed.page_count:
        return Fraction(0)
    covered = sum((v.width * v.height for one in packed.tiled for v in one.tiles), Fraction(0))
    return covered / (frame.area.width * frame.area.height * packed.page_count)
