"""The first page: how to read the lines, what each page holds, how sheets are assembled."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.drawings.figure import Align, Figure, Role, Text, box, cross, joined, line
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.sheets.flow import beside
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.page import Box, Page
from joinery_templates.sheets.tiling import Tiled

HEADING_CAP = Fraction(5)
CAP = Fraction(5, 2)
SMALL = Fraction(2)
THUMB = Fraction(34)
"""Width of a page drawn small."""
GAP = Fraction(4)

_LEGEND = (
    (Role.SAW, "saw or knife line: cut in the waste, leave the middle of the line"),
    (Role.BASELINE, "baseline: where the waste ends"),
    (Role.GUIDE, "baseline carried across: nothing is cut here"),
    (Role.FOLD, "fold: lies on the arris of the board"),
    (Role.OUTLINE, "edge of the board"),
    (Role.TRIM, "trim the paper here"),
    (Role.HATCH, "waste, hatched and crossed: this wood goes"),
    (Role.PRICK, "prick point, at the ends of lines"),
    (Role.SEAM, "seam: the sheet on the right or above is trimmed here"),
    (Role.MATCH, "match mark: lay like letters on each other"),
)


@dataclass(frozen=True, slots=True)
class TiledPattern:
    """A pattern spread over several pages: the page number of each tile."""

    tiled: Tiled
    pages: tuple[int, ...]


def overview_blocks(
    title: str,
    notes: Sequence[str],
    frame: Frame,
    pages: Sequence[Page],
    tiled: Sequence[TiledPattern],
    lettering: Lettering,
) -> Iterator[Figure]:
    """The blocks of the first page, in order, each as wide as the drawing area.

    Args:
        title: the job's.
        notes: further paragraphs below the title.
        frame: of every page.
        pages: all of them, to be listed and drawn small.
        tiled: patterns that must be assembled from several pages.
        lettering: how wide words run.
    """
    width = frame.area.width
    yield column(
        (
            Paragraph(title, HEADING_CAP, bold=True, after=Fraction(1)),
            *(Paragraph(note, CAP, after=Fraction(1)) for note in notes),
            Paragraph(
                "Before anything is cut: lay a steel rule on both rulers of every page. If a "
                "ruler is not as long as it says, the page was scaled: print again at 100 %, "
                "actual size.",
                CAP,
                bold=True,
                after=Fraction(2),
            ),
        ),
        width,
        lettering,
    )
    yield from _legend(width, lettering)
    for entry in tiled:
        yield _assembly(entry, width, lettering)
    yield column((Paragraph("Pages", CAP * 3 / 2, True, after=Fraction(1)),), width, lettering)
    yield from _page_list(pages, width, lettering)
    yield from _thumbnails(frame, pages, width)


def _legend(width: Fraction, lettering: Lettering) -> Iterator[Figure]:
    """A sample of each line beside its meaning, in one or two columns."""
    heading = Paragraph(
        "Lines. The cut is the middle of the printed line.", CAP, bold=True, after=Fraction(1)
    )
    yield column((heading,), width, lettering)
    columns = 2 if width > 150 else 1
    room = (width - GAP * (columns - 1)) / columns
    rows = [_legend_row(role, words, room, lettering) for role, words in _LEGEND]
    for start in range(0, len(rows), columns):
        yield beside(rows[start : start + columns], GAP)


def _legend_row(role: Role, words: str, width: Fraction, lettering: Lettering) -> Figure:
    sample = Fraction(16)
    text = column((Paragraph(words, SMALL),), width - sample - 2, lettering)
    height = max(text.height, Fraction(5))
    middle = height / 2 + Fraction(1, 2)
    strokes = {
        Role.PRICK: cross(Role.PRICK, (sample / 2, middle), Fraction(7, 10)),
        Role.MATCH: (
            line(Role.MATCH, sample / 2 - 2, middle, sample / 2 + 2, middle),
            line(Role.MATCH, sample / 2, middle - 2, sample / 2, middle + 2),
        ),
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
    for number, page in enumerate(pages, start=1):
        yield column((Paragraph(f"{number}   {page.title}", SMALL),), width, lettering)


def _assembly(entry: TiledPattern, width: Fraction, lettering: Lettering) -> Figure:
    """A pattern drawn small with its tiles, each under the number of its page."""
    pattern = entry.tiled.pattern
    words = column(
        (
            Paragraph(
                f"{pattern.group + ', ' if pattern.group else ''}{pattern.title}: tape "
                f"{len(entry.pages)} sheets together, like letters on each other.",
                SMALL,
                bold=True,
            ),
        ),
        width,
        lettering,
    )
    scale = min(width * 4 / 5 / pattern.width, Fraction(30) / pattern.height)
    height = pattern.height * scale
    strokes = list(box(Role.FRAME, 0, 0, pattern.width * scale, height))
    for seam in entry.tiled.seams:
        start, end = seam.point(seam.low), seam.point(seam.high)
        strokes.append(
            line(Role.SEAM, start[0] * scale, start[1] * scale, end[0] * scale, end[1] * scale)
        )
    texts = [
        Text(f"page {page}", _middle(view, scale), SMALL, Align.CENTRE)
        for view, page in zip(entry.tiled.tiles, entry.pages, strict=True)
    ]
    picture = Figure(width, height, tuple(strokes), tuple(texts))
    total = height + words.height + 2 * GAP
    return joined(
        width, total, (picture.moved(Fraction(0), GAP), words.moved(Fraction(0), height + 2 * GAP))
    )


def _middle(view: Box, scale: Fraction) -> tuple[Fraction, Fraction]:
    return (
        (view.left + view.right) / 2 * scale,
        (view.bottom + view.top) / 2 * scale - SMALL / 2,
    )


def _thumbnails(frame: Frame, pages: Sequence[Page], width: Fraction) -> Iterator[Figure]:
    """Every page drawn small, a row at a time."""
    scale = THUMB / frame.width
    in_row = max(1, int((width + GAP) // (THUMB + GAP)))
    small = [_thumbnail(frame, page, number, scale) for number, page in enumerate(pages, start=1)]
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
    words = Text(str(number), (THUMB - 1, height - 4), Fraction(3), Align.RIGHT, bold=True)
    return Figure(THUMB, height, tuple(strokes), (words,))
