"""How much the cloth of one panel would have to stretch or shear to lie on the body as the flat panel says."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panelwright.blocks.body_panel import BodyPanel
from panelwright.blocks.tensor_spline import Breaks
from panelwright.geometry.arrays import Array

GIRTH_WEIGHT = 2.0  # a girth that is lost cannot be let out; a length is shared with the seam's other side
SHEAR_WEIGHT = 0.5  # woven cloth shears far more readily than it stretches
FAIRNESS = 0.004  # of the back length: how strongly a level line resists bending on paper
CUT_OFF = 1e-3  # weight of cloth that neck and armhole cut off: enough to keep the map in hand there


@dataclass(frozen=True, eq=False)
class StrainEnergy:
    """Green strains of the map from body to paper, sampled at quadrature nodes, and their gradient.

    Attributes:
        along, upright: shape (n, c): applied to x or y coefficients they give that coordinate's derivative
            along the level and square to it, per mm of body surface.
        bend: shape (n, c): second derivative along the level times the fairness length.
        weights: area of the surface each node stands for, shape (n,), mm².
    """

    along: Array
    upright: Array
    bend: Array
    weights: Array

    @classmethod
    def of(
        cls,
        panel: BodyPanel,
        heights: Breaks,
        across: Breaks,
        fairness_length: float,
        covered: Callable[[Array, Array], NDArray[np.bool_]] | None = None,
        per_joint: int = 3,
    ) -> "StrainEnergy":
        """The energy of a panel, sampled with `per_joint` Gauss-Legendre nodes an interval and direction.

        Args:
            covered: (heights, places) -> whether cloth is there, shape (len(heights), len(places)); what neck and
                armhole cut off hardly counts. All of it, if left out.
        """
        (z, wz), (u, wu) = heights.nodes(per_joint), across.nodes(per_joint)
        m11, m12, m22 = panel.metric(z, u)
        first, second, third = (grid.reshape(-1, 1) for grid in (m11, m12, m22))

        def spread(at_height: Array, at_place: Array) -> Array:
            products: Array = np.einsum("zi,uj->zuij", at_height, at_place).reshape(len(z) * len(u), -1)
            return products

        along = spread(heights.basis(z), across.basis(u, 1)) / first
        upright = (spread(heights.basis(z, 1), across.basis(u)) - second * along) / third
        bend = fairness_length * spread(heights.basis(z), across.basis(u, 2)) / first**2
        area = np.outer(wz, wu) * m11 * m22
        if covered is not None:
            area = np.where(covered(z, u), area, CUT_OFF * area)
        return cls(along, upright, bend, area.ravel())

    def strains(self, coefficients: Array) -> tuple[Array, Array, Array]:
        """Green strains along the level, square to it, and shear, each shape (n,); coefficients (2, c)."""
        along, upright = coefficients @ self.along.T, coefficients @ self.upright.T
        return ((along**2).sum(0) - 1) / 2, ((upright**2).sum(0) - 1) / 2, (along * upright).sum(0) / 2

    def residuals(self, coefficients: Array) -> tuple[Array, Array]:
        """(residuals (5n,), Jacobian (5n, 2c)) at coefficients (2, c); half their sum of squares is the energy."""
        root = np.sqrt(self.weights)
        girth, shear = root * np.sqrt(GIRTH_WEIGHT), root * np.sqrt(SHEAR_WEIGHT / 2)
        along, upright = coefficients @ self.along.T, coefficients @ self.upright.T
        bend = root[:, None] * self.bend
        n, c = self.along.shape
        values = np.concatenate(
            [
                girth * ((along**2).sum(0) - 1) / 2,
                root * ((upright**2).sum(0) - 1) / 2,
                shear * (along * upright).sum(0),
                *(bend @ coefficients.T).T,
            ]
        )
        jacobian = np.zeros((5 * n, 2 * c))
        for k in range(2):
            block = slice(k * c, (k + 1) * c)
            jacobian[:n, block] = (girth * along[k])[:, None] * self.along
            jacobian[n : 2 * n, block] = (root * upright[k])[:, None] * self.upright
            jacobian[2 * n : 3 * n, block] = (shear * upright[k])[:, None] * self.along
            jacobian[2 * n : 3 * n, block] += (shear * along[k])[:, None] * self.upright
            jacobian[(3 + k) * n : (4 + k) * n, block] = bend
        return values, jacobian

    def second_derivatives(self, residuals: Array) -> Array:
        """What Gauss-Newton leaves out: Σ residual · its second derivatives, shape (2c, 2c)."""
        n, c = self.along.shape
        root = np.sqrt(self.weights)
        girth, shear = root * np.sqrt(GIRTH_WEIGHT), root * np.sqrt(SHEAR_WEIGHT / 2)
        stretch, upright, sheared = residuals[: 3 * n].reshape(3, n)
        one = self.along.T @ ((girth * stretch)[:, None] * self.along)
        one += self.upright.T @ ((root * upright)[:, None] * self.upright)
        mixed = self.along.T @ ((shear * sheared)[:, None] * self.upright)
        one += mixed + mixed.T
        both = np.zeros((2 * c, 2 * c))
        both[:c, :c] = both[c:, c:] = one
        return both

    def stretch_p95(self, coefficients: Array) -> float:
        """95th percentile, by area, of the length strain along the level and square to it (0.03 is 3 %)."""
        along, upright, _ = self.strains(coefficients)
        strain = np.abs(np.sqrt(2 * np.concatenate([along, upright]) + 1) - 1)
        order = np.argsort(strain)
        share = np.cumsum(np.tile(self.weights, 2)[order])
        return float(strain[order][np.searchsorted(share, 0.95 * share[-1])])
