"""Parts of the table of one colour with a step all round: what may be paper whatever its colour is."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import cv2
import numpy as np
from numpy.typing import NDArray

from panelwright.geometry.arrays import Array
from panelwright.intake.paper_region import LEAST_AREA, LEAST_WIDTH
from panelwright.intake.pixel_mask import Colours, Mask, disc, opened, without_holes
from panelwright.intake.rectified import Rectified

_PER_MM: Final = 2.0  # pixels, at most
_LINE: Final = 1.0  # mm: half of the widest line that is overlooked
_SIGN: Final = 4.0  # mm: half of the widest gap that something drawn at the edge makes
_REACH: Final = 1.0  # mm within which colours are compared
_TINTS: Final = 1.5  # weight of the two tints beside the brightness
_LEVELS: Final = (0.05, 0.08, 0.12, 0.18)  # steps (logarithm of light) below which a place is even
_LEAST_CLOSED: Final = 2.5
_SAME: Final = np.array([0.4, 0.05, 0.05])  # brightness and tints by which parts of one paper may differ
_ALIKE: Final = np.array([0.15, 0.03, 0.03])  # the same by which a place on the table looks like them
_MOST_ELSEWHERE: Final = 3.0
_MOST_COLOURS: Final = 5
_MOST_TRIED: Final = 2


@dataclass(frozen=True, eq=False)
class EvenParts:
    """Parts of one colour that may be paper.

    Attributes:
        mask: their pixels in the picture.
        every: pixels of all parts that end in a step, of whatever colour.
        largest: area of the largest, mm².
    """

    mask: Mask
    every: Mask
    largest: float


@dataclass(frozen=True, eq=False)
class _Part:
    """A part with a step all round: its mask's place in the picture, its own colour, how likely it is paper."""

    rows: slice
    columns: slice
    inner: Mask
    colour: Array
    likely: float


def even_parts(rect: Rectified, colours: Colours, sheet: Mask) -> list[EvenParts]:
    """What is likeliest paper of any colour, at most two kinds, the likeliest first.

    Paper is even, and ends in a step of colour, however small, all round; a table's grain and weave are not even, what
    is even on it runs on to the rim of the picture or has no sharp end, and its colours come again elsewhere.

    Args:
        rect: the table from above.
        colours: of its pixels.
        sheet: the reference sheet, which is left out.
    """
    shrink = min(1.0, _PER_MM / rect.per_mm)
    per_mm = rect.per_mm * shrink
    small = _plain(_smaller(colours, shrink), per_mm)
    usable = np.asarray((_smaller(rect.shown, shrink) > 0.99) & ~(_smaller(sheet, shrink) > 0.01), np.bool_)
    steps = _steps(small, per_mm)
    parts: list[_Part] = []
    taken = np.zeros(usable.shape, np.bool_)
    for level in _LEVELS:
        # What runs on from an even part at a higher level does so over a step.
        new = [part for part in _parts(small, steps, usable, per_mm, level) if not _holds(part, taken)]
        taken |= _together(new, usable)
        parts += new
    parts.sort(key=lambda part: -part.likely)
    every = _enlarged(_together([_mended(part, per_mm) for part in parts], usable), rect)
    found: list[tuple[float, EvenParts]] = []
    for _ in range(_MOST_COLOURS):
        if not parts:
            break
        same = [part for part in parts if (np.abs(part.colour - parts[0].colour) < _SAME).all()]
        mask = _together(same, usable)
        elsewhere = _elsewhere(small, mask, usable, parts[0].colour, per_mm)
        if elsewhere < _MOST_ELSEWHERE:
            area = max(float(part.inner.sum()) for part in same) / per_mm**2
            found.append((parts[0].likely / (1 + elsewhere), EvenParts(_enlarged(mask, rect), every, area)))
        parts = [part for part in parts if part not in same]
    return [each for _, each in sorted(found, key=lambda pair: -pair[0])[:_MOST_TRIED]]


def _holds(part: _Part, taken: Mask) -> bool:
    return bool((taken[part.rows, part.columns] & part.inner).any())


def _mended(part: _Part, per_mm: float) -> _Part:
    """The part without gaps where something is drawn at its edge."""
    closed = cv2.morphologyEx(part.inner.astype(np.uint8), cv2.MORPH_CLOSE, disc(_SIGN * per_mm))
    return replace(part, inner=np.asarray(without_holes(closed) > 0, np.bool_))


def _together(parts: Sequence[_Part], like: Mask) -> Mask:
    mask = np.zeros_like(like)
    for part in parts:
        mask[part.rows, part.columns] |= part.inner
    return mask


def _enlarged(mask: Mask, rect: Rectified) -> Mask:
    large = cv2.resize(mask.astype(np.uint8), rect.shown.shape[::-1], interpolation=cv2.INTER_NEAREST)
    return np.asarray(large > 0, np.bool_)


def _elsewhere(colours: Colours, mask: Mask, usable: Mask, colour: Array, per_mm: float) -> float:
    """How much more of a colour there is on the table than in parts that may be paper."""
    near = cv2.dilate(mask.astype(np.uint8), disc(2 * _REACH * per_mm)) > 0
    alike = usable & ~near
    for k in range(3):
        alike &= np.abs(colours[..., k] - np.float32(colour[k])) < _ALIKE[k]
    return float(alike.sum()) / max(float(mask.sum()), 1.0)


def _smaller(values: Colours | Mask, shrink: float) -> NDArray[np.float32]:
    single = values.astype(np.float32)
    return np.asarray(
        cv2.resize(single, None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA) if shrink < 1 else single,
        np.float32,
    )


def _plain(colours: Colours, per_mm: float) -> Colours:
    """The colours without pencil lines."""
    low = np.array([-4.0, -1.5, -1.5], np.float32)
    scale = np.array([4.5, 3.0, 3.0], np.float32)
    stored = np.clip((colours - low) / scale * 255, 0, 255).astype(np.uint8)
    stored[..., 0] = cv2.morphologyEx(np.ascontiguousarray(stored[..., 0]), cv2.MORPH_CLOSE, disc(_LINE * per_mm))
    plain = cv2.medianBlur(stored, 2 * max(1, round(_LINE * per_mm)) + 1).astype(np.float32)
    return np.asarray(plain / 255 * scale + low, np.float32)


def _steps(colours: Colours, per_mm: float) -> NDArray[np.float32]:
    """The largest difference of colour near each pixel."""
    weighted = colours * np.array([1.0, _TINTS, _TINTS], np.float32)
    smooth = cv2.GaussianBlur(weighted, (0, 0), max(0.5, 0.5 * per_mm))
    near = disc(_REACH * per_mm)
    return np.asarray((cv2.dilate(smooth, near) - cv2.erode(smooth, near)).max(axis=-1), np.float32)


def _parts(colours: Colours, steps: NDArray[np.float32], usable: Mask, per_mm: float, level: float) -> list[_Part]:
    """The parts that are even at a level and end in larger steps all round."""
    even = opened((steps < level) & usable, max(1.0, (LEAST_WIDTH / 2 - _REACH) * per_mm))
    _, labels, stats, _ = cv2.connectedComponentsWithStats(even.astype(np.uint8))
    blocked = cv2.dilate((~usable).astype(np.uint8), disc(2.0)) > 0
    blocked[[0, 1, -2, -1]] = True
    blocked[:, [0, 1, -2, -1]] = True
    outside = set(np.unique(labels[blocked]).tolist())
    reach = round(_SIGN * per_mm) + 2
    found = []
    for k in np.flatnonzero(stats[:, cv2.CC_STAT_AREA] > 0.5 * LEAST_AREA * per_mm**2):
        if k == 0 or k in outside:
            continue
        x, y, wide, high = (int(n) for n in stats[k, :4])
        rows, columns = slice(max(0, y - reach), y + high + reach), slice(max(0, x - reach), x + wide + reach)
        own = np.asarray(labels[rows, columns] == k, np.bool_)
        likely = _likely(own, steps[rows, columns], per_mm)
        if likely > 0:
            colour = np.median(colours[rows, columns][own], axis=0).astype(float)
            found.append(_Part(rows, columns, own, colour, likely))
    return found


def _likely(own: Mask, steps: NDArray[np.float32], per_mm: float) -> float:
    """How much an even part looks like paper: large, compact, and ending in much larger steps than it has inside."""
    contours, _ = cv2.findContours(own.astype(np.uint8), cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    outer = max(contours, key=cv2.contourArea)
    area, hull = cv2.contourArea(outer), cv2.contourArea(cv2.convexHull(outer))
    high = cv2.dilate(steps, disc(_REACH * per_mm))
    x, y = outer.reshape(-1, 2).T
    closed = float(np.percentile(high[y, x], 10)) / (float(np.percentile(steps[own], 80)) + 0.01)
    if closed < _LEAST_CLOSED:
        return 0.0
    return area * (area / max(hull, 1.0)) ** 2 * min(closed, 8.0)
