"""Which parts of the table are paper: by the paper's own colour under the lamp, against all that lies round it."""

from collections.abc import Iterator, Sequence
from typing import Final

import cv2
import numpy as np
import shapely

from panelwright.geometry.arrays import Array
from panelwright.intake.even_parts import EvenParts, even_parts
from panelwright.intake.paper_light import paper_light
from panelwright.intake.paper_odds import paper_odds, unlike_odds
from panelwright.intake.paper_region import LEAST_AREA, LEAST_WIDTH, PENCIL, PaperRegion, regions_of
from panelwright.intake.paper_shades import two_shades
from panelwright.intake.photo_markers import linear
from panelwright.intake.pixel_mask import Colours, Mask, disc, filled, opened, without_holes
from panelwright.intake.rectified import Rectified

ROUNDS: Final = 4
_ROUND_PARTS: Final = 2.0  # mm round even parts where their paper may end
_LEAST_COVERED: Final = 0.7  # share of even parts that the paper found by their colour must hold
# Standard deviations of a paper's brightness and two tints (logarithms), before it is known better; the least of each.
_FIRST: Final = np.array([0.22, 0.05, 0.05])
_LEAST: Final = np.array([0.05, 0.018, 0.018])
# Of the light that each stored value stands for.
_LOGARITHMS: Final = np.log(linear(np.arange(256.0)) + 0.012).astype(np.float32)


def paper_attempts(rect: Rectified, strips: Sequence[Array]) -> Iterator[list[PaperRegion]]:
    """Pieces of paper on the table but for the reference sheet, the largest first, as one way after another finds them.

    The colour of paper is that of the sheet first. Where nothing but the sheet has it, it is that of the largest part
    whose colour the table does not have all over. Then it is that of parts that are even and end in a step all round,
    of the likeliest kind or, where that comes to nothing, of the next.

    Args:
        rect: the table from above.
        strips: outlines of the sheet or its strips, mm.
    """
    colours = _colours(rect)
    near_sheet = filled(rect, strips, 1.5)
    sheet = filled(rect, strips, 0.0)
    white = filled(rect, strips, -1.5) & rect.shown & _bright(colours, sheet & rect.shown)
    found = regions_of(rect, _paper(rect, colours, white, near_sheet), near_sheet)
    if not found:
        unlike = _unlike_table(rect, colours - np.float32(np.median(colours[white], axis=0)), near_sheet)
        found = regions_of(rect, _paper(rect, colours, unlike, near_sheet), near_sheet) if unlike.any() else []
    kinds = even_parts(rect, colours, near_sheet)
    overlooked = bool(found and kinds) and _overlooked(rect, kinds[0], found)
    if not overlooked:
        yield found
    others = (_even_regions(rect, colours, near_sheet, even) for even in kinds)
    regions = next((regions for regions in others if regions), [])
    if regions or overlooked:
        yield regions


def _even_regions(rect: Rectified, colours: Colours, near_sheet: Mask, even: EvenParts) -> list[PaperRegion]:
    """Pieces of the colour of even parts; none where the parts are not covered, or as large ones are left over."""
    paper = _paper(rect, colours, even.mask, near_sheet, near_seed=True)
    round_parts = cv2.dilate(even.every.astype(np.uint8), disc(_ROUND_PARTS * rect.per_mm)) > 0
    regions = regions_of(rect, paper, near_sheet, np.asarray(round_parts, np.bool_))
    is_all = _covered(rect, even, regions) > _LEAST_COVERED and not _left(rect, paper & ~near_sheet, regions)
    return regions if is_all else []


def _overlooked(rect: Rectified, parts: EvenParts, regions: Sequence[PaperRegion]) -> bool:
    """Whether parts are larger than all regions and none of them."""
    largest = max(float(shapely.Polygon(region.contour).area) for region in regions)
    return parts.largest > largest and _covered(rect, parts, regions) < 1 - _LEAST_COVERED


def _covered(rect: Rectified, parts: EvenParts, regions: Sequence[PaperRegion]) -> float:
    """The share of parts that lies in regions."""
    inside = filled(rect, [region.contour for region in regions], 0.0)
    return float((inside & parts.mask).sum()) / max(float(parts.mask.sum()), 1.0)


def _left(rect: Rectified, paper: Mask, regions: Sequence[PaperRegion]) -> bool:
    """Whether something else of the paper's colour is large enough to be a piece that was missed."""
    if not regions:
        return False
    smallest = min(float(shapely.Polygon(region.contour).area) for region in regions)
    rest = paper & ~filled(rect, [region.contour for region in regions], 2.5)
    _, _, stats, _ = cv2.connectedComponentsWithStats(opened(rest, LEAST_WIDTH * rect.per_mm).astype(np.uint8))
    return bool((stats[1:, cv2.CC_STAT_AREA] > max(0.5 * smallest, LEAST_AREA) * rect.per_mm**2).any())


def paper_again(rect: Rectified, strips: Sequence[Array], known: Sequence[PaperRegion]) -> list[PaperRegion]:
    """The same on another picture of the same table, where regions that are `known` from the first have the colour."""
    near_sheet = filled(rect, strips, 1.5)
    contours = [region.contour for region in known]
    inner = filled(rect, contours, -1.5) & rect.shown & ~near_sheet
    even = any(region.even for region in known)
    paper = _paper(rect, _colours(rect), inner, near_sheet, near_seed=even)
    return regions_of(rect, paper, near_sheet, filled(rect, contours, 0.3) if even else None)


def _colours(rect: Rectified) -> Colours:
    smooth = cv2.bilateralFilter(rect.picture, 5, 25, 2)
    logs = _LOGARITHMS[smooth]
    blue, green, red = logs[..., 0], logs[..., 1], logs[..., 2]
    return np.stack([(blue + green + red) / 3, red - green, blue - green], axis=-1)


def _bright(colours: Colours, sheet: Mask) -> Mask:
    """The unprinted part of the sheet: what is nearer to its brightest than to its darkest."""
    values = colours[..., 0]
    if not sheet.any():
        return sheet
    dark, light = np.percentile(values[sheet], [5, 90])
    return np.asarray(values > light - 0.35 * (light - dark), np.bool_)


def _paper(rect: Rectified, colours: Colours, seed: Mask, sheet: Mask, near_seed: bool = False) -> Mask:
    """Pixels of the colour that `seed` has: the paper's colour, the table's and the light are found in turn.

    `near_seed`: whether it lies where the pieces lie, so that it tells the light there from the first.
    """
    usable = rect.shown & ~sheet
    spread = _FIRST.copy()
    paper = seed.copy()
    light = np.zeros_like(colours)
    light += np.median(colours[seed], axis=0)
    if near_seed:
        light = paper_light(colours, seed, rect.per_mm, light)
        spread = _spread((colours - light)[seed])
    for step in range(ROUNDS):
        apart = colours - light
        odds = paper_odds(apart, usable & ~paper, spread)
        soft = np.asarray(cv2.GaussianBlur(odds, (0, 0), max(0.5, 0.35 * rect.per_mm)))
        paper = (soft > 0) & rect.shown
        closed = cv2.morphologyEx((paper & ~sheet).astype(np.uint8), cv2.MORPH_CLOSE, disc(PENCIL * rect.per_mm))
        whole = without_holes(closed) > 0
        lighter, darker = two_shades(opened(np.asarray(whole, np.bool_), 1.5 * rect.per_mm), apart[..., 0], rect.per_mm)
        if step + 1 == ROUNDS:
            paper &= ~darker
        else:
            sure = lighter | seed
            sure &= paper & (np.abs(apart[..., 0]) < 0.7)
            light = paper_light(colours, sure, rect.per_mm, light)
            spread = _spread((colours - light)[sure])
    return np.asarray(paper, np.bool_)


def _spread(apart: Colours) -> Array:
    """Standard deviations to reckon with for what is surely paper."""
    spread = np.clip(1.4826 * np.median(np.abs(apart), axis=0) * 2.0, _LEAST, _FIRST)
    spread[0] = max(spread[0], 0.07)
    return np.asarray(spread, float)


def _unlike_table(rect: Rectified, colours: Colours, sheet: Mask) -> Mask:
    """The inside of the likeliest paper that is neither sheet nor table; colours relative to the sheet's white."""
    table = rect.shown & ~sheet
    if not table.any():
        return np.zeros_like(sheet)
    odds = unlike_odds(colours, table)
    soft = np.asarray(cv2.GaussianBlur(odds, (0, 0), max(0.5, 0.5 * rect.per_mm)))
    unlike = opened((soft > 0) & table, LEAST_WIDTH / 2 * rect.per_mm)
    count, labels, stats, _ = cv2.connectedComponentsWithStats(unlike.astype(np.uint8))
    rim = cv2.dilate((~rect.shown).astype(np.uint8), disc(2.0)) > 0
    rim[[0, -1]] = True
    rim[:, [0, -1]] = True
    outside = set(np.unique(labels[rim]).tolist())
    best, chosen = 0.0, np.zeros_like(sheet)
    for k in range(1, count):
        if k in outside or stats[k, cv2.CC_STAT_AREA] < LEAST_AREA * rect.per_mm**2:
            continue
        own = (labels == k).astype(np.uint8)
        inner = np.asarray(cv2.erode(own, disc(rect.per_mm)) > 0, np.bool_)
        likely = _paperness(own, colours[inner]) if inner.any() else 0.0
        if likely > best:
            best, chosen = likely, inner
    return chosen


def _paperness(mask: cv2.typing.MatLike, colours: Colours) -> float:
    """How much a part looks like a piece of paper: large, compact, and of one colour."""
    contours, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_SIMPLE)
    outer = max(contours, key=cv2.contourArea)
    area, hull = float(mask.sum()), cv2.contourArea(cv2.convexHull(outer))
    spread = 1.4826 * np.median(np.abs(colours - np.median(colours, axis=0)), axis=0)
    uneven = float((spread / np.array([0.08, 0.04, 0.04])) @ np.ones(3))
    return area * (area / max(hull, 1.0)) ** 4 / (1 + uneven**2)
