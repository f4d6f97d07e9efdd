"""A rigid placement of something flat: turn it over or not, turn it, shift it."""

import math
from dataclasses import dataclass

import numpy as np

from panelwright.geometry.arrays import Array


@dataclass(frozen=True)
class Placement:
    """point -> R(angle) · M · point + (x, y), where M mirrors x (x -> -x) when `mirrored`.

    Attributes:
        angle: radians, anticlockwise.
        x, y: shift, mm.
        mirrored: turned over about the y axis before it is turned.

    >>> Placement(x=10.0, mirrored=True).points(np.array([[3.0, 1.0]])).tolist()
    [[7.0, 1.0]]
    """

    angle: float = 0.0
    x: float = 0.0
    y: float = 0.0
    mirrored: bool = False

    @property
    def matrix(self) -> Array:
        """The linear part, shape (2, 2)."""
        c, s = math.cos(self.angle), math.sin(self.angle)
        side = -1.0 if self.mirrored else 1.0
        return np.array([[c * side, -s], [s * side, c]])

    def points(self, points: Array) -> Array:
        """The placed points, any shape (..., 2)."""
        placed: Array = points @ self.matrix.T + np.array([self.x, self.y])
        return placed

    def vectors(self, vectors: Array) -> Array:
        """The placed directions (no shift), any shape (..., 2)."""
        return vectors @ self.matrix.T

    def after(self, first: "Placement") -> "Placement":
        """The placement that does `first` and then this one."""
        turned = -first.angle if self.mirrored else first.angle
        x, y = self.points(np.array([first.x, first.y]))
        return Placement(self.angle + turned, float(x), float(y), self.mirrored != first.mirrored)

    @property
    def inverse(self) -> "Placement":
        """The placement that takes everything back."""
        angle = self.angle if self.mirrored else -self.angle
        x, y = Placement(angle, mirrored=self.mirrored).points(np.array([-self.x, -self.y]))
        return Placement(angle, float(x), float(y), self.mirrored)

    @classmethod
    def carrying(cls, point: Array, direction: Array, to: Array, to_direction: Array) -> "Placement":
        """The placement that lays `point` on `to` and turns `direction` into `to_direction`, unmirrored."""
        angle = math.atan2(to_direction[1], to_direction[0]) - math.atan2(direction[1], direction[0])
        moved = cls(angle).points(point)
        return cls(angle, float(to[0] - moved[0]), float(to[1] - moved[1]))
