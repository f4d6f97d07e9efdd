"""A sheet: half the front or half the back of the body, from the upper-bust level to the shoulder line."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from panelwright.geometry.arrays import Array


@dataclass(frozen=True, eq=False)
class Sheet:
    """A surface P(v, u) that leaves a lower edge in a given direction and arrives at an upper edge in another.

    u runs from the centre (0) to the side and shoulder point (1), v from the lower edge (0) to the upper (1): cubic
    in v (Hermite), so the sheet joins what lies below it without a crease.

    Attributes:
        u: places of the given rows, rising from 0 to 1, shape (n,).
        low, high: the two edges, shape (n, 3), mm: x to the wearer's side, y to the front, z up.
        leaving, arriving: dP/dv there, shape (n, 3).
    """

    u: Array
    low: Array
    high: Array
    leaving: Array
    arriving: Array

    def row(self, v: float) -> Array:
        """The points of one row, shape (n, 3)."""
        a, b, c, d = _hermite(np.array([v]))
        points: Array = a * self.low + b * self.leaving + c * self.high + d * self.arriving
        return points

    def rows(self, v: Array) -> Array:
        """Points at several v, shape (len(v), n, 3)."""
        a, b, c, d = (weight[:, None, None] for weight in _hermite(v))
        points: Array = a * self.low + b * self.leaving + c * self.high + d * self.arriving
        return points

    def points(self, v: Array, u: Array) -> Array:
        """Points at pairs (v, u), shape (k, 3); between the given places straight."""
        return self.at(u).up(v)

    def at(self, u: Array) -> "Sheet":
        """The upward lines of the sheet at places u only."""
        grids = (self.low, self.high, self.leaving, self.arriving)
        return Sheet(u, *(np.stack([np.interp(u, self.u, c) for c in grid.T], axis=-1) for grid in grids))

    def up(self, v: Array) -> Array:
        """The point at v on each upward line, one v a line, shape (n, 3)."""
        a, b, c, d = self._powers
        t = v[:, None]
        points: Array = ((d * t + c) * t + b) * t + a
        return points

    @cached_property
    def _powers(self) -> tuple[Array, Array, Array, Array]:
        """What stands before 1, v, v² and v³ on each upward line."""
        rise = self.high - self.low
        turn = self.leaving + self.arriving - 2 * rise
        return self.low, self.leaving, rise - self.leaving - turn, turn


def _hermite(v: Array) -> tuple[Array, Array, Array, Array]:
    return (1 + 2 * v) * (1 - v) ** 2, v * (1 - v) ** 2, v**2 * (3 - 2 * v), v**2 * (v - 1)
