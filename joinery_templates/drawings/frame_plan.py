"""A flat frame seen from the front, to proportion: how its boards run, and which joint is where.

A corner is laid out once, from its outer edges on: along the first board (u) and along the second
(v). The other corners are its mirror images.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import chain, pairwise

from msgspec import Struct

from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text
from joinery_templates.drawings.lettering import LINE_PITCH, Lettering, text_corners, wrapped
from joinery_templates.drawings.look import BODY, HEADING
from joinery_templates.drawings.placing import Ground
from joinery_templates.drawings.plan import GAP, Meeting, Sketched, with_corners
from joinery_templates.drawings.waste_words import MIDDLE, rows_about
from joinery_templates.joint import Placed
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import laid_out
from joinery_templates.wood.placement import Placement

WIDEST, HIGHEST = Fraction(50), Fraction(40)
NAME = Fraction(26)
"""Room for a corner's name beside the frame; a longer one takes several lines."""
STUB = 2
"""A board of which nobody says where it ends is shown so many widths past the joint."""
USUAL = 8
"""A board of which nobody says how long it is, is shown as long as so many widths."""
ROW, AIR = BODY * LINE_PITCH, Fraction(1, 2)

_LEVEL = {"A": "top left", "B": "top right", "C": "bottom right", "D": "bottom left"}
_UPRIGHT = {"A": "bottom left", "B": "top left", "C": "top right", "D": "bottom right"}
"""Where corners are: clockwise, from where the first board lies level, or stands upright."""
_OTHER_ENDS = dict(zip("ABCD", "BADC", strict=True)), dict(zip("ABCD", "DCBA", strict=True))
"""For the first and for the second board: from each corner the one at the board's other end."""

Span = tuple[Point, Point]
Ring = tuple[Point, ...]


def lies_flat(placement: Placement) -> bool:
    """Whether two boards lie in one plane, square to each other, outside faces to one side."""
    along, _, through = placement.rows
    return not along[0] and not along[2] and through[2] == 1


def frame_plan(corners: Sequence[Meeting], room: Fraction, lettering: Lettering) -> Sketched:
    """The frame from the front, and a line for each corner.

    Args:
        corners: that lie flat, no two at the same letter.
        room: width that the sketch may have.
        lettering: how wide words run.
    """
    frame = _Frame(corners, lettering)
    way = "inwards" if frame.is_level else "outwards"
    told = f"Seen from the front, outside faces towards you, reference edges {way}."
    if not frame.has_lengths:
        told += " Not to proportion: not all lengths are given."
    return with_corners(frame.figure(room), told, corners, frame.places)


class _Run(Struct, frozen=True):
    """A board that runs past a corner: its own places as u and v.

    Attributes:
        placed: the board.
        is_first: whether u is along it, else v.
        zero: how far along its y = 0 lies.
        side: how far across its reference edge lies.
        sign: whether its x runs with that, or against it.
    """

    placed: Placed
    is_first: bool
    zero: Fraction
    side: Fraction
    sign: Fraction

    @property
    def sides(self) -> tuple[Fraction, Fraction]:
        """How far across its edges lie, the outer one first."""
        other = self.side + self.sign * self.placed.board.width
        return min(self.side, other), max(self.side, other)

    def at(self, along: Fraction, across: Fraction) -> Point:
        """A place as u and v."""
        return (along, across) if self.is_first else (across, along)

    def point(self, on_face: Point) -> Point:
        """A point of its outside face as u and v."""
        x, y = on_face
        return self.at(self.zero + y, self.side + self.sign * x)


def _runs_of(one: Meeting) -> tuple[_Run, _Run]:
    """Both boards of a corner."""
    (_, way, _), (turn, _, _), _ = one.placement.rows
    x, y, _ = one.placement.shift
    # Across the first board is counted from the edge that the second one runs away from last.
    outer = Fraction(0) if way > 0 else one.first.board.width
    first = _Run(one.first, True, Fraction(0), outer, way)
    return first, _Run(one.second, False, outer + way * x, y, turn)


class _Bar(Struct, frozen=True):
    """A board's outside face as far as it is shown, in u and v.

    Attributes:
        edges: its own, and where it ends.
        ring: its corners.
        worked: the joint's lines on it.
        waste: what leaves it.
    """

    edges: tuple[Span, ...]
    ring: Ring
    worked: tuple[Span, ...]
    waste: tuple[Ring, ...]

    def is_gone(self, point: Point) -> bool:
        """Whether its waste takes a point, the rim of the waste among it."""
        return any(_holds(ring, point, with_rim=True) for ring in self.waste)

    def covers(self, point: Point) -> bool:
        """Whether its wood lies over a point."""
        return _holds(self.ring, point, with_rim=False) and not self.is_gone(point)


class _Frame:
    """Where everything of a frame stands; lengths are the wood's until it is drawn."""

    def __init__(self, corners: Sequence[Meeting], lettering: Lettering) -> None:
        self._corners = {one.letter: one for one in corners}
        self._runs = {one.letter: _runs_of(one) for one in corners}
        self._lettering = lettering
        # Reference edges face into the frame where the second board runs away from the first's.
        self.is_level = corners[0].placement.rows[0][1] < 0
        self.places = _LEVEL if self.is_level else _UPRIGHT
        if {"A", "B"} >= {*self._corners}:  # there is no corner above or below
            self.places = {letter: place.split()[-1] for letter, place in self.places.items()}
        first, second = (self._extent(of) for of in (0, 1))
        self.has_lengths = first is not None and second is not None
        boards = [run.placed.board for runs in self._runs.values() for run in runs]
        unknown = USUAL * max(board.width for board in boards)
        self._extents = first or unknown, second or unknown

    def _mate(self, letter: str, run: _Run) -> str | None:
        """The corner at a board's other end, where that has a joint."""
        other = _OTHER_ENDS[not run.is_first][letter]
        return other if other in self._runs else None

    def _extent(self, of: int) -> Fraction | None:
        """From corner to corner, as the first board tells that has a length; 0 without a pair."""
        runs = [(runs[of], self._mate(letter, runs[of])) for letter, runs in self._runs.items()]
        for run, mate in runs:
            if mate and run.placed.board.length:
                ends = run, self._runs[mate][of]
                return run.placed.board.length - sum(
                    (one.placed.place.along or 0) - one.zero for one in ends
                )
        return None if any(mate for _, mate in runs) else Fraction(0)

    def figure(self, room: Fraction) -> Figure:
        """The sketch with its words, within so much room from side to side."""
        spans = [
            (self._on_paper(letter, start), self._on_paper(letter, end))
            for letter in self._runs
            for start, end in self._seen(letter)
        ]
        xs, ys = zip(*(end for span in spans for end in span), strict=True)
        rows = chain.from_iterable(map(self._name, self._corners))
        beside = GAP + max(self._lettering.width(row, HEADING, bold=True) for row in rows)
        wide = min(WIDEST, room - 2 * beside)
        scale = min(wide / (max(xs) - min(xs)), HIGHEST / (max(ys) - min(ys)))
        strokes = tuple(
            Stroke(Role.FRAME, *((x * scale, y * scale) for x, y in span)) for span in spans
        )
        texts = list(self._corner_names(scale, min(xs) * scale, max(xs) * scale))
        texts += self._board_names(scale, Ground(self._lettering, strokes, texts))
        points = [end for stroke in strokes for end in (stroke.start, stroke.end)]
        points += [corner for text in texts for corner in text_corners(text, self._lettering)]
        left, low = (min(point[axis] for point in points) for axis in (0, 1))
        right, top = (max(point[axis] for point in points) for axis in (0, 1))
        drawn = Figure(right - left, top - low, strokes, tuple(texts))
        return drawn.moved(-left, -low)

    def _on_paper(self, letter: str, point: Point) -> Point:
        u, v = point
        first, second = self._extents
        u, v = first - u if letter in "BC" else u, second - v if letter in "CD" else v
        return (u, -v) if self.is_level else (v, u)

    def _seen(self, letter: str) -> Iterator[Span]:
        """The lines of a corner, as far as neither waste nor the other board hides them."""
        first, second = self._runs[letter]
        bars = self._bar(letter, first, second), self._bar(letter, second, first)
        rings = [ring for bar in bars for ring in (bar.ring, *bar.waste)]
        for bar, other in (bars, bars[::-1]):
            for span in (*bar.edges, *bar.worked):
                for start, end in _broken(span, rings):
                    middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
                    is_gone = span in bar.edges and bar.is_gone(middle)
                    if not (is_gone or other.covers(middle)):
                        yield start, end

    def _bar(self, letter: str, run: _Run, other: _Run) -> _Bar:
        """A board from its end to half way to the next corner, or as far as is known of it."""
        mate, along = self._mate(letter, run), run.placed.place.along
        board, layout = run.placed.board, laid_out(run.placed.member.part, Face.OUTSIDE)
        has_ends = [along is not None or mate is not None, False]
        low, high = (
            side + way * STUB * board.width for side, way in zip(other.sides, (-1, 1), strict=True)
        )
        if has_ends[0]:
            low = run.zero - (along or 0)
        if mate:
            high = self._extents[not run.is_first] / 2
        elif board.length and has_ends[0]:
            high, has_ends[1] = low + board.length, True
        outer, inner = run.sides
        ring = tuple(
            run.at(*at) for at in ((low, outer), (low, inner), (high, inner), (high, outer))
        )
        start, inside, end, outside = pairwise((*ring, ring[0]))
        ends = (one for one, is_known in zip((start, end), has_ends, strict=True) if is_known)
        waste = (shape for shape in layout.waste if not shape.is_groove)
        return _Bar(
            (inside, outside, *ends),
            ring,
            tuple(
                (run.point(edge.start), run.point(edge.end))
                for edge in layout.lines
                if edge.surface
            ),
            tuple(tuple(map(run.point, shape.corners)) for shape in waste),
        )

    def _name(self, letter: str) -> tuple[str, ...]:
        """What a corner is called, in as many rows as it takes."""
        corner = self._corners[letter].first.corner
        words = corner.letter or corner.name
        return wrapped(words, NAME, HEADING, self._lettering, bold=True)

    def _corner_names(self, scale: Fraction, left: Fraction, right: Fraction) -> Iterator[Text]:
        """What corners are called, beside the frame."""
        for letter in self._corners:
            first, second = self._runs[letter]
            sides = zip(first.sides, second.sides, strict=True)
            v, u = ((low + high) / 2 for low, high in zip(*sides, strict=True))
            _, y = self._on_paper(letter, (u, v))
            is_right = "right" in self.places[letter]
            x, align = (right + GAP, Align.LEFT) if is_right else (left - GAP, Align.RIGHT)
            rows = self._name(letter)
            top = y * scale + ((len(rows) - 1) * LINE_PITCH / 2 - MIDDLE) * HEADING
            for number, row in enumerate(rows):
                at = (x, top - number * LINE_PITCH * HEADING)
                yield Text(row, at, HEADING, align, bold=True)

    def _board_names(self, scale: Fraction, ground: Ground) -> Iterator[Text]:
        """Each board's name on it, within the frame beside it, or outside."""
        for letter, runs in self._runs.items():
            for run, other in (runs, runs[::-1]):
                mate, name = self._mate(letter, run), run.placed.board.called
                past = (self._lettering.width(name, BODY) / 2 + GAP) / scale
                outer, inner = other.sides
                places = [inner + past, outer - past]
                if mate:
                    places = [self._extents[not run.is_first] / 2] if letter < mate else []
                ways = (self._ways(letter, run, along, scale) for along in places)
                yield from ground.placed_together(chain.from_iterable(ways))

    def _ways(
        self, letter: str, run: _Run, along: Fraction, scale: Fraction
    ) -> Iterator[tuple[Text, ...]]:
        """Ways to write a board's name so far along it, in rows where it must be."""
        name, (outer, inner) = run.placed.board.called, run.sides
        turn = 0 if run.is_first == self.is_level else 90
        for rows in dict.fromkeys(((name,), tuple(name.split()))):
            beside = (len(rows) * ROW / 2 + AIR) / scale
            for across in ((outer + inner) / 2, inner + beside, outer - beside):
                x, y = self._on_paper(letter, run.at(along, across))
                yield rows_about((x * scale, y * scale), rows, turn)


def _broken(span: Span, rings: Sequence[Ring]) -> Iterator[Span]:
    """A line broken wherever the sides of some shapes cross it."""
    (x, y), (x1, y1) = span
    shares = {Fraction(0), Fraction(1)}
    for ring in rings:
        for start, end in pairwise((*ring, ring[0])):
            one, other = (_left_of(start, end, point) for point in span)
            if one * other < 0:
                shares.add(one / (one - other))
    points = [(x + share * (x1 - x), y + share * (y1 - y)) for share in sorted(shares)]
    return pairwise(points)


def _holds(ring: Ring, point: Point, with_rim: bool) -> bool:
    """Whether a convex shape holds a point, whichever way round its corners go."""
    sides = [_left_of(start, end, point) for start, end in pairwise((*ring, ring[0]))]
    if with_rim:
        return min(sides) >= 0 or max(sides) <= 0
    return min(sides) > 0 or max(sides) < 0


def _left_of(start: Point, end: Point, point: Point) -> Fraction:
    return (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])
