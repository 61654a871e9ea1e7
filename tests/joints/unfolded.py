"""Faces of a solid board laid flat: the kernel's triangles that lie in a face's plane."""

from dataclasses import dataclass

import numpy as np
import shapely
from manifold3d import Manifold
from shapely import Polygon

IN_PLANE_MM = 1e-5
"""The kernel keeps its corners in single precision."""


@dataclass(frozen=True)
class Plane:
    """A face's plane in a board's frame: a point of it and its two directions, in floats."""

    origin: np.ndarray
    first: np.ndarray
    second: np.ndarray

    @property
    def normal(self) -> np.ndarray:
        """Square to both directions."""
        return np.cross(self.first, self.second)


def unfolded(solid: Manifold, plane: Plane) -> shapely.Geometry:
    """The solid's face in a plane, by the plane's two coordinates."""
    mesh = solid.to_mesh64()
    corners = np.array(mesh.vert_properties)[:, :3]
    flat = []
    for triangle in np.array(mesh.tri_verts):
        points = corners[triangle] - plane.origin
        if np.abs(points @ plane.normal).max() < IN_PLANE_MM:
            flat.append(Polygon([(p @ plane.first, p @ plane.second) for p in points]))
    return shapely.unary_union([one.buffer(1e-6, join_style="mitre") for one in flat])
