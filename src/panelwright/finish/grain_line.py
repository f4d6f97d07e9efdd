"""The grain line as it is drawn: inside its piece and long enough to lay by, in the direction that the design gives."""

from typing import Final

import numpy as np
import shapely
from shapely import LineString

from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.mark import Grain, as_point
from panelwright.pattern.piece import Piece

# A grain line shorter than this share of its piece is drawn anew, this share of the room for it, mm from the edge.
_LEAST: Final = 0.4
_OF_ROOM: Final = 0.7
_CLEAR: Final = 2.0
_PLACES: Final = np.linspace(0.25, 0.75, 11)


def fitted_grain(piece: Piece) -> Grain:
    """The piece's own grain line; if an edge has come to cut it off or left it short, a parallel one that fits.

    The direction never changes. The new line lies in the middle half of the piece, where there is most room.
    """
    grain, outline = piece.grain, piece.outline
    along = grain.vector / grain.length
    reach = np.array(outline.exterior.coords) @ along
    line = LineString([grain.start, grain.end])
    inside = outline.contains(line) and shapely.distance(outline.exterior, line) > _CLEAR
    if inside and grain.length >= max(_LEAST, TOLERANCES.grain_share) * np.ptp(reach):
        return grain
    across = np.array([-along[1], along[0]])
    spread = np.array(outline.exterior.coords) @ across
    places = spread.min() + _PLACES * np.ptp(spread)
    low, high = reach.min() - 1.0, reach.max() + 1.0
    ends = places[:, None, None] * across + np.array([low, high])[None, :, None] * along
    rooms = [
        part for cut in shapely.intersection(outline, shapely.linestrings(ends)) for part in shapely.get_parts(cut)
    ]
    room = max(rooms, key=lambda part: round(float(part.length), 3))
    start, end = np.sort(np.array(room.coords) @ along)
    middle, half = (start + end) / 2, (end - start) / 2 * _OF_ROOM
    foot = (np.array(room.coords[0]) @ across) * across
    return Grain(as_point(foot + (middle - half) * along), as_point(foot + (middle + half) * along))
