"""Boards that one joint holds at one end, and where their other end comes out.

Between two boards that face each other it may end in the air, or run on through the farther one.
Where it ends in that one's wood, its other end is taken to be like the one that the job draws.
"""

from collections.abc import Iterator, Mapping, Sequence

from joinery_templates.errors import OURS, Finding, advice
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.jobs.links import Link, from_left, links
from joinery_templates.jobs.space_between import OFF
from joinery_templates.jobs.standing import ALONG, Piece, Sides, Standing, Told, flats, stuff
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Board, Hand
from joinery_templates.wood.cut import at_least, at_most
from joinery_templates.wood.placement import AS_IT_IS, ORIGIN, Placement

FAR = Fraction(100_000)
"""How far is looked for a board that faces the one that is held, in mm: farther than any piece."""
MOST = 60
"""Where more boards hang together, none is followed: that would take long."""


def free_ends(on_boards: Mapping[str, Sequence[Standing]], units: Units) -> Iterator[Told]:
    """What is told of them.

    Args:
        on_boards: what stands on each board.
        units: that figures are told in.
    """
    linked = links(on_boards)
    seen: set[object] = set()
    for piece, own in linked.items():
        (held, *others) = own
        length, like = held.at.board.length, (held.at.number, held.at.member, held.at.letter)
        if others or not held.at.is_end or length is None or like in seen:
            continue
        seen.add(like)  # corners that are alike lie in pieces of furniture that are
        frames = _frames(piece, linked)
        beyond = [
            (*stretch, boards)
            for other, (frame, boards) in frames.items()
            if other not in (piece, held.mate)
            and (stretch := _across(held.at, frame, boards))
            and stretch[0] > held.runs_in + OFF
        ]
        if beyond:
            low, high, board = min(beyond, key=lambda each: each[:2])
            if length < low - OFF and held.at.board.pieces is None:
                yield Told(held.at, held.at, _short(held, low - length, board, units))
            elif length > high + OFF:
                yield Told(held.at, held.at, _through(held, length - high, board, units))


def _frames(
    start: Piece, linked: Mapping[Piece, Sequence[Link]]
) -> Mapping[Piece, tuple[Placement, Board]]:
    """The frames of all pieces that hang together, in that of one.

    None where one of them is not known, or where they are too many.
    """
    (held, *_) = linked[start]
    found = {start: (Placement(AS_IT_IS, ORIGIN), held.at.board)}
    reached = {start}
    to_do = [start]
    while to_do and len(found) <= MOST:
        piece = to_do.pop(0)
        frame, _ = found[piece]
        for link in linked[piece]:
            reached.add(link.mate)
            if link.mate not in found and _is_known(link.at) and _is_known(link.other):
                found[link.mate] = frame.of(link.frame), link.other.board
                to_do.append(link.mate)
    return found if reached == {*found} and not to_do else {}


def _is_known(at: Standing) -> bool:
    """Whether the job says where on its board a joint is, from the board's left-hand end."""
    is_from_left = at.placed.hand is Hand.LEFT or at.board.length is not None
    return is_from_left and (at.is_end or at.is_measured)


def _across(at: Standing, frame: Placement, board: Board) -> tuple[Fraction, Fraction] | None:
    """From where to where, along a board from its joint, another one lies in its way.

    Args:
        at: where the board is held.
        frame: the other one's, in the board's from its left-hand end.
        board: the other one.
    """
    to_end = from_left(at).reversed().of(frame)
    way = stuff(at.board, ZERO, FAR).within(map(to_end.half_space, _wood(board)))
    return way.extents[ALONG] if way else None


def _wood(board: Board) -> Sides:
    """What bounds a board; one of unknown length goes on and on."""
    ends = (ZERO, board.length) if board.length else (-FAR, FAR)
    return (*flats(board), at_least(ALONG, ends[0]), at_most(ALONG, ends[1]))


def _short(held: Link, by: Fraction, board: Board, units: Units) -> Finding:
    name = held.at.board.name
    return advice(
        "ends-in-the-air",
        f'{held.at.told_first} alone holds "{name}", and its other end stops '
        f'{length_text(by, units)} short of "{board.name}".',
        OURS,
        "Check its length, and give that end a joint; or if it is to end there, say how many there "
        f'are by pieces in [boards."{name}"].',
    )


def _through(held: Link, past: Fraction, board: Board, units: Units) -> Finding:
    return advice(
        "runs-through",
        f'From {held.at.told}, "{held.at.board.name}" runs through "{board.name}" and '
        f"{length_text(past, units)} on, and no joint is there.",
        OURS,
        f'Check its length and angle, or give it a joint with "{board.name}".',
    )
