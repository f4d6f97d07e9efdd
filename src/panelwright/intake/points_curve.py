"""A typed table of points as the curve that a maker would draw through them."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike
from scipy.interpolate import CubicSpline

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES

MOST_POINTS: Final = 500


def curve_through(points: ArrayLike) -> Curve:
    """The smooth curve through a table of points, shape (n, 2), mm, n ≥ 2, in the order given.

    Two points are joined straight. Through more runs one cubic spline whose direction and bend nowhere jump (C2),
    measured off by the straight distances between the points; at either end its last two stretches are one cubic
    ("not-a-knot"), so that it neither flattens nor curls there. It goes exactly through every point.

    Raises:
        GeometryError: if there are fewer than two points, or two neighbours are in one place.

    >>> round(curve_through([(0, 0), (30, 40)]).length, 6)
    50.0
    """
    places = np.asarray(points, float)
    if places.ndim != 2 or len(places) < 2:
        raise GeometryError("a line needs two points or more")
    steps = np.hypot(*np.diff(places, axis=0).T)
    if steps.min() < TOLERANCES.same_point:
        raise GeometryError(f"points {int(steps.argmin()) + 1} and {int(steps.argmin()) + 2} are in one place")
    if len(places) == 2:
        return Curve.straight(*places)
    along = np.concatenate([[0.0], np.cumsum(steps)])
    return Curve(_cubics(places, along, CubicSpline(along, places)(along, 1)))


def _cubics(places: Array, along: Array, velocity: Array) -> Array:
    """Béziers between neighbouring points, shape (n-1, 4, 2), from places and velocities at them."""
    third = np.diff(along)[:, None] / 3
    return np.stack(
        [places[:-1], places[:-1] + third * velocity[:-1], places[1:] - third * velocity[1:], places[1:]], axis=1
    )
