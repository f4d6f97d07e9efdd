"""The seams of derived layers: wherever both sides of a seam of the shell have cloth in the layer."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

import numpy as np

from panelwright.design.chain import EdgePart, rechained
from panelwright.finish.seam_walk import SeamWalk
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Layer, Piece
from panelwright.pattern.seam import Seam, Span

_SAME: Final = 0.02  # mm: two places of a seam that are one
_LEAST: Final = 1.0  # mm: a stretch that is worth sewing


@dataclass(frozen=True)
class Stretch:
    """A stretch of one side of a shell's seam that a layer has cloth for: from `low` to `high` mm on side a."""

    low: float
    high: float
    span: Span
    layer: Layer


@dataclass(frozen=True)
class LayerSeam:
    """A seam of a layer, and the stretch of the shell's seam that it repeats.

    Attributes:
        seam: the new one.
        source: the shell's.
        low, high: mm on side a of the shell's seam.
        low_on_b: mm on its side b.
        whole: whether it is all of it.
    """

    seam: Seam
    source: Seam
    low: float
    high: float
    low_on_b: float
    whole: bool


def layer_seams(
    shell: Pattern, parts: Mapping[str, tuple[EdgePart, ...]], pieces: Mapping[str, Piece]
) -> tuple[LayerSeam, ...]:
    """A seam for every stretch that both sides have; where a side goes over to another piece, another seam begins.

    Args:
        shell: the pattern whose seams are repeated.
        parts: shell edge -> the derived edges that lie on it.
        pieces: the derived pieces, by id.
    """
    found = []
    for seam in shell.seams:
        walk = SeamWalk.of(shell, seam, ())
        sides = _stretches(shell, seam.a, parts, pieces, None), _stretches(shell, seam.b, parts, pieces, walk)
        taken: dict[Layer, int] = {}
        for low, high in _common(*sides):
            a, b = (tuple(_within(stretches, low, high)) for stretches in sides)
            layer = _layer(sides[0], low, high)
            taken[layer] = number = taken.get(layer, 0) + 1
            id = f"{layer}/{seam.id}" + (f"-{number}" if number > 1 else "")
            lengths = [sum(_edge(pieces, span).curve.length * span.share for span in chain) for chain in (a, b)]
            ease = lengths[1] - lengths[0] * seam.ratio if seam.ease or seam.ratio != 1.0 else seam.ease
            made = replace(seam, id=id, a=a, b=b, ease=ease)
            whole = low < _SAME and high > walk.length - _SAME
            found.append(LayerSeam(made, seam, low, high, walk.partner(low), whole))
    return tuple(found)


def freed(pieces: Sequence[Piece], seams: Sequence[Seam]) -> tuple[tuple[Piece, ...], tuple[Seam, ...]]:
    """(pieces, seams) with every stretch of an edge that is in no seam as a finished edge of its own."""
    made, moved = [], {}
    for piece in pieces:
        own, split = _freed(piece, seams)
        made.append(own)
        moved.update(split)
    if not moved:
        return tuple(made), tuple(seams)
    return tuple(made), tuple(replace(seam, a=rechained(seam.a, moved), b=rechained(seam.b, moved)) for seam in seams)


def _freed(piece: Piece, seams: Iterable[Seam]) -> tuple[Piece, dict[str, tuple[EdgePart, ...]]]:
    """The piece with what is sewn to nothing as a finished edge, and what became of its split edges."""
    covered: dict[str, list[tuple[float, float]]] = {}
    for seam in seams:
        for span in (*seam.a, *seam.b):
            if span.piece == piece.id:
                covered.setdefault(span.edge, []).append((min(span.start, span.end), max(span.start, span.end)))
    edges: list[Edge] = []
    moved: dict[str, tuple[EdgePart, ...]] = {}
    for edge in piece.edges:
        if edge.kind not in ("seam", "opening"):
            edges.append(edge)
            continue
        made = _split(edge, covered.get(edge.id, []))
        edges += made
        if len(made) > 1:
            arcs = np.cumsum([0.0, *(part.curve.length for part in made)]) / edge.curve.length
            moved[edge.id] = tuple(
                EdgePart(piece.id, part.id, float(low), float(high))
                for part, (low, high) in zip(made, pairwise(arcs), strict=True)
            )
    marked = [
        replace(edge, pointed_end=True) if _is_open(edge, after, piece) else edge
        for edge, after in zip(edges, edges[1:] + edges[:1], strict=True)
    ]
    return replace(piece, edges=tuple(marked)), moved


def _is_open(edge: Edge, after: Edge, piece: Piece) -> bool:
    """Whether a seam ends in a corner at an edge that was a seam on the shell: nothing runs on smoothly there."""
    known = {each.id: each.kind for each in piece.edges}
    freed = [each for each in (edge, after) if each.kind == "finished" and known.get(each.id, "seam") != "finished"]
    return bool(freed)


def _split(edge: Edge, covered: Sequence[tuple[float, float]]) -> list[Edge]:
    """The edge, cut where it stops being sewn; what is not sewn is finished."""
    length = edge.curve.length
    places, sewn = [0.0], []
    for low, high in sorted(covered):
        if low * length - places[-1] > _LEAST:
            sewn.append(False)
            places.append(low * length)
        if high * length > places[-1] + _SAME:
            if sewn and sewn[-1]:
                places[-1] = high * length
            else:
                sewn.append(True)
                places.append(high * length)
    if length - places[-1] > _LEAST:
        sewn.append(False)
        places.append(length)
    places[-1] = length
    if len(sewn) == 1:
        return [edge if sewn[0] else replace(edge, kind="finished")]
    ids = [edge.id, *(f"{edge.id}-{k}" for k in range(2, len(sewn) + 1))]
    made: list[Edge] = []
    for (low, high), is_sewn, id in zip(pairwise(places), sewn, ids, strict=True):
        part = replace(edge.part(low, high, id), kind=edge.kind if is_sewn else "finished")
        made.append(replace(part, curve=part.curve.ending_at(start=made[-1].curve.end)) if made else part)
    return made


def _stretches(
    shell: Pattern,
    chain: Sequence[Span],
    parts: Mapping[str, tuple[EdgePart, ...]],
    pieces: Mapping[str, Piece],
    walk: SeamWalk | None,
) -> list[Stretch]:
    """The stretches of one side, in seam order, measured on side a (`walk` leads there from side b)."""
    found, done = [], 0.0
    for span in chain:
        length = shell.edge(span).curve.length
        way = 1.0 if span.end > span.start else -1.0
        for part in parts.get(span.edge, ()):
            start, end = (min(max(share, part.low), part.high) for share in (span.start, span.end))
            if abs(end - start) * length < _SAME:
                continue
            low, high = (done + (share - span.start) * way * length for share in (start, end))
            width = part.high - part.low
            own = replace(
                span, piece=part.piece, edge=part.edge, start=(start - part.low) / width, end=(end - part.low) / width
            )
            found.append(Stretch(*_on_a(walk, low, high), own, pieces[part.piece].layer))
        done += length * span.share
    return sorted(found, key=lambda stretch: stretch.low)


def _on_a(walk: SeamWalk | None, low: float, high: float) -> tuple[float, float]:
    if walk is None:
        return low, high
    places = [place for place, _ in walk.eased]
    partners = [walk.partner(place) for place in places]
    return float(np.interp(low, partners, places)), float(np.interp(high, partners, places))


def _common(a: Sequence[Stretch], b: Sequence[Stretch]) -> Iterator[tuple[float, float]]:
    """The stretches that both sides have, cut where either goes over to a piece of another layer.

    What is not worth a seam of its own is sewn with the stretch beside it.
    """
    places = sorted({round(place, 6) for side in (a, b) for one in side for place in (one.low, one.high)})
    kept = places[:1]
    for place in places[1:]:
        if place - kept[-1] > _SAME:
            kept.append(place)
    found: list[tuple[float, float]] = []
    for low, high in pairwise(kept):
        middle = (low + high) / 2
        if not all(any(one.low < middle < one.high for one in side) for side in (a, b)):
            continue
        follows = bool(found) and abs(found[-1][1] - low) < _SAME
        if follows and (min(high - low, found[-1][1] - found[-1][0]) < _LEAST or not _turns(a, b, low)):
            found[-1] = (found[-1][0], high)
        else:
            found.append((low, high))
    yield from (one for one in found if one[1] - one[0] >= _LEAST)


def _turns(a: Sequence[Stretch], b: Sequence[Stretch], place: float) -> bool:
    """Whether a side changes its layer at a place; where only its piece changes the seam runs on."""
    for side in (a, b):
        before = next((one for one in side if abs(one.high - place) < _SAME), None)
        after = next((one for one in side if abs(one.low - place) < _SAME), None)
        if before and after and before.layer != after.layer:
            return True
    return False


def _within(stretches: Sequence[Stretch], low: float, high: float) -> Iterator[Span]:
    """The spans of a side between two places of the seam."""
    for one in stretches:
        start, end = max(one.low, low), min(one.high, high)
        if end - start > _SAME:
            reach, length = one.span.end - one.span.start, one.high - one.low
            shares = [(place - one.low) / length for place in (start, end)]
            ends = [_snapped(one.span.start + reach * share, _SAME * abs(reach) / length) for share in shares]
            yield replace(one.span, start=ends[0], end=ends[1])


def _snapped(share: float, near: float) -> float:
    """A share that is near to an edge's end is that end."""
    return 0.0 if share <= near else 1.0 if share >= 1.0 - near else share


def _layer(stretches: Sequence[Stretch], low: float, high: float) -> Layer:
    """The layer of the longest stretch between two places."""
    return max(stretches, key=lambda one: min(one.high, high) - max(one.low, low)).layer


def _edge(pieces: Mapping[str, Piece], span: Span) -> Edge:
    return pieces[span.piece].edge(span.edge)
