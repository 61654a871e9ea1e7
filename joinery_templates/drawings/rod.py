r"""The rod: a board's whole length full size, with every joint that stands on it at its place.

::

    +---+---------+------------------------------+---------+---+
    |   |/ / / / /|                              |/ / / / /|   |
    +---+---------+------------------------------+---------+---+
    start                                            the length
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import chain, pairwise

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import Figure, Pattern, Role, Stroke, Text, box, line
from joinery_templates.drawings.fingerprint import JOB
from joinery_templates.drawings.labels import named_together
from joinery_templates.drawings.lettering import LINE_PITCH, Paragraph, column, wrapped
from joinery_templates.drawings.look import BODY
from joinery_templates.drawings.placing import Ground, outwards
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.strip import UNIT_WORDS, bare_figure
from joinery_templates.drawings.waste import hatched
from joinery_templates.exact import Fraction, ceil
from joinery_templates.lengths import Units, told_text
from joinery_templates.wood.board import Board, Face

ROW = BODY * LINE_PITCH
MARGIN = Fraction(7)
"""Paper round it: a line that checks the taping has room there."""
TICK = Fraction(4)
"""How long a mark is, from either edge inwards."""
LANE = Fraction(6)
"""How high the waste of a side is drawn."""
KEPT = Fraction(30)
"""Of a stretch without marks so much is drawn at both ends, where the rod is broken."""
GAP = Fraction(4)
"""Between the two lines of a break."""
WITHIN = Fraction(1)
"""Words keep so far from the rod's ends."""
WORDS_ROOM = Fraction(180)
"""What is read stands at the rod's start, on one sheet."""
REACH = Fraction(20)
"""What a side is called stands so far behind waste at the most."""
SHARE = Fraction(9, 10)
"""Of a sheet so much is free of what overlaps, and of the part before a seam so much is clear."""


_Span = tuple[Fraction, Fraction]
_Side = Face | None
"""A side of the board that has a lane, or all of them."""


class Band(Struct, frozen=True):
    """A stretch of the length where a joint takes wood or another board comes, or a squared line.

    Attributes:
        low: where it begins, from the rod's start.
        high: where it ends; a line has no length.
        joint: what the person calls the joint.
        words: on which face and how deep, or which line.
        stops: whether wood is left behind what is taken; None where none is taken.
        side: the edge of the board, of a leg the face, that it holds for, where it is one alone.
    """

    low: Fraction
    high: Fraction
    joint: str
    words: str
    stops: bool | None
    side: Face | None = None


class Rod(Struct, frozen=True):
    """What stands along a board.

    Attributes:
        board: the board, its length told.
        pieces: which pieces of that name it serves, each by its corners.
        start: the end that it is measured from.
        bands: what the joints take.
        broken: whether empty stretches are drawn shorter than they are.
        sides: of the board, where places differ from one to the other: each has its own lanes.
        at_words: the one of them whose lanes lie along the edge at the words, with the rod on the
            outside face and its start at the left; None where all lie along the other edge.
    """

    board: Board
    pieces: tuple[str, ...]
    start: str
    bands: tuple[Band, ...]
    broken: bool = False
    sides: tuple[Face, ...] = ()
    at_words: Face | None = None

    @property
    def length(self) -> Fraction:
        """The board's length."""
        assert self.board.length is not None
        return self.board.length

    @property
    def marks(self) -> tuple[Fraction, ...]:
        """Every place that is squared across, in order, both ends left out."""
        ends = chain.from_iterable((band.low, band.high) for band in self.bands)
        return tuple(sorted({at for at in ends if 0 < at < self.length}))

    def is_marked(self, at: Fraction, side: Face | None) -> bool:
        """Whether a mark holds for a side of the board."""
        return any(at in (one.low, one.high) and one.side in (None, side) for one in self.bands)

    @property
    def breaks(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """The stretches that are left out, none where it is drawn whole."""
        stops = (Fraction(0), *self.marks, self.length)
        inside = ((low + KEPT, high - KEPT) for low, high in pairwise(stops))
        taken = [(band.low, band.high) for band in self.bands if band.stops is not None]
        return tuple(
            (low, high)
            for low, high in inside
            if self.broken
            and high - low > KEPT
            and not any(start < high and low < end for start, end in taken)
        )

    def drawn_at(self, place: Fraction) -> Fraction:
        """Where a place of the board is drawn, from the rod's start."""
        return place - sum(high - low - GAP for low, high in self.breaks if high <= place)


def rod_pattern(rod: Rod, group: str, setup: DrawingSetup) -> Pattern:
    """The rod, as high as its figures and words need; all of them read along it.

    Args:
        rod: what stands on it.
        group: what it belongs to.
        setup: how patterns are drawn.
    """
    long = rod.drawn_at(rod.length)
    below = tuple(side for side in rod.sides if side is not rod.at_words) or (None,)
    above = tuple(side for side in rod.sides if side is rod.at_words)
    deep, deep_above = (TICK + len(lanes) * LANE for lanes in (below, above))
    numbers, rows = _centred(_figures(rod, below, setup.units), long, setup, _lowest)
    others, rows_above = _centred(_figures(rod, above, setup.units), long, setup, _lowest)
    figures_from = MARGIN + deep + 1
    words_from = figures_from + (rows + Fraction(1, 2)) * ROW
    said = [
        (rod.drawn_at(band.low), rod.drawn_at(band.high), row, words)
        for band in sorted(rod.bands, key=lambda band: (band.low, -band.high))
        for words in (_said(band, setup.units),)
        for row in wrapped(words, long - 2 * WITHIN, BODY, setup.lettering)
    ]
    middles = [((low + high) / 2, row) for low, high, row, _ in said]
    told, more = _centred(middles, long, setup, _in_order)
    read = _read(rod, long, setup)
    # A seam breaks such long words into more rows.
    is_tight = any(setup.lettering.width(one.words, BODY) > _part(long, setup) for one in told)
    read_from = words_from + (more + is_tight) * ROW
    # What holds for the edge at the words alone stands along it.
    figures_to = read_from + read.height + ROW / 2
    marks_from = figures_to + rows_above * ROW
    high = marks_from + deep_above

    strokes = [*box(Role.OUTLINE, MARGIN, MARGIN, MARGIN + long, high)]
    strokes += _drawn(rod, below, MARGIN, 1)
    if above or len(below) == 1:  # where one lane serves all, either edge does
        strokes += _drawn(rod, above, high, -1)
    for low, _ in rod.breaks:
        x = MARGIN + rod.drawn_at(low)
        strokes += (*_break(x, MARGIN, figures_from - 1), *_break(x, marks_from, high))
    texts = [replace(one, at=(one.at[0], one.at[1] + figures_from), stays=True) for one in numbers]
    texts += (replace(one, at=(one.at[0], one.at[1] + figures_to), stays=True) for one in others)
    ground = Ground(setup.lettering, strokes)
    for number, side in enumerate(below):
        texts += _named(rod, side, MARGIN + TICK + number * LANE, setup, ground)
    for side in above:
        texts += _named(rod, side, marks_from, setup, ground)
    for one, (start, end, _, whole) in zip(told, said, strict=True):
        x, y = one.at
        over = MARGIN + start - x, MARGIN + end - x
        texts.append(replace(one, at=(x, y + words_from), paragraph=whole, over=over))
    texts += read.moved(MARGIN + WITHIN, read_from + BODY - ROW / 2).texts
    figure = Figure(long + 2 * MARGIN, high + MARGIN, tuple(strokes), tuple(texts))
    return Pattern(_what(rod), group, (figure,), short=rod.board.called)


def _figures(rod: Rod, lanes: Sequence[_Side], units: Units) -> list[tuple[Fraction, str]]:
    """The figures of the marks in some lanes, and where they are drawn."""
    return [
        (rod.drawn_at(at), bare_figure(at, units))
        for at in rod.marks
        if any(rod.is_marked(at, side) for side in lanes)
    ]


def _drawn(rod: Rod, lanes: Sequence[_Side], edge: Fraction, way: int) -> Iterator[Stroke]:
    """What stands along a long edge: marks there and in their lanes, waste, lines between lanes.

    Args:
        rod: what stands along the board.
        lanes: whose lanes lie there, from the edge inwards; without any each mark is a tick.
        edge: where it is.
        way: 1 where the lanes lie above it, -1 where below.
    """
    left, rows = MARGIN, [edge + way * (TICK + n * LANE) for n in range(len(lanes) + 1)]
    columns = list(zip(lanes, pairwise(rows), strict=True))
    for at in rod.marks:
        held = [row for side, row in columns if rod.is_marked(at, side)]
        x = left + rod.drawn_at(at)
        for low, high in ((edge, rows[0]), *held) if held or not lanes else ():
            yield line(Role.MARK, x, low, x, high)
    for y in rows[1:-1]:
        yield line(Role.DIMENSION, left, y, left + rod.drawn_at(rod.length), y)
    for side, (y, y1) in columns:
        for stops in (True, False):
            for low, high in _taken(rod, side, stops):
                corners = ((low, y), (high, y), (high, y1), (low, y1))
                yield from hatched(tuple((left + x, at) for x, at in corners), stops)


def _taken(rod: Rod, side: _Side, *ways: bool) -> list[tuple[Fraction, Fraction]]:
    """Where wood is taken of a side, whatever takes it: stretches as they are drawn, none twice.

    Args:
        rod: what stands along the board.
        side: of which.
        ways: of what leaves wood behind it, of what does not, or of both.
    """
    own = [band for band in rod.bands if band.stops in ways and band.side in (None, side)]
    found: list[tuple[Fraction, Fraction]] = []
    for low, high in sorted((rod.drawn_at(band.low), rod.drawn_at(band.high)) for band in own):
        start, end = found.pop() if found and low <= found[-1][1] else (low, high)
        found.append((start, max(end, high)))
    return found


def _what(rod: Rod) -> str:
    """The board, and the pieces of that name; a comma stands between corners of one piece."""
    one_each = all(piece.startswith("Corner ") and ", " not in piece for piece in rod.pieces)
    pieces = named_together(rod.pieces) if one_each else " and ".join(rod.pieces)
    return f"{rod.board.called} · {pieces}"


def _centred(
    words: Sequence[tuple[Fraction, str]],
    long: Fraction,
    setup: DrawingSetup,
    in_rows: Callable[[Sequence[_Span]], list[int]],
) -> tuple[list[Text], int]:
    """Words over their places, in as many rows as they need: the words, and how many rows.

    They stand within the rod; the lowest row's baseline is at 0.
    """
    widths = [Fraction(setup.lettering.width(said, BODY)) for _, said in words]
    lefts = [
        max(WITHIN, min(at - wide / 2, long - wide - WITHIN))
        for (at, _), wide in zip(words, widths, strict=True)
    ]
    rows = in_rows([(x - 1, x + wide + 1) for x, wide in zip(lefts, widths, strict=True)])
    texts = [
        Text(said, (MARGIN + x, row * ROW), BODY)
        for (_, said), x, row in zip(words, lefts, rows, strict=True)
    ]
    return texts, max(rows, default=-1) + 1


def _part(long: Fraction, setup: DrawingSetup) -> Fraction:
    """How long a rod's parts are: seams part it about evenly, with what overlaps on a sheet."""
    whole, sheet = long + 2 * MARGIN, max(setup.sheet)
    return whole if whole <= sheet else whole / ceil(whole / (sheet * SHARE))


def _read(rod: Rod, long: Fraction, setup: DrawingSetup) -> Figure:
    """What it is and what to do with it, row by row, at its start and on one sheet."""
    room, part = min(long, WORDS_ROOM), _part(long, setup)
    if part < long:
        room = min(max(setup.sheet) * 3 / 5, part * SHARE - MARGIN)
    start, title = f"◄ {rod.start}", f"Rod for {_what(rod)} · {JOB}"
    row, before = (
        setup.lettering.width(words, BODY, bold=True)
        for words in (f"{start}   {title}", f"{start}   ")
    )
    room -= 2 * WITHIN
    bold = (start,) if row <= room else (start, title)
    said = (
        *(Paragraph(one, BODY, bold=True) for one in bold),
        Paragraph(_told(rod, setup.units), BODY),
    )
    figure = column(said, room, setup.lettering)
    # On another part the arrow would point at the seam.
    texts = [replace(one, stays=one.paragraph == start) for one in figure.texts]
    if title not in bold:
        (x, y) = texts[0].at
        beside = replace(texts[0], words=title, at=(x + before, y), paragraph=title, stays=False)
        texts.insert(1, beside)
    return replace(figure, texts=tuple(texts))


def _told(rod: Rod, units: Units) -> str:
    """What to do with it."""
    arrow, on = "the arrow at the end that it names", "the marks on it"
    lay = f"a long edge along an arris of the board, {arrow}"
    in_columns = " and the ".join(rod.sides) if len(rod.sides) == 2 and not rod.at_words else ""
    if in_columns:
        lay = (
            f"the long edge beside the two columns along the arris that the {in_columns} share, "
            + arrow
        )
        on = "each mark on the face that its column names"
    if rod.at_words:
        lay = (
            f"it on the outside face, {arrow}: first its reference edge on that arris of the "
            "board, then, slid over, its far edge on the other"
        )
        on = "its marks there"
    told = (
        f"{told_text(rod.length, units)} long; figures in {UNIT_WORDS[units]} from the arrow. Lay "
        f"{lay}, and pencil {on}: that is where templates and boards go. Knife nothing from the "
        "rod."
    )
    if in_columns:
        told += (
            " The line along it parts the two columns; the ticks at that long edge carry their "
            "marks out to the arris."
        )
    if len(rod.pieces) > 1:
        told += (
            " These pieces have the same marks: clamp them together, the ends at the arrow level, "
            "and mark all at once."
        )
    if rod.breaks:
        told += (
            " Between zigzag lines it is drawn shorter than it is: set out by the figures, and lay "
            "each part on by one of its marks."
        )
    return told


def _said(band: Band, units: Units) -> str:
    """A joint, from where to where, on which face, and how deep."""
    places = dict.fromkeys(bare_figure(at, units) for at in (band.low, band.high))
    return f"{band.joint} · {' to '.join(places)} · {band.words}"


def _named(
    rod: Rod, side: _Side, foot: Fraction, setup: DrawingSetup, ground: Ground
) -> Sequence[Text]:
    """What a side is called, in its lane: behind any joint's waste, else where there is room."""
    if side is None:
        return ()
    taken = _taken(rod, side, True, False)
    long, wide = rod.drawn_at(rod.length), Fraction(setup.lettering.width(side, BODY))

    def placed(starts: Sequence[Fraction]) -> tuple[Text, ...]:
        return ground.placed(
            Text(str(side), (MARGIN + x, foot + (LANE - BODY) / 2), BODY)
            for x in starts
            if x + wide < long and all(end < x or x + wide < low for low, end in taken)
        )

    ends = {rod.drawn_at(band.high): None for band in rod.bands if band.stops is not None}
    behind: list[Text] = []
    for end in sorted(ends):
        if behind and MARGIN + end < behind[-1].at[0] + wide + REACH:
            continue  # the name before it serves as well
        behind += placed(outwards(end + 2, end + 2, end + REACH))
    return behind or placed(outwards(long / 2, WITHIN, long - wide))


def _in_order(spans: Sequence[_Span]) -> list[int]:
    """A row for each of some stretches, above all later ones that it overlaps: read downwards."""
    rows: list[int] = []
    for number, (low, high) in reversed([*enumerate(spans)]):
        later = zip(reversed(rows), spans[number + 1 :], strict=True)
        over = (row for row, (start, end) in later if start < high and low < end)
        rows.append(max(over, default=-1) + 1)
    return rows[::-1]


def _lowest(spans: Sequence[_Span]) -> list[int]:
    """A row for each of some stretches, as low as can be, so that none overlap on one row."""
    ends: list[Fraction] = []
    rows = [0] * len(spans)
    for number in sorted(range(len(spans)), key=lambda one: spans[one]):
        low, high = spans[number]
        row = next((at for at, end in enumerate(ends) if end <= low), len(ends))
        ends[row : row + 1] = [high]
        rows[number] = row
    return rows


def _break(x: Fraction, low: Fraction, high: Fraction) -> Iterator[Stroke]:
    """Two zigzag lines across an edge of the rod."""
    third = (high - low) / 3
    heights = (low, low + third, low + 2 * third, high)
    asides = (Fraction(0), Fraction(1), Fraction(-1), Fraction(0))
    for left in (x, x + GAP):
        points = [(left + aside, y) for aside, y in zip(asides, heights, strict=True)]
        yield from (Stroke(Role.DIMENSION, one, other) for one, other in pairwise(points))
