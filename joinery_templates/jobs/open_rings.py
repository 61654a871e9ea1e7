"""Boards that meet at corners and do not come round to where they began; ends left without one."""

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from joinery_templates.errors import OURS, Finding, advice
from joinery_templates.jobs.angles import (
    FEWEST,
    NEARLY,
    at_angle,
    plan_of,
    plan_of_ring,
    rings_closed,
)
from joinery_templates.jobs.four_sides import FOUR, four_lengths
from joinery_templates.jobs.standing import Standing, Told
from joinery_templates.joints.corners.angles import LEAST_PLAN, MOST_PLAN
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Board


class Corners(Struct, frozen=True):
    """Boards that corners hold together.

    Attributes:
        boards: each once.
        at: both boards at every corner, in the file's order.
    """

    boards: Sequence[Board]
    at: Sequence[Standing]

    @property
    def first_at(self) -> list[Standing]:
        """The first board at every corner."""
        return [one for one in self.at if not one.member]

    @property
    def count(self) -> int:
        """Of its boards, as far as the job counts all of them."""
        counts = [board.pieces or 0 for board in self.boards]
        return sum(counts) if all(counts) else 0

    @property
    def is_in_turn(self) -> bool:
        """Whether it is a ring of two boards in turn that shows each by one of its ends."""
        one_joint = len({one.number for one in self.at}) == 1
        ends = {(one.board.name, one.placed.hand) for one in self.at}
        counts = {board.pieces for board in self.boards}
        return one_joint and len(self.boards) == len(ends) == 2 and len(counts) == 1


def never_round(on_boards: Mapping[str, Sequence[Standing]], units: Units) -> Iterator[Told]:
    """Corners whose angles close no ring, and rings that show one end of their boards alone.

    Args:
        on_boards: what stands on each board.
        units: that figures are told in.
    """
    for corners in _corners(on_boards):
        plans = [plan_of(one.one.joint) for one in corners.first_at]
        is_even, plan, count = max(plans) - min(plans) <= NEARLY, plans[0], corners.count
        if not (is_even and count > len(FOUR)) and (by_letter := _by_letter(corners)):
            told = [*_four_sides(by_letter)]
            yield from told or four_lengths(corners.at, by_letter, units)
        elif is_even and count >= FEWEST:
            at, rings = corners.first_at[0], rings_closed(count, plan)
            # Boards that turn by the angle that was given would have closed one ring.
            is_turn = rings > 1 and abs(count * plan - 360) <= NEARLY
            if is_turn or not rings:
                # Three at right angles may well be a piece that is open at one side.
                if _can_be_told(at) and (count > len(FOUR) or not at.is_square):
                    yield Told(at, at, _no_ring(at, count, plan))
            elif corners.is_in_turn:
                yield Told(at, at, _one_end(at, count))


def in_four_sides(on_boards: Mapping[str, Sequence[Standing]]) -> set[str]:
    """Names of boards that are sides of a piece of four, by its corners' letters and angles.

    One joint's angle alone does not tell that: it may stand in a ring of more sides.

    Args:
        on_boards: what stands on each board.
    """
    return {
        board.name
        for corners in _corners(on_boards)
        if (by_letter := _by_letter(corners)) and not [*_four_sides(by_letter)]
        for board in corners.boards
    }


def _corners(on_boards: Mapping[str, Sequence[Standing]]) -> Iterator[Corners]:
    """All boards that meet at corners, those together that one corner after another joins."""
    groups: list[set[str]] = []
    found: dict[str, list[Standing]] = {}
    for name, ones in on_boards.items():
        for one in ones:
            if at_angle(one.one.joint):
                found.setdefault(name, []).append(one)
    for ones in found.values():
        names = {name for one in ones for name in one.one.joint.boards}
        for group in [group for group in groups if group & names]:
            groups.remove(group)
            names |= group
        groups.append(names)
    for group in groups:
        at = sorted((one for name in group for one in found[name]), key=lambda one: one.key)
        boards = {one.board.name: one.board for one in at}
        yield Corners([*boards.values()], at)


def _by_letter(corners: Corners) -> dict[str, Standing]:
    """One corner each like A to D; none unless every piece has all four of them."""
    found: dict[str, list[Standing]] = {}
    for one in corners.first_at:
        found.setdefault(one.placed.corner.like, []).append(one)
    counts = {len(ones) for ones in found.values()}
    joints = [len({one.number for one in ones}) for ones in found.values()]
    if {*found} != {*FOUR} or len(counts) > 1 or max(joints) > 1:
        return {}
    return {letter: ones[0] for letter, ones in found.items()}


def _four_sides(by_letter: Mapping[str, Standing]) -> Iterator[Told]:
    """Four corners of one piece that do not add up to a whole turn."""
    plans = {letter: plan_of(one.one.joint) for letter, one in by_letter.items()}
    total = sum(plans.values())
    if abs(total - 360) <= len(FOUR) * NEARLY:
        return
    joints: dict[int, list[Standing]] = {}
    for one in by_letter.values():
        joints.setdefault(one.number, []).append(one)
    ways = [
        f"plan = {_degrees(right)}"
        + (f' in joint {number + 1} "{ones[0].one.name}"' if len(joints) > 1 else "")
        for number, ones in joints.items()
        if LEAST_PLAN <= (right := _right(ones, total)) <= MOST_PLAN and _can_be_told(ones[0])
    ]
    told = ", ".join(f"{letter} {_degrees(plans[letter])}°" for letter in FOUR)
    finding = advice(
        "ring-open",
        f"Seen from above, the corners add up to {_degrees(total)}° ({told}): a piece of four "
        "sides has 360°.",
        OURS,
        f"Write {' or '.join(ways)}." if ways else "Correct the angles.",
        "plan",
    )
    *_, last = joints.values()
    yield Told(last[0], by_letter["A"], finding)


def _right(corners: Sequence[Standing], total: float) -> float:
    """What the angle of some equal corners of four would be, the others being right."""
    return round(plan_of(corners[0].one.joint) + (360 - total) / len(corners), 2)


def _can_be_told(one: Standing) -> bool:
    """Whether the angle of its corner is the job's to say: it is not of a kind that is square."""
    (upright, *_), *_ = one.one.joint.placement.rows
    return not one.is_square or upright != 1


def _no_ring(at: Standing, count: int, plan: float) -> Finding:
    """Of so many boards that are told, and meet at equal corners that close another ring."""
    sides = round(360 / (180 - plan))
    closing = f"{sides} boards" if rings_closed(sides, plan) else "no number of boards"
    right = plan_of_ring(count)
    plan_or = f"plan = {_degrees(right)}" if right <= MOST_PLAN else "another plan"
    return advice(
        "ring-open",
        f"With corners of {_degrees(plan)}°, {closing} would close a ring, and pieces says "
        f"{count}: a ring of {count} has corners of {_degrees(right)}°.",
        OURS,
        f"Write {plan_or}, or correct pieces; let both be where the row is to stay open.",
        "plan",
    )


def _one_end(at: Standing, count: int) -> Finding:
    """Of two boards in turn, of which one corner is drawn and not its mirror image."""
    first, second = at.one.joint.members
    hand = at.placed.hand
    names = f'"{first.part.board.name}"', f'"{second.part.board.name}"'
    ways = (
        'corners = ["A", "B", "C", "D"]'
        if count == len(FOUR)
        else 'corners = [{ name = "Odd corners", like = "A" }, '
        '{ name = "Even corners", like = "B" }]'
    )
    return advice(
        "one-end-drawn",
        f"At every other corner of a ring of {names[0]} and {names[1]} in turn, the {hand.other} "
        f"of {names[0]} meets the {hand} of {names[1]}: for these corners there are no templates.",
        OURS,
        f"Name both sorts of corner: {ways}.",
        "corners",
    )


def _degrees(angle: float) -> str:
    """As it is written in a job: to a hundredth."""
    return f"{angle:.2f}".rstrip("0").rstrip(".")
