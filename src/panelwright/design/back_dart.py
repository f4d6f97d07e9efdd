"""The dart that takes up what two panels stand apart when they are joined."""

from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from shapely import LineString, Polygon

from panelwright.geometry.arrays import Array, cross
from panelwright.geometry.curve import Curve
from panelwright.pattern.mark import InsideLine

SAMPLES: Final = np.linspace(0.0, 1.0, 41)
FROM_EDGE: Final = 15.0  # mm between a dart's points and the edges of its piece
LEAST_DART, SHORTEST_DART = 4.0, 50.0  # mm wide and long; a smaller one is not worth sewing
STOUTEST: Final = 0.25  # width of a dart as a share of its length; a stouter one puckers at its points (own estimate)
WIDEST_WITHIN: Final = (0.15, 0.85)  # of its length; nearer a point it would pucker


@dataclass(frozen=True, eq=False)
class BackDart:
    """A dart with a point at both ends: two bent lines that are sewn on each other.

    Attributes:
        id: of its lines, which get a number each.
        low, high: its points, shape (2,).
        share: of the way from low to high where it is widest.
        width: there, mm.
    """

    id: str
    low: Array
    high: Array
    share: float
    width: float

    @property
    def lines(self) -> tuple[InsideLine, ...]:
        """Its two sides, upwards; they mirror each other, so they are of one length."""
        run = (self.high - self.low) / np.linalg.norm(self.high - self.low)
        across = self.width / 2 * np.array([run[1], -run[0]])
        middle = self.low + self.share * (self.high - self.low)
        return tuple(
            InsideLine(
                f"{self.id}-{k}", "dart", Curve.straight(self.low, corner).joined(Curve.straight(corner, self.high))
            )
            for k, corner in enumerate((middle + across, middle - across), 1)
        )

    def takes_up(self, point: Array, direction: Array) -> float:
        """How much of a straight line through `point` lies in the dart, mm, where the line crosses it about squarely.

        0 where it passes below or above.
        """
        run = self.high - self.low
        share = float(cross(point - self.low, direction) / cross(run, direction))
        return self.width * max(0.0, min(share / self.share, (1 - share) / (1 - self.share)))


@dataclass(frozen=True, eq=False)
class JoinGap:
    """What two edges leave between them when their ends are laid together.

    Attributes:
        label: which panels were joined, `Side back to centre back`.
        front, back: the two edges upwards, in the joined piece.
    """

    label: str
    front: Curve
    back: Curve

    @property
    def _rungs(self) -> tuple[Array, Array]:
        """(places half-way between the edges, (n, 2); how far apart they are there, below 0 where they lap, (n,))."""
        front, back = (np.array([c.point(s * c.length) for s in SAMPLES]) for c in (self.front, self.back))
        up = (front[-1] - front[0]) / np.linalg.norm(front[-1] - front[0])
        return (front + back) / 2, (back - front) @ np.array([-up[1], up[0]])

    @property
    def widest(self) -> float:
        """The gap where it is widest, mm; below 0 where the edges lap more than they gape."""
        _, apart = self._rungs
        return float(apart[np.abs(apart).argmax()])

    def dart(self, id: str, outline: Polygon) -> BackDart | None:
        """The dart that takes up the gap inside an outline, as wide as it may be; None where it is too little."""
        middles, apart = self._rungs
        room = shapely.buffer(outline, -FROM_EDGE)
        kept = shapely.intersection(room, LineString(middles))
        inside = shapely.contains_xy(room, middles[:, 0], middles[:, 1])
        if not inside.any() or shapely.length(kept) < SHORTEST_DART:
            return None
        ends = shapely.get_coordinates(max(shapely.get_parts(kept), key=shapely.length))
        low, run = ends[0], ends[-1] - ends[0]
        widest = int(np.where(inside, apart, -np.inf).argmax())
        share = float((middles[widest] - low) @ run / (run @ run))
        if apart[widest] < LEAST_DART or not WIDEST_WITHIN[0] < share < WIDEST_WITHIN[1]:
            return None
        return BackDart(id, low, ends[-1], share, min(float(apart[widest]), STOUTEST * float(np.linalg.norm(run))))
