"""Parts of boards as solids, by a geometry kernel that shares nothing with the layout engine."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import combinations

import numpy as np
from manifold3d import Manifold
from msgspec.structs import replace

from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.joint import Joint, Loose
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Part, at_least, at_most
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
    """Volume in mm³ of `full_regions` that is empty, `SHY_MM` inside their faces."""

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
        convex(tuple(h.moved(-SHY_MM) for h in region), around(one.part))
        for region in full_regions(joint)
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


Region = tuple[HalfSpace, ...]
"""A convex part of space, in the first board's frame."""


def full_regions(joint: Joint) -> list[Region]:
    """Where the joint must be full of wood when it is put together; no two of these overlap.

    No joint says it: there must be wood wherever the two boards cross, in a board just past the
    other one, and round what is let into both. Only what `_left_empty` says may be empty.
    """
    (one, other), at = (member.part for member in joint.members), joint.placement
    lie_alike = at.along[1] == 1  # side by side; their ends are no part of the joint
    are_cut_off = lie_alike or "tenon" in joint.kind  # a mortise is deeper than its tenon
    first, second = _stock(one, are_cut_off), _carried(_stock(other, are_cut_off), at)
    asked = [(*first, *second)]
    if not any(piece.runs_on for piece in joint.loose):  # of which a stretch alone is shown
        pasts = _past(one, _carried(_faces(other), at))
        asked += [(*first, *past) for past in pasts]
    if not lie_alike:  # a groove is deeper than its tongue
        pasts = _past(other, _carried(_faces(one), at.reversed()))
        asked += [(*second, *_carried(past, at)) for past in pasts]
    boards = _stock(one), _carried(_stock(other), at)
    for piece in joint.loose:
        for place in piece.placements:
            asked += [(*board, *_carried(_round(piece), place)) for board in boards]
    found: list[Region] = []
    for region in asked:
        left = [(region, convex(region, around(one)))]
        for away in (*found, *_left_empty(joint)):
            left = [part for whole in left for part in _without(*whole, away)]
        found += [part for part, solid in left if solid.volume() > CLOSE_MM3]
    return found


def _left_empty(joint: Joint) -> list[Region]:
    """Grooves, holes for pegs, what wedges spread, and a little play past a tenon or a spline."""
    names = {"kerf", "pare", "corner", *(["mitre"] if "tenon" in joint.kind else [])}
    found = []
    for member, at in zip(joint.members, (None, joint.placement), strict=True):
        for cut in member.part.cuts:
            if cut.is_groove or cut.stage.name in names:
                found.append(_carried(cut.half_spaces, at))
            elif cut.bore and not joint.loose:
                flats = (side for side in cut.half_spaces if sum(map(bool, side.normal)) == 1)
                found.append(_carried(tuple(flats), at))
    for piece in joint.loose:
        part = piece.member.part
        for at in piece.placements if piece.is_inside else ():
            for end in (at_most(1, ZERO), at_least(1, part.reach)):
                found.append(_carried((*_faces(part), end), at))
    return found


def _faces(part: Part) -> Region:
    """What a board lies between, across it."""
    wide, thick = part.board.width, part.board.thickness
    return at_least(0, ZERO), at_most(0, wide), at_least(2, ZERO), at_most(2, thick)


def _stock(part: Part, is_cut_off: bool = True) -> Region:
    """A board before anything leaves it, as far as is looked at; past its end if not cut off."""
    length = part.reach + _SHOWN_PAST_REACH
    lows = [part.shown_from(length)]
    if isinstance(part, BoardEnd):
        lows = [ZERO if is_cut_off else -length]
    elif part.left_longer is not None:
        lows.append(-part.left_longer)
    elif part.along is not None:
        lows.append(-part.along)
    return *_faces(part), at_least(1, max(lows)), at_most(1, length)


def _past(part: Part, mate: Region) -> list[Region]:
    """A millimetre of a board past the mate, whose faces stand in its frame."""
    axis = 1 if any(side.normal[1] for side in mate) else 0
    first, *_, last = sorted(mate, key=lambda side: side.normal[axis])
    ways = [last] if axis and isinstance(part, BoardEnd) else [first, last]
    return [
        (*(side for side in mate if side is not way), way.turned(), way.moved(ONE)) for way in ways
    ]


def _round(piece: Loose) -> Region:
    """A loose piece, and a millimetre of what it is let into."""
    part = piece.member.part
    sides = (side if piece.runs_on and side.normal[0] else side.moved(ONE) for side in _faces(part))
    spare = ZERO if piece.is_inside else ONE
    return (*sides, at_least(1, -spare), at_most(1, part.reach + spare))


def _carried(region: Region, at: Placement | None) -> Region:
    return tuple(map(at.half_space, region)) if at else region


def _without(region: Region, solid: Manifold, away: Region) -> Iterator[tuple[Region, Manifold]]:
    """What another region leaves of one, in convex pieces, each with its solid."""
    if convex(away, solid).volume() < CLOSE_MM3:
        yield region, solid
        return
    for number, side in enumerate(away):
        beyond = (*away[:number], side.turned())
        if (left := convex(beyond, solid)).volume() > CLOSE_MM3:
            yield (*region, *beyond), left


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
