"""A four-sided piece seen from above, to proportion: which board's end stands in which corner.

The piece lies on its reference edges, so its far edges are seen: a corner is drawn as its
joint cuts these, and dashed where the boards' wood goes on below.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial

from msgspec.structs import replace

from joinery_templates.drawings.arrangement import Junction
from joinery_templates.drawings.figure import Figure, Point, Role, Stroke
from joinery_templates.drawings.from_above import GAP, PLACES, ROW, SIDES, FromAbove
from joinery_templates.drawings.labels import named_together
from joinery_templates.drawings.lettering import Lettering, Paragraph, shortened, wrapped
from joinery_templates.drawings.look import BODY
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joint import Placed, other_end
from joinery_templates.lengths import Tell
from joinery_templates.wood.cut import groove_depth
from joinery_templates.wood.faces import fullest_across, section_lines
from joinery_templates.wood.polygons import Edge

WIDEST = Fraction(70)
HEIGHTS = Fraction(34), Fraction(44), Fraction(54)
"""The most that a piece is drawn high; the greater ones where a board's name needs the room."""
THINNEST = Fraction(3)
"""Thin boards are drawn so thick, that their corners can be seen."""
HAIR = Fraction(3, 10)
"""Two lines of a plan that are nearer than this, in mm, are seen as one."""

Sketched = tuple[Figure, tuple[Paragraph, ...]]
"""A sketch, and the words that belong to it."""


def corner_plan(
    alike: Sequence[Sequence[Junction]], room: Fraction, tell: Tell, lettering: Lettering
) -> Sketched:
    """The piece from above, and a line for each corner.

    Args:
        alike: the corners of each piece that is like this, no two of one at the same letter.
        room: width that the sketch may have.
        tell: says lengths.
        lettering: how wide words run.
    """
    plans = [partial(_Plan, alike[0], (min(WIDEST, room), high), lettering) for high in HEIGHTS]
    plan = next((one for made in plans if (one := made()).names_fit), None) or plans[0]()
    told = "Seen from above as it lies on its reference edges, outside faces out."
    if not plan.has_lengths:
        told += " Not to proportion: no lengths are given."
    outside, inside, grooved = ([*plan.sizes(one)] for one in (_nothing, _board, _behind_groove))
    sizes = sizes_told(outside, inside, grooved, tell)
    return with_corners(plan.figure(), (told, sizes), alike, lambda one: PLACES[one.letter])


Sizes = list[tuple[str, Fraction]]
"""Which way each is measured, in words, and how much."""


def sizes_told(
    outside: Sizes, inside: Sizes, grooved: Sizes, tell: Tell, without: Sequence[str] = ()
) -> str:
    """The finished sizes of a piece, and the room in its grooves; empty where none is known.

    Args:
        outside: over all.
        inside: between its boards.
        grooved: of what lies in its grooves.
        tell: says lengths.
        without: boards that come on top of these sizes.
    """

    def told(sizes: Sizes) -> str:
        return " and ".join(f"{tell(size)} {way}" for way, size in sizes)

    ways = (("outside", outside), ("inside", inside))
    words = ", ".join(f"{where} {told(sizes)}" for where, sizes in ways if sizes)
    room = ""
    if len(grooved) == 2 and grooved not in (outside, inside):  # as where there is no groove
        room = (
            f" Room in the groove or rebate: {told(grooved)}; make what lies there smaller by what "
            "it needs to move."
        )
    alone = f", without {' and '.join(without)}" if without else ""
    return f"Finished size{alone}: {words}.{room}" if words else ""


def _nothing(placed: Placed) -> Fraction:
    """To the outside of a piece nothing is taken off for a board."""
    return Fraction(0)


def _board(placed: Placed) -> Fraction:
    return placed.board.thickness


def _behind_groove(placed: Placed) -> Fraction:
    """What is left behind a groove; one that passes a board by reaches to its outside."""
    depth = groove_depth(placed.member.part, 2)
    return placed.board.thickness - depth if depth else Fraction(0)


def with_corners(
    sketch: Figure,
    told: Iterable[str],
    alike: Sequence[Sequence[Junction]],
    place: Callable[[Junction], str],
) -> Sketched:
    """A sketch, how it is seen, and a line for each corner.

    Args:
        sketch: the sketch.
        told: how it is seen, and how large it is.
        alike: the corners of each piece that the sketch is of, in the order in which they are told.
        place: says where each is.
    """
    for_all = (
        f"One plan for {len(alike)} that are alike: its corners have the names of the first, the "
        "lines below those of all."
    )
    words = (for_all if len(alike) > 1 else "", *told)
    lines = [Paragraph(each, BODY, bold=True, after=Fraction(1)) for each in words if each]
    for one, *others in zip(*alike, strict=True):
        first, second = one.board(True), one.board(False)
        name, at = one.first.corner.told, place(one)
        is_told = {*at.split()} <= {*name.lower().split()}
        name = named_together([name, *(other.first.corner.told for other in others)])
        lines.append(meeting(name if is_told else f"{name}, {at}", first, second))
    *before, last = lines
    return sketch, (*before, replace(last, after=2 * GAP))


def meeting(where: str, first: Placed, second: Placed) -> Paragraph:
    """Which end of a board meets which of another."""
    ends = (f"{at.board.called} ({at.place.words})" for at in (first, second))
    return Paragraph(f"{where}: {' meets '.join(ends)}", BODY)


class _Plan:
    """Where everything of a plan stands on the paper."""

    def __init__(self, corners: Sequence[Junction], most: Point, lettering: Lettering) -> None:
        self._corners = {one.letter: one for one in corners}
        self._lettering = lettering
        across, along = (self._extent(at_side) for at_side in (False, True))
        self.has_lengths = across is not None and along is not None
        across = across or (along * 3 / 2 if along else Fraction(300))
        along = along or across * 2 / 3
        scale = min(most[0] / across, most[1] / along)
        self._paper = FromAbove(across * scale, along * scale, lettering)
        parts = [at.member.part for one in corners for at in one.both]
        thin = min(part.board.thickness for part in parts)
        deep = max(part.reach for part in parts)
        largest = min(across, along) * scale * 2 / 5 / (deep + 1)
        self._corner_scale = min(max(scale, THINNEST / thin), largest)
        self._named = [*self._board_names()]

    @property
    def names_fit(self) -> bool:
        """Whether every board's name is there in full."""
        return all(" ".join(rows) == name for name, (rows, *_) in self._named)

    def _extent(self, at_side: bool) -> Fraction | None:
        """From outside to outside of the piece, as the first board tells that has a length."""
        for one in self._corners.values():
            if length := one.board(at_side).board.length:
                other = self._corners.get(other_end(one.letter, at_side))
                ends = (each.past(each.number(at_side)) for each in (one, other) if each)
                return length - sum(ends)
        return None

    def sizes(self, wall: Callable[[Placed], Fraction]) -> Iterator[tuple[str, Fraction]]:
        """How large the finished piece is both ways, what stands proud planed off.

        Of sides that lean nothing is told, nor of the room beside a board that is not there.

        Args:
            wall: how much of each board at both sides is not counted.
        """
        known = self._corners.values()
        if any(one.placement.rows[0][0] != 1 for one in known):
            return
        for at_side, way in ((False, "wide"), (True, "from near to far")):
            far = SIDES[not at_side][1]
            walls = {one.letter in far: wall(one.board(not at_side)) for one in known}
            size = self._extent(at_side)
            if size and (wall is _nothing or len(walls) == 2):
                yield f"{way}{self._open(at_side)}", size - sum(walls.values())

    def _open(self, at_side: bool) -> str:
        """On which side a board is not there that would add to a size."""
        there = {letter in SIDES[not at_side][1] for letter in self._corners}
        if len(there) == 2:
            return ""
        near, far = ("near", "far") if at_side else ("left", "right")
        return f", open on the {near if there == {True} else far} side"

    def figure(self) -> Figure:
        """The sketch with its words."""
        strokes = tuple(self._strokes())
        ends = [end[1] for stroke in strokes for end in (stroke.start, stroke.end)]
        # Wood that leans outwards stands past the piece's outline, and names keep clear of it.
        past = max(Fraction(0), -min(ends), max(ends) - self._paper.along)
        names = {letter: one.first.corner.told for letter, one in self._corners.items()}
        corners = self._paper.corner_names(names, past + GAP)
        boards = (self._paper.board_name(*ways) for _, ways in self._named)
        return self._paper.figure(strokes, corners, boards)

    def _strokes(self) -> Iterator[Stroke]:
        for one in self._corners.values():
            yield from self._corner(one)
            for at_side in (True, False):
                yield from self._long_sides(one, at_side)

    def _corner(self, one: Junction) -> Iterator[Stroke]:
        parts = [at.member.part for at in one.both]
        seen: list[Sequence[Edge]]
        seen = [section_lines(part, part.board.width, part.reach) for part in parts]
        hidden: list[Sequence[Edge]] = []
        if one.placement.rows[0][0] == 1:
            below = fullest_across(parts[0])
            hidden = [section_lines(part, below, part.reach) for part in parts]
        else:  # what lies below lies elsewhere; what ends at the other's inside ends in its line
            seen = [[*self._clear(one, number, edges)] for number, edges in enumerate(seen)]
        for lines, role in ((hidden, Role.GUIDE), (seen, Role.FRAME)):
            for number, edges in enumerate(lines):
                point = self._point(one, number)
                for edge in edges:
                    if role is Role.FRAME or edge not in seen[number]:
                        yield Stroke(role, point(edge.start), point(edge.end))

    def _clear(self, one: Junction, number: int, edges: Iterable[Edge]) -> Iterator[Edge]:
        """A board's edges without those that lie beside the other's inside face, a hair off it."""
        inside, _ = self._flat(one, 1 - number)((one.both[1 - number].board.thickness, ZERO))
        flat = self._flat(one, number)
        for edge in edges:
            ends = (flat(end)[1] for end in (edge.start, edge.end))
            if any(abs(along - inside) > HAIR for along in ends):
                yield edge

    def _point(self, one: Junction, number: int) -> Callable[[Point], Point]:
        """Carries points of a board's far edge, across its thickness and along it, to the paper."""
        at_side, flat = one.first_at_side != bool(number), self._flat(one, number)
        return lambda at: self._at(one.letter, at_side, *flat(at))

    def _flat(self, one: Junction, number: int) -> Callable[[Point], Point]:
        """Carries them through and along the board, from the outer corner: also of one that leans.

        All boards lie level, each along what is through the other.
        """
        _, slant, square = one.other_in(1 - number).rows[1]
        past, scale = one.past(number), self._corner_scale
        return lambda at: ((slant * at[1] + square * at[0]) * scale, (at[1] - past) * scale)

    def _at(self, letter: str, at_side: bool, z: Fraction, y: Fraction) -> Point:
        """A point so far through a board and along it, from its outer corner."""
        return self._paper.point(letter, *((z, y) if at_side else (y, z)))

    def _long_sides(self, one: Junction, at_side: bool) -> Iterator[Stroke]:
        """A board's faces from its corner to the next, or to its other end; each board once."""
        letter = other_end(one.letter, at_side)
        other = self._corners.get(letter)
        if other and letter < one.letter:
            return
        ends = []
        number = one.number(at_side)
        for z in (Fraction(0), one.both[number].board.thickness):
            start = self._leaves(one, number, z)
            if other:
                end = self._leaves(other, other.number(at_side), z)
            else:
                through, _ = self._flat(one, number)((z, ZERO))
                end = self._at(letter, at_side, through, ZERO)
                ends.append(end)
            yield Stroke(Role.FRAME, start, end)
        if ends:
            yield Stroke(Role.FRAME, ends[0], ends[1])

    def _leaves(self, one: Junction, number: int, z: Fraction) -> Point:
        """Where a board's face leaves its corner."""
        return self._point(one, number)((z, one.both[number].member.part.reach))

    def _board_names(self) -> Iterator[tuple[str, tuple[tuple[str, ...], bool, int, Fraction]]]:
        """Each board's name; its rows, at which side, which of two there, and how far in.

        Names at the sides stand between those that lie level.
        """
        paper, most = self._paper, 0  # rows of the names that lie level, at both ends
        deep = {
            at_side: max(one.board(at_side).board.thickness for one in self._corners.values())
            * self._corner_scale
            + GAP
            for at_side in SIDES
        }
        clear = paper.across - 2 * (deep[True] + 2 * ROW)  # of the names that stand upright
        for at_side, sides in SIDES.items():
            along, across = (paper.along, paper.across) if at_side else (paper.across, paper.along)
            room = along - 2 * (deep[not at_side] + most * ROW) - 2
            for far, letters in enumerate(sides):
                if here := [self._corners[one] for one in letters if one in self._corners]:
                    name, off = here[0].board(at_side).board.called, deep[at_side]
                    rows = self._fitting(name, room, across / 2 - off)
                    if any(self._lettering.width(row, BODY) > clear for row in rows):
                        most = max(most, len(rows))
                    yield name, (rows, at_side, far, off)

    def _fitting(self, name: str, room: Fraction, depth: Fraction) -> tuple[str, ...]:
        """A board's name, in rows where that is how it fits."""
        if self._lettering.width(name, BODY) <= room:
            return (name,)
        rows = wrapped(name, room, BODY, self._lettering)
        if len(rows) * ROW <= depth and " ".join(rows) == name:
            return rows
        short = shortened(name, room, BODY, self._lettering)
        return (short,) if len(short) > 1 else ()  # a board without its name, not dots for one
