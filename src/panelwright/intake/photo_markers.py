"""The markers that a photo shows, their corners to a fraction of a pixel."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Final

import cv2
import numpy as np

from panelwright.drawing.reference_markers import DIFFERING, FIELDS, FIRST, PER_SHEET, Marker, markers, patterns
from panelwright.geometry.arrays import Array, cross
from panelwright.intake.photo_image import Image

# Markers are looked for on a picture of about this width first: larger ones only take longer.
_SOUGHT_AT: Final = (1800, 3600)
_SAMPLES: Final = 24
_LEAST_SIDE: Final = 14.0  # pixels
_LEAST_AROUND: Final = 0.015  # share of the picture's longer side
_MOST_SQUARES: Final = 500


@dataclass(frozen=True, eq=False)
class SeenMarker:
    """A marker that was found.

    Attributes:
        marker: which one.
        corners: pixels, shape (4, 2), in the order of `Marker.corners`.
        softness: standard deviation of the blur of its border, pixels.
    """

    marker: Marker
    corners: Array
    softness: float


def seen_markers(pixels: Image) -> tuple[str, tuple[SeenMarker, ...]]:
    """(paper of the sheet, its markers that the photo shows); of two sheets the one that shows more."""
    grey = cv2.cvtColor(pixels, cv2.COLOR_BGR2GRAY)
    found: dict[int, Array] = {}
    for width in _SOUGHT_AT:
        found |= _found(grey, width)
        if len(found) >= PER_SHEET or max(grey.shape) <= width:
            break
    papers = {paper: [m for m in markers(paper) if m.number in found] for paper in FIRST}
    paper = max(papers, key=lambda name: len(papers[name]))
    seen = [_refined(np.asarray(grey, np.uint8), marker, found[marker.number]) for marker in papers[paper]]
    return paper, tuple(each for each in seen if each is not None)


def _found(grey: cv2.typing.MatLike, width: int) -> dict[int, Array]:
    """Rough corners by marker number, looked for at a picture width."""
    factor = min(1.0, width / max(grey.shape))
    small = cv2.resize(grey, None, fx=factor, fy=factor, interpolation=cv2.INTER_AREA) if factor < 1 else grey
    settings = cv2.aruco.DetectorParameters()
    settings.adaptiveThreshWinSizeMax = 43
    settings.minMarkerPerimeterRate = max(_LEAST_AROUND, _crowded_below(small) / max(small.shape))
    quads, numbers, _ = cv2.aruco.ArucoDetector(_dictionary(), settings).detectMarkers(small)
    if numbers is None:
        return {}
    return {
        int(number): (np.asarray(quad, float).reshape(4, 2) + 0.5) / factor - 0.5
        for number, quad in zip(np.ravel(np.asarray(numbers)), quads, strict=True)
    }


def _crowded_below(small: cv2.typing.MatLike) -> float:
    """How long round a square must be, pixels, so that no more than `_MOST_SQUARES` are looked at; 0 if there are less.

    Each is compared with all others: a chequered cloth in a large photo would take minutes. Its checks are smaller than
    the sheet's squares, or they are few.
    """
    dark = cv2.adaptiveThreshold(small, 255, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY_INV, 23, 7)
    lines, _ = cv2.findContours(dark, cv2.RETR_LIST, cv2.CHAIN_APPROX_NONE)
    long = [line for line in lines if len(line) > _LEAST_AROUND * max(small.shape)]
    squares = [len(line) for line in long if len(cv2.approxPolyDP(line, 0.03 * len(line), True)) == 4]
    return float(sorted(squares)[-_MOST_SQUARES]) + 1 if len(squares) > _MOST_SQUARES else 0.0


@cache
def _dictionary() -> cv2.aruco.Dictionary:
    """The sheet's own patterns, of which up to three fields may be misread."""
    fields = patterns().astype(np.uint8)
    rows = np.concatenate([cv2.aruco.Dictionary.getByteListFromBits(each) for each in fields])
    return cv2.aruco.Dictionary(rows, FIELDS, (DIFFERING - 1) // 2)


def _refined(grey: Image, marker: Marker, rough: Array) -> SeenMarker | None:
    """Corners where straight lines through the middles of the border's four edges cross; None where it has none."""
    corners, softness = rough, 0.0
    for _ in range(2):
        lines = [_edge(grey, corners[k], corners[(k + 1) % 4]) for k in range(4)]
        if any(line is None for line in lines):
            return None
        sides = [line for line in lines if line is not None]
        corners = np.array([_crossing(sides[k - 1], sides[k]) for k in range(4)])
        softness = float(np.median([line[2] for line in sides]))
    if np.abs(corners - rough).max() > 0.25 * np.linalg.norm(rough[1] - rough[0]):
        return None
    return SeenMarker(marker, corners, softness)


def _edge(grey: Image, start: Array, end: Array) -> tuple[Array, Array, float] | None:
    """(point, unit direction, softness) of an edge of the black border that runs near start to end, black on its right.

    The profile across the edge is summed up in linear light: the place that parts it into black and white of the same
    sum is where the edge is, however soft the photo is.
    """
    along = end - start
    length = float(np.hypot(*along))
    if length < _LEAST_SIDE:
        return None
    along = along / length
    inward = np.array([-along[1], along[0]])
    reach = 0.8 * length / (FIELDS + 2)
    offsets = np.linspace(-reach, reach, 2 * int(np.ceil(reach / 0.4)) + 1)
    places = start + along * (length * np.linspace(0.12, 0.88, _SAMPLES))[:, None]
    at = places[:, None] + offsets[None, :, None] * inward
    light = linear(sampled(grey, at))
    quarter = max(1, len(offsets) // 5)
    white, black = light[:, :quarter].mean(axis=1), light[:, -quarter:].mean(axis=1)
    if np.median(white - black) < 0.02:
        return None
    share = np.clip((light - black[:, None]) / np.maximum(white - black, 1e-3)[:, None], -0.5, 1.5)
    step = offsets[1] - offsets[0]
    middles = offsets[0] - step / 2 + share.sum(axis=1) * step
    points = places + middles[:, None] * inward
    slope = -np.diff(share, axis=1)
    centres = (offsets[1:] + offsets[:-1]) / 2
    spread = (slope * (centres - middles[:, None]) ** 2).sum(axis=1)
    keep = np.abs(middles - np.median(middles)) < max(1.0, 3 * float(np.std(middles)))
    point, direction = fitted_line(points[keep])
    return point, direction, float(np.sqrt(max(float(np.median(spread)), 0.0)))


def fitted_line(points: Array) -> tuple[Array, Array]:
    """(middle, unit direction) of the straight line through points, shape (n, 2), by least squares twice over."""
    keep = np.ones(len(points), bool)
    for _ in range(2):
        middle = points[keep].mean(axis=0)
        way = np.linalg.svd(points[keep] - middle, full_matrices=False)[2][0]
        apart = np.abs(cross(points - middle, way))
        keep = apart <= max(2.5 * float(np.sqrt(np.mean(apart[keep] ** 2))), 1e-6)
    return middle, way


def _crossing(a: tuple[Array, Array, float], b: tuple[Array, Array, float]) -> Array:
    turning = float(cross(a[1], b[1]))
    along = float(cross(b[0] - a[0], b[1])) / (turning or 1e-9)
    return a[0] + along * a[1]


def sampled(picture: Image, at: Array) -> Array:
    """Values of a picture at places between its pixels, bilinear, shape (a, b, 2) -> (a, b) or (a, b, channels)."""
    x, y = (np.ascontiguousarray(at[..., k], np.float32) for k in (0, 1))
    return np.asarray(cv2.remap(picture, x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE), float)


def linear(values: Array) -> Array:
    """Light that stored values from 0 to 255 stand for, 0 to 1 (IEC 61966-2-1, the sRGB curve)."""
    share = values / 255.0
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)


def side_of(seen: Sequence[SeenMarker]) -> float:
    """How long the side of a marker is shown, the median over markers, pixels."""
    return float(np.median([np.linalg.norm(each.corners[1] - each.corners[0]) for each in seen]))


def spread_of(seen: Sequence[SeenMarker]) -> float:
    """Blur of the photo, the median over markers, pixels."""
    return float(np.median([each.softness for each in seen]))
