"""Neighbouring stretches of one line that become one edge again, with cloth between them or none."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from panelwright.design.level_bridge import TOUCHING, through
from panelwright.design.position import spoken
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam, Span


@dataclass(frozen=True, eq=False)
class MergedEdge:
    """One edge made of several.

    Attributes:
        edge: the new one.
        made_of: ids of those that it is made of, in the sense of the outline.
        fuller: whether cloth was put between them.
    """

    edge: Edge
    made_of: tuple[str, ...]
    fuller: bool


def merged(edges: Sequence[Edge]) -> MergedEdge:
    """Edges on one line, in the sense of the outline, as one; gaps are bridged, kinks at joints are smoothed.

    It takes the shortest of their names.
    """
    curve, fuller = edges[0].curve, False
    for edge in edges[1:]:
        gap = float(np.linalg.norm(edge.curve.start - curve.end))
        fuller = fuller or gap > TOUCHING
        curve = (
            _smoothly(curve, edge.curve.ending_at(start=curve.end)) if gap <= TOUCHING else through(curve, edge.curve)
        )
    id = min((edge.id for edge in edges), key=lambda name: (len(name), name))
    interval = min(edge.interval[0] for edge in edges), max(edge.interval[1] for edge in edges)
    one = replace(edges[-1], id=id, curve=curve, interval=interval)
    return MergedEdge(one, tuple(edge.id for edge in edges), fuller)


def _smoothly(before: Curve, after: Curve) -> Curve:
    """Two curves end on end without a kink: both leave their joint in the mean of their directions."""
    one, other = before.cubics.copy(), after.cubics.copy()
    way = before.end_tangent + after.start_tangent
    way /= np.linalg.norm(way)
    one[-1, 2] = one[-1, 3] - _reach(one[-1, 3] - one[-1, 2]) * way
    other[0, 1] = other[0, 0] + _reach(other[0, 1] - other[0, 0]) * way
    return Curve(np.concatenate([one, other]))


def _reach(handle: Array) -> float:
    return float(np.linalg.norm(handle))


def resewn_merged(
    seams: Sequence[Seam], merges: Sequence[MergedEdge], after: Pattern, tucked: bool = False
) -> tuple[Seam, ...]:
    """The seams on merged edges. What is fuller is gathered: a ratio; else, and in tucks, the difference is ease.

    Args:
        seams: of the pattern before.
        merges: the new edges.
        after: a pattern with the new pieces (its seams are not looked at).
        tucked: whether fullness is folded away instead of gathered.

    Raises:
        DesignError: if only part of a merged edge is sewn in a seam, or an edge is sewn to its own mirror image.
    """
    found = []
    for seam in seams:
        a, b = seam.a, seam.b
        touched = [merge for merge in merges if {span.edge for span in a + b} & set(merge.made_of)]
        for merge in touched:
            a, b = _chain(a, merge, seam.id), _chain(b, merge, seam.id)
        if not touched or seam.kind == "closure":
            found.append(replace(seam, a=a, b=b))
            continue
        if seam.is_centre:
            raise DesignError(f"the {spoken(seam.id)} seam sews an edge to its own mirror image; unfold first", seam.id)
        lengths = after.chain_length(a), after.chain_length(b)
        if any(merge.fuller for merge in touched) and not tucked:
            found.append(replace(seam, a=a, b=b, ratio=(lengths[1] - seam.ease) / lengths[0]))
            continue
        ease = lengths[1] - lengths[0] * seam.ratio
        found.append(replace(seam, a=a, b=b, ease=ease if abs(ease - seam.ease) > TOUCHING / 10 else seam.ease))
    return tuple(found)


def _chain(chain: tuple[Span, ...], merge: MergedEdge, seam: str) -> tuple[Span, ...]:
    places = [k for k, span in enumerate(chain) if span.edge in merge.made_of]
    if not places:
        return chain
    spans = [chain[k] for k in places]
    whole = all(span.share > 1 - 1e-9 for span in spans)
    if len(spans) != len(merge.made_of) or not whole or places != list(range(places[0], places[0] + len(places))):
        raise DesignError(
            f"only part of the {spoken(merge.edge.line)} edge is sewn in the {spoken(seam)} seam; put this step before "
            "the one that divides it",
            seam,
        )
    one = replace(spans[0], edge=merge.edge.id, start=spans[0].start, end=1.0 - spans[0].start)
    return (*chain[: places[0]], one, *chain[places[-1] + 1 :])
