"""The block's old line, kept faintly visible under the line that a design put in its place."""

import numpy as np
import shapely

from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

NEAR = 15.0  # mm round one part of a slashed panel


def old_lines(piece: Piece, block: Pattern) -> tuple[Curve, ...]:
    """The outlines of the block panels that a piece was cut from, in the piece's coordinates, mm.

    An edge that is still the piece's own is left out. Panels that the block does not have give nothing.
    """
    kept = [edge.curve for edge in piece.edges]
    found: dict[Curve, None] = {}
    panels = [region.panel for region in piece.material]
    for region in piece.material:
        if block.has_piece(region.panel):
            curves = [edge.curve.placed(region.placement) for edge in block.piece(region.panel).edges]
            if region.boundary and panels.count(region.panel) > 1:
                # A panel that was slashed lies in several places: each part keeps what is near it.
                near = shapely.Polygon(region.boundary).buffer(NEAR, quad_segs=4)
                curves = [part for curve in curves for part in _inside(curve, near)]
            found |= dict.fromkeys(curves)
    return tuple(curve for curve in found if not any(_same(curve, other) for other in kept))


def _same(a: Curve, b: Curve) -> bool:
    return a.cubics.shape == b.cubics.shape and bool(np.abs(a.cubics - b.cubics).max() < TOLERANCES.seam)


def within_reach(curves: tuple[Curve, ...], cut_line: Array, reach: float) -> tuple[Curve, ...]:
    """The parts of curves that lie at most `reach` mm outside a cut line, shape (m, 2)."""
    near = shapely.Polygon(cut_line).buffer(reach, quad_segs=4)
    return tuple(part for curve in curves for part in _inside(curve, near))


def _inside(curve: Curve, near: shapely.Polygon) -> list[Curve]:
    """The stretches of a curve inside a polygon, found to about a millimetre: a faint line may end anywhere."""
    chords = curve.polyline()
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(chords, axis=0), axis=1))])
    arcs = np.linspace(0.0, along[-1], max(2, int(along[-1] / 2)))
    points = np.stack([np.interp(arcs, along, chords[:, k]) for k in (0, 1)], axis=1)
    inside = np.asarray(shapely.contains_xy(near, points[:, 0], points[:, 1]))
    if inside.all():
        return [curve]
    flips = np.flatnonzero(np.diff(np.concatenate([[False], inside, [False]]).astype(int)))
    runs = flips.reshape(-1, 2)
    return [curve.between(float(arcs[a]), float(arcs[b - 1])) for a, b in runs if b - a > 1]
