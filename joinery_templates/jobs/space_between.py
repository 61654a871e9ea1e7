"""Whether a board is as long as the space between the two boards that it joins.

Another board that joins the same two tells how these stand to each other: a second rail between
two stiles, or the stile that stands beside an upright between two rails.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from itertools import permutations

from msgspec import Struct

from joinery_templates.errors import OURS, Finding, advice
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.jobs.links import Link, links
from joinery_templates.jobs.standing import Piece, Standing, Told
from joinery_templates.joints.gauge import nearest_setting
from joinery_templates.lengths import INCH, Units, length_text
from joinery_templates.wood.board import Hand
from joinery_templates.wood.cut import Vector, dot
from joinery_templates.wood.placement import Placement

SAME = Fraction(1, 10**9)
Why = tuple[str, str]
"""Why a board comes out where it does, and what to look at."""
BY_LENGTH = "its length and angle say so", "Check its length and angle"
BY_ANGLE = "its angle says so", "Check its angle"
SQUARE = "it is square to both", "Check the other place"
OFF = Fraction(1, 5)
"""How far off a place or a length may be: a shaving or two (our judgement)."""


class Way(Struct, frozen=True, dict=True):
    """From one piece over a second one to a third.

    Attributes:
        start: of the second piece with the first.
        end: of the second piece with the third.
    """

    start: Link
    end: Link

    @property
    def mates(self) -> set[Piece]:
        """The first piece and the third."""
        return {self.start.mate, self.end.mate}

    @property
    def is_between(self) -> bool:
        """Whether the second piece runs from the first one to the third, and no further."""
        return self.start.at.is_end and self.end.at.is_end

    @property
    def is_square_between_legs(self) -> bool:
        """Whether it stands square between two legs of one section, its length known."""
        both = self.start, self.end
        is_at_legs = all(link.other.on_leg and link.at.is_square for link in both)
        legs = {(board.width, board.thickness) for board in (link.other.board for link in both)}
        is_known = self.start.at.board.length is not None
        return is_at_legs and self.is_between and is_known and len(legs) == 1

    @property
    def is_let_in(self) -> bool:
        """Whether both of the others run on past it."""
        return not self.start.other.is_end and not self.end.other.is_end

    @property
    def is_told(self) -> bool:
        """Whether the job says where on both of them it stands."""
        return self.start.other.is_measured and self.end.other.is_measured

    @property
    def is_known(self) -> bool:
        """Whether its own length is told, where it is needed."""
        start, end = self.start.at, self.end.at
        return start.board.length is not None or start.placed.hand is end.placed.hand

    @property
    def keeps(self) -> Fraction:
        """How far it keeps the two apart, along its reference edge."""
        length = self.start.at.board.length or ZERO
        return length - self.start.runs_in - self.end.runs_in

    @cached_property
    def frame(self) -> Placement:
        """The third piece's frame in the first one's."""
        return self.start.frame.reversed().of(self.end.frame)

    @property
    def turn(self) -> object:
        """What is equal where two ways lead to like frames, measured from like ends."""
        both = self.start.other, self.end.other
        anchors = tuple(None if at.board.length else at.placed.hand for at in both)
        return anchors, tuple(round(each / SAME) for row in self.frame.rows for each in row)

    @property
    def is_level(self) -> bool:
        """Whether the third piece runs as the first one does."""
        return abs(self.frame.along[1]) > 1 - SAME

    @property
    def place(self) -> object:
        """What is equal where two ways lead to the same place, to a millimetre."""
        x, y, z = map(round, self.frame.shift)
        return self.turn, x, y if self.is_told else None, z


def misfits(on_boards: Mapping[str, Sequence[Standing]], units: Units) -> Iterator[Told]:
    """What does not fit between two boards.

    Args:
        on_boards: what stands on each board.
        units: that figures are told in.
    """
    linked = links(on_boards)
    pairs: dict[frozenset[Piece], tuple[Link, Link]] = {}
    for own in linked.values():
        ends = [link for link in own if link.at.is_end]
        if len(ends) == 2 and ends[0].mate != ends[1].mate:
            pairs.setdefault(frozenset(link.mate for link in ends), (ends[0], ends[1]))
    between_legs: dict[Piece, dict[Piece, Way]] = {}
    for start, end in pairs.values():
        # Each piece that joins both, in the file's order.
        to_end = {link.mate for link in linked[end.mate]}
        joined = dict.fromkeys(one.mate for one in linked[start.mate] if one.mate in to_end)
        ways = [_way(linked[piece], start.mate, end.mate) for piece in joined]
        yield from _held_against_each_other([one for one in ways if one.is_known], units)
        if first := next((one for one in ways if one.is_square_between_legs), None):
            between_legs.setdefault(start.mate, {})[end.mate] = first
            between_legs.setdefault(end.mate, {})[start.mate] = first
    yield from _at_opposite_sides(between_legs, units)


def _way(own: Iterable[Link], first: Piece, third: Piece) -> Way:
    to = {link.mate: link for link in own}
    return Way(to[first], to[third])


def _held_against_each_other(ways: Sequence[Way], units: Units) -> Iterator[Told]:
    """All that join the same two, by the one that most agree with."""
    if len(ways) == 1:
        yield from _level(ways[0], units)
        return
    places = [one.place for one in ways]
    count = Counter(places)
    told = [
        (count[place], not one.is_between, one)
        for one, place in zip(ways, places, strict=True)
        if one.is_told or one.is_level
    ]
    if told:
        *_, right = max(told, key=lambda each: each[:2])
        for one in ways:
            if one is not right and one.is_between and one.turn == right.turn:
                yield from _off(one, right, units)


def _at_opposite_sides(
    between: Mapping[Piece, Mapping[Piece, Way]], units: Units
) -> Iterator[Told]:
    """What keeps two of four legs apart otherwise than what faces it, all being square."""
    for leg, ways in between.items():
        for (beside, right), (behind, _) in permutations(ways.items(), 2):
            for last, one in between[behind].items():
                is_later = one.start.at.number > right.start.at.number
                is_round = last != leg and last in between[beside]
                longer = one.keeps - right.keeps
                if is_round and is_later and abs(longer) > OFF:
                    yield Told(one.end.at, right.end.at, _length_off(one, right, longer, units))


def _level(one: Way, units: Units) -> Iterator[Told]:
    """A board let into two that are alike, and level, where it does not come out."""
    start, end = one.start, one.end
    are_alike = start.other.board.name == end.other.board.name
    if are_alike and one.is_between and one.is_told and one.is_let_in:
        (point, way), (there, other) = (each.end_and_grain for each in (start, end))
        if all(abs(i - j) < SAME for i, j in zip(way, other, strict=True)):
            off = dot(_less(there, point), way)
            yield from _out_of_line(one, off, BY_LENGTH, units)


def _off(one: Way, right: Way, units: Units) -> Iterator[Told]:
    """A board that keeps two apart otherwise than another one does, or joins them elsewhere."""
    start, end, board = one.start, one.end, one.start.at.board
    to_first = start.frame.reversed()
    way = to_first.along
    if start.at.placed.hand is Hand.RIGHT:
        way = (-way[0], -way[1], -way[2])
    mate = right.frame.along
    square = 1 - dot(way, mate) ** 2
    if square < SAME or board.length is None or not (one.is_told or one.is_level):
        return
    off = _less(one.frame.shift, right.frame.shift)
    longer = (dot(off, way) - dot(way, mate) * dot(off, mate)) / square
    farther = (dot(off, mate) - dot(way, mate) * dot(off, way)) / square
    if abs(longer) > OFF:
        yield Told(end.at, right.end.at, _length_off(one, right, longer, units))
    if one.is_told and right.is_told and one.is_let_in:
        from_left = end.other.placed.hand is Hand.LEFT
        why = SQUARE if start.at.is_square and end.at.is_square else BY_ANGLE
        yield from _out_of_line(one, farther if from_left else -farther, why, units)


def _out_of_line(one: Way, off: Fraction, why: Why, units: Units) -> Iterator[Told]:
    """A board that comes out elsewhere on the third than its joint there says."""
    (at, there), board = (one.start.at, one.end.at), one.end.other
    if abs(off) > OFF:
        right = board.along + off
        here, given = (length_text(each, units) for each in (right, board.along))
        because, remedy = why
        remedy = f"{remedy}, or write at = {as_measured(right, units)} there."
        if past := _past_the_end(right, at.board.width, board.board.length):
            remedy = _where_too_short(one, off, past, units)
        finding = advice(
            "out-of-line",
            f'From {at.told}, "{at.board.name}" comes to "{board.board.name}" at {here} in '
            f"{there.told}, not at {given}: {because}.",
            OURS,
            remedy,
        )
        yield Told(there, at, finding)


def _past_the_end(at: Fraction, width: Fraction, length: Fraction | None) -> Fraction:
    """How far a board of a width would reach past an end of one of a length; 0 if it does not."""
    past = at + width - length if length is not None else ZERO
    return max(-at, past, ZERO)


def _where_too_short(one: Way, off: Fraction, past: Fraction, units: Units) -> str:
    """What to do where a board comes out past an end of the third: no place there is right.

    Args:
        one: the way over it, from the first board to the third.
        off: how far from its place on the third it comes out, away from the end there.
        past: how far it reaches past the end.
        units: that figures are told in.
    """
    here, there = one.start.other, one.end.other
    short = f'"{there.board.name}" is {length_text(past, units)} too short for it: make it longer'
    is_square = one.start.at.is_square and one.end.at.is_square
    is_alike = (here.placed.hand is there.placed.hand) == (one.frame.along[1] > 0)
    moved = here.along - off if is_alike else here.along + off
    if not (one.is_level and is_square and here.is_measured):
        return f"{short}, or correct the other place."
    if _past_the_end(moved, one.start.at.board.width, here.board.length):
        return f"{short}, or correct both places."
    return f"{short}, or write at = {as_measured(moved, units)} in {one.start.at.told}."


def _length_off(one: Way, right: Way, longer: Fraction, units: Units) -> Finding:
    board, held = one.start.at.board, right.start.at
    length = board.length or ZERO
    apart, now, then = (
        length_text(each, units) for each in (one.keeps - longer, one.keeps, length)
    )
    needed = as_measured(length - longer, units)
    first, third = (link.other.board.name for link in (one.start, one.end))
    both = f'"{first}" and "{third}"' if first != third else f'the two boards "{first}"'
    is_square = one.start.at.is_square and one.end.at.is_square
    where = "" if is_square else f', measured along the reference edge of "{board.name}"'
    if right.is_between:
        them = "them" if one.mates == right.mates else "the other two"
        but = f'"{held.board.name}" in {held.told} keeps {them} {apart} apart'
        other = f'correct the length of "{held.board.name}"'
    else:
        but = f'on "{held.board.name}" they stand {apart} apart'
        other = f"move {held.told} or {right.end.at.told} along it"
    move = "" if one.is_level else " move it along the two;"
    return advice(
        "length-off",
        f'"{board.name}" keeps {both} {now} apart{where}, but {but}.',
        OURS,
        f'Make "{board.name}" {needed} long, not {then};{move} or {other}.',
    )


def as_measured(length: Fraction, units: Units) -> str:
    """To a tenth of a millimetre, or 1/64 in: as near as a board is sawn."""
    step = Fraction(1, 10) if units is Units.MM else INCH / 64
    return length_text(nearest_setting(length, step), units)


def _less(one: Vector, other: Vector) -> Vector:
    x, y, z = (a - b for a, b in zip(one, other, strict=True))
    return x, y, z
