"""Two boards at a corner that leans or is not square in plan: ends, sides along the grain, bevels.

Everything that stands in such a corner, tail, pin or finger, has sides that run along
the grain of both boards: a side's line on the first board's faces leans by `slope` from
the grain, and from face to face it goes along the second board's grain. So the boards
slide together along the second board's grain, and no short grain is left in either.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.exact import square_root
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import (
    BoardEnd,
    Cut,
    HalfSpace,
    Slant,
    Surface,
    Vector,
    at_least,
    at_most,
    dot,
)
from joinery_templates.wood.leaning import (
    LeaningCorner,
    across_the_face,
    foremost,
    places,
    through_the_thickness,
)
from joinery_templates.wood.placement import Placement

ZERO, ONE = Fraction(0), Fraction(1)

Sides = tuple[tuple[HalfSpace | None, HalfSpace | None], ...]
"""For each tail or finger its half-spaces towards the reference edge and the far edge, None
where it ends at an edge of the board."""


@dataclass(frozen=True, slots=True)
class LeaningPair:
    """Two boards and the corner that they meet in; 0 is the first board and 1 the second.

    Attributes:
        boards: both of them.
        corner: how they lean, and the plan angle.
        past: how far each board's end stands past the other board's outside face.
        mitred: whether both ends are cut along one mitre, from arris to arris.
    """

    boards: tuple[Board, Board]
    corner: LeaningCorner
    past: tuple[Fraction, Fraction] = (ZERO, ZERO)
    mitred: bool = False

    def normal(self, number: int) -> Vector:
        """Out of a board's end: square to the other board's faces."""
        return self.corner.outward_of_other(number)

    def mitre_normal(self, number: int) -> Vector:
        """Out of a board that ends in the mitre."""
        one, other = self.boards
        return self.corner.mitre_normal(number, (one.thickness, other.thickness))

    def mitre(self, number: int) -> HalfSpace:
        """The half-space that the board's wood lies in, behind the mitre."""
        normal = self.mitre_normal(number)
        return HalfSpace(normal, normal[1] * self.tip(number))

    def tip(self, number: int) -> Fraction:
        """How far the arris outside, at the reference edge, lies from the end's foremost tip."""
        board = self.boards[number]
        normal = self.mitre_normal(number) if self.mitred else self.normal(number)
        return -foremost(normal, self.past[number], board.width, board.thickness)

    def end_plane(self, number: int) -> HalfSpace:
        """The half-space that the board's wood lies in, behind its end."""
        return self._behind(number, -self.past[number])

    def baseline(self, number: int) -> HalfSpace:
        """What lies before the other board's inside face: the joint's part of the board."""
        return self._behind(number, self.boards[1 - number].thickness).turned()

    def _behind(self, number: int, depth: Fraction) -> HalfSpace:
        """What lies at least so far behind the other board's outside face."""
        normal = self.normal(number)
        return HalfSpace(normal, normal[1] * self.tip(number) - depth, Surface.SHOULDER)

    def reach(self, number: int) -> Fraction:
        """The greatest y of the baseline."""
        plane, board = self.baseline(number), self.boards[number]
        return max(places(plane.normal, plane.limit, board.width, board.thickness))

    @property
    def is_slanted(self) -> bool:
        """Whether the ends are not square, across the faces or through the thickness."""
        return any(self.normal(number)[axis] for number in (0, 1) for axis in (0, 2))

    @property
    def drawn_faces(self) -> tuple[Face, ...]:
        """What is drawn unless all faces are asked for; none where a wrap can be folded.

        Edges are left out: the lines across them join those of both faces.
        """
        return (Face.OUTSIDE, Face.INSIDE, Face.END_GRAIN) if self.is_slanted else ()

    def end(self, number: int, cuts: tuple[Cut, ...]) -> BoardEnd:
        """A board's end, square or slanted as it comes."""
        board = self.boards[number]
        if not self.is_slanted:
            return BoardEnd(board, cuts, self.reach(number))
        slant = Slant(self.end_plane(number), self.baseline(number))
        return BoardEnd(board, cuts, self.reach(number), slant)

    @property
    def placement(self) -> Placement:
        """The second board on the first."""
        return self.corner.placement((self.tip(0), self.tip(1)))

    def end_at(self, number: int, x: Fraction, z: Fraction = ZERO) -> Fraction:
        """The y of a board's end."""
        return _y_of(self.end_plane(number), x, z)

    def baseline_at(self, number: int, x: Fraction, z: Fraction = ZERO) -> Fraction:
        """The y of a board's baseline."""
        return _y_of(self.baseline(number), x, z)

    def end_slope(self, number: int) -> Fraction:
        """How the end runs across the faces: y grows by this for each mm of x."""
        return across_the_face(self.normal(number))

    @property
    def end_bevel(self) -> Fraction:
        """Both ends through the thickness, off square; below 0 where longer on the inside."""
        return through_the_thickness(self.normal(0))

    def along_end(self, number: int) -> Fraction:
        """A length on the line of the end for each mm across the board."""
        return square_root(1 + self.end_slope(number) ** 2)

    def depth_along(self, number: int) -> Fraction:
        """From end to baseline along the grain; the same anywhere on both faces."""
        return self.baseline_at(number, ZERO) - self.end_at(number, ZERO)

    def gauge(self, number: int) -> Fraction:
        """From end to baseline square to both, on both faces."""
        return self.depth_along(number) / self.along_end(number)

    def side(self, x: Fraction, slope: Fraction, lower: bool) -> HalfSpace:
        """A side of a tail or finger of the first board; its wood lies in the half-space.

        Args:
            x: where it stands on the outside face, at the end.
            slope: its lean from the grain, for each mm along, towards the tail's middle.
            lower: whether it is the side towards the reference edge.
        """
        right, down, through = self.corner.grain_of_other(0)
        sign = -ONE if lower else ONE
        # Square to the second board's grain, so that the side runs along it.
        normal = (sign, slope, -(sign * right + slope * down) / through)
        return HalfSpace(normal, dot(normal, (x, self.end_at(0, x), ZERO)))

    def carried(self, side: HalfSpace, fit: Fraction) -> HalfSpace:
        """A side of the first board as one of the second board's space for it, with the fit."""
        return self.placement.reversed().half_space(side).moved(fit)

    def where_side_meets(
        self, number: int, side: HalfSpace, plane: HalfSpace, z: Fraction
    ) -> Fraction:
        """The x of the point where a side, the end or the baseline, and a broad face meet.

        Args:
            number: the board, in whose frame the planes are.
            side: of a tail, pin or finger.
            plane: the end's or the baseline's.
            z: 0 on the outside face, the thickness on the inside face.
        """
        (a, b, c), (p, q, r) = side.normal, plane.normal
        one, other = side.limit - c * z, plane.limit - r * z
        return (one * q - other * b) / (a * q - p * b)

    @property
    def level_edges(self) -> tuple[Fraction, Fraction]:
        """What the edges lose on the first board's outside face when they are planed level.

        At the reference edge and at the far edge; both boards are then level with each
        other, below and above.
        """
        frames = self.corner.frames
        heights = [b.width * f.across[2] for b, f in zip(self.boards, frames, strict=True)]
        rises = [b.thickness * f.inward[2] for b, f in zip(self.boards, frames, strict=True)]
        bottom = max(ZERO, *rises)
        top = min(h + min(ZERO, r) for h, r in zip(heights, rises, strict=True))
        upright = frames[0].across[2]
        return bottom / upright, self.boards[0].width - top / upright

    def filled(self) -> tuple[tuple[HalfSpace, ...], ...]:
        """Where both boards have room in the corner: it must be full of wood."""
        first, second = self.boards
        of_second = (at_least(0, ZERO), at_most(0, second.width))
        return (
            (
                at_least(0, ZERO),
                at_most(0, first.width),
                at_least(2, ZERO),
                at_most(2, first.thickness),
                self._behind(0, ZERO),
                self.baseline(0),
                *(self.placement.half_space(edge) for edge in of_second),
            ),
        )

    def spaces(self, sides: Sides) -> Iterator[Cut]:
        """The first board's waste: what lies between its tails or fingers."""
        lefts = (None, *(upper for _, upper in sides))
        rights = (*(lower for lower, _ in sides), None)
        for left, right in zip(lefts, rights, strict=True):
            if left or right:
                walls = (plane.turned() for plane in (left, right) if plane)
                yield Cut((*walls, self.baseline(0)))

    def sockets(self, sides: Sides, fit: Fraction) -> Iterator[Cut]:
        """The second board's waste: the tails or fingers, moved out by the fit."""
        for pair in sides:
            held = (self.carried(side, fit) for side in pair if side)
            yield Cut((*held, self.baseline(1)))


def _y_of(plane: HalfSpace, x: Fraction, z: Fraction) -> Fraction:
    a, b, c = plane.normal
    return (plane.limit - a * x - c * z) / b
