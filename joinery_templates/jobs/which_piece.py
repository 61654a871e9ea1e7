"""Where the corners of a job tell of boards that can hardly be meant.

What is let into a board comes to one of its faces, to the reference edge or the inside face. What
comes to the same board from the other side would seem to stand on a second one; and at a rail
between legs, whose reference edge is down, a stretcher would come from below.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain

from msgspec.structs import replace

from joinery_templates.errors import OURS, Finding, advice, mistake
from joinery_templates.jobs.job import JointJob
from joinery_templates.jobs.standing import (
    Standing,
    Told,
    are_counted,
    are_told,
    by_board,
    corner_names,
    known_pieces,
)
from joinery_templates.joints.upright import TOP
from joinery_templates.joints.words import listed
from joinery_templates.wood.board import BROAD, EDGES, Face

FACES = {
    (0, False): EDGES,
    (0, True): EDGES[::-1],
    (2, False): BROAD,
    (2, True): BROAD[::-1],
}
"""By how a board runs that is let into another, in that one's frame: its face, and the opposite."""
MOST_NAMED = 4
"""Of more corners no more are told by name."""
OnBoards = Mapping[str, Sequence[Standing]]
"""What stands on each board, by its name."""


def hardly_meant(standings: Sequence[Standing]) -> Iterator[Told]:
    """What is told of one board.

    Args:
        standings: all that stands on boards of one name.
    """
    if not are_told(standings):
        return
    ends: dict[object, list[Standing]] = {}
    for one in standings:
        if one.is_end:
            ends.setdefault(one.piece, []).append(one)
    whole = next((each[0] for each in ends.values() if len({one.at for one in each}) > 1), None)
    if not whole and not are_counted(standings):
        yield from _one_end_each(standings)
    # What is let into both, as a shelf into two sides, shows that there are two.
    known = {one.number for one in standings if one.piece in ends}
    for one in standings:
        faces = None if one.is_end or one.on_leg else FACES.get(one.to_own.runs)
        if not faces:
            continue
        if whole and one.number not in known:
            yield Told(one, whole, _on_no_board(one, whole, *faces))
        at_leg = next((end for end in ends.get(one.piece, ()) if end.one.joint.at_leg), None)
        hangs_below = one.is_from_a_to_b and one.letter in "AB"
        if at_leg and faces[0] in EDGES and not hangs_below:
            yield Told(one, at_leg, _between_legs(one, at_leg))


def upside_down(standings: Iterable[Standing]) -> Iterator[Told]:
    """Shelves at C and D, where a board lies turned over: their places count from a side's top.

    Args:
        standings: all that stands on boards of one name.
    """
    for one in standings:
        # A partition, which front names, has its ends at A and D, or at B and C.
        is_shelf = one.part.up == TOP and not (one.on_leg or one.one.first_in_front)
        if is_shelf and one.letter in "CD":
            finding = mistake(
                "shelf-upside-down",
                f'{one.told_first} is like {one.letter}: there "{one.mate.board.name}" would lie '
                "upside down.",
                "At any height write like A at its left-hand end and like B at its right-hand end, "
                'such as { name = "Lower left", like = "A" }: its place counts from the top end.',
            )
            yield Told(one, one, finding)


def ends_left_out(on_boards: OnBoards) -> Iterator[Told]:
    """Boards that have a joint at one end only, or at none, beside others that have both.

    Args:
        on_boards: what stands on each board.
    """
    letters = [*_wrong_letters(on_boards)]
    yield from letters
    known = {name for one in letters for name in one.at.one.joint.boards}
    for name, standings in on_boards.items():
        if name not in known and (short := _short(standings)):
            first = short[0][0]
            yield Told(first, first, _unlike(short, on_boards))


def _short(standings: Sequence[Standing]) -> list[list[Standing]]:
    """Pieces without a joint at both their ends, where others of the same name have them."""
    found = known_pieces(standings)
    short = [piece for piece in found if len({one.at for one in piece if one.is_end}) < 2]
    return short if len(short) < len(found) else []


def _unlike(short: Sequence[Sequence[Standing]], on_boards: OnBoards) -> Finding:
    """Of pieces that have fewer joints at their ends than others of their name."""
    at = short[0][0]
    count = len(known_pieces(on_boards[at.board.name]))
    whole = count - len(short)
    names = [*dict.fromkeys(name for piece in short for name in corner_names(piece))]
    others = ["others"] if len(names) > MOST_NAMED else []
    have = "has" if whole == 1 else "have"
    that, has = ("that", "has") if len(short) == 1 else ("those", "have")
    turned = (
        f'front = "{one.joint.boards[0]}" is missing in joint {number + 1} "{one.name}"'
        if not one.first_in_front
        else f'front does not belong in joint {number + 1} "{one.name}"'
        for number, one in _turned(at.board.name, on_boards)
    )
    likely = next(turned, "")
    return advice(
        "ends-unlike",
        f'{count} boards "{at.board.name}" are counted as cut alike, and {whole} {have} a joint '
        f"at both ends; {that} at {listed([*names[:MOST_NAMED], *others])} {has} not.",
        OURS,
        (f"Most likely {likely}. If not, name" if likely else "Name")
        + " the corners that are missing, or give boards that differ a name of their own.",
    )


def _turned(name: str, on_boards: OnBoards) -> Iterator[tuple[int, JointJob]]:
    """Joints of a board in which front alone, otherwise given, makes all boards' ends alike."""
    joints = {one.number: one.one for ones in on_boards.values() for one in ones}
    odd = sum(map(_odd_ends, on_boards.values()))
    for number in dict.fromkeys(one.number for one in on_boards[name] if one.is_end):
        one = joints[number]
        turned = replace(one, first_in_front=not one.first_in_front)
        after = by_board([{**joints, number: turned}.get(at) for at in range(max(joints) + 1)])
        # No board is likely to stand in front in one joint and at the side in another.
        ways = [{one.piece[0] for one in ones} for ones in after.values()]
        is_clear = max(map(len, ways)) == 1 and not any(map(_short, after.values()))
        if is_clear and sum(map(_odd_ends, after.values())) <= odd:
            yield number, one


def _wrong_letters(on_boards: OnBoards) -> Iterator[Told]:
    """Joints in which another letter at one corner would give all boards both their ends."""
    odd = {name: _odd_ends(ones) if are_told(ones) else 0 for name, ones in on_boards.items()}
    joints: dict[int, dict[int, list[Standing]]] = {}
    for one in chain.from_iterable(on_boards.values()):
        if one.is_end:
            joints.setdefault(one.number, {}).setdefault(one.index, []).append(one)
    for corners in joints.values():
        (first, *ones), *_ = corners.values()
        odd_here = {one.board.name: odd[one.board.name] for one in (first, *ones)}
        has_whole = any(
            odd_here[name] < sum(one.is_end for one in on_boards[name]) for name in odd_here
        )
        # A board of which there is no whole one may well be joined at one end only.
        if not has_whole or not all(odd_here.values()):
            continue
        like: dict[str, list[Standing]] = {}
        for ones in corners.values():
            like.setdefault(ones[0].letter, []).append(ones[0])
        swaps = [
            (letter, other)
            for letter, (one, *_) in like.items()
            for other in sorted({*"ABCD"} - {letter})
            if all(
                not _odd_ends(_with_letter(on_boards[at.board.name], at, other))
                for at in corners[one.index]
            )
        ]
        if swaps:
            yield Told(first, first, _one_letter(first, odd_here, swaps, like))


def _odd_ends(standings: Iterable[Standing]) -> int:
    """How many ends there are of boards without a joint at their other end."""
    ends = [(one.at, far) for one in standings if one.is_end and (far := one.other_end)]
    count = Counter(at for at, _ in ends)
    return sum(max(0, count[at] - count[far]) for at, far in {*ends})


def _with_letter(standings: Iterable[Standing], at: Standing, letter: str) -> list[Standing]:
    """The same, one of them at a corner that is like another."""
    corner = replace(at.placed.corner, like=letter)
    moved = replace(at, placed=replace(at.placed, corner=corner))
    return [moved if one is at else one for one in standings]


def _one_letter(
    at: Standing,
    odd: Mapping[str, int],
    swaps: Sequence[tuple[str, str]],
    like: Mapping[str, Sequence[Standing]],
) -> Finding:
    boards = listed([f'{count} of "{name}"' for name, count in odd.items()])
    ways = " or ".join(f"like {other} instead of {letter}" for letter, other in swaps)
    names = listed([one.placed.corner.name for letter, _ in swaps for one in like[letter]])
    return advice(
        "one-end-each",
        f"{boards} have a joint at one end only. Were one corner of joint {at.number + 1} "
        f'"{at.one.name}" {ways}, each would have one at both ends.',
        OURS,
        f"Check the letters of {names}: most likely one of them is wrong.",
    )


def _one_end_each(standings: Sequence[Standing]) -> Iterator[Told]:
    """Ends of rails or shelves in one joint of which no two belong together."""
    first: dict[int, Standing] = {}
    for one in standings:
        if one.member or not one.is_end or not one.one.is_seen_from_front:
            continue  # an upright may well have a foot that is not joined
        other = first.setdefault(one.number, one)
        if other.at != one.at:
            front = ", or leave front out" if one.one.first_in_front else ""
            finding = advice(
                "one-end-each",
                f"{other.told_first} and {one.placed.corner.name} are ends of two "
                f'boards "{one.board.name}", and no joint has their other ends.',
                OURS,
                f"A board like {other.letter} at one end is like {other.far_letter} at the other: "
                f"correct the corners{front}, unless there are two; then say so by pieces in "
                f'[boards."{one.board.name}"].',
            )
            yield Told(other, one, finding)
            return


def _on_no_board(one: Standing, whole: Standing, face: Face, opposite: Face) -> Finding:
    board = f'"{one.board.name}"'
    return mistake(
        "board-without-ends",
        f"{one.told_first} comes to another {board} than the one in {whole.told}, and no joint has "
        "that one's ends.",
        f"If it is the same one, come to from the other side, at its {opposite}: templates show "
        f"the {face} alone, so draw this joint from a job of its own, in which the {opposite} is "
        f"the {face}. If not, correct the corners or front, give the other {board} its ends, or "
        "give it a name of its own.",
    )


def _between_legs(one: Standing, at_leg: Standing) -> Finding:
    board, mate = f'"{one.board.name}"', one.mate.board.name
    remedy = (
        "What comes from above comes to the far edge: draw this joint from a job of its own, in "
        "which that edge is the reference edge."
        if one.is_from_a_to_b
        else f'Let "{mate}" run from leg to leg; or let it come to the inside face of {board}, '
        'with dowels (form = "tee") or in a housing.'
    )
    return mistake(
        "rail-from-below",
        f'{one.told_first} brings "{mate}" to the reference edge of {board}, which by '
        f"{at_leg.told} lies level between legs, that edge down.",
        remedy,
    )
