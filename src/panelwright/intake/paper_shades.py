"""Two shades in what seems to be one piece: light table that runs on from paper."""

import cv2
import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import gaussian_filter1d

from panelwright.intake.paper_region import LEAST_AREA
from panelwright.intake.pixel_mask import Mask, disc, opened


def two_shades(paper: Mask, bright: NDArray[np.float32], per_mm: float) -> tuple[Mask, Mask]:
    """(parts large enough for a piece; the darker of two shades in them, light table that runs on from paper)."""
    count, labels, stats, _ = cv2.connectedComponentsWithStats(paper.astype(np.uint8))
    bright = np.asarray(cv2.medianBlur(np.ascontiguousarray(bright), 5), np.float32)
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


def _sharp(bright: NDArray[np.float32], own: Mask, dark: Mask, per_mm: float) -> bool:
    """Whether the step between a part's two shades is as sharp as an edge and not soft like a shadow's."""
    if not dark.any() or dark.sum() > 0.5 * own.sum():
        return False
    near = disc(0.8 * per_mm)
    lighter = own & ~dark
    # At the rim of the whole part there is an edge anyhow.
    deep = cv2.erode(np.pad(own, 1).astype(np.uint8), disc(2.0 * per_mm))[1:-1, 1:-1] > 0
    body = opened(dark, 1.2 * per_mm).astype(np.uint8)
    border = lighter & deep & (cv2.dilate(body, near) > 0)
    if not border.any():
        return False
    low = cv2.erode(np.where(own, bright, np.float32(9.0)), near)
    high = cv2.dilate(np.where(own, bright, np.float32(-9.0)), near)
    gap = float(np.median(bright[lighter]) - np.median(bright[dark]))
    inner = lighter & deep & (cv2.dilate(body, disc(3 * per_mm)) == 0)
    even = float(np.median((high - low)[inner])) if inner.any() else 0.0
    return float(np.median((high - low)[border])) - even > 0.6 * gap


def _valley(values: NDArray[np.float32]) -> float:
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
