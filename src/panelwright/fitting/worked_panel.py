"""A flat panel on the table: with the joints that a change needs, and turned so that a straight line stands upright."""

from dataclasses import dataclass, replace

import numpy as np

from panelwright.blocks.fit_panels import PanelFitter
from panelwright.blocks.panel_fit import PanelFit
from panelwright.blocks.tensor_spline import Breaks, FlatPanel
from panelwright.geometry.arrays import Array


@dataclass(frozen=True, eq=False)
class WorkedPanel:
    """A panel in the making.

    Attributes:
        flat: its map; y is up.
        straight_front, straight_back: the line is straight and stands upright, and levels meet it square.
    """

    flat: FlatPanel
    straight_front: bool
    straight_back: bool

    @classmethod
    def of(cls, fits: tuple[PanelFit, ...], k: int, fitter: PanelFitter) -> "WorkedPanel":
        """Panel k of a block."""
        problem, flat = fitter.problems[k], fits[k].flat
        if problem.straight_back:
            line = flat.line(True)
            flat = flat.moved(_upright(line.end - line.start), np.zeros(2))
        return cls(flat, problem.straight_front, problem.straight_back)

    def with_joints(self, at: Array) -> "WorkedPanel":
        """The same map on a spline with more joints, `at` among them all that it had."""
        heights = Breaks(at)
        if len(at) == len(self.flat.heights.at):
            return self
        places = heights.places
        values = np.einsum("zi,ijk->zjk", self.flat.heights.basis(places), self.flat.coefficients)
        coefficients = np.linalg.solve(heights.basis(places), values.reshape(len(places), -1)).reshape(values.shape)
        return replace(self, flat=FlatPanel(heights, self.flat.across, coefficients))

    @property
    def coefficients(self) -> Array:
        """x and then y coefficients, shape (2, c)."""
        return self.flat.coefficients.reshape(-1, 2).T

    def width(self, z: float) -> float:
        """Length of the line at a height, mm."""
        return self.flat.level(z).length

    def across(self, z: Array, place: float) -> Array:
        """Unit directions along the lines at heights z, from front to back, at a place 0 … 1; shape (len(z), 2)."""
        flat = self.flat
        slopes = flat.across.basis(np.array([place]), 1)[0]
        ways = np.einsum("zi,j,ijk->zk", flat.heights.basis(z), slopes, flat.coefficients)
        unit: Array = ways / np.linalg.norm(ways, axis=1)[:, None]
        return unit


def _upright(direction: Array) -> Array:
    """The rotation that makes a direction point up."""
    x, y = direction / np.linalg.norm(direction)
    return np.array([[y, -x], [x, y]])
