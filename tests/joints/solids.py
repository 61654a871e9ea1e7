"""Parts of boards as solids, by a geometry kernel that shares nothing with the layout engine."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import combinations

import numpy as np
from manifold3d import Manifold
from msgspec.structs import replace

from joinery_templates.joint import Joint
from joinery_templates.wood.cut import Cut, HalfSpace, Part
from joinery_templates.wood.placement import Placement
from tests.joints.exact_overlap import overlap as overlap_of
from tests.joints.exact_overlap import wood_of

CLOSE_MM3 = 1e-4
"""Volumes below this are rounding; a fault of 0.01 mm makes hundreds of times that."""
SHY_MM = Fraction(1, 1000)
"""By how much a region's faces stay inside, so that they lie in no plane of the boards."""
_MARGIN_MM = 20.0
_SHOWN_PAST_REACH = 10


@dataclass(frozen=True)
class Mated:
    """Two boards in the first one's frame, and what is wrong where they meet."""

    joint: Joint
    first: Manifold
    second: Manifold
    clash: float
    """Volume in mm³ that both boards claim, as the kernel finds it."""
    missing: float
    """Volume in mm³ of the regions that must be full and are not, `SHY_MM` inside their faces."""

    @cached_property
    def overlap(self) -> float:
        """The same as `clash`, but worked out exactly where that is more than rounding."""
        return self.clash if self.clash < CLOSE_MM3 else float(exact_overlap(self.joint))


def around(end: Part) -> Manifold:
    """A box that a board's end or stretch lies well inside of.

    No larger than that: the kernel's tolerance grows with the size of what it cuts.
    """
    length = end.reach + _SHOWN_PAST_REACH
    low = end.shown_from(length)
    sizes = (end.board.width, length - low, end.board.thickness)
    box = Manifold.cube(tuple(float(size) + 2 * _MARGIN_MM for size in sizes))
    return box.translate((-_MARGIN_MM, float(low) - _MARGIN_MM, -_MARGIN_MM))


def convex(half_spaces: tuple[HalfSpace, ...], start: Manifold) -> Manifold:
    """A solid trimmed by half-spaces."""
    solid = start
    for half_space in half_spaces:
        normal = np.array([float(part) for part in half_space.normal])
        size = float(np.linalg.norm(normal))
        # The kernel keeps what lies ahead of the plane; a half-space is what lies behind.
        solid = solid.trim_by_plane(tuple(-normal / size), -float(half_space.limit) / size)
    return solid


@lru_cache(maxsize=1000)
def board_solid(end: Part) -> Manifold:
    """What is left of a board's end or stretch: a box, less every cut."""
    length = end.reach + _SHOWN_PAST_REACH
    low = end.shown_from(length)
    sizes = (end.board.width, length - low, end.board.thickness)
    solid = Manifold.cube(tuple(map(float, sizes))).translate((0, float(low), 0))
    solid = convex((*((end.slant.end,) if end.slant else ()), *end.stock), solid)
    for cut in end.cuts:
        solid -= convex(cut.half_spaces, around(end))
    return solid


def placed(solid: Manifold, placement: Placement) -> Manifold:
    """A solid of the second board's frame in the first board's frame, mirrored where that is."""
    rows = zip(placement.rows, placement.shift, strict=True)
    return solid.transform([[*map(float, row), float(shift)] for row, shift in rows])


@lru_cache(maxsize=500)
def mate(joint: Joint) -> Mated:
    """All pieces put together."""
    one, other = joint.members
    first, second = board_solid(one.part), placed(board_solid(other.part), joint.placement)
    pieces = [first, second]
    for loose in joint.loose:
        pieces += [placed(board_solid(loose.member.part), at) for at in loose.placements]
    regions = [
        convex(tuple(h.moved(-SHY_MM) for h in region), around(one.part)) for region in joint.filled
    ]
    # By inclusion and exclusion: this kernel has been seen to lose volume in unions and
    # differences of solids that touch in a plane.
    shared = [piece ^ other for piece, other in combinations(pieces, 2)]
    clash = sum(both.volume() for both in shared)
    missing = sum(
        region.volume()
        - sum((region ^ piece).volume() for piece in pieces)
        + sum((region ^ both).volume() for both in shared)
        for region in regions
    )
    return Mated(joint, first, second, clash, missing)


def exact_overlap(joint: Joint) -> Fraction:
    """The volume in mm³ that two pieces of a joint both claim, over rationals."""
    one, other = (member.part for member in joint.members)
    placed_parts = [(one, None), (other, joint.placement)]
    placed_parts += [(loose.member.part, at) for loose in joint.loose for at in loose.placements]
    woods = [wood_of(part, part.reach + _SHOWN_PAST_REACH, at) for part, at in placed_parts]
    return sum((overlap_of(a, b) for a, b in combinations(woods, 2)), Fraction(0))


def with_cut_moved(end: Part, number: int, distance: Fraction, axis: int = 0) -> Part:
    """A board's part with one cut moved, across the width if not told otherwise: a fault."""
    cuts = list(end.cuts)
    moved = tuple(
        replace(h, limit=h.limit + h.normal[axis] * distance) for h in cuts[number].half_spaces
    )
    cuts[number] = Cut(moved)
    return replace(end, cuts=tuple(cuts))


def with_fault(
    joint: Joint, member: int, distance: Fraction, number: int = 0, axis: int = 0
) -> Joint:
    """A joint with one cut of one board moved along an axis."""
    members = list(joint.members)
    end = with_cut_moved(members[member].part, number, distance, axis)
    members[member] = replace(members[member], part=end)
    return replace(joint, members=(members[0], members[1]))
