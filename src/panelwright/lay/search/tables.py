"""What the inner loops of the search read: plain arrays with names, made once for a task."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from panelwright.geometry.arrays import Array
from panelwright.lay.search.detail import Shapes
from panelwright.lay.search.no_fit import Posed, no_fit
from panelwright.lay.search.task import Found, LayTask, Place, ToLay, Turn

IntArray = NDArray[np.int64]


class Tables(NamedTuple):
    """Of a task; p and q number poses, i things to lay.

    Attributes:
        edges, ranges: of all no-fit polygons, see `NoFit`.
        rings, views, boxes: [p, q]: for q seen from p, see `NoFit`.
        scale: [p, q]: what a millimetre that q lies in p costs: the larger they are, the more.
        rooms: [p]: least x, length of the lay less greatest x, least y, greatest y.
        sizes: [p]: the longer side of its box.
        allowed: [i]: the poses it may take, then -1.
        pinned: [i]: it can only be shifted along the cloth.
    """

    edges: Array
    ranges: IntArray
    rings: IntArray
    views: Array
    boxes: Array
    scale: Array
    rooms: Array
    sizes: Array
    allowed: IntArray
    pinned: NDArray[np.bool_]


class Layout(NamedTuple):
    """Where everything lies during the search, an entry for each thing to lay."""

    poses: IntArray
    xs: Array
    ys: Array

    def copy(self) -> "Layout":
        """Apart from this one from now on."""
        return Layout(self.poses.copy(), self.xs.copy(), self.ys.copy())


@dataclass(frozen=True, eq=False)
class Ready:
    """A task made ready for the search.

    Attributes:
        task: what it is.
        poses: (shape, turn, fold) of every pose.
        tables: for the inner loops.
    """

    task: LayTask
    poses: tuple[tuple[int, Turn, int | None], ...]
    tables: Tables

    def reach(self, layout: Layout) -> float:
        """Length of a lay, mm."""
        return float((layout.xs + self.tables.rooms[layout.poses, 1]).max())

    def clamped(self, layout: Layout, length: float) -> Layout:
        """The same with everything on the cloth of a length, in another pose where it is too long in its own."""
        poses = layout.poses.copy()
        sums = self.tables.rooms[:, :2].sum(axis=1)
        for i in np.flatnonzero(sums[poses] > length):
            allowed = self.tables.allowed[i]
            poses[i] = min(allowed[allowed >= 0], key=lambda p: sums[p])
        rooms = self.tables.rooms[poses]
        xs = np.maximum(np.minimum(layout.xs, length - rooms[:, 1]), rooms[:, 0])
        return Layout(poses, xs, np.clip(layout.ys, rooms[:, 2], np.maximum(rooms[:, 2], rooms[:, 3])))

    def found(self, layout: Layout) -> Found:
        """The places to hand out."""
        turns = [self.poses[p][1] for p in layout.poses]
        places = zip(turns, layout.xs.tolist(), layout.ys.tolist(), strict=True)
        return Found(self.reach(layout), tuple(Place(*place) for place in places))

    def layout(self, found: Found) -> Layout:
        """The same the other way round."""
        known = {pose: number for number, pose in enumerate(self.poses)}
        pieces = zip(self.task.pieces, found.places, strict=True)
        poses = [known[piece.shape, place.turn, piece.fold] for piece, place in pieces]
        xs, ys = ([getattr(place, axis) for place in found.places] for axis in "xy")
        return Layout(np.array(poses, np.int64), np.array(xs, float), np.array(ys, float))


def ready(task: LayTask, shapes: Shapes) -> Ready:
    """Make the tables.

    Args:
        task: with at least one thing to lay.
        shapes: its outlines made ready.
    """
    poses = tuple(
        dict.fromkeys((piece.shape, turn, piece.fold) for piece in task.pieces for turn in _turns(task, piece))
    )
    outlines, parts = shapes.outlines, shapes.parts
    posed = [Posed(shape, turn.matrix, outlines[shape], parts[shape]) for shape, turn, _ in poses]
    hulls = np.array([shapely.Polygon(outlines[shape]).convex_hull.area for shape, _, _ in poses])
    rooms = np.array([_room(task, ToLay(shape, (turn,), fold), turn) for shape, turn, fold in poses])
    boxes = [np.ptp(turn.points(task.outlines[shape]), axis=0) for shape, turn, _ in poses]
    allowed = _allowed(task, {pose: number for number, pose in enumerate(poses)})
    pinned = np.array([piece.fold is not None for piece in task.pieces])
    scale = np.sqrt(np.sqrt(hulls[:, None] * hulls[None]))
    return Ready(task, poses, Tables(*no_fit(posed), scale, rooms, np.max(boxes, axis=1), allowed, pinned))


def _turns(task: LayTask, piece: ToLay) -> list[Turn]:
    """Those in which it fits the cloth's width."""
    outline = task.outlines[piece.shape]
    return [turn for turn in piece.turns if np.ptp(turn.points(outline)[:, 1]) <= task.width * (1 + 1e-9)]


def _room(task: LayTask, piece: ToLay, turn: Turn) -> tuple[float, float, float, float]:
    points, line = turn.points(task.outlines[piece.shape]), task.fold_line(piece, turn)
    (left, low), (right, high) = points.min(axis=0), points.max(axis=0)
    if line is not None:
        on_fold = line - float(points[piece.fold, 1])
        return -float(left), float(right), on_fold, on_fold
    return -float(left), float(right), -float(low), max(task.width - float(high), -float(low))


def _allowed(task: LayTask, number: dict[tuple[int, Turn, int | None], int]) -> IntArray:
    found = [[number[piece.shape, turn, piece.fold] for turn in _turns(task, piece)] for piece in task.pieces]
    table = np.full((len(found), max(map(len, found))), -1)
    for i, poses in enumerate(found):
        table[i, : len(poses)] = poses
    return table
