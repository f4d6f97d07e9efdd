"""Circular arcs as curves."""

from math import ceil, cos, pi, sin, tan

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve

# One cubic for at most this angle: it strays from its circle by less than 1e-8 of the radius.
_WIDEST = pi / 12
_STRAIGHT = 1e-9  # radians of turning that no pencil shows


def arc_from(start: Array | tuple[float, float], heading: float, turning: float, length: float) -> Curve:
    """The arc of a circle that leaves a point in a direction.

    Args:
        start: where it starts, mm.
        heading: its first direction, radians anticlockwise from the x axis.
        turning: by how much it turns on its way, radians, anticlockwise positive; 0 makes a straight line.
        length: of the arc, mm.

    >>> from math import pi
    >>> quarter = arc_from((10.0, 0.0), pi / 2, pi / 2, 5 * pi)
    >>> [round(float(x), 6) + 0.0 for x in quarter.end], round(quarter.length, 6)
    ([0.0, 10.0], 15.707963)
    """
    at = np.asarray(start, float)
    if abs(turning) < _STRAIGHT:
        return Curve.straight(at, at + length * np.array([cos(heading), sin(heading)]))
    count = ceil(abs(turning) / _WIDEST)
    radius = length / turning
    centre = at + radius * np.array([-sin(heading), cos(heading)])
    step = turning / count
    reach = 4 / 3 * tan(step / 4) * radius
    headings = heading + step * np.arange(count + 1)
    ways = np.stack([np.cos(headings), np.sin(headings)], axis=1)
    places = centre + radius * np.stack([np.sin(headings), -np.cos(headings)], axis=1)
    places[0] = at
    return Curve(np.stack([places[:-1], places[:-1] + reach * ways[:-1], places[1:] - reach * ways[1:], places[1:]], 1))
