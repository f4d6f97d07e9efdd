"""A curve beside another, everywhere at the same distance."""

import math
from itertools import pairwise
from typing import Final

import numpy as np

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES

# The cubics of the parallel are this near to it, mm.
_NEAR: Final = TOLERANCES.polyline / 4
_HALVINGS: Final = 8
_PROBES: Final = np.array([0.25, 0.5, 0.75])
# A curve that turns by more than this where two of its cubics meet has a corner there.
_CORNER: Final = math.radians(0.5)


def parallel(curve: Curve, distance: float) -> Curve:
    """The curve `distance` mm to the left of `curve` (below 0: to its right), run in the same sense, within 0.005 mm.

    Raises:
        GeometryError: if the curve has a corner inside, or bends more sharply than it can be moved.
    """
    _refuse_corners(curve)
    made: list[Array] = []
    for cubic in curve.cubics:
        made += _moved(cubic, distance, _HALVINGS)
    for before, after in pairwise(made):
        after[0] = before[3]
    return Curve(np.array(made))


def extended(curve: Curve, reach: float) -> Curve:
    """The curve run on straight by `reach` mm at both its ends."""
    first = Curve.straight(curve.start - reach * curve.start_tangent, curve.start)
    last = Curve.straight(curve.end, curve.end + reach * curve.end_tangent)
    return first.joined(curve).joined(last)


def _refuse_corners(curve: Curve) -> None:
    for before, after in pairwise(curve.cubics):
        a, b = Curve(before[None]).end_tangent, Curve(after[None]).start_tangent
        if abs(math.atan2(a[0] * b[1] - a[1] * b[0], float(a @ b))) > _CORNER:
            raise GeometryError("an edge with a corner in it cannot be moved parallel")


def _moved(cubic: Array, distance: float, halvings: int) -> list[Array]:
    """Cubics beside one cubic: exact places and directions at the ends, halved until the middle fits too."""
    ends, velocities = _beside(cubic, np.array([0.0, 1.0]), distance)
    control = np.array([ends[0], ends[0] + velocities[0] / 3, ends[1] - velocities[1] / 3, ends[1]])
    wanted, _ = _beside(cubic, _PROBES, distance)
    off = float(np.linalg.norm(_values(control, _PROBES) - wanted, axis=1).max())
    if off <= _NEAR:
        return [control]
    if not halvings:
        raise GeometryError(f"an edge bends too sharply to be moved by {abs(distance) / 10:.1f} cm")
    half = [_split(cubic, left) for left in (True, False)]
    return [part for piece in half for part in _moved(piece, distance, halvings - 1)]


def _beside(cubic: Array, t: Array, distance: float) -> tuple[Array, Array]:
    """(points, velocities) of the true parallel at parameters t, shape (n, 2) each."""
    s = 1 - t[:, None]
    r = t[:, None]
    d = 3 * np.diff(cubic, axis=0)
    e = 2 * np.diff(d, axis=0)
    velocity = s * s * d[0] + 2 * s * r * d[1] + r * r * d[2]
    acceleration = s * e[0] + r * e[1]
    speed = np.linalg.norm(velocity, axis=1, keepdims=True)
    bend = (velocity[:, :1] * acceleration[:, 1:] - velocity[:, 1:] * acceleration[:, :1]) / speed**3
    shrink = 1 - distance * bend
    if shrink.min() <= 0:
        raise GeometryError(f"an edge bends too sharply to be moved by {abs(distance) / 10:.1f} cm")
    normal = np.column_stack([-velocity[:, 1], velocity[:, 0]]) / speed
    return _values(cubic, t) + distance * normal, velocity * shrink


def _values(cubic: Array, t: Array) -> Array:
    s, r = 1 - t[:, None], t[:, None]
    points: Array = s**3 * cubic[0] + 3 * s * s * r * cubic[1] + 3 * s * r * r * cubic[2] + r**3 * cubic[3]
    return points


def _split(cubic: Array, left: bool) -> Array:
    """One half of a cubic (de Casteljau)."""
    a = (cubic[:-1] + cubic[1:]) / 2
    b = (a[:-1] + a[1:]) / 2
    c = (b[0] + b[1]) / 2
    return np.array([cubic[0], a[0], b[0], c]) if left else np.array([c, b[1], a[2], cubic[3]])
