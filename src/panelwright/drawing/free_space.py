"""Free space in a piece: where a text can stand without touching a line or another text."""

from collections.abc import Iterable

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from panelwright.drawing.path import Path
from panelwright.geometry.arrays import Array


class FreeSpace:
    """Room inside an outline, less the lines that run through it and the texts that were put there.

    Attributes:
        clearance: least distance of a text from everything, mm.
        joined: whether there are joins: lines that a text had better not lie across, though it may.
    """

    def __init__(self, outline: Polygon, lines: Iterable[Path], clearance: float, joins: Iterable[Path] = ()) -> None:
        self.clearance = clearance
        self._room = outline.buffer(-clearance)
        self._lines = _runs(lines)
        self._joins = _runs(joins)
        self.joined = not self._joins.is_empty
        self._taken: list[Polygon] = []
        shapely.prepare(self._room)
        shapely.prepare(self._lines)

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """(left, bottom, right, top) of the room; NaN where there is none."""
        left, bottom, right, top = (float(value) for value in self._room.bounds)
        return left, bottom, right, top

    def first_free(self, boxes: Array, across: bool = True) -> int | None:
        """Index of the first of several boxes, shape (n, 4, 2), anticlockwise, that is free; None if none is.

        One that lies across no join comes before one that does; the latter only where `across` lets it.
        """
        if not len(boxes):
            return None
        corners = np.asarray(shapely.contains_xy(self._room, boxes[..., 0], boxes[..., 1]))
        candidates = np.flatnonzero(corners.all(axis=1))
        candidates = candidates[np.asarray(shapely.contains_properly(self._room, shapely.polygons(boxes[candidates])))]
        grown = shapely.polygons(_grown(boxes[candidates], self.clearance))
        clear = ~np.asarray(shapely.intersects(self._lines, grown))
        for taken in self._taken:
            clear &= ~np.asarray(shapely.intersects(taken, grown))
        apart = clear & ~np.asarray(shapely.intersects(self._joins, grown))
        hits = candidates[apart] if apart.any() or not across else candidates[clear]
        return int(hits[0]) if len(hits) else None

    def take(self, box: Array) -> None:
        """Mark a box, shape (4, 2), as taken."""
        self._taken.append(Polygon(box))


def _runs(lines: Iterable[Path]) -> BaseGeometry:
    runs: BaseGeometry = shapely.MultiLineString(
        [shapely.linestrings(run) for path in lines for run in path.polylines if len(run) > 1]
    )
    return runs


def _grown(boxes: Array, by: float) -> Array:
    """Rectangles, shape (n, 4, 2), whose sides are moved outwards."""
    along = boxes[:, 1] - boxes[:, 0]
    up = boxes[:, 3] - boxes[:, 0]
    a = by * along / np.maximum(np.linalg.norm(along, axis=1, keepdims=True), 1e-9)
    u = by * up / np.maximum(np.linalg.norm(up, axis=1, keepdims=True), 1e-9)
    grown: Array = boxes + np.stack([-a - u, a - u, a + u, u - a], axis=1)
    return grown
