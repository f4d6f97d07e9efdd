"""The grain line of a panel that stands upright on the paper."""

from collections.abc import Sequence

import numpy as np
import shapely
from shapely import LineString

from panelwright.errors import GeometryError
from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge
from panelwright.pattern.mark import Grain

GRAIN_SHARE = 0.7  # of the upright line inside the piece that it lies on
MIDDLE_FIRST = (0.5, 0.4, 0.6, 0.3, 0.7)  # of the waist line


def upright_grain(edges: Sequence[Edge], waist: Curve) -> Grain:
    """An upright line through the middle of the waist, or beside it where the piece is longer, well inside."""
    outline = shapely.Polygon(np.concatenate([edge.curve.polyline()[:-1] for edge in edges]))
    _, low, _, high = outline.bounds
    best, longest = None, 0.0
    for share in MIDDLE_FIRST:
        x = float(waist.point(share * waist.length)[0])
        cut = shapely.intersection(outline, LineString([(x, low - 1), (x, high + 1)]))
        for part in shapely.get_parts(cut):
            _, y0, _, y1 = part.bounds
            if y1 - y0 > 1.2 * longest:  # the middle wins unless another place is much better
                best, longest = (x, y0, y1), y1 - y0
    if best is None:
        raise GeometryError("a piece has no room for its grain line")
    x, y0, y1 = best
    margin = (1 - GRAIN_SHARE) / 2 * (y1 - y0)
    return Grain((x, y0 + margin), (x, y1 - margin))
