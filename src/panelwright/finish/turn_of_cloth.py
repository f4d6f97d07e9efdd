"""Turn of cloth: a layer inside is smaller by the thickness that its turned edges go round."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from panelwright.design.chain import EdgePart
from panelwright.errors import GeometryError
from panelwright.finish.facing_edge import FACING_EDGE
from panelwright.finish.facing_ends import BandEnd, EndKey, seam_end, settled
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
_BRIDGE = 15.0  # mm over which an edge comes back to a corner that stays


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
    found = [end for draft in drafts for end in _ends(draft, turning)]
    ends = settled(shell, _both_sided(shell, found))
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
        angle = np.pi - turn(edge.curve.end_tangent, after.curve.start_tangent)
        depth = turning.thickness / max(float(np.sin(angle)), _LEAST_SINE)
        yield BandEnd(own, not first, own.curve.length - depth if not first else depth, float(angle))


def _turned(draft: Draft, turning: _Turning, ends: Mapping[EndKey, BandEnd]) -> Draft:
    origins, count = draft.origins, len(draft.edges)
    places: list[Array] = []
    trims = np.zeros((count, 2))  # mm off the start and the end of each edge that is not turned
    for k, (edge, after, first, second) in enumerate(_corners(draft, turning)):
        corner = edge.curve.end
        if first and second:
            places.append(corner + _mitre(edge.curve.end_tangent, after.curve.start_tangent, turning.thickness))
        elif first == second:
            places.append(corner)
        else:
            kept, at = (after, (k + 1) % count) if first else (edge, k)
            depth = _depth(kept, origins, ends, towards_end=not first)
            trims[at, 1 if not first else 0] = depth
            places.append(kept.curve.point(depth if first else kept.curve.length - depth))
    edges, parts, cut = [], dict(draft.parts), list(draft.cut)
    for k, (edge, _, is_turned, _) in enumerate(_corners(draft, turning)):
        start, end = places[k - 1], places[k]
        if is_turned:
            curve = _moved(edge.curve, turning.thickness, start, end)
            cut.append(curve)
            edges.append(replace(edge, curve=curve))
            continue
        low, high = trims[k, 0], edge.curve.length - trims[k, 1]
        edges.append(edge.part(low, high) if trims[k].any() else edge)
        if edge.id in origins and trims[k].any():
            old, part = origins[edge.id]
            parts[old] = tuple(
                _trimmed(one, low, high, edge.curve.length) if one == part else one for one in parts[old]
            )
    return replace(draft, edges=tuple(edges), parts=parts, cut=tuple(cut))


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


def _depth(
    kept: Edge, origins: Mapping[str, tuple[str, EdgePart]], ends: Mapping[EndKey, BandEnd], towards_end: bool
) -> float:
    if kept.id not in origins or (origins[kept.id][0], towards_end) not in ends:
        return 0.0
    return ends[origins[kept.id][0], towards_end].depth


def _trimmed(part: EdgePart, low: float, high: float, length: float) -> EdgePart:
    width = part.high - part.low
    return replace(part, low=part.low + width * low / length, high=part.low + width * high / length)


def _moved(curve: Curve, thickness: float, start: Array, end: Array) -> Curve:
    """The parallel on the left, cut off or run straight on to a start and an end that lie beside it."""
    moved = extended(_parallel(curve, thickness), _RUN_ON * thickness)
    (low, low_gap), (high, high_gap) = moved.nearest(start), moved.nearest(end)
    if low_gap > TOLERANCES.polyline:
        low = _RUN_ON * thickness + min(_BRIDGE, curve.length / 3)
    if high_gap > TOLERANCES.polyline:
        high = moved.length - _RUN_ON * thickness - min(_BRIDGE, curve.length / 3)
    middle = moved.between(low, high)
    if low_gap > TOLERANCES.polyline:
        middle = _bridged(middle.reversed(), start, -curve.start_tangent).reversed()
    if high_gap > TOLERANCES.polyline:
        middle = _bridged(middle, end, curve.end_tangent)
    return middle.ending_at(start, end)


def _bridged(curve: Curve, end: Array, way: Array) -> Curve:
    """The curve run on smoothly to a point off it, which it reaches in direction `way`."""
    reach = float(np.linalg.norm(end - curve.end)) / 3
    return curve.joined(Curve(np.array([[curve.end, curve.end + reach * curve.end_tangent, end - reach * way, end]])))


def _parallel(curve: Curve, thickness: float) -> Curve:
    """The parallel; an edge that has a corner, or bends too sharply for one, is moved bodily."""
    try:
        return parallel(curve, thickness)
    except GeometryError:
        chord = curve.chord / max(float(np.linalg.norm(curve.chord)), 1e-9)
        return Curve(curve.cubics + thickness * np.array([-chord[1], chord[0]]))


def _mitre(arriving: Array, leaving: Array, thickness: float) -> Array:
    """From a corner to where the parallels on the left of two edges meet."""
    normals = np.array([[-way[1], way[0]] for way in (arriving, leaving)])
    across: Array = normals.sum(axis=0)
    return thickness * across / max(1.0 + float(normals[0] @ normals[1]), _LEAST_CORNER)
