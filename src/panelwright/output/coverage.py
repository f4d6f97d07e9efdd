"""How much of every pixel a flat shape covers: exact along a row, sampled across it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array

# Lines on which each row of pixels is looked at.
LINES: Final = 8


@dataclass(frozen=True, eq=False)
class Coverage:
    """Of a rectangle of pixels.

    Attributes:
        row, column: of its first pixel, from the upper left.
        share: shape (rows, columns), 0 … 1.
    """

    row: int
    column: int
    share: Array


def coverage(rings: Sequence[Array]) -> Coverage | None:
    """What closed rings cover, or None where they cover nothing.

    Args:
        rings: shape (n, 2) each, in pixels, x to the right and y down; the last corner joins the first. Holes run the
            other way round than what they are in.
    """
    starts = np.concatenate(rings)
    ends = np.concatenate([np.roll(ring, -1, axis=0) for ring in rings])
    low, high = np.floor(starts.min(axis=0)).astype(int), np.ceil(starts.max(axis=0)).astype(int)
    wide, tall = (high - low).tolist()
    if wide < 1 or tall < 1:
        return None
    rows, xs, signs = _crossings(starts - low, ends - low)
    whole = np.floor(xs).astype(int)
    first = rows * (wide + 1) + whole  # a crossing covers what lies to its right: part of its own pixel, then all
    part = xs - whole
    steps = np.bincount(first, signs * (1.0 - part), minlength=tall * (wide + 1) + 1)
    steps += np.bincount(first + 1, signs * part, minlength=tall * (wide + 1) + 1)
    turns = np.cumsum(steps[:-1].reshape(tall, wide + 1), axis=1)[:, :wide] / LINES
    return Coverage(int(low[1]), int(low[0]), np.minimum(np.abs(turns), 1.0))


def _crossings(starts: Array, ends: Array) -> tuple[Array, Array, Array]:
    """(row, x, +1 downwards or -1 upwards) wherever an edge meets one of the lines on which rows are looked at."""
    above, below = np.minimum(starts[:, 1], ends[:, 1]), np.maximum(starts[:, 1], ends[:, 1])
    first = np.ceil(above * LINES - 0.5).astype(int)
    count = np.maximum(np.ceil(below * LINES - 0.5).astype(int) - first, 0)
    edge = np.repeat(np.arange(len(starts)), count)
    line = first[edge] + np.arange(len(edge)) - np.repeat(np.cumsum(count) - count, count)
    start, along = starts[edge], (ends - starts)[edge]
    t = ((line + 0.5) / LINES - start[:, 1]) / along[:, 1]
    return line // LINES, start[:, 0] + t * along[:, 0], np.sign(along[:, 1])
