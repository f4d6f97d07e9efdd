"""A flat outline as triangles: its own edge and a grid of points inside it."""

from typing import Final

import numpy as np
import shapely
from scipy.spatial import Delaunay
from shapely import Polygon

from panelwright.app.surface_mesh import Triangles
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern.piece import Piece

SPACING: Final = 11.0  # mm between points inside
ALONG_EDGE: Final = 8.0  # mm between points of the outline
_ROW: Final = SPACING * 0.75**0.5
CLEAR: Final = 0.55  # of the spacing: points inside stay so far from the outline that no triangle crosses it


def flat_mesh(piece: Piece) -> tuple[Array, Triangles]:
    """(points, triangles) that fill a piece's outline, shape (n, 2) in mm and (m, 3), anticlockwise.

    Both sides of a seam have their points at the same places along it, since they are as long and are shared out
    evenly.
    """
    rim = np.concatenate([even_points(edge.curve)[:-1] for edge in piece.edges])
    outline = Polygon(rim)
    points = np.concatenate([rim, _inside(outline)])
    triangles = Delaunay(points).simplices.astype(np.int64)
    a, b, c = (points[triangles[:, k]] for k in range(3))
    area = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    turned = np.where((area < 0)[:, None], triangles[:, ::-1], triangles)
    middles = (a + b + c) / 3
    kept = shapely.contains_xy(outline, middles[:, 0], middles[:, 1]) & (np.abs(area) > 1e-3)
    return points, turned[kept]


def even_points(curve: Curve) -> Array:
    """Points evenly along a curve, both ends among them, shape (n, 2)."""
    count = max(1, int(np.ceil(round(curve.length, 1) / ALONG_EDGE)))
    return np.array([curve.point(arc) for arc in np.linspace(0.0, curve.length, count + 1)])


def _inside(outline: Polygon) -> Array:
    """A grid of even triangles, as far as it lies well inside."""
    core = outline.buffer(-CLEAR * SPACING)
    if core.is_empty:
        return np.zeros((0, 2))
    left, bottom, right, top = core.bounds
    rows = np.arange(bottom, top, _ROW)
    columns = np.arange(left, right, SPACING)
    x = columns[None, :] + np.where(np.arange(len(rows)) % 2, SPACING / 2, 0.0)[:, None]
    y = np.broadcast_to(rows[:, None], x.shape)
    inside = shapely.contains_xy(core, x.ravel(), y.ravel())
    return np.column_stack([x.ravel()[inside], y.ravel()[inside]])
