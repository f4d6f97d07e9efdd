"""No-fit polygons: where one piece must not lie as seen from another, for every two poses."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
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
    """The table for all pairs of poses."""
    polygons, size = _Polygons(), len(poses)
    rings, views = np.zeros((size, size), np.int64), np.zeros((size, size, 4))
    for a, lying in enumerate(poses):
        for b, moved in enumerate(poses):
            rings[a, b], views[a, b] = polygons.of(lying, moved)
    ends = np.cumsum([len(made) for made in polygons.made])
    ranges = np.column_stack([np.concatenate([[0], ends[:-1]]), ends])
    return NoFit(_edges(np.concatenate(polygons.made)), ranges, rings, views, _boxes(polygons.made, rings, views))


def _boxes(made: Sequence[Array], rings: IntArray, views: Array) -> Array:
    """Left, bottom, right, top of polygons as they are seen: each is turned back."""
    boxes = np.zeros((*rings.shape, 4))
    for number, polygon in enumerate(made):
        seen = np.nonzero(rings == number)
        points = polygon[:, :2] @ views[seen].reshape(-1, 2, 2)  # the transpose of a turn is the turn back
        boxes[seen] = np.concatenate([points.min(axis=1), points.max(axis=1)], axis=1)
    return boxes


@dataclass(eq=False)
class _Polygons:
    """The polygons made so far, as stretches of their boundaries, and what is kept to make more."""

    made: list[Array] = field(default_factory=list)
    number: dict[tuple[object, ...], int] = field(default_factory=dict)
    relatives: dict[bytes, tuple[Array, bytes]] = field(default_factory=dict)

    def of(self, lying: Posed, moved: Posed) -> tuple[int, Array]:
        """The number of a polygon, and how it is seen from the lying pose.

        Only how one is turned against the other matters; and what B must keep clear of A, A must keep clear of B.
        """
        relative, name = self._relative(lying.matrix, moved.matrix)
        back = self._relative(moved.matrix, lying.matrix)
        if (lying.shape, moved.shape, name) <= (moved.shape, lying.shape, back[1]):
            key, one, other, turn = (lying.shape, moved.shape, name), lying, moved, relative
            view = lying.matrix.T
        else:
            key, one, other, turn = (moved.shape, lying.shape, back[1]), moved, lying, back[0]
            view = -moved.matrix.T
        if key not in self.number:
            self.number[key] = len(self.made)
            self.made.append(_boundary(one, other, turn))
        return self.number[key], view.ravel()

    def _relative(self, lying: Array, moved: Array) -> tuple[Array, bytes]:
        """How one is turned against the other, and a name for it."""
        both = lying.tobytes() + moved.tobytes()
        if both not in self.relatives:
            relative = lying.T @ moved
            self.relatives[both] = relative, (np.round(relative, 9) + 0.0).tobytes()
        return self.relatives[both]


def _boundary(lying: Posed, moved: Posed, turn: Array) -> Array:
    """Where a turned shape touches one that lies there unturned, as stretches (x, y, x, y), shape (k, 4)."""
    from panelwright.lay.search.boundary import boundary  # compiled late: it takes seconds

    order = -1 if np.linalg.det(turn) < 0.0 else 1
    outline = -(moved.outline @ turn.T)[::order]
    parts = [-(part @ turn.T)[::order] for part in moved.parts]
    made = boundary(lying.outline, *_packed(lying.parts), np.ascontiguousarray(outline), *_packed(parts))
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
