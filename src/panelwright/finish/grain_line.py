"""The grain line as it is drawn: inside its piece and long enough to lay by, in the direction that the design gives."""

from functools import lru_cache
from typing import Final

import numpy as np
import shapely
from shapely import LineString, Polygon

from panelwright.geometry.arrays import Array
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.mark import Grain, as_point
from panelwright.pattern.piece import Piece

KEPT: Final = 512
# A grain line shorter than this share of its piece, or nearer to an edge than this many mm (this share of a narrow
# piece's breadth), is drawn anew, this share of the room for it.
_LEAST: Final = 0.4
_CLEAR: Final = 10.0
_CLEAR_SHARE: Final = 0.2
_OF_ROOM: Final = 0.7
# Of a wide ring, times the least length, and what is left at each end at least, mm.
_ENOUGH: Final = 1.02
_AT_ENDS: Final = 2.0
_MIDDLE: Final = np.linspace(0.25, 0.75, 11)
_ANYWHERE: Final = np.linspace(0.03, 0.97, 48)


@lru_cache(maxsize=KEPT)
def fitted_grain(piece: Piece) -> Grain:
    """The piece's own grain line; if an edge has come to cut it off or left it short, a parallel one that fits.

    The direction never changes. The new line lies in the middle half of the piece, where there is most room; anywhere
    across it, if a slanting piece has no room there for a line of a third of its length. Remembered by content.
    """
    grain, outline = piece.grain, piece.outline
    along = grain.vector / grain.length
    corners = shapely.get_coordinates(outline)
    reach, breadth = corners @ along, np.ptp(corners @ [-along[1], along[0]])
    line = LineString([grain.start, grain.end])
    inside = outline.contains(line) and shapely.distance(outline.exterior, line) > min(_CLEAR, _CLEAR_SHARE * breadth)
    if inside and grain.length >= max(_LEAST, TOLERANCES.grain_share) * np.ptp(reach):
        return grain
    least = TOLERANCES.grain_share * np.ptp(reach)
    start, end = roomiest(outline, along, _MIDDLE)
    if _OF_ROOM * float(np.linalg.norm(end - start)) < least:
        start, end = roomiest(outline, along, _ANYWHERE)
    room = float(np.linalg.norm(end - start))
    # Of a wide ring even the longest line is short beside the whole piece: it takes more of its room there.
    length = max(_OF_ROOM * room, min(_ENOUGH * least, room - 2 * _AT_ENDS))
    middle, half = (start + end) / 2, length / 2 * along
    return Grain(as_point(middle - half), as_point(middle + half))


def roomiest(outline: Polygon, along: Array, places: Array) -> tuple[Array, Array]:
    """The ends of the longest line inside an outline, in direction `along`, at one of some shares of its breadth."""
    across = np.array([-along[1], along[0]])
    corners = np.array(outline.exterior.coords)
    reach, spread = corners @ along, corners @ across
    feet = (spread.min() + places * np.ptp(spread))[:, None, None] * across
    ends = feet + np.array([reach.min() - 1.0, reach.max() + 1.0])[None, :, None] * along
    rooms = shapely.get_parts(shapely.intersection(outline, shapely.linestrings(ends)))
    start, end = shapely.get_coordinates(max(rooms, key=lambda room: round(float(shapely.length(room)), 3)))[[0, -1]]
    return (start, end) if (end - start) @ along > 0 else (end, start)
