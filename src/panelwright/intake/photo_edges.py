"""A measured outline as edges: smooth cubics from corner to corner."""

from typing import Final

import numpy as np
from scipy.interpolate import make_lsq_spline
from scipy.ndimage import gaussian_filter1d

from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.intake.closed_line import even, line_noise
from panelwright.intake.drawn_edge import DrawnEdge

_STEP: Final = 0.3
_ROUNDED: Final = 0.5  # mm beside a corner that are not trusted
_FAITHFUL: Final = 0.10  # mm that an edge may be off the measured outline, noise aside
_NOISY: Final = 1.6  # the same in standard deviations of its noise
_PARTS: Final = (1, 2, 3, 4, 5, 6, 8, 10, 13, 16, 20, 26)
_FIXED: Final = 30.0  # weight of a corner


def drawn_edges(outline: Array, corners: Array) -> tuple[DrawnEdge, ...]:
    """The edges between corners, in the outline's order; where it has fewer than two, it is parted at its ends.

    Args:
        outline: closed, anticlockwise, mm, shape (n, 2).
        corners: on or beside it, in its order, shape (k, 2).
    """
    line = even(outline, _STEP)
    faithful = max(_FAITHFUL, _NOISY * line_noise(line, _STEP))
    if len(corners) < 2:
        corners = _ends(line, corners)
    at = [int(np.argmin(np.hypot(*(line - corner).T))) for corner in corners]
    order = np.argsort(at)
    places, at = corners[order], [at[k] for k in order]
    edges = []
    for k, (start, end) in enumerate(zip(at, at[1:] + at[:1], strict=True)):
        between = np.arange(start, end if end > start else end + len(line) + 1) % len(line)
        edges.append(DrawnEdge(smooth_edge(line[between], places[k], places[(k + 1) % len(places)], faithful)))
    return tuple(edges)


def smooth_edge(points: Array, start: Array, end: Array, faithful: float = _FAITHFUL) -> Curve:
    """The curve with fewest cubics from start to end that keeps to measured points, shape (n, 2), within so many mm."""
    inner = points[(np.hypot(*(points - start).T) > _ROUNDED) & (np.hypot(*(points - end).T) > _ROUNDED)]
    straight = Curve.straight(start, end)
    if len(inner) < 4:
        return straight
    way = (end - start) / np.linalg.norm(end - start)
    if _off((inner - start) @ np.array([-way[1], way[0]])) < faithful:
        return straight
    every = np.concatenate([start[None], inner, end[None]])
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(every, axis=0).T))])
    curve = straight
    for parts in _PARTS:
        if len(every) < 3 * parts + 4:
            break
        curve, rest = _fitted(every, along, parts)
        if rest < faithful:
            break
    return curve.ending_at(start, end)


def _fitted(points: Array, along: Array, parts: int) -> tuple[Curve, float]:
    """(C2 chain of so many cubics of even length by least squares, how far it is off, noise aside, mm)."""
    joints = np.linspace(0.0, along[-1], parts + 1)
    knots = np.concatenate([[0.0] * 3, joints, [along[-1]] * 3])
    weights = np.ones(len(points))
    weights[[0, -1]] = _FIXED
    spline = make_lsq_spline(along, points, knots, 3, weights)
    rest = points - spline(along)
    ways = spline(along, 1)
    normal = np.column_stack([-ways[:, 1], ways[:, 0]]) / np.maximum(np.hypot(*ways.T), 1e-9)[:, None]
    places, speeds, third = spline(joints), spline(joints, 1), np.diff(joints)[:, None] / 3
    cubics = np.stack(
        [places[:-1], places[:-1] + third * speeds[:-1], places[1:] - third * speeds[1:], places[1:]], axis=1
    )
    return Curve(cubics), _off((rest * normal).sum(axis=1))


def _off(apart: Array) -> float:
    """The largest departure that is no noise: the mean over about 2 mm, mm."""
    return float(np.abs(gaussian_filter1d(apart, 0.7 / _STEP, mode="nearest")).max())


def _ends(line: Array, corners: Array) -> Array:
    """Two places to part a closed line at: its corner or the place farthest out, and the one farthest from that."""
    first = corners[0] if len(corners) else line[int(np.argmax(np.hypot(*(line - line.mean(axis=0)).T)))]
    second = line[int(np.argmax(np.hypot(*(line - first).T)))]
    return np.array([first, second])
