"""How much wood two pieces both claim, exactly: convex clipping over rationals.

The solids of `solids` are clipped in floating point, and that kernel has been seen to report
an overlap where there is none. It is therefore confirmed here before it fails a test.
"""

from collections.abc import Iterator
from itertools import pairwise

from joinery_templates.exact import Fraction
from joinery_templates.wood.cut import HalfSpace, Part, Vector, at_least, at_most, dot
from joinery_templates.wood.placement import Placement

Face = tuple[Vector, ...]
Polytope = tuple[Face, ...]
"""A convex solid by its faces, each a ring of corners."""
Wood = tuple[tuple[HalfSpace, ...], tuple[tuple[HalfSpace, ...], ...]]
"""What a piece lies in, and the convex pieces of waste that leave it."""


def wood_of(part: Part, shown: Fraction, at: Placement | None) -> Wood:
    """A board's part, shown to so far along it, in the frame that it is placed in."""

    def carried(half_spaces: tuple[HalfSpace, ...]) -> tuple[HalfSpace, ...]:
        return tuple(at.half_space(one) if at else one for one in half_spaces)

    board, low = part.board, part.shown_from(shown)
    corner = Fraction(0), low, Fraction(0)
    far = board.width, shown, board.thickness
    box = [at_least(axis, corner[axis]) for axis in range(3)]
    box += [at_most(axis, far[axis]) for axis in range(3)]
    held = (*box, *((part.slant.end,) if part.slant else ()), *part.stock)
    return carried(held), tuple(carried(cut.half_spaces) for cut in part.cuts)


def overlap(one: Wood, other: Wood) -> Fraction:
    """The volume in mm³ that both claim."""
    pieces = [_cube(Fraction(10_000))]
    for half_space in (*one[0], *other[0]):
        pieces = [kept for piece in pieces if (kept := clipped(piece, half_space))]
    for waste in (*one[1], *other[1]):
        pieces = [kept for piece in pieces for kept in _without(piece, waste)]
    return sum((volume(piece) for piece in pieces), Fraction(0))


def clipped(solid: Polytope, half_space: HalfSpace) -> Polytope | None:
    """What of a solid lies in a half-space; None where nothing is left of its inside."""
    faces: list[Face] = []
    edges: list[tuple[Vector, Vector]] = []
    for face in solid:
        over = [dot(half_space.normal, corner) - half_space.limit for corner in face]
        if max(over) <= 0:
            faces.append(face)
            continue
        ring: list[Vector] = []
        for here, there, a, b in zip(face, _next(face), over, _next(over), strict=True):
            if a <= 0:
                ring.append(here)
            if a * b < 0:
                ring.append(_between(here, there, a / (a - b)))
        ring = list(dict.fromkeys(ring))
        if len(ring) > 2:
            faces.append(tuple(ring))
        rim = [c for c in ring if dot(half_space.normal, c) == half_space.limit]
        if len(rim) == 2:
            edges.append((rim[0], rim[1]))
    if edges:
        faces.append(_ring_of(edges))
    kept = tuple(faces)
    return kept if len(kept) > 3 and volume(kept) else None


def volume(solid: Polytope) -> Fraction:
    """The volume of a convex solid: pyramids on its faces from a point inside."""
    corners = list(dict.fromkeys(corner for face in solid for corner in face))
    x, y, z = (sum((c[axis] for c in corners), Fraction(0)) / len(corners) for axis in range(3))
    total = Fraction(0)
    for first, *others in solid:
        for second, third in pairwise(others):
            total += abs(_six_times_pyramid((x, y, z), first, second, third))
    return total / 6


def _without(solid: Polytope, waste: tuple[HalfSpace, ...]) -> Iterator[Polytope]:
    inside: Polytope | None = solid
    for half_space in waste:
        assert inside
        if outside := clipped(inside, half_space.turned()):
            yield outside
        inside = clipped(inside, half_space)
        if inside is None:
            return


def _ring_of(edges: list[tuple[Vector, Vector]]) -> Face:
    """Edges in any order and sense, joined end to end."""
    beside: dict[Vector, list[Vector]] = {}
    for one, other in dict.fromkeys(tuple(sorted(edge)) for edge in edges):
        beside.setdefault(one, []).append(other)
        beside.setdefault(other, []).append(one)
    ring = [min(beside)]
    while more := [corner for corner in beside[ring[-1]] if corner not in ring]:
        ring.append(more[0])
    return tuple(ring)


def _cube(half: Fraction) -> Polytope:
    low, high = -half, half

    def face(axis: int, at: Fraction) -> Face:
        ring = ((low, low), (high, low), (high, high), (low, high))
        return tuple((*pair[:axis], at, *pair[axis:]) for pair in ring)

    return tuple(face(axis, at) for axis in range(3) for at in (low, high))


def _between(one: Vector, other: Vector, share: Fraction) -> Vector:
    x, y, z = (a + share * (b - a) for a, b in zip(one, other, strict=True))
    return x, y, z


def _next(ring):
    return (*ring[1:], ring[0])


def _six_times_pyramid(top: Vector, one: Vector, two: Vector, three: Vector) -> Fraction:
    a, b, c = (tuple(p - q for p, q in zip(at, top, strict=True)) for at in (one, two, three))
    return (
        a[0] * (b[1] * c[2] - b[2] * c[1])
        - a[1] * (b[0] * c[2] - b[2] * c[0])
        + a[2] * (b[0] * c[1] - b[1] * c[0])
    )
