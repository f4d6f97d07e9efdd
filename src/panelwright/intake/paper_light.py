"""The light on the table, as paper shows it."""

from typing import Final

import cv2
import numpy as np

from panelwright.intake.pixel_mask import Colours, Mask

_LIGHT_REACH: Final = 30.0  # mm within which the light is taken to be even
_MOST_PIXELS: Final = 250_000  # of the smaller picture that it is looked for in


def paper_light(colours: Colours, sure: Mask, per_mm: float, before: Colours) -> Colours:
    """Colour that paper has at each pixel: the mean of sure paper near it, and a slope of light where there is none."""
    shrink = min(1.0, 0.5 / per_mm, float(np.sqrt(_MOST_PIXELS / sure.size)))
    weight = cv2.resize(sure.astype(np.float32), None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA)
    held = np.where(sure[..., None], colours, np.float32(0))
    values = cv2.resize(held, None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA)
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
    return np.asarray(cv2.resize(field, colours.shape[1::-1], interpolation=cv2.INTER_LINEAR), np.float32)
