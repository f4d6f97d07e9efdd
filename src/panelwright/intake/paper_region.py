"""Parts of a picture that look like one piece of paper each."""

from dataclasses import dataclass
from typing import Final

import cv2
import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.intake.pixel_mask import Mask, disc, opened, without_holes
from panelwright.intake.rectified import Rectified

LEAST_AREA: Final = 250.0  # mm²
LEAST_WIDTH: Final = 4.0  # mm
PENCIL: Final = 0.9  # mm: half of the widest gap that a pencil line makes in paper
# What is drawn at the edge, and a notch that is cut, makes gaps there up to so wide (half) and long, mm.
_SIGN: Final = 3.0
_LONGEST_SIGN: Final = 9.0
# The tip of a corner that an even part does not reach: its area, mm², and length, mm.
_LARGEST_TIP: Final = 8.0
_LONGEST_TIP: Final = 5.0
_LEAST_SOLID: Final = 0.3  # share of a piece that is paper; less is what light lines on a table enclose
_ROUND: Final = 12.0  # mm round a piece where the table is looked at


@dataclass(frozen=True, eq=False)
class PaperRegion:
    """A part of the picture that looks like one piece of paper.

    Attributes:
        contour: its rough outline on the plane, mm, anticlockwise, shape (n, 2).
        cut_off: whether it runs out of the photo.
        joined: whether two parts as large as pieces hang together in it by no more than a narrow bridge.
        alike: share of the table close round it that has the paper's colour too.
        even: whether it was found as an even part that ends in a step all round, and not by its colour alone.
    """

    contour: Array
    cut_off: bool
    joined: bool
    alike: float = 0.0
    even: bool = False


def regions_of(rect: Rectified, paper: Mask, sheet: Mask, within: Mask | None = None) -> list[PaperRegion]:
    """The parts of a mask that can be pieces, without pencil lines, bridges and crumbs.

    Args:
        rect: the table from above.
        paper: what has the paper's colour.
        sheet: the reference sheet, which is left out.
        within: where pieces may be; everywhere, if it is not given.
    """
    own: cv2.typing.MatLike = (paper & ~sheet).astype(np.uint8)
    own = cv2.morphologyEx(own, cv2.MORPH_CLOSE, disc(PENCIL * rect.per_mm))
    own = own if within is None else _trimmed(own, within, rect.per_mm)
    solid = own > 0
    own = without_holes(own)
    wide = disc(LEAST_WIDTH / 2 * rect.per_mm)
    bodies, labels, stats, _ = cv2.connectedComponentsWithStats(cv2.morphologyEx(own, cv2.MORPH_OPEN, wide))
    own = _mended(own, rect.per_mm)
    body = cv2.morphologyEx(own, cv2.MORPH_OPEN, wide)
    own = cv2.bitwise_and(cv2.dilate(body, wide), own)
    large = [k for k in range(1, bodies) if stats[k, cv2.CC_STAT_AREA] > LEAST_AREA * rect.per_mm**2]
    edge = cv2.erode(rect.shown.astype(np.uint8), disc(1.5)) == 0
    edge[[0, -1]] = True
    edge[:, [0, -1]] = True
    found = []
    every, _ = cv2.findContours(own, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    contours = [contour for contour in every if cv2.contourArea(contour) >= LEAST_AREA * rect.per_mm**2]
    pieces = cv2.drawContours(np.zeros_like(own), contours, -1, 1, cv2.FILLED) > 0
    table = _Table.of(paper, pieces | sheet | ~rect.shown, rect.per_mm)
    for contour in contours:
        pixels = contour.reshape(-1, 2)
        cut_off = float(edge[pixels[:, 1], pixels[:, 0]].sum()) > 3 * rect.per_mm
        filled = cv2.drawContours(np.zeros_like(own), [contour], 0, 1, cv2.FILLED) > 0
        if float(solid[filled].mean()) < _LEAST_SOLID:
            continue
        joined = len(set(np.unique(labels[filled]).tolist()) & set(large)) > 1
        points = rect.to_plane(pixels.astype(float))
        signed = float((points[:, 0] * np.roll(points[:, 1], -1) - points[:, 1] * np.roll(points[:, 0], -1)).sum())
        alike = table.alike(filled)
        found.append(PaperRegion(points if signed > 0 else points[::-1], cut_off, joined, alike, within is not None))
    return sorted(found, key=lambda region: -len(region.contour))


def _trimmed(own: cv2.typing.MatLike, within: Mask, per_mm: float) -> cv2.typing.MatLike:
    """The mask without what hangs on its even parts, but for tips as small as corners have."""
    rest = np.where(within, 0, own).astype(np.uint8)
    _, labels, stats, _ = cv2.connectedComponentsWithStats(rest)
    longest = np.maximum(stats[:, cv2.CC_STAT_WIDTH], stats[:, cv2.CC_STAT_HEIGHT])
    tips = (stats[:, cv2.CC_STAT_AREA] < _LARGEST_TIP * per_mm**2) & (longest < _LONGEST_TIP * per_mm)
    tips[0] = False
    return np.where(within | tips[labels], own, 0).astype(np.uint8)


@dataclass(frozen=True, eq=False)
class _Table:
    """What of the table looks like paper, but for specks, and what is no table, smaller by a factor."""

    shrink: float
    round: cv2.typing.MatLike
    paper: Mask
    elsewhere: Mask

    @classmethod
    def of(cls, paper: Mask, elsewhere: Mask, per_mm: float) -> "_Table":
        shrink = min(1.0, 1.5 / per_mm)
        beside = cv2.dilate(_shrunk(elsewhere, shrink).astype(np.uint8), disc(1.5 * shrink * per_mm)) > 0
        return cls(shrink, disc(_ROUND * shrink * per_mm), _shrunk(opened(paper, 0.7 * per_mm), shrink), beside)

    def alike(self, piece: Mask) -> float:
        """Share of the table round a piece that looks like paper."""
        small = _shrunk(piece, self.shrink).astype(np.uint8)
        x, y, wide, high = cv2.boundingRect(small)
        reach = self.round.shape[0] // 2
        part = slice(max(0, y - reach), y + high + reach), slice(max(0, x - reach), x + wide + reach)
        near = cv2.dilate(small[part], self.round) > 0
        near &= ~self.elsewhere[part]
        return float(self.paper[part][near].mean()) if near.sum() > 20 else 0.0


def _shrunk(mask: Mask, shrink: float) -> Mask:
    small = cv2.resize(mask.astype(np.uint8), None, fx=shrink, fy=shrink, interpolation=cv2.INTER_NEAREST)
    return np.asarray(small > 0, np.bool_)


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
        gaps = cv2.morphologyEx(alone, cv2.MORPH_CLOSE, disc(_SIGN * per_mm)) - alone
        gaps[(labels[part] != 0) & (labels[part] != k)] = 0
        _, parts, sizes, _ = cv2.connectedComponentsWithStats(gaps)
        longest = np.maximum(sizes[:, cv2.CC_STAT_WIDTH], sizes[:, cv2.CC_STAT_HEIGHT])
        small = longest < _LONGEST_SIGN * per_mm
        small[0] = False
        mended[part][small[parts]] = 1
    return mended
