"""How a photo looks at the table: a plane in perspective, through a lens that bends lines."""

from dataclasses import dataclass, replace
from typing import Final, Self

import numpy as np
from numpy.typing import NDArray

from panelwright.geometry.arrays import Array

_STEPS: Final = 12


@dataclass(frozen=True, eq=False)
class PhotoView:
    """The map between the plane of the table (mm, y up) and the pixels of a photo (y down).

    A point of the plane goes through a homography to where a perfect lens would show it, and from there outwards or
    inwards along the ray from the middle of the photo: r (1 + k₁ r² + k₂ r⁴), r in half diagonals (Brown 1966).

    Attributes:
        homography: shape (3, 3), from mm to half diagonals from the middle, y up.
        bend: k₁ and k₂.
        width, height: of the photo, pixels.
    """

    homography: Array
    bend: tuple[float, float]
    width: int
    height: int

    @property
    def half(self) -> float:
        """Half the diagonal, pixels."""
        return float(np.hypot(self.width, self.height)) / 2

    def to_photo(self, points: Array) -> Array:
        """Pixels (x, y) of points of the plane, shape (..., 2); a pixel's middle is a whole number."""
        flat = _through(self.homography, points)
        squared = (flat**2).sum(axis=-1, keepdims=True)
        bent = flat * (1 + squared * (self.bend[0] + squared * self.bend[1]))
        return self._pixels(bent)

    def to_plane(self, pixels: Array) -> Array:
        """Points of the plane, mm, that pixels show, shape (..., 2)."""
        return _through(np.asarray(np.linalg.inv(self.homography), float), self.straightened(pixels))

    def straightened(self, pixels: Array) -> Array:
        """Where a perfect lens would show pixels, in half diagonals from the middle, y up, shape (..., 2)."""
        bent = (pixels - self._middle) / self.half * np.array([1.0, -1.0])
        far = np.sqrt((bent**2).sum(axis=-1, keepdims=True))
        radius = far.copy()
        for _ in range(_STEPS):
            squared = radius**2
            value = radius * (1 + squared * (self.bend[0] + squared * self.bend[1])) - far
            slope = 1 + squared * (3 * self.bend[0] + 5 * squared * self.bend[1])
            radius = radius - value / np.maximum(slope, 0.2)
        flat: Array = bent * np.where(far > 0, radius / np.maximum(far, 1e-12), 1.0)
        return flat

    def resolution(self, points: Array) -> Array:
        """Pixels per mm at points of the plane, shape (n, 2) -> (n,), along the direction that is shown smallest."""
        right, high = np.array([0.5, 0.0]), np.array([0.0, 0.5])
        across = self.to_photo(points + right) - self.to_photo(points - right)
        up = self.to_photo(points + high) - self.to_photo(points - high)
        return np.linalg.svd(np.stack([across, up], axis=-1), compute_uv=False)[:, 1]

    def in_front(self, points: Array) -> NDArray[np.bool_]:
        """Whether points lie before the camera, not beyond the horizon."""
        row = self.homography[2]
        return np.asarray(points @ row[:2] + row[2] > 1e-3 * abs(row[2]), np.bool_)

    def holds(self, pixels: Array) -> NDArray[np.bool_]:
        """Which of the pixels, shape (n, 2), lie in the photo."""
        inside = np.all(pixels >= 0, axis=1) & np.all(pixels <= np.array([self.width - 1, self.height - 1]), axis=1)
        return np.asarray(inside, np.bool_)

    def moved(self, plane: Array) -> Self:
        """The view of the same table in other coordinates; `plane`, shape (3, 3), takes the new ones to the old."""
        return replace(self, homography=self.homography @ plane)

    @property
    def _middle(self) -> Array:
        return np.array([(self.width - 1) / 2, (self.height - 1) / 2])

    def _pixels(self, bent: Array) -> Array:
        pixels: Array = self._middle + self.half * bent * np.array([1.0, -1.0])
        return pixels


def _through(homography: Array, points: Array) -> Array:
    """Points through a homography."""
    lifted = points @ homography[:, :2].T + homography[:, 2]
    flat: Array = lifted[..., :2] / lifted[..., 2:]
    return flat
