"""Panels, or glass, at the far edge of a rail, which then has a groove or rebate there too.

A rail's reference edge looks away from the stile's end that its place is measured from. Where
something else is let into that edge of the stile nearer to that end, or the stile itself is a rail
that ends there in another board, the space between is closed all round and holds a panel.
"""

from collections.abc import Iterator, Mapping, Sequence

from joinery_templates.errors import OURS, Finding, advice
from joinery_templates.exact import ZERO
from joinery_templates.jobs.standing import SHAVING, Standing, is_groove, known_pieces, stuff
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.solid import remaining


def at_far_edges(on_boards: Mapping[str, Sequence[Standing]]) -> Iterator[tuple[Standing, bool]]:
    """Each end of a rail that has a panel at its far edge, and whether at its other one too.

    It has none there where it is the last rail of a stile or leg, as above a foot.

    Args:
        on_boards: all that stands on each board.
    """
    ends = {
        (one.number, one.index): one
        for standings in on_boards.values()
        for one in standings
        if one.is_end and not one.member
    }
    for standings in on_boards.values():
        for piece in known_pieces(standings):
            grooved = [one for one in piece if one.channels()]
            for one in grooved:
                rail = ends.get((one.number, one.index))
                if one.is_end or rail is None or not rail.channels():
                    continue
                if any(_is_nearer(other, one, piece) for other in grooved):
                    yield rail, any(_is_farther(other, one, piece) for other in grooved)


def is_at_end(one: Standing, piece: Sequence[Standing]) -> bool:
    """Whether a rail whose place nobody told closes a frame: level with an end of the stile.

    So it is where the stile is as long as from it to another one like it.

    Args:
        one: what is let into a stile.
        piece: all that stands on that stile.
    """
    if one.is_end or one.is_measured or one.on_leg:
        return False
    here, there = (
        [other for other in piece if other.placed.hand is hand and other is not one]
        for hand in (one.placed.hand, one.placed.hand.other)
    )
    untold = any(not (other.is_end or other.is_measured) for other in there)
    return untold and all(_is_nearer(one, other, piece) for other in here)


def _is_nearer(other: Standing, one: Standing, piece: Sequence[Standing]) -> bool:
    """Whether it is nearer to the end that the one is measured from, in the same edge.

    A rail whose place nobody told is the frame's own, at the end, where there is room for it.
    Of two such, only one that stands at both ends of the piece is known to be that.
    """
    if other is one or (one.on_leg and other.enters != one.enters):
        return False
    if other.placed.hand is not one.placed.hand:
        length = one.board.length
        return length is not None and one.is_measured and length - other.along < one.along
    if other.is_end or one.is_end:
        return other.is_end
    if one.is_measured:
        return other.along < one.along if other.is_measured else other.part.reach <= one.along
    if other.is_measured:
        return other.along < one.part.reach
    return _is_at_both_ends(other, piece) and not _is_at_both_ends(one, piece)


def _is_farther(other: Standing, one: Standing, piece: Sequence[Standing]) -> bool:
    """Whether it is on the other side, in the same edge."""
    if other is one or (one.on_leg and other.enters != one.enters):
        return False
    return not _is_nearer(other, one, piece)


def _is_at_both_ends(one: Standing, piece: Sequence[Standing]) -> bool:
    """Whether its joint stands at both ends of a piece."""
    return len({other.placed.hand for other in piece if other.number == one.number}) > 1


def cut_into(rail: Standing, units: Units) -> Iterator[Finding]:
    """Advice where the groove in the far edge takes wood of the tenon.

    What it takes of a haunch does no harm, for the panel stands there. A rebate lies beside tenon
    and haunch.

    Args:
        rail: an end of a rail with a panel at its far edge.
        units: that figures are told in.
    """
    board = rail.board
    # Only the tenon reaches to the rail's end.
    cuts = (cut.half_spaces for cut in rail.joint_cuts)
    end = remaining([stuff(board, ZERO, SHAVING)], cuts)
    shoulder = board.width - max(solid.extents[0][1] for solid in end)
    sides = (side for channel in rail.channels() if is_groove(channel) for side in channel)
    deep = max((side.limit for side in sides if side.normal[0]), default=ZERO)
    if shoulder < deep:
        yield advice(
            "groove-in-tenon",
            f'"{board.name}" has a panel at its far edge, and the groove there goes '
            f"{length_text(deep, units)} in: it takes wood of the tenon.",
            OURS,
            f"Keep the tenon {length_text(deep, units)} from the far edge.",
        )
