"""How far a line passes from places that it was to pass."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array, cross
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES

POLYLINE: Final = 0.05  # mm


def departures(curves: Sequence[Curve], places: Array) -> Array:
    """How far a line of several curves passes from places of its panel, mm, above 0 where it passes above them.

    Args:
        curves: from right to left on paper, each starting where the one before it ends.
        places: shape (n, 2).
    """
    points = np.concatenate([curve.polyline(POLYLINE) for curve in curves])
    starts, steps = points[:-1], np.diff(points, axis=0)
    lengths = np.maximum((steps**2).sum(axis=1), TOLERANCES.same_point**2)
    from_start = places[:, None] - starts[None]
    share = np.clip((from_start * steps[None]).sum(axis=-1) / lengths, 0.0, 1.0)
    away = from_start - share[..., None] * steps[None]
    gaps = np.linalg.norm(away, axis=-1)
    nearest = gaps.argmin(axis=1)
    every = np.arange(len(places))
    side = cross(steps[nearest], away[every, nearest])
    signed: Array = np.where(side >= 0, 1.0, -1.0) * gaps[every, nearest]
    return signed
