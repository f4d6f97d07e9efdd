"""A photo as if it had been taken straight from above: a picture of the table at so many pixels to the mm."""

from dataclasses import dataclass
from typing import Final

import cv2
import numpy as np

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.photo_image import Image
from panelwright.intake.photo_view import PhotoView

_ROWS: Final = 256
# Pixels between places that are looked up in the photo; in between the way through a lens is as good as straight.
_SPACE: Final = 8
_FAR: Final = 1e6
# What the photo shows much smaller than the sheet is far off and of no use: the least share of the sheet's resolution.
_LEAST_SHARE: Final = 0.3


@dataclass(frozen=True, eq=False)
class Rectified:
    """A picture of the plane of the table.

    Attributes:
        picture: blue, green, red, shape (height, width, 3), the first row at the top.
        shown: which of its pixels the photo shows, shape (height, width).
        per_mm: pixels to the mm.
        left, top: place of the outer corner of its first pixel on the plane, mm.
    """

    picture: Image
    shown: np.ndarray[tuple[int, int], np.dtype[np.bool_]]
    per_mm: float
    left: float
    top: float

    def to_plane(self, pixels: Array) -> Array:
        """Points of the plane, mm, of pixels (x, y) of the picture, shape (n, 2)."""
        points: Array = np.array([self.left, self.top]) + (pixels + 0.5) / self.per_mm * np.array([1.0, -1.0])
        return points

    def to_pixels(self, points: Array) -> Array:
        """Pixels (x, y) of points of the plane, shape (n, 2)."""
        pixels: Array = (points - np.array([self.left, self.top])) * np.array([1.0, -1.0]) * self.per_mm - 0.5
        return pixels


def useful_area(view: PhotoView, at_sheet: float) -> tuple[Array, Array]:
    """(lower left, upper right), mm, of the part of the table that the photo shows large enough.

    Args:
        view: of the photo.
        at_sheet: its resolution at the sheet, pixels per mm.

    Raises:
        InputError: if there is no such part: the camera looked along the table.
    """
    y, x = np.meshgrid(np.linspace(0, view.height - 1, 40), np.linspace(0, view.width - 1, 40))
    points = view.to_plane(np.column_stack([np.ravel(x), np.ravel(y)]))
    points = points[view.in_front(points)]
    near = points[view.resolution(points) > _LEAST_SHARE * at_sheet]
    if not len(near):
        raise InputError(
            "the camera looked along the table, so that almost all of it is shown too small: hold the camera above the "
            "pieces and take the photo again",
            "photo",
        )
    return near.min(axis=0), near.max(axis=0)


def rectified(pixels: Image, view: PhotoView, low: Array, high: Array, per_mm: float) -> Rectified:
    """The part of the table from `low` to `high`, mm.

    Args:
        pixels: the photo.
        view: how it looks at the table.
        low, high: lower left and upper right of the part.
        per_mm: pixels to the mm of the result.
    """
    width, height = (max(1, int(n)) for n in np.ceil((high - low) * per_mm))
    middle = ((low + high) / 2)[None]
    shrink = min(1.0, 1.5 * per_mm / float(view.resolution(middle)[0]))
    small = cv2.resize(pixels, None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA) if shrink < 0.8 else pixels
    factor = np.array([small.shape[1] / view.width, small.shape[0] / view.height], np.float32)
    result = Rectified(
        np.zeros((height, width, 3), np.uint8),
        np.zeros((height, width), np.bool_),
        per_mm,
        float(low[0]),
        float(high[1]),
    )
    across, down = (np.arange(0, n + _SPACE, _SPACE) for n in (width, height))
    points = result.to_plane(np.stack(np.meshgrid(across, down), axis=-1).reshape(-1, 2).astype(float))
    seen = np.clip(view.to_photo(points), -_FAR, _FAR).reshape(len(down), len(across), 2).astype(np.float32)
    front = view.in_front(points).reshape(seen.shape[:2]).astype(np.float32)
    for start in range(0, height, _ROWS):
        rows = slice(start, min(start + _ROWS, height))
        x, y = np.meshgrid(*(np.arange(a, b, dtype=np.float32) / _SPACE for a, b in ((0, width), (start, rows.stop))))
        places = cv2.remap(seen, x, y, cv2.INTER_LINEAR)
        at = (places + np.float32(0.5)) * factor - np.float32(0.5)
        result.picture[rows] = cv2.remap(
            small, at[..., 0], at[..., 1], cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE
        )
        within = (places >= 0) & (places <= np.array([view.width - 1, view.height - 1], np.float32))
        result.shown[rows] = within.all(axis=-1) & (cv2.remap(front, x, y, cv2.INTER_LINEAR) == 1.0)
    return result
