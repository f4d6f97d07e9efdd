"""How a curve is drawn by hand: points square to a ruler laid from its start to its end."""

from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import Final

import numpy as np
from scipy.interpolate import PchipInterpolator, make_interp_spline

from panelwright.geometry.arrays import Array, cross, unit
from panelwright.geometry.curve import Curve

# A line that bends less is drawn with the ruler, mm on paper.
STRAIGHT: Final = 0.15
# The points are enough if hands of several habits stay by the curve, mm on paper: two that swing through them
# (cubic splines, free and held at their ends), one that never swings beyond a point, and one that only uses the ruler.
NEAR: Final = 0.15
NEAR_CAUTIOUS: Final = 0.3
NEAR_STRAIGHT: Final = 0.4
# Between points along the ruler, mm on paper; the widest that is near enough is taken.
SPACINGS: Final = (30.0, 25.0, 20.0, 15.0, 10.0, 5.0, 2.5)
MOST_POINTS: Final = 18
# Points nearer to one another than this are left out where they are not needed, mm on paper.
EVEN: Final = 10.0
MOST_RATIO: Final = 3.0
# A last point nearer to the end of the ruler than this share of a space is left out.
LAST_SHARE: Final = 0.35
# The curve leaves the ruler's direction by no more than about 60°.
LEAST_ADVANCE: Final = 0.5
# A stretch that is shorter is straight, mm on paper.
LEAST_LENGTH: Final = 1.5
# The last part of a curve in several parts is at least so long, mm on paper.
LAST_PART: Final = 3.0
FINE: Final = 0.004
READ: Final = 1  # places after the point of a length in mm on paper


@dataclass(frozen=True)
class Guide:
    """A curve's points on paper, mm.

    Attributes:
        curve: what is drawn.
        points: (along the ruler from the curve's start, square to it: above 0 to the left as one looks to the
            curve's end); none for a straight line.
    """

    curve: Curve
    points: tuple[tuple[float, float], ...]

    @property
    def feet(self) -> Array:
        """Where the points' distances begin on the ruler, shape (n, 2)."""
        placed: Array = self.curve.start + np.outer(self._given[:, 0], unit(self.curve.chord))
        return placed

    @property
    def places(self) -> Array:
        """Where the points lie, shape (n, 2)."""
        along = unit(self.curve.chord)
        placed: Array = self.feet + np.outer(self._given[:, 1], [-along[1], along[0]])
        return placed

    @property
    def _given(self) -> Array:
        return np.array(self.points).reshape(-1, 2)


def guides(curve: Curve) -> list[Guide]:
    """The guides of a curve on paper, one after another: one where a ruler from end to end will do."""
    single = guide(curve)
    if single is not None:
        return [single]
    cuts = _cuts(curve)
    if len(cuts) > 1:  # fewer may do from the other end
        backwards = [curve.length - cut for cut in _cuts(curve.reversed())][::-1]
        cuts = backwards if 0 < len(backwards) < len(cuts) else cuts
    parts = [curve.between(low, high) for low, high in pairwise([0.0, *cuts, curve.length])]
    return [found for part in parts for found in guides(part)]


def guide(curve: Curve) -> Guide | None:
    """The guide along the chord, or None where the curve turns too far from it or needs too many points."""
    found = _row(curve)
    if found is None:
        return None
    kept = found.needed
    points = tuple(zip(found.stations[kept].tolist(), found.offsets[kept].tolist(), strict=True))
    return Guide(curve, points) if len(points) <= MOST_POINTS else None


@dataclass(frozen=True, eq=False)
class _Row:
    """Points beside a ruler that are enough for a curve.

    Attributes:
        along, off: of the curve itself: places along the ruler and distances from it, shape (n,).
        stations, offsets: the same of the points; none for a straight line.
    """

    along: Array
    off: Array
    stations: Array
    offsets: Array

    @cached_property
    def needed(self) -> list[int]:
        """Which points cannot be left out: where a curve is nearly straight between bends, few are needed."""
        return self._thinned(enough=1)

    def is_short(self) -> bool:
        """Whether it has no more points than a guide may have, told sooner than which."""
        return len(self._thinned(enough=MOST_POINTS)) <= MOST_POINTS

    def _thinned(self, enough: int) -> list[int]:
        """The points, one after another left out where it will do, until they are few enough."""
        kept = list(range(len(self.stations)))
        if len(kept) < 2 or self.stations[1] - self.stations[0] >= EVEN:
            return kept
        for k in range(len(self.stations)):
            if len(kept) <= enough:
                break
            fewer = [other for other in kept if other != k]
            if self._will_do(fewer):
                kept = fewer
        return kept

    def _will_do(self, kept: list[int]) -> bool:
        stations = self.stations[kept]
        return _spread(stations, self.along[-1]) and _near(self.along, self.off, stations, self.offsets[kept])


@lru_cache(maxsize=64)  # the parts that a curve is cut into have been tried before
def _row(curve: Curve) -> _Row | None:
    """The evenly spaced points along the chord, as wide apart as will do; None where none will."""
    along, off, steep = _off_the_chord(curve)
    if curve.length < LEAST_LENGTH or (np.abs(off).max() <= STRAIGHT and not steep):
        return _Row(along, off, np.zeros(0), np.zeros(0))
    if steep:
        return None
    for spacing in SPACINGS:
        stations = np.arange(spacing, along[-1] - LAST_SHARE * spacing, spacing)
        offsets = np.round(np.interp(stations, along, off), READ)
        if len(stations) and _near(along, off, stations, offsets):
            return _Row(along, off, stations, offsets)
    return None


def _spread(stations: Array, end: float) -> bool:
    """Whether no gap between points is many times as wide as the one beside it: a hand would lose its way there."""
    gaps = np.diff([0.0, *stations, end])
    ratios = gaps[1:] / gaps[:-1]
    return bool(np.maximum(ratios, 1 / ratios).max() <= MOST_RATIO)


def _near(along: Array, off: Array, stations: Array, offsets: Array) -> bool:
    """Whether a hand that draws a smooth line through the points stays by the curve."""
    xs, ys = np.array([0.0, *stations, along[-1]]), np.array([0.0, *offsets, 0.0])
    if np.abs(np.interp(along, xs, ys) - off).max() > NEAR_STRAIGHT:
        return False
    free = min(3, len(xs) - 1)
    if np.abs(make_interp_spline(xs, ys, bc_type="natural", check_finite=False)(along) - off).max() > NEAR:
        return False
    if np.abs(make_interp_spline(xs, ys, free, check_finite=False)(along) - off).max() > NEAR:
        return False
    return bool(np.abs(PchipInterpolator(xs, ys)(along) - off).max() <= NEAR_CAUTIOUS)


def _cuts(curve: Curve) -> list[float]:
    """Where a curve is cut so that each part but the last is as long as one guide can be, mm from its start."""
    cuts = [0.0]
    while not _is_one(curve.between(cuts[-1], curve.length)):
        low, high = cuts[-1] + LEAST_LENGTH / 2, curve.length
        while high - low > 0.25:
            middle = (low + high) / 2
            fits = _is_one(curve.between(cuts[-1], middle))
            low, high = (middle, high) if fits else (low, middle)
        cuts.append(min(low, curve.length - LAST_PART) if curve.length - cuts[-1] > 2 * LAST_PART else low)
    return cuts[1:]


def _is_one(curve: Curve) -> bool:
    """Whether a curve has a guide."""
    found = _row(curve)
    return found is not None and found.is_short()


def _off_the_chord(curve: Curve) -> tuple[Array, Array, bool]:
    """(places along the chord, distances to its left, whether the curve turns too far from it)."""
    points = curve.polyline(FINE)
    chord = curve.chord
    span = float(np.hypot(*chord))
    if span < 0.3 * curve.length:
        return np.zeros(1), np.full(1, np.inf), True
    way = points - curve.start
    along, off = way @ chord / span, cross(chord, way) / span
    legs = np.linalg.norm(np.diff(points, axis=0), axis=1)
    steep = bool((np.diff(along) < LEAST_ADVANCE * legs - 1e-12).any())
    return along, off, steep
