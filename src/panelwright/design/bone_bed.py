"""The bed of a bone: the strip of a piece that it lies on, and how far a bone may reach along it."""

from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from math import ceil
from typing import Final

import numpy as np
import shapely
from shapely import Polygon

from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.geometry.trace import trace
from panelwright.pattern.piece import Piece

SAMPLE: Final = 1.0  # mm between the places of a path that are looked at
ACROSS: Final = 5  # places across a bed
STRIDE: Final = 8  # samples between those that are measured first
LONGEST_CUBIC: Final = 30.0  # mm of a line beside the path that one cubic draws

Stretch = tuple[float, float]

# A place beside a path moves faster than the path where it bends: by less than half again, for beds are narrow.
_FARTHEST_BETWEEN: Final = 1.5 * STRIDE * SAMPLE


@dataclass(frozen=True)
class Bed:
    """A strip along a path on a piece.

    Attributes:
        piece: the piece.
        path: in the piece's coordinates, upwards.
        left, right: how far the strip reaches to the left and to the right of the path, seen along it, mm.
        line: the line that the path runs along; edges on it are no obstacle. Empty: every edge is one.
        limit: arc position on the path above which no bone goes, or None.
    """

    piece: Piece
    path: Curve
    left: float
    right: float
    line: str = ""
    limit: float | None = None

    def stretch(self, clearance: float) -> Stretch | None:
        """The longest of `stretches`, or None where there is none."""
        return max(self.stretches(clearance), key=lambda part: part[1] - part[0], default=None)

    def stretches(self, clearance: float) -> list[Stretch]:
        """(low, high) on the path, mm, from the lowest up: every stretch where the strip's whole width lies in the
        piece and at least `clearance` from its edges."""
        top = self.path.length if self.limit is None else self.limit
        return [(low, min(high, top)) for low, high in self._free(clearance) if low < top]

    def whole(self, place: float) -> Stretch:
        """(low, high) on the path, mm: from stitched edge to stitched edge, or to the limit, around a place."""
        thin = replace(self, left=0.0, right=0.0)
        top = self.path.length if self.limit is None else self.limit
        low, high = next((part for part in thin._free(0.0) if part[0] <= place <= part[1]), (0.0, top))
        return low, min(high, top)

    def _free(self, clearance: float) -> list[Stretch]:
        """All such stretches from the lowest up, without the limit."""
        room, arcs = self._room(clearance) - clearance, self._arcs
        free = room >= -TOLERANCES.same_point
        starts = np.flatnonzero(free & ~np.concatenate([[False], free[:-1]]))
        ends = np.flatnonzero(free & ~np.concatenate([free[1:], [False]]))
        return [
            (_crossing(arcs, room, int(a), int(a) - 1), _crossing(arcs, room, int(b), int(b) + 1))
            for a, b in zip(starts, ends, strict=True)
        ]

    @cached_property
    def _arcs(self) -> Array:
        return np.linspace(0.0, self.path.length, max(2, ceil(self.path.length / SAMPLE) + 1))

    def _room(self, clearance: float) -> Array:
        """At each place along the path, the least distance of the strip from an edge; below 0 outside the piece.

        Where it is plain that the strip lies farther in than the clearance, a distance that it has at least.
        """
        across = np.linspace(-self.left, self.right, ACROSS if self.left + self.right else 1)
        points = self._beside(self._arcs, across)
        outline = shapely.buffer(self.piece.outline, TOLERANCES.seam)
        inside = shapely.contains_xy(outline, points[..., 0], points[..., 1])
        room = np.empty(len(points))
        first = np.append(np.arange(0, len(points) - 1, STRIDE), len(points) - 1)
        room[first] = self._away(points[first]).min(axis=1)
        least = np.minimum(room[first][:-1], room[first][1:]) - _FARTHEST_BETWEEN
        whole = np.array([inside[a : b + 1].all() for a, b in pairwise(first)])
        plain = whole & (least > clearance)
        spread = np.repeat(np.arange(len(plain)), np.diff(first))
        between = np.setdiff1d(np.arange(len(points)), first)
        room[between] = least[spread[between]]
        close = np.flatnonzero(np.append(~plain[spread], not plain[-1]) | ~inside.all(axis=1))
        room[close] = np.where(inside[close], (away := self._away(points[close])), -away).min(axis=1)
        return room

    def _away(self, points: Array) -> Array:
        """Distance of each of the points, shape (n, across, 2), from the nearest edge."""
        edges = [edge for edge in self.piece.edges if edge.line != self.line or not self.line]
        flat = points.reshape(-1, 2)
        away: Array = np.min([trace(edge.curve).nearest(flat)[0] for edge in edges], axis=0)
        return away.reshape(points.shape[:2])

    def _beside(self, arcs: Array, across: Array) -> Array:
        """Places of the strip, shape (arcs, across, 2); `across` counts to the right of the path."""
        drawn = trace(self.path)
        points, rights = drawn.at(arcs * drawn.length / self.path.length)
        return points[:, None] + across[None, :, None] * rights[:, None]

    def area(self, low: float, high: float) -> Polygon:
        """What the strip covers between two places of the path."""
        arcs = np.linspace(low, high, max(2, ceil((high - low) / SAMPLE) + 1))
        sides = self._beside(arcs, np.array([-self.left, self.right]))
        return Polygon(np.concatenate([sides[:, 0], sides[::-1, 1]]))

    def parallel(self, low: float, high: float, right: float) -> Curve:
        """The line that runs `right` mm to the right of the path between two places of it (left: negative)."""
        arcs = np.linspace(low, high, max(2, ceil((high - low) / LONGEST_CUBIC) + 1))
        if len(self.path.cubics) == 1 and _is_straight(self.path):
            arcs = arcs[[0, -1]]
        frames = [self.path.frame(float(arc)) for arc in arcs]
        points = np.array([point + right * np.array([way[1], -way[0]]) for point, way in frames])
        ways = np.array([way for _, way in frames])
        third = np.linalg.norm(np.diff(points, axis=0), axis=1)[:, None] / 3
        cubics = [points[:-1], points[:-1] + third * ways[:-1], points[1:] - third * ways[1:], points[1:]]
        return Curve(np.stack(cubics, axis=1))


def _is_straight(path: Curve) -> bool:
    return abs(path.length - float(np.linalg.norm(path.chord))) < TOLERANCES.same_point


def _crossing(arcs: Array, room: Array, free: int, shut: int) -> float:
    """Where the room comes to nothing between a free place and its neighbour that is not."""
    if not 0 <= shut < len(arcs):
        return float(arcs[free])
    share = room[free] / (room[free] - room[shut])
    return float(arcs[free] + share * (arcs[shut] - arcs[free]))
