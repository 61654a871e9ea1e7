"""Where the boards of a job's joints stand, and what wood is taken of a board there.

A board's name stands for as many equal pieces as the corners ask for: in a four-sided piece
for two, one with its ends at A and B and one at C and D; where it is at the front and back,
at A and D, and B and C. A leg stands at each corner by itself. Corners that are called something
else stand where the corner stands that they are like, and a job may have any number of these: many
equal drawers, say.

Letters go round a box or legs as seen from above, round a frame or shelves as seen from in front.
Where a board has joints of both sorts, the piece lies on its face, seen from above: its top is
near, so that its left side is at A and B; or where its sides are at the front and back, its left
side is near, at A and D.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.errors import Finding
from joinery_templates.exact import ONE, ZERO, Fraction, square_root
from joinery_templates.jobs.job import JointJob
from joinery_templates.jobs.lines import Path
from joinery_templates.joint import Placed, other_end
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import (
    Cut,
    HalfSpace,
    Part,
    Surface,
    at_least,
    at_most,
    dot,
)
from joinery_templates.wood.placement import AGAINST, AS_IT_IS, Placement
from joinery_templates.wood.solid import Solid, box, remaining

THIN = Fraction(1, 3)
"""A wall between two joints thinner than this share of the board is weak (our judgement)."""
BREAKS = {Units.MM: Fraction(2), Units.INCH: INCH / 16}
"""A wall beside a mortise thinner than this breaks out under the chisel (our judgement)."""
ALONG = 1
"""The axis along a board."""
SHAVING = Fraction(1, 100)
"""What counts as no wood; also how much of a board's end is looked at, and how far before it."""

TOP_NEAR, LEFT_NEAR = "ADCB", "DCBA"
"""From above, the corners that are A to D from in front: with the top near, or the left side."""

Piece = tuple[str, int]
"""A board's name, and which of those that are called so."""
At = tuple[bool, bool, str]
"""Whether it is an end of a board, whether the board is at the sides, and the corner's letter, seen
from above."""
Key = tuple[int, int, int]
"""The numbers of a joint, of its corner and of a board in it."""
Span = tuple[Fraction, Fraction]
"""From where to where."""
Sides = tuple[HalfSpace, ...]
"""What bounds a convex solid."""


class Waste(Struct, frozen=True):
    """A convex piece of waste, laid on a board: its half-spaces, and the solid in them."""

    sides: Sides
    solid: Solid

    @property
    def is_bored(self) -> bool:
        """Whether it is a hole."""
        return any(side.surface is Surface.HOLE for side in self.sides)

    def wall(self, other: "Waste") -> tuple[int, Fraction] | None:
        """Along which axis one lies behind the other, and what is left between them.

        0 where they take the same wood, or leave none between them; None where they lie askew.
        """
        apart = gaps(self.solid, other.solid)
        if apart:
            return apart[0] if len(apart) == 1 else None
        near = (side.moved(SHAVING) for side in other.sides)
        if self.solid.within(near):
            return ALONG, ZERO
        both = (self, other), (other, self)
        clear = (one.beyond(side) for one, beside in both for side in beside.sides)
        return ALONG, max(SHAVING, *clear)

    def beyond(self, side: HalfSpace) -> Fraction:
        """How far it lies past a flat, square to it."""
        least = min(dot(side.normal, corner) for corner in self.solid.corners)
        return (least - side.limit) / square_root(dot(side.normal, side.normal))


class Standing(Struct, frozen=True, dict=True):
    """One board of a joint at one of its corners.

    Attributes:
        number: of the joint in the job file, from 0.
        index: of the corner in the joint, from 0.
        one: the joint.
        member: of the joint's boards, from 0.
        placed: the board there.
        from_above: the corners that are its joint's A to D as its board's other joints see them.
    """

    number: int
    index: int
    one: JointJob
    member: int
    placed: Placed
    from_above: str = "ABCD"

    @property
    def key(self) -> Key:
        """By which it is told apart from all others."""
        return self.number, self.index, self.member

    @property
    def board(self) -> Board:
        """The board."""
        return self.placed.board

    @property
    def part(self) -> Part:
        """The end or the stretch of the board."""
        return self.placed.member.part

    @property
    def joint_cuts(self) -> list[Cut]:
        """What is taken of it for the joint itself, grooves left out."""
        return [cut for cut in self.part.cuts if not cut.is_groove]

    @property
    def is_end(self) -> bool:
        """Whether it is an end of the board."""
        return self.placed.place.end is not None

    @property
    def on_leg(self) -> bool:
        """Whether the board is a leg."""
        return self.placed.place.on_leg

    @property
    def letter(self) -> str:
        """The corner in the job file; one that nobody gave is drawn like A."""
        return self.placed.corner.like or "A"

    @property
    def far_letter(self) -> str:
        """The corner in the job file that the other end of a piece is at."""
        return self.letter if self.on_leg else other_end(self.letter, self.is_from_a_to_b)

    @cached_property
    def at(self) -> At:
        """Where it stands."""
        return self._seen_from_above(self.letter)

    @property
    def other_end(self) -> At | None:
        """Where the other end of the same piece stands; None where the board has no such place."""
        return self._far_end if self.placed.place.is_paired else None

    @property
    def piece(self) -> tuple[bool, frozenset[str]]:
        """Which piece of its board it is on: whether that is at the sides, and its two corners."""
        _, at_side, letter = self.at
        return at_side, frozenset((letter, self._far_end[-1]))

    @cached_property
    def _far_end(self) -> At:
        return self._seen_from_above(self.far_letter)

    @property
    def is_from_a_to_b(self) -> bool:
        """Whether its board runs from A to B, or from D to C, by the letters of its joint."""
        return not self.on_leg and (self.member == 0) == self.one.first_at_side

    def _seen_from_above(self, letter: str) -> At:
        at_side = self.is_from_a_to_b != (self.from_above == TOP_NEAR)
        return self.is_end, at_side, self.from_above["ABCD".index(letter)]

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
    def told_first(self) -> str:
        """The same at the start of a sentence."""
        return f"J{self.told[1:]}"

    @property
    def is_measured(self) -> bool:
        """Whether the job says where along the board it is."""
        return self.placed.place.along is not None

    @property
    def is_square(self) -> bool:
        """Whether the boards run square to each other, as in a piece of four sides."""
        return not self.one.joint.placement.rows[1][1]

    @property
    def is_on_one_piece(self) -> bool:
        """Whether its corner tells a piece: not of more sides than four, and not at a seam."""
        _, along, through = self.one.joint.placement.rows
        return not along[1] or (through[2] == 1 and along[1] != 1)

    @property
    def along(self) -> Fraction:
        """How far its y = 0 lies from the board's end on its side, where that is told."""
        return self.placed.place.along or ZERO

    @property
    def span(self) -> Span:
        """From where to where it reaches, from that end."""
        reach = self.part.reach
        return self.along + self.part.shown_from(reach), self.along + reach

    def on_board(self, length: Fraction | None = None) -> Placement:
        """Carries the joint's frame into the board's, at one of its ends.

        Args:
            length: the board's, where that is not the end that the joint is measured from.
        """
        if length is None:
            return Placement(AS_IT_IS, (ZERO, self.along, ZERO))
        return Placement(AGAINST, (ZERO, length - self.along, ZERO))

    def waste(self, ground: Solid, length: Fraction | None = None) -> list[Waste]:
        """What is taken of a board for the joint itself, grooves left out.

        Args:
            ground: what there is of the board, from one of its ends.
            length: as in `on_board`.
        """
        lie, found = self.on_board(length), []
        for cut in self.joint_cuts:
            sides = tuple(map(lie.half_space, cut.half_spaces))
            if solid := ground.within(sides):
                found.append(Waste(sides, solid))
        return found

    @property
    def enters(self) -> tuple[int, bool]:
        """The axis along which a rail comes into this leg, and whether from its far side."""
        return self.to_own.runs

    @property
    def mate(self) -> Part:
        """The joint's other board there."""
        return self.one.joint.members[1 - self.member].part

    @property
    def to_own(self) -> Placement:
        """Carries the other board's frame at the joint into this one's."""
        placement = self.one.joint.placement
        return placement.reversed() if self.member else placement

    @property
    def wood_of_mate(self) -> Sides:
        """What bounds the other board before any cut, in this one's frame at the joint."""
        end = (_end(self.mate),) if Face.END_GRAIN in self.mate.faces else ()
        return tuple(map(self.to_own.half_space, (*flats(self.mate.board), *end)))

    def in_mate(self, solids: Iterable[Solid]) -> list[Solid]:
        """What of some solids on the board is wood of the joint's other one, or a peg in it."""
        on_board = self.on_board()
        wood = tuple(map(on_board.half_space, self.wood_of_mate))
        cuts = (cut for cut in self.mate.cuts if not cut.bore)
        lie = on_board.of(self.to_own)
        return remaining(
            (piece for solid in solids if (piece := solid.within(wood))),
            [tuple(map(lie.half_space, cut.half_spaces)) for cut in cuts],
        )

    def channels(self) -> list[frozenset[HalfSpace]]:
        """What bounds each groove or rebate across the board, which goes on to its other end."""
        grooves = (cut.half_spaces for cut in self.part.cuts if cut.is_groove)
        return [frozenset(side for side in sides if not side.normal[1]) for sides in grooves]


def is_groove(channel: frozenset[HalfSpace]) -> bool:
    """Whether wood stands at both its sides; a rebate runs out at one."""
    return len(channel) > 2


class Told(Struct, frozen=True):
    """A finding on two joints of a board; it is told at the first of them."""

    at: Standing
    other: Standing
    finding: Finding

    @property
    def key(self) -> tuple[object, ...]:
        """Equal for what is told once: corners that are alike are not told one by one."""
        corner, other = (one.placed.corner.name for one in (self.at, self.other))
        at_leg = self.at.one.joint.at_leg
        is_one = corner == other and self.at is not self.other and not at_leg
        at_one = corner if is_one else ""
        numbers = frozenset((self.at.number, self.other.number))
        return self.finding.code, self.at.board.name, numbers, at_one


def by_board(joints: Sequence[JointJob | None]) -> Mapping[str, Sequence[Standing]]:
    """All that stands on each board, in the file's order."""
    found: dict[str, list[Standing]] = {}
    for number, one in enumerate(joints):
        if one is None:
            continue
        for index, corner in enumerate(one.corners):
            for member, placed in enumerate(one.joint.placed(corner)[:2]):
                standing = Standing(number, index, one, member, placed)
                found.setdefault(placed.board.name, []).append(standing)
    return {name: [*_all_from_above(standings)] for name, standings in found.items()}


def _all_from_above(standings: Sequence[Standing]) -> Iterator[Standing]:
    """What stands on one board, its corners seen alike."""
    in_front = [one for one in standings if one.one.is_seen_from_front]
    at_side = {one.is_from_a_to_b for one in standings if not one.one.is_seen_from_front}
    is_near = any((not one.is_from_a_to_b) in at_side for one in in_front)
    for one in standings:
        if at_side and one.one.is_seen_from_front:
            yield replace(one, from_above=TOP_NEAR if is_near else LEFT_NEAR)
        else:
            yield one


def pieces(standings: Iterable[Standing]) -> list[list[Standing]]:
    """What stands on each piece of one board name.

    An end takes one joint: where several stand at ends that are alike, there are as many pieces.
    """
    found: dict[tuple[bool, frozenset[str], int], list[Standing]] = {}
    seen: Counter[object] = Counter()
    for one in standings:
        is_end, at_side, letter = one.at
        place = (at_side, letter, None if is_end else one.number)
        key = *one.piece, seen[place]
        seen[place] += 1
        found.setdefault(key, []).append(one)
    return [*found.values()]


def are_counted(standings: Sequence[Standing]) -> bool:
    """Whether the job says itself that there are as many boards of one name as stand there."""
    count = standings[0].board.pieces
    return count is not None and count >= len(pieces(standings))


def corner_names(standings: Iterable[Standing]) -> list[str]:
    """What the corners are called, each once: several joints stand at one corner of a leg."""
    return [*dict.fromkeys(one.placed.corner.name for one in standings)]


def are_told(standings: Sequence[Standing]) -> bool:
    """Whether the job's corners say on which piece of a board each stands."""
    return bool(standings) and all(
        one.placed.corner.like and one.is_on_one_piece for one in standings
    )


def known_pieces(standings: Sequence[Standing]) -> list[list[Standing]]:
    """What stands on each piece of one board name; none where corners do not tell."""
    return pieces(standings) if are_told(standings) else []


def on_pieces(
    on_boards: Mapping[str, Sequence[Standing]],
) -> Mapping[Key, tuple[Piece, Standing]]:
    """On which piece each board of a joint stands, as far as corners tell.

    Args:
        on_boards: what stands on each board.

    Returns:
        By its key.
    """
    return {
        one.key: ((name, count), one)
        for name, standings in on_boards.items()
        for count, piece in enumerate(known_pieces(standings))
        for one in piece
    }


def shows(channel: Iterable[HalfSpace], at: Standing) -> bool:
    """Whether a groove or rebate that runs out through a board's end can be seen there.

    So it is where it comes out through wood that the joint leaves, and no other board covers it.
    """
    end = _end(at.part)
    near = end.turned().moved(SHAVING)
    opening = stuff(at.board, -ONE, at.part.reach + 1).within((*channel, end, near))
    cuts = (cut.half_spaces for cut in at.joint_cuts)
    left = remaining([opening] if opening else [], cuts)
    just_before = (near.limit + end.limit) / end.normal[1]
    before = (solid.moved((ZERO, just_before, ZERO)) for solid in left)
    return bool(remaining(before, [at.wood_of_mate]))


def stuff(board: Board, low: Fraction, high: Fraction) -> Solid:
    """A board's wood from one place along it to another."""
    return box((ZERO, low, ZERO), (board.width, high, board.thickness))


def flats(board: Board) -> Sides:
    """A board's edges and broad faces."""
    return (
        *(at_least(0, ZERO), at_most(0, board.width)),
        *(at_least(2, ZERO), at_most(2, board.thickness)),
    )


def _end(part: Part) -> HalfSpace:
    """What bounds a board where the part is its end."""
    return part.slant.end if part.slant else at_least(1, ZERO)


def gaps(one: Solid, other: Solid) -> list[tuple[int, Fraction]]:
    """The axes along which two solids are apart, and how far."""
    return [(axis, distance) for axis, distance in enumerate(_apart(one, other)) if distance > 0]


def overlap(one: Solid, other: Solid) -> bool:
    """Whether two solids may meet, as far as their extents tell."""
    return all(distance < 0 for distance in _apart(one, other))


def _apart(one: Solid, other: Solid) -> Iterator[Fraction]:
    """How far two solids are apart along each axis."""
    return (gap(*each) for each in zip(one.extents, other.extents, strict=True))


def thin_wall(axis: int, board: Board, units: Units) -> Fraction:
    """How thick a wall is at least that is no weaker than it should be, along one of the axes."""
    return board.thickness * THIN if axis == ALONG else BREAKS[units]


def gap(one: Span, other: Span) -> Fraction:
    """Between two stretches of a line; below 0 where they overlap."""
    return max(one[0] - other[1], other[0] - one[1])
