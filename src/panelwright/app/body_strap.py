"""A strap of its own as the Body view draws it: a band between its two edges."""

import numpy as np

from panelwright.app.surface_mesh import SurfaceMesh, Triangles
from panelwright.design.worn_strap import WornStrap
from panelwright.geometry.arrays import Array
from panelwright.pattern.piece import Piece

STATION = 10.0  # mm from one pair of points across the strap to the next
OVER = 2.0  # mm that a strap lies outside the cloth under it


class BodyStrap:
    """A strip on its wearer.

    Attributes:
        piece: the strip.
        line: of its long edges.
        flat: places along its edge that is nearer to the wearer's centre, then along the other, shape (2 n, 2), mm.
        body: the same places on the wearer, shape (2 n, 3), mm.
    """

    def __init__(self, piece: Piece, strap: WornStrap, skin: SurfaceMesh, outside: float) -> None:
        """Of the finished strip; it lies at least `outside` mm and its own bit off the body."""
        self.piece, self.line = piece, strap.line
        count = 1 + int(np.ceil(piece.outline.bounds[3] / STATION))
        self.flat = np.concatenate([_flat_edge(piece, strap.line, count, k) for k in (1, 0)])
        ways = np.concatenate([_evenly(way, count) for way in (strap.inner, strap.outer)])
        self.body = skin.kept_outside(ways, outside + OVER)

    @property
    def triangles(self) -> Triangles:
        """Numbers of places, shape (m, 3); seen from outside anticlockwise."""
        count = len(self.flat) // 2
        k = np.arange(count - 1)
        below, above = np.stack([k, k + 1, k + count]), np.stack([k + 1, k + 1 + count, k + count])
        return np.concatenate([below.T, above.T]).astype(np.int64)

    @property
    def edges(self) -> tuple[Array, Array]:
        """Its two long edges on the wearer, shape (n, 3) each."""
        half = len(self.body) // 2
        return self.body[:half], self.body[half:]


def _flat_edge(piece: Piece, line: str, count: int, side: int) -> Array:
    """Even places up the left (0) or right (1) long edge of the strip, which is drawn with its front end below."""
    edge = sorted(piece.on_line(line), key=lambda each: float(each.curve.start[0] + each.curve.end[0]))[side]
    upwards = edge.curve.start[1] < edge.curve.end[1]
    arcs = np.linspace(0.0, edge.curve.length, count)
    return np.array([edge.curve.point(arc) for arc in (arcs if upwards else arcs[::-1])])


def _evenly(way: Array, count: int) -> Array:
    """Places at even shares of the length of a way, shape (count, 3)."""
    arcs = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(way, axis=0), axis=1))])
    at = np.linspace(0.0, arcs[-1], count)
    return np.column_stack([np.interp(at, arcs, way[:, axis]) for axis in range(3)])
