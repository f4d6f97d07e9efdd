"""Arc lengths that the flat panels must keep: girths at levels, equal seams, lengths between levels."""

from dataclasses import dataclass

import numpy as np

from panelwright.blocks.tensor_spline import Breaks
from panelwright.geometry.arrays import Array


@dataclass(frozen=True, eq=False)
class ArcTerm:
    """The arc length of a line of one panel, by 16-point quadrature an interval as `Curve.length` does.

    Attributes:
        panel: index of the panel.
        derivative: shape (q, c): applied to x or y coefficients, that coordinate's derivative at the nodes.
        weights: shape (q,).
    """

    panel: int
    derivative: Array
    weights: Array

    @classmethod
    def level(cls, panel: int, heights: Breaks, across: Breaks, z: float) -> "ArcTerm":
        """The line at height z across a panel."""
        u, weights = across.nodes(16)
        derivative = np.einsum("i,uj->uij", heights.basis(np.array([z]))[0], across.basis(u, 1))
        return cls(panel, derivative.reshape(len(u), -1), weights)

    @classmethod
    def line(cls, panel: int, heights: Breaks, across: Breaks, back: bool, span: tuple[float, float]) -> "ArcTerm":
        """The panel's front or back line between two heights, both of them joints of its spline."""
        z, weights = heights.nodes(16)
        inside = (z > span[0]) & (z < span[1])
        side = np.zeros(across.count)
        side[-1 if back else 0] = 1.0
        derivative = np.einsum("zi,j->zij", heights.basis(z[inside], 1), side)
        return cls(panel, derivative.reshape(int(inside.sum()), -1), weights[inside])

    @classmethod
    def through(cls, panel: int, heights: Breaks, across: Breaks, z: Array, u: Array) -> "ArcTerm":
        """The straight way from place to place (z, u) of a panel, shape (n,) each: a chord where there are two."""
        basis = np.einsum("ni,nj->nij", heights.basis(z), across.basis(u)).reshape(len(z), -1)
        return cls(panel, np.diff(basis, axis=0), np.ones(len(z) - 1))

    def length(self, coefficients: Array) -> float:
        """The arc length at coefficients (2, c), mm."""
        return float(np.hypot(*(coefficients @ self.derivative.T)) @ self.weights)

    def gradient(self, coefficients: Array) -> Array:
        """Derivative of the length by (x coefficients, y coefficients), shape (2c,)."""
        velocity = coefficients @ self.derivative.T
        pull: Array = (self.weights * velocity / np.hypot(*velocity)) @ self.derivative
        return pull.ravel()

    def second_derivatives(self, coefficients: Array) -> Array:
        """Second derivatives of the length by (x coefficients, y coefficients), shape (2c, 2c)."""
        velocity = coefficients @ self.derivative.T
        speed = np.hypot(*velocity)
        along = velocity / speed
        across = np.array([-along[1], along[0]])  # only what turns the line changes its length twice over
        turned = np.concatenate([across[0][:, None] * self.derivative, across[1][:, None] * self.derivative], axis=1)
        bend: Array = turned.T @ ((self.weights / speed)[:, None] * turned)
        return bend


@dataclass(frozen=True, eq=False)
class ArcConstraint:
    """Σ sign · length = target, mm."""

    terms: tuple[tuple[float, ArcTerm], ...]
    target: float = 0.0
