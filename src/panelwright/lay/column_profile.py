"""A column profile: an outline in narrow columns across the cloth, to find quickly where it collides with another.

A profile covers its outline, so that two outlines are clear of each other wherever their profiles are.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import Self

import numpy as np

from panelwright.geometry.arrays import Array

# Width of a column along the cloth, mm.
COLUMN = 2.0


@dataclass(frozen=True, eq=False)
class ColumnProfile:
    """An outline from its left end on, its lowest point at 0.

    Attributes:
        low, high: what each column holds of it lies between these, mm, shape (n,).
    """

    low: Array
    high: Array

    @classmethod
    def of(cls, outline: Array) -> Self:
        """The profile of a closed outline, shape (m, 2)."""
        x, y = (outline - outline.min(axis=0)).T
        count = max(1, int(np.ceil(x.max() / COLUMN - 1e-9)))
        low, high = np.full(count, np.inf), np.full(count, -np.inf)
        column = np.minimum((x / COLUMN).astype(int), count - 1)
        np.minimum.at(low, column, y)
        np.maximum.at(high, column, y)
        if count > 1:
            below, above = _crossings(x, y, COLUMN * np.arange(1.0, count))
            for part in (slice(None, -1), slice(1, None)):
                low[part], high[part] = np.minimum(low[part], below), np.maximum(high[part], above)
        return cls(low, high)

    @property
    def columns(self) -> int:
        """How many columns it has."""
        return len(self.low)

    @cached_property
    def height(self) -> float:
        """Across the cloth, mm."""
        return float(self.high.max())

    def forbidden(self, still: "ColumnProfile") -> tuple[Array, Array]:
        """Where this one may not be: (from, to), open intervals, shape (still.columns + self.columns - 1,).

        Entry k is for this profile's first column k - (self.columns - 1) columns past the first one of `still`: its
        lowest point may not lie between `from` and `to` above that of `still`.
        """
        own = self.columns
        pad = np.full(own - 1, np.inf)
        lows = np.lib.stride_tricks.sliding_window_view(np.concatenate([pad, still.low, pad]), own)
        highs = np.lib.stride_tricks.sliding_window_view(np.concatenate([-pad, still.high, -pad]), own)
        return (lows - self.high).min(axis=1), (highs - self.low).max(axis=1)


def _crossings(x: Array, y: Array, borders: Array) -> tuple[Array, Array]:
    """(lowest, highest) point of a closed outline on each upright line x = border, shape (k,) each."""
    ends_x, ends_y = np.roll(x, -1), np.roll(y, -1)
    inside = (np.minimum(x, ends_x)[:, None] <= borders) & (borders <= np.maximum(x, ends_x)[:, None])
    run = np.where(ends_x == x, 1.0, ends_x - x)
    at = y[:, None] + (borders - x[:, None]) * ((ends_y - y) / run)[:, None]
    return np.where(inside, at, np.inf).min(axis=0), np.where(inside, at, -np.inf).max(axis=0)
