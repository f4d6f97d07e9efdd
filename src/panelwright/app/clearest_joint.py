"""Where along a seam its two sides, flat on paper, are understood best: they lie across each other and gape least."""

from collections.abc import Sequence
from typing import Final

import numpy as np
import shapely
from shapely import Polygon

from panelwright.geometry.arrays import Array
from panelwright.geometry.placement import Placement

EVERY: Final = 5  # joints from one that is tried to the next
ALIKE: Final = 100.0  # mm²: areas that look alike on a screen
COARSE: Final = 0.5  # mm


def clearest_joint(
    still: Sequence[Polygon], moved: Sequence[Polygon], motions: Sequence[Placement], on_a: Array, on_b: Array
) -> int:
    """The number of the motion that shows the seam most clearly; the nearest to the middle where many do alike.

    Args:
        still: finished outlines of side a as they were laid, mm.
        moved: those of side b before any motion.
        motions: what is done to `moved` at even shares of the seam, from its start to its end.
        on_a: partner places on side a, shape (n, 2), one for each motion.
        on_b: those on side b before any motion.
    """
    ground = shapely.union_all([_sound(outline) for outline in still])
    laid = [_sound(outline) for outline in moved]
    long = float(np.linalg.norm(np.diff(on_a, axis=0), axis=1).sum())

    def unclear(k: int) -> tuple[float, int]:
        across = sum(shapely.intersection(ground, _placed(outline, motions[k])).area for outline in laid)
        between = long * float(np.linalg.norm(motions[k].points(on_b) - on_a, axis=1).mean())
        return round((across + between) / ALIKE), abs(2 * k - len(motions) + 1)

    return min(range(0, len(motions), EVERY), key=unclear)


def _sound(outline: Polygon) -> Polygon:
    coarse = shapely.simplify(outline, COARSE)
    return coarse if coarse.is_valid else coarse.buffer(0.0)


def _placed(outline: Polygon, motion: Placement) -> Polygon:
    return shapely.transform(outline, motion.points)
