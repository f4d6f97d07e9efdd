"""A smooth curve through points of a plane."""

import numpy as np
from scipy.interpolate import CubicSpline

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve

APART = 0.5  # mm between neighbouring points


def curve_through(points: Array) -> Curve:
    """The natural cubic spline through points, shape (n, 2), over the lengths of its chords; straight through two.

    Raises:
        GeometryError: if two neighbours are less than half a millimetre apart.
    """
    steps = np.linalg.norm(np.diff(points, axis=0), axis=1)
    if steps.min() < APART:
        raise GeometryError("two of the places that the line runs through are the same; take one of them out")
    if len(points) == 2:
        return Curve.straight(points[0], points[1])
    ways = np.concatenate([[0.0], np.cumsum(steps)])
    slopes = CubicSpline(ways, points, bc_type="natural")(ways, 1)
    third = steps[:, None] / 3
    cubics = [points[:-1], points[:-1] + slopes[:-1] * third, points[1:] - slopes[1:] * third, points[1:]]
    return Curve(np.stack(cubics, axis=1))
