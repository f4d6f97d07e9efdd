"""The waist of half a skirt's front or back with the darts that open into it, from the centre to the side.

Sewn, the waist is one smooth line from a right angle at the centre to a right angle at the side seam. Each
dart is cut out of it square to it, both legs alike, so that its two angles add up to a straight line.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import asin, pi

import numpy as np
from scipy.optimize import brentq

from panelwright.geometry.arc import arc_from
from panelwright.geometry.arrays import Array, direction
from panelwright.geometry.curve import Curve

EARLY = (0.0, 1.0)


@dataclass(frozen=True)
class DartPlace:
    """A dart before its width is known.

    Attributes:
        at: share of the sewn waist, 0 at the centre.
        length: of its legs, mm.
        share: of the width of all darts together that it takes.
    """

    at: float
    length: float
    share: float


@dataclass(frozen=True)
class DartedWaist:
    """The waist as it is drawn, x from the centre towards the side.

    Attributes:
        parts: of the waist, from the centre.
        darts: (down, up): the legs of each, between the parts.
        widths: of the mouths, mm.
    """

    parts: tuple[Curve, ...]
    darts: tuple[tuple[Curve, Curve], ...]
    widths: tuple[float, ...]

    @property
    def end(self) -> Array:
        """The corner at the side."""
        return self.parts[-1].end


def darted_waist(girth: float, lean: float, places: Sequence[DartPlace], reach: float, rise: float) -> DartedWaist:
    """The waist that starts at (0, 0) at the centre and ends at the side.

    Args:
        girth: of the sewn waist, mm.
        lean: of the side seam off the upright where it ends there, radians.
        places: of the darts, from the centre; without any the end is what it comes to.
        reach: where it is to end, mm beside the centre.
        rise: by which it is to end above the centre, mm, as nearly as it can: the more of its turning lies beside the
            centre the higher.
    """
    if not places:
        return _drawn(girth, lean, (), 0.0, 1.0)

    def wide(early: float) -> DartedWaist:
        most = min(1.5 * (reach - girth) + 20.0, *(1.8 * place.length / place.share for place in places))
        width = brentq(lambda width: float(_drawn(girth, lean, places, width, early).end[0]) - reach, 0.0, most)
        return _drawn(girth, lean, places, float(width), early)

    low, high = (float(wide(early).end[1]) - rise for early in EARLY)
    if low * high > 0:
        return wide(EARLY[0] if abs(low) < abs(high) else EARLY[1])
    return wide(float(brentq(lambda early: float(wide(early).end[1]) - rise, *EARLY, xtol=1e-6)))


def _drawn(girth: float, lean: float, places: Sequence[DartPlace], width: float, early: float) -> DartedWaist:
    """With darts of that width together; before the last of them the waist turns `early` times as fast as evenly."""
    widths = tuple(width * place.share for place in places)
    angles = [2 * asin(wide / 2 / place.length) for wide, place in zip(widths, places, strict=True)]
    cuts = [0.0, *(place.at for place in places), 1.0]
    shares = [(high - low) * early for low, high in pairwise(cuts)]
    shares[-1] = 1.0 - sum(shares[:-1])
    at, heading = np.zeros(2), 0.0
    parts, darts = [], []
    for k, (low, high) in enumerate(pairwise(cuts)):
        turning = (lean + sum(angles)) * shares[k]
        parts.append(arc_from(at, heading, turning, girth * (high - low)))
        at, heading = parts[-1].end, heading + turning
        if k < len(places):
            point = at + places[k].length * direction(heading - pi / 2)
            heading -= angles[k]
            end = point + places[k].length * direction(heading + pi / 2)
            darts.append((Curve.straight(at, point), Curve.straight(point, end)))
            at = end
    return DartedWaist(tuple(parts), tuple(darts), widths)
