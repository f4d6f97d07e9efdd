"""A cut line held against the edges that it should run beside: rule 8 of docs/pattern-file.md, measured."""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LinearRing, Polygon

from panelwright.finish.cut_piece import CutPiece
from panelwright.geometry.arrays import Array, cross
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.geometry.trace import spaced, trace
from panelwright.pattern.mark import Point, as_point
from panelwright.pattern.piece import Piece

STEP = 2.0  # between the places that are measured, mm; every point of the cut line is one
LEAST_PLACES = 24  # on an edge; a short one is measured as thoroughly

FaultKind = Literal["crosses", "inside", "allowance", "beyond-fold"]


@dataclass(frozen=True)
class CutFault:
    """One way in which a cut line is wrong.

    Attributes:
        edge: index of the edge, or None where it is about the whole line.
        value: how far off it is, mm; for `allowance`, signed: positive where the cut line is too far out.
        at: where, on the piece.
    """

    kind: FaultKind
    edge: int | None
    value: float
    at: Point


@dataclass(frozen=True)
class CutShape:
    """All that the measuring needs to know of a piece; equal shapes have equal faults.

    Attributes:
        curves, widths, folds: of each edge, in outline order.
        line: the cut line's points as bytes, so that shapes can be compared.
        spans: (edge, first, last) as in `CutSpan`, by index.
    """

    curves: tuple[Curve, ...]
    widths: tuple[float, ...]
    folds: tuple[bool, ...]
    line: bytes
    spans: tuple[tuple[int, int, int], ...]

    @classmethod
    def of(cls, piece: Piece, cut: CutPiece) -> "CutShape":
        """The shape of a piece and its cutting side, which must name its edges and no others."""
        places = {edge.id: k for k, edge in enumerate(piece.edges)}
        return cls(
            tuple(edge.curve for edge in piece.edges),
            tuple(cut.allowances[edge.id] for edge in piece.edges),
            tuple(edge.kind == "fold" for edge in piece.edges),
            cut.cut_line.tobytes(),
            tuple((places[span.edge], span.first, span.last) for span in cut.spans),
        )


@lru_cache(maxsize=128)
def cut_faults(shape: CutShape) -> tuple[CutFault, ...]:
    """Everything wrong with a cut line, at most one fault of a kind and edge; remembered by content.

    It is measured both ways: cut-line points should be an allowance away from their edge, and each edge
    point's offset should lie on the cut line, wherever no other allowance covers it. Corners are left out:
    as much of an edge as the larger allowance that meets there, at most a third of the edge.
    """
    line = np.frombuffer(shape.line).reshape(-1, 2)
    polygon = Polygon(line)
    if not shapely.is_valid(polygon):
        at = _crossing(polygon)
        return (CutFault("crosses", None, 1.0, at),)
    ring = LinearRing(line)
    shapely.prepare(polygon)
    shapely.prepare(ring)
    faults = _left_out(shape, polygon, ring)
    owners, points = _owners(shape, line)
    for k in range(len(shape.curves)):
        faults += _off_allowance(shape, k, points[owners == k], (polygon, ring))
    for k, fold in enumerate(shape.folds):
        if fold:
            faults += _beyond_fold(shape, k, line)
    return tuple(faults)


def _crossing(polygon: Polygon) -> Point:
    """Where a line crosses itself, read from the reason `Self-intersection[x y]` that shapely gives."""
    reason = shapely.is_valid_reason(polygon)
    inside = reason.partition("[")[2].rstrip("]").split()
    return (float(inside[0]), float(inside[1])) if len(inside) == 2 else as_point(np.array(polygon.exterior.coords[0]))


def _left_out(shape: CutShape, polygon: Polygon, ring: LinearRing) -> list[CutFault]:
    """The outline point that lies farthest outside the cut line."""
    outline = np.concatenate([trace(curve).points[:-1] for curve in shape.curves])
    outside = outline[~shapely.contains_xy(polygon, outline)]
    if not len(outside):
        return []
    apart = np.atleast_1d(shapely.distance(ring, shapely.points(outside)))
    worst = int(apart.argmax())
    if apart[worst] <= TOLERANCES.allowance:
        return []
    return [CutFault("inside", None, float(apart[worst]), as_point(outside[worst]))]


def _owners(shape: CutShape, line: Array) -> tuple[Array, Array]:
    """Places along the cut line, and the edge each belongs to: by the spans, else the nearest edge."""
    points, segment = spaced(line, STEP)
    owner = np.full(len(line), -1)
    for edge, first, last in shape.spans:
        owner[(first + np.arange((last - first) % len(line))) % len(line)] = edge
    owners = owner[segment]
    bare = owners < 0
    if bare.any():
        distances = [trace(curve).nearest(points[bare])[0] for curve in shape.curves]
        owners[bare] = np.argmin(distances, axis=0)
    return owners, points


def _between_corners(shape: CutShape, k: int) -> tuple[float, float]:
    """Arc interval of an edge without its corners."""
    length, widths, count = trace(shape.curves[k]).length, shape.widths, len(shape.widths)
    low, high = (min(max(widths[k], widths[n % count]), length / 3) for n in (k - 1, k + 1))
    return low, length - high


def _off_allowance(shape: CutShape, k: int, points: Array, cut: tuple[Polygon, LinearRing]) -> list[CutFault]:
    """Where the cut line of an edge is farthest from its allowance, looking from it and from the edge."""
    width, edge = shape.widths[k], trace(shape.curves[k])
    low, high = _between_corners(shape, k)
    worst, at = 0.0, (0.0, 0.0)
    if len(points):
        apart, foot = edge.nearest(points)
        off = np.where((foot > low) & (foot < high), apart - width, 0.0)
        n = int(np.abs(off).argmax())
        worst, at = float(off[n]), as_point(points[n])
    places = np.linspace(low, high, max(LEAST_PLACES, math.ceil((high - low) / STEP)))
    on, normals = edge.at(places)
    offset = on + width * normals
    missed = _missed(shape, offset, *cut)
    n = int(missed.argmax())
    if missed[n] > abs(worst):
        worst, at = float(missed[n]), as_point(on[n])
    return [CutFault("allowance", k, worst, at)] if abs(worst) > TOLERANCES.allowance else []


def _missed(shape: CutShape, offset: Array, polygon: Polygon, ring: LinearRing) -> Array:
    """How far the cut line passes by each offset point of an edge; 0 where another allowance covers the point.

    A point beyond a fold belongs to the other half: it is covered where that half, this one mirrored, reaches it.
    """
    missed = np.zeros(len(offset))
    far = np.flatnonzero(~shapely.dwithin(ring, shapely.points(offset), TOLERANCES.allowance))
    if len(far):
        mirrored, beyond = _into_this_half(shape, offset[far])
        covered = _covered(shape, offset[far]) | (beyond & shapely.contains_xy(polygon, mirrored))
        missed[far] = np.where(covered, 0.0, shapely.distance(ring, shapely.points(mirrored)))
    return missed


def _into_this_half(shape: CutShape, points: Array) -> tuple[Array, NDArray[np.bool_]]:
    """(points, those beyond a fold mirrored back across it; which those are)."""
    mirrored, beyond = points.copy(), np.zeros(len(points), bool)
    for curve, fold in zip(shape.curves, shape.folds, strict=True):
        if fold:
            past = _past_fold(curve, points)
            outwards = np.array([curve.chord[1], -curve.chord[0]]) / max(float(np.linalg.norm(curve.chord)), 1e-9)
            mirrored -= 2 * np.maximum(past, 0.0)[:, None] * outwards
            beyond |= past > 0
    return mirrored, beyond


def _covered(shape: CutShape, points: Array) -> NDArray[np.bool_]:
    """Which points lie inside the outline or within the allowance of any edge."""
    outline = Polygon(np.concatenate([trace(curve).points[:-1] for curve in shape.curves]))
    covered = np.asarray(shapely.contains_xy(outline, points))
    for curve, width in zip(shape.curves, shape.widths, strict=True):
        covered |= trace(curve).nearest(points)[0] < width - TOLERANCES.allowance
    return covered


def _past_fold(fold: Curve, points: Array) -> Array:
    """How far points lie beyond the line of a fold, away from the piece, mm."""
    past: Array = cross(points - fold.start, fold.chord) / max(float(np.linalg.norm(fold.chord)), TOLERANCES.same_point)
    return past


def _beyond_fold(shape: CutShape, k: int, line: Array) -> list[CutFault]:
    """The cut-line point that lies farthest beyond the line of a fold."""
    beyond = _past_fold(shape.curves[k], line)
    worst = int(beyond.argmax())
    if beyond[worst] <= TOLERANCES.allowance + TOLERANCES.straight:
        return []
    return [CutFault("beyond-fold", k, float(beyond[worst]), as_point(line[worst]))]
