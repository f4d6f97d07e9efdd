"""A trace: the polyline that stands for a curve where many points are measured against it at once."""

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from panelwright.geometry.arrays import Array, frozen, unit
from panelwright.geometry.curve import Curve

# Rows × segments that are worked at a time, so that a huge polyline costs time but no memory.
_BLOCK = 400_000


@dataclass(frozen=True, eq=False)
class Trace:
    """A polyline, shape (m, 2), mm, m ≥ 2, with no two neighbours in one place."""

    points: Array

    @cached_property
    def steps(self) -> Array:
        """From each point to the next, shape (m-1, 2)."""
        return np.diff(self.points, axis=0)

    @cached_property
    def arcs(self) -> Array:
        """Arc position of each point, shape (m,)."""
        return np.concatenate([[0.0], np.cumsum(np.hypot(*self.steps.T))])

    @property
    def length(self) -> float:
        """Of the polyline, mm."""
        return float(self.arcs[-1])

    def nearest(self, points: Array) -> tuple[Array, Array]:
        """(distance, arc position of the foot) for each of `points`, shape (n, 2) -> (n,), (n,)."""
        rows = max(1, _BLOCK // len(self.steps))
        parts = [self._nearest(points[k : k + rows]) for k in range(0, max(len(points), 1), rows)]
        return np.concatenate([d for d, _ in parts]), np.concatenate([a for _, a in parts])

    def _nearest(self, points: Array) -> tuple[Array, Array]:
        (ax, ay), (dx, dy) = self.points[:-1].T, self.steps.T
        x, y = points[:, :1] - ax, points[:, 1:] - ay
        t = x * (dx / (dx * dx + dy * dy)) + y * (dy / (dx * dx + dy * dy))
        np.clip(t, 0.0, 1.0, out=t)
        x -= t * dx
        y -= t * dy
        apart = x * x + y * y
        k = apart.argmin(axis=1)
        row = np.arange(len(points))
        lengths = np.hypot(dx, dy)
        return np.sqrt(apart[row, k]), self.arcs[k] + t[row, k] * lengths[k]

    def at(self, places: Array) -> tuple[Array, Array]:
        """(points, unit normals to the right of travel) at arc positions, shape (n,) -> (n, 2), (n, 2)."""
        along = unit(self.steps)
        along = unit(np.concatenate([along[:1], along[:-1] + along[1:], along[-1:]]))
        point, way = (
            np.column_stack([np.interp(places, self.arcs, values[:, axis]) for axis in (0, 1)])
            for values in (self.points, along)
        )
        way = unit(way)
        return point, np.column_stack([way[:, 1], -way[:, 0]])


@lru_cache(maxsize=512)
def trace(curve: Curve) -> Trace:
    """The trace of a curve, within `TOLERANCES.polyline` of it; remembered by content."""
    points = curve.polyline()
    apart = np.any(np.diff(points, axis=0) != 0.0, axis=1)
    return Trace(frozen(points[np.concatenate([[True], apart])]))


def spaced(points: Array, step: float) -> tuple[Array, NDArray[np.intp]]:
    """The points of a closed polyline (first not repeated) and others between them, none farther apart than `step`.

    Returns:
        (points, shape (n, 2); index of the segment that each lies on, shape (n,)). Segment k starts at point k.
    """
    steps = np.roll(points, -1, axis=0) - points
    counts = np.maximum(1, np.ceil(np.hypot(*steps.T) / step)).astype(int)
    which: NDArray[np.intp] = np.repeat(np.arange(len(points), dtype=np.intp), counts)
    share = (np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts)) / counts[which]
    return points[which] + share[:, None] * steps[which], which
