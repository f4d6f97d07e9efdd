"""A panel on the body: which place of the flat panel lies where on the wearer."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.spatial import cKDTree

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array, frozen

NEAR = 4  # grid points that are weighed for a place between them


@dataclass(frozen=True, eq=False)
class PanelOnBody:
    """A grid of places, the same on paper and in space.

    Attributes:
        panel: id of the block's panel.
        flat: places of the flat panel, shape (rows, columns, 2), mm; rows from the hem up, columns from its front
            line to its back line.
        space: the same places on the wearer, shape (rows, columns, 3), mm: x to the wearer's right side, y to the
            front, z up from the waist.

    Raises:
        GeometryError: if the two grids are not of one shape.
    """

    panel: str
    flat: Array
    space: Array

    def __post_init__(self) -> None:
        object.__setattr__(self, "flat", frozen(self.flat))
        object.__setattr__(self, "space", frozen(self.space))
        if self.flat.shape[:2] != self.space.shape[:2] or self.flat.shape[2:] != (2,) or self.space.shape[2:] != (3,):
            raise GeometryError(f"panel {self.panel}: its places on paper and on the body do not match")

    @cached_property
    def _tree(self) -> cKDTree:
        return cKDTree(self.flat.reshape(-1, 2))

    def in_space(self, points: Array) -> Array:
        """Where places of the flat panel, shape (n, 2), lie on the wearer, shape (n, 3), within about 2 mm.

        A place between grid points lies on the plane that fits the four nearest of them best.
        """
        flat, space = self.flat.reshape(-1, 2), self.space.reshape(-1, 3)
        near = np.asarray(self._tree.query(np.atleast_2d(points), k=NEAR)[1])
        out = np.empty((len(near), 3))
        for k, (point, ids) in enumerate(zip(np.atleast_2d(points), near, strict=True)):
            middle = flat[ids].mean(axis=0)
            slope, *_ = np.linalg.lstsq(flat[ids] - middle, space[ids] - space[ids].mean(axis=0), rcond=None)
            out[k] = space[ids].mean(axis=0) + (point - middle) @ slope
        return out
