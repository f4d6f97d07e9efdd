"""A learner's outline laid on the model's, turned, moved and turned over as fits best."""

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.optimize import least_squares

from panelwright.geometry.arrays import Array
from panelwright.geometry.placement import Placement
from panelwright.pattern.piece import Piece

SAMPLES: Final = 240
# The fit ends by counting only what lies nearer than about this, mm of the paper: most of a well drawn line does.
_NEAR: Final = 0.15
# So many stretches of half the outline are tried alone, in case the other half is what lies off.
_HALVES: Final = 8
_TRIES: Final = 3


@dataclass(frozen=True)
class Fit:
    """How an outline is laid on another.

    Attributes:
        placement: of the learner's outline.
        off: half of its places lie nearer to the model's than this, mm.
    """

    placement: Placement
    off: float


def best_fit(ring: Array, model: Piece, scale: float, in_short: bool = False) -> Fit:
    """Lay a closed outline on the model's.

    The outlines are first laid on each other as a whole, over all starts and both hands. Then the distances of the
    learner's line from the model's are made small in such a way (Cauchy's loss) that what lies far off hardly counts.
    So an outline that is right but for one line lies on the model with all its other lines, and that one line shows
    alone; least squares would share its fault out over all of them. Since such a loss has more than one low, the
    search begins from the fit of each of eight halves of the outline too, and the lowest is taken.

    Args:
        ring: the learner's outline, shape (n, 2), mm of the garment, not closed.
        model: the piece as it should be.
        scale: mm of the garment to one mm of the paper.
        in_short: only the first, rough fit, to see whether two outlines are alike.
    """
    outline = shapely.Polygon(shapely.get_coordinates(model.outline.exterior.simplify(0.05)))
    shapely.prepare([outline, outline.exterior])
    search = _Search(_evenly(ring), outline, scale)
    aim = _evenly(np.asarray(outline.exterior.coords)[:-1])
    starts = [start for over in (False, True) for start in _whole(search.places, aim, over)]
    rough = min((search.fitted(start, "soft_l1", 10 * _NEAR) for start in starts), key=lambda each: each[0])[1]
    if in_short:
        return Fit(rough, float(np.median(np.abs(signed_distances(rough.points(search.places), outline)))))
    begun = [rough, *(search.fitted(rough, "soft_l1", 2 * _NEAR, half)[1] for half in _halves())]
    best = min((search.fitted(start, "cauchy", _NEAR) for start in begun), key=lambda each: each[0])[1]
    return Fit(best, float(np.median(np.abs(signed_distances(best.points(search.places), outline)))))


def signed_distances(places: Array, outline: shapely.Polygon) -> Array:
    """Distances of places, shape (n, 2), from an outline, mm: positive outside it, negative inside."""
    distance = shapely.distance(shapely.points(places), outline.exterior)
    inside = shapely.contains_xy(outline, places[:, 0], places[:, 1])
    signed: Array = np.where(inside, -distance, distance)
    return signed


def _evenly(ring: Array) -> Array:
    """Places at even steps along a closed ring, shape (SAMPLES, 2)."""
    shut = np.vstack([ring, ring[:1]])
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(shut, axis=0).T))])
    at = np.linspace(0.0, along[-1], SAMPLES, endpoint=False)
    return np.column_stack([np.interp(at, along, shut[:, k]) for k in (0, 1)])


def _whole(places: Array, model: Array, over: bool) -> list[Placement]:
    """The placements that lay the samples on the model's in turn, from the best starts (closed form, by transform)."""
    middle, aim = places.mean(axis=0), model.mean(axis=0)
    z = (places - middle) @ np.array([1.0, 1j])
    if over:  # mirrored in x, and run the other way round, so that both are anticlockwise
        z = -np.conj(z)[::-1]
    w = (model - aim) @ np.array([1.0, 1j])
    fits = np.fft.ifft(np.fft.fft(w) * np.conj(np.fft.fft(z)))
    size = np.abs(fits)
    peaks = np.flatnonzero((size >= np.roll(size, 1)) & (size >= np.roll(size, -1)))
    best = peaks[np.argsort(size[peaks])][::-1][:_TRIES]
    return [_about(middle, aim, float(np.angle(fits[k])), over) for k in best]


def _about(middle: Array, aim: Array, angle: float, over: bool) -> Placement:
    x, y = aim - Placement(angle, mirrored=over).points(middle)
    return Placement(angle, float(x), float(y), over)


def _halves() -> list[NDArray[np.int_]]:
    """Half of the samples of an outline each, one after another, as numbers."""
    return [np.arange(SAMPLES // 2) + k * SAMPLES // _HALVES - SAMPLES for k in range(_HALVES)]


@dataclass(frozen=True, eq=False)
class _Search:
    """Samples of the learner's outline, the model's outline, and mm of the garment to one of the paper."""

    places: Array
    outline: shapely.Polygon
    scale: float

    def fitted(
        self, start: Placement, loss: Literal["soft_l1", "cauchy"], near: float, only: NDArray[np.int_] | None = None
    ) -> tuple[float, Placement]:
        """(what is left of the loss, the placement made better from a start), over some samples or all."""
        places = self.places if only is None else self.places[only]
        middle = places.mean(axis=0)
        reach = float(np.hypot(*(places - middle).T).max())

        def placed(x: Array) -> Placement:
            return _about(middle, x[1:], float(x[0] / reach), start.mirrored)

        def off(x: Array) -> Array:
            return signed_distances(placed(x).points(places), self.outline)

        at = np.array([start.angle * reach, *start.points(middle)])
        found = least_squares(off, at, loss=loss, f_scale=near * self.scale, max_nfev=20)
        return float(found.cost), placed(found.x)
