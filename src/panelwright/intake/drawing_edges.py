"""An outline divided into edges at its corners, its sampled curves made smooth; and a line inside, as one curve."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array, cross
from panelwright.geometry.curve import Curve
from panelwright.intake.drawing_fit import CurveFitter, straight
from panelwright.intake.drawing_limits import MOST_EDGES
from panelwright.intake.drawing_stroke import Stroke

# A corner turns by more than this, whatever its curves do.
CORNER: Final = np.radians(20.0)
# A vertex that turns by more than this is no point of a sampled curve.
_SHARP: Final = np.radians(40.0)
# A sampled curve that left its chord by more than this, mm, was never meant as one.
_SAGGING: Final = 2.0
# A vertex where a curve would leave the chord by more than this keeps its kink, mm.
_KINK_SAG: Final = 1.0
_KINK: Final = np.radians(2.0)
# Points nearer than this to the one before are none of their own, mm.
SAME: Final = 0.02
# Where a sampled curve runs into a true one at less than this, it takes its direction.
_SMOOTH: Final = np.radians(6.0)


@dataclass(frozen=True, eq=False)
class _Elements:
    """The pieces of a line one after another, straight ones and cubics alike.

    Attributes:
        cubics: shape (n, 4, 2).
        sampled: whether an element is the chord of two points, shape (n,).
    """

    cubics: Array
    sampled: NDArray[np.bool_]


def outline_edges(ring: Stroke, fitter: CurveFitter) -> list[Curve] | None:
    """The edges of a closed line, anticlockwise, between its corners; two halves where it has fewer than two.

    None where it is too small to have any.

    Raises:
        GeometryError: if it has more corners than a piece.
    """
    elements = _elements(ring)
    if elements is None or len(elements.cubics) < 2:
        return None
    if _area(elements) < 0:
        elements = _Elements(elements.cubics[::-1, ::-1], elements.sampled[::-1])
    turns, corners, kinks = _joints(elements, closed=True)
    if corners.sum() > MOST_EDGES:
        raise GeometryError(f"it has more than {MOST_EDGES} corners")
    first = int(np.flatnonzero(corners)[0]) if corners.any() else 0
    order = np.roll(np.arange(len(elements.cubics)), -first)
    elements = _Elements(elements.cubics[order], elements.sampled[order])
    turns, corners, kinks = turns[order], corners[order], kinks[order]
    starts = np.union1d(np.flatnonzero(corners), [0])
    curves = []
    for low, high in zip(starts, [*starts[1:], len(order)], strict=True):
        part = _Elements(elements.cubics[low:high], elements.sampled[low:high])
        curves.append(_smoothed(part, kinks[low:high], turns[low:high], fitter))
    return _closed([curve for curve in curves if curve is not None], bool(corners.any()))


def inside_curve(line: Stroke, fitter: CurveFitter) -> Curve | None:
    """A line as one curve; None where it is too short."""
    elements = _elements(line)
    if elements is None:
        return None
    turns, corners, kinks = _joints(elements, closed=False)
    return _smoothed(elements, kinks | corners, turns, fitter)


def _elements(line: Stroke) -> _Elements | None:
    """Every element that is not too short to have a direction, each starting where the one before it ends."""
    runs = [_thinned(run) if run.ndim == 2 else run for run in line.runs]
    cubics = np.concatenate([straight(run) if run.ndim == 2 else run for run in runs])
    sampled = np.concatenate([np.full(len(run) - (run.ndim == 2), run.ndim == 2) for run in runs])
    long = np.abs(cubics - cubics[:, :1]).max(axis=(1, 2)) > SAME
    if not long.any():
        return None
    last = cubics[-1, 3].copy()
    cubics, sampled = cubics[long].copy(), sampled[long]
    cubics[1:, 0] = cubics[:-1, 3]
    cubics[-1, 3] = last
    cubics[sampled] = straight_between(cubics[sampled])
    return _Elements(cubics, sampled)


def _thinned(points: Array) -> Array:
    """Points that lie closer than `SAME` along a line left out, the ends kept."""
    arcs = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    keep = np.diff(np.floor(arcs / SAME), prepend=-1.0) > 0
    keep[-1] = True
    return points[keep]


def straight_between(cubics: Array) -> Array:
    """Straight cubics with the same ends, shape (n, 4, 2)."""
    a, b = cubics[:, 0], cubics[:, 3]
    return np.stack([a, a + (b - a) / 3, a + (b - a) * 2 / 3, b], axis=1)


def _area(elements: _Elements) -> float:
    points = elements.cubics[:, :3].reshape(-1, 2)
    points = points - points[0]
    return float(cross(points, np.roll(points, -1, axis=0)).sum()) / 2


def _directions(cubics: Array) -> tuple[Array, Array]:
    """Unit directions at the starts and the ends of cubics, handles without length passed over, (n, 2) each."""
    scale = np.abs(cubics - cubics[:, :1]).max(axis=(1, 2))
    found = []
    for way in (cubics, cubics[:, ::-1]):
        away = way[:, 1:] - way[:, :1]
        far = np.hypot(away[..., 0], away[..., 1]) > 1e-6 * scale[:, None]
        chosen = away[np.arange(len(way)), np.argmax(far, axis=1)]
        size = np.maximum(np.hypot(*chosen.T), 1e-12)
        found.append(chosen / size[:, None])
    return found[0], -found[1]


def _joints(elements: _Elements, closed: bool) -> tuple[Array, NDArray[np.bool_], NDArray[np.bool_]]:
    """(turn, corner, kink) where each element starts, the turns in radians; an open line starts without any.

    In a sampled curve each vertex turns about as much as those beside it: half of their turns is taken off, so that
    only what is more than the bend of the curve counts.
    """
    cubics, sampled = elements.cubics, elements.sampled
    starts, ends = _directions(cubics)
    before = np.roll(ends, 1, axis=0)
    turns = np.arctan2(cross(before, starts), (before * starts).sum(axis=1))
    if not closed:
        turns[0] = 0.0
    chords = np.hypot(*(cubics[:, 3] - cubics[:, 0]).T)
    both = sampled & np.roll(sampled, 1)
    size = np.abs(turns)
    sign = np.sign(turns)

    def bend(beside: Array, known: NDArray[np.bool_]) -> Array:
        """Half the turn beside, as far as it is one of the same bend."""
        alike: Array = np.where(known, np.clip(sign * beside, 0.0, size) / 2, 0.0)
        return alike

    left = bend(np.roll(turns, 1), np.roll(sampled, 1) & np.roll(both, 1))
    right = bend(np.roll(turns, -1), sampled & np.roll(both, -1))
    short = np.minimum(chords, np.roll(chords, 1))
    sag = np.where(both, short * size / 8, 0.0)
    corners = (size - left - right > CORNER) | (size > _SHARP) | ((size > CORNER) & (sag > _SAGGING))
    kinks = both & (size > _KINK) & (sag > _KINK_SAG)
    if not closed:
        corners[0] = kinks[0] = False
    return turns, corners, kinks


def _smoothed(part: _Elements, kinks: NDArray[np.bool_], turns: Array, fitter: CurveFitter) -> Curve | None:
    """One curve along some elements: true cubics as they are, sampled stretches between kinks fitted."""
    cubics, sampled = part.cubics, part.sampled
    starts, ends = _directions(cubics)
    found: list[Array] = []
    k, count = 0, len(cubics)
    while k < count:
        low = k
        k += 1
        while k < count and sampled[k] == sampled[low] and not (sampled[low] and kinks[k]):
            k += 1
        if not sampled[low]:
            found.append(cubics[low:k])
            continue
        points = np.concatenate([cubics[low : low + 1, 0], cubics[low:k, 3]])
        joins = low > 0 and not sampled[low - 1] and abs(turns[low]) < _SMOOTH
        leads = k < count and not sampled[k] and abs(turns[k]) < _SMOOTH
        found.append(fitter.fitted(points, ends[low - 1] if joins else None, starts[k] if leads else None))
    whole = np.concatenate(found)
    whole[1:, 0] = whole[:-1, 3]
    if np.ptp(whole, axis=(0, 1)).max() < SAME:
        return None
    return Curve(whole)


def _closed(curves: list[Curve], cornered: bool) -> list[Curve] | None:
    """Edges that each start where the last one ends; one round alone is halved."""
    if not curves:
        return None
    if len(curves) == 1:
        whole = curves[0]
        middle = whole.length / 2
        first = 0.0 if cornered else whole.length / 4
        if not cornered:
            a, b = whole.split(first)
            whole = b.joined(a.ending_at(start=b.end))
        curves = list(whole.split(middle))
    return [curve.ending_at(start=before.end) for before, curve in zip(curves[-1:] + curves[:-1], curves, strict=True)]
