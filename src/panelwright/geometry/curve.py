"""A curve: a chain of cubic Béziers measured by arc length.

Arc length is integrated with 16-point Gauss-Legendre per cubic: for the gentle cubics of a pattern
(turning less than about a right angle each) the error is below 1e-9 mm.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import Self

import numpy as np
from numpy.typing import ArrayLike

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array, cross, frozen
from panelwright.geometry.cubic import NODES, WEIGHTS, Cubic
from panelwright.geometry.placement import Placement
from panelwright.geometry.tolerances import TOLERANCES


@dataclass(frozen=True, eq=False)
class Curve:
    """A chain of n cubic Béziers, mm.

    Attributes:
        cubics: shape (n, 4, 2), read-only; each cubic starts exactly where the one before it ends.

    Raises:
        GeometryError: if a number is not finite, a cubic does not start where its neighbour ends,
            or the curve has no length.

    Two curves are equal when their numbers are. Arc positions run from 0 at `start` to `length` at `end`.

    >>> Curve.straight((0, 0), (30, 40)).length
    50.0
    """

    cubics: Array

    def __post_init__(self) -> None:
        cubics = frozen(self.cubics)
        object.__setattr__(self, "cubics", cubics)
        if cubics.ndim != 3 or cubics.shape[1:] != (4, 2) or not len(cubics):
            raise GeometryError(f"a curve is an array of cubics (n, 4, 2), not of shape {cubics.shape}")
        if not np.isfinite(cubics).all():
            raise GeometryError("a curve has a coordinate that is not a finite number")
        if len(cubics) > 1 and not np.array_equal(cubics[1:, 0], cubics[:-1, 3]):
            raise GeometryError("the cubics of a curve do not follow one another")
        # Most curves end elsewhere than they start, which is told sooner.
        closes = max(np.abs(cubics[-1, 3] - cubics[0, 0]).tolist()) < TOLERANCES.same_point
        if closes and np.ptp(cubics, axis=(0, 1)).max() < TOLERANCES.same_point:
            raise GeometryError("a curve has no length")

    @classmethod
    def from_points(cls, points: ArrayLike) -> Self:
        """The curve with Bézier points `points`, shape (3n+1, 2); neighbours share their joint."""
        array = np.asarray(points, float)
        if array.ndim != 2 or len(array) < 4 or len(array) % 3 != 1:
            raise GeometryError(f"a chain of cubics has 3n+1 points, not {len(array)}")
        return cls(np.stack([array[k : k + 4] for k in range(0, len(array) - 1, 3)]))

    @classmethod
    def straight(cls, start: ArrayLike, end: ArrayLike) -> Self:
        """One cubic along the straight line from `start` to `end`, at even speed."""
        a, b = np.asarray(start, float), np.asarray(end, float)
        return cls(np.array([[a, a + (b - a) / 3, a + (b - a) * 2 / 3, b]]))

    def __eq__(self, other: object) -> bool:
        if self is other:
            return True
        if not isinstance(other, Curve) or self.cubics.shape != other.cubics.shape:
            return False
        return bool((self.cubics == other.cubics).all())

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        return hash(self.cubics.tobytes())

    @property
    def start(self) -> Array:
        """Where the curve starts, shape (2,)."""
        point: Array = self.cubics[0, 0]
        return point

    @property
    def end(self) -> Array:
        """Where the curve ends, shape (2,)."""
        point: Array = self.cubics[-1, 3]
        return point

    @property
    def chord(self) -> Array:
        """The vector from start to end, mm."""
        return self.end - self.start

    @property
    def points(self) -> Array:
        """Bézier points, shape (3n+1, 2)."""
        return np.concatenate([self.cubics[0], *self.cubics[1:, 1:]])

    @cached_property
    def _knot_arcs(self) -> Array:
        """Arc position of each joint, shape (n+1,)."""
        speed = np.linalg.norm(_derivative(self.cubics[:, None], NODES[None, :]), axis=-1)
        return frozen(np.concatenate([[0.0], np.cumsum(speed @ WEIGHTS)]))

    @property
    def length(self) -> float:
        """Arc length, mm."""
        return float(self._knot_arcs[-1])

    @property
    def joints(self) -> Array:
        """Arc positions where one cubic ends and the next starts, the two ends among them, shape (n+1,)."""
        return self._knot_arcs

    @cached_property
    def _parts(self) -> dict[int, Cubic]:
        return {}

    def _part(self, k: int) -> Cubic:
        """Cubic k, made when it is first asked for one of its places."""
        part = self._parts.get(k)
        if part is None:
            part = self._parts[k] = Cubic.of(self.cubics[k])
        return part

    def _locate(self, arc: float) -> tuple[int, float]:
        """Index of the cubic at an arc position, and the parameter on it."""
        arcs = self._knot_arcs
        arc = min(max(float(arc), 0.0), self.length)
        k = min(max(int(np.searchsorted(arcs, arc, side="right")) - 1, 0), len(self.cubics) - 1)
        start, end = arcs[k : k + 2].tolist()
        return k, self._part(k).parameter(arc - start, end - start)

    def point(self, arc: float) -> Array:
        """The point at an arc position (held to 0 … length), shape (2,)."""
        if arc <= 0.0:
            return self.start
        if arc >= self.length:
            return self.end
        k, t = self._locate(arc)
        return _plane(self._part(k).value(t))

    def tangent(self, arc: float) -> Array:
        """The unit direction of travel at an arc position; at a joint, that of the cubic that follows."""
        k, t = self._locate(arc)
        return _plane(self._part(k).direction(t))

    def frame(self, arc: float) -> tuple[Array, Array]:
        """(point, unit direction of travel) at an arc position, for less than the two apart."""
        k, t = self._locate(arc)
        part = self._part(k)
        return _plane(part.value(t)), _plane(part.direction(t))

    @property
    def start_tangent(self) -> Array:
        """Unit direction of travel at the start; control points that lie on the start are passed over."""
        return _plane(self._part(0).direction(0.0))

    @property
    def end_tangent(self) -> Array:
        """Unit direction of travel at the end."""
        return _plane(self._part(len(self.cubics) - 1).direction(1.0))

    def curvature(self, arc: float) -> float:
        """Signed curvature at an arc position, 1/mm, positive where the curve turns left."""
        k, t = self._locate(arc)
        return self._part(k).curvature(t)

    def sharpest_bend(self, places: int) -> float:
        """The largest of the curvatures, without sign, at so many even parameters of every cubic, 1/mm."""
        cubics, t = self.cubics[:, None], np.linspace(0.0, 1.0, places)[None, :]
        d1, d2 = _derivative(cubics, t), _second_derivative(cubics, t)
        speed = np.linalg.norm(d1, axis=-1)
        return float(np.abs(cross(d1, d2) / np.maximum(speed**3, 1e-12)).max())

    def nearest(self, point: ArrayLike) -> tuple[float, float]:
        """(arc position, distance) of the curve's point nearest to `point`."""
        target = np.asarray(point, float)
        t = np.linspace(0.0, 1.0, 17)
        samples = _value(self.cubics[:, None], t[None, :])
        distances = np.linalg.norm(samples - target, axis=-1)
        k, i = divmod(int(distances.argmin()), len(t))
        found = [self._nearest_on(k, target, float(t[max(i - 1, 0)]), float(t[min(i + 1, len(t) - 1)]))]
        if i == len(t) - 1 and k + 1 < len(self.cubics):  # at a joint the nearest point may lie on either side
            found.append(self._nearest_on(k + 1, target, 0.0, float(t[1])))
        return min(found, key=lambda hit: hit[1])

    def _nearest_on(self, k: int, target: Array, low: float, high: float) -> tuple[float, float]:
        """(arc position, distance) of the nearest point on cubic k between two parameters."""
        part, place = self._part(k), complex(target[0], target[1])
        best = part.nearest(place, low, high)
        return float(self._knot_arcs[k]) + part.length(best), abs(part.value(best) - place)

    def split(self, arc: float) -> tuple[Self, Self]:
        """The parts before and after an arc position strictly inside the curve (de Casteljau: exact).

        Raises:
            GeometryError: if the position is not inside.
        """
        if not TOLERANCES.same_point < arc < self.length - TOLERANCES.same_point:
            raise GeometryError(f"a curve of {self.length:.3f} mm cannot be cut at {arc:.3f} mm")
        k, t = self._locate(arc)
        if t < 1e-9 and k:
            return type(self)(self.cubics[:k]), type(self)(self.cubics[k:])
        if t > 1 - 1e-9 and k + 1 < len(self.cubics):
            return type(self)(self.cubics[: k + 1]), type(self)(self.cubics[k + 1 :])
        first, second = _halves(self.cubics[k], t)
        before = np.concatenate([self.cubics[:k], first[None]])
        after = np.concatenate([second[None], self.cubics[k + 1 :]])
        return type(self)(before), type(self)(after)

    def between(self, start: float, end: float) -> Self:
        """The part from arc position `start` to `end`; reversed when `start` > `end`."""
        if start > end:
            return self.between(end, start).reversed()
        part = self
        if end < self.length - TOLERANCES.same_point:
            part = part.split(end)[0]
        if start > TOLERANCES.same_point:
            part = part.split(start)[1]
        return part

    def reversed(self) -> Self:
        """The same curve, run the other way."""
        return self._reversed

    @cached_property
    def _reversed(self) -> Self:
        other = type(self)(self.cubics[::-1, ::-1])
        other.__dict__["_reversed"] = self
        return other

    def placed(self, placement: Placement) -> Self:
        """The curve moved by a rigid placement."""
        return type(self)(placement.points(self.cubics))

    def scaled(self, factor: float) -> Self:
        """The curve scaled about the origin."""
        return type(self)(self.cubics * factor)

    def joined(self, other: "Curve") -> Self:
        """This curve and then `other`, which must start where this one ends (it is snapped there)."""
        gap = float(np.linalg.norm(other.start - self.end))
        if gap > TOLERANCES.same_point:
            raise GeometryError(f"two curves cannot be joined across a gap of {gap:.6f} mm")
        after = other.cubics.copy()
        after[0, 0] = self.end
        return type(self)(np.concatenate([self.cubics, after]))

    def ending_at(self, start: ArrayLike | None = None, end: ArrayLike | None = None) -> Self:
        """The same curve with its ends put exactly on given points (for corners that two edges share)."""
        if (start is None or (self.start == start).all()) and (end is None or (self.end == end).all()):
            return self
        cubics = self.cubics.copy()
        if start is not None:
            cubics[0, 0] = start
        if end is not None:
            cubics[-1, 3] = end
        return type(self)(cubics)

    def polyline(self, tolerance: float = TOLERANCES.polyline) -> Array:
        """Points on the curve, shape (m, 2), read-only, whose chords stay within `tolerance` mm of it.

        Each cubic is cut into n equal parameter steps, n from the bound |B''| / 8n² on the chord error.
        """
        known = self._polylines.get(tolerance)
        if known is None:
            known = self._polylines[tolerance] = frozen(self._sampled(tolerance))
        return known

    @cached_property
    def _polylines(self) -> dict[float, Array]:
        return {}

    def _sampled(self, tolerance: float) -> Array:
        c = self.cubics
        bend = 6 * np.linalg.norm(c[:, 2:] - 2 * c[:, 1:-1] + c[:, :-2], axis=-1).max(axis=-1)
        counts = np.maximum(1, np.ceil(np.sqrt(bend / (8 * tolerance)))).astype(int)
        if counts.max() == 1:  # straight, or nearly so
            return np.concatenate([c[:, 0], self.end[None]])
        which = np.repeat(np.arange(len(counts)), counts)
        first = np.repeat(np.cumsum(counts) - counts, counts)
        t = (np.arange(len(which)) - first) / counts[which]
        return np.concatenate([_value(self.cubics[which], t), self.end[None]])


def _value(cubics: Array, t: Array) -> Array:
    s = 1 - t[..., None]
    r = t[..., None]
    return (
        s**3 * cubics[..., 0, :]
        + 3 * s * s * r * cubics[..., 1, :]
        + 3 * s * r * r * cubics[..., 2, :]
        + r**3 * cubics[..., 3, :]
    )


def _derivative(cubics: Array, t: Array) -> Array:
    d = 3 * (cubics[..., 1:, :] - cubics[..., :-1, :])
    s, r = 1 - t[..., None], t[..., None]
    return s * s * d[..., 0, :] + 2 * s * r * d[..., 1, :] + r * r * d[..., 2, :]


def _second_derivative(cubics: Array, t: Array) -> Array:
    d = 6 * (cubics[..., 2:, :] - 2 * cubics[..., 1:-1, :] + cubics[..., :-2, :])
    return (1 - t[..., None]) * d[..., 0, :] + t[..., None] * d[..., 1, :]


def _halves(cubic: Array, t: float) -> tuple[Array, Array]:
    """De Casteljau at t: the two cubics, sharing their joint exactly."""
    a = cubic[:-1] + t * np.diff(cubic, axis=0)
    b = a[:-1] + t * np.diff(a, axis=0)
    c = b[0] + t * (b[1] - b[0])
    return np.array([cubic[0], a[0], b[0], c]), np.array([c, b[1], a[2], cubic[3]])


def _plane(place: complex) -> Array:
    return np.array([place.real, place.imag])
