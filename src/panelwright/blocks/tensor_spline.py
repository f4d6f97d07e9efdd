"""A panel in the flat as one smooth map: a tensor-product cubic spline from (height, place across) to paper.

Its boundary and its level lines are themselves cubic splines, so seams and levels need no fitting: they are
read off exactly as Béziers.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from scipy.interpolate import BSpline

from panelwright.geometry.arrays import Array, frozen
from panelwright.geometry.curve import Curve


@dataclass(frozen=True, eq=False)
class Breaks:
    """The joints of a cubic spline along one direction, rising, shape (n+1,)."""

    at: Array

    @cached_property
    def knots(self) -> Array:
        """Clamped knot vector: each end four times."""
        padded: Array = np.concatenate([[self.at[0]] * 3, self.at, [self.at[-1]] * 3])
        return padded

    @property
    def count(self) -> int:
        """Number of coefficients."""
        return len(self.at) + 2

    @property
    def places(self) -> Array:
        """The place that each coefficient speaks for (mean of its three inner knots), shape (count,)."""
        means: Array = np.lib.stride_tricks.sliding_window_view(self.knots[1:-1], 3).mean(axis=1)
        return means

    def basis(self, x: Array, derivative: int = 0) -> Array:
        """Values (or a derivative) of every basis function, shape (len(x), count)."""
        spline = BSpline(self.knots, np.eye(self.count), 3)
        values: Array = (spline.derivative(derivative) if derivative else spline)(x)
        return values

    def nodes(self, per_joint: int) -> tuple[Array, Array]:
        """Gauss-Legendre places and weights, `per_joint` in each interval."""
        t, w = _gauss(per_joint)
        low, high = self.at[:-1, None], self.at[1:, None]
        places, weights = low + (high - low) * (t + 1) / 2, (high - low) * w / 2
        return places.ravel(), weights.ravel()

    def curve(self, coefficients: Array) -> Curve:
        """The spline with these coefficients, shape (count, 2), as a chain of Béziers, one an interval."""
        points, thirds = self.basis(self.at) @ coefficients, self.basis(self.at, 1) @ coefficients / 3
        h = np.diff(self.at)[:, None]
        low, high = points[:-1], points[1:]
        cubics = np.stack([low, low + h * thirds[:-1], high - h * thirds[1:], high], axis=1)
        return Curve(cubics)


@lru_cache
def _gauss(count: int) -> tuple[Array, Array]:
    """Gauss-Legendre places and weights on -1 … 1; finding them takes longer than using them."""
    places, weights = np.polynomial.legendre.leggauss(count)
    return frozen(places), frozen(weights)


@dataclass(frozen=True, eq=False)
class FlatPanel:
    """The flat map of one panel.

    Attributes:
        heights: joints along the height, mm above the waist on the body.
        across: joints from 0 (the panel's front line) to 1 (its back line).
        coefficients: shape (heights.count, across.count, 2), mm on paper.
    """

    heights: Breaks
    across: Breaks
    coefficients: Array

    def points(self, z: Array, u: Array) -> Array:
        """Paper points at heights z and places u, shape (len(z), len(u), 2)."""
        at: Array = np.einsum("zi,uj,ijk->zuk", self.heights.basis(z), self.across.basis(u), self.coefficients)
        return at

    def line(self, back: bool, top: float | None = None) -> Curve:
        """The panel's front or back line, from the hem up, as far as a height if one is given."""
        whole = self.heights.curve(self.coefficients[:, -1 if back else 0])
        if top is None or top >= self.heights.at[-1]:
            return whole
        joint = int(np.searchsorted(self.heights.at, top - 1e-7))
        if abs(self.heights.at[joint] - top) < 1e-7:
            return Curve(whole.cubics[:joint])
        end = self.points(np.array([top]), np.array([1.0 if back else 0.0]))[0, 0]
        return whole.between(0.0, whole.nearest(end)[0])

    def places(self, z: Array, u: Array) -> Array:
        """Paper points at pairs (height, place), shape (n,) each -> (n, 2)."""
        at: Array = np.einsum("ni,nj,ijk->nk", self.heights.basis(z), self.across.basis(u), self.coefficients)
        return at

    def level(self, z: float) -> Curve:
        """The line at a height, from the panel's front line to its back line."""
        return self.across.curve(np.einsum("i,ijk->jk", self.heights.basis(np.array([z]))[0], self.coefficients))

    def moved(self, matrix: Array, shift: Array) -> "FlatPanel":
        """The panel turned by a rotation matrix and shifted."""
        return FlatPanel(self.heights, self.across, self.coefficients @ matrix.T + shift)
