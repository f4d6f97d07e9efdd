"""The smooth line that measured points of an edge come from, and how badly it explains them."""

from functools import lru_cache
from typing import Final

import numpy as np
from scipy.linalg import solveh_banded

from panelwright.geometry.arrays import Array

STEP: Final = 0.2  # mm between points
# What edges of patterns do: by how much a bend changes along one (variance of curvature per mm, mm⁻³), and how sharp
# a bend is (curvature squared times the length over which it is as it is, mm⁻¹).
_BEND_CHANGES: Final = 0.001
_BEND: Final = 0.025
_DIFFERENCES: Final = ((2, 1 / (STEP**3 * _BEND)), (3, 1 / (STEP**5 * _BEND_CHANGES)))
_LEAST_SHARE: Final = 1e-4  # of the usual weight that a point without any has, so that there is one solution


def smooth_line(points: Array, weights: Array) -> tuple[Array, float]:
    """(the likeliest smooth line, shape (n, 2); its misfit, the logarithm of how unlikely it and the points are).

    The line makes the weighted squares of its distances from the points and of its second and third differences least:
    an edge bends little, and its bend changes slowly.

    Args:
        points: `STEP` mm apart along an edge, mm, shape (n, 2), n at least 5.
        weights: of each point: one over the variance of its error, mm⁻², or 0 where it is not known, shape (n,).
    """
    about = points - points[0]
    held = _held(weights)
    band = _stiffness(len(points)).copy()
    band[3] += held
    line = solveh_banded(band, held[:, None] * about, check_finite=False)
    return line + points[0], float((held[:, None] * about * (about - line)).sum()) / 2


def misfit_form(weights: Array) -> Array:
    """The matrix that gives the misfit of a smooth line from the x or y of its points, shape (n, n)."""
    held, band = _held(weights), _stiffness(len(weights))
    full = np.diag(band[3] + held)
    for apart in (1, 2, 3):
        side = np.diag(band[3 - apart, apart:], apart)
        full += side + side.T
    own = np.diag(held)
    form: Array = (own - own @ np.linalg.solve(full, own)) / 2
    return form


def _held(weights: Array) -> Array:
    return np.maximum(weights, _LEAST_SHARE * float(weights.max()))


@lru_cache(maxsize=2000)
def _stiffness(count: int) -> Array:
    """Squares of the differences as a banded matrix, the diagonal last, shape (4, n)."""
    band = np.zeros((4, count))
    for order, factor in _DIFFERENCES:
        terms = np.diff(np.eye(order + 1), order, axis=0)[0]
        rows = count - order
        for first in range(order + 1):
            for second in range(first, order + 1):
                band[3 - (second - first), second : second + rows] += factor * terms[first] * terms[second]
    return band
