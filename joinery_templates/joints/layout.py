"""What every family's layout stands on: two boards, and the words for them."""

from fractions import Fraction
from typing import ClassVar

from msgspec import Struct

from joinery_templates.joints.kind import BoardRole, Request
from joinery_templates.lengths import Units, decimal_text, length_text
from joinery_templates.wood.board import Board


class Layout(Struct, frozen=True):
    """Two boards on which a joint is laid out; 0 is the first board and 1 the second.

    Attributes:
        request: what the person gave.
    """

    roles: ClassVar[tuple[BoardRole, BoardRole]]
    request: Request

    @property
    def boards(self) -> tuple[Board, Board]:
        """Both of them."""
        return self.request.boards

    @property
    def units(self) -> Units:
        """That figures are told in."""
        return self.request.units

    @property
    def thinner(self) -> Board:
        """The thinner board, the first where both are alike."""
        return min(self.boards, key=lambda board: board.thickness)

    def text(self, length: Fraction) -> str:
        """A length in the person's units."""
        return length_text(length, self.request.units)

    def named(self, number: int) -> str:
        """A board by its role, with its own name where that is another."""
        role, name = self.roles[number].words, self.boards[number].name
        return f"the {role}" if name == role else f"the {role} ({name})"


def one_in(slope: Fraction) -> str:
    """A slope as a ratio."""
    return f"1:{decimal_text(1 / slope, 2)}"
