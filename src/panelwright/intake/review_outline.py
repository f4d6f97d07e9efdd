"""Where a learner's outline leaves the model's: corners, edges, and angles at the fold."""

from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely

from panelwright.geometry.arrays import Array, cross, turn
from panelwright.geometry.curve import Curve
from panelwright.intake.review_edges import EdgePair
from panelwright.intake.review_fit import signed_distances
from panelwright.intake.review_point import ARM, FOLD_ANGLE, PENCIL, ReviewPoint
from panelwright.pattern.mark import as_point
from panelwright.pattern.piece import Piece

_SAMPLES: Final = 81
_STEP: Final = 0.01  # mm, to either side, for the direction of a line
# Two edges of the model that meet at less than this make no corner that a hand could put elsewhere, radians.
_SMOOTH: Final = 0.2


@dataclass(frozen=True, eq=False)
class EdgeOff:
    """How far the learner's stretch lies off a model's edge.

    Attributes:
        pair: the edge and the stretch.
        places: on the stretch, shape (n, 2), mm of the garment.
        off: of each, positive outside the piece, shape (n,).
        ends: how far its two ends lie off square to the edge, with that sign.
    """

    pair: EdgePair
    places: Array
    off: Array
    ends: tuple[float, float]

    @property
    def unexplained(self) -> Array:
        """How far each place lies off beyond what its ends, joined straight, would make it, shape (n,)."""
        along = np.linspace(*self.ends, len(self.off))
        unexplained: Array = self.off - np.clip(self.off, np.minimum(along, 0.0), np.maximum(along, 0.0))
        return unexplained

    def all_along(self, limit: float) -> bool:
        """Whether it lies off on one side from end to end."""
        every = np.array([*self.off[1:-1], *self.ends])
        return bool((every > limit).all() or (every < -limit).all())


def edge_offs(pairs: tuple[EdgePair, ...]) -> list[EdgeOff]:
    """What every stretch lies off its edge."""
    return [_edge_off(pair) for pair in pairs]


def outline_points(offs: list[EdgeOff], piece: Piece, scale: float) -> list[ReviewPoint]:
    """The departures of one piece: lines first, then corners, then the fold's angles where nothing else tells them."""
    limit = PENCIL * scale
    edges = {off.pair.model.id: point for off in offs if (point := _edge_point(off, piece, limit)) is not None}
    corners = {}
    for before, after in zip(offs[-1:] + offs[:-1], offs, strict=True):
        point = _corner_point(before, after, piece, limit, edges)
        if point is not None:
            corners[after.pair.model.id] = point
    told = _touched(offs, edges, corners)
    return [*edges.values(), *corners.values(), *_fold_points(offs, piece, scale, told)]


def _edge_off(pair: EdgePair) -> EdgeOff:
    model, learner = pair.model.curve, pair.learner
    places = np.array([learner.point(share * learner.length) for share in np.linspace(0.0, 1.0, _SAMPLES)])
    off = _off_line(places, model)
    ends = float(off[0]), float(off[-1])
    return EdgeOff(pair, places, off, ends)


def _off_line(places: Array, model: Curve) -> Array:
    """How far places lie off a line that runs straight on at its ends, positive on its right, outside the piece."""
    run = model.polyline()
    reach = 0.5 * model.length
    run_on = np.vstack([run[:1] - reach * model.start_tangent, run, run[-1:] + reach * model.end_tangent])
    line, points = shapely.LineString(run_on), shapely.points(places)
    arc = shapely.line_locate_point(line, points)
    before, after = (shapely.get_coordinates(shapely.line_interpolate_point(line, arc + h)) for h in (-_STEP, _STEP))
    side = cross(after - before, places - before)
    off: Array = -np.sign(side) * shapely.distance(line, points)
    return off


def _edge_point(edge: EdgeOff, piece: Piece, limit: float) -> ReviewPoint | None:
    model = edge.pair.model
    whole = edge.all_along(limit)
    left = edge.off if whole else edge.unexplained
    most = int(np.abs(left).argmax())
    if abs(left[most]) <= limit:
        return None
    at = as_point(model.curve.point(model.curve.nearest(edge.places[most])[0]))
    value = float(edge.off[most])
    return ReviewPoint("edge", piece.label, (model.line,), value, limit, at, all_along=whole, edge=model.id)


def _corner_point(
    before: EdgeOff, after: EdgeOff, piece: Piece, limit: float, edges: dict[str, ReviewPoint]
) -> ReviewPoint | None:
    """The corner where `after` starts, unless it is smooth, or a line that lies off as a whole takes it along."""
    a, b = before.pair.model, after.pair.model
    way = after.pair.learner.start - b.curve.start
    if abs(turn(a.curve.end_tangent, b.curve.start_tangent)) < _SMOOTH:
        return None
    for edge in (a, b):
        if edge.id in edges and edges[edge.id].all_along:
            tangent = b.curve.start_tangent if edge is a else a.curve.end_tangent
            way = way - (way @ tangent) * tangent  # a line moved as a whole slides its corner along the other one
    off = float(np.hypot(*way))
    if off <= limit:
        return None
    outside = float(signed_distances(after.pair.learner.start[None, :], piece.outline)[0]) > 0
    at = as_point(b.curve.start)
    return ReviewPoint("corner", piece.label, (a.line, b.line), off if outside else -off, limit, at, edge=b.id)


def _touched(offs: list[EdgeOff], edges: dict[str, ReviewPoint], corners: dict[str, ReviewPoint]) -> set[str]:
    """Edges that a point tells of, or one of whose ends does."""
    ids = [off.pair.model.id for off in offs]
    ends = {ids[k - side] for k, id in enumerate(ids) if id in corners for side in (0, 1)}
    return {*edges, *ends}


def _fold_points(offs: list[EdgeOff], piece: Piece, scale: float, told: set[str]) -> list[ReviewPoint]:
    found = []
    for before, after in zip(offs[-1:] + offs[:-1], offs, strict=True):
        a, b = before.pair, after.pair
        if "fold" not in (a.model.kind, b.model.kind) or {a.model.id, b.model.id} & told:
            continue
        arm = min(ARM * scale, *(0.9 * each.length for each in (a.model.curve, b.model.curve, a.learner, b.learner)))
        angles = []
        for first, second in ((a.learner, b.learner), (a.model.curve, b.model.curve)):
            angles.append(np.pi - turn(first.end - first.point(first.length - arm), second.point(arm) - second.start))
        value = float(angles[0] - angles[1])
        if abs(value) > FOLD_ANGLE:
            at = as_point(b.model.curve.start)
            lines = (a.model.line, b.model.line)
            found.append(ReviewPoint("fold-angle", piece.label, lines, value, FOLD_ANGLE, at, edge=b.model.id))
    return found
