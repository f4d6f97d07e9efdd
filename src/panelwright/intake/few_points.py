"""As few points of a curve as a hand would mark: a smooth line through them is the curve again."""

from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.intake.points_curve import curve_through

MOST: Final = 60
_LOOKED_AT: Final = 80


def few_points(curve: Curve, off: float) -> Array:
    """Points of a curve, its ends among them, evenly spaced, shape (n, 2).

    Args:
        curve: any.
        off: how far the smooth line through the points may leave the curve, in the curve's unit.
    """
    looked_at = np.linspace(0.0, curve.length, _LOOKED_AT)
    wanted = np.array([curve.point(float(arc)) for arc in looked_at])
    count = 2
    while True:
        arcs = np.linspace(0.0, curve.length, count)
        points = np.array([curve.point(float(arc)) for arc in arcs])
        if count >= MOST:
            return points
        through = Curve.straight(points[0], points[1]) if count == 2 else curve_through(points)
        if max(through.nearest(place)[1] for place in wanted) <= off:
            return points
        count += 1 if count < 8 else 4
