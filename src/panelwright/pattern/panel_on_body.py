"""A panel on the body: which place of the flat panel lies where on the wearer."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.spatial import cKDTree

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array, cross, frozen

NEAR = 4  # grid points that are looked at for a place between them
LEAST_SINE = (
    0.1  # between rows and columns of the flat grid; where cloth was not held to the body they may fall together
)


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
        """Where places of the flat panel, shape (n, 2), lie on the wearer, shape (n, 3), within about 1 mm.

        A place lies in the plane that the grid's own neighbours, up and across, span at one of the nearest grid
        points: at the one that it is fewest grid steps away from.
        """
        wanted = np.atleast_2d(points)
        near = np.asarray(self._tree.query(wanted, k=NEAR)[1])
        at = np.unravel_index(near, self.flat.shape[:2])
        away = wanted[:, None] - self.flat[at]
        (up, across), (up_in_space, across_in_space) = ([each[at] for each in way] for way in self._ways)
        area = cross(up, across)
        flattened = np.abs(area) < LEAST_SINE * np.linalg.norm(up, axis=-1) * np.linalg.norm(across, axis=-1)
        area = np.where(flattened, np.inf, area)
        steps_up, steps_across = cross(away, across) / area, cross(up, away) / area
        far = np.where(flattened, np.inf, np.hypot(steps_up, steps_across))
        best = np.arange(len(wanted)), far.argmin(axis=1)
        moved = steps_up[best][:, None] * up_in_space[best] + steps_across[best][:, None] * across_in_space[best]
        place: Array = self.space[at][best] + moved
        return place

    @cached_property
    def _ways(self) -> tuple[tuple[Array, Array], tuple[Array, Array]]:
        """The steps from row to row and from column to column at every grid point, on paper and in space."""
        flat, space = (np.gradient(grid, axis=(0, 1)) for grid in (self.flat, self.space))
        return (flat[0], flat[1]), (space[0], space[1])
