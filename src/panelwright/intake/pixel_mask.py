"""Colours of a picture's pixels, and masks over them: grown, opened, filled."""

from collections.abc import Sequence

import cv2
import numpy as np
from numpy.typing import NDArray

from panelwright.geometry.arrays import Array
from panelwright.intake.rectified import Rectified

Mask = NDArray[np.bool_]
Colours = NDArray[np.float32]  # brightness and two tints of each pixel, logarithms, shape (height, width, 3)


def without_holes(mask: cv2.typing.MatLike) -> cv2.typing.MatLike:
    """The mask with everything that it encloses, but for gaps as large as a piece."""
    contours, tree = cv2.findContours(mask, cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE)
    filled = mask.copy()
    for k, contour in enumerate(contours):
        if tree[0][k][3] >= 0 and cv2.contourArea(contour) < 0.2 * cv2.contourArea(contours[tree[0][k][3]]):
            cv2.drawContours(filled, [contour], 0, 1, cv2.FILLED)
    return filled


def filled(rect: Rectified, outlines: Sequence[Array], margin: float) -> Mask:
    """The inside of outlines, grown by a margin in mm."""
    mask: cv2.typing.MatLike = np.zeros(rect.shown.shape, np.uint8)
    for outline in outlines:
        cv2.fillPoly(mask, [np.round(rect.to_pixels(outline)).astype(np.int32)], 1)
    if margin:
        change = cv2.dilate if margin > 0 else cv2.erode
        mask = change(mask, disc(abs(margin) * rect.per_mm))
    return np.asarray(mask > 0, np.bool_)


def opened(mask: Mask, radius: float) -> Mask:
    """The mask without parts narrower than twice a radius, pixels."""
    return np.asarray(cv2.morphologyEx(mask.astype(np.uint8), cv2.MORPH_OPEN, disc(radius)) > 0, np.bool_)


def disc(radius: float) -> cv2.typing.MatLike:
    """A round kernel, its radius in pixels."""
    size = 2 * max(1, round(radius)) + 1
    return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size))
