"""How long a strap is over this wearer's shoulder: a taut tape over the body, as the block lies on it."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Final

import numpy as np
from scipy.interpolate import LinearNDInterpolator

from panelwright.design.shoulder_needed import SHOULDER_NEEDED
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array
from panelwright.pattern import line as lines
from panelwright.pattern.panel_on_body import PanelOnBody
from panelwright.pattern.pattern import Pattern

SAMPLES: Final = 60  # places looked at on the way from an edge to the shoulder
NECK_SAMPLES: Final = 25
BODIES_KEPT: Final = 8
MIRROR: Final = np.array([-1.0, 1.0, 1.0])
LENGTH_NEEDED: Final = (
    "its length is reckoned on the body, and a block read off paper has none under it: measure it with a tape and give "
    "the length"
)


@dataclass(frozen=True, eq=False)
class WornBlock:
    """A block to the shoulder on its wearer.

    Attributes:
        full: the block up to the shoulder.
        body: its panels on the wearer.
        front, back: how far before the wearer's middle each half of the surface lies, at (x, z).
    """

    full: Pattern
    body: tuple[PanelOnBody, ...]
    front: LinearNDInterpolator
    back: LinearNDInterpolator

    def place(self, panel: str, point: Array) -> Array:
        """Where a place of a flat panel lies on the wearer, shape (3,), mm."""
        grid = next(each for each in self.body if each.panel == panel)
        found: Array = grid.in_space(point[None])[0]
        return found

    def shoulder(self, along: float) -> Array:
        """The place so far along the shoulder from the side neck point, on the wearer."""
        edges = sorted(
            (
                (edge.interval, piece.id, edge)
                for piece, edge in self.full.pieces_on_line(lines.SHOULDER)
                if edge.along_line
            ),
            key=lambda each: each[0],
        )
        for _, panel, edge in edges:
            if along <= edge.curve.length + 1e-6:
                return self.place(panel, edge.curve.point(along))
            along -= edge.curve.length
        raise DesignError("it would lie beyond the shoulder; move it towards the neck")

    def over(self, start: Array, end: Array) -> float:
        """Length of the `way_over` from a place on the front or back up to a place on the shoulder, mm."""
        return length_of(self.way_over(start, end))

    def way_over(self, start: Array, end: Array) -> Array:
        """Where a taut tape lies from a place on the front or back up to a place on the shoulder, shape (n, 3), mm.

        Seen from the front or back the tape is straight; seen from the side it lies on the body where that is round
        and bridges it where it is hollow (the convex hull of the surface's outline there).
        """
        way = 1.0 if start[1] >= end[1] else -1.0
        surface = self.front if way > 0 else self.back
        share = np.linspace(0.0, 1.0, SAMPLES)[1:-1]
        x, z = start[0] + share * (end[0] - start[0]), start[2] + share * (end[2] - start[2])
        y = surface(np.column_stack([x, z]))
        known = np.isfinite(y)
        return _taut(np.vstack([start, np.column_stack([x, y, z])[known], end]), way)

    def neck_behind(self) -> float:
        """Length of half the neck base behind: from the side neck point to the nape, mm."""
        return length_of(self.neck_way_behind)

    @cached_property
    def neck_way_behind(self) -> Array:
        """The neck base behind, from one end of the back's neckline to the other, shape (n, 3), mm."""
        ((piece, edge),) = [found for found in self.full.pieces_on_line(lines.NECKLINE) if found[0].id == self._back]
        places = np.array([edge.curve.point(s * edge.curve.length) for s in np.linspace(0, 1, NECK_SAMPLES)])
        grid = next(each for each in self.body if each.panel == piece.id)
        return grid.in_space(places)

    @property
    def _back(self) -> str:
        return self.full.pieces_on_line(lines.CENTRE_BACK)[0][0].id


def length_of(way: Array) -> float:
    """Length of a way in space, shape (n, 3), mm."""
    return float(np.linalg.norm(np.diff(way, axis=0), axis=1).sum())


@lru_cache(maxsize=BODIES_KEPT)
def worn(block: Pattern) -> WornBlock:
    """The block on its wearer. The last few are kept.

    Raises:
        DesignError: if the block ends at the upper bust.
    """
    if block.to_shoulder is None or not block.body:
        raise DesignError(SHOULDER_NEEDED if block.body else LENGTH_NEEDED, "block")
    names = [panel.panel for panel in block.body]
    side = next(piece.id for piece, edge in block.pieces_on_line(lines.SIDE) if edge.side == "left")
    k = names.index(side)
    return WornBlock(block.to_shoulder, block.body, _surface(block.body[:k]), _surface(block.body[k:]))


def _surface(panels: Sequence[PanelOnBody]) -> LinearNDInterpolator:
    """How far before the middle the surface lies at (x, z), both halves of the body."""
    points = np.concatenate([panel.space.reshape(-1, 3) for panel in panels])
    points = np.concatenate([points, points * MIRROR])
    return LinearNDInterpolator(points[:, [0, 2]], points[:, 1])


def _taut(points: Array, way: float) -> Array:
    """Of a way up to the shoulder, the places that a taut tape touches: the hull of it, seen from the side.

    Args:
        points: from the lowest up, shape (n, 3).
        way: 1 where the body lies behind them, -1 where it lies before them.
    """
    kept: list[int] = []
    for k in range(len(points)):
        while len(kept) > 1 and way * _turn(*points[[kept[-2], kept[-1], k]]) <= 0:
            kept.pop()
        kept.append(k)
    taut: Array = points[kept]
    return taut


def _turn(a: Array, b: Array, c: Array) -> float:
    """Above 0 where the way a, b, c turns left in the plane of y to the right and z up."""
    u, v = b[1:] - a[1:], c[1:] - b[1:]
    return float(u[0] * v[1] - u[1] * v[0])
