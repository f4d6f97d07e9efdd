"""What remains of a piece inside a new outline: inside lines, marks, grain and material go with it."""

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import Any

import numpy as np
import shapely
from shapely import LineString, Polygon

from panelwright.design.grain_place import grain_inside
from panelwright.errors import GeometryError
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge
from panelwright.pattern.mark import InsideLine, Mark
from panelwright.pattern.material import Region
from panelwright.pattern.piece import Piece

SHORTEST_PART = 0.5  # mm; a shorter bit of an inside line is dropped
ON_OUTLINE = 0.1  # mm; a mark this near the outline is on it
TOUCHING = 1.5 * TOLERANCES.polyline  # a line this near the cut meets it; both are drawn within 0.02 mm
LEVEL_ON_EDGE = 3.0  # mm; a level whose line runs this near the new edge all along is drawn as that edge
LINES_KEPT = 4096


@dataclass(frozen=True)
class Remnant:
    """What is left of a piece inside a new outline.

    Attributes:
        edges: the new outline, closed within rounding.
        fields: the other fields of the new piece.
        lines: inside lines that remain.
        inside: id of each old inside line -> ids of what remains of it.
        whole: old inside lines that remain whole.
        laid: those of them that the new edge runs along; they are drawn as that edge.
    """

    edges: tuple[Edge, ...]
    fields: Mapping[str, object]
    lines: tuple[InsideLine, ...]
    inside: Mapping[str, tuple[str, ...]]
    whole: frozenset[str]
    laid: frozenset[str]

    def piece(self, lost: Container[str] = ()) -> Piece:
        """The piece; levels that are `lost` elsewhere in the pattern become guides in it.

        Raises:
            GeometryError: if the edges make no piece.
        """
        if not any(line.kind == "level" and line.id in lost for line in self.lines):
            return self._whole_piece
        lines = tuple(
            replace(line, kind="guide") if line.kind == "level" and line.id in lost else line for line in self.lines
        )
        return replace(self._whole_piece, inside=lines)

    @cached_property
    def _whole_piece(self) -> Piece:
        return Piece.closed(self.edges, **{**self.fields, "inside": self.lines})


def remnant(
    piece: Piece, edges: tuple[Edge, ...], cut: Sequence[Curve], keep_levels: bool = False, **changes: object
) -> Remnant:
    """What a new outline leaves of a piece: of what is drawn in it, only what lies inside.

    Args:
        piece: the old piece.
        edges: the new outline, closed within rounding.
        cut: the curves of the new edges that cut the old piece, from end to end.
        keep_levels: whether a level line cut in two stays a level (its other part is in another piece) or
            becomes a guide.
        changes: fields of the new piece that are not the old one's.

    Raises:
        GeometryError: if the outline crosses itself.
    """
    outline = Polygon(np.concatenate([edge.curve.polyline()[:-1] for edge in edges]))
    if not outline.is_valid:
        raise GeometryError("its outline crosses itself")
    lines, made, whole, laid = _clipped(piece.inside, outline, piece.outline, cut, keep_levels)
    fields: dict[str, object] = {
        name: getattr(piece, name) for name in ("id", "label", "extent", "hand", "layer", "derived_from")
    }
    fields |= {
        "marks": _marks(piece.marks, outline),
        "grain": grain_inside(outline, piece.grain),
        "material": _material(piece.material, outline, keep_levels),
    }
    return Remnant(edges, {**fields, **changes}, lines, made, whole, laid)


def _clipped(
    lines: tuple[InsideLine, ...], outline: Polygon, whole_piece: Polygon, cut: Sequence[Curve], keep_levels: bool
) -> tuple[tuple[InsideLine, ...], dict[str, tuple[str, ...]], frozenset[str], frozenset[str]]:
    if not lines:
        return (), {}, frozenset(), frozenset()
    knife = LineString(np.concatenate([curve.polyline() for curve in cut]))
    drawn = np.array([_drawn(line.curve) for line in lines], dtype=object)
    # A level that is the very edge of the piece meets the cut at its end, where rounding may leave them apart.
    crossed = shapely.distance(drawn, knife) < TOUCHING
    # A level may be the very edge of the piece, and rounding may put its middle outside.
    middles = shapely.line_interpolate_point(drawn, 0.5, normalized=True)
    reach = TOUCHING if keep_levels else ON_OUTLINE
    held = shapely.distance(outline, middles) <= reach + _off(whole_piece, middles, keep_levels)
    kept: list[InsideLine] = []
    made: dict[str, tuple[str, ...]] = {}
    whole: set[str] = set()
    laid: set[str] = set()
    taken = {line.id for line in lines}
    for line, is_crossed, is_held, polyline in zip(lines, crossed, held, drawn, strict=True):
        if not is_crossed:
            parts = [line.curve] if is_held else []
        elif line.kind == "level" and not keep_levels and _runs_along(line.curve, polyline, knife):
            parts = [_along(cut, line.curve)]
            whole.add(line.id)
            laid.add(line.id)
        else:
            parts = _parts(line.curve, polyline, knife, outline, whole_piece if keep_levels else None)
        if len(parts) == 1 and parts[0] is line.curve:
            whole.add(line.id)
        ids = _ids(line.id, len(parts), taken)
        made[line.id] = ids
        kind = "guide" if line.kind == "level" and line.id not in whole and not keep_levels else line.kind
        kept += [InsideLine(id, kind, part) for id, part in zip(ids, parts, strict=True)]
    return tuple(kept), made, frozenset(whole), frozenset(laid)


@lru_cache(maxsize=LINES_KEPT)
def _drawn(curve: Curve) -> LineString:
    """The curve as a line string within 0.02 mm; kept, because the same level lines are looked at again and again."""
    return LineString(curve.polyline())


def _runs_along(curve: Curve, drawn: LineString, knife: LineString) -> bool:
    """Whether a level ends where the cut does and runs along it all the way."""
    ends = knife.coords[0], knife.coords[-1]
    gaps = [min(float(np.linalg.norm(np.subtract(end, other))) for other in ends) for end in (curve.start, curve.end)]
    return max(gaps) < TOLERANCES.seam and bool(shapely.hausdorff_distance(drawn, knife) < LEVEL_ON_EDGE)


def _along(cut: Sequence[Curve], level: Curve) -> Curve:
    """The cut as one curve, in the level's sense."""
    curve = cut[0]
    for other in cut[1:]:
        curve = curve.joined(other)
    nearer = np.linalg.norm(curve.start - level.start) < np.linalg.norm(curve.end - level.start)
    return curve if nearer else curve.reversed()


def _parts(curve: Curve, drawn: LineString, knife: LineString, outline: Polygon, old: Polygon | None) -> list[Curve]:
    """The parts of an inside line that lie inside the outline, or outside `old` as near to it as to that."""
    ends = shapely.points([knife.coords[0], knife.coords[-1]])
    met = ends[shapely.distance(drawn, ends) < TOUCHING]
    crossings = shapely.get_parts(shapely.intersection(drawn, knife))
    points = np.append(shapely.centroid(crossings[~shapely.is_empty(crossings)]), met)
    shares = sorted(shapely.line_locate_point(drawn, points, normalized=True).tolist())
    least = SHORTEST_PART / curve.length
    cuts = [0.0]
    cuts += [share for before, share in pairwise([0.0, *shares]) if share - before > least and share < 1 - least]
    cuts.append(1.0)
    kept: list[tuple[float, float]] = []
    for (a, b), is_inside in zip(pairwise(cuts), _lie_inside(drawn, cuts, outline, old), strict=True):
        if is_inside and kept and kept[-1][1] == a:
            kept[-1] = (kept[-1][0], b)
        elif is_inside:
            kept.append((a, b))
    if kept == [(0.0, 1.0)]:
        return [curve]
    return [curve.between(a * curve.length, b * curve.length) for a, b in kept if b - a >= least]


def _off(old: Polygon | None, points: Any, asked: bool) -> Any:
    """How far points lie outside the old piece, mm: a level may do so that was an edge which was drawn elsewhere since.

    It then belongs to the part that is as near to it as the whole piece was.
    """
    return shapely.distance(old, points) if asked and old is not None else np.zeros(np.shape(points))


def _lie_inside(drawn: LineString, cuts: list[float], outline: Polygon, old: Polygon | None) -> list[bool]:
    """Whether each stretch between cuts lies inside or runs along the outline."""
    shares = np.array(cuts)
    places = shares[:-1, None] + np.diff(shares)[:, None] * [0.25, 0.5, 0.75]
    points = shapely.line_interpolate_point(drawn, places, normalized=True)
    away = shapely.distance(outline, points) - _off(old, points, old is not None)
    # Of two parts that a cut leaves only one takes a stretch that runs beside it.
    inside: list[bool] = (away.max(axis=1) <= (ON_OUTLINE if old is None else TOUCHING)).tolist()
    return inside


def _ids(id: str, count: int, taken: set[str]) -> tuple[str, ...]:
    """`bust`, then `bust-2`, … for further parts, none of them in use yet."""
    ids = [id][:count]
    number = 2
    while len(ids) < count:
        if (other := f"{id}-{number}") not in taken:
            ids.append(other)
            taken.add(other)
        number += 1
    return tuple(ids)


def _marks(marks: tuple[Mark, ...], outline: Polygon) -> tuple[Mark, ...]:
    if not marks:
        return ()
    away = shapely.distance(outline, shapely.points([mark.at for mark in marks]))
    return tuple(mark for mark, gap in zip(marks, away, strict=True) if gap <= ON_OUTLINE)


def _material(regions: tuple[Region, ...], outline: Polygon, bounded: bool) -> tuple[Region, ...]:
    """Regions cut to the outline. One that fills the piece needs no boundary, unless it is asked for."""
    kept = []
    for region in regions:
        if not region.boundary:
            kept.append(replace(region, boundary=ring_of(outline)) if bounded else region)
            continue
        area = shapely.intersection(outline, Polygon(region.boundary))
        largest = max(shapely.get_parts(area), key=shapely.area, default=None)
        if isinstance(largest, Polygon) and largest.area > 1.0:
            kept.append(replace(region, boundary=ring_of(largest)))
    return tuple(kept)


def ring_of(outline: Polygon) -> tuple[tuple[float, float], ...]:
    """Corners of a polygon, the first not repeated."""
    x, y = shapely.get_coordinates(outline.exterior)[:-1].T
    return tuple(zip(x.tolist(), y.tolist(), strict=True))


def bounded(piece: Piece) -> tuple[Region, ...]:
    """The piece's regions, each with a boundary: one that fills the piece takes its outline."""
    ring = ring_of(piece.outline)
    return tuple(region if region.boundary else replace(region, boundary=ring) for region in piece.material)
