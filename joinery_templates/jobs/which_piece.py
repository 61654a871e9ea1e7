"""Where the corners of a job tell of boards that can hardly be meant.

What is let into a board comes to one of its faces, to the reference edge or the inside face. What
comes to the same board from the other side would seem to stand on a second one; and at a rail
between legs, whose reference edge is down, a stretcher would come from below.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain, combinations, product

from msgspec.structs import replace

from joinery_templates.errors import OURS, Finding, advice, mistake
from joinery_templates.exact import Fraction
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
from joinery_templates.joint import other_end
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
    """Boards that have a joint at one end only, or at none, or another one than those beside them.

    Args:
        on_boards: what stands on each board.
    """
    letters = [*_wrong_letters(on_boards), *_to_no_leg(on_boards), *_on_one_side(on_boards)]
    yield from letters
    known = {name for one in letters for name in one.at.one.joint.boards}
    for name, standings in on_boards.items():
        if name not in known and (short := _short(standings)):
            first = short[0][0]
            yield Told(first, first, _unlike(short, on_boards))
        elif name not in known and (sorts := _sorts(standings)):
            yield _otherwise(*sorts[:2])


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


def _sorts(standings: Sequence[Standing]) -> list[list[Standing]]:
    """What stands at the ends of one piece of each sort, where joints of other kinds hold them."""
    sorts: dict[object, list[Standing]] = {}
    for piece in known_pieces(standings):
        ends = [one for one in piece if one.is_end]
        if len({one.at for one in ends}) > 1:
            sorts.setdefault(tuple(sorted(one.one.joint.kind for one in ends)), ends)
    return [*sorts.values()] if len(sorts) > 1 else []


def _otherwise(first: Sequence[Standing], other: Sequence[Standing]) -> Told:
    """Of pieces of one name that have joints of other kinds at their ends."""
    usual, at = next(
        both for both in product(first, other) if both[0].one.joint.kind != both[1].one.joint.kind
    )
    finding = advice(
        "ends-unlike",
        f'Boards "{at.board.name}" are counted as cut alike, but {usual.told} and {at.told} give '
        "them ends of different kinds.",
        OURS,
        f'Check which board is which in joint {at.number + 1} "{at.one.name}", or give boards '
        "that differ a name of their own.",
    )
    return Told(at, usual, finding)


def _turned(name: str, on_boards: OnBoards) -> Iterator[tuple[int, JointJob]]:
    """Joints of a board in which front alone, otherwise given, makes all boards' ends alike."""
    joints = {one.number: one.one for ones in on_boards.values() for one in ones}
    odd = sum(map(_odd_ends, on_boards.values()))
    for number in dict.fromkeys(one.number for one in on_boards[name] if one.is_end):
        one = joints[number]
        front = not one.first_in_front
        turned = replace(one, request=replace(one.request, first_in_front=front))
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
    """Ends of rails or shelves, at one place along what they come to, that do not go together."""
    # An upright may well have a foot that is not joined.
    ends = [
        one for one in standings if one.is_end and not one.member and one.one.is_seen_from_front
    ]
    for other, one in combinations(ends, 2):
        is_level = one.number == other.number or None is not _place(one) == _place(other)
        if is_level and other.at != one.at:
            yield Told(other, one, _two_boards(other, one))
            return


def _place(one: Standing) -> Fraction | None:
    """Where a rail is let in along what it comes to; None for one that is not."""
    return one.one.joint.placed(one.placed.corner)[1 - one.member].place.along


def _to_no_leg(on_boards: OnBoards) -> Iterator[Told]:
    """Rails that end at legs, and do not come to the legs of the job at their other ends."""
    for standings in on_boards.values():
        ends = [one for one in standings if one.is_end and one.one.joint.at_leg]
        at = {one.at for one in ends}
        other = next((one for one in ends if one.at != ends[0].at), None)
        if not other or are_counted(standings) or any(one.other_end in at for one in ends):
            continue
        legs = {(one.mate.board.name, one.far_letter) for one in ends}
        if all(any(leg.letter == far for leg in on_boards[name]) for name, far in legs):
            yield Told(ends[0], other, _two_boards(ends[0], other))


def _two_boards(other: Standing, one: Standing) -> Finding:
    """Of two ends that the corners tell as those of two boards."""
    turned = ""
    if other_end(other.letter, not other.is_from_a_to_b) == one.letter:
        turned = ", or on" if one.one.joint.at_leg else ""
        turned = ", or leave front out" if one.one.first_in_front else turned
    corner = one.placed.corner.name if one.number == other.number else one.told
    return advice(
        "one-end-each",
        f"{other.told_first} and {corner} are ends of two boards "
        f'"{one.board.name}", and no joint has their other ends.',
        OURS,
        f"A board like {other.letter} at one end is like {other.far_letter} at the other: "
        f"correct the corners{turned}, unless there are two; then say so by pieces in "
        f'[boards."{one.board.name}"].',
    )


def _is_in_a_box(one: Standing) -> bool:
    """Whether it is at a corner that is one of the four of a box, and not merely like one."""
    joint = one.one.joint
    is_box = joint.at_corner and not joint.at_leg and not one.one.is_seen_from_front
    return is_box and bool(one.placed.corner.letter) and one.is_on_one_piece


def _on_one_side(on_boards: OnBoards) -> Iterator[Told]:
    """Two boards at one side of a box, one at each end of it, neither with its other end."""
    ends: dict[object, list[Standing]] = {}
    for standings in on_boards.values():
        at = {one.at for one in standings}
        for one in standings:
            far = one.other_end if one.is_end and _is_in_a_box(one) else None
            if far and far not in at:
                ends.setdefault(one.at, []).append(one)
    for other in chain.from_iterable(ends.values()):
        for one in ends.get(other.other_end, ()):
            are_two = other.number < one.number and other.board.name != one.board.name
            if are_two and other.mate.board.name == one.mate.board.name:
                finding = advice(
                    "one-end-each",
                    f'{other.told_first} brings "{other.board.name}" to one side of the piece and '
                    f'{one.told} brings "{one.board.name}" to it; neither has its other end.',
                    OURS,
                    f"A board like {other.letter} at one end is like {other.far_letter} at the "
                    "other: correct the corners.",
                )
                yield Told(other, one, finding)


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
