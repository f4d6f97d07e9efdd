"""No-fit polygons: where one piece must not lie as seen from another, for every two poses."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from panelwright.geometry.arrays import Array

IntArray = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Posed:
    """A shape, and how it is turned.

    Attributes:
        shape: its number.
        matrix: orthogonal, shape (2, 2), applied to the outline and its parts.
        outline: open, anticlockwise, in its own coordinates.
        parts: convex polygons that cover it, anticlockwise.
    """

    shape: int
    matrix: Array
    outline: Array
    parts: Sequence[Array]


class NoFit(NamedTuple):
    """All no-fit polygons in one table. Those that are the same but for a turn stand there once.

    Attributes:
        edges: shape (7, m): x, y of an edge's start, y of its end, both differences, 1 / length², dx / dy.
        ranges: shape (r, 2): first and last edge of every polygon.
        rings: shape (n, n): number of the polygon for poses (lying, moved).
        views: shape (n, n, 4): the matrix, row by row, that turns what is seen from the lying pose for that polygon.
        boxes: shape (n, n, 4): left, bottom, right, top as seen from the lying pose.
    """

    edges: Array
    ranges: IntArray
    rings: IntArray
    views: Array
    boxes: Array


def no_fit(poses: Sequence[Posed]) -> NoFit:
    """The table for all pairs of poses.

    Only how one is turned against the other matters; and what B must keep clear of A, A must keep clear of B.
    """
    matrices, shapes = np.array([pose.matrix for pose in poses]), np.array([pose.shape for pose in poses])
    relative = np.einsum("aji,bjk->abik", matrices, matrices)
    names = _pair_names(shapes, relative)
    swapped = names > names.T
    _, first, rings = np.unique(np.minimum(names, names.T).ravel(), return_index=True, return_inverse=True)
    made = []
    for a, b in zip(*np.divmod(first, len(poses)), strict=True):
        a, b = (b, a) if swapped[a, b] else (a, b)
        made.append(_boundary(poses[a], poses[b], relative[a, b]))
    back = np.swapaxes(matrices, 1, 2)
    views = np.where(swapped[..., None, None], -back[None], back[:, None]).reshape(*names.shape, 4)
    rings = rings.reshape(names.shape)
    ends = np.cumsum([len(polygon) for polygon in made])
    ranges = np.column_stack([np.concatenate([[0], ends[:-1]]), ends])
    return NoFit(_edges(np.concatenate(made)), ranges, rings, views, _boxes(made, rings, views))


def _pair_names(shapes: IntArray, relative: Array) -> IntArray:
    """A number for every pair of poses, the same for the same shapes turned alike against each other."""
    cosines, sines = (np.round((relative[..., k, 0] + 2.0) * 1e8).astype(np.int64) for k in (0, 1))
    mirrored = np.linalg.det(relative) < 0.0
    turns = np.unique((cosines * 10**9 + sines) * 2 + mirrored, return_inverse=True)[1].reshape(mirrored.shape)
    names: IntArray = (shapes[:, None] * (shapes.max() + 1) + shapes) * (turns.max() + 1) + turns
    return names


def _boxes(made: Sequence[Array], rings: IntArray, views: Array) -> Array:
    """Left, bottom, right, top of polygons as they are seen: each is turned back."""
    boxes = np.zeros((rings.size, 4))
    by_ring = np.split(np.argsort(rings, axis=None, kind="stable"), np.cumsum(np.bincount(rings.ravel()))[:-1])
    flat = views.reshape(-1, 2, 2)
    for polygon, seen in zip(made, by_ring, strict=True):
        points = polygon[:, :2] @ flat[seen]  # the transpose of a turn is the turn back
        boxes[seen] = np.concatenate([points.min(axis=1), points.max(axis=1)], axis=1)
    return boxes.reshape(*rings.shape, 4)


def _boundary(lying: Posed, moved: Posed, turn: Array) -> Array:
    """Where a turned shape touches one that lies there unturned, as stretches (x, y, x, y), shape (k, 4)."""
    from panelwright.lay.search.boundary import boundary  # compiled late: it takes seconds

    order = -1 if np.linalg.det(turn) < 0.0 else 1
    outline = -(moved.outline @ turn.T)[::order]
    parts = [-(part @ turn.T)[::order] for part in moved.parts]
    made = boundary(
        np.ascontiguousarray(lying.outline), *_packed(lying.parts), np.ascontiguousarray(outline), *_packed(parts)
    )
    if len(made) == 0:
        made = np.concatenate([np.hstack([ring[:-1], ring[1:]]) for ring in _united(lying.parts, parts)])
    return made


def _packed(parts: Sequence[Array]) -> tuple[Array, IntArray]:
    return np.concatenate(parts), np.concatenate([[0], np.cumsum([len(part) for part in parts])])


def _united(ones: Sequence[Array], others: Sequence[Array]) -> Iterable[Array]:
    """The rings of a sum, shape (n, 2) each, closed, the slow way: the sums of every two convex parts, joined."""
    sums = [shapely.MultiPoint((a[:, None] + b[None]).reshape(-1, 2)) for a in ones for b in others]
    for part in shapely.get_parts(shapely.union_all(shapely.convex_hull(sums))):
        if isinstance(part, shapely.Polygon):
            for ring in (part.exterior, *part.interiors):
                yield np.array(ring.coords)


def _edges(made: Array) -> Array:
    start, end = made[:, :2], made[:, 2:]
    step = end - start
    square = np.maximum((step**2).sum(axis=1), 1e-300)
    slope = np.divide(step[:, 0], step[:, 1], out=np.zeros(len(step)), where=step[:, 1] != 0.0)
    return np.ascontiguousarray(np.column_stack([start, end[:, 1], step, 1.0 / square, slope]).T)
