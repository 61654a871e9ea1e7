"""Which joints of a job must be closed before others, by the ways in which each comes apart.

What is put together is looked at backwards. At each turn all joints open that can: a joint opens
where some boards can be drawn off along a way in which it comes apart, while each joint that
does not come apart in that way holds its boards together. What opens only at a later turn cannot be
reached before, so it is closed first. How far boards are drawn, and what they might strike there,
is not looked at.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain
from math import hypot

from msgspec import Struct

from joinery_templates.errors import OURS, advice
from joinery_templates.exact import Fraction
from joinery_templates.jobs.links import links
from joinery_templates.jobs.standing import Piece, Standing, Told
from joinery_templates.joints.reading import shown
from joinery_templates.joints.words import listed
from joinery_templates.wood.placement import AS_IT_IS, ORIGIN, Placement

Direction = tuple[float, float, float]
ALIKE = 6
"""Directions that agree in so many decimals are one: sines and cosines are rounded."""


class _Contact(Struct, frozen=True):
    """Two pieces that a joint holds together: the first comes off one way, or the second back.

    Attributes:
        joint: its number in the job, from 0.
        off: the first piece.
        from_: the second.
        ways: those in which it comes off, directions in the whole piece.
    """

    joint: int
    off: Piece
    from_: Piece
    ways: tuple[Direction, ...]


def closing_order(
    on_boards: Mapping[str, Sequence[Standing]],
) -> Mapping[int, Sequence[Sequence[int]]]:
    """For each joint that has to wait for others, or others for it, the whole order.

    Args:
        on_boards: what stands on each board.

    Returns:
        By the joint's number from 0: the numbers of all that hang together with it and are closed
        at each turn, the first turn first. A joint of which some corners are closed at one turn
        and others at another is left out, and so is what can never be opened.
    """
    found: dict[int, Sequence[Sequence[int]]] = {}
    for contacts in _hanging_together(on_boards):
        turns: dict[int, set[int]] = defaultdict(set)
        for turn, opened in enumerate(_opened(contacts)):
            for one in opened:
                turns[one.joint].add(turn)
        last_first = sorted({max(at) for at in turns.values() if len(at) == 1}, reverse=True)
        order = [[one for one in sorted(turns) if turns[one] == {turn}] for turn in last_first]
        if len(order) > 1:
            found |= {one: order for turn in order for one in turn}
    return found


def never_closed(on_boards: Mapping[str, Sequence[Standing]]) -> Iterator[Told]:
    """Joints that hold each other: whichever is closed last would have to open another.

    Args:
        on_boards: what stands on each board.
    """
    joints = {one.number: one for one in chain.from_iterable(on_boards.values())}
    for contacts in _hanging_together(on_boards):
        opened = {one for turn in _opened(contacts) for one in turn}
        if stuck := sorted({one.joint for one in contacts if one not in opened}):
            finding = advice(
                "never-closed",
                f"{listed([shown(joints[number].one.name) for number in stuck])} cannot be put "
                "together: each goes in along its own line only, and what is closed already keeps "
                "the next from moving along its own.",
                OURS,
                "Let boards between the same two go in along one line, or lay one in from the "
                "face, as with a halving.",
            )
            yield Told(joints[stuck[0]], joints[stuck[0]], finding)


def _hanging_together(on_boards: Mapping[str, Sequence[Standing]]) -> Iterator[list[_Contact]]:
    """All contacts, by what hangs together; directions are those of its first piece."""
    linked = links(on_boards)
    seen: dict[Piece, Placement] = {}
    for start in linked:
        if start in seen:
            continue
        seen[start] = Placement(AS_IT_IS, ORIGIN)
        waiting, contacts = [start], list[_Contact]()
        while waiting:
            piece = waiting.pop()
            frame = seen[piece]
            for link in linked[piece]:
                if link.at.one.joint.let_in:
                    continue  # boards that a key holds close in any way that they can
                if not link.at.member:
                    ways = tuple(_rough(*frame.turned(way)) for way in link.ways_off)
                    contacts.append(_Contact(link.at.number, piece, link.mate, ways))
                if link.mate not in seen:
                    seen[link.mate] = frame.of(link.frame)
                    waiting.append(link.mate)
        yield contacts


def _rough(x: Fraction, y: Fraction, z: Fraction) -> Direction:
    """A direction of length 1 that can be compared."""
    long = hypot(x, y, z)
    return round(x / long, ALIKE), round(y / long, ALIKE), round(z / long, ALIKE)


def _turned(way: Direction) -> Direction:
    x, y, z = way
    return -x, -y, -z


def _opened(contacts: Sequence[_Contact]) -> Iterator[list[_Contact]]:
    """At each turn those that open while all that is left holds."""
    left = list(contacts)
    while left:
        opened = set[_Contact]()
        for way in {way for one in left for way in one.ways}:
            # Who goes that way takes along whom.
            takes: dict[Piece, set[Piece]] = defaultdict(set)
            for one in left:
                takes[one.off] |= set() if way in one.ways else {one.from_}
                takes[one.from_] |= set() if _turned(way) in one.ways else {one.off}
            bound = _bound(takes)
            opened.update(one for one in left if bound[one.off] != bound[one.from_])
        if not opened:
            return
        yield [one for one in left if one in opened]
        left = [one for one in left if one not in opened]


def _bound(takes: Mapping[Piece, Iterable[Piece]]) -> Mapping[Piece, Piece]:
    """The pieces that take each other along, each by one of them that stands for all."""
    order, seen = list[Piece](), set[Piece]()
    for start in [*takes]:
        path = [(start, iter(takes[start]))] if start not in seen else []
        seen.add(start)
        while path:
            piece, following = path[-1]
            other = next((one for one in following if one not in seen), None)
            if other is None:
                order.append(piece)
                path.pop()
            else:
                seen.add(other)
                path.append((other, iter(takes.get(other, ()))))
    taken_by: dict[Piece, list[Piece]] = defaultdict(list)
    for piece, others in takes.items():
        for other in others:
            taken_by[other].append(piece)
    found: dict[Piece, Piece] = {}
    for start in reversed(order):
        waiting = [start] if start not in found else []
        while waiting:
            piece = waiting.pop()
            if piece not in found:
                found[piece] = start
                waiting += taken_by[piece]
    return found
