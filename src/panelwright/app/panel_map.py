"""Where places of a block's panels lie on the wearer: the panel's own fit, read the other way round."""

from functools import cached_property
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.interpolate import RegularGridInterpolator
from scipy.spatial import cKDTree
from shapely import Polygon

from panelwright.blocks.block import Block
from panelwright.blocks.panel_fit import PanelFit
from panelwright.geometry.arrays import Array, cross
from panelwright.pattern.panel_on_body import PanelOnBody
from panelwright.pattern.piece import Piece

COLUMNS: Final = 25
STEPS: Final = 8
FOUND: Final = 1e-4  # mm between a place and where its coordinates lead


class PanelMap:
    """One panel of a block: paper and body share their coordinates (height, place across)."""

    def __init__(self, fit: PanelFit, coarse: PanelOnBody) -> None:
        """Of a fit; `coarse` is the grid that the block's pattern has of it, for places off the panel."""
        self._fit, self._coarse = fit, coarse
        self._across = np.linspace(0.0, 1.0, COLUMNS)
        self._heights = fit.body.rows.z

    @cached_property
    def _nodes(self) -> tuple[cKDTree, Array]:
        """Places of a grid on paper, and their coordinates, shape (n, 2)."""
        flat = self._fit.flat.points(self._heights, self._across).reshape(-1, 2)
        z, u = np.meshgrid(self._heights, self._across, indexing="ij")
        return cKDTree(flat), np.column_stack([z.ravel(), u.ravel()])

    @cached_property
    def _space(self) -> RegularGridInterpolator:
        return RegularGridInterpolator((self._heights, self._across), self._fit.body.points(self._across))

    def in_space(self, points: Array) -> Array:
        """Where flat places of the panel, shape (n, 2), lie on the wearer, shape (n, 3), mm.

        A place beyond the panel, as on a button stand, lies where the panel's surface would go on straight.
        """
        at, found = self._coordinates(points)
        space: Array = self._space(at)
        if not found.all():
            space[~found] = self._coarse.in_space(points[~found])
        return space

    def _coordinates(self, points: Array) -> tuple[Array, NDArray[np.bool_]]:
        """(height and place across of flat places, shape (n, 2); which were found), by Newton's method."""
        tree, nodes = self._nodes
        at = nodes[np.asarray(tree.query(points)[1])]
        found = np.zeros(len(points), bool)
        low, high = np.array([self._heights[0], 0.0]), np.array([self._heights[-1], 1.0])
        flat = self._fit.flat
        for _ in range(STEPS):
            up, over = (breaks.basis(x) for breaks, x in ((flat.heights, at[:, 0]), (flat.across, at[:, 1])))
            up_by, over_by = flat.heights.basis(at[:, 0], 1), flat.across.basis(at[:, 1], 1)
            away = points - _mixed(up, over, flat.coefficients)
            found = np.asarray(np.linalg.norm(away, axis=1) < FOUND)
            if found.all():
                break
            by_height, by_across = _mixed(up_by, over, flat.coefficients), _mixed(up, over_by, flat.coefficients)
            area = cross(by_height, by_across)
            area = np.where(np.abs(area) < 1e-9, np.inf, area)
            step = np.column_stack([cross(away, by_across) / area, cross(by_height, away) / area])
            at = np.clip(at + step, low, high)
        return at, found


def _mixed(up: Array, over: Array, coefficients: Array) -> Array:
    """A tensor spline at pairs of places, shape (n, 2)."""
    rows, columns, _ = coefficients.shape
    by_row = (up @ coefficients.reshape(rows, -1)).reshape(-1, columns, 2)
    mixed: Array = (by_row * over[:, :, None]).sum(axis=1)
    return mixed


class PieceMap:
    """Where places of a piece lie on the wearer: each by the panel that it was cut from."""

    def __init__(self, piece: Piece, panels: dict[str, PanelMap]) -> None:
        """Of a piece with material of the block."""
        self._regions = [region for region in piece.material if region.panel in panels]
        self._panels = panels

    def in_space(self, points: Array) -> Array:
        """Shape (n, 2) -> (n, 3), mm; on the side of the body that the piece is drawn for."""
        space = np.zeros((len(points), 3))
        nearest = self._nearest(points)
        for k, region in enumerate(self._regions):
            here = nearest == k
            if here.any():
                placed = self._panels[region.panel].in_space(region.placement.inverse.points(points[here]))
                space[here] = placed * np.array([-1.0 if region.placement.mirrored else 1.0, 1.0, 1.0])
        return space

    def _nearest(self, points: Array) -> NDArray[np.intp]:
        """Number of the region that each place lies in or nearest to."""
        away = [_outside(region.boundary, points) for region in self._regions]
        return np.asarray(np.argmin(away, axis=0))

    def off_material(self, points: Array) -> Array:
        """How far outside the block's cloth each place lies, mm, shape (n,); 0 on it."""
        least: Array = np.min([_outside(region.boundary, points) for region in self._regions], axis=0)
        return least


def panel_maps(block: Block) -> dict[str, PanelMap]:
    """The panels of a block by their ids."""
    coarse = {panel.panel: panel for panel in block.pattern.body}
    return {fit.id: PanelMap(fit, coarse[fit.id]) for fit in block.fits}


def _outside(boundary: tuple[tuple[float, float], ...], points: Array) -> Array:
    """Distance from a region, 0 inside it; a region without a boundary is the whole piece."""
    if not boundary:
        return np.zeros(len(points))
    return np.asarray(shapely.distance(Polygon(boundary).buffer(0), shapely.points(points)))
