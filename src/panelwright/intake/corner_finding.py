"""Corners of an outline: where smooth edges between them explain it best."""

from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array, cross, turn
from panelwright.intake.closed_line import even, noise_along
from panelwright.intake.smooth_line import STEP, misfit_form, smooth_line

_CORNER: Final = 7.0  # misfit (logarithm of odds) that a corner has to save
_SHORTEST: Final = 1.6  # mm: a shorter edge is not looked for
_ROUNDED: Final = 0.45  # mm beside a corner that say nothing: scissors, blur and the outline's own smoothing round it
_LEAST: Final = np.radians(17.0)  # a corner turns by so much
# An outline's errors are alike over so many mm along it, are larger than what smoothing tells, and never nothing, mm.
_ALIKE: Final = 0.8
_MORE_NOISE: Final = 1.2
_LEAST_NOISE: Final = 0.01
# Lengths of outline before and after a place that are looked at for a corner there, mm, and misfit that it saves.
_WINDOWS: Final = ((2.4, 2.4), (5.0, 5.0), (1.2, 4.0), (4.0, 1.2), (1.2, 1.2))
_LIKELY: Final = 3.0
_NEAR: Final = 0.8  # mm on either side within which only the likeliest place is kept
_PASSED: Final = 20  # most places in a row that are no corners
_FAR: Final = 1.5  # mm from the outline: edges that meet farther off do not meet


def corner_places(outline: Array) -> Array:
    """Corners of a closed outline, shape (k, 2), mm, in its order.

    Of all places where an edge may end, those are chosen together, by dynamic programming, between which smooth lines
    explain the outline best when each corner has its price. How much a line may leave the outline follows from the
    outline's own noise there; how sharply it may bend, from what edges of patterns do. So two slight corners close
    together are told from one round bend, and a speck beside the edge, which needs two or three corners, is not worth
    them. A corner is where the two lines that meet there cross.
    """
    line = even(outline, STEP)
    noise = np.hypot(_MORE_NOISE * noise_along(line, STEP), _LEAST_NOISE)
    weights = STEP / (_ALIKE * noise**2)
    places = _likely(line, weights)
    if not places:
        return np.zeros((0, 2))
    first = places[0]
    ring, held = (np.roll(values, -first, axis=0) for values in (line, weights))
    ring, held = np.concatenate([ring, ring[:1]]), np.append(held, held[0])
    stops = [*sorted((place - first) % len(line) for place in places), len(line)]
    edges = _edges(ring, held, stops)
    found = [_corner(before, after) for before, after in zip(edges[-1:] + edges[:-1], edges, strict=True)]
    return np.array([place for place, turning in found if abs(turning) > _LEAST]).reshape(-1, 2)


def _likely(line: Array, weights: Array) -> list[int]:
    """Points of the line where a corner explains what is near it better than a smooth line, the likeliest first."""
    saved = np.stack([_saved(line, weights, before, after) for before, after in _WINDOWS])
    reach = range(-round(_NEAR / STEP), round(_NEAR / STEP) + 1)
    highest = np.stack([np.roll(saved, apart, axis=1) for apart in reach]).max(axis=0)
    best = np.where((saved >= highest) & (saved > _LIKELY), saved, 0.0).max(axis=0)
    kept: list[int] = []
    for place in np.argsort(-best, kind="stable")[: int((best > 0).sum())]:
        if all(_between(int(place), other, len(line)) * STEP > 0.5 for other in kept):
            kept.append(int(place))
    return kept


def _saved(line: Array, weights: Array, before: float, after: float) -> Array:
    """Misfit that a corner at each point saves, looking so many mm back and on, shape (n,)."""
    usual = float(np.median(weights))
    back, on = round(before / STEP), round(after / STEP)
    form = misfit_form(np.full(back + on + 1, usual))
    form[: back + 1, : back + 1] -= misfit_form(_trusted(np.full(back + 1, usual), False, True))
    form[back:, back:] -= misfit_form(_trusted(np.full(on + 1, usual), True, False))
    near = line[(np.arange(len(line))[:, None] + np.arange(-back, on + 1)) % len(line)] - line[:, None]
    saved = np.einsum("nik,nik->n", near, np.einsum("ij,njk->nik", form, near))
    return np.asarray(saved * np.sqrt(weights / usual), float)


def _trusted(weights: Array, start: bool, end: bool) -> Array:
    """The weights of an edge's points without those that are rounded at its corners."""
    known = weights.copy()
    rounded = round(_ROUNDED / STEP) + 1
    if start:
        known[:rounded] = 0.0
    if end:
        known[-rounded:] = 0.0
    return known


def _edges(ring: Array, weights: Array, stops: list[int]) -> list[Array]:
    """Smooth lines from stop to stop, of which as many are passed as makes all of it likeliest; the first is kept."""
    cost = np.full(len(stops), np.inf)
    cost[0] = 0.0
    lines: dict[int, tuple[int, Array]] = {}
    for k in range(1, len(stops)):
        for j in range(max(0, k - _PASSED), k):
            start, end = stops[j], stops[k]
            if (end - start) * STEP < _SHORTEST or not np.isfinite(cost[j]):
                continue
            part = slice(start, end + 1)
            edge, misfit = smooth_line(ring[part], _trusted(weights[part], True, True))
            total = cost[j] + misfit + _CORNER
            if total < cost[k]:
                cost[k], lines[k] = total, (j, edge)
    edges: list[Array] = []
    k = len(stops) - 1
    while k in lines:
        k, edge = lines[k]
        edges.append(edge)
    return edges[::-1]


def _between(a: int, b: int, count: int) -> int:
    apart = abs(a - b)
    return min(apart, count - apart)


def _corner(before: Array, after: Array) -> tuple[Array, float]:
    """(where an edge and the next meet: where they cross, or the middle of their ends; turn there, radians)."""
    arriving, leaving = before[-1] - before[-2], after[1] - after[0]
    halfway = (before[-1] + after[0]) / 2
    turning = turn(arriving, leaving)
    if abs(turning) > _LEAST:
        on = float(cross(after[0] - before[-1], leaving) / cross(arriving, leaving))
        met = before[-1] + on * arriving
        if np.hypot(*(met - halfway)) < _FAR:
            return met, turning
    return np.asarray(halfway, float), turning
