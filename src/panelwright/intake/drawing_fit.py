"""Few cubics through many points: a sampled curve made smooth again."""

from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array, cross, unit

# The cubics are this near to every point, mm.
NEAR: Final = 0.02
# So many attempts for one drawing, those with many points counted several times; after them points are joined straight.
MOST_ATTEMPTS: Final = 6_000.0
_POINTS: Final = 200
_ROUNDS: Final = 4
# A stretch between two points this much longer than its neighbours is straight, not sampled wide.
_LONGER: Final = 3.0
_STRAIGHT_PARTS: Final = 6
# Between two points a cubic may leave the chord by so many times what the turns beside it ask for.
_BOWED: Final = 1.5
# A chord at an end that is this much longer than its neighbour is none of the curve.
_LIKE: Final = 1.3


class CurveFitter:
    """Fits cubics, until its attempts are used up."""

    def __init__(self, near: float = NEAR, attempts: float = MOST_ATTEMPTS) -> None:
        self._near = near
        self._left = attempts

    def fitted(self, points: Array, start: Array | None = None, end: Array | None = None) -> Array:
        """Cubics within the tolerance of points, shape (m, 2), through the first and the last, shape (n, 4, 2).

        Args:
            points: m ≥ 2, no two neighbours in one place.
            start, end: unit directions of travel at the ends, or None to find them from the points.

        Between points that lie far apart beside points that lie close, the line is straight.
        """
        if len(points) == 2:
            return straight(points)
        dense = _with_straight_parts(points)
        bows = _bows(dense)
        first = _end_direction(dense[:3]) if start is None else start
        last = -_end_direction(dense[:-4:-1]) if end is None else end
        found: list[Array] = []
        waiting = [(0, len(dense) - 1, first, last)]
        while waiting:
            low, high, leaving, arriving = waiting.pop()
            cubic, worst = self._attempt(dense[low : high + 1], bows[low:high], leaving, arriving)
            if cubic is not None:
                found.append(cubic[None])
                continue
            if high - low < 2 or self._left <= 0:
                found.append(straight(dense[low : high + 1]))
                continue
            middle = low + min(max(worst, 1), high - low - 1)
            through = _direction_through(dense[middle - 1 : middle + 2])
            waiting += [(middle, high, through, arriving), (low, middle, leaving, through)]
        cubics = np.concatenate(found)
        cubics[1:, 0] = cubics[:-1, 3]
        return cubics

    def _attempt(self, points: Array, bows: Array, leaving: Array, arriving: Array) -> tuple[Array | None, int]:
        """(one cubic, _) near enough to all points and chords, or (None, the point where it is farthest off)."""
        if len(points) == 2:
            chord = float(np.hypot(*(points[1] - points[0])))
            cubic = _hermite(points, leaving, arriving, chord / 3)
            smooth = self._off_chords(cubic, points, np.array([0.0, 1.0]), bows)[0] <= 0
            return (cubic if smooth else straight(points)[0]), 0
        self._left -= 1 + len(points) / _POINTS
        if self._left <= 0:
            return None, 1
        steps = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
        t = steps / steps[-1]
        worst = 1
        for _ in range(_ROUNDS):
            cubic = _least_squares(points, t, leaving, arriving, float(steps[-1]))
            off = np.hypot(*(_value(cubic, t) - points).T)
            worst = int(off.argmax())
            if off[worst] <= self._near:
                beyond = self._off_chords(cubic, points, t, bows)
                worst = int(beyond.argmax())
                return (cubic if beyond[worst] <= 0 else None), worst
            if off[worst] > 60 * self._near:
                break
            t = _nearer(cubic, points, t)
        return None, worst

    def _off_chords(self, cubic: Array, points: Array, t: Array, bows: Array) -> Array:
        """By how much a cubic leaves the chord of neighbouring points, half-way, more than it may, shape (m - 1,)."""
        chords = np.diff(points, axis=0)
        off = _value(cubic, (t[:-1] + t[1:]) / 2) - points[:-1]
        across = np.abs(cross(chords, off)) / np.maximum(np.hypot(*chords.T), 1e-12)
        beyond: Array = across - self._near - _BOWED * bows
        return beyond


def _bows(points: Array) -> Array:
    """How far a sampled curve leaves each chord: none where the line does not turn alike at both its ends, (m - 1,)."""
    chords = np.diff(points, axis=0)
    turns = np.arctan2(cross(chords[:-1], chords[1:]), (chords[:-1] * chords[1:]).sum(axis=1))
    before, after = np.concatenate([turns[:1], turns]), np.concatenate([turns, turns[-1:]])
    alike = np.where(before * after > 0, np.minimum(np.abs(before), np.abs(after)), 0.0)
    lengths = np.hypot(*chords.T)
    bows: Array = lengths * alike / 8
    for end, beside in ((0, 1), (-1, -2)):
        if len(bows) < 2 or lengths[end] > _LIKE * lengths[beside]:  # no sample of the curve, but what is joined to it
            bows[end] = 0.0
    return bows


def straight(points: Array) -> Array:
    """Straight cubics from point to point, shape (m - 1, 4, 2)."""
    a, b = points[:-1], points[1:]
    return np.stack([a, a + (b - a) / 3, a + (b - a) * 2 / 3, b], axis=1)


def _with_straight_parts(points: Array) -> Array:
    """The points, with others on stretches that are straight."""
    steps = np.hypot(*np.diff(points, axis=0).T)
    beside = np.maximum(np.concatenate([[0.0], steps[:-1]]), np.concatenate([steps[1:], [0.0]]))
    wide = steps > _LONGER * np.maximum(beside, 1e-9)
    if not wide.any():
        return points
    counts = np.where(wide, _STRAIGHT_PARTS, 1)
    which = np.repeat(np.arange(len(steps)), counts)
    share = (np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts)) / counts[which]
    dense = points[which] + share[:, None] * (points[which + 1] - points[which])
    return np.concatenate([dense, points[-1:]])


def _end_direction(points: Array) -> Array:
    """Direction at the first of up to three points, of the parabola through them."""
    if len(points) < 3:
        direction: Array = unit(points[1] - points[0])
        return direction
    a, b = points[1] - points[0], points[2] - points[1]
    la, lb = float(np.hypot(*a)), float(np.hypot(*b))
    slope = a / la + (a / la - b / lb) * la / (la + lb)
    if float(slope @ a) <= 0.5 * la * float(np.hypot(*slope)):
        slope = a
    return unit(slope)


def _direction_through(points: Array) -> Array:
    """Direction at the middle one of three points, of the circle through them."""
    a, b = points[1] - points[0], points[2] - points[1]
    la, lb = float(np.hypot(*a)), float(np.hypot(*b))
    slope = a / la * lb + b / lb * la
    if float(np.hypot(*slope)) < 1e-6 * (la + lb):
        slope = b
    return unit(slope)


def _hermite(points: Array, leaving: Array, arriving: Array, handle: float) -> Array:
    return np.array([points[0], points[0] + handle * leaving, points[-1] - handle * arriving, points[-1]])


def _least_squares(points: Array, t: Array, leaving: Array, arriving: Array, length: float) -> Array:
    """The cubic with given end directions that lies nearest to points at parameters t; handles run forwards."""
    s = 1 - t
    near, far = (3 * s * s * t)[:, None], (3 * s * t * t)[:, None]
    a, b = near * leaving, -far * arriving
    rest = points - points[0] * (s**3)[:, None] - points[-1] * (t**3)[:, None] - points[0] * near - points[-1] * far
    aa, ab, bb = float((a * a).sum()), float((a * b).sum()), float((b * b).sum())
    ra, rb = float((a * rest).sum()), float((b * rest).sum())
    full = aa * bb - ab * ab
    first = last = length / 3
    if full > 1e-12 * aa * bb:
        first, last = (ra * bb - rb * ab) / full, (rb * aa - ra * ab) / full
    if not (1e-3 * length < first < 2 * length and 1e-3 * length < last < 2 * length):
        first = last = length / 3
    return np.array([points[0], points[0] + first * leaving, points[-1] - last * arriving, points[-1]])


def _value(cubic: Array, t: Array) -> Array:
    s, r = (1 - t)[:, None], t[:, None]
    value: Array = s**3 * cubic[0] + 3 * s * s * r * cubic[1] + 3 * s * r * r * cubic[2] + r**3 * cubic[3]
    return value


def _nearer(cubic: Array, points: Array, t: Array) -> Array:
    """One step of Newton's method towards the parameters of the nearest places."""
    s, r = (1 - t)[:, None], t[:, None]
    first, second = 3 * np.diff(cubic, axis=0), 6 * np.diff(cubic, 2, axis=0)
    speed = s * s * first[0] + 2 * s * r * first[1] + r * r * first[2]
    bend = s * second[0] + r * second[1]
    off = _value(cubic, t) - points
    above, below = (off * speed).sum(axis=1), (speed * speed).sum(axis=1) + (off * bend).sum(axis=1)
    step = np.divide(above, below, out=np.zeros_like(above), where=np.abs(below) > 1e-12)
    moved = np.clip(t - step, 0.0, 1.0)
    moved[0], moved[-1] = 0.0, 1.0
    ordered: Array = np.maximum.accumulate(moved)
    return ordered
