"""What makes a dovetail impossible on two boards, however its ends are covered."""

from fractions import Fraction

from joinery_templates.errors import InputError, mistake
from joinery_templates.joints.dovetails.corner import DovetailCorner
from joinery_templates.joints.spacing.tails import HALF_PIN, SpacingGiven
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Board


def check_boards(
    tail_board: Board,
    pin_board: Board,
    reaches: tuple[Fraction, Fraction],
    units: Units,
    corner_words: str,
) -> None:
    """Both boards are of one width and longer than their part of the joint.

    Args:
        tail_board: the board with the tails.
        pin_board: the board with the pins.
        reaches: how far the joint reaches along the tail board and the pin board.
        units: for the figures in the words.
        corner_words: what such a corner is called, such as ``a lapped corner``.

    Raises:
        InputError: with everything that is wrong with the boards.
    """
    findings = []
    if tail_board.width != pin_board.width:
        findings.append(
            mistake(
                "widths-differ",
                f'Board "{tail_board.name}" is {length_text(tail_board.width, units)} wide and '
                f'"{pin_board.name}" {length_text(pin_board.width, units)}.',
                f"At {corner_words} both are of one width; plane them together.",
            )
        )
    for board, reach in zip((tail_board, pin_board), reaches, strict=True):
        if board.length is not None and board.length <= reach:
            findings.append(
                mistake(
                    "board-too-short",
                    f'Board "{board.name}" is {length_text(board.length, units)} long and the '
                    f"joint alone takes {length_text(reach, units)}.",
                    "Check the board's length.",
                )
            )
    if findings:
        raise InputError(*findings)


def check_fit(corner: DovetailCorner) -> None:
    """Wood must be left of every pin and half pin, and room in every socket.

    Raises:
        InputError: where the fit allowance eats a pin or closes a socket.
    """
    spacing = corner.spacing
    pins = [half + corner.lean_at_front - corner.fit_across for half in spacing.half_pins]
    if spacing.pins:
        pins.append(corner.pin_widths[0])
    sockets = (tail.width_at(corner.lean - corner.fit_across) for tail in spacing.tails)
    for narrowest, lost, remedy in (
        (min(pins), "nothing of a pin", "Give a smaller fit or wider pins."),
        (min(sockets), "no room for a tail", "Give a fit that presses less or wider tails."),
    ):
        if narrowest <= 0:
            raise InputError(mistake("no-room", f"The fit allowance leaves {lost}.", remedy, "fit"))


def check_starts_with_half_pins(given: SpacingGiven) -> None:
    """Beside a mitred edge stands a half pin.

    Raises:
        InputError: where half tails are asked for.
    """
    if given.edges != HALF_PIN:
        raise InputError(
            mistake(
                "not-with-this-start",
                "Beside a mitred edge there is a half pin, not half a tail.",
                f'Leave it out, or write "{HALF_PIN}".',
                "start",
            )
        )
