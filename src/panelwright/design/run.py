"""A run: the part of a style line in one panel between two places where it may not move."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve


@dataclass
class Run:
    """Nodes of a chain of cubics: places and directions, and how far its two ends still have to turn.

    Attributes:
        ways: mm round the body, rising, shape (n,).
        points: shape (n, 2), mm.
        velocities: change of place with way, shape (n, 2).
        spread: mm over which a turn at one end is taken up, where the run is that long.
        turns: radians by which the direction at either end is to be turned, anticlockwise.
        corner_after: the line turns sharply where the run ends.
    """

    ways: Array
    points: Array
    velocities: Array
    spread: float
    turns: list[float] = field(default_factory=lambda: [0.0, 0.0])
    corner_after: bool = False

    @property
    def length(self) -> float:
        """Way from start to end, mm."""
        return float(self.ways[-1] - self.ways[0])

    def curve(self) -> Curve:
        """The chain of cubics, with both ends turned as asked.

        A turn is spread over the run, or over its nearest `spread` mm, by the cubic that turns one end and leaves
        the other end's place and direction as they are: of all such curves the one that bends least.
        """
        points, velocities = self.points, self.velocities
        for node, angle in zip((0, -1), self.turns, strict=True):
            if angle:
                reach = min(self.length, self.spread)
                away = np.minimum(np.abs(self.ways - self.ways[node]) / reach, 1.0)
                change = _turned(self.velocities[node], angle) - self.velocities[node]
                sign = 1.0 if node == 0 else -1.0
                points = points + np.outer(sign * reach * away * (1 - away) ** 2, change)
                velocities = velocities + np.outer((1 - away) * (1 - 3 * away), change)
        step = np.diff(self.ways)[:, None] / 3
        cubics = np.stack(
            [points[:-1], points[:-1] + velocities[:-1] * step, points[1:] - velocities[1:] * step, points[1:]],
            axis=1,
        )
        return Curve(cubics)


def _turned(vector: Array, angle: float) -> Array:
    c, s = math.cos(angle), math.sin(angle)
    return np.array([c * vector[0] - s * vector[1], s * vector[0] + c * vector[1]])


def chained(runs: Sequence[Run]) -> tuple[Curve, ...]:
    """The runs of a panel as curves, a new one after each corner."""
    curves: list[Curve] = []
    starts_anew = True
    for run in runs:
        curve = run.curve()
        curves = [*curves, curve] if starts_anew else [*curves[:-1], curves[-1].joined(curve)]
        starts_anew = run.corner_after
    return tuple(curves)
