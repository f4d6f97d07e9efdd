"""The grain line of a facing: the panel's own, unless the band is too narrow for one in that direction."""

from typing import Final

import numpy as np
import shapely

from panelwright.finish.grain_line import roomiest
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.level import WAIST
from panelwright.pattern.line import CENTRE_FRONT
from panelwright.pattern.mark import Grain, as_point
from panelwright.pattern.piece import Piece

_PLACES: Final = np.linspace(0.02, 0.98, 49)
_OF_ROOM: Final = 0.9
_SPARE: Final = 1.05


def band_grain(piece: Piece) -> Grain | None:
    """The grain line as it is if it is long enough; else a parallel one anywhere in the piece; else the cross grain.

    A narrow band that goes round a curve may have no room for a line of a third of its length along the panel's own
    grain. It is then cut on the cross grain, unless a fold, a centre front or a waist line fixes the direction.

    Returns:
        None where no line has room.
    """
    own = piece.grain.vector / piece.grain.length
    corners = np.array(piece.outline.exterior.coords)
    least = _SPARE * TOLERANCES.grain_share
    inside = piece.outline.contains(shapely.LineString([piece.grain.start, piece.grain.end]))
    if inside and piece.grain.length >= least * np.ptp(corners @ own):
        return piece.grain
    ways = [own] if _is_fixed(piece) else [own, np.array([-own[1], own[0]])]
    for way in ways:
        start, end = roomiest(piece.outline, way, _PLACES)
        length = float(np.linalg.norm(end - start)) * _OF_ROOM
        if length >= least * np.ptp(corners @ way):
            middle, half = (start + end) / 2, length / 2 * way
            return Grain(as_point(middle - half), as_point(middle + half))
    return None


def _is_fixed(piece: Piece) -> bool:
    waist = piece.inside_line(WAIST)
    return any(edge.kind == "fold" or edge.line == CENTRE_FRONT for edge in piece.edges) or (
        waist is not None and waist.kind == "level"
    )
