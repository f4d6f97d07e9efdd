"""The edge of a piece of paper to a fraction of a pixel, on the photo as it was taken."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import gaussian_filter1d, median_filter

from panelwright.geometry.arrays import Array, cross
from panelwright.intake.closed_line import even, line_noise, outward, smooth
from panelwright.intake.photo_image import Image
from panelwright.intake.photo_markers import linear, sampled
from panelwright.intake.photo_view import PhotoView

STEP: Final = 0.3  # mm between points of an outline
# How far inside and outside the rough outline its edge is looked for, mm, and between samples there.
_INSIDE: Final = 3.0
_OUTSIDE: Final = 2.4
_APART: Final = 0.08
_JUMPS: Final = (0.075, 0.12, 0.2)  # cost of each sample that the edge moves between neighbours, first and then
# An outline that is rougher than this, mm, is found once more, from the mean of neighbouring lines.
_ROUGH: Final = 0.04
_BEND: Final = 1.5  # mm on either side over which an outline that turns by more than _TURNS may have a corner
_TURNS: Final = np.radians(18.0)
_NEAR_AGAIN: Final = 0.9  # mm to either side where such a corner is looked for once more
_APART_ROUGH: Final = 0.2
_REACH: Final = 4  # most samples that it moves
_MOST_STRANGE: Final = 0.4  # most that dark places inside an edge cost: an arrow may be drawn there


@dataclass(frozen=True, eq=False)
class PaperOutline:
    """The outline of a piece of paper.

    Attributes:
        points: closed, anticlockwise, about `STEP` apart, mm of the plane, shape (n, 2).
        clear: for each point, how large the step from paper to table is against paper's own noise.
        step: the same against paper's light.
        light: of paper just inside each point, linear.
    """

    points: Array
    clear: Array
    step: Array
    light: Array

    @property
    def least_clear(self) -> float:
        """How clear all but a twentieth of the outline is."""
        return float(np.percentile(self.clear, 5))

    @property
    def rough(self) -> float:
        """Standard deviation of the points from a smooth line, mm."""
        return line_noise(even(self.points, _APART_ROUGH), _APART_ROUGH)


def paper_outline(pixels: Image, view: PhotoView, rough: Array) -> PaperOutline:
    """Where paper ends, near a rough outline.

    Along each of many short lines across the outline the paper's colour is taken from inside, and how far each sample
    is from it in linear light. The outline is the chain of places, one on each line, where that distance rises most:
    found together, by dynamic programming, so that a pencil line or the table's pattern does not lead it astray; each
    place is then refined to the middle of its rise.

    Args:
        pixels: the photo.
        view: how it looks at the plane.
        rough: closed, anticlockwise, mm, within 2 mm of the edge but for corners.
    """
    line = smooth(even(rough, STEP), 1.0 / STEP)
    for reach, jump in zip((1.0, 0.4, 0.6), _JUMPS, strict=True):
        line = even(line, STEP)
        rough_edge = line_noise(line, STEP) if jump == _JUMPS[-1] else 0.0
        if jump == _JUMPS[-1] and rough_edge < _ROUGH:
            break
        if rough_edge:
            line = even(smooth(line, 1.2 / STEP), STEP)
        across = outward(smooth(line, reach / STEP))
        offsets = np.arange(-_INSIDE, _OUTSIDE + _APART / 2, _APART)
        away, noise, bright = _away_from_paper(pixels, view, line, across, offsets)
        if rough_edge:
            away = gaussian_filter1d(away, min(1.2, 12 * rough_edge) / STEP, axis=0, mode="wrap")
        scale = max(0.7 / float(np.median(view.resolution(line[::10]))), _APART) / _APART
        rise = np.asarray(gaussian_filter1d(away, scale, axis=1, order=1, mode="nearest"), float)
        chosen = _chain(_cost(rise, away, noise, offsets), jump)
        place = offsets[0] + _APART * (chosen + _refined(rise, chosen))
        moved = line + place[:, None] * across
        beyond = _beyond(away, chosen)
        line = _with_corners(pixels, view, _with_corners(pixels, view, moved)) if rough_edge else moved
    return PaperOutline(line, beyond / noise, beyond / bright, bright)


def _with_corners(pixels: Image, view: PhotoView, line: Array) -> Array:
    """The outline with its corners measured once more: the mean over neighbours has rounded them."""
    way = np.roll(line, -round(_BEND / STEP), axis=0) - line
    before = line - np.roll(line, round(_BEND / STEP), axis=0)
    turns = np.abs(np.arctan2(cross(before, way), (before * way).sum(axis=1)))
    bent = (turns > _TURNS).astype(float)
    weight = np.clip(gaussian_filter1d(bent, 0.7 / STEP, mode="wrap") * 2, 0.0, 1.0)[:, None]
    if not bent.any():
        return line
    across = outward(smooth(line, 0.6 / STEP))
    wide = np.arange(-_INSIDE, _OUTSIDE + _APART / 2, _APART)
    away, _, _ = _away_from_paper(pixels, view, line, across, wide)
    away = gaussian_filter1d(away, 0.25 / STEP, axis=0, mode="wrap")
    scale = max(0.7 / float(np.median(view.resolution(line[::10]))), _APART) / _APART
    every = np.asarray(gaussian_filter1d(away, scale, axis=1, order=1, mode="nearest"), float)
    near = np.flatnonzero(np.abs(wide) <= _NEAR_AGAIN + 1e-6)
    rise = every[:, near]
    strength = np.maximum(np.percentile(rise, 97, axis=1), 1e-4)[:, None]
    chosen = _chain(-np.clip(rise / strength, 0.0, 1.0), 0.12)
    place = wide[near[0]] + _APART * (chosen + _refined(rise, chosen))
    return np.asarray(line + weight * place[:, None] * across, float)


def _away_from_paper(
    pixels: Image, view: PhotoView, line: Array, across: Array, offsets: Array
) -> tuple[Array, Array, Array]:
    """(distance from paper's colour for each sample, shape (n, m); noise and light of paper on each line, (n,))."""
    places = line[:, None] + offsets[None, :, None] * across[:, None]
    light = linear(sampled(pixels, view.to_photo(places)))
    inner = light[:, (offsets > -2.6) & (offsets < -0.9)]
    paper = np.median(inner, axis=1)
    wide = min(len(paper) // 2 * 2 - 1, 41)
    paper = np.stack([median_filter(paper[:, k], wide, mode="wrap") for k in range(3)], axis=-1)
    away = np.linalg.norm(light - paper[:, None], axis=-1)
    noise = np.median(np.linalg.norm(inner - paper[:, None], axis=-1), axis=1)
    noise = np.asarray(median_filter(noise, wide, mode="wrap"), float)
    return away, np.maximum(noise, 0.003), np.maximum(np.linalg.norm(paper, axis=-1), 0.01)


def _cost(rise: Array, away: Array, noise: Array, offsets: Array) -> Array:
    """What each sample costs as the edge: little where the distance rises, more for all inside that is no paper."""
    strength = np.percentile(rise, 97, axis=1)
    strength = np.asarray(median_filter(strength, min(len(strength) // 2 * 2 - 1, 31), mode="wrap"), float)
    gain = np.clip(rise / np.maximum(strength, 1e-4)[:, None], 0.0, 1.0)
    step = np.percentile(away, 90, axis=1)
    strange = np.clip(away / np.maximum(0.25 * step, 5 * noise)[:, None] - 0.6, 0.0, 1.0)
    inside = np.cumsum(strange, axis=1) - strange
    paper = np.clip(1.0 - away / np.maximum(0.35 * step, 3 * noise)[:, None], 0.0, 1.0)
    outside = np.cumsum(paper[:, ::-1], axis=1)[:, ::-1] - paper
    near = 0.02 * np.abs(offsets)[None]
    return -gain + np.minimum(0.06 * inside, _MOST_STRANGE) + 0.03 * outside + near


def _chain(cost: Array, jump: float) -> NDArray[np.intp]:
    """The cheapest closed chain of samples, one for each line, that moves little between neighbours, shape (n,).

    Run once round and a half: the seam lies in the part that is thrown away.
    """
    count, width = cost.shape
    turned = np.concatenate([cost, cost[: count // 2 + 1]])
    total = turned[0].copy()
    steps = np.zeros(turned.shape, np.int8)
    padded = np.full(width + 2 * _REACH, np.inf)
    before = np.lib.stride_tricks.sliding_window_view(padded, width)  # by how many samples the chain moves
    price = jump * np.abs(np.arange(-_REACH, _REACH + 1.0))[:, None]
    columns = np.arange(width)
    for k in range(1, len(turned)):
        padded[_REACH:-_REACH] = total
        options = before + price
        best = options.argmin(axis=0)
        steps[k] = best - _REACH
        total = turned[k] + options[best, columns]
    chain = np.zeros(len(turned), np.intp)
    chain[-1] = int(total.argmin())
    for k in range(len(turned) - 1, 0, -1):
        chain[k - 1] = chain[k] + steps[k, chain[k]]
    quarter = count // 4
    found = np.empty(count, np.intp)
    kept = np.arange(quarter, quarter + count)
    found[kept % count] = chain[kept]
    return found


def _refined(rise: Array, chosen: NDArray[np.intp]) -> Array:
    """From the chosen samples to the middle of the rise round them, in samples, by a parabola at its highest."""
    rows = np.arange(len(rise))
    best = chosen
    for _ in range(3):
        window = np.clip(best[:, None] + np.arange(-1, 2), 0, rise.shape[1] - 1)
        best = window[rows, rise[rows[:, None], window].argmax(axis=1)]
    best = np.clip(best, 1, rise.shape[1] - 2)
    low, mid, high = (rise[rows, best + k] for k in (-1, 0, 1))
    bend = low - 2 * mid + high
    shift = np.where(bend < -1e-12, 0.5 * (low - high) / np.where(bend < -1e-12, bend, -1.0), 0.0)
    return np.asarray(best - chosen + np.clip(shift, -0.5, 0.5), float)


def _beyond(away: Array, chosen: NDArray[np.intp]) -> Array:
    """How far from paper's colour the table is just outside each point."""
    rows = np.arange(len(away))
    reach = round(0.6 / _APART)
    beyond = away[rows[:, None], np.clip(chosen[:, None] + np.arange(2, reach + 1), 0, away.shape[1] - 1)]
    return np.asarray(np.median(beyond, axis=1), float)
