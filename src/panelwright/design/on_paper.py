"""Where a place of a block's panel lies on the pieces that steps made of the panels."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from shapely import Point as ShapelyPoint
from shapely import Polygon

from panelwright.geometry.arrays import Array
from panelwright.geometry.placement import Placement
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece


@dataclass(frozen=True)
class OnPaper:
    """The piece that holds part of a panel, and how the panel's coordinates lie on it."""

    piece: str
    placement: Placement

    def place(self, point: Array) -> Array:
        """A place of the panel on the piece."""
        return self.placement.points(point)

    def panel_place(self, point: Array) -> Array:
        """A place of the piece on the panel."""
        return self.placement.inverse.points(point)


def on_paper(pattern: Pattern, panel: str, point: Array) -> OnPaper | None:
    """The outer piece on which a place of a panel lies, or lies nearest; None if nothing is left of the panel.

    Args:
        pattern: after steps.
        panel: id of a panel of the block.
        point: on it, mm, shape (2,).
    """
    found = min(_candidates(pattern, panel, point), key=lambda each: each[0], default=None)
    return found[1] if found else None


def _candidates(pattern: Pattern, panel: str, point: Array) -> Iterator[tuple[tuple[bool, float], OnPaper]]:
    """((turned over or the left half's, how far off the place is), piece and placement): a half that is drawn for
    the wearer's right comes first."""
    for piece in pattern.pieces:
        if piece.layer != "outer":
            continue
        for region in piece.material:
            if region.panel == panel:
                other = region.placement.mirrored or piece.hand == "left"
                placed = region.placement.points(np.asarray(point))
                yield (other, _gap(piece, region.boundary, placed)), OnPaper(piece.id, region.placement)


def _gap(piece: Piece, boundary: tuple[tuple[float, float], ...], placed: Array) -> float:
    shape = Polygon(boundary) if boundary else piece.outline
    return float(shape.distance(ShapelyPoint(placed)))
