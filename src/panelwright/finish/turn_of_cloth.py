"""Turn of cloth: a layer inside is smaller by the thickness that its turned edges go round."""

import math
from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LineString

from panelwright.design.chain import EdgePart
from panelwright.errors import GeometryError
from panelwright.finish.facing_edge import FACING_EDGE
from panelwright.finish.facing_ends import SQUARE, BandEnd, agreed, centre_edges, seam_end
from panelwright.finish.facing_line import smooth_through
from panelwright.finish.facing_path import EndKey
from panelwright.finish.facing_plan import FACED_CLOSURES, hem_lines
from panelwright.finish.layer_draft import Draft
from panelwright.finish.options import Finish
from panelwright.geometry.arrays import Array, turn
from panelwright.geometry.curve import Curve
from panelwright.geometry.parallel import extended, parallel
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern

_LEAST_SINE = 0.3
_LEAST_CORNER = 0.2
_RUN_ON = 4.0  # thicknesses that a parallel runs on beyond its ends, to meet its neighbours
_BRIDGE = 12.0  # mm over which an edge is bent to a place or direction that its parallel misses
_APART = 6.0  # mm between places of a parallel that is drawn anew
_SAME_WAY = math.radians(0.1)
_NEARLY_SQUARE = math.radians(3.0)


def turned(drafts: Sequence[Draft], shell: Pattern, options: Finish) -> tuple[Draft, ...]:
    """The drafts with their turned edges moved inwards, seams still equal on both sides.

    Args:
        drafts: of one layer, or of layers that are sewn together.
        shell: the pattern that they repeat.
        options: whose `turn_of_cloth` is the thickness, mm. An edge that goes once round a turning comes out 2π
            thicknesses shorter.

    Finished edges are turned, and openings that button or lace. A hem that no facing turns is not; nor are strips
    (pieces with no material of the block), which are sewn as one tube.
    """
    lines = frozenset(one.place for one in shell.closures if one.kind in FACED_CLOSURES)
    hems = hem_lines(shell) if options.facing == "edge" and not options.hem_facing_width else frozenset()
    turning = _Turning(options.turn_of_cloth, lines, hems)
    centres = centre_edges(shell)
    found = [_squared(end, centres) for draft in drafts for end in _ends(draft, turning)]
    ends = agreed(shell, _both_sided(shell, found))
    return tuple(_turned(draft, turning, ends) for draft in drafts)


@dataclass(frozen=True)
class _Turning:
    """By how much edges are moved, mm; opening lines that are; finished lines that are not."""

    thickness: float
    openings: frozenset[str]
    kept: frozenset[str]


def _is_turned(edge: Edge, draft: Draft, turning: _Turning) -> bool:
    if not draft.source.material or edge.line == FACING_EDGE.id or edge.line in turning.kept:
        return False
    return edge.kind == "finished" or (edge.kind == "opening" and edge.line in turning.openings)


def _corners(draft: Draft, turning: _Turning) -> Iterator[tuple[Edge, Edge, bool, bool]]:
    """(edge, the one after it, whether each is turned) round the outline."""
    for edge, after in zip(draft.edges, draft.edges[1:] + draft.edges[:1], strict=True):
        yield edge, after, _is_turned(edge, draft, turning), _is_turned(after, draft, turning)


def _ends(draft: Draft, turning: _Turning) -> Iterator[BandEnd]:
    """Where the parallels of turned edges meet the edges beside them, on the shell's edges."""
    origins = draft.origins
    for edge, after, first, second in _corners(draft, turning):
        if first == second:
            continue
        kept = after if first else edge
        if kept.id not in origins:
            continue
        own = draft.source.edge(origins[kept.id][0])
        angle = math.pi - turn(edge.curve.end_tangent, after.curve.start_tangent)
        depth = turning.thickness / max(math.sin(angle), _LEAST_SINE)
        yield BandEnd(own, not first, own.curve.length - depth if not first else depth, math.pi - angle)


@dataclass(frozen=True, eq=False)
class _Corner:
    """A corner after the turned edges moved.

    Attributes:
        place: shape (2,).
        trims: mm off the end of the edge before it, and off the start of the one after it.
        way: unit direction of a turned edge from the place into the piece, or None to keep its own.
    """

    place: Array
    trims: tuple[float, float] = (0.0, 0.0)
    way: Array | None = None


def _turned(draft: Draft, turning: _Turning, ends: Mapping[EndKey, BandEnd]) -> Draft:
    corners = [_corner(draft, turning, ends, *corner) for corner in _corners(draft, turning)]
    origins, edges, parts, cut = draft.origins, [], dict(draft.parts), list(draft.cut)
    for edge, before, after in zip(draft.edges, corners[-1:] + corners[:-1], corners, strict=True):
        if _is_turned(edge, draft, turning):
            curve = _moved(edge.curve, turning.thickness, before, after)
            cut.append(curve)
            edges.append(replace(edge, curve=curve))
            continue
        low, high = before.trims[1], edge.curve.length - after.trims[0]
        if low == 0.0 and high == edge.curve.length:
            edges.append(edge)
            continue
        edges.append(replace(edge.part(low, high), pointed_end=edge.pointed_end))
        old, part = origins[edge.id]
        short = _trimmed(part, low, high, edge.curve.length)
        parts[old] = tuple(short if one == part else one for one in parts[old])
    return replace(draft, edges=tuple(edges), parts=parts, cut=tuple(cut))


def _corner(
    draft: Draft, turning: _Turning, ends: Mapping[EndKey, BandEnd], edge: Edge, after: Edge, first: bool, second: bool
) -> _Corner:
    """The corner where `edge` ends; `first` and `second`: whether it and the edge after it are turned."""
    if first and second:
        return _Corner(edge.curve.end + _mitre(edge.curve.end_tangent, after.curve.start_tangent, turning.thickness))
    kept = after if first else edge
    origin = draft.origins.get(kept.id)
    end = ends.get((origin[0], not first)) if origin and first != second else None
    if end is None:
        return _Corner(edge.curve.end)
    depth = end.depth
    place = kept.curve.point(depth if first else kept.curve.length - depth)
    return _Corner(place, (0.0, depth) if first else (depth, 0.0), end.inwards)


def _squared(end: BandEnd, centres: Container[str]) -> BandEnd:
    """An edge that is all but square to a centre is square to it."""
    near = end.edge.id in centres and abs(end.angle - SQUARE) < _NEARLY_SQUARE
    return replace(end, angle=SQUARE) if near else end


def _both_sided(shell: Pattern, ends: Sequence[BandEnd]) -> list[BandEnd]:
    """The ends without those on a seam whose other side is not turned: there the corner stays."""
    keys = {end.key for end in ends}
    alone: set[EndKey] = set()
    for seam in shell.seams:
        for at_start in (True, False):
            own = [seam_end(chain, at_start) for chain in (seam.a, seam.b)]
            if sum(key in keys for key in own) == 1:
                alone |= set(own)
    return [end for end in ends if end.key not in alone]


def _trimmed(part: EdgePart, low: float, high: float, length: float) -> EdgePart:
    width = part.high - part.low
    return replace(part, low=part.low + width * low / length, high=part.low + width * high / length)


def _moved(curve: Curve, thickness: float, start: _Corner, end: _Corner) -> Curve:
    """The parallel on the left, led to the two corners that it has now."""
    moved = extended(_parallel(curve, thickness), _RUN_ON * thickness)
    moved = _led_to(moved, end.place, None if end.way is None else -end.way, curve.end_tangent, thickness)
    back = None if start.way is None else -start.way
    return _led_to(moved.reversed(), start.place, back, -curve.start_tangent, thickness).reversed()


def _led_to(curve: Curve, place: Array, way: Array | None, own: Array, thickness: float) -> Curve:
    """The curve up to beside a place; where it misses it, or another direction is asked for, it is bent to it.

    Args:
        way: unit direction in which it shall arrive, or None for `own` if it has to be bent.
    """
    arc, gap = curve.nearest(place)
    asked = own if way is None else way
    bent = gap > TOLERANCES.same_point or (way is not None and abs(turn(curve.tangent(arc), way)) > _SAME_WAY)
    if not bent:
        return curve.between(0.0, arc).ending_at(end=place)
    room = max(arc - min(max(_BRIDGE, 4 * thickness), curve.length / 3), curve.length / 6)
    kept = curve.between(0.0, room)
    reach = float(np.linalg.norm(place - kept.end)) / 3
    bridge = [kept.end, kept.end + reach * kept.end_tangent, place - reach * asked, place]
    return kept.joined(Curve(np.array([bridge])))


def _parallel(curve: Curve, thickness: float) -> Curve:
    """The parallel; of an edge that has a corner, or bends too sharply, a smooth curve through places of it."""
    try:
        return parallel(curve, thickness)
    except GeometryError:
        beside = LineString(curve.polyline()).offset_curve(thickness, join_style="mitre")
        points = shapely.get_coordinates(max(shapely.get_parts(beside), key=shapely.length))
        line = LineString(points)
        places = np.linspace(0.0, line.length, max(3, round(line.length / _APART)))
        through = shapely.get_coordinates(shapely.line_interpolate_point(line, places))
        return smooth_through(through, curve.start_tangent, curve.end_tangent)


def _mitre(arriving: Array, leaving: Array, thickness: float) -> Array:
    """From a corner to where the parallels on the left of two edges meet."""
    normals = np.array([[-way[1], way[0]] for way in (arriving, leaving)])
    across: Array = normals.sum(axis=0)
    return thickness * across / max(1.0 + float(normals[0] @ normals[1]), _LEAST_CORNER)
