"""A seam whose two sides are given the same stretches, between its ends, levels and paired notches."""

from collections.abc import Set
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from panelwright.geometry.arrays import Array
from panelwright.geometry.parallel import extended
from panelwright.intake.seam_station import place_on, stations
from panelwright.intake.worked_pattern import with_edge
from panelwright.pattern.level import WAIST
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam, Span

Master = Literal["a", "b", "both"]

# Stations that lie nearer to where they should are there, mm.
ENOUGH: Final = 1e-8


def unevenness(pattern: Pattern, seam: Seam) -> float:
    """How far the whole difference of its sides is from the ease that is meant, mm."""
    return abs(pattern.chain_length(seam.b) - pattern.chain_length(seam.a) * seam.ratio - seam.ease)


def evened(pattern: Pattern, seam: Seam, master: Master, kept: Set[str]) -> Pattern:
    """The pattern with both sides of a walkable seam measured alike, as far as edges that are kept allow.

    Stretches are measured out from the waist where it crosses, else from an end. A side that is kept gives its own
    stretches, and the other follows. Where a seam ends at an edge that is kept, its corner stays: the other side comes
    to it, and where both must stay, the last stretch is left uneven.

    Args:
        master: the side whose stretches both get; `both`: the mean of the two.
        kept: ids of edges that stay as they are.
    """
    places = stations(pattern, seam)
    a, b = np.array([each.a for each in places]), np.array([each.b for each in places])
    ease = seam.ease * np.diff(a) / a[-1]
    own, other = np.diff(a), (np.diff(b) - ease) / seam.ratio
    if np.abs(own - other).max() < ENOUGH:
        return pattern
    wanted = {"a": own, "b": other, "both": (own + other) / 2}[master]
    held = _held(pattern, seam.a[0], kept, len(a)), _held(pattern, seam.b[0], kept, len(b))
    stays = held[0] | held[1]
    end = len(a) - 1 if stays[-1] and not stays[0] else 0
    base = next((k for k, each in enumerate(places) if each.name == WAIST), end)
    new_a, new_b = a.copy(), b.copy()
    for way, stop in ((1, len(a)), (-1, -1)):
        for k in range(base + way, stop, way):
            stretch, before = min(k, k - way), k - way
            step = wanted[stretch]
            if held[0][k]:
                step = way * (a[k] - new_a[before])
            elif held[1][k]:
                step = (way * (b[k] - new_b[before]) - ease[stretch]) / seam.ratio
            new_a[k] = a[k] if held[0][k] else new_a[before] + way * step
            new_b[k] = b[k] if held[1][k] else new_b[before] + way * (step * seam.ratio + ease[stretch])
    if min(np.diff(new_a).min(), np.diff(new_b).min()) <= 0.0:
        return pattern
    return _measured(_measured(pattern, seam.a[0], a, new_a), seam.b[0], b, new_b)


def _held(pattern: Pattern, span: Span, kept: Set[str], count: int) -> NDArray[np.bool_]:
    """Which stations of a side cannot be moved: all of an edge that is kept, a corner that it shares with one."""
    held = np.full(count, span.edge in kept)
    piece, edge = pattern.piece(span.piece), pattern.edge(span)
    beside = [piece.before(edge).id, piece.after(edge).id]
    held[0] |= beside[0 if span.end > span.start else 1] in kept
    held[-1] |= beside[1 if span.end > span.start else 0] in kept
    return held


def _measured(pattern: Pattern, span: Span, old: Array, new: Array) -> Pattern:
    """One side with its stations slid from `old` places along the span to `new` ones; its ends run on straight."""
    if np.abs(old - new).max() < ENOUGH:
        return pattern
    edge = pattern.edge(span)
    places = [sorted(place_on(span, edge, arc) for arc in arcs) for arcs in (old, new)]
    low, high = places[1][0], places[1][-1]
    reach = max(-low, high - edge.curve.length, 0.0) + 1.0
    curve = extended(edge.curve, reach).between(low + reach, high + reach)

    def moved(arc: float) -> float:
        return float(np.interp(arc, places[0], places[1])) - low

    return with_edge(pattern, span.piece, span.edge, curve, moved)
