"""No-fit polygons: where one piece must not lie as seen from another, for every two poses."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import NDArray

from panelwright.geometry.arrays import Array

Rings = list[Array]
IntArray = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Posed:
    """A shape, and how it is turned.

    Attributes:
        shape: its number.
        matrix: orthogonal, shape (2, 2), applied to the parts.
        parts: convex polygons that cover it, in its own coordinates.
    """

    shape: int
    matrix: Array
    parts: Sequence[Array]


@dataclass(frozen=True, eq=False)
class NoFit:
    """All no-fit polygons in one table.

    Attributes:
        edges: shape (m, 7): x, y of an edge's start, y of its end, both differences, 1 / length², dx / dy.
        ranges: shape (n, n, 2): first and last edge for poses (lying, moved).
        boxes: shape (n, n, 4): left, bottom, right, top.
    """

    edges: Array
    ranges: IntArray
    boxes: Array


def no_fit(poses: Sequence[Posed]) -> NoFit:
    """The table for all pairs of poses."""
    size, first = len(poses), 0
    rings, rows = _Rings(), []
    ranges, boxes = np.zeros((size, size, 2), np.int64), np.zeros((size, size, 4))
    for a, lying in enumerate(poses):
        for b, moved in enumerate(poses):
            table = np.concatenate([_edges(ring @ lying.matrix.T) for ring in rings.of(lying, moved)])
            ranges[a, b] = first, first + len(table)
            boxes[a, b] = *table[:, :2].min(axis=0), *table[:, :2].max(axis=0)
            first += len(table)
            rows.append(table)
    return NoFit(np.concatenate(rows), ranges, boxes)


def _key(lying: Posed, moved: Posed) -> tuple[tuple[object, ...], bool]:
    """What tells a pair apart from others, and whether it is kept the other way round.

    Only how one is turned against the other matters; and what B must keep clear of A, A must keep clear of B.
    """
    relative = np.round(lying.matrix.T @ moved.matrix, 9) + 0.0
    one = (lying.shape, moved.shape, relative.tobytes())
    other = (moved.shape, lying.shape, np.ascontiguousarray(relative.T).tobytes())
    return (one, False) if one <= other else (other, True)


@dataclass(eq=False)
class _Rings:
    """The rings made so far, as seen from the one that lies there unturned."""

    known: dict[tuple[object, ...], Rings] = field(default_factory=dict)

    def of(self, lying: Posed, moved: Posed) -> Rings:
        key, swapped = _key(lying, moved)
        relative = lying.matrix.T @ moved.matrix
        if key not in self.known:
            a, b, turn = (moved, lying, relative.T) if swapped else (lying, moved, relative)
            self.known[key] = list(_rings(a.parts, [part @ turn.T for part in b.parts]))
        return [-ring @ relative.T for ring in self.known[key]] if swapped else self.known[key]


def _rings(lying: Sequence[Array], moved: Sequence[Array]) -> Iterable[Array]:
    """The rings of one no-fit polygon, shape (n, 2) each, closed: the sums of every two convex parts, joined."""
    sums = [shapely.MultiPoint((a[:, None] - b[None]).reshape(-1, 2)) for a in lying for b in moved]
    for part in shapely.get_parts(shapely.union_all(shapely.convex_hull(sums))):
        if isinstance(part, shapely.Polygon):
            for ring in (part.exterior, *part.interiors):
                yield np.array(ring.coords)


def _edges(ring: Array) -> Array:
    start, end = ring[:-1], ring[1:]
    step = end - start
    square = np.maximum((step**2).sum(axis=1), 1e-300)
    slope = np.divide(step[:, 0], step[:, 1], out=np.zeros(len(step)), where=step[:, 1] != 0.0)
    return np.column_stack([start, end[:, 1], step, 1.0 / square, slope])
