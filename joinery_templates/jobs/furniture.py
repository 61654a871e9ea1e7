"""What stands together on each board of the job, and what one joint does to another there.

A board's name stands for as many equal pieces as the corners ask for: in a four-sided piece
for two, one with its ends at A and B and one at C and D; where it is at the front and back,
at A and D, and B and C. Corners that are called something else stand where the corner stands
that they are like, and a job may have any number of these: many equal drawers, say.

All is worked out from the wood: the waste of two joints, laid on one board.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise, product

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.errors import OURS, Finding, Level, advice, mistake
from joinery_templates.jobs.job import JointJob
from joinery_templates.jobs.lines import Path
from joinery_templates.jobs.mistakes import Mistakes
from joinery_templates.joint import Placed
from joinery_templates.joints.reading import shown
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import Cut, HalfSpace, Part, Surface, at_least, at_most
from joinery_templates.wood.placement import Placement
from joinery_templates.wood.solid import Solid, box

ZERO, ONE = Fraction(0), Fraction(1)
THIN = Fraction(1, 3)
"""A wall between two joints thinner than this share of the board is weak (our judgement)."""
SHAVING = Fraction(1, 100)
"""How much of a board's end is looked at, and how far before it."""
MOST_SORTS = 4
"""So many joints that may follow at a board's other end are tried; no piece has more."""
OTHER_ENDS = {
    True: dict(zip("ABCD", "BADC", strict=True)),
    False: dict(zip("ABCD", "DCBA", strict=True)),
}
"""From the corner at a board's one end to that at its other end: at the sides, and in front."""

AS_IT_IS = Placement(((ONE, ZERO, ZERO), (ZERO, ONE, ZERO), (ZERO, ZERO, ONE)), (ZERO, ZERO, ZERO))

At = tuple[bool, str]
"""Whether a board is at the sides, and the letter of the corner that one of its ends is at."""
Span = tuple[Fraction, Fraction]
"""From where to where."""
Sides = tuple[HalfSpace, ...]
"""What bounds a convex solid."""


class Waste(Struct, frozen=True):
    """A convex piece of waste, laid on a board: its half-spaces, and the solid in them."""

    sides: Sides
    solid: Solid

    def wall(self, other: "Waste") -> Fraction | None:
        """How much is left between two along the board; None where neither lies behind the other.

        Below 0 where they take the same wood, or would if their sides did not slant.
        """
        (across, along, through) = (
            _between(self.solid.extent(axis), other.solid.extent(axis)) for axis in range(3)
        )
        return along if across < 0 and through < 0 else None

    def meets(self, other: "Waste") -> bool:
        """Whether they take the same wood."""
        return self.solid.within(other.sides) is not None


class Standing(Struct, frozen=True):
    """One board of a joint at one of its corners.

    Attributes:
        number: of the joint in the job file, from 0.
        index: of the corner in the joint, from 0.
        one: the joint.
        member: of the joint's boards, from 0.
        placed: the board there.
    """

    number: int
    index: int
    one: JointJob
    member: int
    placed: Placed

    @property
    def board(self) -> Board:
        """The board."""
        return self.placed.board

    @property
    def at(self) -> At:
        """Where it stands; a corner that nobody gave is drawn like A."""
        return (self.member == 0) != self.one.first_in_front, self.placed.corner.like or "A"

    @property
    def other_end(self) -> At:
        """Where the other end of the same piece stands."""
        at_side, letter = self.at
        return at_side, OTHER_ENDS[at_side][letter]

    @property
    def is_end(self) -> bool:
        """Whether it is an end of the board."""
        return self.placed.place.end is not None

    @property
    def path(self) -> Path:
        """Where the corner stands in the job file, or the joint where none was given."""
        given = ("corners", self.index) if self.placed.corner.like else ()
        return ("joints", self.number, *given)

    @property
    def told(self) -> str:
        """The joint and the corner in words."""
        corner = self.placed.corner
        at = f" ({corner.name})" if corner.like else ""
        return f'joint {self.number + 1} "{self.one.name}"{at}'

    @property
    def is_measured(self) -> bool:
        """Whether the job says where along the board it is."""
        return self.placed.place.along is not None

    @property
    def along(self) -> Fraction:
        """How far its y = 0 lies from the board's end on its side, where that is told."""
        return self.placed.place.along or ZERO

    @property
    def span(self) -> Span:
        """From where to where it reaches, from that end."""
        part = self.placed.member.part
        return self.along + part.shown_from(part.reach), self.along + part.reach

    def waste(self, ground: Solid, length: Fraction | None) -> list[Waste]:
        """What is taken of a board for the joint itself, grooves left out.

        Args:
            ground: what there is of the board, from one of its ends.
            length: the board's, where that is not the end that the joint is measured from.
        """
        turn, shift = (ONE, self.along) if length is None else (-ONE, length - self.along)
        lie = Placement(
            ((ONE, ZERO, ZERO), (ZERO, turn, ZERO), (ZERO, ZERO, ONE)), (ZERO, shift, ZERO)
        )
        found = []
        for cut in _joint_cuts(self.placed.member.part):
            sides = tuple(lie.half_space(side) for side in cut.half_spaces)
            if solid := ground.within(sides):
                found.append(Waste(sides, solid))
        return found


class Told(Struct, frozen=True):
    """A finding on two joints; it is told at the first of them."""

    at: Standing
    other: Standing
    finding: Finding

    @property
    def key(self) -> tuple[object, ...]:
        """Equal for what is told once: corners that are alike are not told one by one."""
        corner, other = (one.placed.corner.name for one in (self.at, self.other))
        at_one = corner if corner == other and self.at is not self.other else ""
        numbers = frozenset((self.at.number, self.other.number))
        return self.finding.code, self.at.board.name, numbers, at_one


def known_together(
    joints: Sequence[JointJob | None], units: Units, mistakes: Mistakes
) -> tuple[JointJob, ...]:
    """The joints, with advice on what they do to each other; mistakes are noted.

    Args:
        joints: in the file's order, None for one that has a mistake of its own.
        units: that figures are told in.
        mistakes: those found so far; more are added.
    """
    told: dict[tuple[object, ...], Told] = {}
    for standings in _by_board(joints).values():
        for one in _on_board(standings, units):
            told.setdefault(one.key, one)
    advised: dict[int, list[Finding]] = {}
    for one in told.values():
        if one.finding.level is Level.ERROR:
            mistakes.add(one.at.path, one.finding)
        else:
            advised.setdefault(one.at.number, []).append(one.finding)
    return tuple(
        _with_advice(joint, advised.get(number, ())) for number, joint in enumerate(joints) if joint
    )


def _with_advice(one: JointJob, findings: Sequence[Finding]) -> JointJob:
    if not findings:
        return one
    return replace(one, joint=replace(one.joint, findings=(*one.joint.findings, *findings)))


def _by_board(joints: Sequence[JointJob | None]) -> Mapping[str, Sequence[Standing]]:
    """All that stands on each board, in the file's order."""
    found: dict[str, list[Standing]] = {}
    for number, one in enumerate(joints):
        for index, corner in enumerate(one.corners if one else ()):
            assert one
            for member, placed in enumerate(one.joint.placed(corner)):
                if not placed.is_loose:
                    standing = Standing(number, index, one, member, placed)
                    found.setdefault(placed.board.name, []).append(standing)
    return found


def _on_board(standings: Sequence[Standing], units: Units) -> Iterator[Told]:
    yield from _named_twice(standings)
    yield from _let_in_at_ends(standings, units)
    places: dict[tuple[bool, At], list[Standing]] = {}
    for one in standings:
        places.setdefault((one.is_end, one.at), []).append(one)
    for (is_end, _), here in places.items():
        there = places.get((is_end, here[0].other_end), [])
        is_crowded = len(here) > len(there)
        # Each joint once: it does the same at every corner that is like this one.
        ours, theirs = ({one.number: one for one in reversed(some)} for some in (here, there))
        if is_crowded:
            yield from _at_one_end(here) if is_end else _along(ours.values(), units)
        for one in ours.values():
            # A joint that stands at the other end too leaves no room there for another.
            beyond = [theirs[one.number]] if one.number in theirs else [*theirs.values()]
            yield from _facing(one, beyond, units)
            yield from _grooved(one, beyond, units)


def _named_twice(standings: Sequence[Standing]) -> Iterator[Told]:
    """One corner that two joints claim for an end of the same board."""
    found: dict[str, Standing] = {}
    for one in standings:
        corner = one.placed.corner
        if not one.is_end or not corner.like:
            continue
        first = found.setdefault(corner.name.lower(), one)
        if first.number != one.number:
            finding = mistake(
                "corner-twice",
                f"{shown(corner.name)} is given here and in {first.told}: "
                f'an end of "{one.board.name}" takes one joint.',
                "Leave it out of one of the two. At another piece the corner needs a name of its "
                f'own, such as {{ name = "Second box, {corner.name}", like = "{corner.like}" }}.',
            )
            yield Told(one, first, finding)


def _at_one_end(ends: Sequence[Standing]) -> Iterator[Told]:
    """Joints at one end of a board, where there are not as many other ends to go with them."""
    first = ends[0]
    for one in ends:
        if one.number != first.number:
            finding = advice(
                "two-joints-at-end",
                f"{_start(one)} and {first.told} both take the {one.placed.hand} of "
                f'"{one.board.name}".',
                OURS,
                f"The other end of a board that is like {one.at[1]} at one end is like "
                f"{one.other_end[1]}: correct the corners, unless these are ends of two boards.",
            )
            yield Told(one, first, finding)


def _along(let_in: Iterable[Standing], units: Units) -> Iterator[Told]:
    """Neighbours along one board, measured from the same end."""
    measured = [one for one in let_in if one.is_measured]
    for one, other in pairwise(sorted(measured, key=lambda each: each.span)):
        yield from _walled(one, other, units)


def _facing(one: Standing, beyond: Sequence[Standing], units: Units) -> Iterator[Told]:
    """A joint, and the one that comes nearest to it from the other end of the board."""
    measured = [other for other in (one, *beyond) if other.is_measured]
    if len(measured) > 1 and one.is_measured:
        other = max(measured[1:], key=lambda each: each.span)
        yield from _walled(one, other, units, facing=True)


def _let_in_at_ends(standings: Sequence[Standing], units: Units) -> Iterator[Told]:
    """What is let into a board and comes out at its end, or into the joint there.

    Two boards that are mirror images have a top at ends of either hand: where joints of two
    sorts stand at ends of one hand, the shorter one is looked at.
    """
    ends: dict[Hand, Standing] = {}
    for one in sorted(standings, key=lambda each: each.span, reverse=True):
        if one.is_end:
            ends[one.placed.hand] = one
    let_in = {
        (one.number, one.placed.hand): one
        for one in standings
        if one.is_measured and not one.is_end
    }
    for (_, hand), one in let_in.items():
        yield from _broken_out(one, units)
        if hand in ends:
            yield from _walled(one, ends[hand], units)
        if hand.other in ends:
            yield from _walled(one, ends[hand.other], units, facing=True)


def _broken_out(one: Standing, units: Units) -> Iterator[Told]:
    (low, high), long = one.span, one.board.length
    if low < 0 or (long is not None and high > long):
        finding = mistake(
            "out-at-end",
            f'{_start(one)} breaks out at an end of "{one.board.name}": it reaches from '
            f"{length_text(low, units)} to {length_text(high, units)} from the "
            f"{one.placed.member.part.up}.",
            "Move it, or take a longer board.",
        )
        yield Told(one, one, finding)


def _walled(one: Standing, other: Standing, units: Units, facing: bool = False) -> Iterator[Told]:
    """Two joints that take the same wood, or leave little between them.

    Args:
        one: a joint on a board.
        other: another, or the same at the board's other end.
        units: that figures are told in.
        facing: whether they are measured from opposite ends; the board's length must be told.
    """
    board, span, far = one.board, one.span, other.span
    length = board.length if facing else None
    if length is not None:
        far = (length - far[1], length - far[0])
    elif facing:
        return
    thin = board.thickness * THIN
    if _between(span, far) >= thin:
        return
    low, high = min(span[0], far[0]), max(span[1], far[1])
    ground = box((ZERO, low, ZERO), (board.width, high, board.thickness))
    pairs = product(one.waste(ground, None), other.waste(ground, length))
    walls = [(wall, *pair) for pair in pairs if (wall := pair[0].wall(pair[1])) is not None]
    least = min((wall for wall, _, _ in walls), default=thin)
    if least == 0 or any(wall < 0 and a.meets(b) for wall, a, b in walls):
        finding = mistake(
            "joints-meet",
            f'{_start(one)} and {other.told} run into each other on "{board.name}".',
            "Move one of them, or take a longer board; if they are on two boards, give these "
            "names of their own.",
        )
    elif least < thin:
        left = length_text(least, units) if least > 0 else "next to nothing"
        finding = advice(
            "wall-thin",
            f'Between {one.told} and {other.told} {left} of "{board.name}" is left.',
            f"{OURS}: at least a third of the board's thickness",
            "Move one of them, or take a longer board.",
        )
    else:
        return
    first, later = sorted((one, other), key=lambda each: each.number)
    yield Told(later, first, finding)


def _grooved(one: Standing, beyond: Sequence[Standing], units: Units) -> Iterator[Told]:
    """A groove or rebate that is right for one joint and shows at the other end of the board."""
    for profile in _profiles(one):
        plain = [other for other in beyond[:MOST_SORTS] if profile not in _profiles(other)]
        shows = next((other for other in plain if _shows(profile, other)), None)
        if shows:
            name = "groove" if len([side for side in profile if side.normal[0]]) > 1 else "rebate"
            reach = length_text(shows.placed.member.part.reach, units)
            finding = advice(
                f"{name}-shows",
                f'The {name} of {one.told} runs on along "{one.board.name}" and shows at its other '
                f"end, in {shows.told}.",
                OURS,
                f"Stop it {reach} from that end, or give that joint the same {name}: its layout "
                "then keeps clear.",
            )
            yield Told(one, shows, finding)


def _profiles(one: Standing) -> set[frozenset[HalfSpace]]:
    """What bounds the grooves and rebates across a board that go on to its other end."""
    grooves = (cut.half_spaces for cut in one.placed.member.part.cuts if _is_groove(cut))
    return {frozenset(side for side in sides if not side.normal[1]) for sides in grooves}


def _shows(profile: Iterable[HalfSpace], at: Standing) -> bool:
    """Whether a groove that runs out through a board's end can be seen there.

    So it is where it comes out through wood that the joint leaves, and no other board covers it.
    """
    part, board = at.placed.member.part, at.board
    end = part.slant.end if part.slant else at_least(1, ZERO)
    near = end.turned().moved(SHAVING)
    whole = box((ZERO, -ONE, ZERO), (board.width, part.reach + 1, board.thickness))
    opening = whole.within((*profile, end, near))
    left = [opening] if opening and at.is_end else []
    for cut in _joint_cuts(part):
        left = [piece for solid in left for piece in solid.without(cut.half_spaces)]
    just_before = (near.limit + end.limit) / end.normal[1]
    left = [solid.moved((ZERO, just_before, ZERO)) for solid in left]
    for wood in _mates(at):
        left = [piece for solid in left for piece in solid.without(wood)]
    return bool(left)


def _mates(at: Standing) -> Iterator[Sides]:
    """What bounds the other boards of a joint, in a board's own frame."""
    joint = at.one.joint
    frames = [AS_IT_IS, *joint.placements]
    to_own = frames.pop(at.member).reversed()
    others = [member for member in joint.members if member is not at.placed.member]
    for frame, mate in zip(frames, others, strict=True):
        in_first = [frame.half_space(side) for side in _wood(mate.part)]
        yield tuple(to_own.half_space(side) for side in in_first)


def _wood(part: Part) -> Sides:
    """What bounds a board, at its end too where the part is one."""
    board = part.board
    end = (part.slant.end if part.slant else at_least(1, ZERO),)
    return (
        *(at_least(0, ZERO), at_most(0, board.width)),
        *(at_least(2, ZERO), at_most(2, board.thickness)),
        *(end if Face.END_GRAIN in part.faces else ()),
    )


def _joint_cuts(part: Part) -> Iterator[Cut]:
    """What is taken for the joint itself, grooves left out."""
    return (cut for cut in part.cuts if not _is_groove(cut))


def _is_groove(cut: Cut) -> bool:
    return any(side.surface is Surface.GROOVE for side in cut.half_spaces)


def _between(one: Span, other: Span) -> Fraction:
    """The gap between two stretches of a line; below 0 where they overlap."""
    return max(one[0] - other[1], other[0] - one[1])


def _start(one: Standing) -> str:
    """Told at the start of a sentence."""
    return f"J{one.told[1:]}"
