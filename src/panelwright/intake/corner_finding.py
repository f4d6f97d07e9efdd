"""Corners of an outline: where its direction jumps, and not where it only bends."""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from panelwright.geometry.arrays import Array, cross
from panelwright.intake.closed_line import even

# (length of outline on either side that is looked at, mm; least turn, degrees): the more is seen, the less is asked.
SCALES: Final = ((2.4, 32.0), (4.0, 20.0), (7.0, 13.0))
_STEP: Final = 0.2
_SKIPPED: Final = 0.5  # mm beside a corner that scissors round off
_NEAR: Final = 1.6  # two corners nearer than this are one


def corner_places(outline: Array) -> Array:
    """Corners of a closed outline, shape (k, 2), mm, in its order.

    On either side of every place a parabola is laid through the outline, over three lengths. Where the two do not go
    on in one direction there is a corner: a bend, however sharp, is followed by the parabolas. The corner itself is
    where they cross.
    """
    line = even(outline, _STEP)
    found: list[tuple[float, int, float]] = []
    for reach, least in SCALES:
        turns = np.abs(_turns(line, reach))
        for k in _peaks(turns, round(_NEAR / _STEP)):
            if turns[k] > np.radians(least):
                found.append((float(turns[k]) / np.radians(least), int(k), reach))
    kept: list[tuple[int, float]] = []
    for reach, _ in SCALES:
        for _, k, _ in sorted((each for each in found if each[2] == reach), reverse=True):
            room = _NEAR if reach == SCALES[0][0] else 0.75 * reach
            if all(_between(k, other, len(line)) * _STEP > room for other, _ in kept):
                kept.append((k, reach))
    kept.sort()
    return np.array([_corner(line, k, reach) for k, reach in kept]).reshape(-1, 2)


def _turns(line: Array, reach: float) -> Array:
    """By how much the direction jumps at each point, radians, positive to the left."""
    before, after = (_arms(line, reach, side)[1] for side in (-1, 1))
    return np.asarray(np.arctan2(cross(before, after), (before * after).sum(axis=1)), float)


def _arms(line: Array, reach: float, side: int) -> tuple[Array, Array]:
    """(place, direction of travel) at each point of the parabola through the outline on one side of it."""
    skipped, count = round(_SKIPPED / _STEP), round(reach / _STEP)
    at = side * np.arange(skipped, count + 1)
    powers = np.vander(at * _STEP, 3, increasing=True)
    weights = np.linalg.pinv(powers)
    near = line[(np.arange(len(line))[:, None] + at) % len(line)]
    place, way = (np.einsum("m,nmk->nk", weights[k], near) for k in (0, 1))
    return place, way


def _peaks(values: Array, reach: int) -> NDArray[np.intp]:
    """Where a closed row of values is highest within `reach` on both sides."""
    around = np.stack([np.roll(values, k) for k in range(-reach, reach + 1)])
    return np.flatnonzero(values >= around.max(axis=0))


def _between(a: int, b: int, count: int) -> int:
    apart = abs(a - b)
    return min(apart, count - apart)


def _corner(line: Array, k: int, reach: float) -> Array:
    """Where the parabolas before and after point k cross; the middle of their ends where they hardly do."""
    window = np.roll(line, len(line) // 2 - k, axis=0)
    middle = len(line) // 2
    (p, u), (q, v) = (tuple(part[middle] for part in _arms(window, reach, side)) for side in (-1, 1))
    turning = float(cross(u, v))
    halfway = np.asarray((p + q) / 2, float)
    if abs(turning) < 0.2 * float(np.linalg.norm(u) * np.linalg.norm(v)):
        return halfway
    crossing = p + float(cross(q - p, v)) / turning * u
    return np.asarray(crossing if np.linalg.norm(crossing - halfway) < 1.5 else halfway, float)
