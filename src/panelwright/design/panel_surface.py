"""A panel's own chart: which place of the flat panel is so far across it and at such a height of the body."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from scipy.interpolate import PchipInterpolator, RectBivariateSpline

from panelwright.design.arc_points import arc_points
from panelwright.design.smooth_curve import SmoothCurve
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve

ACROSS = 9  # samples of each level line
BETWEEN = 6  # samples of an edge between two levels


@dataclass(frozen=True, eq=False)
class PanelSurface:
    """F(across, height) of one flat panel.

    F(0, h) and F(1, h) run up the panel's two edges, and F(u, height of a level) runs along that level's line, by
    arc length. In between, the level lines' bow away from the straight line between their ends changes smoothly
    with height, so that a line at one height is shaped like the levels above and below it.

    Attributes:
        x, y: the two coordinates as bicubic splines of (height, across).
    """

    x: RectBivariateSpline
    y: RectBivariateSpline

    @classmethod
    def of(
        cls, edges: tuple[Curve, Curve], rows: Sequence[tuple[float, Curve]], shares: Sequence[SmoothCurve]
    ) -> "PanelSurface":
        """The surface between two upright edges.

        Args:
            edges: curves of the entry and the exit edge, upwards.
            rows: (height, curve from entry to exit) of each level, from the lowest up.
            shares: for each of the two edges, height -> share of its arc length.
        """
        levels = np.array([height for height, _ in rows])
        u = np.linspace(0.0, 1.0, ACROSS)
        steps = [np.linspace(a, b, BETWEEN, endpoint=False) for a, b in pairwise(levels)]
        heights = np.concatenate([*steps, levels[-1:]])
        bows = np.array([arc_points(curve, u * curve.length) for _, curve in rows])
        bows -= bows[:, :1] * (1 - u)[None, :, None] + bows[:, -1:] * u[None, :, None]
        bow = PchipInterpolator(levels, bows)(heights)
        sides = [
            arc_points(curve, curve.length * np.array([share.at(float(h))[0] for h in heights]))
            for curve, share in zip(edges, shares, strict=True)
        ]
        grid = sides[0][:, None] * (1 - u)[None, :, None] + sides[1][:, None] * u[None, :, None] + bow
        return cls(*(RectBivariateSpline(heights, u, grid[..., k]) for k in (0, 1)))

    def points(self, across: Array, heights: Array) -> Array:
        """Places of the panel, shape (n, 2), mm."""
        return np.column_stack([self.x.ev(heights, across), self.y.ev(heights, across)])

    def directions(self, across: Array, heights: Array) -> tuple[Array, Array]:
        """Change of place with across (0 … 1) and with height (mm), shape (n, 2) each."""
        by_across = np.column_stack([s.ev(heights, across, dy=1) for s in (self.x, self.y)])
        by_height = np.column_stack([s.ev(heights, across, dx=1) for s in (self.x, self.y)])
        return by_across, by_height
