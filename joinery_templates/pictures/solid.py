"""Pieces as solids with flat faces, from the same half-spaces as every line of a template.

A face is a convex polygon less the convex holes that cuts leave in it; a cut's own flats are
faces too. Nothing is cut to a picture, so all is in floats.
"""

from collections.abc import Sequence
from math import sqrt

from msgspec import Struct

from joinery_templates.exact import Fraction, as_float
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import Cut, HalfSpace, Part, at_least, at_most

Spot = tuple[float, float, float]
"""A point in space, or a direction."""

CLOSE = 1e-7
"""What lies nearer than this to a plane, in mm, lies in it."""
ASKEW = 1e-6
"""The sine of an angle: a face that looks less than this towards the eye is not seen."""


class Plane(Struct, frozen=True):
    """All points p with ``normal · p <= limit``; the normal has length 1.

    Attributes:
        normal: out of the region.
        limit: in mm.
        name: of the board's face that it bounds, TORN where the board is only broken off, or of
            the surface that a cut leaves.
    """

    normal: Spot
    limit: float
    name: str = ""

    def excess(self, spot: Spot) -> float:
        """How far outside a point is."""
        x, y, z = self.normal
        return x * spot[0] + y * spot[1] + z * spot[2] - self.limit

    def turned(self) -> "Plane":
        """The other side of the same boundary."""
        x, y, z = self.normal
        return Plane((-x, -y, -z), -self.limit, self.name)


TORN = "torn"
Ring = tuple[tuple[Spot, str], ...]
"""A convex polygon: its corners in order, each with the name of the plane whose edge starts
there."""
Region = tuple[Plane, ...]
"""A convex piece of space."""


class Flat(Struct, frozen=True):
    """A face of a solid.

    Attributes:
        plane: that it lies in, its normal out of the wood.
        ring: the face as if nothing were taken out of it.
        holes: where nothing is left of it.
        waste: what of it is still to go.
    """

    plane: Plane
    ring: Ring
    holes: tuple[Ring, ...]
    waste: tuple[Ring, ...] = ()


def plane_of(half_space: HalfSpace, name: str = "") -> Plane:
    """A half-space in floats."""
    x, y, z = map(as_float, half_space.normal)
    length = sqrt(x * x + y * y + z * z)
    return Plane((x / length, y / length, z / length), as_float(half_space.limit) / length, name)


def region_of(cut: Cut) -> Region:
    """A piece of waste in floats."""
    return tuple(plane_of(one, one.surface) for one in cut.half_spaces)


class Shown(Struct, frozen=True):
    """How much of a board is shown; at the end of that it is broken off.

    Attributes:
        past: behind the joint.
        across: from the reference edge, None for all of it.
    """

    past: Fraction
    across: Fraction | None = None


def blank(part: Part, shown: Shown) -> Region:
    """The board as it is before anything is cut, as far as it is shown."""
    if part.stock:
        return tuple(plane_of(side, side.surface) for side in part.stock)
    board, low, past = part.board, part.shown_from(part.reach), shown.past
    wide, far = board.width, str(Face.FAR_EDGE)
    if shown.across is not None and shown.across < wide:
        wide, far = shown.across, TORN
    has_end = Face.END_GRAIN in part.faces
    end, start = (Face.END_GRAIN, low) if has_end else (TORN, low - past)
    along = part.place(Hand.LEFT).along
    if along is not None and start < -along:
        end, start = Face.END_GRAIN, -along
    return (
        plane_of(at_least(0, Fraction(0)), Face.REFERENCE_EDGE),
        plane_of(at_most(0, wide), far),
        plane_of(at_least(2, Fraction(0)), Face.OUTSIDE),
        plane_of(at_most(2, board.thickness), Face.INSIDE),
        plane_of(part.slant.end if part.slant else at_least(1, start), end),
        plane_of(at_most(1, part.reach + past), TORN),
    )


def flats(body: Region, taken: Sequence[Region], waste: Sequence[Region], eye: Spot) -> list[Flat]:
    """The faces that look towards the eye.

    Args:
        body: the piece before anything is taken out of it.
        taken: what is gone.
        waste: what is to go.
        eye: direction from the piece to who looks at it.
    """
    size = _size(body)
    faces: list[tuple[Plane, Ring, int | None]]
    faces = [(plane, _section(plane, body, size), None) for plane in body]
    for number, cut in enumerate(taken):
        faces += [
            (plane.turned(), ring, number)
            for plane in cut
            if dot(plane.normal, eye) < -ASKEW
            if not any(_same(plane, side, 0) for side in body)
            if (ring := _section(plane, (*body, *cut), size))
        ]
    found = []
    for plane, ring, own in faces:
        if dot(plane.normal, eye) > ASKEW:
            others = [cut for number, cut in enumerate(taken) if number != own]
            holes = (_holes(ring, plane, cuts) for cuts in (others, waste))
            found.append(Flat(plane, ring, *holes))
    return found


def corners(body: Region) -> frozenset[Spot]:
    """All corners of a convex solid."""
    size = _size(body)
    return frozenset(spot for plane in body for spot, _ in _section(plane, body, size))


def chord(flat: Flat, plane: Plane) -> tuple[Spot, Spot] | None:
    """Where a plane crosses a face."""
    if abs(dot(plane.normal, flat.plane.normal)) > 1 - CLOSE:
        return None
    spots = [spot for spot, _ in clipped(flat.ring, plane) if abs(plane.excess(spot)) < CLOSE]
    return (spots[0], spots[-1]) if len(spots) > 1 else None


def clipped(ring: Ring, plane: Plane) -> Ring:
    """What of a polygon lies on one side of a plane; nothing where no area is left."""
    heights = [plane.excess(spot) for spot, _ in ring]
    if max(heights) <= CLOSE:
        return ring
    if min(heights) >= -CLOSE:
        return ()
    kept: list[tuple[Spot, str]] = []
    for number, ((spot, name), before) in enumerate(zip(ring, heights, strict=True)):
        following = (number + 1) % len(ring)
        after, is_kept = heights[following], before <= CLOSE
        if is_kept:
            kept.append((spot, name if after <= CLOSE or before < -CLOSE else plane.name))
        if (before < -CLOSE and after > CLOSE) or (before > CLOSE and after < -CLOSE):
            x, y, z = ring[following][0]
            share = before / (before - after)
            crossing = (
                spot[0] + share * (x - spot[0]),
                spot[1] + share * (y - spot[1]),
                spot[2] + share * (z - spot[2]),
            )
            kept.append((crossing, plane.name if is_kept else name))
    return tuple(kept)


def _size(body: Region) -> float:
    """More than a piece measures any way."""
    return 4 * max(1 + abs(plane.limit) for plane in body)


def _section(plane: Plane, region: Region, size: float) -> Ring:
    """What of a plane lies in a convex region that has it as a boundary, or crosses it."""
    x, y, z = plane.normal
    axis = min(range(3), key=lambda one: abs(plane.normal[one]))
    u = unit(cross(plane.normal, (float(axis == 0), float(axis == 1), float(axis == 2))))
    v = cross(plane.normal, u)
    middle = (x * plane.limit, y * plane.limit, z * plane.limit)
    ring: Ring = tuple(
        (
            (
                middle[0] + size * (i * u[0] + j * v[0]),
                middle[1] + size * (i * u[1] + j * v[1]),
                middle[2] + size * (i * u[2] + j * v[2]),
            ),
            "",
        )
        for i, j in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    )
    for bound in region:
        if bound is not plane and not _same(plane, bound, 0):
            ring = clipped(ring, bound)
            if not ring:
                break
    return ring


def _holes(ring: Ring, outward: Plane, cuts: Sequence[Region]) -> tuple[Ring, ...]:
    return tuple(hole for cut in cuts if (hole := _hole(ring, outward, cut)))


def _hole(ring: Ring, outward: Plane, cut: Region) -> Ring:
    """Where just below a face the wood belongs to a cut."""
    for plane in cut:
        if _same(plane, outward, 1):
            continue
        if _same(plane, outward, -1):
            return ()
        ring = clipped(ring, plane)
        if not ring:
            break
    return ring


def _same(one: Plane, other: Plane, way: int) -> bool:
    """Whether two planes coincide: facing the same way (1), opposite ways (-1), or either (0)."""
    along = dot(one.normal, other.normal)
    if abs(along) < 1 - CLOSE or along * way < 0:
        return False
    return abs(one.limit - (other.limit if along > 0 else -other.limit)) < 10 * CLOSE


def dot(one: Sequence[float], other: Sequence[float]) -> float:
    """How far the one goes along the other, times the length of that."""
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


def cross(one: Spot, other: Spot) -> Spot:
    """A direction square to both."""
    return (
        one[1] * other[2] - one[2] * other[1],
        one[2] * other[0] - one[0] * other[2],
        one[0] * other[1] - one[1] * other[0],
    )


def unit(one: Sequence[float]) -> Spot:
    """The same direction, of length 1."""
    x, y, z = one
    length = sqrt(dot(one, one))
    return x / length, y / length, z / length
