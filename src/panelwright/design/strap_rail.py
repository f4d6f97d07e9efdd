"""The two edges of a strap that grows out of its panels: from the shoulder down to the top edge, into which they run.

Every curve here runs downwards, from the shoulder to the top edge.
"""

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.optimize import brentq

from panelwright.design.strap_panel import StrapPanel
from panelwright.errors import DesignError
from panelwright.file_words import in_file
from panelwright.geometry.arrays import Array, cross, turn, unit
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement

AT_SHOULDER, AT_FOOT = 0.25, 0.33  # shares of a strap's length over which it keeps its directions
LEAST_ROUNDING: Final = 8.0  # mm
SQUARE: Final = math.sin(math.radians(3.0))
MAKE_ROOM: Final = (
    "make the strap narrower, also at its foot, move it along the shoulder, or lead the "
    f"princess seam to the armhole{in_file('block.front_princess_to and block.back_princess_to, armhole')}"
)
NODES: Final = 5  # of a rail that follows a seam line
CLEAR: Final = 22.0  # mm of top edge that stay between a strap and the next seam: less cannot be sewn with allowances
AT_CENTRE, AT_POINT = 15.0, 30.0  # mm of it that stay between a strap and the centre, or a point there
SHARP_HELD: Final = 35.0  # mm over which a strap keeps its direction at such a corner
FLARE: Final = 0.6  # of that stretch, by which the foot moves for each unit of turning
TIGHTEST: Final = 18.0  # mm: radius of a rounding below which strap and top edge meet like a corner
LEAST_SHARP: Final = math.radians(105.0)  # least angle between strap and top edge in a corner that is not rounded off
NEAR_CORNER: Final = 15.0  # mm: a rounding that ends nearer to a corner of the top edge runs on as far past it
LEAST_CROSSING: Final = math.radians(18.0)  # between top edge and strap
MOST_BACK: Final = math.radians(10.0)  # by which a top edge may be steeper than the strap that stands on it


@dataclass(frozen=True)
class Top:
    """The top edge of one panel as a strap sees it: places are arc positions outwards, laid where the panel is laid."""

    panel: StrapPanel
    laid: Placement

    def at(self, arc: float) -> tuple[Array, Array]:
        """(place, outward direction)."""
        point, way = self.panel.top.frame(arc)
        return self.laid.points(point), self.laid.vectors(way)

    @property
    def length(self) -> float:
        """mm."""
        return self.panel.top.length

    @property
    def from_centre(self) -> float:
        """mm of the top edge that stay clear at the centre: more where it has a point there, whose allowances lie on
        each other."""
        upright = self.panel.rest[-1].curve.end_tangent
        return AT_CENTRE if abs(float(upright @ self.panel.top.start_tangent)) < SQUARE else AT_POINT


@dataclass(frozen=True)
class Axis:
    """The middle of a strap, straight: where it starts at the shoulder and where it stands on the top edge.

    Attributes:
        start, foot: shape (2,), mm.
    """

    start: Array
    foot: Array

    @property
    def way(self) -> Array:
        """Unit direction downwards."""
        return unit(self.foot - self.start)

    @property
    def length(self) -> float:
        """mm."""
        return float(np.linalg.norm(self.foot - self.start))


@dataclass(frozen=True)
class Landing:
    """Where one edge of a strap runs into a top edge.

    Attributes:
        rail: from the shoulder to the top edge, as if it met it in a corner.
        curve: the edge as it is drawn.
        arc: where it joins the top edge.
    """

    rail: Curve
    curve: Curve
    arc: float


def foot_arc(top: Top, axis: Axis, off: float, near: float) -> float:
    """Where the top edge lies `off` mm beside the axis (outwards above 0), looked for from `near`.

    Raises:
        DesignError: if it does not on this panel.
    """

    def apart(arc: float) -> float:
        return float(cross(top.at(arc)[0] - axis.foot, axis.way)) - off

    low, high = max(0.0, near - 3 * abs(off) - 1.0), min(top.length, near + 3 * abs(off) + 1.0)
    if apart(low) * apart(high) > 0:
        raise DesignError(f"its foot has no room on the top edge; {MAKE_ROOM}")
    return float(brentq(apart, low, high, xtol=1e-6))


def rail(start: Array, down: Array, foot: Array, way: Array, length: float, held: float | None) -> Curve:
    """One cubic from the shoulder, which it leaves in the direction `down`, to the top edge.

    Args:
        start, down: place and unit direction at the shoulder.
        foot, way: the same at the top edge.
        length: of the strap, mm.
        held: mm over which it keeps its direction at the top edge; None: a share of the length.
    """
    reach = AT_FOOT * length if held is None else held
    return Curve(np.array([[start, start + AT_SHOULDER * length * down, foot - reach * way, foot]]))


def arriving(way: Array, along: Array, rounding: float | None) -> tuple[Array, float]:
    """(direction in which an edge comes down on the top edge, mm by which its foot moves outwards for that).

    A corner, or a tight rounding, opens by 105 degrees or more, so that its allowances can be clipped and turned: the
    strap widens a little at its foot.

    Args:
        way: of the strap there, downwards.
        along: of the top edge, away from the strap.
        rounding: mm before the corner, or None.
    """
    opening = turn(-way, along)
    lacking = LEAST_SHARP - abs(opening)
    if lacking <= 0 or (rounding or 0.0) * math.tan(abs(opening) / 2) > TIGHTEST:
        return way, 0.0
    c, s = math.cos(lacking), -math.sin(lacking) * math.copysign(1.0, opening)
    turned = np.array([c * way[0] - s * way[1], s * way[0] + c * way[1]])
    return turned, FLARE * SHARP_HELD * math.sin(lacking)


def beside(seam: Curve, start: Array, down: Array, foot: tuple[Array, Array], widths: tuple[float, float]) -> Curve:
    """A rail that follows a seam line.

    Args:
        seam: downwards, from the shoulder to the top edge.
        start, down: where the rail starts at the shoulder, and in which direction.
        foot: where it ends, and in which direction.
        widths: of the strap on this side of the seam, at the shoulder and at the foot, mm; outwards above 0.
    """
    shares = np.linspace(0.0, 1.0, NODES)
    points, ways = (np.array(found) for found in zip(*(seam.frame(k * seam.length) for k in shares), strict=True))
    off = widths[0] + (widths[1] - widths[0]) * shares
    points = points + off[:, None] * np.column_stack([ways[:, 1], -ways[:, 0]])
    points[0], ways[0] = start, down
    points[-1], ways[-1] = foot
    reach = np.linalg.norm(np.diff(points, axis=0), axis=1)[:, None] / 3
    a, b = points[:-1] + reach * ways[:-1], points[1:] - reach * ways[1:]
    return Curve(np.stack([points[:-1], a, b, points[1:]], axis=1))


def landed(
    edge: Curve, top: Top, foot: float, outwards: bool, rounding: float | None, room: tuple[float, float]
) -> Landing:
    """The edge with its foot rounded off into the top edge.

    Args:
        edge: down to `foot`.
        top: the top edge that it runs into.
        foot: arc position of its end.
        outwards: whether it runs on outwards (the armhole side) or inwards.
        rounding: mm along both edges from their corner; None leaves the corner.
        room: arc positions between which it may touch the top edge.

    Raises:
        DesignError: if there is no room for it.
    """
    way = 1.0 if outwards else -1.0
    _refuse_shallow(edge, top, foot, way)
    if rounding is None:
        if not room[0] <= foot <= room[1]:
            raise DesignError(f"its foot lies too near to a seam or to the centre; {MAKE_ROOM}")
        return Landing(edge, edge, foot)
    arc, back = _setback(edge, top, foot, way, rounding, room)
    upper = edge.split(edge.length - back)[0]
    point, along = top.at(arc)
    return Landing(edge, upper.joined(_fillet(upper.end, upper.end_tangent, point, way * along, edge.end)), arc)


def _refuse_shallow(edge: Curve, top: Top, foot: float, way: float) -> None:
    """A strap that lies along the top edge would be cut off by it."""
    turning = -way * turn(edge.end_tangent, way * top.at(foot)[1])
    if not -MOST_BACK < turning < math.pi - LEAST_CROSSING:
        raise DesignError("it would run along the top edge instead of standing on it; move its foot")


def _setback(
    edge: Curve, top: Top, foot: float, way: float, rounding: float, room: tuple[float, float]
) -> tuple[float, float]:
    """(arc on the top edge, mm from the edge's end) where the rounding starts and ends."""
    reach = min(rounding, edge.length / 3)
    ahead = sorted((way * (corner - foot), corner) for corner in top.panel.corners if way * (corner - foot) > 0)
    arc = foot + way * reach
    if ahead and ahead[0][0] <= reach + NEAR_CORNER:
        after = ahead[1][0] if len(ahead) > 1 else way * ((top.length if way > 0 else 0.0) - foot)
        arc = ahead[0][1] + way * min(NEAR_CORNER, (after - ahead[0][0]) / 2)
    arc = min(max(arc, room[0]), room[1])
    opening = abs(turn(-edge.end_tangent, way * top.at(foot)[1]))
    is_tight = abs(arc - foot) * math.tan(opening / 2) < TIGHTEST and opening < LEAST_SHARP - SQUARE
    if way * (arc - foot) < LEAST_ROUNDING or is_tight:
        raise DesignError(f"there is no room to round its foot off into the top edge; {MAKE_ROOM}")
    return arc, min(abs(arc - foot), edge.length / 3)


def _fillet(start: Array, leaving: Array, end: Array, arriving: Array, corner: Array) -> Curve:
    """One cubic like an arc of a circle that leaves and arrives in two directions."""
    angle = max(abs(turn(leaving, arriving)), 1e-3)
    share = 4 / 3 * math.tan(angle / 4) / math.tan(angle / 2) if angle < math.pi / 2 * 1.9 else 0.4
    most = 0.5 * float(np.linalg.norm(end - start))
    a, b = (min(most, share * float(np.linalg.norm(corner - point))) for point in (start, end))
    return Curve(np.array([[start, start + a * leaving, end - b * arriving, end]]))
