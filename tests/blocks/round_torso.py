"""Bodies of revolution that stand in for a torso: their panels unroll in closed form."""

from collections.abc import Callable

import numpy as np

from panelwright.body.section import ANGLES
from panelwright.body.torso_shape import TorsoShape
from panelwright.geometry.arrays import Array

HEIGHTS = {
    "upper-bust": 200.0,
    "bust": 150.0,
    "underbust": 85.0,
    "waist": 0.0,
    "lower-waist": -50.0,
    "top-hip": -100.0,
    "hip": -200.0,
}


class RoundTorso:
    """A torso whose section at height z is a circle of radius `radius(z)`, with the parts of `Torso` a fit needs."""

    bust_angle = 0.6

    def __init__(self, radius: Callable[[Array], Array]) -> None:
        self._radius = radius
        levels = (level for level in HEIGHTS if level != "lower-waist")
        girths = {level: 2 * np.pi * float(radius(np.array(HEIGHTS[level]))) for level in levels}
        self.shape = TorsoShape(HEIGHTS, girths, bust_point_span=160.0, back_length=400.0)

    def taped(self, z: Array) -> Array:
        return self._radius(z)[:, None] * np.ones(len(ANGLES))

    def girth(self, z: float) -> float:
        return 2 * np.pi * float(self._radius(np.array(z)))
