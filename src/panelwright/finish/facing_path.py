"""Where the inner edge of a facing runs: at the facing's width from the edges that it turns."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np
import shapely
from shapely import Geometry, LineString, Point

from panelwright.finish.facing_plan import FacingPlan, is_shoulder
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge, EdgeKind
from panelwright.pattern.piece import Piece

# (edge, whether the facing covers the edge's end, or its start)
EndKey = tuple[str, bool]

NOTHING: Final[Mapping[EndKey, float]] = MappingProxyType({})
# Corners of the inner edge are rounded with this radius, mm.
ROUND: Final = 22.0
# A seam edge keeps at least this much beside the facing, mm; a piece that would keep less is faced whole.
LEAST_LEFT: Final = 15.0
# A piece that the facing leaves no more of than a strip of this width is faced whole, mm.
SLIVER: Final = 30.0
_OF_WIDTH: Final = 0.9
_STEP: Final = 5.0
_FARTHEST: Final = 200.0
_SLANT: Final = 0.6
_ARC_STEPS: Final = 32
_ON_EDGE: Final = 0.05
_SHORT: Final = 5.0


@dataclass(frozen=True, eq=False)
class Band:
    """A facing of one run of edges, before its ends are settled with the neighbours.

    Attributes:
        run: the edges, in outline order.
        enter, leave: the edges before and after the run; the inner edge goes from `leave` to `enter`.
        path: points of the inner edge, shape (m, 2), from `leave` to `enter`.
        enter_arc, leave_arc: where it meets them, mm from the start of each.
        wants: how much of `leave` and `enter` the band should cover so that no thin tongue is left beside it, mm.
    """

    run: tuple[Edge, ...]
    enter: Edge
    leave: Edge
    path: Array
    enter_arc: float
    leave_arc: float
    wants: tuple[float, float]


def bands(piece: Piece, plan: FacingPlan, deeper: Mapping[EndKey, float] = NOTHING) -> tuple[Band, ...] | None:
    """The bands of a piece in outline order, or None where they would leave nothing of it, or nothing worth having.

    Args:
        deeper: ends of edges that the facing of the neighbour covers for so many mm; there the band is as long.
    """
    found, areas = [], []
    for run in plan.runs(piece):
        if len(run) == len(piece.edges):
            return None
        area = _area(piece, run, plan, deeper)
        band = _band(piece, run, area)
        if band is None:
            return None
        found.append(band)
        areas.append(shapely.intersection(area, piece.outline))
    if any(shapely.distance(a, b) < LEAST_LEFT for k, a in enumerate(areas) for b in areas[:k]):
        return None
    left = shapely.difference(piece.outline, shapely.union_all(areas))
    if shapely.is_empty(shapely.buffer(left, -SLIVER / 2)):
        return None
    return tuple(found)


def is_pinched(piece: Piece, plan: FacingPlan) -> bool:
    """Whether bands of a piece leave a shoulder of it that is thinner somewhere than `LEAST_LEFT` down to the rest."""
    shoulders = [e for e in piece.edges if is_shoulder(e.line) and not plan.width(e)]
    runs = plan.runs(piece)
    if not shoulders or not runs or any(len(run) == len(piece.edges) for run in runs):
        return False
    areas = shapely.union_all([_area(piece, run, plan, NOTHING) for run in runs])
    parts = shapely.get_parts(shapely.buffer(shapely.difference(piece.outline, areas), -LEAST_LEFT / 2))
    if not len(parts):
        return True
    body = max(parts, key=shapely.area)
    kept = [shapely.difference(LineString(edge.curve.polyline()), areas) for edge in shoulders]
    return any(shapely.distance(body, line) > LEAST_LEFT for line in kept if shapely.length(line) > _SHORT)


def _area(piece: Piece, run: tuple[Edge, ...], plan: FacingPlan, deeper: Mapping[EndKey, float]) -> Geometry:
    """All that lies within the facing's width of a run, or of a seam as far as it is covered; corners rounded."""
    parts = [_beside(edge.curve.polyline(), plan.width(edge)) for edge in run]
    first, last = run[0], run[-1]
    parts.append(_continued(piece.before(first), first.curve.polyline(), -first.curve.start_tangent, plan.width(first)))
    parts.append(_continued(piece.after(last), last.curve.polyline(), last.curve.end_tangent, plan.width(last)))
    enter, leave = piece.before(first), piece.after(last)
    if depth := deeper.get((enter.id, True)):
        covered = enter.curve.between(enter.curve.length - depth, enter.curve.length)
        parts.append(_along(covered, plan.width(first)))
    if depth := deeper.get((leave.id, False)):
        parts.append(_along(leave.curve.between(0.0, depth), plan.width(last)))
    area = shapely.union_all(parts)
    outwards = min(ROUND, _OF_WIDTH * min(plan.width(edge) for edge in run))
    for way in (ROUND, -ROUND, -outwards, outwards):
        area = shapely.buffer(area, way, quad_segs=_ARC_STEPS)
    return area


def _along(seam: Curve, width: float) -> Geometry:
    """Beside a seam from its faced end to the place that is covered, cut off square there."""
    return LineString(seam.polyline()).buffer(width, quad_segs=_ARC_STEPS, cap_style="flat")


def _beside(points: Array, width: float) -> Geometry:
    return LineString(points).buffer(width, quad_segs=_ARC_STEPS)


def _continued(beside: Edge, points: Array, way: Array, width: float) -> Geometry:
    """The run goes on beyond its end: mirrored at a fold, straight across a seam."""
    if beside.kind == "fold":
        along = beside.curve.chord / np.linalg.norm(beside.curve.chord)
        from_fold = points - beside.curve.start
        return _beside(beside.curve.start + 2 * np.outer(from_fold @ along, along) - from_fold, width)
    end = points[0] if np.allclose(beside.curve.end, points[0]) else points[-1]
    return _beside(np.array([end, end + 2 * width * way]), width)


def _band(piece: Piece, run: tuple[Edge, ...], area: Geometry) -> Band | None:
    enter, leave = piece.before(run[0]), piece.after(run[-1])
    cut = shapely.get_parts(shapely.line_merge(shapely.intersection(shapely.boundary(area), piece.outline)))
    paths = [points for part in cut if (points := _from_edge_to_edge(part, leave, enter)) is not None]
    others = float(shapely.length(cut).sum()) - sum(LineString(points).length for points in paths)
    if len(paths) != 1 or others > _SHORT:
        return None
    (path,) = paths
    enter_arc, leave_arc = enter.curve.nearest(path[-1])[0], leave.curve.nearest(path[0])[0]
    same = enter.id == leave.id
    left = (enter_arc - leave_arc,) if same else (enter_arc, leave.curve.length - leave_arc)
    if min(left) < LEAST_LEFT:
        return None
    depth = leave_arc, enter.curve.length - enter_arc
    wants = (
        _wanted(leave.curve, depth[0], area, leave.kind),
        _wanted(enter.curve.reversed(), depth[1], area, enter.kind),
    )
    return Band(run, enter, leave, path, enter_arc, leave_arc, wants)


def _wanted(seam: Curve, depth: float, area: Geometry, kind: EdgeKind) -> float:
    """How far down a seam from its faced end the rest of the panel is thinner than `SLIVER` beside it, mm.

    The distance to the band grows as fast as one goes down a seam that the inner edge crosses squarely; where it runs
    along the seam it grows slowly, and a thin tongue is left.
    """
    if kind == "finished":
        return depth
    steps = np.arange(_STEP, min(_FARTHEST, seam.length - LEAST_LEFT - depth), _STEP)
    places = shapely.line_interpolate_point(LineString(seam.polyline()), depth + steps)
    thin = steps[shapely.distance(places, area) < np.minimum(_SLANT * steps, SLIVER)]
    return depth + float(thin[-1]) if len(thin) and thin[-1] >= SLIVER else depth


def _from_edge_to_edge(part: Geometry, leave: Edge, enter: Edge) -> Array | None:
    """The points of a line if it runs from one edge to the other, turned to start on `leave`; else None."""
    if shapely.length(part) < _SHORT:
        return None
    points = shapely.get_coordinates(part)
    on_leave, on_enter = (
        [bool(LineString(edge.curve.polyline()).distance(Point(end)) < _ON_EDGE) for end in points[[0, -1]]]
        for edge in (leave, enter)
    )
    if leave.id == enter.id:
        arcs = [leave.curve.nearest(point)[0] for point in points[[0, -1]]]
        return None if not all(on_leave) else points if arcs[0] < arcs[1] else points[::-1]
    if on_leave[0] and on_enter[1]:
        return points
    return points[::-1] if on_enter[0] and on_leave[1] else None
