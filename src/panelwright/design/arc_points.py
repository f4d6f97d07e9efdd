"""Many places of curves at once."""

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(16)
_T, _W = (_NODES + 1) / 2, _WEIGHTS / 2
NEWTON_STEPS = 12
CLOSE = 1e-11  # mm


def arc_points(curve: Curve, arcs: ArrayLike) -> Array:
    """The curve's points at arc positions (held to the curve), shape (n,) -> (n, 2): `Curve.point` for many."""
    places = np.asarray(arcs, float)
    return arc_frames([curve] * len(places), places)[0]


def arc_frames(curves: Sequence[Curve], arcs: ArrayLike) -> tuple[Array, Array]:
    """(points, unit tangents), shape (n, 2) each, of n curves at one arc position each.

    Newton's method on the arc length of all at once, started from even speed along each cubic; it comes within
    1e-9 mm on the gentle cubics of a pattern. Ends of a curve come out exactly.
    """
    cubics, left, span = [], [], []
    for curve, arc in zip(curves, np.asarray(arcs, float), strict=True):
        joints = curve.joints
        held = min(max(float(arc), 0.0), curve.length)
        k = min(max(int(np.searchsorted(joints, held, side="right")) - 1, 0), len(curve.cubics) - 1)
        cubics.append(curve.cubics[k])
        left.append(held - joints[k])
        span.append(joints[k + 1] - joints[k])
    chosen, wanted = np.array(cubics), np.array(left)
    t = np.clip(wanted / np.array(span), 0.0, 1.0)
    steps = 3 * (chosen[:, 1:] - chosen[:, :-1])
    for _ in range(NEWTON_STEPS):
        velocity = _velocity(steps[:, None], t[:, None] * _T)
        excess = np.hypot(velocity[..., 0], velocity[..., 1]) @ _W * t - wanted
        if np.abs(excess).max() < CLOSE:
            break
        now = _velocity(steps, t)
        t = np.clip(t - excess / np.hypot(now[:, 0], now[:, 1]), 0.0, 1.0)
    direction = _velocity(steps, t)
    return _place(chosen, t), direction / np.linalg.norm(direction, axis=1, keepdims=True)


def _place(cubics: Array, t: Array) -> Any:
    r, s = (1 - t)[..., None], t[..., None]
    return r**3 * cubics[:, 0] + 3 * r * r * s * cubics[:, 1] + 3 * r * s * s * cubics[:, 2] + s**3 * cubics[:, 3]


def _velocity(steps: Array, t: Array) -> Any:
    r, s = (1 - t)[..., None], t[..., None]
    return r * r * steps[..., 0, :] + 2 * r * s * steps[..., 1, :] + s * s * steps[..., 2, :]
