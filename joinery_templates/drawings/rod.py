r"""The rod: a board's whole length full size, with every joint that stands on it at its place.

::

    +---+---------+------------------------------+---------+---+
    |   |/ / / / /|                              |/ / / / /|   |
    +---+---------+------------------------------+---------+---+
    start                                            the length
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import chain, pairwise
from math import ceil

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import Figure, Pattern, Role, Stroke, Text, box, line
from joinery_templates.drawings.fingerprint import JOB
from joinery_templates.drawings.labels import named_together
from joinery_templates.drawings.lettering import LINE_PITCH, wrapped
from joinery_templates.drawings.look import BODY
from joinery_templates.drawings.placing import Ground
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.strip import UNIT_WORDS, bare_figure
from joinery_templates.drawings.waste import hatched
from joinery_templates.lengths import Units, told_text
from joinery_templates.wood.board import Board, Face

ROW = BODY * LINE_PITCH
MARGIN = Fraction(7)
"""Paper round it: a line that checks the taping has room there."""
TICK = Fraction(5)
"""How long a mark is, from either edge inwards."""
LANE = Fraction(7)
"""How high the waste of one joint is drawn."""
KEPT = Fraction(25)
"""Of a stretch without marks so much is drawn at both ends, where the rod is broken."""
GAP = Fraction(4)
"""Between the two lines of a break."""
WITHIN = Fraction(1)
"""Words keep so far from the rod's ends."""
WORDS_ROOM = Fraction(180)
"""What is read stands at the rod's start, on one sheet."""
SHARE = Fraction(9, 10)
"""Of a sheet so much is free of what overlaps, and of the part before a seam so much is clear."""


class Band(Struct, frozen=True):
    """A stretch of the length where a joint takes wood, or a line that is squared for it.

    Attributes:
        low: where it begins, from the rod's start.
        high: where it ends; a line has no length.
        joint: what the person calls the joint.
        words: on which face and how deep, or which line.
        stops: whether wood is left behind it.
        edge: the edge of the board that its places hold for, where they differ.
        face: where it is seen; of a line, on a leg alone, the one that its joint comes to.
    """

    low: Fraction
    high: Fraction
    joint: str
    words: str
    stops: bool
    edge: Face | None = None
    face: Face | None = None


class Rod(Struct, frozen=True):
    """What stands along a board.

    Attributes:
        board: the board, its length told.
        pieces: which pieces of that name it serves, each by its corners.
        start: the end that it is measured from.
        bands: what the joints take.
        broken: whether empty stretches are drawn shorter than they are.
        faces: of a leg, those that joints come to: each has lanes of its own, side by side.
        at_words: the edge of the board that the words come at, on its outside face with the start
            at the left; told where places differ from edge to edge.
    """

    board: Board
    pieces: tuple[str, ...]
    start: str
    bands: tuple[Band, ...]
    broken: bool = False
    faces: tuple[Face, ...] = ()
    at_words: Face = Face.FAR_EDGE

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

    def faces_of(self, at: Fraction) -> set[Face | None]:
        """The faces that a mark is for."""
        return {one.face for one in self.bands if at in (one.low, one.high)}

    def is_marked(self, at: Fraction, at_words: bool) -> bool:
        """Whether a mark holds for the edge of the board at the words, or for the other one."""
        return any(
            at in (one.low, one.high) and (one.edge is None or self.is_at_words(one) == at_words)
            for one in self.bands
        )

    def is_at_words(self, band: Band) -> bool:
        """Whether a band's places hold for the edge at the words alone."""
        return band.edge is self.at_words

    @property
    def breaks(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """The stretches that are left out, none where it is drawn whole."""
        stops = (Fraction(0), *self.marks, self.length)
        inside = ((low + KEPT, high - KEPT) for low, high in pairwise(stops))
        taken = [(band.low, band.high) for band in self.bands]
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
    drawn = [(rod.drawn_at(band.low), rod.drawn_at(band.high)) for band in rod.bands]
    lanes, named = _lanes(rod, drawn)
    above = [lane for band, lane in zip(rod.bands, lanes, strict=True) if rod.is_at_words(band)]
    below = [lane for band, lane in zip(rod.bands, lanes, strict=True) if not rod.is_at_words(band)]
    figures_from = MARGIN + TICK + (max(below, default=0) + 1) * LANE + 1
    numbers, rows = _centred(_figures(rod, setup.units, False), long, setup)
    others, rows_above = _centred(_figures(rod, setup.units, True), long, setup)
    words_from = figures_from + (rows + Fraction(1, 2)) * ROW
    said = [
        ((low + high) / 2, row, words)
        for band, (low, high) in zip(rod.bands, drawn, strict=True)
        for words in (_said(band, setup.units),)
        for row in reversed(wrapped(words, long - 2 * WITHIN, BODY, setup.lettering))
    ]
    told, more = _centred([(middle, row) for middle, row, _ in said], long, setup)
    read = _read(rod, long, setup)
    read_from = words_from + more * ROW
    # What holds for the edge at the words alone stands along it.
    figures_to = read_from + (len(read) + Fraction(1, 2)) * ROW
    marks_from = figures_to + rows_above * ROW
    high = marks_from + (max(above, default=-1) + 1) * LANE + TICK

    strokes = [*box(Role.OUTLINE, MARGIN, MARGIN, MARGIN + long, high)]
    for at in rod.marks:
        x = MARGIN + rod.drawn_at(at)
        if len(rod.faces) == 2:
            strokes += _in_columns(rod, at, named[1][1], figures_from - 1)
            continue
        if rod.is_marked(at, at_words=False):
            strokes.append(line(Role.MARK, x, MARGIN, x, figures_from - 1))
        if rod.is_marked(at, at_words=True):
            strokes.append(line(Role.MARK, x, marks_from, x, high))
    for low, _ in rod.breaks:
        x = MARGIN + rod.drawn_at(low)
        strokes += (*_break(x, MARGIN, figures_from - 1), *_break(x, marks_from, high))
    for band, (low, end), lane in zip(rod.bands, drawn, lanes, strict=True):
        bottom = MARGIN + TICK + lane * LANE
        if rod.is_at_words(band):
            bottom = marks_from + lane * LANE
        corners = ((low, bottom), (end, bottom), (end, bottom + LANE), (low, bottom + LANE))
        if low < end:
            strokes += hatched(tuple((MARGIN + x, y) for x, y in corners), band.stops)

    for lane in sorted({lane for _, lane in named} - {0}):
        y = MARGIN + TICK + lane * LANE
        strokes.append(line(Role.DIMENSION, MARGIN, y, MARGIN + long, y))
    texts = [replace(one, at=(one.at[0], one.at[1] + figures_from), stays=True) for one in numbers]
    texts += (replace(one, at=(one.at[0], one.at[1] + figures_to), stays=True) for one in others)
    ground = Ground(setup.lettering, strokes)
    for face, lane in named:
        texts += _face_name(rod, face, lane, setup, ground)
    texts += (
        replace(one, at=(one.at[0], one.at[1] + words_from), paragraph=whole)
        for one, (*_, whole) in zip(told, said, strict=True)
    )
    texts += (
        replace(one, at=(MARGIN + WITHIN, figures_to - ROW * number))
        for number, one in enumerate(read, 1)
    )
    figure = Figure(long + 2 * MARGIN, high + MARGIN, tuple(strokes), tuple(texts))
    return Pattern(_what(rod), group, (figure,), short=rod.board.called)


def _figures(rod: Rod, units: Units, at_words: bool) -> list[tuple[Fraction, str]]:
    """The marks' figures and where they are drawn, at the edge at the words or at the other one."""
    return [
        (rod.drawn_at(at), bare_figure(at, units))
        for at in rod.marks
        if rod.is_marked(at, at_words=False) is not at_words
    ]


def _in_columns(rod: Rod, at: Fraction, second: int, top: Fraction) -> Iterator[Stroke]:
    """A mark for one of two faces, or both: at the rod's edge, and in the columns of its faces.

    Args:
        rod: what stands along the board.
        at: where the mark is.
        second: the first lane of the second face.
        top: where marks end.
    """
    x, low, middle = MARGIN + rod.drawn_at(at), MARGIN + TICK, MARGIN + TICK + second * LANE
    held = [face in rod.faces_of(at) for face in rod.faces]
    yield line(Role.MARK, x, MARGIN, x, low)
    if held[0]:
        yield line(Role.MARK, x, low, x, middle)
    if held[1]:
        yield line(Role.MARK, x, middle, x, top)


def _what(rod: Rod) -> str:
    """The board, and the pieces of that name; a comma stands between corners of one piece."""
    one_each = all(piece.startswith("Corner ") and ", " not in piece for piece in rod.pieces)
    pieces = named_together(rod.pieces) if one_each else " and ".join(rod.pieces)
    return f"{rod.board.called} · {pieces}"


def _centred(
    words: Sequence[tuple[Fraction, str]], long: Fraction, setup: DrawingSetup
) -> tuple[list[Text], int]:
    """Words over their places, in as many rows as they need: the words, and how many rows.

    They stand within the rod; the lowest row's baseline is at 0.
    """
    widths = [Fraction(setup.lettering.width(said, BODY)) for _, said in words]
    lefts = [
        max(WITHIN, min(at - wide / 2, long - wide - WITHIN))
        for (at, _), wide in zip(words, widths, strict=True)
    ]
    rows = _apart([(x - 1, x + wide + 1) for x, wide in zip(lefts, widths, strict=True)])
    texts = [
        Text(said, (MARGIN + x, row * ROW), BODY)
        for (_, said), x, row in zip(words, lefts, rows, strict=True)
    ]
    return texts, max(rows, default=-1) + 1


def _read(rod: Rod, long: Fraction, setup: DrawingSetup) -> list[Text]:
    """What it is and what to do with it, row by row, at its start and on one sheet."""
    whole, sheet = long + 2 * MARGIN, max(setup.sheet)
    room = min(long, WORDS_ROOM)
    if whole > sheet:
        # Seams that will cut it part it about evenly, at most a sheet less what overlaps each time.
        count = ceil(whole / (sheet * SHARE))
        room = min(sheet * 3 / 5, whole / count * SHARE - MARGIN)
    room -= 2 * WITHIN
    paragraphs = (
        (f"◄ {rod.start}   Rod for {_what(rod)} · {JOB}", True),
        (_told(rod, setup.units), False),
    )
    return [
        Text(row, (WITHIN, Fraction(0)), BODY, bold=bold, paragraph=paragraph)
        for paragraph, bold in paragraphs
        for row in wrapped(paragraph, room, BODY, setup.lettering, bold=True)
    ]


def _told(rod: Rod, units: Units) -> str:
    """What to do with it."""
    lay, on = "a long edge along an arris of the board, the arrow at that end", "the marks on it"
    if len(rod.faces) == 2:
        both = " and the ".join(rod.faces)
        lay = (
            f"the long edge beside the two columns along the arris that the {both} share, the "
            "arrow at that end"
        )
        on = "the marks on the face in whose column they stand"
    if any(band.edge for band in rod.bands):
        lay = f"it on the outside face, the arrow at that end and these words at the {rod.at_words}"
        on = "the marks of each long edge on the arris at its side"
    told = (
        f"{told_text(rod.length, units)} long; figures in {UNIT_WORDS[units]} from the arrow. Lay "
        f"{lay}, and pencil {on}: that is where templates and boards go. Knife nothing from the "
        "rod."
    )
    if len(rod.faces) == 2:
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


def _lanes(
    rod: Rod, drawn: Sequence[tuple[Fraction, Fraction]]
) -> tuple[list[int], list[tuple[Face, int]]]:
    """A lane for the waste of each joint, and the first lane of each face that has its own."""
    if not rod.faces:
        lane_of: dict[int, int] = {}
        for at_words in (False, True):
            some = [n for n, band in enumerate(rod.bands) if rod.is_at_words(band) is at_words]
            lane_of |= zip(some, _apart([drawn[number] for number in some]), strict=True)
        return [lane_of[number] for number in range(len(drawn))], []
    lanes, named, first = [0] * len(drawn), [], 0
    for face in rod.faces:
        own = [number for number, band in enumerate(rod.bands) if band.face is face]
        apart = _apart([drawn[number] for number in own])
        for number, lane in zip(own, apart, strict=True):
            lanes[number] = first + lane
        named.append((face, first))
        first += max(apart) + 1
    return lanes, named


def _face_name(
    rod: Rod, face: Face, lane: int, setup: DrawingSetup, ground: Ground
) -> tuple[Text, ...]:
    """What a face is called, in its lane: behind each joint's waste, where there is room."""
    taken = [
        (rod.drawn_at(band.low), rod.drawn_at(band.high)) for band in rod.bands if band.face is face
    ]
    long, wide = rod.drawn_at(rod.length), Fraction(setup.lettering.width(face, BODY))
    y = MARGIN + TICK + lane * LANE + (LANE - BODY) / 2
    return tuple(
        text
        for x in (end + 2 for _, end in taken)
        if x + wide < long and all(end < x or x + wide < low for low, end in taken)
        for text in ground.placed([Text(face, (MARGIN + x, y), BODY)])
    )


def _apart(spans: Sequence[tuple[Fraction, Fraction]]) -> list[int]:
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
