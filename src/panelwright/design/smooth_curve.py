"""A smooth function of one number through given places, in plain floats, as most are evaluated one by one."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeVar

import numpy as np

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array

Value = TypeVar("Value", float, Array)


def hermite(t: Value, span: Value, ends: tuple[Value, Value], slopes: tuple[Value, Value]) -> tuple[Value, Value]:
    """(value, slope) at share t of a cubic over `span` with these end values and end slopes; at many, shape (n,)."""
    (y0, y1), (m0, m1) = ends, (slopes[0] * span, slopes[1] * span)
    r = 1.0 - t
    value = y0 * (1 + 2 * t) * r * r + y1 * t * t * (3 - 2 * t) + m0 * t * r * r - m1 * t * t * r
    slope = 6 * t * r * (y1 - y0) + m0 * r * (1 - 3 * t) + m1 * t * (3 * t - 2)
    return value, slope / span


@dataclass(frozen=True)
class SmoothCurve:
    """y(x) through knots with given slopes: a cubic between neighbours, straight beyond the ends.

    Raises:
        GeometryError: if there are fewer than two knots or x does not rise.
    """

    x: tuple[float, ...]
    y: tuple[float, ...]
    slopes: tuple[float, ...]

    def __post_init__(self) -> None:
        if len(self.x) < 2 or any(not a < b for a, b in pairwise(self.x)):
            raise GeometryError("a smooth curve runs through two places or more, each beyond the last")

    @classmethod
    def monotone(cls, x: Sequence[float], y: Sequence[float]) -> "SmoothCurve":
        """Through the knots without overshooting between them.

        Slopes by the weighted harmonic mean of Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5(2), 1984.
        """
        steps = [b - a for a, b in pairwise(x)]
        rates = [(b - a) / step for a, b, step in zip(y[:-1], y[1:], steps, strict=True)]
        slopes = [rates[0]]
        for before, after, h0, h1 in zip(rates[:-1], rates[1:], steps[:-1], steps[1:], strict=True):
            w0, w1 = 2 * h1 + h0, h1 + 2 * h0
            slopes.append((w0 + w1) / (w0 / before + w1 / after) if before * after > 0 else 0.0)
        return cls(tuple(x), tuple(y), (*slopes, rates[-1]))

    def at(self, x: float) -> tuple[float, float]:
        """(value, slope) at x."""
        if x <= self.x[0]:
            return self.y[0] + self.slopes[0] * (x - self.x[0]), self.slopes[0]
        if x >= self.x[-1]:
            return self.y[-1] + self.slopes[-1] * (x - self.x[-1]), self.slopes[-1]
        k = bisect_right(self.x, x) - 1
        span = self.x[k + 1] - self.x[k]
        ends, slopes = (self.y[k], self.y[k + 1]), (self.slopes[k], self.slopes[k + 1])
        return hermite((x - self.x[k]) / span, span, ends, slopes)

    def at_all(self, x: Array) -> tuple[Array, Array]:
        """(values, slopes) at many x, shape (n,) each, as `at` gives them."""
        knots, values, rates = np.array(self.x), np.array(self.y), np.array(self.slopes)
        k = np.clip(np.searchsorted(knots, x, side="right") - 1, 0, len(knots) - 2)
        span = knots[k + 1] - knots[k]
        inside = hermite((x - knots[k]) / span, span, (values[k], values[k + 1]), (rates[k], rates[k + 1]))
        end = np.where(x <= knots[0], 0, -1)
        beyond = values[end] + rates[end] * (x - knots[end]), rates[end]
        outside = (x <= knots[0]) | (x >= knots[-1])
        return np.where(outside, beyond[0], inside[0]), np.where(outside, beyond[1], inside[1])

    def inverse(self, y: float) -> float:
        """The x where a rising curve has the value y (bisection made quick by Newton's method)."""
        if y <= self.y[0]:
            return self.x[0] + (y - self.y[0]) / self.slopes[0]
        if y >= self.y[-1]:
            return self.x[-1] + (y - self.y[-1]) / self.slopes[-1]
        k = bisect_right(self.y, y) - 1
        low, high = self.x[k], self.x[k + 1]
        x = low + (high - low) * (y - self.y[k]) / (self.y[k + 1] - self.y[k])
        for _ in range(60):
            value, slope = self.at(x)
            if abs(value - y) < 1e-12 * max(1.0, abs(y)):
                break
            low, high = (x, high) if value < y else (low, x)
            step = x - (value - y) / slope if slope > 0 else low
            x = step if low < step < high else (low + high) / 2
        return x
