"""The lap: the part of a board's thickness that is left before the tails' ends and hides them."""

from collections.abc import Iterator
from typing import Any

from joinery_templates.errors import MEMORY, OURS, Finding, advice, refusal
from joinery_templates.exact import Fraction
from joinery_templates.joints.gauge import as_a_gauge_is_set, at_least_as_a_gauge_is_set
from joinery_templates.joints.shared_parameters import size_parameter
from joinery_templates.joints.sources import JOYCE
from joinery_templates.lengths import INCH, Units, length_text
from joinery_templates.wood.board import Board

USUAL_SHARE = Fraction(1, 4)
"""3/16 in (5 mm) in 3/4 in (19 mm) is usual (Joyce 1970)."""
LAP_RULE = (
    "a quarter of the pin board's thickness, rounded to a gauge setting, but at least 3/32 in or "
    f"half of a thin board ({JOYCE}; 3/32 in {MEMORY})"
)
THINNEST = Fraction(3, 32) * INCH
"""3/32 in, the thinnest usual lap (from memory)."""

HALF, TWO_THIRDS = Fraction(1, 2), Fraction(2, 3)
_SHARES = {HALF: "half", TWO_THIRDS: "two thirds"}


def pin_board_lap_parameter() -> Any:
    """The lap over the tails' ends."""
    return size_parameter(
        "Thickness of the lap that hides the tails' ends, on the pin board's outside.", LAP_RULE
    )


def settle_lap(
    given: Fraction | None,
    board: Board,
    units: Units,
    rule: str,
    name: str = "lap",
    share: Fraction = USUAL_SHARE,
) -> tuple[Fraction, tuple[str, ...]]:
    """A lap as given or by rule, and the rule where it decided.

    Args:
        given: its thickness, where it is told.
        board: the board that it is left on.
        units: for figures.
        rule: what decides where it is not told, with what the lap is called.
        name: of the parameter.
        share: of the board, by rule.

    Raises:
        InputError: where the lap is the whole board.
    """
    lap = _usual_lap(board.thickness, share, units) if given is None else given
    if lap >= board.thickness:
        raise refusal(
            "lap-too-thick",
            f'A lap of {length_text(lap, units)} leaves nothing for the joint in "{board.name}"'
            f", {length_text(board.thickness, units)} thick.",
            "Give a thinner lap; about a quarter of the board is usual.",
            name,
        )
    return lap, (f"{rule}.",) if given is None else ()


def _usual_lap(thickness: Fraction, share: Fraction, units: Units) -> Fraction:
    """Its share of a board; on a thin one as much as does not break, or half where it must."""
    least = min(at_least_as_a_gauge_is_set(THINNEST, units), thickness / 2)
    return max(as_a_gauge_is_set(thickness * share, units), least)


def advise_on_lap(
    lap: Fraction, board: Board, name: str, units: Units, most: Fraction = HALF
) -> Iterator[Finding]:
    """A lap that breaks, or that leaves little of the joint behind it.

    Args:
        lap: its thickness.
        board: the board that it is left on.
        name: of the parameter.
        units: for the figures in the words.
        most: the largest share that is not advised against, `HALF` or `TWO_THIRDS`.
    """
    shown = length_text(lap, units)
    # On the thinnest boards no more than half can be left.
    if lap < min(THINNEST, board.thickness / 2):
        yield advice(
            "lap-thin",
            f"A lap of {shown} is thinner than {length_text(THINNEST, units)} and may break out.",
            MEMORY,
            f"3/16 in (5 mm) on a board of 3/4 in (19 mm) is usual ({JOYCE}).",
            name,
        )
    if lap > board.thickness * most:
        yield advice(
            "lap-thick",
            f'A lap of {shown} takes more than {_SHARES[most]} of "{board.name}".',
            OURS,
            "The joint behind it is short and holds little: give a thinner lap.",
            name,
        )
