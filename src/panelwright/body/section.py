"""Horizontal sections of a torso: two superellipse halves with a breast form, and the tape laid round them.

Polar coordinates about the body's axis: angle 0 at centre front, pi/2 at the wearer's side, pi at centre
back; x to the wearer's side, y to the front. Only one half is kept, the other is its mirror image.
"""

from dataclasses import dataclass

import numpy as np
from scipy.spatial import ConvexHull

from panelwright.geometry.arrays import Array

ANGLES = np.linspace(0.0, np.pi, 361)


@dataclass(frozen=True)
class SectionShape:
    """Proportions of sections, one entry a row, each shape (r,).

    Attributes:
        depth_to_width: total depth over width.
        front_depth: share of the depth that lies before the axis.
        front_exponent, back_exponent: of the superellipse halves (2 is an ellipse, larger is boxier).
    """

    depth_to_width: Array
    front_depth: Array
    front_exponent: Array
    back_exponent: Array

    def radii(self) -> Array:
        """Radius at each of `ANGLES` for a width of 2, shape (r, 361)."""
        front, side, depth = np.abs(np.cos(ANGLES)), np.abs(np.sin(ANGLES)), 2 * self.depth_to_width[:, None]
        ahead = np.pi / 2 >= ANGLES
        reach = np.where(ahead, depth * self.front_depth[:, None], depth * (1 - self.front_depth[:, None]))
        exponent = np.where(ahead, self.front_exponent[:, None], self.back_exponent[:, None])
        radii: Array = (side**exponent + (front / reach) ** exponent) ** (-1 / exponent)
        return radii


def plane(radii: Array) -> Array:
    """Points (x, y) of sections given by their radii at `ANGLES`, shape (r, 361, 2)."""
    return np.stack([radii * np.sin(ANGLES), radii * np.cos(ANGLES)], axis=-1)


def girths(radii: Array) -> Array:
    """Whole girth of each section as it is drawn (both halves), shape (r,), mm."""
    steps = np.linalg.norm(np.diff(plane(radii), axis=1), axis=-1)
    total: Array = 2 * steps.sum(axis=1)
    return total


def taped(radii: Array) -> Array:
    """Radii of the tape drawn tight round each section (its convex hull), shape (r, 361)."""
    hulled = radii.copy()
    for row in np.flatnonzero(_hollow(radii)):
        hulled[row] = _hull(radii[row])
    return hulled


def _hollow(radii: Array) -> Array:
    """Whether a section turns inwards anywhere, or dips at its centre front or back."""
    points = plane(radii)
    mirrored = points[:, [1, -2]] * [-1, 1]
    ring = np.concatenate([mirrored[:, :1], points, mirrored[:, 1:]], axis=1)
    step = np.diff(ring, axis=1)
    turns = step[:, :-1, 0] * step[:, 1:, 1] - step[:, :-1, 1] * step[:, 1:, 0]
    hollow: Array = (turns > 1e-9).any(axis=1)
    return hollow


def _hull(radii: Array) -> Array:
    """The hull of one section and its mirror image, as radii at `ANGLES` (rays cut the hull's sides)."""
    half = plane(radii[None])[0]
    points = np.concatenate([half, half[-2:0:-1] * [-1, 1]])
    corners = points[ConvexHull(points).vertices]
    angle = np.arctan2(corners[:, 0], corners[:, 1])
    corners = corners[np.argsort(angle)]
    angle = np.sort(angle)
    corners, angle = (
        np.concatenate([corners[-1:], corners, corners[:1]]),
        np.concatenate([angle[-1:] - 2 * np.pi, angle, angle[:1] + 2 * np.pi]),
    )
    at = np.clip(np.searchsorted(angle, ANGLES, side="right") - 1, 0, len(angle) - 2)
    start, side = corners[at], corners[at + 1] - corners[at]
    ray = np.stack([np.sin(ANGLES), np.cos(ANGLES)], axis=-1)
    hulled: Array = (start[:, 0] * side[:, 1] - start[:, 1] * side[:, 0]) / (
        ray[:, 0] * side[:, 1] - ray[:, 1] * side[:, 0]
    )
    return hulled
