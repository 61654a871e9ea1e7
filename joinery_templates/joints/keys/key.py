r"""Double-tapered keys let in across a joint line: the key, its sockets, and where it lies.

The key as it is cut from the end of its stock, and as it lies across the line::

      y = 0, the stock's end             first board
    +---------------+                 \_____________/   tip
     \             /                   \           /
      \           /                     \         /
       |  waist  |          - - - - - - -|       |- - - - -  joint line
      /           \                     /         \
     /             \                   /___________\
    +---------------+  y = length, cut off here         tip
    x = 0        x = width            second board

Sockets are the key itself, its sides and tips moved out by the fit.
"""

from fractions import Fraction

from msgspec import Struct

from joinery_templates.exact import square_root
from joinery_templates.joint import Loose, Member
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import (
    BoardEnd,
    Cut,
    HalfSpace,
    Surface,
    Vector,
    at_least,
    at_most,
)
from joinery_templates.wood.placement import Placement

ZERO, ONE = Fraction(0), Fraction(1)


class Key(Struct, frozen=True):
    """A key.

    Attributes:
        length: from tip to tip.
        width: at both ends.
        waist: at the middle.
        depth: how much of its thickness lies in the boards.
        through: whether it goes right through them.
        proud: how far it stands above the face, a through key on both.
        fit: how far each side and tip of a socket is moved out.
    """

    length: Fraction
    width: Fraction
    waist: Fraction
    depth: Fraction
    through: bool
    proud: Fraction
    fit: Fraction

    @property
    def slope(self) -> Fraction:
        """How much a side leans for each millimetre along the key."""
        return (self.width - self.waist) / self.length

    @property
    def thickness(self) -> Fraction:
        """Of the stock."""
        return self.depth + self.proud * (2 if self.through else 1)

    @property
    def reach(self) -> Fraction:
        """From the joint line to the tip of a socket."""
        return self.length / 2 + self.fit

    @property
    def half_mouth(self) -> Fraction:
        """Half the width of a socket on the joint line."""
        return self.waist / 2 + self.fit * square_root(1 + self.slope**2)

    @property
    def half_width(self) -> Fraction:
        """Half the width of a socket at its tip."""
        return self.half_mouth + self.slope * self.reach

    def end(self) -> BoardEnd:
        """The end of its stock: a long triangle of waste at each side, and what is cut off."""
        s, length, width = self.slope, self.length, self.width
        cuts = (
            Cut(
                (
                    HalfSpace((ONE, -s, ZERO), ZERO),
                    HalfSpace((ONE, s, ZERO), s * length),
                )
            ),
            Cut(
                (
                    HalfSpace((-ONE, -s, ZERO), -width),
                    HalfSpace((-ONE, s, ZERO), s * length - width),
                )
            ),
            Cut((at_least(1, length),)),
        )
        return BoardEnd(Board("key", width, self.thickness), cuts, length, gauged=False)

    def socket(self, first: bool) -> tuple[HalfSpace, ...]:
        """Half a socket in the key's frame, open at the joint line and at the face.

        Args:
            first: the half towards the first board, where y is more than half the length.
        """
        s, length, width = self.slope, self.length, self.width
        sides = (
            HalfSpace((-ONE, -s, ZERO), -s * length, Surface.WALL)
            if first
            else HalfSpace((-ONE, s, ZERO), ZERO, Surface.WALL),
            HalfSpace((ONE, -s, ZERO), width - s * length, Surface.WALL)
            if first
            else HalfSpace((ONE, s, ZERO), width, Surface.WALL),
            at_most(1, length, Surface.WALL) if first else at_least(1, ZERO, Surface.WALL),
        )
        bottom = at_most(2, self.proud + self.depth, Surface.SHOULDER)
        moved = tuple(side.moved(self.fit) for side in sides)
        return moved if self.through else (*moved, bottom)


class JointLine(Struct, frozen=True):
    """The line where two boards meet, on the outside face, in the first board's frame.

    Attributes:
        start: where positions are measured from.
        along: unit vector along the line.
        into: unit vector square to it, into the first board.
        placement: of the second board on the first.
        bounds: what ends a socket at the line where the board itself does not, in
            each board's frame, so that no waste is hatched twice.
    """

    start: Vector
    along: Vector
    into: Vector
    placement: Placement
    bounds: tuple[tuple[HalfSpace, ...], tuple[HalfSpace, ...]] = ((), ())

    def key_at(self, key: Key, position: Fraction) -> Placement:
        """A key's frame in the first board's frame, with its middle at a place on the line."""
        down = (ZERO, ZERO, ONE)
        sideways, back = position - key.width / 2, key.length / 2
        rows = tuple(zip(self.along, self.into, down, strict=True))
        shift = tuple(
            at + sideways * u - back * n - key.proud * z
            for at, (u, n, z) in zip(self.start, rows, strict=True)
        )
        one, two, three = rows
        x, y, z = shift
        return Placement((one, two, three), (x, y, z))

    def sockets(
        self, key: Key, positions: tuple[Fraction, ...]
    ) -> tuple[tuple[Cut, ...], tuple[Cut, ...]]:
        """The sockets in both boards."""
        back = self.placement.reversed()
        places = [self.key_at(key, position) for position in positions]
        first = tuple(
            Cut((*(at.half_space(side) for side in key.socket(first=True)), *self.bounds[0]))
            for at in places
        )
        second = tuple(
            Cut(
                (
                    *(back.half_space(at.half_space(side)) for side in key.socket(first=False)),
                    *self.bounds[1],
                )
            )
            for at in places
        )
        return first, second

    def loose(self, key: Key, positions: tuple[Fraction, ...], count: int) -> Loose:
        """The keys, of which `count` are wanted."""
        role = f"key, make {count}"
        places = tuple(self.key_at(key, position) for position in positions)
        member = Member(role, key.end(), Hand.LEFT, faces=(Face.OUTSIDE,))
        return Loose(member, places)
