"""Boards that lie in one plane as their joints put them: a frame's faces, a carcase's front edges.

Each joint tells how one board lies to the other, each board how far it is from one of its joints
to the next. So a whole piece is put together from any of its boards, and a length that nobody
gave follows where both of a board's ends are reached.
"""

from collections.abc import Hashable, Iterable, Iterator, Sequence

from msgspec import Struct

from joinery_templates.drawings.figure import Point
from joinery_templates.exact import Fraction
from joinery_templates.joint import Placed
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.placement import Placement

USUAL = 8
"""A board whose length nobody knows is shown as long as so many widths."""
BY_FACES, BY_EDGES = 0, 2
"""What is seen: outside faces, across which the first axis runs, or reference edges, the third."""


class Junction(Struct, frozen=True):
    """Two boards at a corner.

    Attributes:
        first: the joint's first board.
        second: its second board.
        placement: the second board in the first one's frame.
        first_at_side: whether the first is at the left or right of the piece.
        pieces: which piece of its board each of them is.
    """

    first: Placed
    second: Placed
    placement: Placement
    first_at_side: bool
    pieces: tuple[Hashable, Hashable]

    @property
    def letter(self) -> str:
        """Which corner it is, or is like."""
        return self.first.corner.like

    @property
    def both(self) -> tuple[Placed, Placed]:
        """The first board, and the second; functions are told which by its number, 0 or 1."""
        return self.first, self.second

    def number(self, at_side: bool) -> int:
        """Which board is at the left or right of the piece, or which is across."""
        return int(at_side != self.first_at_side)

    def board(self, at_side: bool) -> Placed:
        """The board at the left or right, or the one across."""
        return self.both[self.number(at_side)]

    def other_in(self, number: int) -> Placement:
        """The other board in a board's own frame."""
        return self.placement.reversed() if number else self.placement

    def past(self, number: int) -> Fraction:
        """How far a board's end stands past the other's outside face, at its far edge."""
        width = self.both[1 - number].board.width
        return self.other_in(number).point((width, Fraction(0), Fraction(0)))[1]

    @property
    def is_end_to_end(self) -> bool:
        """Whether both boards run in one line."""
        return self.placement.rows[1][1] == -1


class FlatPlacement(Struct, frozen=True):
    """How a board's frame lies in the plane: its origin, and one millimetre along its axes."""

    origin: Point
    across: Point
    along: Point

    def point(self, across: Fraction, along: Fraction) -> Point:
        """A place of the board in the plane."""
        x, y = (
            start + across * one + along * other
            for start, one, other in zip(self.origin, self.across, self.along, strict=True)
        )
        return x, y

    def moved(self, along: Fraction) -> "FlatPlacement":
        """The same frame so much further along the board."""
        return FlatPlacement(self.point(Fraction(0), along), self.across, self.along)

    def facing(self, turn: int) -> "FlatPlacement":
        """The same frame, its lengths counted the same way (1), or the other (-1)."""
        return FlatPlacement(self.origin, self.across, (turn * self.along[0], turn * self.along[1]))

    def place(self, point: Point) -> Fraction:
        """How far along the board a point of the plane is."""
        (x, y), (x0, y0), (right, up) = point, self.origin, self.along
        return (x - x0) * right + (y - y0) * up

    def of_other(self, placement: Placement, axis: int) -> "FlatPlacement":
        """How a frame lies that is placed in this one."""
        rows, shift = placement.rows, placement.shift
        away = FlatPlacement((Fraction(0), Fraction(0)), self.across, self.along)
        return FlatPlacement(
            self.point(shift[axis], shift[1]),
            away.point(rows[axis][axis], rows[1][axis]),
            away.point(rows[axis][1], rows[1][1]),
        )


class _Piece(Struct):
    """A piece while it is laid: its board, its axes, and points along it that are known.

    `along` runs from its left-hand to its right-hand end. A point is known by the end that it is,
    or by the joint whose place on the board nobody told.
    """

    board: Board
    across: Point
    along: Point
    known: dict[Hand | int, Point]


class Laid(Struct, frozen=True):
    """A piece where it lies.

    Attributes:
        key: which piece.
        board: what it is cut from.
        lie: how its left-hand end's frame lies, or one that is moved along.
        span: from where to where along it; where an end is unknown, up to what joints reach.
        has_ends: whether its left-hand and its right-hand end are known.
    """

    key: Hashable
    board: Board
    lie: FlatPlacement
    span: tuple[Fraction, Fraction]
    has_ends: tuple[bool, bool]


def _on_end(of_level: Point, way: Fraction, on_left: bool) -> Point:
    """A direction of a level board at the piece's top, when it is stood on end.

    Args:
        of_level: the direction, as it would be at that corner.
        way: 1, or -1 at the bottom, where it lies the other way up.
        on_left: whether its right-hand end is up, as at A and D.
    """
    right, up = (way * one for one in of_level)
    return (-up, right) if on_left else (up, -right)


def seen_axis(placement: Placement, at_corner: bool) -> int | None:
    """What is seen of two boards that lie in one plane; None where they do not."""
    across, along, through = placement.rows
    if through[2] == 1 and not along[2]:
        return BY_FACES
    if across[0] == 1 and not at_corner and not placement.shift[0]:
        return BY_EDGES
    return None


class Arrangement:
    """Where all boards of some joints lie.

    Args:
        junctions: that hang together.
        axis: what is seen, as `seen_axis` tells.

    Attributes:
        junctions: those whose place is known.
        axis: what is seen.
        follows: lengths of boards that nobody gave, by their names.
        is_known: whether no length had to be guessed.
        is_level: whether the first boards lie level, or would if `front` did not stand them on end.
    """

    def __init__(self, junctions: Sequence[Junction], axis: int) -> None:
        self.axis = axis
        self._all = junctions
        self._pieces: dict[Hashable, _Piece] = {}
        boards = [one.board for junction in junctions for one in junction.both]
        self._lengths = {board.name: board.length for board in boards if board.length}
        given = {*self._lengths}
        start = next((one for one in junctions if not one.placement.rows[1][1]), junctions[0])
        self.is_level = axis == BY_EDGES or start.is_end_to_end or start.placement.rows[0][1] < 0
        way = Fraction(1 if start.letter in "AB" or axis == BY_EDGES else -1)
        zero = Fraction(0)
        level, up = (way, zero), (zero, -way if axis == BY_EDGES else way)
        across, along = (up, level) if self.is_level else (level, (zero, -way))
        if self.is_level and not (start.first_at_side or start.is_end_to_end):  # it stands on end
            across, along = (_on_end(one, way, start.letter in "AD") for one in (across, along))
        # Laid by its joint, wherever that is on the board.
        first = FlatPlacement((zero, zero), across, along)
        self._take(start, 0, first.facing(1 if start.first.hand is Hand.LEFT else -1))
        self._spread()
        self.follows = {name: length for name, length in self._lengths.items() if name not in given}
        self.is_known = True
        while (board := self._open()) is not None:
            self.is_known = False
            self._lengths[board.name] = USUAL * max(each.width for each in boards)
            self._spread()
        self.junctions = [one for one in junctions if {*one.pieces} <= {*self._pieces}]

    def lie(self, junction: Junction, number: int) -> FlatPlacement | None:
        """How the frame lies of the first (0) or second (1) board of a joint; None if unknown."""
        piece = self._pieces.get(junction.pieces[number])
        anchor, offset, turn = self._anchor(junction, number)
        if piece is None or anchor not in piece.known:
            return None
        return (
            FlatPlacement(piece.known[anchor], piece.across, piece.along).facing(turn).moved(offset)
        )

    def laid(self) -> Iterator[Laid]:
        """Each piece where it lies."""
        for key, piece in self._pieces.items():
            start = piece.known.get(Hand.LEFT) or next(iter(piece.known.values()))
            lie = FlatPlacement(start, piece.across, piece.along)
            reached = [
                lie.place(at.point(Fraction(0), along))
                for junction, number in self.at_piece(key)
                if (at := self.lie(junction, number))
                for part in (junction.both[number].member.part,)
                for along in (part.shown_from(part.reach), part.reach)
            ]
            ends = [piece.known.get(hand) for hand in (Hand.LEFT, Hand.RIGHT)]
            low = lie.place(ends[0]) if ends[0] else min(reached)
            high = lie.place(ends[1]) if ends[1] else max(reached)
            has_ends = ends[0] is not None, ends[1] is not None
            yield Laid(key, piece.board, lie, (low, high), has_ends)

    def at_piece(self, key: Hashable) -> Iterator[tuple[Junction, int]]:
        """All joints of a piece, and which of their boards it is."""
        for one in self._all:
            for number in range(2):
                if one.pieces[number] == key:
                    yield one, number

    def is_at_end(self, junction: Junction, number: int) -> bool:
        """Whether a joint is the outermost at a board's end, as at a corner of the piece."""
        key, place = junction.pieces[number], junction.both[number].place
        anchor, offset, _ = self._anchor(junction, number)
        here = [self._anchor(*one) for one in self.at_piece(key)]
        is_end = place.end or place.is_paired or place.along is None
        return (
            bool(is_end)
            and isinstance(anchor, Hand)
            and offset == min(far for other, far, _ in here if other == anchor)
        )

    def is_corner(self, junction: Junction) -> bool:
        """Whether two boards end where they meet."""
        return all(self.is_at_end(junction, number) for number in range(2))

    def _anchor(self, junction: Junction, number: int) -> tuple[Hand | int, Fraction, int]:
        """What a joint's place on a board is measured from, how far, and which way it runs."""
        placed = junction.both[number]
        along, turn = placed.place.along, 1 if placed.hand is Hand.LEFT else -1
        if along is None:
            untold = (
                one.both[at].hand
                for one, at in self.at_piece(junction.pieces[number])
                if one.both[at].place.along is None
            )
            # Where both ends of a board are like that, it is as long as from the one to the other.
            if len({*untold}) == 1:
                return self._all.index(junction), Fraction(0), turn
        return placed.hand, along or Fraction(0), turn

    def _take(self, junction: Junction, number: int, lie: FlatPlacement) -> bool:
        """A board's frame at a joint becomes known; whether that is new."""
        placed, key = junction.both[number], junction.pieces[number]
        anchor, offset, turn = self._anchor(junction, number)
        new = _Piece(placed.board, lie.across, lie.facing(turn).along, {})
        piece = self._pieces.setdefault(key, new)
        is_new = anchor not in piece.known
        piece.known.setdefault(anchor, lie.moved(-offset).origin)
        return is_new

    def _spread(self) -> None:
        """From what is known to all that follows."""
        is_new = True
        while is_new:
            is_new = any(self._step(junction) for junction in self._all)
            is_new |= any(self._completed(piece) for piece in self._pieces.values())

    def _step(self, junction: Junction) -> bool:
        """From one board of a joint to the other."""
        return any(
            self._take(junction, 1 - number, lie.of_other(junction.other_in(number), self.axis))
            for number in range(2)
            if (lie := self.lie(junction, number))
        )

    def _completed(self, piece: _Piece) -> bool:
        """From one end of a board to the other, or from both ends to its length."""
        name, known = piece.board.name, piece.known
        ends = [(hand, known[hand]) for hand in Hand if hand in known]
        if len(ends) == 2 and name not in self._lengths:
            (_, left), (_, right) = ends
            self._lengths[name] = abs(FlatPlacement(left, piece.across, piece.along).place(right))
            return True
        if len(ends) == 1 and name in self._lengths:
            ((hand, end),) = ends
            way = 1 if hand is Hand.LEFT else -1
            lie = FlatPlacement(end, piece.across, piece.along)
            known[hand.other] = lie.point(Fraction(0), way * self._lengths[name])
            return True
        return False

    def _open(self) -> Board | None:
        """A board whose length would lead on to others."""
        for key, piece in self._pieces.items():
            if piece.board.name not in self._lengths and any(
                self.lie(junction, number) is None for junction, number in self.at_piece(key)
            ):
                return piece.board
        return None


def hang_together(junctions: Iterable[Junction]) -> list[list[Junction]]:
    """Joints in groups, each of joints that are linked by pieces that they share."""
    groups: list[list[Junction]] = []
    for one in junctions:
        linked = [
            group for group in groups if any({*one.pieces} & {*other.pieces} for other in group)
        ]
        joined = [other for group in linked for other in group]
        groups = [group for group in groups if group not in linked] + [[*joined, one]]
    return groups


def alike(groups: Iterable[Sequence[Junction]]) -> list[list[Sequence[Junction]]]:
    """Groups of joints together that differ in nothing but what their corners are called."""
    found: dict[object, list[Sequence[Junction]]] = {}
    for group in groups:
        number: dict[Hashable, int] = {}
        key = tuple(
            (
                *(one.letter, one.placement, one.first_at_side),
                *(placed.member for placed in one.both),
                *(number.setdefault(piece, len(number)) for piece in one.pieces),
            )
            for one in group
        )
        found.setdefault(key, []).append(group)
    return [*found.values()]


def face_seen(axis: int) -> Face:
    """The face of every board that is seen."""
    return Face.OUTSIDE if axis == BY_FACES else Face.REFERENCE_EDGE
