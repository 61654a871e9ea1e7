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

from collections.abc import Iterator

from msgspec import Struct

from joinery_templates.exact import ONE, ZERO, Fraction, square_root
from joinery_templates.wood.board import Board
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Surface, at_least, at_most, dot
from joinery_templates.wood.placement import Placement


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
        cuts = [Cut((at_least(1, self.length),))]
        for inward, edge in ((ONE, ZERO), (-ONE, -self.width)):
            to_waist = HalfSpace((inward, -self.slope, ZERO), edge)
            to_tip = HalfSpace((inward, self.slope, ZERO), edge + self.slope * self.length)
            cuts.append(Cut((to_waist, to_tip)))
        return BoardEnd(
            Board("key", self.width, self.thickness), tuple(cuts), self.length, gauged=False
        )

    def half_socket(self, into: Fraction) -> Iterator[HalfSpace]:
        """Half a socket in the key's frame, open at the joint line and at the face.

        Args:
            into: 1 for the half in the first board, -1 for the half in the second.
        """
        middle = (self.width / 2, self.length / 2, ZERO)
        for sideways in (ONE, -ONE):
            normal = (sideways, -into * self.slope, ZERO)
            side = HalfSpace(normal, dot(normal, middle) + self.waist / 2, Surface.WALL)
            yield side.moved(self.fit)
        tip = (ZERO, into, ZERO)
        yield HalfSpace(tip, dot(tip, middle) + self.reach, Surface.WALL)
        if not self.through:
            yield at_most(2, self.proud + self.depth, Surface.SHOULDER)


class JointLine(Struct, frozen=True):
    """The line where two boards meet, on the outside face.

    In its own frame x runs along it, y square to it into the first board, z into the wood.

    Attributes:
        name: in words.
        limits: what it starts and ends at, in words.
        length: of the line; None where nobody told it.
        widths_each: room for one key where their number is not told, in widths of a key.
        nearest: how near a key's middle may come to the line's start, and to its end.
        frame: in the first board's frame.
        placement: of the second board on the first.
    """

    name: str
    limits: tuple[str, str]
    length: Fraction | None
    widths_each: int
    nearest: tuple[Fraction, Fraction]
    frame: Placement
    placement: Placement

    def key_at(self, key: Key, position: Fraction) -> Placement:
        """A key's frame in the first board's frame, with its middle at a place on the line."""
        corner = (position - key.width / 2, -key.length / 2, -key.proud)
        return Placement(self.frame.rows, self.frame.point(corner))

    def sockets(
        self, key: Key, positions: tuple[Fraction, ...]
    ) -> tuple[tuple[Cut, ...], tuple[Cut, ...]]:
        """The sockets in both boards."""
        in_first = self.frame.half_space(at_least(1, ZERO))
        onto_second = self.placement.reversed()
        first, second = [], []
        for at in (self.key_at(key, position) for position in positions):
            one, other = (map(at.half_space, key.half_socket(into)) for into in (ONE, -ONE))
            first.append(Cut((*one, in_first)))
            second.append(Cut(tuple(map(onto_second.half_space, (*other, in_first.turned())))))
        return tuple(first), tuple(second)
