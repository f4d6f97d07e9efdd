"""The grain line of a back that is a tie: as in the panel at the side, where the piece is high enough for it."""

from typing import Final

import numpy as np
import shapely
from shapely import LineString, Polygon

from panelwright.geometry.arrays import Array
from panelwright.pattern.mark import Grain, as_point

PLACES: Final = np.linspace(0.1, 0.9, 17)  # of the way from the side to the centre back
OF_CHORD: Final = 0.9  # of the longest line that fits
LEAST: Final = 0.42  # of the piece's length along the grain; a shorter line is hard to lay straight
CLEAR: Final = 3.0  # mm between the grain line and the outline


def panel_grain(outline: Polygon, grain: Grain, side: Array, centre: Array) -> Grain:
    """The grain line as it is, if it lies inside and is long enough; else in the same direction where there is room.

    Args:
        outline: of the tie.
        grain: of the joined back.
        side, centre: where the tie's middle starts and passes the centre back, shape (2,).
    """
    along = grain.vector / grain.length
    reach = shapely.get_coordinates(outline) @ along
    line = LineString([grain.start, grain.end])
    inside = outline.contains(line) and shapely.distance(outline.exterior, line) > CLEAR
    if inside and grain.length >= LEAST * np.ptp(reach):
        return grain
    feet = side + PLACES[:, None] * (centre - side)
    across = float(np.ptp(reach)) * along
    room = shapely.buffer(outline, -CLEAR)
    cuts = shapely.intersection(room, shapely.linestrings(np.stack([feet - across, feet + across], axis=1)))
    chord = shapely.get_coordinates(max(shapely.get_parts(cuts), key=shapely.length))
    inset = (1 - OF_CHORD) / 2 * (chord[-1] - chord[0])
    return Grain(as_point(chord[0] + inset), as_point(chord[-1] - inset))
