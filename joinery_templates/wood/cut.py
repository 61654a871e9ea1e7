"""Waste as half-spaces: the one idea that every line comes from.

A joint says which wood leaves each board; every line on every face is computed
from that. A clearance is a half-space moved along its normal.
"""

from enum import StrEnum
from functools import reduce
from operator import add
from typing import ClassVar

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.exact import ONE, ZERO, Fraction, square_root
from joinery_templates.wood.board import Board, Face, Hand

Vector = tuple[Fraction, Fraction, Fraction]
_ALONG = ((ONE, ZERO, ZERO), (ZERO, ONE, ZERO), (ZERO, ZERO, ONE))
_AGAINST = ((-ONE, ZERO, ZERO), (ZERO, -ONE, ZERO), (ZERO, ZERO, -ONE))
"""The normals along each axis, and against it."""

BEYOND = Fraction(10)
"""How much of a board is laid out past its joint, and at most before a stretch's joint."""


class Surface(StrEnum):
    """What the flat that a half-space leaves on the wood is called."""

    SIDE = "side"
    """A sawn side: of a tail, a pin, a finger."""
    WALL = "wall"
    """A side that no saw reaches: it is chopped, planed or routed."""
    SHOULDER = "shoulder"
    """The flat at the baseline, across the grain, where it is chopped."""
    SAWN_SHOULDER = "sawn shoulder"
    """Such a flat where it is sawn: a tenon's, a rebate's, that of a space open at an edge."""
    GROOVE = "groove"
    """Any flat of a groove or rebate along the grain, ploughed by itself."""
    HOLE = "hole"
    """A round wall: of a hole that is bored, or of a dowel; see `hole`."""


class HalfSpace(Struct, frozen=True):
    """All points p with ``normal · p <= limit``, in the frame of a board end.

    Attributes:
        normal: points out of the waste; need not have length 1.
        limit: in mm times the length of the normal.
        surface: what its boundary is on the wood.
    """

    normal: Vector
    limit: Fraction
    surface: Surface = Surface.SIDE

    def contains(self, point: Vector) -> bool:
        """Whether a point lies in the half-space, its boundary included."""
        return dot(self.normal, point) <= self.limit

    def moved(self, distance: Fraction) -> "HalfSpace":
        """The half-space with its boundary moved along the normal, in mm; grows if positive.

        The normal's length may be irrational; it is taken within `exact.ROOT_BOUND`.
        """
        if not distance:
            return self
        return replace(
            self, limit=self.limit + distance * square_root(dot(self.normal, self.normal))
        )

    def turned(self) -> "HalfSpace":
        """The half-space on the other side of the same boundary."""
        x, y, z = self.normal
        return replace(self, normal=(-x, -y, -z), limit=-self.limit)


class Stage(Struct, frozen=True):
    """When a piece of waste leaves, where not all of a part's waste leaves at once.

    Attributes:
        number: 1 for what leaves first.
        name: what is done then, such as ``rebate``.
    """

    number: int = 1
    name: str = ""


AT_ONCE = Stage()
"""All of a part's waste leaves together."""


class Bore(Struct, frozen=True):
    """How a hole is bored.

    Attributes:
        centre: the point of its axis at 0 along it, in the board's frame.
        axis: along which it runs: 0 for x, 1 for y, 2 for z.
        diameter: of the bit.
    """

    centre: Vector
    axis: int
    diameter: Fraction


class Cut(Struct, frozen=True):
    """A convex piece of waste: the points in all of its half-spaces.

    Attributes:
        half_spaces: that bound it.
        stage: when it leaves.
    """

    half_spaces: tuple[HalfSpace, ...]
    stage: Stage = AT_ONCE

    @property
    def is_groove(self) -> bool:
        """Whether it is a groove or rebate along the board, ploughed by itself."""
        return any(side.surface is Surface.GROOVE for side in self.half_spaces)

    @property
    def runs_along(self) -> bool:
        """Whether it runs along the whole board, from end to end."""
        return not any(side.normal[1] for side in self.half_spaces)

    @property
    def bore(self) -> Bore | None:
        """Of a hole that is bored along an axis of the board, how; else None.

        Read off its flats: those of `hole.round_hole` lie on both sides of two axes.
        """
        flats = {
            side.normal: side.limit for side in self.half_spaces if side.surface is Surface.HOLE
        }
        around = [
            (axis, flats[high], flats[low])
            for axis in range(3)
            for high, low in [(at_most(axis, ZERO).normal, at_least(axis, ZERO).normal)]
            if high in flats and low in flats
        ]
        if len(around) != 2:
            return None
        middles = {axis: (high - low) / 2 for axis, high, low in around}
        x, y, z = (middles.get(axis, ZERO) for axis in range(3))
        (along,) = {0, 1, 2} - set(middles)
        _, high, low = around[0]
        return Bore((x, y, z), along, high + low)


class Place(Struct, frozen=True):
    """Where on its board a part stands.

    Attributes:
        words: for the person.
        end: which end of the board it is, None away from the ends.
        along: how far its y = 0 lies from the board's end towards which y falls, None where
            not told.
        is_paired: whether the same board has such a place of the other hand too, at its other
            end; else a board of the other hand is another one.
        on_leg: whether the board stands at a corner of the piece by itself, as a leg.
        has_horn: whether the wood from there to that end is a horn, which comes off last.
    """

    words: str
    end: Hand | None = None
    along: Fraction | None = None
    is_paired: bool = True
    on_leg: bool = False
    has_horn: bool = False


class Slant(Struct, frozen=True):
    """An end that is cut at a slant, across the faces, through the thickness, or both.

    Attributes:
        end: the half-space that the wood lies in; its boundary is the end.
        baseline: a half-space whose boundary is the baseline on every face.
    """

    end: HalfSpace
    baseline: HalfSpace


class BoardEnd(Struct, frozen=True, cache_hash=True):
    """A board's end with the waste that leaves it.

    Attributes:
        board: the board.
        cuts: what is taken away; cuts may touch or overlap, and reach past a slanted end.
        reach: how far from the end the joint reaches along the board: to its baseline.
        slant: how the end is not square, None where it is; y = 0 is then at its foremost
            tip, and `reach` the farthest that the baseline lies from there.
        gauged: whether a baseline is carried across at the reach; a mitre has none.
        stock: what bounds wood that is no board, as a dowel; on that no face carries lines.
    """

    board: Board
    cuts: tuple[Cut, ...]
    reach: Fraction
    slant: Slant | None = None
    gauged: bool = True
    stock: tuple[HalfSpace, ...] = ()
    is_upright: ClassVar[bool] = False
    is_lying: ClassVar[bool] = False
    """An end is told by its hand."""
    sawn: ClassVar[HalfSpace | None] = None
    """A saw reaches the sides everywhere, from the end."""
    up: ClassVar[str] = "this end up"
    """What lies up, in the direction from which y is measured, as a pattern says it."""

    @property
    def faces(self) -> tuple[Face, ...]:
        """The faces that can carry lines."""
        return () if self.stock else tuple(Face)

    @property
    def folds(self) -> bool:
        """Whether a pattern can be folded over the end; else its faces are drawn one by one."""
        return self.slant is None

    @property
    def guide(self) -> tuple[Fraction, str] | None:
        """The line that is carried across every face, as y and in words: the baseline."""
        return (self.reach, "baseline") if self.gauged else None

    @property
    def left_longer(self) -> Fraction | None:
        """How much longer wood is needed here than the board's length, and a little to saw off.

        That length is measured on the outside face at its longer edge. None where the end is
        square: the wood is cut to length before it is set out.
        """
        if not self.slant:
            return None
        (across, along, _), limit = self.slant.end.normal, self.slant.end.limit
        return min((limit - across * x) / along for x in (ZERO, self.board.width))

    def called(self, face: Face) -> str:
        """What a face is called on its pattern."""
        return str(face)

    def place(self, hand: Hand) -> Place:
        """Which end of the board it is."""
        return Place(str(hand), hand, ZERO)

    def shown_from(self, length: Fraction) -> Fraction:
        """Where a face begins that is shown up to y = `length`: at the end."""
        return Fraction(0)


class Bared(BoardEnd, frozen=True, cache_hash=True):
    """A face that comes to light at a board's end when other waste is gone: a tenon's cheek.

    It ends at the reach, where a shoulder stands up.

    Attributes:
        name: what it is called.
        face: that it looks the way of.
        check: how far something on it is from the shoulder, in words; empty where not told.
    """

    name: str = ""
    face: Face = Face.OUTSIDE
    check: str = ""

    @property
    def faces(self) -> tuple[Face, ...]:
        """The faces that can carry lines: this one."""
        return (self.face,)

    @property
    def folds(self) -> bool:
        """Whether a pattern can be folded over an end: it is laid on flat."""
        return False

    @property
    def guide(self) -> tuple[Fraction, str] | None:
        """The line at which the paper comes up against the shoulder."""
        told = ("in the shoulder's corner", "what is below stands up", self.check)
        return (self.reach, "; ".join(filter(None, told))) if self.gauged else None

    def called(self, face: Face) -> str:
        """What the face is called on its pattern."""
        return self.name


def groove_depth(part: "Part", axis: int) -> Fraction:
    """How deep the groove or rebate along a board goes; 0 where there is none, or not one depth.

    Args:
        part: of the board.
        axis: square to the face that it is in: 0 the reference edge, 2 the inside face.
    """
    floors = {
        side.limit / side.normal[axis]
        for cut in part.cuts
        if cut.is_groove
        for side in cut.half_spaces
        if side.normal[axis]
    }
    if len(floors) != 1:
        return ZERO
    (floor,) = floors
    return part.board.thickness - floor if axis else floor


class Stretch(Struct, frozen=True, cache_hash=True):
    """A stretch of a board away from its ends, with the waste that leaves it.

    Its frame is that of a board's end, only that y is measured from a line squared
    across the board; a joint may reach to both sides of that line.

    Attributes:
        board: the board.
        cuts: what is taken away, bounded in y.
        start: the least y to which the joint reaches; 0 or less.
        reach: the greatest y to which it reaches.
        line: what the line at y = 0 is, in words; empty where it is the board's end.
        up: what lies in the direction of falling y, as a pattern says it: ``that end up``.
        hands: what the board is called where the other one is a left-hand end, and
            where it is a right-hand end.
        along: how far y = 0 lies from the board's end towards which y falls, None where not
            told.
        sawn: where a saw reaches the sides, None where it reaches all: else they are chopped.
        is_paired: see `Place`.
        on_leg: see `Place`.
        has_horn: see `Place`.
        is_upright: whether it is a stile, whose end at falling y is the top where the other
            board's reference edge lies down.
        is_lying: whether it lies, so that its ends are told by their hands, and none is up.
        left_longer: as of a `BoardEnd`.
    """

    board: Board
    cuts: tuple[Cut, ...]
    start: Fraction
    reach: Fraction
    line: str
    up: str
    hands: tuple[str, str]
    along: Fraction | None = None
    sawn: HalfSpace | None = None
    is_paired: bool = False
    on_leg: bool = False
    has_horn: bool = False
    is_upright: bool = False
    is_lying: bool = False
    left_longer: Fraction | None = None
    slant: ClassVar[Slant | None] = None
    """There is no end to be slanted."""
    stock: ClassVar[tuple[HalfSpace, ...]] = ()
    """It is a board."""
    folds: ClassVar[bool] = False
    """There is no end for a pattern to be folded over."""

    @property
    def faces(self) -> tuple[Face, ...]:
        """The faces that can carry lines: there is no end grain."""
        return tuple(face for face in Face if face is not Face.END_GRAIN)

    @property
    def guide(self) -> tuple[Fraction, str] | None:
        """The line that is carried across every face, as y and in words; none at the end."""
        return (Fraction(0), self.line) if self.line else None

    def called(self, face: Face) -> str:
        """What a face is called on its pattern."""
        return str(face)

    def place(self, hand: Hand) -> Place:
        """Which of two boards that are mirror images it is, and how far along."""
        words = self.hands[0] if hand is Hand.RIGHT else self.hands[1]
        return Place(words, None, self.along, self.is_paired, self.on_leg, self.has_horn)

    def shown_from(self, length: Fraction) -> Fraction:
        """Where a face begins that is shown up to y = `length`: as far before, on the board."""
        return self.start - min(length - self.reach, BEYOND) if self.line else Fraction(0)


Part = BoardEnd | Stretch
"""What a joint takes wood from: all that tells the two apart is asked of them."""


_UNSAWN = {Surface.SIDE: Surface.WALL, Surface.SAWN_SHOULDER: Surface.SHOULDER}


def unsawn(part: Part) -> Part:
    """The part with walls and shoulders that no saw reaches where it had sawn ones."""
    return replace(
        part,
        cuts=tuple(
            replace(
                cut,
                half_spaces=tuple(
                    replace(side, surface=_UNSAWN.get(side.surface, side.surface))
                    for side in cut.half_spaces
                ),
            )
            for cut in part.cuts
        ),
    )


def dot(one: Vector, other: Vector) -> Fraction:
    """The scalar product."""
    # Most planes lie along an axis, and a product with 0 costs as much as any other.
    products = [a * b for a, b in zip(one, other, strict=True) if a and b]
    return reduce(add, products) if products else ZERO


def at_most(axis: int, limit: Fraction, surface: Surface = Surface.SIDE) -> HalfSpace:
    """The half-space where one coordinate (0 = x, 1 = y, 2 = z) is at most a limit."""
    return HalfSpace(_ALONG[axis], limit, surface)


def at_least(axis: int, limit: Fraction, surface: Surface = Surface.SIDE) -> HalfSpace:
    """The half-space where one coordinate (0 = x, 1 = y, 2 = z) is at least a limit."""
    return HalfSpace(_AGAINST[axis], -limit, surface)
