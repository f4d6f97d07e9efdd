"""The grain line as it is drawn: inside its piece and long enough to lay by, in the direction that the design gives."""

from typing import Final

import numpy as np
import shapely
from shapely import LineString, Polygon

from panelwright.geometry.arrays import Array
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.mark import Grain, as_point
from panelwright.pattern.piece import Piece

# A grain line shorter than this share of its piece is drawn anew, this share of the room for it, mm from the edge.
_LEAST: Final = 0.4
_OF_ROOM: Final = 0.7
_CLEAR: Final = 2.0
_MIDDLE: Final = np.linspace(0.25, 0.75, 11)
_ANYWHERE: Final = np.linspace(0.03, 0.97, 48)


def fitted_grain(piece: Piece) -> Grain:
    """The piece's own grain line; if an edge has come to cut it off or left it short, a parallel one that fits.

    The direction never changes. The new line lies in the middle half of the piece, where there is most room; anywhere
    across it, if a slanting piece has no room there for a line of a third of its length.
    """
    grain, outline = piece.grain, piece.outline
    along = grain.vector / grain.length
    reach = shapely.get_coordinates(outline) @ along
    line = LineString([grain.start, grain.end])
    inside = outline.contains(line) and shapely.distance(outline.exterior, line) > _CLEAR
    if inside and grain.length >= max(_LEAST, TOLERANCES.grain_share) * np.ptp(reach):
        return grain
    least = TOLERANCES.grain_share * np.ptp(reach)
    start, end = roomiest(outline, along, _MIDDLE)
    if _OF_ROOM * float(np.linalg.norm(end - start)) < least:
        start, end = roomiest(outline, along, _ANYWHERE)
    middle, half = (start + end) / 2, (end - start) / 2 * _OF_ROOM
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
