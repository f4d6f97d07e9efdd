"""Which parts of the table are paper: by the paper's own colour under the lamp, against all that lies round it."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import cv2
import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import gaussian_filter1d

from panelwright.geometry.arrays import Array
from panelwright.intake.photo_markers import linear
from panelwright.intake.rectified import Rectified

Mask = NDArray[np.bool_]

ROUNDS: Final = 4
# Standard deviations of a paper's brightness and two tints (logarithms), before it is known better; the least of each.
_FIRST: Final = np.array([0.22, 0.05, 0.05])
_LEAST: Final = np.array([0.05, 0.018, 0.018])
# Bins of the table's colours: brightness and two tints.
_LOW: Final = np.array([-3.2, -1.2, -1.2])
_HIGH: Final = np.array([0.8, 1.2, 1.2])
_BINS: Final = (64, 32, 32)
# Share of colours that no table was seen to have, and most that one pixel may say (logarithm of odds).
_UNSEEN: Final = 0.02
_MOST_ODDS: Final = 5.0
_LIGHT_REACH: Final = 30.0  # mm within which the light is taken to be even
LEAST_AREA: Final = 250.0  # mm²
LEAST_WIDTH: Final = 4.0  # mm
_PENCIL: Final = 0.9  # mm: half of the widest gap that a pencil line makes in paper
# What is drawn at the edge, and a notch that is cut, makes gaps there up to so wide (half) and long, mm.
_SIGN: Final = 3.0
_LONGEST_SIGN: Final = 9.0
_ROUND: Final = 12.0  # mm round a piece where the table is looked at


@dataclass(frozen=True, eq=False)
class PaperRegion:
    """A part of the picture that looks like one piece of paper.

    Attributes:
        contour: its rough outline on the plane, mm, anticlockwise, shape (n, 2).
        cut_off: whether it runs out of the photo.
        joined: whether two parts as large as pieces hang together in it by no more than a narrow bridge.
        alike: share of the table close round it that has the paper's colour too.
    """

    contour: Array
    cut_off: bool
    joined: bool
    alike: float = 0.0


def paper_regions(rect: Rectified, strips: Sequence[Array], known: Sequence[PaperRegion] = ()) -> list[PaperRegion]:
    """Pieces of paper on the table but for the reference sheet, the largest first.

    The colour of paper is that of the sheet first. Where nothing but the sheet has it, it is that of the largest part
    whose colour the table does not have all over.

    Args:
        rect: the table from above.
        strips: outlines of the sheet or its strips, mm.
        known: regions found on another picture of the same table: they have the paper's colour.
    """
    colours = _colours(rect)
    sheet = _filled(rect, strips, 0.0)
    near_sheet = _filled(rect, strips, 1.5)
    if known:
        inner = _filled(rect, [region.contour for region in known], -1.5) & rect.shown & ~near_sheet
        return _regions(rect, _paper(rect, colours, inner, near_sheet), near_sheet)
    white = _filled(rect, strips, -1.5) & rect.shown & _bright(colours, sheet & rect.shown)
    found = _regions(rect, _paper(rect, colours, white, near_sheet), near_sheet)
    if found:
        return found
    other = _unlike_table(rect, colours - np.median(colours[white], axis=0), near_sheet)
    if not other.any():
        return []
    return _regions(rect, _paper(rect, colours, other, near_sheet), near_sheet)


def _colours(rect: Rectified) -> Array:
    """Brightness and two tints of each pixel, logarithms, shape (height, width, 3)."""
    smooth = cv2.bilateralFilter(rect.picture, 5, 25, 2)
    logs = np.log(linear(np.asarray(smooth, float)) + 0.012)
    blue, green, red = logs[..., 0], logs[..., 1], logs[..., 2]
    return np.stack([(blue + green + red) / 3, red - green, blue - green], axis=-1)


def _bright(colours: Array, sheet: Mask) -> Mask:
    """The unprinted part of the sheet: what is nearer to its brightest than to its darkest."""
    values = colours[..., 0]
    if not sheet.any():
        return sheet
    dark, light = np.percentile(values[sheet], [5, 90])
    return np.asarray(values > light - 0.35 * (light - dark), np.bool_)


def _rim_of(mask: Mask, rect: Rectified) -> Mask:
    inner = cv2.erode(mask.astype(np.uint8), _disc(1.5 * rect.per_mm))
    return np.asarray(mask & (inner == 0), np.bool_)


def _paper(rect: Rectified, colours: Array, seed: Mask, sheet: Mask) -> Mask:
    """Pixels of the colour that `seed` has: the paper's colour, the table's and the light are found in turn."""
    usable = rect.shown & ~sheet
    spread = _FIRST.copy()
    paper = seed.copy()
    light = np.zeros_like(colours)
    light += np.median(colours[seed], axis=0)
    for step in range(ROUNDS):
        apart = colours - light
        odds = _odds(apart, usable & ~paper, spread)
        soft = np.asarray(cv2.GaussianBlur(odds, (0, 0), max(0.5, 0.35 * rect.per_mm)))
        paper = (soft > 0) & rect.shown
        closed = cv2.morphologyEx((paper & ~sheet).astype(np.uint8), cv2.MORPH_CLOSE, _disc(_PENCIL * rect.per_mm))
        whole = _without_holes(closed) > 0
        lighter, darker = _shades(_opened(np.asarray(whole, np.bool_), 1.5 * rect.per_mm), apart[..., 0], rect.per_mm)
        if step + 1 == ROUNDS:
            paper &= ~darker
        else:
            sure = lighter | seed
            sure &= paper & (np.abs(apart[..., 0]) < 0.7)
            light = _light(colours, sure, rect.per_mm, light)
            rest = (colours - light)[sure]
            spread = np.clip(1.4826 * np.median(np.abs(rest), axis=0) * 2.0, _LEAST, _FIRST)
            spread[0] = max(spread[0], 0.07)
    return np.asarray(paper, np.bool_)


def _shades(paper: Mask, bright: Array, per_mm: float) -> tuple[Mask, Mask]:
    """(parts large enough for a piece; the darker of two shades in them, light table that runs on from paper)."""
    count, labels, stats, _ = cv2.connectedComponentsWithStats(paper.astype(np.uint8))
    bright = np.asarray(cv2.medianBlur(bright.astype(np.float32), 5), float)
    kept, dropped = np.zeros_like(paper), np.zeros_like(paper)
    for k in range(1, count):
        if stats[k, cv2.CC_STAT_AREA] < LEAST_AREA * per_mm**2:
            continue
        x, y, wide, high = (int(n) for n in stats[k, :4])
        part = (slice(y, y + high), slice(x, x + wide))
        own = labels[part] == k
        valley = _valley(bright[part][own])
        dark = own & (bright[part] <= valley)
        dark &= _sharp(bright[part], own, dark, per_mm)
        kept[part] |= own & ~dark
        dropped[part] |= dark
    return kept, dropped


def _sharp(bright: Array, own: Mask, dark: Mask, per_mm: float) -> bool:
    """Whether the step between a part's two shades is as sharp as an edge and not soft like a shadow's."""
    if not dark.any() or dark.sum() > 0.5 * own.sum():
        return False
    near = _disc(0.8 * per_mm)
    lighter = own & ~dark
    # At the rim of the whole part there is an edge anyhow.
    deep = cv2.erode(np.pad(own, 1).astype(np.uint8), _disc(2.0 * per_mm))[1:-1, 1:-1] > 0
    body = _opened(dark, 1.2 * per_mm).astype(np.uint8)
    border = lighter & deep & (cv2.dilate(body, near) > 0)
    if not border.any():
        return False
    low = cv2.erode(np.where(own, bright, 9.0).astype(np.float32), near)
    high = cv2.dilate(np.where(own, bright, -9.0).astype(np.float32), near)
    gap = float(np.median(bright[lighter]) - np.median(bright[dark]))
    inner = lighter & deep & (cv2.dilate(body, _disc(3 * per_mm)) == 0)
    even = float(np.median((high - low)[inner])) if inner.any() else 0.0
    return float(np.median((high - low)[border])) - even > 0.6 * gap


def _valley(values: Array) -> float:
    """The value between two distinct heaps of values, or minus infinity where they are one heap."""
    low, high = np.percentile(values, [1, 99])
    if high - low < 0.12:
        return -np.inf
    counts = np.histogram(values, bins=40, range=(low, high))[0].astype(float)
    heights = gaussian_filter1d(counts, 1.5, mode="constant")
    best, place = 1.0, -np.inf
    for k in range(6, 34):
        lower, upper = heights[:k].max(), heights[k + 1 :].max()
        share = heights[k] / max(min(lower, upper), 1.0)
        if share < best and lower > 0.04 * heights.max() and upper > 0.3 * heights.max():
            best, place = share, float(low + (k + 0.5) * (high - low) / 40)
    return place if best < 0.3 else -np.inf


def _odds(apart: Array, table: Mask, spread: Array) -> NDArray[np.float32]:
    """Logarithm of the odds of paper for each pixel, from its colour relative to paper's."""
    like = -0.5 * ((apart / spread) ** 2).sum(axis=-1) - np.log(spread * np.sqrt(2 * np.pi)).sum()
    flat = _cells(apart)
    odds = like - np.log(_density(_counted(flat, table)).ravel()[flat])
    return np.asarray(np.clip(odds, -_MOST_ODDS, _MOST_ODDS), np.float32)


def _unlike_odds(apart: Array, table: Mask) -> NDArray[np.float32]:
    """The same for paper of any colour, where the table's colours are those that most of its parts have."""
    flat = _cells(apart)
    parts = [_counted(flat, part) for part in _parts(table)]
    counts = np.sort(parts, axis=0)[: max(1, int(0.7 * len(parts)))].mean(axis=0)
    odds = -np.log(np.prod(_HIGH - _LOW)) - np.log(_density(counts).ravel()[flat])
    return np.asarray(np.clip(odds, -_MOST_ODDS, _MOST_ODDS), np.float32)


def _cells(apart: Array) -> NDArray[np.intp]:
    place = np.clip((apart - _LOW) / (_HIGH - _LOW) * _BINS, 0, np.array(_BINS) - 1).astype(np.intp)
    return np.asarray(np.ravel_multi_index(tuple(np.moveaxis(place, -1, 0)), _BINS), np.intp)


def _density(counts: Array) -> Array:
    cell = float(np.prod((_HIGH - _LOW) / _BINS))
    share = counts / max(float(counts.sum()), 1e-9)
    density: Array = (1 - _UNSEEN) * share / cell + _UNSEEN / float(np.prod(_HIGH - _LOW))
    return density


def _counted(flat: NDArray[np.intp], where: Mask) -> Array:
    """Shares of the colours, shape `_BINS`, a little smoothed."""
    counts = np.bincount(flat[where], minlength=int(np.prod(_BINS))).astype(float).reshape(_BINS)
    for axis in range(3):
        counts = _smoothed(counts, axis)
    share: Array = counts / max(float(counts.sum()), 1.0)
    return share


def _parts(mask: Mask) -> list[Mask]:
    """A mask in up to 36 parts, by place; parts that are nearly empty are left out."""
    rows, columns = (np.linspace(0, n, 7).astype(int) for n in mask.shape)
    found = []
    for top, bottom in pairwise(rows):
        for left, right in pairwise(columns):
            part = np.zeros_like(mask)
            part[top:bottom, left:right] = mask[top:bottom, left:right]
            if part.sum() > 0.001 * mask.sum():
                found.append(part)
    return found


def _smoothed(counts: Array, axis: int) -> Array:
    moved = np.moveaxis(counts, axis, 0)
    padded = np.pad(moved, ((1, 1), (0, 0), (0, 0)), mode="edge")
    return np.moveaxis(0.25 * padded[:-2] + 0.5 * padded[1:-1] + 0.25 * padded[2:], 0, axis)


def _light(colours: Array, sure: Mask, per_mm: float, before: Array) -> Array:
    """Colour that paper has at each pixel: the mean of sure paper near it, and a slope of light where there is none."""
    shrink = min(1.0, 0.5 / per_mm)
    weight = cv2.resize(sure.astype(np.float32), None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA)
    values = cv2.resize(
        (colours * sure[..., None]).astype(np.float32), None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA
    )
    known = weight > 0.3
    if known.sum() < 50:
        return before
    height, width = weight.shape
    y, x = np.meshgrid(np.linspace(-1, 1, height), np.linspace(-1, 1, width), indexing="ij")
    terms = np.stack([np.ones_like(x), x, y], axis=-1)
    means = values[known] / weight[known][:, None]
    damp = np.diag([0.0, 1.0, 1.0]) * 0.02 * known.sum()
    slope = np.linalg.solve(terms[known].T @ terms[known] + damp, terms[known].T @ means)
    trend = (terms @ slope).astype(np.float32)
    reach = _LIGHT_REACH * shrink * per_mm
    near = cv2.GaussianBlur(weight, (0, 0), reach)
    rest = cv2.GaussianBlur(values - trend * weight[..., None], (0, 0), reach)
    field = trend + rest / (near + 0.01)[..., None]
    return np.asarray(cv2.resize(field, colours.shape[1::-1], interpolation=cv2.INTER_LINEAR), float)


def _unlike_table(rect: Rectified, colours: Array, sheet: Mask) -> Mask:
    """The inside of the likeliest paper that is neither sheet nor table; colours relative to the sheet's white."""
    table = rect.shown & ~sheet
    if not table.any():
        return np.zeros_like(sheet)
    odds = _unlike_odds(colours, table)
    soft = np.asarray(cv2.GaussianBlur(odds, (0, 0), max(0.5, 0.5 * rect.per_mm)))
    unlike = _opened((soft > 0) & table, LEAST_WIDTH / 2 * rect.per_mm)
    count, labels, stats, _ = cv2.connectedComponentsWithStats(unlike.astype(np.uint8))
    rim = cv2.dilate((~rect.shown).astype(np.uint8), _disc(2.0)) > 0
    rim[[0, -1]] = True
    rim[:, [0, -1]] = True
    outside = set(np.unique(labels[rim]).tolist())
    best, chosen = 0.0, np.zeros_like(sheet)
    for k in range(1, count):
        if k in outside or stats[k, cv2.CC_STAT_AREA] < LEAST_AREA * rect.per_mm**2:
            continue
        own = (labels == k).astype(np.uint8)
        inner = np.asarray(cv2.erode(own, _disc(rect.per_mm)) > 0, np.bool_)
        likely = _paperness(own, colours[inner]) if inner.any() else 0.0
        if likely > best:
            best, chosen = likely, inner
    return chosen


def _paperness(mask: cv2.typing.MatLike, colours: Array) -> float:
    """How much a part looks like a piece of paper: large, compact, and of one colour."""
    contours, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_SIMPLE)
    outer = max(contours, key=cv2.contourArea)
    area, hull = float(mask.sum()), cv2.contourArea(cv2.convexHull(outer))
    spread = 1.4826 * np.median(np.abs(colours - np.median(colours, axis=0)), axis=0)
    uneven = float((spread / np.array([0.08, 0.04, 0.04])) @ np.ones(3))
    return area * (area / max(hull, 1.0)) ** 4 / (1 + uneven**2)


def _regions(rect: Rectified, paper: Mask, sheet: Mask) -> list[PaperRegion]:
    """The parts of a mask that can be pieces, without pencil lines, bridges and crumbs."""
    own: cv2.typing.MatLike = (paper & ~sheet).astype(np.uint8)
    own = cv2.morphologyEx(own, cv2.MORPH_CLOSE, _disc(_PENCIL * rect.per_mm))
    own = _without_holes(own)
    wide = _disc(LEAST_WIDTH / 2 * rect.per_mm)
    bodies, labels, stats, _ = cv2.connectedComponentsWithStats(cv2.morphologyEx(own, cv2.MORPH_OPEN, wide))
    own = _mended(own, rect.per_mm)
    body = cv2.morphologyEx(own, cv2.MORPH_OPEN, wide)
    own = cv2.bitwise_and(cv2.dilate(body, wide), own)
    large = [k for k in range(1, bodies) if stats[k, cv2.CC_STAT_AREA] > LEAST_AREA * rect.per_mm**2]
    edge = cv2.erode(rect.shown.astype(np.uint8), _disc(1.5)) == 0
    edge[[0, -1]] = True
    edge[:, [0, -1]] = True
    found = []
    every, _ = cv2.findContours(own, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    contours = [contour for contour in every if cv2.contourArea(contour) >= LEAST_AREA * rect.per_mm**2]
    pieces = cv2.drawContours(np.zeros_like(own), contours, -1, 1, cv2.FILLED) > 0
    for contour in contours:
        pixels = contour.reshape(-1, 2)
        cut_off = float(edge[pixels[:, 1], pixels[:, 0]].sum()) > 3 * rect.per_mm
        filled = cv2.drawContours(np.zeros_like(own), [contour], 0, 1, cv2.FILLED) > 0
        joined = len(set(np.unique(labels[filled]).tolist()) & set(large)) > 1
        points = rect.to_plane(pixels.astype(float))
        signed = float((points[:, 0] * np.roll(points[:, 1], -1) - points[:, 1] * np.roll(points[:, 0], -1)).sum())
        alike = _alike(paper, filled, pieces | sheet | ~rect.shown, rect.per_mm)
        found.append(PaperRegion(points if signed > 0 else points[::-1], cut_off, joined, alike))
    return sorted(found, key=lambda region: -len(region.contour))


def _alike(paper: Mask, piece: Mask, elsewhere: Mask, per_mm: float) -> float:
    """Share of the table round a piece that looks like paper, but for specks and other pieces."""
    shrink = min(1.0, 1.5 / per_mm)
    small = [
        cv2.resize(mask.astype(np.uint8), None, fx=shrink, fy=shrink, interpolation=cv2.INTER_NEAREST)
        for mask in (_opened(paper, 0.7 * per_mm), piece, elsewhere)
    ]
    near = cv2.dilate(small[1], _disc(_ROUND * shrink * per_mm)) > 0
    near &= cv2.dilate(small[2], _disc(1.5 * shrink * per_mm)) == 0
    return float((small[0] > 0)[near].mean()) if near.sum() > 20 else 0.0


def _mended(own: cv2.typing.MatLike, per_mm: float) -> cv2.typing.MatLike:
    """The mask without small gaps at the edges of its parts: arrows and ticks drawn there, notches cut there."""
    count, labels, stats, _ = cv2.connectedComponentsWithStats(own)
    mended, reach = own.copy(), int(np.ceil(_SIGN * per_mm)) + 2
    for k in range(1, count):
        if stats[k, cv2.CC_STAT_AREA] < LEAST_AREA * per_mm**2:
            continue
        x, y, wide, high = (int(n) for n in stats[k, :4])
        part = slice(max(0, y - reach), y + high + reach), slice(max(0, x - reach), x + wide + reach)
        alone = (labels[part] == k).astype(np.uint8)
        gaps = cv2.morphologyEx(alone, cv2.MORPH_CLOSE, _disc(_SIGN * per_mm)) - alone
        gaps[(labels[part] != 0) & (labels[part] != k)] = 0
        _, parts, sizes, _ = cv2.connectedComponentsWithStats(gaps)
        longest = np.maximum(sizes[:, cv2.CC_STAT_WIDTH], sizes[:, cv2.CC_STAT_HEIGHT])
        small = longest < _LONGEST_SIGN * per_mm
        small[0] = False
        mended[part][small[parts]] = 1
    return mended


def _without_holes(mask: cv2.typing.MatLike) -> cv2.typing.MatLike:
    """The mask with everything that it encloses, but for gaps as large as a piece."""
    contours, tree = cv2.findContours(mask, cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE)
    filled = mask.copy()
    for k, contour in enumerate(contours):
        if tree[0][k][3] >= 0 and cv2.contourArea(contour) < 0.2 * cv2.contourArea(contours[tree[0][k][3]]):
            cv2.drawContours(filled, contours, k, 1, cv2.FILLED)
    return filled


def _filled(rect: Rectified, outlines: Sequence[Array], margin: float) -> Mask:
    """The inside of outlines, grown by a margin in mm."""
    mask: cv2.typing.MatLike = np.zeros(rect.shown.shape, np.uint8)
    for outline in outlines:
        cv2.fillPoly(mask, [np.round(rect.to_pixels(outline)).astype(np.int32)], 1)
    if margin:
        change = cv2.dilate if margin > 0 else cv2.erode
        mask = change(mask, _disc(abs(margin) * rect.per_mm))
    return np.asarray(mask > 0, np.bool_)


def _opened(mask: Mask, radius: float) -> Mask:
    return np.asarray(cv2.morphologyEx(mask.astype(np.uint8), cv2.MORPH_OPEN, _disc(radius)) > 0, np.bool_)


def _disc(radius: float) -> cv2.typing.MatLike:
    size = 2 * max(1, round(radius)) + 1
    return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size))
