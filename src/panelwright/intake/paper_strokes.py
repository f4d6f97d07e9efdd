"""Pencil and pen lines on a piece of paper, followed along the ridges of their darkness."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import cv2
import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import median_filter

from panelwright.geometry.arrays import Array
from panelwright.intake.photo_image import Image
from panelwright.intake.photo_markers import linear
from panelwright.intake.photo_view import PhotoView
from panelwright.intake.rectified import rectified

MOST_STROKES: Final = 250
LEAST_LENGTH: Final = 1.2  # mm
_PER_MM: Final = (3.0, 6.0)
_MOST_PIXELS: Final = 4.0e6
_RIM: Final = 0.35  # mm at the edge of the paper where its own edge is dark
_LIGHT: Final = 4.0  # mm over which the light is even
_LIGHT_PIXELS: Final = 6.0  # the same in pixels of the smaller picture that it is looked for in
_FINE: Final = 0.22  # mm: the lines' own softness
_FAINT: Final = 0.010  # least ridge, share of the paper's light
_SURE: Final = 5.0  # standard deviations of the paper
_GAP: Final = 2.6  # mm that a line may be interrupted, by a dash or another line
_STEP: Final = 0.4
_SIDEWAYS: Final = 0.35  # mm to either side where the line is looked for
_LEAST_DARK: Final = 0.3  # share of the darkest lines' strength
_FADED: Final = 0.6  # share of a line's darkness below which it is another line that runs on
_STEADY: Final = 9  # places of a line, of which the middle one tells how dark it is there
_HEAD: Final = 0.22  # share of the line's darkness beside it that shows an arrow head
_GRID: Final = 9  # as many lines are squared paper, if they are parallel or square to each other and evenly spaced
_GRID_LEAN: Final = 0.05  # radians
_GRID_EVEN: Final = 0.65  # how evenly spaced, 1: perfectly
_SQUARES: Final = (4.0, 5.0, 6.35, 10.0, 12.7)  # mm: what squared paper is ruled in
_GRID_STRENGTH: Final = 1.7  # a line that is so much darker than the squares is none of theirs
_LIGHT_OF: Final = (linear(np.arange(256.0)) / 3).astype(np.float32)  # of each stored value, as one of three colours


@dataclass(frozen=True, eq=False)
class PaperStroke:
    """A line on paper: `points`, mm of the plane, about 0.4 apart, shape (n, 2); `strength` of its ridge; whether
    either end has an arrow head, (at the first point, at the last).
    """

    points: Array
    strength: float
    arrows: tuple[bool, bool] = (False, False)

    @property
    def length(self) -> float:
        """Along the line, mm."""
        return float(np.hypot(*np.diff(self.points, axis=0).T).sum())

    @property
    def chord(self) -> Array:
        """From its first point to its last, mm."""
        return np.asarray(self.points[-1] - self.points[0], float)

    @property
    def bow(self) -> float:
        """The farthest that it strays from its chord, mm."""
        way = self.chord / max(float(np.hypot(*self.chord)), 1e-9)
        apart = self.points - self.points[0]
        return float(np.abs(apart[:, 0] * way[1] - apart[:, 1] * way[0]).max())


def axis_ends(points: Array) -> tuple[Array, Array]:
    """Both ends of a line that is straight but for its ends, as its middle part points there."""
    some = points[len(points) // 8 : len(points) - len(points) // 8]
    middle = some.mean(axis=0)
    way = np.linalg.svd(some - middle, full_matrices=False)[2][0]
    first, last = (middle + float((end - middle) @ way) * way for end in (points[0], points[-1]))
    return np.asarray(first, float), np.asarray(last, float)


def paper_strokes(pixels: Image, view: PhotoView, outline: Array) -> list[PaperStroke]:
    """The lines inside an outline, the strongest first; the even lines of squared paper are left out.

    Args:
        pixels: the photo.
        view: how it looks at the plane.
        outline: of the paper, mm of the plane, shape (n, 2).
    """
    low, high = outline.min(axis=0) - 2.0, outline.max(axis=0) + 2.0
    most = float(np.sqrt(_MOST_PIXELS / np.prod(high - low)))
    per_mm = min(float(np.clip(np.median(view.resolution(outline[::20])), *_PER_MM)), most)
    rect = rectified(pixels, view, low, high, per_mm)
    inside = np.zeros(rect.shown.shape, np.uint8)
    cv2.fillPoly(inside, [np.round(rect.to_pixels(outline)).astype(np.int32)], 1)
    rim = 2 * round(max(_RIM * per_mm, 1.5)) + 1
    inside = np.asarray(cv2.erode(inside, np.ones((rim, rim), np.uint8)), np.uint8)
    light = np.asarray(_LIGHT_OF[rect.picture].sum(axis=-1), np.float32)
    walker = _Walker(_darkness(light, inside, per_mm), inside > 0, per_mm)
    strokes = [PaperStroke(rect.to_plane(line), strength, arrows) for line, strength, arrows in walker.lines()]
    return _without_grid(_strong(strokes))


def _darkness(light: NDArray[np.float32], inside: NDArray[np.uint8], per_mm: float) -> NDArray[np.float32]:
    """Share of the paper's light that is missing at each pixel; none outside."""
    reach = _LIGHT * per_mm
    shrink = min(1.0, _LIGHT_PIXELS / reach)
    weight, paper = inside.astype(np.float32), light
    for _ in range(3):
        near, lit = (
            cv2.GaussianBlur(
                cv2.resize(values, None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA), (0, 0), shrink * reach
            )
            for values in (weight, light * weight)
        )
        paper = np.asarray(cv2.resize(lit / (near + 1e-4), light.shape[::-1]), np.float32)
        weight = ((light > 0.94 * paper) & (inside > 0)).astype(np.float32)
    dark = 1.0 - light / np.maximum(paper, 1e-3)
    return np.asarray(np.clip(dark, -0.2, 1.0) * inside, np.float32)


class _Walker:
    """Follows ridges; places are pixels (x, y)."""

    def __init__(self, dark: NDArray[np.float32], inside: NDArray[np.bool_], per_mm: float) -> None:
        self.dark, self.inside, self.per_mm = dark, inside, per_mm
        soft = max(_FINE * per_mm, 0.9)
        smooth = np.asarray(cv2.GaussianBlur(dark, (0, 0), soft), np.float32)
        gy, gx = np.gradient(smooth)
        xy, xx = np.gradient(gx)
        yy = np.gradient(gy, axis=0)
        half, mean = np.hypot((xx - yy) / 2, xy), (xx + yy) / 2
        self.ridge = np.asarray((half - mean) * soft**2, np.float32)
        angle = 0.5 * np.arctan2(2 * xy, xx - yy)  # across the line the bend is most negative
        self.along = np.stack([np.cos(angle), np.sin(angle)], axis=-1)
        quiet = self.ridge[inside]
        noise = 1.4826 * float(np.median(np.abs(quiet - np.median(quiet)))) if quiet.size else 1.0
        self.least = max(_FAINT, _SURE * noise)
        self.used = np.zeros(dark.shape, np.uint8)

    def lines(self) -> list[tuple[Array, float, tuple[bool, bool]]]:
        """(places, strength, arrows) of every line, from the strongest seed on."""
        ridge = np.where(self.inside, self.ridge, 0.0)
        top = cv2.dilate(ridge.astype(np.float32), np.ones((3, 3), np.uint8))
        y, x = np.nonzero((ridge >= top) & (ridge > 1.6 * self.least))
        found: list[tuple[Array, float, tuple[bool, bool]]] = []
        for k in np.argsort(-ridge[y, x]):
            if self.used[y[k], x[k]]:
                continue
            line = self._line(np.array([x[k], y[k]], float))
            cv2.polylines(self.used, [np.round(line).astype(np.int32)], False, 1, max(3, round(1.0 * self.per_mm)))
            line = self._of_one_hand(line)
            if np.hypot(*np.diff(line, axis=0).T).sum() >= LEAST_LENGTH * self.per_mm:
                strength = float(np.median(self._at(self.ridge, line)))
                found.append((line, strength, (self._arrow(line), self._arrow(line[::-1]))))
            if len(found) >= MOST_STROKES:
                break
        return found

    def _line(self, seed: Array) -> Array:
        way = self.along[int(seed[1]), int(seed[0])]
        back, forth = self._walk(seed, -way), self._walk(seed, way)
        return np.array([*back[::-1], seed, *forth])

    def _of_one_hand(self, line: Array) -> Array:
        """The line without ends where it is all at once much fainter: there it has run on along a ruling."""
        values = median_filter(self._at(self.ridge, line), _STEADY, mode="nearest")
        usual = float(np.median(values))
        if usual <= 0.0:  # more gap than line
            return line
        dark = np.flatnonzero(values > _FADED * usual)
        start, stop = int(dark[0]), int(dark[-1]) + 1
        return line[start if start > _STEADY else 0 : stop if len(line) - stop > _STEADY else len(line)]

    def _walk(self, start: Array, way: Array) -> list[Array]:
        """Places from a start on, one way, while there is a line; the light is looked for a little to either side."""
        step, reach = _STEP * self.per_mm, max(_SIDEWAYS * self.per_mm, 1.0)
        offsets = np.linspace(-reach, reach, 7)
        places, good, trail = [start], 0, [start]
        while (len(places) - 1 - good) * _STEP <= _GAP and len(places) < 4000:
            ahead = places[-1] + step * way
            if not self._holds(ahead):
                break
            side = np.array([-way[1], way[0]])
            options = ahead + offsets[:, None] * side
            values = self._at(self.ridge, options) * (1 - 0.04 * np.abs(np.arange(-3, 4)))
            best = int(values.argmax())
            at = self.along[int(ahead[1]), int(ahead[0])]
            if values[best] < self.least or abs(float(at @ way)) < 0.8:
                places.append(ahead)
                continue
            places.append(options[best])
            good = len(places) - 1
            trail.append(options[best])
            came = trail[-1] - trail[max(0, len(trail) - 8)]
            if len(trail) > 4:
                way = came / max(float(np.hypot(*came)), 1e-9)
        return places[1 : good + 1]

    def _holds(self, at: Array) -> bool:
        x, y = round(float(at[0])), round(float(at[1]))
        return 0 <= y < self.inside.shape[0] and 0 <= x < self.inside.shape[1] and bool(self.inside[y, x])

    def _at(self, picture: NDArray[np.float32], places: Array) -> Array:
        x, y = (np.ascontiguousarray(places[:, k], np.float32)[None] for k in (0, 1))
        values = np.asarray(cv2.remap(picture, x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE), float)
        return values.reshape(-1)

    def _arrow(self, line: Array) -> bool:
        """Whether the line's first end has a head: dark paper on both sides behind the tip, and not farther on."""
        start, end = axis_ends(line)
        whole = end - start
        if float(np.hypot(*whole)) < 6.0 * self.per_mm:
            return False
        way = whole / np.hypot(*whole)
        core = float(np.median(self._at(self.dark, line)))
        middles = [start + share * whole for share in (0.4, 0.5, 0.6)]
        near = np.array([-0.2, 0.0, 0.2])
        plain = min(self._beside(at, way, sign, near) for at in middles for sign in (-1.0, 1.0))
        back = np.arange(1.9, 3.3, 0.2)
        tips = [start - ahead * self.per_mm * way for ahead in (0.0, 1.0, 2.0, 3.0)]
        heads = max(min(self._beside(tip, way, sign, back) for sign in (-1.0, 1.0)) for tip in tips)
        return heads - max(plain, 0.0) > _HEAD * core

    def _beside(self, tip: Array, way: Array, sign: float, back: Array) -> float:
        """How dark the paper is on one side of a line, so far behind its tip, where the barb of a head would be."""
        back = back[:, None]
        out = np.maximum(np.linspace(0.3, 0.8, 5) * back, np.linspace(0.75, 1.3, 5))
        at = tip + self.per_mm * (back[..., None] * way + (sign * out)[..., None] * np.array([-way[1], way[0]]))
        return float(np.median(self._at(self.dark, at.reshape(-1, 2)).reshape(at.shape[:2]).max(axis=1)))


def _strong(strokes: Sequence[PaperStroke]) -> list[PaperStroke]:
    """Those that are not much fainter than the strongest that are a few mm long."""
    if not strokes:
        return []
    dark = float(np.percentile([each.strength for each in strokes if each.length > 3] or [0.0], 90))
    return [each for each in strokes if each.strength > _LEAST_DARK * dark]


def _without_grid(strokes: list[PaperStroke]) -> list[PaperStroke]:
    """Without the lines of squared paper: many, in two directions square to each other, with even spaces."""
    straight = [each for each in strokes if each.length > 4 and each.bow < 0.02 * each.length + 0.3]
    if len(straight) < _GRID:
        return strokes
    angles = np.array([np.arctan2(each.chord[1], each.chord[0]) for each in straight])
    lengths = np.array([each.length for each in straight])
    # Directions are alike where four times their angle is: the one most lines are near to.
    near = np.cos(4 * (angles[:, None] - angles[None])) > np.cos(4 * _GRID_LEAN)
    theta = float(angles[int((near * lengths).sum(axis=1).argmax())])
    grid: list[PaperStroke] = []
    count = 0
    for way in (np.array([np.cos(theta), np.sin(theta)]), np.array([-np.sin(theta), np.cos(theta)])):
        side = np.array([-way[1], way[0]])
        family = [each for each in straight if abs(float(each.chord @ side)) < _GRID_LEAN * each.length]
        places = np.array([float(each.points.mean(axis=0) @ side) for each in family])
        on = _on_lattice(places)
        count += len(np.unique(np.round(places[on] / 2)))
        grid += [each for each, here in zip(family, on, strict=True) if here]
    if count < _GRID:
        return strokes
    usual = float(np.median([each.strength for each in grid]))
    dropped = {id(each) for each in grid if each.strength < _GRID_STRENGTH * usual}
    return [each for each in strokes if id(each) not in dropped]


def _on_lattice(places: Array) -> NDArray[np.bool_]:
    """Which places lie at multiples of a space of squared paper, where most of four or more do."""
    unique = np.unique(np.round(places)) if len(places) else places
    if len(unique) < 4:
        return np.zeros(len(places), np.bool_)
    spaces = np.concatenate([space * np.linspace(0.98, 1.02, 21) for space in _SQUARES])
    turns = np.exp(2j * np.pi * unique[None] / spaces[:, None]).mean(axis=1)
    best = int(np.abs(turns).argmax())
    if abs(turns[best]) < _GRID_EVEN:
        return np.zeros(len(places), np.bool_)
    off = np.angle(np.exp(2j * np.pi * places / spaces[best]) / turns[best]) / (2 * np.pi)
    return np.asarray(np.abs(off) < 0.2, np.bool_)
