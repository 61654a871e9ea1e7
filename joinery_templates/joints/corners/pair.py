"""Two boards at a corner: ends, sides along the grain, laps, bevels.

A square corner is the corner with a plan of 90 degrees and no lean. Everything that
stands in a corner, tail, pin or finger, has sides that run along the grain of both
boards: a side's line on the first board's faces leans by `slope` from the grain, and
from face to face it goes along the second board's grain. So the boards slide together
along the second board's grain, and no short grain is left in either.
"""

from collections.abc import Iterator
from functools import cached_property
from itertools import pairwise
from operator import add

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.exact import ONE, ZERO, Fraction, square_root
from joinery_templates.wood import cut, leaning
from joinery_templates.wood.board import Board
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Stage, Surface, Vector
from joinery_templates.wood.placement import Placement

Side = HalfSpace | None
Sides = tuple[tuple[Side, Side], ...]
"""For each tail or finger its half-spaces towards the reference edge and the far edge, None
where it ends at an edge of the board."""


class BoardPair(Struct, frozen=True, dict=True):
    """Two boards and the corner that they meet in; 0 is the first board and 1 the second.

    Attributes:
        boards: both of them.
        angles: how they lean, and the plan angle.
        past: how far each board's end stands past the other board's outside face;
            negative where it stops short of it.
        starts: how far from each board's end its tails, pins or fingers begin.
        mitred: whether both ends are cut along one mitre, from arris to arris.
        insets: how far the narrower board stands in at the wider one's reference edge and
            far edge, where they differ in width; such boards do not lean.
    """

    boards: tuple[Board, Board]
    angles: leaning.LeaningCorner
    past: tuple[Fraction, Fraction] = (ZERO, ZERO)
    starts: tuple[Fraction, Fraction] = (ZERO, ZERO)
    mitred: bool = False
    insets: tuple[Fraction, Fraction] = (ZERO, ZERO)

    @property
    def wider(self) -> int:
        """Which board is the wider one; the first where neither stands in."""
        return int(any(self.insets) and self.boards[1].width > self.boards[0].width)

    def past_the_other(self, number: int) -> tuple[Fraction, Fraction]:
        """How much of a board lies past the other's reference edge and far edge."""
        return self.insets if number == self.wider else (ZERO, ZERO)

    @property
    def shared(self) -> tuple[Fraction, Fraction]:
        """From where to where across the first board the boards meet, edges planed level."""
        near, far = map(add, self.past_the_other(0), self.level_edges)
        return near, self.boards[0].width - far

    def shift_to(self, number: int) -> Fraction:
        """What a board's x is greater by than the first one's, at one place."""
        return self.past_the_other(number)[0] - self.past_the_other(0)[0]

    def running_on(self, number: int) -> tuple[Side, Side]:
        """The wood of a board past the other's reference edge and far edge, where there is any."""
        near, far = self.past_the_other(number)
        return (
            cut.at_most(0, near) if near else None,
            cut.at_least(0, self.boards[number].width - far) if far else None,
        )

    @cached_property
    def normals(self) -> tuple[Vector, Vector]:
        """Out of both boards' ends, square to the other board's faces."""
        return self.angles.outward_of_other(0), self.angles.outward_of_other(1)

    @cached_property
    def tips(self) -> tuple[Fraction, Fraction]:
        """How far each arris outside, at the reference edge, lies from the end's foremost tip."""
        normals = (self.mitre_normal(0), self.mitre_normal(1)) if self.mitred else self.normals
        one, other = (
            -min(leaning.places(normal, past, board.width, board.thickness))
            for normal, past, board in zip(normals, self.past, self.boards, strict=True)
        )
        return one, other

    def lap(self, number: int) -> Fraction:
        """How much of a board's thickness covers the ends of the other's tails, pins or fingers."""
        return max(self.starts[1 - number] - self.past[1 - number], ZERO)

    def mitre_normal(self, number: int) -> Vector:
        """Out of a board that ends in the mitre."""
        one, other = self.boards
        return self.angles.mitre_normal(number, (one.thickness, other.thickness))

    def mitre(self, number: int) -> HalfSpace:
        """The half-space that the board's wood lies in, behind the mitre."""
        normal = self.mitre_normal(number)
        return HalfSpace(normal, normal[1] * self.tips[number])

    def end_plane(self, number: int) -> HalfSpace:
        """The half-space that the board's wood lies in, behind its end."""
        return self.behind(number, -self.past[number])

    def start_plane(self, number: int) -> HalfSpace:
        """What lies behind the ends of a board's tails, pins or fingers."""
        return self.behind(number, self.starts[number] - self.past[number])

    def baseline(self, number: int) -> HalfSpace:
        """What lies before the other board's inside face: the joint's part of the board."""
        return self.behind(number, self.boards[1 - number].thickness).turned()

    def behind(self, number: int, depth: Fraction) -> HalfSpace:
        """What lies at least so far behind the other board's outside face."""
        normal = self.normals[number]
        return HalfSpace(normal, normal[1] * self.tips[number] - depth, Surface.SHOULDER)

    def floor(self, number: int, both: tuple[Side, ...]) -> tuple[HalfSpace, ...]:
        """Where a board's space ends: at its baseline, its start, and the board's own lap.

        One that is open at an edge and goes right through is sawn off along the baseline.
        """
        start, lap, baseline = self.starts[number], self.lap(number), self.baseline(number)
        if not (lap or all(both)):
            baseline = replace(baseline, surface=Surface.SAWN_SHOULDER)
        return (
            baseline,
            *((self.start_plane(number),) if start else ()),
            *((cut.at_least(2, lap, Surface.SHOULDER),) if lap else ()),
        )

    def reach(self, number: int) -> Fraction:
        """The greatest y of the baseline."""
        return self.farthest(number, self.baseline(number))

    def farthest(self, number: int, plane: HalfSpace) -> Fraction:
        """The greatest y of a plane across a board."""
        board = self.boards[number]
        return max(leaning.places(plane.normal, plane.limit, board.width, board.thickness))

    @property
    def is_slanted(self) -> bool:
        """Whether the ends are not square, across the faces or through the thickness."""
        return any(self.normals[number][axis] for number in (0, 1) for axis in (0, 2))

    @property
    def is_upright(self) -> bool:
        """Whether neither board leans, so that their edges lie level as they are."""
        return not any(self.angles.leans_deg)

    @property
    def is_square_in_plan(self) -> bool:
        """Whether the boards meet at a right angle seen from above."""
        return self.angles.plan_deg == leaning.SQUARE

    def end(self, number: int, cuts: tuple[Cut, ...]) -> BoardEnd:
        """A board's end, square or slanted as it comes."""
        slant = cut.Slant(self.end_plane(number), self.baseline(number))
        reach = self.reach(number)
        return BoardEnd(self.boards[number], cuts, reach, slant if self.is_slanted else None)

    @cached_property
    def placement(self) -> Placement:
        """The second board on the first."""
        level = self.angles.placement(self.tips)
        x, y, z = level.shift
        return replace(level, shift=(x - self.shift_to(1), y, z))

    def end_slope(self, number: int) -> Fraction:
        """How the end runs across the faces: y grows by this for each mm of x."""
        return leaning.across_the_face(self.normals[number])

    def end_bevel(self, number: int) -> Fraction:
        """How far the end is off square through the thickness; below 0 if longer on the inside."""
        # Both ends have the same bevel but at a mitre.
        normal = self.mitre_normal(number) if self.mitred else self.normals[0]
        return leaning.through_the_thickness(normal)

    def along_end(self, number: int) -> Fraction:
        """A length on the line of the end for each mm across the board."""
        return square_root(1 + self.end_slope(number) ** 2)

    def depth_along(self, number: int) -> Fraction:
        """From end to baseline along the grain; the same anywhere on both faces."""
        return _y_of(self.baseline(number), ZERO) - _y_of(self.end_plane(number), ZERO)

    def depth(self, number: int) -> Fraction:
        """From end to baseline, square to both planes."""
        return self.boards[1 - number].thickness + self.past[number]

    def gauge(self, number: int) -> Fraction:
        """From a face's own arris at the end to its baseline, square to both."""
        return self.depth_along(number) / self.along_end(number)

    def gauge_over(self, number: int) -> Fraction:
        """The same on the shorter face, where the gauge's stock meets the longer one's arris."""
        overhang = abs(self.end_bevel(number)) * self.boards[number].thickness
        return self.gauge(number) + overhang

    def side(self, x: Fraction, slope: Fraction, lower: bool) -> HalfSpace:
        """A side of a tail or finger of the first board; its wood lies in the half-space.

        Args:
            x: where it stands on the outside face, at its own end.
            slope: its lean from the grain, for each mm along, towards the tail's middle.
            lower: whether it is the side towards the reference edge.
        """
        right, down, through = self.angles.grain_of_second
        sign = -ONE if lower else ONE
        # Square to the second board's grain, so that the side runs along it.
        normal = (sign, slope, -(sign * right + slope * down) / through)
        return HalfSpace(normal, cut.dot(normal, (x, _y_of(self.start_plane(0), x), ZERO)))

    def carried(self, sides: Sides, fit: Fraction) -> Sides:
        """Sides of the first board as the walls of the second board's spaces, with the fit."""
        onto = self.placement.reversed()

        def wall(side: Side) -> Side:
            return onto.half_space(side).moved(fit) if side else None

        return tuple((wall(lower), wall(upper)) for lower, upper in sides)

    @property
    def heights(self) -> tuple[Fraction, ...]:
        """How far up each board's outside face reaches."""
        frames = zip(self.boards, self.angles.frames, strict=True)
        return tuple(board.width * frame.across[2] for board, frame in frames)

    @property
    def rises(self) -> tuple[Fraction, ...]:
        """How much higher the inside arris of an edge lies than the outside one."""
        frames = zip(self.boards, self.angles.frames, strict=True)
        return tuple(board.thickness * frame.inward[2] for board, frame in frames)

    def reference_edge_at(self, depth: Fraction) -> Fraction:
        """Where the second board's reference edge meets the inside face of the first one.

        Sliding along the second board's grain does not change it.

        Args:
            depth: from the second board's outside face.

        Returns:
            How far in it lies from the first board's reference edge; below 0 past it.
        """
        x, _, through = self.placement.point((ZERO, ZERO, depth))
        right, _, inward = self.angles.grain_of_second
        return x + right * (self.boards[0].thickness - through) / inward

    @property
    def level_edges(self) -> tuple[Fraction, Fraction]:
        """What the edges lose on the first board's outside face when they are planed level.

        At the reference edge and at the far edge; both boards are then level with each
        other, below and above.
        """
        if any(self.insets):
            return ZERO, ZERO
        bottom = max(ZERO, *self.rises)
        top = min(h + min(ZERO, r) for h, r in zip(self.heights, self.rises, strict=True))
        upright = self.angles.frames[0].across[2]
        return bottom / upright, self.boards[0].width - top / upright

    def spaces(self, sides: Sides, edges: tuple[Side, Side], stage: Stage) -> Iterator[Cut]:
        """The first board's waste: what lies between its tails or fingers.

        Args:
            sides: of the tails or fingers.
            edges: what stays before the first of them and behind the last, where that is more
                than runs on past the other board.
            stage: when it leaves.
        """
        before, behind = (edge or own for edge, own in zip(edges, self.running_on(0), strict=True))
        first, last = sides[0][0], sides[-1][1]
        if first:
            yield self._space(stage, before, first)
        for (_, upper), (lower, _) in pairwise(sides):
            yield self._space(stage, upper, lower)
        if last:
            yield self._space(stage, last, behind)

    def _space(self, stage: Stage, *both: Side) -> Cut:
        return Cut((*(side.turned() for side in both if side), *self.floor(0, both)), stage)

    def sockets(self, walls: Sides, stage: Stage) -> Iterator[Cut]:
        """The second board's waste, between the walls of its spaces and what runs on."""
        near, far = (side.turned() if side else None for side in self.running_on(1))
        for lower, upper in walls:
            both = lower or near, upper or far
            yield Cut((*(wall for wall in both if wall), *self.floor(1, both)), stage)


def where_side_meets(side: HalfSpace, plane: HalfSpace, z: Fraction) -> Fraction:
    """The x of the point where a side, a plane across the board and a broad face meet.

    Args:
        side: of a tail, pin or finger, in the board's frame.
        plane: such as the end's or the baseline's.
        z: 0 on the outside face, the thickness on the inside face.
    """
    (a, b, c), (p, q, r) = side.normal, plane.normal
    one, other = (side.limit - c * z, plane.limit - r * z) if z else (side.limit, plane.limit)
    if not p:  # nearly always: the plane lies square across the board
        return (one - other / q * b) / a
    return (one * q - other * b) / (a * q - p * b)


def _y_of(plane: HalfSpace, x: Fraction) -> Fraction:
    """The y of a plane on the outside face."""
    return (plane.limit - plane.normal[0] * x) / plane.normal[1]
