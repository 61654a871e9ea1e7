"""Which pieces the joints of a job hold together, and how these lie to each other."""

from collections.abc import Mapping, Sequence
from functools import cached_property

from msgspec import Struct

from joinery_templates.exact import ZERO, Fraction
from joinery_templates.jobs.standing import Piece, Standing, flats, on_pieces
from joinery_templates.wood.board import Hand
from joinery_templates.wood.cut import Vector
from joinery_templates.wood.placement import Placement


class Link(Struct, frozen=True, dict=True):
    """A joint of a piece with another one.

    Attributes:
        at: the piece there.
        mate: which the other piece is.
        other: the other piece there.
    """

    at: Standing
    mate: Piece
    other: Standing

    @cached_property
    def frame(self) -> Placement:
        """The other piece's frame in the piece's, each measured from its left-hand end."""
        return self._own.of(from_left(self.other).reversed())

    @property
    def end_and_grain(self) -> tuple[Vector, Vector]:
        """Of the other piece the end that its place is told from, and the way along it.

        In the piece's frame from its left-hand end.
        """
        return self._own.point((ZERO, -self.other.along, ZERO)), self._own.along

    @property
    def ways_off(self) -> list[Vector]:
        """The ways in which the piece comes off the other, where it is the joint's first board."""
        pose, own = self.at.one.joint.pose, from_left(self.at)
        return [own.turned(way) for way in (pose.apart, *pose.also)]

    @property
    def runs_in(self) -> Fraction:
        """How far the piece's reference edge runs in the other, from the piece's end."""
        return self.runs_in_at(ZERO)

    def runs_in_at(self, x: Fraction) -> Fraction:
        """The same for a line along the piece, `x` from its reference edge.

        In a piece that goes on in line, and has no face across it, as far as the joint is long.
        """
        middle = self.at.board.thickness / 2
        ends = (
            (side.limit - side.normal[0] * x - side.normal[2] * middle) / side.normal[1]
            for side in map(self.at.to_own.half_space, flats(self.other.board))
            if side.normal[1] > 0
        )
        return min(ends, default=self.at.part.reach)

    @property
    def _own(self) -> Placement:
        """The other board's frame at the joint in the piece's from its left-hand end."""
        return from_left(self.at).of(self.at.to_own)


def links(on_boards: Mapping[str, Sequence[Standing]]) -> Mapping[Piece, Sequence[Link]]:
    """All joints between two pieces, by each of the pieces, as far as corners tell these.

    Args:
        on_boards: what stands on each board.
    """
    on = on_pieces(on_boards)
    found: dict[Piece, list[Link]] = {}
    for (number, index, member), (piece, at) in on.items():
        if mate := on.get((number, index, 1 - member)):
            found.setdefault(piece, []).append(Link(at, *mate))
    return found


def from_left(at: Standing) -> Placement:
    """From the frame of a joint into that of its board's left-hand end.

    Where nobody gave the length, a right-hand end stands for it.

    Args:
        at: the board at the joint.
    """
    return at.on_board(None if at.placed.hand is Hand.LEFT else at.board.length or ZERO)
