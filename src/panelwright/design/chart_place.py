"""Places of a flat panel told on the chart: how far across the panel, and how high on the body."""

from typing import Final

import numpy as np

from panelwright.design.body_chart import BodyChart
from panelwright.geometry.arrays import Array

_ACROSS, _UP = 9, 33  # of the grid on which the search starts
_ROUNDS: Final = 30
_FOUND: Final = 1e-6  # mm and shares


def chart_places(chart: BodyChart, k: int, points: Array) -> Array:
    """The places of panel k nearest to points of it, by Newton's method from the nearest of a grid.

    Args:
        chart: of the block.
        k: number of the panel.
        points: mm on the panel, shape (n, 2).

    Returns:
        Share across the panel, held to 0 … 1, and mm above the waist, held to the block; shape (n, 2).
    """
    surface = chart.surfaces[k]
    low, high = chart.rows[0].height, chart.rows[-1].height
    across, up = (grid.ravel() for grid in np.meshgrid(np.linspace(0, 1, _ACROSS), np.linspace(low, high, _UP)))
    known = surface.points(across, up)
    start = np.linalg.norm(points[:, None] - known[None], axis=-1).argmin(axis=1)
    share, height = across[start], up[start]
    for _ in range(_ROUNDS):
        by_share, by_height = surface.directions(share, height)
        off = points - surface.points(share, height)
        area = by_share[:, 0] * by_height[:, 1] - by_share[:, 1] * by_height[:, 0]
        to_share = (off[:, 0] * by_height[:, 1] - off[:, 1] * by_height[:, 0]) / area
        to_height = (by_share[:, 0] * off[:, 1] - by_share[:, 1] * off[:, 0]) / area
        was = share, height
        share, height = np.clip(share + to_share, 0.0, 1.0), np.clip(height + to_height, low, high)
        if np.abs(share - was[0]).max() + np.abs(height - was[1]).max() < _FOUND:
            break
    return np.column_stack([share, height])
