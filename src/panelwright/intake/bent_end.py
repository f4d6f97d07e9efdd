"""Small changes of a curve by which it keeps its character: its ends moved, or one of them turned."""

from itertools import pairwise
from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve

# An end is turned within its last stretch: so long, or this share of a shorter curve, mm.
REACH: Final = 60.0
SHARE: Final = 0.45


def with_ends(curve: Curve, start: Array, end: Array) -> Curve:
    """The curve carried to new ends: every place moves by its share of what the two ends move, shape kept."""
    if (curve.start == start).all() and (curve.end == end).all():
        return curve
    arcs = curve.joints / curve.length
    shares = np.stack([arcs[:-1] + (arcs[1:] - arcs[:-1]) * third / 3 for third in range(4)], axis=1)[..., None]
    moved = curve.cubics + (1 - shares) * (start - curve.start) + shares * (end - curve.end)
    for before, after in pairwise(moved):
        after[0] = before[3]
    return Curve(moved).ending_at(start, end)


def turned_end(curve: Curve, at_end: bool, angle: float) -> Curve:
    """The curve with the direction of travel at one end turned by `angle`, radians, anticlockwise; the rest stays."""
    if not at_end:
        return turned_end(curve.reversed(), True, angle).reversed()
    reach = min(REACH, SHARE * curve.length)
    kept, last = curve.split(curve.length - reach)
    c, s = np.cos(angle), np.sin(angle)
    way = np.array([[c, -s], [s, c]]) @ last.end_tangent
    third = float(np.hypot(*last.chord)) / 3
    cubic = [kept.end, kept.end + third * last.start_tangent, last.end - third * way, last.end]
    return kept.joined(Curve(np.array([cubic])))
