"""An affine map of the plane: what a transform of SVG and an INSERT of DXF do to what they hold."""

import math
from dataclasses import dataclass
from typing import Self

import numpy as np

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.drawing_limits import LARGEST


@dataclass(frozen=True)
class Affine:
    """(x, y) -> (a x + c y + e, b x + d y + f), the letters as SVG has them.

    Raises:
        InputError: if a number is not finite, or beyond 1e9.
    """

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def __post_init__(self) -> None:
        if not all(abs(number) <= LARGEST for number in (self.a, self.b, self.c, self.d, self.e, self.f)):
            raise InputError("a transform has a number that is not finite or beyond use: save the drawing again")

    @classmethod
    def scaling(cls, x: float, y: float) -> Self:
        """Stretched along both axes."""
        return cls(a=x, d=y)

    @classmethod
    def shifting(cls, x: float, y: float) -> Self:
        """Shifted."""
        return cls(e=x, f=y)

    @classmethod
    def turning(cls, angle: float) -> Self:
        """Turned about the origin, radians, from the x axis towards the y axis."""
        c, s = math.cos(angle), math.sin(angle)
        return cls(c, s, -s, c)

    def after(self, first: "Affine") -> "Affine":
        """The map that does `first` and then this one."""
        return Affine(
            self.a * first.a + self.c * first.b,
            self.b * first.a + self.d * first.b,
            self.a * first.c + self.c * first.d,
            self.b * first.c + self.d * first.d,
            self.a * first.e + self.c * first.f + self.e,
            self.b * first.e + self.d * first.f + self.f,
        )

    def points(self, points: Array) -> Array:
        """The mapped points, any shape (..., 2)."""
        mapped: Array = points @ np.array([[self.a, self.b], [self.c, self.d]]) + np.array([self.e, self.f])
        return mapped
