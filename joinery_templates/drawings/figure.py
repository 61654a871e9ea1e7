"""Strokes and words in a box: all that a sheet can carry.

A stroke carries a role, never a pen or a colour. Coordinates are exact
millimetres from the box's lower left corner, y up.
"""

from bisect import bisect
from collections.abc import Callable, Iterable, Iterator, Sequence
from enum import StrEnum
from functools import lru_cache
from itertools import accumulate, chain, pairwise
from math import cos, pi, sin
from numbers import Rational

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.exact import Fraction, exactly

Point = tuple[Fraction, Fraction]


ROUND = 24
"""Sides of a circle."""


class Role(StrEnum):
    """What a stroke is on the wood or on the paper."""

    SAW = "sawn line"
    KNIFE = "knifed line"
    GUIDE = "line carried across, not cut"
    GROOVE = "groove or rebate along the board"
    HOLE = "edge of a hole that is bored"
    KERF = "far side of the saw cut"
    MARK = "setting-out mark"
    SETTING = "setting of a tool"
    OUTLINE = "edge of the board"
    FOLD = "fold line"
    TRIM = "trim the paper here"
    HATCH = "waste that goes right through"
    OPEN_HATCH = "waste that stops"
    CROSS = "waste cross"
    PRICK = "prick point"
    DIMENSION = "dimension"
    RULER = "ruler"
    TICK = "graduation"
    FRAME = "frame"
    SEAM = "seam between two sheets"
    MATCH = "match mark"
    CONTOUR = "contour of a picture"
    INNER = "edge in a picture"
    THIN = "thin line in a picture"
    DOT = "end of a pointer in a picture"

    __hash__ = str.__hash__  # an enumeration's own is slow, and every stroke is looked up by it


LAYOUT_ROLES = frozenset(
    {Role.SAW, Role.KNIFE, Role.GROOVE, Role.HOLE, Role.MARK, Role.SETTING, Role.PRICK}
)
"""Roles that a tool follows; a seam keeps away from them."""
HATCHES = frozenset({Role.HATCH, Role.OPEN_HATCH})


class Align(StrEnum):
    """Which point of the words stands at `Text.at`, along the baseline."""

    LEFT = "left"
    CENTRE = "centre"
    RIGHT = "right"


class Stroke(Struct, frozen=True):
    """A straight line from start to end."""

    role: Role
    start: Point
    end: Point


DIRECTION = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}
"""How far along and up words run that have each of the turns: its cosine and sine."""


FIRST_PLACE = "\U00100000"
"""A sign that no person types. It, and each after it, is a place's own: the `part` of the words
there; in other words it stands for the number of the sheet that has the place, until the pages
are known."""


class Text(Struct, frozen=True):
    """Words on one line.

    Attributes:
        words: what to print.
        at: where the baseline of the lettering starts, is centred, or ends.
        cap: height of a capital letter.
        align: see `Align`.
        turn: turned anticlockwise by 0, 90, 180 or 270 degrees about `at`.
        bold: heavier letters.
        opaque: on a white ground that hides what lies below.
        part: words of one part belong together, such as one copy of a label.
        paragraph: all that is said in several rows, of which this is one: half of it may
            say something else.
        stays: it names what it stands beside, and is not moved away from there; a paragraph
            that names the board it stands on is moved along that alone.
        leeway: from how far to how far it may be moved to the right, and up, and still stands in
            what it tells of; None where it may be anywhere.
        over: how far to the right of `at` what it tells of begins and ends; it stays on a sheet
            that shows some of that.
        either_way: it points nowhere: on a sheet that would show it upside down it is turned round.
    """

    words: str
    at: Point
    cap: Fraction
    align: Align = Align.LEFT
    turn: int = 0
    bold: bool = False
    opaque: bool = False
    part: str = ""
    paragraph: str = ""
    stays: bool = False
    leeway: tuple[Point, Point] | None = None
    over: Point | None = None
    either_way: bool = False

    def moved(self, dx: Fraction, dy: Fraction) -> "Text":
        """The same, shifted."""
        return replace(self, at=(self.at[0] + dx, self.at[1] + dy))

    def may_move(self, dx: Fraction, dy: Fraction) -> bool:
        """Whether it still stands in what it tells of when it is shifted."""
        return all(
            low <= by <= high for by, (low, high) in zip((dx, dy), self.leeway or (), strict=False)
        )


class Figure(Struct, frozen=True):
    """A drawing in a box from (0, 0) to (width, height)."""

    width: Fraction
    height: Fraction
    strokes: tuple[Stroke, ...] = ()
    texts: tuple[Text, ...] = ()

    def moved(self, dx: Fraction, dy: Fraction) -> "Figure":
        """The contents shifted within the same box."""
        if not dx and not dy:
            return self

        def to(point: Point) -> Point:
            return (point[0] + dx, point[1] + dy)

        return replace(
            self,
            strokes=tuple(Stroke(one.role, to(one.start), to(one.end)) for one in self.strokes),
            texts=tuple(replace(text, at=to(text.at)) for text in self.texts),
        )

    def as_part(self, name: str) -> "Figure":
        """The same, its words told to belong together."""
        return replace(self, texts=tuple(replace(text, part=name) for text in self.texts))

    def turned(self) -> "Figure":
        """The box with its contents turned by a quarter turn anticlockwise."""

        def to(point: Point) -> Point:
            return (self.height - point[1], point[0])

        return Figure(
            self.height,
            self.width,
            tuple(Stroke(s.role, to(s.start), to(s.end)) for s in self.strokes),
            tuple(replace(t, at=to(t.at), turn=(t.turn + 90) % 360) for t in self.texts),
        )


class Pattern(Struct, frozen=True):
    """A drawing to be printed full size and used.

    Attributes:
        title: what it is, in words, for the list of pages.
        group: what it belongs to, such as a corner: kept together and bookmarked.
        layers: figures of one box, drawn over each other; the lines come first and
            are shared by every pattern with the same lines.
        seams: places across the box where the person wants it cut, should it not fit
            on one sheet.
        short: which board it is for, or what it is, in a word or two.
    """

    title: str
    group: str
    layers: tuple[Figure, ...]
    seams: tuple[Fraction, ...] = ()
    short: str = ""

    @property
    def width(self) -> Fraction:
        """Width of the box."""
        return self.layers[0].width

    @property
    def height(self) -> Fraction:
        """Height of the box."""
        return self.layers[0].height

    @property
    def strokes(self) -> tuple[Stroke, ...]:
        """All strokes of all layers."""
        return tuple(stroke for layer in self.layers for stroke in layer.strokes)


def line(role: Role, x0: object, y0: object, x1: object, y1: object) -> Stroke:
    """A stroke from plain numbers."""
    return Stroke(role, (_exact(x0), _exact(y0)), (_exact(x1), _exact(y1)))


def box(role: Role, x0: object, y0: object, x1: object, y1: object) -> tuple[Stroke, ...]:
    """The four sides of an upright rectangle."""
    left, low, right, high = map(_exact, (x0, y0, x1, y1))
    return tuple(closed(role, ((left, low), (right, low), (right, high), (left, high))))


def closed(role: Role, corners: Sequence[Point]) -> Iterator[Stroke]:
    """Lines from corner to corner, and back to the first."""
    return (Stroke(role, *ends) for ends in pairwise((*corners, corners[0])))


def cross(role: Role, at: Point, arm: Fraction) -> tuple[Stroke, ...]:
    """A diagonal cross: arms reach `arm` sideways and up from the point."""
    (left, right), (low, high) = ((middle - arm, middle + arm) for middle in at)
    return Stroke(role, (left, low), (right, high)), Stroke(role, (left, high), (right, low))


@lru_cache(maxsize=16)
def _hexagon(radius: Fraction) -> tuple[Fraction, Fraction, Fraction]:
    """Half the width of a ring's level sides, half its height, and how far its dot reaches."""
    return radius / 2, radius * 7 / 8, radius / 4


def ring(role: Role, at: Point, radius: Fraction) -> Iterator[Stroke]:
    """A small ring; six sides pass for round."""
    x, y = at
    half, high, _ = _hexagon(radius)
    left, right, top, low = x - half, x + half, y + high, y - high
    corners = (x + radius, y), (right, top), (left, top), (x - radius, y), (left, low), (right, low)
    return closed(role, corners)


def circle(role: Role, at: Point, radius: Fraction) -> Iterator[Stroke]:
    """A ring large enough to be seen as round, in as many sides as that takes."""
    x, y = at
    corners = [
        (
            x + radius * Fraction(round(1000 * cos(turn)), 1000),
            y + radius * Fraction(round(1000 * sin(turn)), 1000),
        )
        for turn in (2 * pi * number / ROUND for number in range(ROUND))
    ]
    return closed(role, corners)


@lru_cache(maxsize=1024)
def prick_point(at: Point, radius: Fraction) -> tuple[Stroke, ...]:
    """A small ring with a dot: a tool's point is set in its middle."""
    (x, y), (_, _, dot) = at, _hexagon(radius)
    return (*ring(Role.PRICK, at, radius), Stroke(Role.PRICK, (x, y - dot), (x, y + dot)))


def joined(width: Fraction, height: Fraction, parts: Iterable[Figure]) -> Figure:
    """Several figures drawn in one box."""
    listed = tuple(parts)
    return Figure(
        width,
        height,
        tuple(stroke for part in listed for stroke in part.strokes),
        tuple(text for part in listed for text in part.texts),
    )


def distinct(strokes: Iterable[Stroke]) -> tuple[Stroke, ...]:
    """Strokes, each once."""
    return tuple(dict.fromkeys(strokes))


def headed(heading: Figure, blocks: Iterable[Figure]) -> Iterator[Figure]:
    """Blocks of which the first cannot be parted from its heading; nothing where there are none."""
    for number, block in enumerate(blocks):
        yield block if number else downwards((heading, block))


def aired(figure: Figure, air: Fraction) -> Figure:
    """The same with air below it."""
    return replace(figure.moved(Fraction(0), air), height=figure.height + air)


def beside(
    figures: Iterable[Figure], gap: Fraction = Fraction(0), air: Fraction = Fraction(0)
) -> Figure:
    """Figures side by side, their upper edges level, with air below them."""
    listed = tuple(figures)
    height = max(figure.height for figure in listed) + air
    left, parts = Fraction(0), []
    for figure in listed:
        parts.append(figure.moved(left, height - figure.height))
        left += figure.width + gap
    return joined(left - gap, height, parts)


class Section(Struct, frozen=True):
    """Rows of one width below a heading.

    Attributes:
        rows: in order.
        heading: above the first; None leaves it out.
        again: above the first of those that go on in another column.
    """

    rows: tuple[Figure, ...]
    heading: Figure | None = None
    again: Figure | None = None

    @property
    def stops(self) -> Iterator[int]:
        """How many rows may stand in one column, with more in the next: no row by itself."""
        least = 2 if self.heading else 1
        return (n for n in range(len(self.rows)) if n == 0 or least <= n <= len(self.rows) - least)

    def part(self, start: int, end: int) -> "Section":
        """Some of the rows, under the heading that they need."""
        return Section(self.rows[start:end], self.again if start else self.heading, self.again)

    def beside(self, heading: Figure | None) -> "Section":
        """Rows that go on beside those under the heading: level with them, without one."""
        blank = heading and Figure(heading.width, heading.height)
        return Section(self.rows, blank, self.again)

    @property
    def figures(self) -> Iterator[Figure]:
        """The heading and the rows."""
        if self.heading and self.rows:
            yield self.heading
        yield from self.rows


class Columns(Struct, frozen=True):
    """Sections of one width in one or two columns, read down each.

    Attributes:
        sections: in order.
        gap: between two columns.
        count: of columns.
    """

    sections: tuple[Section, ...]
    gap: Fraction
    count: int = 2

    @property
    def rows(self) -> int:
        """How many rows there are."""
        return sum(len(one.rows) for one in self.sections)

    @property
    def height(self) -> Fraction:
        """About how high they are, in columns of one height."""
        return self._measured()(0, self.rows) / self.count

    def down_to(self, depth: Fraction, least: int = 0) -> tuple[Figure | None, "Columns"]:
        """All rows where they are no deeper, in columns as nearly of one height as may be.

        Otherwise as many as have room, and at least so many; None where these are none. With
        them the rows that are left.
        """
        rows, stops, room = self.rows, [*self._stops()], self._measured()
        level = rows
        if self.count > 1:
            # One column grows from stop to stop, the other shrinks.
            over = bisect(stops, False, key=lambda at: room(0, at) >= room(at, rows))
            near = stops[max(over - 1, 0) : over + 1]
            level = min(near, key=lambda at: max(room(0, at), room(at, rows)))

        def end(start: int) -> int:
            past = bisect(stops, depth, bisect(stops, start), key=lambda at: room(start, at))
            return max(start, stops[past - 1])

        has_room = max(room(0, level), room(level, rows)) <= depth
        first = max(least, level if has_room else end(0))
        last = first if self.count == 1 else end(first)
        parts = [part for at in ((0, first), (first, last)) if (part := self._part(*at))]
        if len(parts) > 1 and parts[1][0].heading is parts[0][0].again:
            parts[1] = (parts[1][0].beside(parts[0][0].heading), *parts[1][1:])
        columns = [downwards(chain.from_iterable(one.figures for one in part)) for part in parts]
        left = Columns(self._part(last, rows), self.gap, self.count)
        return (beside(columns, self.gap) if columns else None), left

    def _stops(self) -> Iterator[int]:
        """How many rows may stand in one column, with more in the next."""
        before = 0
        for one in self.sections:
            yield from (before + stop for stop in one.stops)
            before += len(one.rows)
        yield before

    def _measured(self) -> Callable[[int, int], Fraction]:
        """What says how high a column is that holds the rows from one to another."""
        rows = (row.height for one in self.sections for row in one.rows)
        down = tuple(accumulate(rows, initial=Fraction(0)))
        ends = (0, *accumulate(len(one.rows) for one in self.sections))
        sections = list(zip(self.sections, pairwise(ends), strict=True))

        def room(start: int, end: int) -> Fraction:
            high = down[end] - down[start]
            for one, (first, last) in sections:
                heading = one.again if start > first else one.heading
                if heading and max(start, first) < min(end, last):
                    high += heading.height
            return high

        return room

    def _part(self, start: int, end: int) -> tuple[Section, ...]:
        before, found = 0, []
        for one in self.sections:
            count = len(one.rows)
            low, high = (min(max(at - before, 0), count) for at in (start, end))
            if low < high:
                found.append(one.part(low, high))
            before += count
        return tuple(found)


class Together(Struct, frozen=True):
    """Figures below each other that stay on one page where it has room for them."""

    figures: tuple[Figure, ...]


Block = Figure | Columns | Together
"""What is stacked down a page."""


def downwards(figures: Iterable[Figure]) -> Figure:
    """Figures below each other, the first at the top."""
    listed = tuple(figures)
    height = top = sum((figure.height for figure in listed), Fraction(0))
    parts = []
    for figure in listed:
        top -= figure.height
        parts.append(figure.moved(Fraction(0), top))
    return joined(max(figure.width for figure in listed), height, parts)


def _exact(number: object) -> Fraction:
    if isinstance(number, Fraction):
        return number
    if isinstance(number, Rational):
        return exactly(number)
    raise TypeError(f"{number!r} is not an exact number")
