"""Notches as they are drawn: from the stitch line square outwards to the edge of the allowance."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from shapely import LinearRing, LineString

from panelwright.finish.cut_piece import NotchMark
from panelwright.geometry.arrays import Array
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.mark import as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Notch

# Marks of one notch nearer than this are one, and a mark so near to a corner is that corner, mm.
_SAME: Final = 0.5


@dataclass(frozen=True, eq=False)
class NotchSide:
    """One side of a notch on its piece: the place on the stitch line and the unit normal out of the piece."""

    notch: Notch
    edge: str
    at: Array
    normal: Array


def notch_sides(pattern: Pattern, notches: Iterable[Notch]) -> Mapping[str, Sequence[NotchSide]]:
    """Both sides of each notch, by piece.

    A piece sewn to its own mirror image is marked once; one that has a corner at the place is not marked there: the
    seam that ends in the corner marks it (a waistband is notched where the panels' seams meet it).
    """
    sides: dict[str, list[NotchSide]] = defaultdict(list)
    for notch in notches:
        seam = pattern.seam(notch.seam)
        for chain, place in ((seam.a, notch.at_a), (seam.b, notch.at_b)):
            span, at, normal = pattern.along_chain(chain, place)
            here, curve = sides[span.piece], pattern.edge(span).curve
            marked = [side.at for side in here if side.notch is notch]
            if all(np.hypot(*(at - other)) > _SAME for other in (curve.start, curve.end, *marked)):
                here.append(NotchSide(notch, span.edge, at, normal))
    return sides


def notch_marks(
    sides: Sequence[NotchSide], names: Mapping[str, str], widths: Mapping[str, float], cut_line: Array, prefix: str = ""
) -> tuple[NotchMark, ...]:
    """The ticks of a piece. Where another allowance covers the place, a tick is carried on to the cut line.

    Args:
        names: edge of the shell's piece -> edge of this piece.
        widths: edge of this piece -> its allowance, mm.
        prefix: put before the notch's id, for a derived layer.
    """
    if not sides:
        return ()
    feet = np.array([side.at for side in sides])
    reach = np.array([widths[names[side.edge]] for side in sides])
    normals = np.array([side.normal for side in sides])
    tips = feet + reach[:, None] * normals
    ring = LinearRing(cut_line)
    for k in np.flatnonzero(shapely.distance(ring, shapely.points(tips)) > TOLERANCES.allowance):
        tips[k] = _carried(feet[k], normals[k], float(reach[k]), ring)
    return tuple(
        NotchMark(prefix + side.notch.id, names[side.edge], as_point(foot), as_point(tip), side.notch.count)
        for side, foot, tip in zip(sides, feet, tips, strict=True)
    )


def _carried(foot: Array, normal: Array, reach: float, ring: LinearRing) -> Array:
    """The first place on the cut line beyond the allowance, straight out from the stitch line."""
    ray = LineString([foot + reach * normal, foot + TOLERANCES.extent * normal])
    hits = shapely.get_coordinates(shapely.intersection(ray, ring))
    beyond = (hits - foot) @ normal
    return foot + (float(beyond.min()) if len(beyond) else reach) * normal
