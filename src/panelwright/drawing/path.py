"""A path: what a pen runs along or a shade fills, made of straight lines and cubic Béziers."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array, frozen
from panelwright.geometry.curve import Curve

POINTS_OF = {"M": 1, "L": 1, "C": 3, "Z": 0}
# Four cubics with handles of 4/3 (√2 − 1) radii touch the circle at eight places and stay within 0.03 % of the radius.
_CIRCLE_HANDLE = 4 / 3 * (2**0.5 - 1)
_STEPS = np.linspace(0.0, 1.0, 13)[1:, None]


@dataclass(frozen=True, eq=False)
class Path:
    """A run of moves, mm.

    Attributes:
        codes: one letter a move: `M` start afresh at a point, `L` a straight line to a point, `C` a cubic
            by two handles to a point, `Z` close.
        points: shape (n, 2), what the letters use up in order: 1, 1, 3 and 0 points.

    Raises:
        GeometryError: if letters and points do not fit together.
    """

    codes: str
    points: Array

    def __post_init__(self) -> None:
        points = frozen(self.points)
        object.__setattr__(self, "points", points)
        needed = sum(POINTS_OF[code] for code in self.codes)
        if not self.codes.startswith("M") or points.shape != (needed, 2):
            raise GeometryError(f"a path of moves {self.codes[:20]} takes {needed} points, not {points.shape}")

    @classmethod
    def curve(cls, curve: Curve) -> "Path":
        """The cubics of a curve."""
        return cls("M" + "C" * len(curve.cubics), curve.points)

    @classmethod
    def polyline(cls, points: ArrayLike, closed: bool = False) -> "Path":
        """Straight lines through points, shape (n, 2)."""
        array = np.asarray(points, float)
        return cls("M" + "L" * (len(array) - 1) + ("Z" if closed else ""), array)

    @classmethod
    def box(cls, x: float, y: float, width: float, height: float) -> "Path":
        """The rectangle whose lower left corner is (x, y)."""
        return cls.polyline([(x, y), (x + width, y), (x + width, y + height), (x, y + height)], closed=True)

    @classmethod
    def circle(cls, centre: ArrayLike, radius: float) -> "Path":
        """A circle, by four cubics."""
        k = _CIRCLE_HANDLE
        quarter = [(1, k), (k, 1), (0, 1), (-k, 1), (-1, k), (-1, 0), (-1, -k), (-k, -1), (0, -1), (k, -1), (1, -k)]
        return cls("MCCCCZ", np.asarray(centre, float) + radius * np.array([(1, 0), *quarter, (1, 0)], float))

    @classmethod
    def together(cls, paths: Iterable["Path"]) -> "Path":
        """Several paths drawn as one."""
        several = list(paths)
        return cls("".join(path.codes for path in several), np.concatenate([path.points for path in several]))

    def moved(self, shift: Sequence[float]) -> "Path":
        """The path shifted by (x, y) mm."""
        return Path(self.codes, self.points + np.asarray(shift, float))

    def scaled(self, factor: float) -> "Path":
        """The path scaled about the origin."""
        return Path(self.codes, self.points * factor)

    @cached_property
    def bounds(self) -> tuple[float, float, float, float]:
        """(left, bottom, right, top) of the points and handles, mm: the path lies within."""
        low, high = self.points.min(axis=0), self.points.max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])

    @cached_property
    def polylines(self) -> tuple[Array, ...]:
        """One array of points (m, 2) for each `M`; every cubic in 12 steps, a closed run ends where it starts."""
        if self.codes == "M" + "L" * (len(self.codes) - 1):
            return (self.points,)
        runs: list[list[Array]] = []
        smooth, k, bends = self._smooth, 0, 0
        for code in self.codes:
            points, k = self.points[k : k + POINTS_OF[code]], k + POINTS_OF[code]
            if code == "M":
                runs.append([points])
            elif code == "L":
                runs[-1].append(points)
            elif code == "C":
                runs[-1].append(smooth[bends])
                bends += 1
            else:
                runs[-1].append(runs[-1][0][:1])
        return tuple(np.concatenate(run) for run in runs)

    @property
    def _smooth(self) -> Array:
        """Points along each of the n cubics, without its start, shape (n, 12, 2)."""
        ends = np.cumsum([POINTS_OF[code] for code in self.codes])
        last = ends[[code == "C" for code in self.codes]]
        a, b, c, d = (self.points[last - back, None] for back in (4, 3, 2, 1))
        t, s = _STEPS, 1 - _STEPS
        along: Array = s**3 * a + 3 * s * s * t * b + 3 * s * t * t * c + t**3 * d
        return along
