"""A half piece opened: its cut line and the cut line's mirror image in the fold, as one outline."""

import numpy as np

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array, unit
from panelwright.geometry.tolerances import TOLERANCES


def opened_outline(outline: Array, fold: Array) -> Array:
    """The whole outline, shape (n, 2), closed and anticlockwise.

    Args:
        outline: cut line of the half, shape (m, 2), closed, anticlockwise.
        fold: two points of the fold's line, shape (2, 2).

    The stretch of the outline on the fold's line goes; what stands for its ends is moved onto the line exactly.

    Raises:
        GeometryError: if the outline has no stretch on the fold's line.
    """
    along = unit(fold[1] - fold[0])
    across = np.array([-along[1], along[0]])
    off = (outline - fold[0]) @ across
    on = np.flatnonzero(np.abs(off) <= TOLERANCES.straight)
    places = (outline[on] - fold[0]) @ along
    if len(on) < 2 or np.ptp(places) < TOLERANCES.straight:
        raise GeometryError("a piece that is drawn by halves has no cut line along its fold")
    ends = on[places.argmin()], on[places.argmax()]
    half = _away_from_fold(outline, off, *ends)
    half[[0, -1]] -= np.outer([(end - fold[0]) @ across for end in half[[0, -1]]], across)
    mirrored = half[1:-1] - 2 * np.outer((half[1:-1] - fold[0]) @ across, across)
    ring = np.concatenate([half, mirrored[::-1]])
    return ring if _area(ring) > 0 else ring[::-1]


def _away_from_fold(outline: Array, off: Array, first: int, last: int) -> Array:
    """The run of the outline between two of its points that leaves the fold's line, ends included."""
    runs = [np.arange(a, a + (b - a) % len(outline) + 1) % len(outline) for a, b in ((first, last), (last, first))]
    return outline[max(runs, key=lambda run: float(np.abs(off[run]).max()))].copy()


def _area(ring: Array) -> float:
    x, y = ring.T
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2
