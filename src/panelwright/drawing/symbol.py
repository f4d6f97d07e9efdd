"""Small signs of the trade, as paths: arrow heads, the cross in a circle, buttons, the diamond that joins tiles."""

import numpy as np
from numpy.typing import ArrayLike

from panelwright.drawing.path import Path
from panelwright.geometry.arrays import Array, unit
from panelwright.pattern.mark import MarkKind


def arrow_head(tip: ArrayLike, direction: Array, length: float) -> Path:
    """A slim closed arrow head whose point is at `tip` and looks along `direction`."""
    point, along = np.asarray(tip, float), unit(np.asarray(direction, float))
    across = 0.28 * length * np.array([-along[1], along[0]])
    back = point - length * along
    return Path.polyline([point, back + across, point - 0.75 * length * along, back - across], closed=True)


def cross_in_circle(centre: ArrayLike, radius: float) -> Path:
    """The bust point: a circle with an upright cross that reaches a little beyond it."""
    x, y = np.asarray(centre, float)
    reach = 1.45 * radius
    return Path.together(
        [
            Path.circle((x, y), radius),
            Path.polyline([(x - reach, y), (x + reach, y)]),
            Path.polyline([(x, y - reach), (x, y + reach)]),
        ]
    )


def mark_sign(kind: MarkKind, centre: ArrayLike, radius: float) -> Path:
    """The sign of a mark: a point, a small circle to drill, a button with its two holes, an eyelet."""
    middle = np.asarray(centre, float)
    small = Path.circle(middle, 0.45 * radius)
    match kind:
        case "point":
            return cross_in_circle(middle, radius)
        case "drill":
            return small
        case "button":
            holes = (Path.circle(middle + np.array([side * 0.3 * radius, 0.0]), 0.15 * radius) for side in (-1, 1))
            return Path.together([Path.circle(middle, radius), *holes])
        case "eyelet":
            return Path.together([small, Path.circle(middle, 0.9 * radius)])


def diamond(centre: ArrayLike, half_width: float, half_height: float) -> Path:
    """A diamond with its four corners on the axes through its centre."""
    x, y = np.asarray(centre, float)
    return Path.polyline(
        [(x + half_width, y), (x, y + half_height), (x - half_width, y), (x, y - half_height)], closed=True
    )
