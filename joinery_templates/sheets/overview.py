"""The first page: how to read the lines, what each page holds, how sheets are assembled."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import groupby

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.cutting_list import which_end
from joinery_templates.drawings.figure import (
    Align,
    Block,
    Columns,
    Figure,
    Role,
    Section,
    Stroke,
    Text,
    aired,
    beside,
    box,
    circle,
    cross,
    downwards,
    joined,
    line,
    prick_point,
)
from joinery_templates.drawings.labels import named_together
from joinery_templates.drawings.lettering import ASCENT, DESCENT, Lettering, Paragraph, column
from joinery_templates.drawings.look import BODY, HEADING, TITLE
from joinery_templates.drawings.placing import Ground
from joinery_templates.drawings.waste import hatched
from joinery_templates.exact import Fraction
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.page import Page
from joinery_templates.sheets.seam_marks import match_mark
from joinery_templates.sheets.tiling import Tiled

GAP = Fraction(4)
PAD = Fraction(2)
AIR = Fraction(1)
"""Below a sketch, so that its words do not stand on those below."""
ABOVE = Fraction(4)
"""White above a heading."""
ROUND = 2 * BODY
"""Round the sketch of a pattern that is taped."""
TWO_COLUMNS = Fraction(150)
"""On a wider page short entries stand in two columns."""
SPARE = Fraction(6)
"""So much more room beside a sketch lets it hold which end of a board is which."""
NARROW = Fraction(130)
"""On a narrower page the words for a sketch stand below it."""
SAMPLE = Fraction(12)
"""How long a line is drawn that the legend explains."""

MIDDLE = "The middle of every line is the finished edge."
_LEGEND = (
    (Role.SAW, "sawn: beside the line, on the waste side"),
    (Role.KNIFE, "knifed or gauged, and pared to"),
    (Role.MARK, "setting-out mark: copied on to the wood"),
    (Role.CROSS, "setting-out marks; a cross between two: waste"),
    (Role.GUIDE, "line carried across: nothing is cut here"),
    (Role.GROOVE, "groove or rebate along the board: ploughed or planed"),
    (Role.HOLE, "hole that is bored: set the bit on its dot"),
    (Role.KERF, "far side of the saw cut, in the waste"),
    (Role.FOLD, "fold: lies on the arris of the board"),
    (Role.OUTLINE, "edge of the board: cut paper, never wood"),
    (Role.TRIM, "cut the paper here"),
    (Role.HATCH, "waste that goes right through the board"),
    (Role.OPEN_HATCH, "waste that stops: as deep as it says"),
    (Role.PRICK, "prick point: prick through its dot"),
    (Role.SEAM, "seam: one sheet is cut here and taped on"),
    (Role.MATCH, "match mark: lay one on the other"),
)


class Opening(Struct, frozen=True):
    """What the first page says before the legend.

    Attributes:
        title: the job's.
        notes: paragraphs.
        pictures: of the joint.
        plans: sketches of the piece, each with the words for it.
        boards: of what it is made.
        paper: what more there is to say of paper.
        care: what to take care of in all work.
    """

    title: str
    notes: Sequence[str]
    pictures: Sequence[Figure] = ()
    plans: Sequence[tuple[Figure, Sequence[Paragraph]]] = ()
    boards: Sequence[Figure] = ()
    paper: str = ""
    care: Sequence[str] = ()


def opening_blocks(
    opening: Opening, frame: Frame, width: Fraction, lettering: Lettering
) -> Iterator[Block]:
    """The blocks of the first page, in order, down to what the pages decide.

    Args:
        opening: what stands at the top.
        frame: of every page.
        width: of a column.
        lettering: how wide words run.
    """
    notes = (Paragraph(note, BODY, after=Fraction(1)) for note in opening.notes)
    yield column((Paragraph(opening.title, TITLE, bold=True), *notes), width, lettering)
    hands = [which_end(width, lettering)] if opening.boards else []
    for sketch, words in opening.plans:
        room = width - sketch.width - GAP
        if width < NARROW:
            yield from (sketch, column(words, width, lettering))
            continue
        told = column(words, room, lettering)
        if hands and told.height < sketch.height - SPARE:
            told, hands = downwards((told, which_end(room, lettering))), []
        yield beside((sketch, told), GAP, AIR)
    yield from (*opening.boards, *(aired(one, AIR) for one in hands))
    yield from _in_rows(opening.pictures, width)
    check = (
        f"Lay a steel rule on both rulers of every sheet. They must read {frame.check_words} "
        "If they differ by more, print again at 100 %."
    )
    before = (
        Paragraph("Before you cut", HEADING, bold=True),
        Paragraph(check, BODY, bold=True),
        Paragraph(opening.paper, BODY, after=PAD),
    )
    yield column(before, width, lettering)


def what_follows(
    opening: Opening,
    width: Fraction,
    tiled: Sequence[Tiled],
    roles: frozenset[Role],
    lettering: Lettering,
) -> Callable[[Sequence[Page]], Columns]:
    """The rest of the first page: what to take care of, the lines, the sheets.

    Args:
        opening: what stands at the top.
        width: of a column.
        tiled: patterns that must be assembled from several pages.
        roles: what is drawn on any page, to be explained.
        lettering: how wide words run.

    Returns:
        What lists the pages in it, again and again until all are known.
    """
    count, room = (2, (width - GAP) / 2) if width > TWO_COLUMNS else (1, width)

    def section(heading: str, rows: Iterable[Figure]) -> Section:
        first, again = (
            column((Paragraph(words, HEADING, bold=True),), room, lettering)
            for words in (heading, f"{heading}, continued")
        )
        first, again = (replace(one, height=one.height + ABOVE) for one in (first, again))
        return Section(tuple(rows), first, again)

    care = (column((Paragraph(words, BODY),), room, lettering) for words in opening.care)
    before = section("Take care", care), section("Lines", _legend(room, lettering, roles))
    after = section("Taped together", _assemblies(tiled, room, lettering))

    def listing(pages: Sequence[Page]) -> Columns:
        sheets = section("Sheets", _page_rows(pages, room, lettering))
        return Columns((*before, sheets, after), GAP, count)

    return listing


def _in_rows(figures: Iterable[Figure], width: Fraction) -> Iterator[Figure]:
    """Figures beside each other, as many as have room in each row."""
    row: list[Figure] = []
    for figure in figures:
        if row and sum((one.width + GAP for one in row), figure.width) > width:
            yield beside(row, GAP)
            row = []
        row.append(figure)
    if row:
        yield beside(row, GAP)


def _legend(width: Fraction, lettering: Lettering, drawn: frozenset[Role]) -> Iterator[Figure]:
    """What the lines mean that are drawn."""
    told = drawn - {Role.MARK} if Role.CROSS in drawn else drawn  # which shows the marks too
    yield column((Paragraph(MIDDLE, BODY),), width, lettering)
    for role, words in _LEGEND:
        if role in told:
            yield _legend_row(role, words, width, lettering)


def _legend_row(role: Role, words: str, width: Fraction, lettering: Lettering) -> Figure:
    """A sample of a line beside what it means."""
    text = column((Paragraph(words, BODY),), width - SAMPLE - 2, lettering)
    height = max(text.height, Fraction(5))
    sample = Figure(width, height, tuple(_sample(role, height / 2 + Fraction(1, 2))))
    return joined(width, height, (sample, text.moved(SAMPLE + 2, (height - text.height) / 2)))


def _sample(role: Role, middle: Fraction) -> Iterator[Stroke]:
    """How a line is drawn, about the height of its row's middle."""
    at = SAMPLE / 2, middle
    low, high = middle - 2, middle + 2
    if role in (Role.MARK, Role.CROSS):
        yield from (line(Role.MARK, x, low, x, high) for x in (at[0] - 3, at[0] + 3))
    match role:
        case Role.MARK:
            pass
        case Role.CROSS:
            yield from cross(role, at, Fraction(3, 2))
        case Role.HOLE:
            yield from circle(role, at, Fraction(2))
            yield from prick_point(at, Fraction(7, 10))
        case Role.PRICK:
            yield from prick_point(at, Fraction(7, 10))
        case Role.MATCH:
            yield from match_mark(at, Fraction(2))
        case Role.HATCH | Role.OPEN_HATCH:
            patch = ((Fraction(0), low), (SAMPLE, low), (SAMPLE, high), (Fraction(0), high))
            yield from hatched(patch, stops=role is Role.OPEN_HATCH)
        case _:
            yield line(role, 0, middle, SAMPLE, middle)


def _page_rows(pages: Sequence[Page], width: Fraction, lettering: Lettering) -> Iterator[Figure]:
    """What each page holds in short; neighbours with the same, or one pattern, share a line."""

    def begins(entry: tuple[int, Page]) -> tuple[str, int | None]:
        number, page = entry
        return page.listed, number - page.sheet[0] if page.sheet else None

    last = len(pages)
    numbered = lettering.width(f"{last}–{last}", BODY, bold=True) + GAP
    runs = [list(run) for _, run in groupby(enumerate(pages, start=1), key=begins)]
    listed = Counter(one for run in runs for one in run[0][1].boards)

    def told(entry: tuple[int, Page]) -> str:
        """In short, unless others have more of the same board."""
        is_spread = any(listed[one] > 1 for one in entry[1].boards)
        return entry[1].title if is_spread else entry[1].listed

    alike = (list(ones) for run in runs for _, ones in groupby(run, key=told))
    for ones in alike:
        (first, page), (last, end) = ones[0], ones[-1]
        numbers, part = f"{first}", page.part
        if first < last:
            numbers, part = f"{first}–{last}", ""
            if page.sheet and end.sheet:
                (start, count), stop = page.sheet, end.sheet[0]
                to = "and" if stop == start + 1 else "to"
                part = f", parts {start} {to} {stop} of {count}"
        label = column((Paragraph(numbers, BODY, bold=True),), numbered, lettering)
        words = Paragraph(f"{told(ones[0])}{part}", BODY)
        yield beside((label, column((words,), width - numbered, lettering)))


HOW_TO_TAPE = (
    "Cut parts that share a sheet apart, clear of every line. Then cut where a seam shows "
    "scissors, and nowhere else yet. Lay that part on its neighbour, marks on marks, against the "
    "light. Measure "
    "the check line from tick to tick (where there is none, a printed figure), tape, and only then "
    "trim along the outer lines."
)


def _assemblies(tiled: Sequence[Tiled], width: Fraction, lettering: Lettering) -> Iterator[Figure]:
    """Patterns drawn small with their parts; those that are cut alike once for all."""
    alike: dict[object, list[Tiled]] = {}
    for one in tiled:
        pattern = one.pattern
        places = tuple((seam.upright, seam.at) for seam in one.seams)
        alike.setdefault((pattern.width, pattern.height, places), []).append(one)
    if alike:
        yield column((Paragraph(HOW_TO_TAPE, BODY),), width, lettering)
    for group in alike.values():
        titles: dict[str, list[str]] = {}
        for one in group:
            titles.setdefault(one.pattern.title, []).append(one.pattern.group)
        named = "; ".join(f"{named_together(where)}: {title}" for title, where in titles.items())
        yield _assembly(group[0], named, width, lettering)


def _assembly(one: Tiled, named: str, width: Fraction, lettering: Lettering) -> Figure:
    """A pattern drawn small with the number of each part."""
    pattern = one.pattern
    words = column((Paragraph(named, BODY),), width, lettering)
    scale = min((width - 2 * ROUND) / pattern.width, Fraction(24) / pattern.height)
    height = pattern.height * scale
    strokes = list(box(Role.FRAME, 0, 0, pattern.width * scale, height))
    for seam in one.seams:
        start, end = seam.point(seam.low), seam.point(seam.high)
        strokes.append(
            line(Role.SEAM, start[0] * scale, start[1] * scale, end[0] * scale, end[1] * scale)
        )
    ground = Ground(lettering, strokes)
    texts: list[Text] = []
    for number, view in enumerate(one.tiles, start=1):
        x, y = (view.left + view.right) / 2 * scale, (view.bottom + view.top) / 2 * scale
        # Where a part is too low or too narrow, its number stands on that side of the whole.
        above, below = (x, height + 1 + BODY * DESCENT), (x, -BODY * ASCENT - 1)
        places = (
            (x, y - BODY / 2),
            *((above,) if view.top == pattern.height else ()),
            *((below,) if view.bottom == 0 else ()),
            (pattern.width * scale + BODY, y - BODY / 2),
        )
        texts += ground.placed(Text(str(number), at, BODY, Align.CENTRE) for at in places)
    picture = Figure(width, height, tuple(strokes), tuple(texts)).moved(ROUND, ROUND)
    total = height + words.height + 2 * ROUND
    return joined(width, total, (picture, words.moved(Fraction(0), total - words.height)))
