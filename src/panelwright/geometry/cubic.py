"""One cubic Bézier as a polynomial with complex coefficients, x + iy: quick to ask for one place at a time."""

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Final, Self

import numpy as np

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array
from panelwright.geometry.tolerances import TOLERANCES

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(16)
NODES: Final[Array] = (_NODES + 1) / 2
WEIGHTS: Final[Array] = _WEIGHTS / 2
_GOLDEN: Final = (math.sqrt(5) - 1) / 2
_STILL: Final = 1e-9  # mm: a direction that is shorter is none


@dataclass(frozen=True)
class Cubic:
    """A cubic from t = 0 to t = 1, by its Bézier points, mm."""

    points: tuple[complex, complex, complex, complex]

    @classmethod
    def of(cls, points: Array) -> Self:
        """The cubic with Bézier points of shape (4, 2)."""
        a, b, c, d = (complex(x, y) for x, y in points.tolist())
        return cls((a, b, c, d))

    def value(self, t: float) -> complex:
        """The place at parameter t, exact at both ends."""
        if t in (0.0, 1.0):
            return self.points[3 if t else 0]
        a, b, c = self._slopes
        return ((c / 3 * t + b / 2) * t + a) * t + self.points[0]

    @cached_property
    def _slopes(self) -> tuple[complex, complex, complex]:
        """What stands before 1, t and t² in the derivative."""
        a, b, c, d = self.points
        return 3 * (b - a), 6 * (a - 2 * b + c), 3 * (d - 3 * c + 3 * b - a)

    def derivative(self, t: float) -> complex:
        """By t."""
        a, b, c = self._slopes
        return (c * t + b) * t + a

    def second_derivative(self, t: float) -> complex:
        """By t, twice."""
        _, b, c = self._slopes
        return 2 * c * t + b

    def curvature(self, t: float) -> float:
        """Signed, 1/mm, positive where the cubic turns left."""
        d1, d2 = self.derivative(t), self.second_derivative(t)
        return (d1.conjugate() * d2).imag / max(abs(d1) ** 3, 1e-12)

    def direction(self, t: float) -> complex:
        """The unit direction of travel; at an end, control points that lie on it are passed over.

        Raises:
            GeometryError: if all four points are one.
        """
        way = self.derivative(t)
        if t in (0.0, 1.0) or abs(way) < _STILL:
            way = self._end_direction(t > 0.5)
        return way / abs(way)

    def _end_direction(self, at_end: bool) -> complex:
        legs = [self.points[3] - other for other in self.points[2::-1]]
        if not at_end:
            legs = [other - self.points[0] for other in self.points[1:]]
        for leg in legs:
            if abs(leg) > _STILL:
                return leg
        raise GeometryError("a cubic has no direction: its four points are one")

    def length(self, t: float = 1.0) -> float:
        """Arc length from the start to t, mm: 16-point Gauss-Legendre."""
        a, b, c = self._slopes
        at = NODES * t
        return float(np.abs((c * at + b) * at + a) @ WEIGHTS) * t

    def parameter(self, arc: float, length: float) -> float:
        """The parameter at an arc position; `length` is that of the whole cubic (safeguarded Newton)."""
        if arc <= 0.0 or length <= 0.0:
            return 0.0
        if arc >= length:
            return 1.0
        low, high, t = 0.0, 1.0, arc / length
        for _ in range(60):
            error = self.length(t) - arc
            low, high = (t, high) if error < 0 else (low, t)
            if abs(error) < TOLERANCES.arc:
                break
            speed = abs(self.derivative(t))
            step = t - error / speed if speed > 1e-12 else math.nan
            t = step if low < step < high else (low + high) / 2
        return t

    def nearest(self, place: complex, low: float, high: float) -> float:
        """The parameter nearest to a place between two: golden section, then Newton on the foot-point condition."""
        for _ in range(12):
            a, b = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
            low, high = (low, b) if abs(self.value(a) - place) < abs(self.value(b) - place) else (a, high)
        t = (low + high) / 2
        for _ in range(8):
            gap, d1, d2 = self.value(t) - place, self.derivative(t), self.second_derivative(t)
            slope = abs(d1) ** 2 + (gap.conjugate() * d2).real
            if slope <= 0:
                break
            last, t = t, min(max(t - (gap.conjugate() * d1).real / slope, 0.0), 1.0)
            if t == last:
                break
        return t
