"""The inner edge of a facing as a smooth curve: along its path, and into the seams where it has to meet them."""

from typing import Final

import numpy as np
from scipy.interpolate import CubicSpline
from shapely import LineString, get_coordinates, line_interpolate_point

from panelwright.finish.facing_ends import BandEnd
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve

_APART: Final = 8.0  # mm between places of the path that the curve goes through
# Near its ends the curve is free to leave the path: over so many mm, and so many times what it has to give way.
_FREE: Final = 30.0
_GIVES: Final = 3.0
# An allowance needs more room than this radius, mm; if the curve is tighter its ends get more of the path to bend in.
_TIGHTEST: Final = 20.0
_MORE: Final = (1.0, 0.6, 1.6, 2.5)
_LOOKS: Final = 17  # places of every cubic


def inner_curve(path: Array, leave: BandEnd, enter: BandEnd) -> Curve:
    """The curve from where a facing leaves its edges to where it enters them, along `path` (shape (m, 2)).

    It is a cubic spline through places of the path, with the ends' places and directions, as gentle as an allowance
    beside it needs.
    """
    gaps = [float(np.linalg.norm(path[k] - end.point)) for k, end in ((0, leave), (-1, enter))]
    tries = []
    for more in _MORE:
        curve = _through(LineString(path), leave, enter, [(_FREE + _GIVES * gap) * more for gap in gaps])
        bend = curve.sharpest_bend(_LOOKS)
        if bend <= 1 / _TIGHTEST:
            return curve
        tries.append((bend, curve))
    return min(tries, key=lambda made: made[0])[1]


def _through(line: LineString, leave: BandEnd, enter: BandEnd, free: list[float]) -> Curve:
    """A curve that leaves the path over `free` mm at its two ends."""
    free = [min(reach, 0.45 * line.length) for reach in free]
    count = max(1, round((line.length - sum(free)) / _APART))
    places = np.linspace(free[0], line.length - free[1], count + 1)
    points = np.concatenate([[leave.point], get_coordinates(line_interpolate_point(line, places)), [enter.point]])
    return smooth_through(points, leave.inwards, -enter.inwards)


def smooth_through(points: Array, start: Array, end: Array) -> Curve:
    """A C2 curve through points, shape (n, 2), with these unit directions at its ends; parameter: chord length."""
    arcs = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    velocities = CubicSpline(arcs, points, bc_type=((1, start), (1, end))).derivative()(arcs)
    thirds = np.diff(arcs)[:, None] / 3
    controls = [points[:-1], points[:-1] + thirds * velocities[:-1], points[1:] - thirds * velocities[1:], points[1:]]
    return Curve(np.stack(controls, axis=1))
