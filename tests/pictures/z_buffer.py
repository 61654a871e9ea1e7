"""Pieces as a kernel's solids, looked at point by point: what a picture is held against.

Nothing of the pictures' own geometry is used but where each piece stands: solids come from the
kernel, what is foremost from a depth for each small square of the paper.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain, zip_longest

import numpy as np
from manifold3d import Manifold

from joinery_templates.exact import Fraction
from joinery_templates.pictures.seen import Frame
from joinery_templates.pictures.solid import Shown
from joinery_templates.pictures.stages import WorkedPiece
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Bore
from tests.joints.solids import convex

SIDE = 0.25
"""Of a square, in mm."""
HAIR = Fraction(1, 10_000)
"""Cuts that only touch leave a skin of no thickness between them in the kernel's solids."""
SAME = 0.003
"""Planes nearer to each other than this are one; 0.03 mm off."""
NOTHING = -1
FAR = -1e9


def solid(worked: WorkedPiece, shown: Shown) -> Manifold:
    """A piece worked so far, broken off behind its joint; waste that is still in is wood."""
    part, margin, past = worked.member.part, 300, shown.past
    low = part.shown_from(part.reach)
    if Face.END_GRAIN not in part.faces:
        along = part.along if hasattr(part, "along") else None
        low = low - past if along is None else max(low - past, -along)
    wide = min(part.board.width, shown.across or part.board.width)
    sizes = (wide, part.reach + past - low, part.board.thickness)
    wood = Manifold.cube(tuple(map(float, sizes))).translate((0.0, float(low), 0.0))
    wood = convex((*((part.slant.end,) if part.slant else ()), *part.stock), wood)
    around = Manifold.cube(tuple(float(size) + 2 * margin for size in sizes))
    around = around.translate((-margin, float(low) - margin, -margin))
    for cut in worked.taken:
        wood -= convex(tuple(half.moved(HAIR) for half in cut.half_spaces), around)
    return wood


@dataclass
class Looked:
    """What is foremost on each square of the paper.

    Attributes:
        left: u of the first column's middle.
        low: v of the first row's middle.
        depth: w, FAR where there is nothing.
        plane: a number for each plane of each piece, NOTHING where there is nothing.
    """

    left: float
    low: float
    depth: np.ndarray
    plane: np.ndarray

    def square(self, u: float, v: float) -> tuple[int, int]:
        """Row and column of a point."""
        return round((v - self.low) / SIDE), round((u - self.left) / SIDE)

    def around(self, u: float, v: float, reach: int) -> tuple[np.ndarray, np.ndarray]:
        """Depths and planes of the squares near a point."""
        row, column = self.square(u, v)
        near = slice(row - reach, row + reach + 1), slice(column - reach, column + reach + 1)
        return self.depth[near], self.plane[near]

    def changes(self) -> np.ndarray:
        """Squares beside which another plane begins."""
        found = np.zeros(self.plane.shape, bool)
        across = self.plane[:, 1:] != self.plane[:, :-1]
        up = self.plane[1:] != self.plane[:-1]
        found[:, 1:] |= across
        found[1:] |= up
        return found


def look(pieces: Sequence[tuple[Manifold, Frame]], bores: Sequence[Sequence[Bore]] = ()) -> Looked:
    """All pieces from the side that the frames look from; a round wall counts as one plane.

    Args:
        pieces: each with the frame that it stands in.
        bores: of each piece.
    """
    corners, numbers = [], []
    count = 0
    for (wood, frame), own in zip_longest(pieces, bores, fillvalue=()):
        known: list[np.ndarray] = [np.full(4, np.inf) for _ in own]
        mesh = wood.to_mesh()
        rows = np.array(frame.rows)
        spots = np.array(mesh.vert_properties, float)[:, :3] @ rows.T + np.array(frame.shift)
        triangles = spots[np.array(mesh.tri_verts)]
        normals = np.cross(triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0])
        # A frame may be the mirror image; what then looks away lies behind what looks here.
        normals *= np.linalg.det(rows)
        sizes = np.linalg.norm(normals, axis=1)
        here = (sizes > 1e-6) & (normals[:, 2] > 0)
        for triangle, normal in zip(
            triangles[here], normals[here] / sizes[here, None], strict=True
        ):
            plane = np.array((*normal, normal @ triangle[0] / 10))
            same = (n for n, one in enumerate(known) if np.abs(one - plane).max() < SAME)
            round_wall = (n for n, one in enumerate(own) if _is_round(one, frame, normal, triangle))
            number = next(chain(round_wall, same), len(known))
            if number == len(known):
                known.append(plane)
            numbers.append(count + number)
            corners.append(triangle)
        count += len(known)
    spots = np.concatenate(corners)
    left, low = (float(at) - 5 * SIDE for at in spots[:, :2].min(axis=0))
    columns = int((spots[:, 0].max() - left) / SIDE) + 7
    rows_count = int((spots[:, 1].max() - low) / SIDE) + 7
    depth = np.full((rows_count, columns), FAR)
    plane = np.full((rows_count, columns), NOTHING)
    for triangle, number in zip(corners, numbers, strict=True):
        _fill(triangle, number, left, low, depth, plane)
    return Looked(left, low, depth, plane)


def _is_round(bore: Bore, frame: Frame, normal: np.ndarray, triangle: np.ndarray) -> bool:
    """Whether a triangle touches the cylinder of a hole: along its axis, and a radius away."""
    rows = np.array(frame.rows)
    centre = rows @ np.array([*map(float, bore.centre)]) + np.array(frame.shift)
    radius = abs(normal @ (centre - triangle[0]))
    off_axis = abs(normal @ rows[:, bore.axis])
    return bool(off_axis < SAME and abs(radius - float(bore.diameter) / 2) < SAME)


def _fill(
    triangle: np.ndarray, number: int, left: float, low: float, depth: np.ndarray, plane: np.ndarray
) -> None:
    (u0, v0, w0), (u1, v1, w1), (u2, v2, w2) = triangle
    area = (u1 - u0) * (v2 - v0) - (v1 - v0) * (u2 - u0)
    if abs(area) < 1e-6:
        return
    first = int(np.floor((triangle[:, 0].min() - left) / SIDE))
    last = int(np.ceil((triangle[:, 0].max() - left) / SIDE))
    bottom = int(np.floor((triangle[:, 1].min() - low) / SIDE))
    top = int(np.ceil((triangle[:, 1].max() - low) / SIDE))
    u = left + SIDE * np.arange(first, last + 1)[None, :]
    v = low + SIDE * np.arange(bottom, top + 1)[:, None]
    a = ((u1 - u) * (v2 - v) - (v1 - v) * (u2 - u)) / area
    b = ((u2 - u) * (v0 - v) - (v2 - v) * (u0 - u)) / area
    w = a * w0 + b * w1 + (1 - a - b) * w2
    near = slice(bottom, top + 1), slice(first, last + 1)
    nearer = (a >= 0) & (b >= 0) & (a + b <= 1) & (w > depth[near])
    depth[near] = np.where(nearer, w, depth[near])
    plane[near] = np.where(nearer, number, plane[near])
