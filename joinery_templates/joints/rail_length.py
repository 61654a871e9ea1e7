"""How long a rail is made that reaches into its stiles, and what is left past its shoulders."""

from joinery_templates.exact import Fraction
from joinery_templates.joints.layout import RailAndStile


def rail_length(layout: RailAndStile, piece: str, reach: Fraction, is_square: bool = True) -> str:
    """What is said of it first of all, by what corners tell of its ends.

    Args:
        layout: the joint.
        piece: what reaches into the stile, as "tenon".
        reach: how long that is, from the rail's end to its shoulder at the far edge.
        is_square: whether the shoulder is square to the rail.
    """
    if not layout.is_at_both_ends:
        return _from_one_end(layout, piece, reach, is_square)
    text, rail, length = layout.text, layout.named(0), layout.rail.length
    where = "" if is_square else ", measured along its far edge,"
    if length is None or length <= 2 * reach:
        return (
            f"Make {rail} as long as the space between the {layout.role(1)}s{where} and "
            f"{text(reach)} more for the {piece} at each of its ends, ends square."
        )
    where = "" if is_square else " along its far edge"
    return (
        f"T{rail[1:]} is {text(length)} long, ends square: with a {piece} {text(reach)} long "
        f"at each, {text(length - 2 * reach)} are left between its shoulders{where}."
    )


def _from_one_end(layout: RailAndStile, piece: str, reach: Fraction, is_square: bool) -> str:
    """The same where the joint does not tell what is at the rail's other end, if anything is."""
    text, rail, length = layout.text, layout.named(0), layout.rail.length
    to_end = f"from the shoulder of its {piece} to its other end"
    where = "" if is_square else ", along its far edge"
    if length is None:
        return (
            f"Make {rail} as long as it is to be {to_end}{where}, and {text(reach)} more "
            f"for the {piece}, ends square."
        )
    words = (
        f"T{rail[1:]} is {text(length)} long, ends square: {text(length - reach)} are left "
        f"{to_end}{where}."
    )
    both = length - 2 * reach
    if both > 0:
        words += f" Where that has such a {piece} too, {text(both)} are left between its shoulders."
    return words
