"""An edge held against the lines that are on paper already: what of it lies on them, and what is new."""

from typing import Final

import numpy as np
import shapely

from panelwright.drawing.hand_guide import LEAST_LENGTH
from panelwright.drawing.hand_piece import SAME, HandLine, HandPiece
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve

# Between the places of an edge that are held against lines drawn before, mm on paper.
STEP: Final = 0.5
# A stretch along a line drawn before counts from this length on, mm on paper.
LEAST_STRETCH: Final = 4.0


def stretches(curve: Curve, hand: HandPiece) -> list[tuple[Curve, HandLine | None]]:
    """A curve, mm on paper, in stretches that lie on lines drawn before, and stretches that are new."""
    arcs = np.linspace(0.0, curve.length, max(3, int(curve.length / STEP) + 1))
    points = points_along(curve, arcs)
    best: tuple[int, int, HandLine] | None = None
    places = shapely.points(points)
    for line in hand.lines:
        begin, end = _longest(np.asarray(shapely.dwithin(line.run, places, SAME), np.bool_))
        if end - begin > (best[1] - best[0] if best else 0):
            best = (begin, end, line)
    if best is None:
        return [(curve, None)]
    first, last, line = best
    low, high = _to_letters(curve, line, hand, float(arcs[first]), float(arcs[last]))
    if high - low < min(LEAST_STRETCH, curve.length / 2):
        return [(curve, None)]
    parts: list[tuple[Curve, HandLine | None]] = [(curve.between(low, high), line)]
    if low > 0.0:
        parts = [*stretches(curve.between(0.0, low), hand), *parts]
    if high < curve.length:
        parts = [*parts, *stretches(curve.between(high, curve.length), hand)]
    return parts


def points_along(curve: Curve, arcs: Array) -> Array:
    """Points at arc positions, shape (n, 2), to about a hundredth of a millimetre."""
    run = curve.polyline(0.005)
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(run, axis=0), axis=1))])
    places = arcs * (along[-1] / curve.length)
    return np.stack([np.interp(places, along, run[:, k]) for k in (0, 1)], axis=1)


def _to_letters(curve: Curve, line: HandLine, hand: HandPiece, low: float, high: float) -> tuple[float, float]:
    """A stretch of a curve along a line, its ends put on letters and on the curve's own ends that are near."""
    near = (curve.nearest(at) for at in hand.letters.values() if line.holds(at))
    stops = [arc for arc, off in near if off < SAME]
    for stop in (min(stops, key=lambda stop: abs(stop - end), default=end) for end in (low, high)):
        low = stop if abs(stop - low) < 2 * STEP else low
        high = stop if abs(stop - high) < 2 * STEP else high
    return 0.0 if low < LEAST_LENGTH else low, curve.length if curve.length - high < LEAST_LENGTH else high


def _longest(flags: "np.ndarray[tuple[int, ...], np.dtype[np.bool_]]") -> tuple[int, int]:
    """(first, last) of the longest run of True; (0, 0) where there is none of two."""
    ends = np.flatnonzero(np.diff(np.concatenate([[False], flags, [False]]).astype(int))).reshape(-1, 2)
    if not len(ends):
        return 0, 0
    low, high = ends[int(np.argmax(ends[:, 1] - ends[:, 0]))]
    return int(low), int(high) - 1
