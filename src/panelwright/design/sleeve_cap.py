"""The cap of a sleeve: its upper edge, from the underarm over the crown, trued to the armhole."""

from dataclasses import dataclass
from math import atan2
from typing import Final

import numpy as np
from scipy.optimize import brentq

from panelwright.errors import DesignError
from panelwright.geometry.arrays import direction
from panelwright.geometry.curve import Curve


@dataclass(frozen=True)
class CapShape:
    """How half a cap bends (common practice, from memory: hollower in front).

    Attributes:
        across, up: of the place where its hollow turns into its bow, as shares of width and height.
        steep: how much steeper it is there than straight from crown to underarm.
    """

    across: float
    up: float
    steep: float


FRONT: Final = CapShape(0.53, 0.46, 1.45)
BACK: Final = CapShape(0.57, 0.5, 1.35)
_REACH: Final = 0.4  # of the chord, of every handle


def half_cap(height: float, width: float, lean: float, shape: CapShape) -> Curve:
    """From the crown at (0, height) to the underarm at (width, 0), mm.

    It leaves the crown level and meets an underarm seam that leans inwards by `lean` radians at a right angle.
    """
    slope = atan2(-height * shape.steep, width)
    places = np.array([(0.0, height), (shape.across * width, shape.up * height), (width, 0.0)])
    ways = [direction(0.0), direction(slope), direction(-lean)]
    cubics = []
    for k in (0, 1):
        reach = _REACH * float(np.linalg.norm(places[k + 1] - places[k]))
        a, b = places[k] + reach * ways[k], places[k + 1] - reach * ways[k + 1]
        cubics.append([places[k], a, b, places[k + 1]])
    return Curve(np.array(cubics))


def trued_width(height: float, length: float, lean: float, shape: CapShape) -> float:
    """The width at which half a cap of that height is `length` mm long.

    Raises:
        DesignError: if it is too high for that.
    """

    def off(width: float) -> float:
        return half_cap(height, width, lean, shape).length - length

    if off(0.25 * length) >= 0:
        raise DesignError("its cap is too high for this armhole; make it lower")
    return float(brentq(off, 0.25 * length, length, xtol=1e-10))
