"""A smooth curve y(x) through values that hardly overshoots."""

import numpy as np
from scipy.interpolate import CubicSpline, PchipInterpolator

from panelwright.geometry.arrays import Array


def fair_spline(x: Array, y: Array) -> CubicSpline:
    """A C2 cubic spline through (x, y) and through the midpoints of a monotone interpolant of them.

    The monotone interpolant alone bends abruptly at its knots; a plain spline swings past them. x must rise.
    """
    between = PchipInterpolator(x, y)
    knots = np.sort(np.concatenate([x, (x[1:] + x[:-1]) / 2]))
    return CubicSpline(knots, between(knots))
