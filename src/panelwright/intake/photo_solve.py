"""Where camera and table were: perspective, lens and the places of the strips, by least squares over marker corners."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import cv2
import numpy as np
from scipy.optimize import least_squares

from panelwright.drawing.reference_markers import SIDE, STRIPS, Strip, strip_bounds
from panelwright.geometry.arrays import Array
from panelwright.intake.photo_markers import SeenMarker, side_of
from panelwright.intake.photo_view import PhotoView

# What lenses of phones do, as far as is known before looking: standard deviations of k₁ and k₂ (half diagonals).
_LENS: Final = np.array([0.12, 0.04])
# The least that a corner may be trusted to, pixels; and how far ink may spread, mm.
_LEAST_NOISE: Final = 0.1
_INK: Final = 0.15
# An uncut sheet fits as a whole to this, mm; strips that lie apart miss it by far.
_WHOLE: Final = 0.3
_UNIT: Final = 100.0  # mm, so that all unknowns are of one size
_H: Final = 8


@dataclass(frozen=True, eq=False)
class SolvedView:
    """How the photo looks at the table, and how sure that is.

    Attributes:
        view: between the plane and the photo.
        uncut: whether the sheet lies there as one.
        strips: the outlines of the strips (of an uncut sheet: of the sheet) on the plane, shape (4, 2) each.
        miss: what is left at the corners, standard deviation of a coordinate, pixels.
        unsure: views that are one standard deviation off, one for each independent way to be off.
    """

    view: PhotoView
    uncut: bool
    strips: tuple[Array, ...]
    miss: float
    unsure: tuple[PhotoView, ...]

    def uncertainty(self, points: Array) -> float:
        """Expected error of a shape through points of the plane, shape (n, 2), from the markers alone, mm.

        It is the root mean square over the points after the best shift and turn, since only the shape matters.
        """
        pixels = self.view.to_photo(points)
        total = 0.0
        for other in self.unsure:
            total += float((_rigid_rest(points, other.to_plane(pixels)) ** 2).sum(axis=1).mean())
        return float(np.sqrt(total))

    def enlarged(self, factor: float) -> "SolvedView":
        """The same for a sheet that was printed larger by a factor."""
        plane = np.diag([1 / factor, 1 / factor, 1.0])
        return replace(
            self,
            view=self.view.moved(plane),
            strips=tuple(strip * factor for strip in self.strips),
            unsure=tuple(view.moved(plane) for view in self.unsure),
        )


def solved_view(paper: str, seen: Sequence[SeenMarker], width: int, height: int) -> SolvedView:
    """The view that fits the corners of the markers best, for an uncut sheet or for strips that lie anyhow.

    The plane's y axis points up in the photo's middle.

    Args:
        paper: of the sheet.
        seen: at least three markers.
        width, height: of the photo, pixels.
    """
    fits = [_Fit(paper, seen, width, height, whole) for whole in (True, False)]
    whole, apart = fits
    fit = whole if whole.miss <= max(_WHOLE * side_of(seen) / SIDE, 1.5 * apart.miss) else apart
    return fit.solved()


class _Fit:
    """One fit; `whole` keeps the strips where they were printed."""

    def __init__(self, paper: str, seen: Sequence[SeenMarker], width: int, height: int, whole: bool) -> None:
        self.paper, self.seen, self.size, self.whole = paper, seen, (width, height), whole
        self.shown = [strip for strip in STRIPS if any(each.marker.strip == strip for each in seen)]
        counts = [sum(each.marker.strip == strip for each in seen) for strip in self.shown]
        self.base = self.shown[int(np.argmax(counts))]
        self.free = [] if whole else [strip for strip in self.shown if strip != self.base]
        bounds = strip_bounds(paper)[self.base]
        self.origin = np.array([bounds[0] + bounds[2], bounds[1] + bounds[3]]) / 2
        self.corners = np.concatenate([each.corners for each in seen])
        self.owner = np.repeat([self.shown.index(each.marker.strip) for each in seen], 4)
        outward = np.array([(-1, 1), (1, 1), (1, -1), (-1, -1)], float)
        self.outward = np.tile(outward, (len(seen), 1)) / _UNIT
        self.printed = (np.concatenate([each.marker.corners for each in seen]) - self.origin) / _UNIT
        self.noise = 3.0
        start = self._start()
        for _ in range(4):
            found = least_squares(self._residuals, start, loss="soft_l1", f_scale=2.0, x_scale="jac", max_nfev=60)
            start = found.x
            self.noise = max(_LEAST_NOISE, self._typical(start))
        self.found, self.jacobian, self.miss = start, np.asarray(found.jac, float), self._typical(start)

    def _typical(self, unknowns: Array) -> float:
        """Standard deviation of a corner's coordinate, pixels, from the median: a covered marker tells nothing."""
        return 1.4826 * float(np.median(np.abs(self._apart(unknowns))))

    def solved(self) -> SolvedView:
        """The result in mm, upright as the photo is."""
        view = self._view(self.found)
        plane = _upright(view)
        strips = tuple(
            (corners - plane[:2, 2]) @ plane[:2, :2]
            for corners in (_UNIT * self._placed(self.found, k, corners) for k, corners in self._outlines())
        )
        u, s, vt = np.linalg.svd(self.jacobian, full_matrices=False)
        del u
        ways = vt / np.maximum(s, 1e-6 * s.max())[:, None]
        ways = ways[:, : _H + 2]
        unsure = tuple(self._view(np.concatenate([self.found[: _H + 2] + way, self.found[_H + 2 :]])) for way in ways)
        return SolvedView(view.moved(plane), self.whole, strips, self.miss, tuple(each.moved(plane) for each in unsure))

    def _outlines(self) -> list[tuple[int, Array]]:
        """(index of the strip, its corners on the uncut sheet, in units from the origin)."""
        boxes = strip_bounds(self.paper)
        if self.whole:
            every = np.array(list(boxes.values()))
            box = (every[:, 0].min(), every[:, 1].min(), every[:, 2].max(), every[:, 3].max())
            return [(self.shown.index(self.base), self._corners_of(box))]
        return [(k, self._corners_of(boxes[strip])) for k, strip in enumerate(self.shown)]

    def _corners_of(self, box: Sequence[float]) -> Array:
        left, low, right, high = box
        corners: Array = (np.array([(left, low), (right, low), (right, high), (left, high)]) - self.origin) / _UNIT
        return corners

    def _view(self, unknowns: Array) -> PhotoView:
        homography = np.append(unknowns[:_H], 1.0).reshape(3, 3) @ np.diag([1 / _UNIT, 1 / _UNIT, 1.0])
        return PhotoView(homography, (float(unknowns[_H]), float(unknowns[_H + 1])), *self.size)

    def _placed(self, unknowns: Array, strip: int, points: Array) -> Array:
        """Points of a strip where it lies."""
        name: Strip = self.shown[strip]
        if name not in self.free:
            return points
        k = _H + 3 + 3 * self.free.index(name)
        x, y, angle = unknowns[k : k + 3]
        c, s = np.cos(angle), np.sin(angle)
        moved: Array = points @ np.array([[c, s], [-s, c]]) + np.array([x, y])
        return moved

    def _apart(self, unknowns: Array) -> Array:
        """How far the corners are from where they should be, pixels, shape (n, 2)."""
        printed = self.printed + unknowns[_H + 2] * self.outward
        places = np.empty_like(printed)
        for k in range(len(self.shown)):
            places[self.owner == k] = self._placed(unknowns, k, printed[self.owner == k])
        shown: Array = self._view(unknowns).to_photo(places * _UNIT)
        apart: Array = shown - self.corners
        return apart

    def _residuals(self, unknowns: Array) -> Array:
        known = np.append(unknowns[_H : _H + 2] / _LENS, unknowns[_H + 2] / _INK)
        return np.concatenate([(self._apart(unknowns) / self.noise).ravel(), known])

    def _start(self) -> Array:
        """From the strip that shows most markers, as if the lens bent nothing."""
        width, height = self.size
        half = float(np.hypot(width, height)) / 2
        flat = (self.corners - np.array([(width - 1) / 2, (height - 1) / 2])) / half * np.array([1.0, -1.0])
        own = np.ones(len(flat), bool) if self.whole else self.owner == self.shown.index(self.base)
        found, _ = cv2.findHomography(self.printed[own], flat[own], cv2.RANSAC, 0.03)
        homography = np.asarray(found, float) if found is not None else np.eye(3)
        start = np.concatenate([(homography / homography[2, 2]).ravel()[:_H], np.zeros(3 + 3 * len(self.free))])
        back = PhotoView(np.append(start[:_H], 1.0).reshape(3, 3), (0.0, 0.0), width, height)
        for j, strip in enumerate(self.free):
            own = self.owner == self.shown.index(strip)
            k = _H + 3 + 3 * j
            start[k : k + 3] = _pose(self.printed[own], back.to_plane(self.corners[own]))
        return start


def _pose(points: Array, onto: Array) -> Array:
    """(x, y, angle) of the turn and shift that carries points closest to others."""
    p, q = points - points.mean(axis=0), onto - onto.mean(axis=0)
    angle = float(np.arctan2((p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]).sum(), (p * q).sum()))
    c, s = np.cos(angle), np.sin(angle)
    shift = onto.mean(axis=0) - points.mean(axis=0) @ np.array([[c, s], [-s, c]])
    return np.array([shift[0], shift[1], angle])


def _rigid_rest(points: Array, moved: Array) -> Array:
    """What is left of a movement after the turn and shift that explain most of it."""
    x, y, angle = _pose(points, moved)
    c, s = np.cos(angle), np.sin(angle)
    rest: Array = moved - (points @ np.array([[c, s], [-s, c]]) + np.array([x, y]))
    return rest


def _upright(view: PhotoView) -> Array:
    """The turn and shift, shape (3, 3), from a plane whose y axis points up in the photo's middle to the view's own."""
    middle = np.array([(view.width - 1) / 2, (view.height - 1) / 2])
    here, above = view.to_plane(np.array([middle, middle - np.array([0.0, 0.02 * view.half])]))
    up = (above - here) / np.linalg.norm(above - here)
    return np.array([[up[1], up[0], here[0]], [-up[0], up[1], here[1]], [0.0, 0.0, 1.0]])
