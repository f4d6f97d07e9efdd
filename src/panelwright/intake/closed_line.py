"""A closed line through many points: evenly spaced anew, smoothed, with directions."""

from typing import Final

import numpy as np
from scipy.ndimage import gaussian_filter1d, median_filter

from panelwright.geometry.arrays import Array, unit

_SMOOTHED: Final = 1.2  # mm
_DEVIATION: Final = 1.4826  # standard deviations to the median of absolute errors that are normal
_NEAR: Final = 8.0  # mm
_LEAST: Final = 0.7


def lengths(points: Array) -> Array:
    """From each point of a closed line to the next, mm, shape (n,)."""
    return np.asarray(np.hypot(*(np.roll(points, -1, axis=0) - points).T), float)


def even(points: Array, step: float) -> Array:
    """Points on the closed line through `points`, shape (n, 2), about `step` mm apart, starting at the first."""
    ring = np.concatenate([points, points[:1]])
    arcs = np.concatenate([[0.0], np.cumsum(lengths(points))])
    count = max(8, round(float(arcs[-1]) / step))
    at = np.linspace(0.0, arcs[-1], count, endpoint=False)
    return np.column_stack([np.interp(at, arcs, ring[:, axis]) for axis in (0, 1)])


def smooth(points: Array, deviation: float) -> Array:
    """The closed line smoothed along itself; `deviation` in points."""
    return np.asarray(gaussian_filter1d(points, deviation, axis=0, mode="wrap"), float)


def outward(points: Array) -> Array:
    """Unit normals to the right of travel, shape (n, 2): outwards where the line runs anticlockwise."""
    way = unit(np.roll(points, -1, axis=0) - np.roll(points, 1, axis=0))
    return np.column_stack([way[:, 1], -way[:, 0]])


def area(points: Array) -> float:
    """Of the closed line, mm²; positive where it runs anticlockwise."""
    x, y = points.T
    return float((x * np.roll(y, -1) - y * np.roll(x, -1)).sum()) / 2


def line_noise(points: Array, step: float) -> float:
    """Standard deviation of the points of an evenly spaced closed line across it, mm: what smoothing takes away."""
    return max(_DEVIATION * float(np.median(_roughness(points, step))), 0.005)


def noise_along(points: Array, step: float) -> Array:
    """The same at each point, from what lies within `_NEAR` of it, and at least `_LEAST` of the whole line's, (n,)."""
    rough = _roughness(points, step)
    near = min((len(points) - 1) // 2 * 2 - 1, 2 * round(_NEAR / step) + 1)
    local = _DEVIATION * np.asarray(median_filter(rough, near, mode="wrap"), float)
    return np.asarray(np.maximum(local, _LEAST * line_noise(points, step)), float)


def _roughness(points: Array, step: float) -> Array:
    """How far each point is from the smoothed line, mm, shape (n,)."""
    line = smooth(points, _SMOOTHED / step)
    return np.asarray(np.abs(((points - line) * outward(line)).sum(axis=1)), float)
