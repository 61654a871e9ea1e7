"""A four-sided piece seen from above, to proportion: which board's end stands in which corner.

The piece lies on its reference edges, so its far edges are seen: a corner is drawn as its
joint cuts these, and dashed where the boards' wood goes on below.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction

from msgspec.structs import replace

from joinery_templates.drawings.arrangement import Junction
from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text
from joinery_templates.drawings.lettering import (
    ASCENT,
    DESCENT,
    Lettering,
    Paragraph,
    shortened,
    wrapped,
)
from joinery_templates.drawings.look import BODY, HEADING
from joinery_templates.drawings.placing import Ground
from joinery_templates.lengths import Tell
from joinery_templates.wood.faces import fullest_across, section_lines

WIDEST, HIGHEST = Fraction(70), Fraction(34)
THINNEST = Fraction(3)
"""Thin boards are drawn so thick, that their corners can be seen."""
GAP = Fraction(6, 5)
NAME_PITCH = Fraction(5, 4)
"""Of the rows of a corner's name, in heights of a capital."""
ROW = BODY * (ASCENT + DESCENT) + GAP

Sketched = tuple[Figure, tuple[Paragraph, ...]]
"""A sketch, and the words that belong to it."""
TOWARDS = "towards you"
PLACES = {"A": "near left", "B": "far left", "C": "far right", "D": "near right"}
"""Corners go clockwise seen from above, A at the near left."""
_NEXT = {True: {"A": "B", "D": "C"}, False: {"A": "D", "B": "C"}}
"""For a board at a side, and for one across: from each corner the one at its other end."""


def corner_plan(
    corners: Sequence[Junction], room: Fraction, tell: Tell, lettering: Lettering
) -> Sketched:
    """The piece from above, and a line for each corner.

    Args:
        corners: no two at the same letter.
        room: width that the sketch may have.
        tell: says lengths.
        lettering: how wide words run.
    """
    plan = _Plan(corners, min(WIDEST, room), lettering)
    told = "Seen from above as it lies on its reference edges, outside faces out."
    if not plan.has_lengths:
        told += " Not to proportion: no lengths are given."
    sizes = sizes_told(tuple(plan.sizes(outside=True)), tuple(plan.sizes(outside=False)), tell)
    return with_corners(
        _held(plan.figure()), (told, sizes), corners, lambda one: PLACES[one.letter]
    )


Sizes = Sequence[tuple[str, Fraction]]
"""Which way each is measured, in words, and how much."""


def sizes_told(outside: Sizes, inside: Sizes, tell: Tell) -> str:
    """The finished sizes of a piece in a sentence; empty where none is known."""
    ways = (("outside", outside), ("inside", inside))
    told = (
        f"{where} {' and '.join(f'{tell(size)} {way}' for way, size in sizes)}"
        for where, sizes in ways
        if sizes
    )
    words = ", ".join(told)
    return f"Finished size: {words}." if words else ""


def with_corners(
    sketch: Figure,
    told: Iterable[str],
    corners: Sequence[Junction],
    place: Callable[[Junction], str],
) -> Sketched:
    """A sketch, how it is seen, and a line for each corner.

    Args:
        sketch: the sketch.
        told: how it is seen, and how large it is.
        corners: in the order in which they are told.
        place: says where each is.
    """
    lines = [Paragraph(words, BODY, bold=True, after=Fraction(1)) for words in told if words]
    for one in corners:
        first, second = one.board(True), one.board(False)
        name, at = one.first.corner.told, place(one)
        is_told = {*at.split()} <= {*name.lower().split()}
        where = name if is_told else f"{name}, {at}"
        ends = (f"{at.board.called} ({at.place.words})" for at in (first, second))
        lines.append(Paragraph(f"{where}: {' meets '.join(ends)}", BODY))
    *before, last = lines
    return sketch, (*before, replace(last, after=2 * GAP))


class _Plan:
    """Where everything of a plan stands on the paper."""

    def __init__(self, corners: Sequence[Junction], widest: Fraction, lettering: Lettering) -> None:
        self._corners = {one.letter: one for one in corners}
        self._lettering = lettering
        across, along = (self._extent(at_side) for at_side in (False, True))
        self.has_lengths = across is not None and along is not None
        across = across or (along * 3 / 2 if along else Fraction(300))
        along = along or across * 2 / 3
        scale = min(widest / across, HIGHEST / along)
        self._across, self._along = across * scale, along * scale
        boards = [at.board for one in corners for at in (one.first, one.second)]
        thin = min(board.thickness for board in boards)
        deep = max(at.member.part.reach for one in corners for at in (one.first, one.second))
        most = min(self._across, self._along) * 2 / 5 / (deep + 1)
        self._corner_scale = min(max(scale, THINNEST / thin), most)
        self._left = self._low = self._past = Fraction(0)
        ends = [end[1] for stroke in self._strokes() for end in (stroke.start, stroke.end)]
        # Wood that leans outwards stands past the piece's outline, and names keep clear of it.
        self._past = max(Fraction(0), -min(ends), max(ends) - self._along)
        self._low = self._high("AD") + BODY * 19 / 10

    def _extent(self, at_side: bool) -> Fraction | None:
        """From outside to outside of the piece, as the first board tells that has a length."""
        for one in self._corners.values():
            placed = one.board(at_side)
            if placed.board.length:
                other = self._corners.get(_other_end(one.letter, at_side))
                past = one.past(at_side) + (other.past(at_side) if other else 0)
                return placed.board.length - past
        return None

    def sizes(self, outside: bool) -> Iterator[tuple[str, Fraction]]:
        """How wide and deep the finished piece is, what stands proud planed off.

        Of sides that lean nothing is told, nor of the room beside a board that is not there.
        """
        known = self._corners.values()
        if any(one.placement.rows[0][0] != 1 for one in known):
            return
        for at_side, way in ((False, "wide"), (True, "deep")):
            walls = {
                letter in ("CD" if at_side is False else "BC"): one.board(not at_side)
                for letter, one in self._corners.items()
            }
            size = self._extent(at_side)
            if size and outside:
                yield way, size
            elif size and len(walls) == 2:
                yield way, size - sum(wall.board.thickness for wall in walls.values())

    def figure(self) -> Figure:
        """The sketch with its words."""
        strokes = tuple(dict.fromkeys(self._strokes()))
        width, top = self._left + self._across, self._low + self._along
        ground, texts = Ground(self._lettering), list[Text]()
        for text in self._texts():
            # In a tiny sketch a board goes without its name rather than have it on another.
            texts += ground.placed((text,)) if text.stays else (text,)
            ground.write(texts[-1:])
        width = max(width, self._below)
        return Figure(width, top + self._high("BC") + GAP, strokes, tuple(texts))

    @property
    def _below(self) -> Fraction:
        """How wide the words below the sketch run, which may be more than the sketch."""
        return Fraction(self._lettering.width(TOWARDS, BODY)) + GAP

    def _name(self, letter: str) -> tuple[str, ...]:
        """What a corner is called, in as many rows as it takes on its half of the piece."""
        corner = self._corners[letter].first.corner
        words, room = corner.told, self._across / 2 - 1
        return wrapped(words, room, HEADING, self._lettering, bold=True)

    def _high(self, letters: str) -> Fraction:
        """How much room the names of some corners take above or below the piece."""
        rows = max((len(self._name(one)) for one in letters if one in self._corners), default=1)
        return self._past + GAP + HEADING * (1 + (rows - 1) * NAME_PITCH)

    def _strokes(self) -> Iterator[Stroke]:
        for one in self._corners.values():
            yield from self._corner(one)
            for at_side in (True, False):
                yield from self._long_sides(one, at_side)

    def _corner(self, one: Junction) -> Iterator[Stroke]:
        parts = (one.first.member.part, one.second.member.part)
        seen = [section_lines(part, part.board.width, part.reach) for part in parts]
        below = fullest_across(parts[0])
        hidden = [section_lines(part, below, part.reach) for part in parts]
        for lines, role in ((hidden, Role.GUIDE), (seen, Role.FRAME)):
            for number, edges in enumerate(lines):
                x = parts[number].board.width
                for edge in edges:
                    if role is Role.FRAME or edge not in seen[number]:
                        ends = (self._point(one, number, x, end) for end in (edge.start, edge.end))
                        yield Stroke(role, *ends)

    def _point(self, one: Junction, number: int, x: Fraction, at: Point) -> Point:
        """A point of a board's edge, across its thickness and along it, on the paper."""
        z, y = at
        if number:
            _, y, z = one.placement.point((x, y, z))
        y -= one.past(one.first_at_side)
        across, along = (z, y) if one.first_at_side else (y, z)
        return self._on_paper(one.letter, across * self._corner_scale, along * self._corner_scale)

    def _on_paper(self, letter: str, across: Fraction, along: Fraction) -> Point:
        """A point so far into the piece from the outer corner."""
        right, far = letter in "CD", letter in "BC"
        x = self._left + (self._across - across if right else across)
        y = self._low + (self._along - along if far else along)
        return x, y

    def _long_sides(self, one: Junction, at_side: bool) -> Iterator[Stroke]:
        """A board's faces from its corner to the next, or to its other end; each board once."""
        letter = _other_end(one.letter, at_side)
        other = self._corners.get(letter)
        if other and letter < one.letter:
            return
        placed = one.board(at_side)
        ends = []
        for z in (Fraction(0), placed.board.thickness * self._corner_scale):
            start = self._along_board(one, at_side, z)
            if other:
                end = self._along_board(other, at_side, z)
            else:
                end = self._on_paper(letter, *((z, Fraction(0)) if at_side else (Fraction(0), z)))
                ends.append(end)
            yield Stroke(Role.FRAME, start, end)
        if ends:
            yield Stroke(Role.FRAME, ends[0], ends[1])

    def _along_board(self, one: Junction, at_side: bool, z: Fraction) -> Point:
        """Where a board's face leaves its corner."""
        reach = one.board(at_side).member.part.reach - one.past(at_side)
        y = reach * self._corner_scale
        return self._on_paper(one.letter, *((z, y) if at_side else (y, z)))

    def _texts(self) -> Iterator[Text]:
        left, low, right, top = (
            self._left,
            self._low,
            self._left + self._across,
            self._low + self._along,
        )
        for letter in self._corners:
            x, align = (right, Align.RIGHT) if letter in "CD" else (left, Align.LEFT)
            away = self._past + GAP
            y = top + away if letter in "BC" else low - away - HEADING
            rows = self._name(letter)
            below = 0 if letter in "BC" else 1 - len(rows)
            for number, words in enumerate(rows):
                up = (len(rows) - 1 - number + below) * NAME_PITCH * HEADING
                yield Text(words, (x, y + up), HEADING, align, bold=True)
        middle = ((left + right) / 2, (low + top) / 2)
        you = max(middle[0], self._below / 2), low - self._low + BODY * DESCENT
        yield Text(TOWARDS, you, BODY, Align.CENTRE)
        deep = {
            at_side: max(one.board(at_side).board.thickness for one in self._corners.values())
            * self._corner_scale
            + GAP
            for at_side in (True, False)
        }
        most = Fraction(0)  # rows of the names that lie level, at both ends
        for at_side, far, name in self._names():
            along, across = (self._along, self._across) if at_side else (self._across, self._along)
            walls = deep[False] + most * ROW if at_side else deep[True]
            rows = self._fitting(name, along - 2 * walls - 2, across / 2 - deep[at_side])
            most = max(most, Fraction(0 if at_side else len(rows)))
            for number, words in enumerate(rows):
                inwards = deep[at_side] + ROW * (
                    len(rows) - 1 - number if far == at_side else number
                )
                if at_side:
                    foot = inwards + BODY * (DESCENT if far else ASCENT)
                    x = right - foot if far else left + foot
                    yield Text(words, (x, middle[1]), BODY, Align.CENTRE, 90, stays=True)
                else:
                    foot = inwards + BODY * (ASCENT if far else DESCENT)
                    y = top - foot if far else low + foot
                    yield Text(words, (middle[0], y), BODY, Align.CENTRE, stays=True)

    def _fitting(self, name: str, room: Fraction, depth: Fraction) -> tuple[str, ...]:
        """A board's name, in rows where that is how it fits."""
        if self._lettering.width(name, BODY) <= room:
            return (name,)
        rows = wrapped(name, room, BODY, self._lettering)
        if len(rows) * ROW <= depth and " ".join(rows) == name:
            return rows
        short = shortened(name, room, BODY, self._lettering)
        return (short,) if len(short) > 1 else ()  # a board without its name, not dots for one

    def _names(self) -> Iterator[tuple[bool, bool, str]]:
        """For each board whether it is at a side, at the right or far, and what it is called."""
        for at_side, places in ((False, ("AD", "BC")), (True, ("AB", "CD"))):
            for far, letters in enumerate(places):
                here = [self._corners[one] for one in letters if one in self._corners]
                if here:
                    yield at_side, bool(far), here[0].board(at_side).board.called


def _held(figure: Figure) -> Figure:
    """The figure in a box that holds all its lines: ends may stand proud of the piece."""
    xs, ys = (
        [end[axis] for stroke in figure.strokes for end in (stroke.start, stroke.end)]
        for axis in (0, 1)
    )
    left, low = min(Fraction(0), *xs), min(Fraction(0), *ys)
    right, top = max(figure.width, *xs), max(figure.height, *ys)
    return replace(figure.moved(-left, -low), width=right - left, height=top - low)


def _other_end(letter: str, at_side: bool) -> str:
    """The corner at the other end of a board."""
    pairs = _NEXT[at_side]
    return pairs.get(letter) or {there: here for here, there in pairs.items()}[letter]
