"""Keeping a grain line inside a piece whose outline has changed."""

import numpy as np
import shapely
from shapely import LineString, Polygon

from panelwright.geometry.arrays import Array
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.mark import Grain, as_point

GRAIN_SHARE = 0.7  # of the longest line that fits
MARGIN = 4.0  # mm kept from the outline where there is room
PLACES = np.linspace(0.25, 0.75, 9)  # of the piece's breadth


def grain_inside(outline: Polygon, grain: Grain) -> Grain:
    """The grain line as it is if it still fits; else shortened in its own place; else moved across the piece.

    It keeps its direction, lies inside the outline and is at least a third as long as the piece is along it.
    """
    corners = shapely.get_coordinates(outline)
    along = grain.vector / grain.length
    across = np.array([-along[1], along[0]])
    heights, breadths = corners @ along, corners @ across
    least = float(np.ptp(heights)) * TOLERANCES.grain_share * 1.05
    if grain.length >= least and outline.contains(LineString([grain.start, grain.end])):
        return grain
    reach = np.array([heights.min() - 1.0, heights.max() + 1.0])
    ((start, end),) = _longest(outline, along, across * [[float(np.dot(grain.start, across))]], reach)
    length = float(np.linalg.norm(end - start))
    if length * GRAIN_SHARE < least:
        places = breadths.min() + PLACES * np.ptp(breadths)
        chords = _longest(outline, along, across * places[:, None], reach)
        start, end = max(chords, key=lambda chord: float(np.linalg.norm(chord[1] - chord[0])))
        length = float(np.linalg.norm(end - start))
    inset = max(min(MARGIN, length / 10), length * (1 - GRAIN_SHARE) / 2) * along
    if length - 2 * float(np.linalg.norm(inset)) < least:
        inset = max(0.0, (length - least) / 2) * along
    return Grain(as_point(start + inset), as_point(end - inset))


def _longest(outline: Polygon, along: Array, offsets: Array, reach: Array) -> list[tuple[Array, Array]]:
    """Ends of the longest stretch inside the outline of each line along the grain, `offsets` (n, 2) from the origin."""
    lines = shapely.linestrings(offsets[:, None] + along * reach[:, None])
    chords = []
    cuts = np.asarray(shapely.intersection(outline, lines))
    for offset, cut in zip(offsets, cuts, strict=True):
        parts = shapely.get_parts(cut)
        lengths = shapely.length(parts)
        if not len(parts) or lengths.max() == 0:
            chords.append((offset, offset))
            continue
        ends = shapely.get_coordinates(parts[int(np.argmax(lengths))])
        first, last = ends[0], ends[-1]
        chords.append((first, last) if (last - first) @ along > 0 else (last, first))
    return chords
