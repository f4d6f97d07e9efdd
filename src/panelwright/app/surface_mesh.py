"""A surface in space as triangles, for pictures."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Self

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from panelwright.geometry.arrays import Array

Triangles = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class SurfaceMesh:
    """Points and triangles, seen from outside anticlockwise.

    Attributes:
        points: shape (n, 3), mm: x to the wearer's right side, y to the front, z up from the waist.
        triangles: numbers of points, shape (m, 3).
    """

    points: Array
    triangles: Triangles

    @classmethod
    def of_grid(cls, grid: Array, outwards: bool = True) -> Self:
        """A grid of points, shape (rows, columns, 3); `outwards` if columns × rows point away from the body."""
        rows, columns = grid.shape[:2]
        corner = (np.arange(rows - 1)[:, None] * columns + np.arange(columns - 1)).ravel()
        beside, above = corner + 1, corner + columns
        triangles = np.concatenate(
            [np.stack([corner, beside, above + 1], axis=1), np.stack([corner, above + 1, above], axis=1)]
        )
        return cls(grid.reshape(-1, 3), triangles if outwards else triangles[:, ::-1])

    @classmethod
    def together(cls, meshes: Sequence["SurfaceMesh"]) -> Self:
        """Several meshes as one; points that two of them share stay two."""
        starts = np.cumsum([0, *(len(mesh.points) for mesh in meshes)])
        triangles = [mesh.triangles + start for mesh, start in zip(meshes, starts.tolist(), strict=False)]
        return cls(np.concatenate([mesh.points for mesh in meshes]), np.concatenate(triangles))

    @property
    def mirrored(self) -> "SurfaceMesh":
        """The same on the other side of the body."""
        return SurfaceMesh(self.points * np.array([-1.0, 1.0, 1.0]), self.triangles[:, ::-1])

    @cached_property
    def normals(self) -> Array:
        """Unit normals at the points, outwards, shape (n, 3); points at one place have one normal."""
        a, b, c = (self.points[self.triangles[:, k]] for k in range(3))
        faces = np.cross(b - a, c - a)
        _, place = np.unique(np.round(self.points, 3), axis=0, return_inverse=True)
        place = place.ravel()
        sums = np.zeros((int(place.max()) + 1, 3))
        for k in range(3):
            np.add.at(sums, place[self.triangles[:, k]], faces)
        lengths = np.linalg.norm(sums, axis=1, keepdims=True)
        normals: Array = (sums / np.maximum(lengths, 1e-12))[place]
        return normals

    @cached_property
    def _tree(self) -> cKDTree:
        return cKDTree(self.points)

    def kept_outside(self, points: Array, least: float) -> Array:
        """Places in space, shape (n, 3), each moved along the nearest normal until it lies `least` mm outside."""
        near = np.asarray(self._tree.query(points)[1])
        normals = self.normals[near]
        height = np.einsum("nk,nk->n", points - self.points[near], normals)
        moved: Array = points + normals * np.maximum(least - height, 0.0)[:, None]
        return moved
