"""The first page: how to read the lines, what each page holds, how sheets are assembled."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import (
    Align,
    Figure,
    Point,
    Role,
    Text,
    box,
    cross,
    distinct,
    joined,
    line,
)
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.drawings.placing import Ground
from joinery_templates.sheets.flow import beside
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.page import Box, Page
from joinery_templates.sheets.rulers import STILL_GOOD
from joinery_templates.sheets.seam_marks import match_mark
from joinery_templates.sheets.tiling import Tiled

HEADING_CAP = Fraction(5)
SECTION_CAP = Fraction(3)
CAP = Fraction(5, 2)
SMALL = Fraction(2)
SMALLEST = Fraction(7, 5)
THUMB = Fraction(24)
"""Width of a page drawn small."""
MOST_THUMBS = 60
"""More pages than this are listed and not drawn small."""
GAP = Fraction(4)

_LEGEND = (
    (Role.SAW, "saw or knife line: cut in the waste, leave the middle of the line"),
    (Role.BASELINE, "baseline: where the waste ends"),
    (Role.GUIDE, "line carried across: nothing is cut here"),
    (Role.GROOVE, "groove or rebate along the board: ploughed by itself, not with the joint"),
    (Role.HOLE, "hole that is bored: set the bit on the cross in its middle"),
    (Role.KERF, "far side of the saw cut, in the waste"),
    (Role.FOLD, "fold: lies on the arris of the board"),
    (Role.OUTLINE, "edge of the board (thin)"),
    (Role.TRIM, "cut the paper here"),
    (Role.HATCH, "waste, hatched and crossed: this wood goes"),
    (Role.PRICK, "prick point, at the ends of lines"),
    (Role.SEAM, "seam: one sheet is cut here and laid on the other"),
    (Role.MATCH, "match mark: lay like letters on each other"),
)
_SELDOM = frozenset({Role.GROOVE, Role.HOLE, Role.KERF})
"""Explained only where there is one."""


class TiledPattern(Struct, frozen=True):
    """A pattern spread over several pages: the page number of each tile."""

    tiled: Tiled
    pages: tuple[int, ...]


class Opening(Struct, frozen=True):
    """What the first page says before the legend.

    Attributes:
        title: the job's.
        notes: paragraphs.
        figures: drawings, such as the plan of the corners.
    """

    title: str
    notes: Sequence[str]
    figures: Sequence[Figure]


def overview_blocks(
    opening: Opening,
    frame: Frame,
    width: Fraction,
    pages: Sequence[Page],
    tiled: Sequence[TiledPattern],
    lettering: Lettering,
) -> Iterator[Figure]:
    """The blocks of the first page, in order.

    Args:
        opening: what stands at the top.
        frame: of every page.
        width: of a column.
        pages: all of them, to be listed and drawn small.
        tiled: patterns that must be assembled from several pages.
        lettering: how wide words run.
    """
    yield column(
        (
            Paragraph(opening.title, HEADING_CAP, bold=True, after=Fraction(1)),
            *(Paragraph(note, CAP, after=Fraction(1)) for note in opening.notes),
            Paragraph(
                "Before anything is cut: lay a steel rule on both rulers of every sheet. They must "
                f"read {frame.check_words}. {STILL_GOOD} If they differ by more, the sheet was "
                "scaled: print again at 100 %, actual size.",
                CAP,
                bold=True,
                after=Fraction(2),
            ),
        ),
        width,
        lettering,
    )
    yield from opening.figures
    yield from _legend(width, lettering, _roles_on(pages))
    if tiled:
        yield _section("Sheets to tape together, like letters on each other", width, lettering)
        pictures = [_assembly(entry, (width - GAP) / 2, lettering) for entry in tiled]
        for start in range(0, len(pictures), 2):
            yield beside(pictures[start : start + 2], GAP)
    yield _section("Pages", width, lettering)
    yield from _page_list(pages, width, lettering)
    if len(pages) <= MOST_THUMBS:
        yield from _thumbnails(frame, pages, width)


def _section(words: str, width: Fraction, lettering: Lettering) -> Figure:
    heading = column((Paragraph(words, SECTION_CAP, bold=True),), width, lettering)
    return replace(heading, height=heading.height + 2)


def _roles_on(pages: Sequence[Page]) -> frozenset[Role]:
    """What is drawn anywhere."""
    figures = {id(window.figure): window.figure for page in pages for window in page.windows}
    return frozenset(stroke.role for figure in figures.values() for stroke in figure.strokes)


def _legend(width: Fraction, lettering: Lettering, drawn: frozenset[Role]) -> Iterator[Figure]:
    """A sample of each line beside its meaning, in one or two columns."""
    yield _section("Lines: the cut is the middle of the printed line", width, lettering)
    columns = 2 if width > 150 else 1
    room = (width - GAP * (columns - 1)) / columns
    rows = [
        _legend_row(role, words, room, lettering)
        for role, words in _LEGEND
        if role in drawn or role not in _SELDOM
    ]
    for start in range(0, len(rows), columns):
        yield beside(rows[start : start + columns], GAP)


def _legend_row(role: Role, words: str, width: Fraction, lettering: Lettering) -> Figure:
    sample = Fraction(16)
    text = column((Paragraph(words, SMALL),), width - sample - 2, lettering)
    height = max(text.height, Fraction(5))
    middle, centre = height / 2 + Fraction(1, 2), sample / 2
    strokes = {
        Role.PRICK: cross(Role.PRICK, (centre, middle), Fraction(7, 10)),
        Role.MATCH: tuple(match_mark((centre, middle), Fraction(2))),
        Role.HATCH: tuple(
            line(Role.HATCH, x, middle - 1, x + 4, middle + 1) for x in range(1, 12, 3)
        ),
    }.get(role, (line(role, 0, middle, sample, middle),))
    return joined(
        width,
        height,
        (Figure(width, height, strokes), text.moved(sample + 2, (height - text.height) / 2)),
    )


def _page_list(pages: Sequence[Page], width: Fraction, lettering: Lettering) -> Iterator[Figure]:
    """What each page holds; neighbouring pages of one title, or one pattern, share a line."""

    def begins(entry: tuple[int, Page]) -> tuple[str, int | None]:
        number, page = entry
        return page.title, number - page.sheet[0] if page.sheet else None

    for (title, _), entries in groupby(enumerate(pages, start=1), key=begins):
        run = list(entries)
        (first, page), (last, end) = run[0], run[-1]
        words = f"{first} {title}{page.part}"
        if first < last:
            words = f"{first}–{last} {title}"
            if page.sheet and end.sheet:
                words += f", parts {page.sheet[0]} to {end.sheet[0]} of {end.sheet[1]}"
        yield column((Paragraph(words, SMALL),), width, lettering)


def _assembly(entry: TiledPattern, width: Fraction, lettering: Lettering) -> Figure:
    """A pattern drawn small with its tiles, each under the number of its page."""
    pattern = entry.tiled.pattern
    words = column((Paragraph(f"{pattern.group}: {pattern.title}", SMALL, True),), width, lettering)
    scale = min(width / pattern.width, Fraction(24) / pattern.height)
    height = pattern.height * scale
    strokes = list(box(Role.FRAME, 0, 0, pattern.width * scale, height))
    for seam in entry.tiled.seams:
        start, end = seam.point(seam.low), seam.point(seam.high)
        strokes.append(
            line(Role.SEAM, start[0] * scale, start[1] * scale, end[0] * scale, end[1] * scale)
        )
    ground = Ground(lettering, strokes)
    texts: list[Text] = []
    for view, page in zip(entry.tiled.tiles, entry.pages, strict=True):
        texts += ground.placed(
            Text(words, _middle(view, scale, cap), cap, Align.CENTRE)
            for words in (f"p. {page}", f"{page}")
            for cap in (SMALL, SMALLEST)
        )
    picture = Figure(width, height, tuple(strokes), tuple(texts))
    total = height + words.height + GAP + 1
    return joined(
        width, total, (picture.moved(Fraction(0), GAP), words.moved(Fraction(0), height + GAP + 1))
    )


def _middle(view: Box, scale: Fraction, cap: Fraction) -> Point:
    """Where words stand in the middle of a tile; the list of pages tells its page too."""
    return (
        (view.left + view.right) / 2 * scale,
        (view.bottom + view.top) / 2 * scale - cap / 2,
    )


def _thumbnails(frame: Frame, pages: Sequence[Page], width: Fraction) -> Iterator[Figure]:
    """Every page with patterns drawn small, a row at a time."""
    scale = THUMB / frame.width
    in_row = max(1, int((width + GAP) // (THUMB + GAP)))
    small = [
        _thumbnail(frame, page, number, scale)
        for number, page in enumerate(pages, start=1)
        if page.full_size
    ]
    for start in range(0, len(small), in_row):
        row = beside(small[start : start + in_row], GAP)
        yield joined(row.width, row.height + GAP, (row,))


def _thumbnail(frame: Frame, page: Page, number: int, scale: Fraction) -> Figure:
    height = frame.height * scale
    strokes = list(box(Role.FRAME, 0, 0, THUMB, height))
    for window in page.windows:
        low = window.on_page((window.view.left, window.view.bottom))
        high = window.on_page((window.view.right, window.view.top))
        strokes.extend(
            box(Role.FRAME, low[0] * scale, low[1] * scale, high[0] * scale, high[1] * scale)
        )
    words = Text(str(number), (THUMB / 2, Fraction(1, 2)), Fraction(5, 2), Align.CENTRE, bold=True)
    picture = Figure(THUMB, height, distinct(strokes)).moved(Fraction(0), Fraction(4))
    return Figure(THUMB, height + 4, picture.strokes, (words,))
