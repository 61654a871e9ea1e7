"""What every joint asks of its boards, and how what is wrong is refused."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Board

MOST_FIT = Fraction(1, 5)
"""A wider gap than 0.2 mm is too much for most glues (our judgement)."""


def refuse(findings: Iterable[Finding]) -> None:
    """Stop where there is anything to complain of.

    Raises:
        InputError: with all of it.
    """
    told = tuple(findings)
    if told:
        raise InputError(*told)


def widths_differ(boards: tuple[Board, Board], where: str, units: Units) -> Iterator[Finding]:
    """Boards that are not of one width, as they must be at a place such as ``a lapped corner``."""
    first, second = boards
    if first.width != second.width:
        yield mistake(
            "widths-differ",
            f'Board "{first.name}" is {length_text(first.width, units)} wide and '
            f'"{second.name}" {length_text(second.width, units)}.',
            f"{where} both are of one width; plane them together.",
        )


def too_short(
    boards: tuple[Board, Board], reaches: tuple[Fraction, Fraction], units: Units
) -> Iterator[Finding]:
    """Boards no longer than the joint reaches along them, where their lengths are told."""
    for board, reach in zip(boards, reaches, strict=True):
        if board.length is not None and board.length <= reach:
            yield mistake(
                "board-too-short",
                f'Board "{board.name}" is {length_text(board.length, units)} long and the joint '
                f"alone takes {length_text(reach, units)}.",
                "Check the board's length.",
            )
