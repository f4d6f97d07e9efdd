"""A torso surface whose tape girths equal a wearer's measurements at every level.

Sections are stacked along a straight upright axis. Their proportions, and the breast form, are means of
24 adult model bodies of one open parametric body model, arms away from the sides; the girths are the wearer's.
"""

from collections.abc import Mapping
from functools import cached_property

import numpy as np
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq

from panelwright.body.section import ANGLES, SectionShape, girths, taped
from panelwright.body.torso_shape import TorsoShape
from panelwright.errors import BlockError
from panelwright.geometry.arrays import Array
from panelwright.geometry.fair_spline import fair_spline

# From the top down: level -> (depth / width, front share of depth, exponent front, exponent back). Lower levels that
# the models did not give follow the nearest row; the bust row is its rib cage, between its neighbours.
PROPORTIONS: Mapping[str, tuple[float, float, float, float]] = {
    "upper-bust": (0.646, 0.521, 3.0, 2.5),
    "underbust": (0.730, 0.544, 2.2, 2.7),
    "waist": (0.760, 0.592, 2.0, 2.3),
    "top-hip": (0.714, 0.597, 1.9, 2.4),
    "hip": (0.700, 0.560, 2.0, 2.4),
}
RIB_SHARE = 0.985  # of the rib girth interpolated between underbust and upper bust
BREAST_INNER, BREAST_OUTER = 0.38, 0.31  # spread in angle, radians
BREAST_BELOW = 1.45  # reach downwards, share of the drop from bust to underbust; less bends the princess seam sharply
BREAST_ABOVE = 0.15  # spread upwards, share of the back length


class Torso:
    """The surface S(height, angle) of a `TorsoShape`.

    Raises:
        BlockError: if no breast form gives the bust girth.
    """

    def __init__(self, shape: TorsoShape) -> None:
        self.shape = shape
        self._bust_angle, self._breast = self._breast_form()

    @cached_property
    def _proportions(self) -> Mapping[int, CubicSpline]:
        levels = sorted(PROPORTIONS, key=lambda level: self.shape.heights[level])
        z = np.array([self.shape.heights[level] for level in levels])
        columns = np.array([PROPORTIONS[level] for level in levels]).T
        return {k: fair_spline(z, column) for k, column in enumerate(columns)}

    @cached_property
    def _rib_girth(self) -> CubicSpline:
        """Girth of the rib cage and hips without the breasts."""
        levels = sorted(PROPORTIONS, key=lambda level: self.shape.heights[level])
        z = np.array([self.shape.heights[level] for level in levels])
        return fair_spline(z, np.array([self.shape.girths[level] for level in levels]))

    def _ribs(self, z: Array) -> Array:
        """Radii of the rib cage at heights z, shape (r, 361)."""
        shape = SectionShape(*(self._proportions[k](z) for k in range(4)))
        radii = shape.radii()
        share = 1 - (1 - RIB_SHARE) * self._swell(z)
        ribs: Array = radii * (self._rib_girth(z) * share / girths(radii))[:, None]
        return ribs

    def _swell(self, z: Array) -> Array:
        """How far the breast stands out at heights z, as a share of its height at the bust."""
        bust, drop = self.shape.heights["bust"], self.shape.heights["bust"] - self.shape.heights["underbust"]
        below = np.clip((z - bust) / (BREAST_BELOW * drop), -1.0, 0.0)
        above = np.maximum(z - bust, 0.0) / (BREAST_ABOVE * self.shape.back_length)
        swell: Array = (1 - below**2) ** 3 * np.exp(-(above**2) / 2)
        return swell

    def _bare(self, z: Array, angle: float, height: float) -> Array:
        spread = np.where(angle > ANGLES, BREAST_INNER, BREAST_OUTER)
        form = np.exp(-(((ANGLES - angle) / spread) ** 2) / 2)
        return self._ribs(z) + height * self._swell(z)[:, None] * form

    def _breast_form(self) -> tuple[float, float]:
        """(angle of the bust point, height of the breast) that give the bust girth and the bust point span."""
        z = np.array([self.shape.heights["bust"]])
        angle, height = 0.6, 30.0
        for _ in range(12):
            before = angle, height
            ribs = self._ribs(z)[0]
            top = float(np.interp(angle, ANGLES, ribs)) + height
            angle = float(np.arcsin(np.clip(self.shape.bust_point_span / 2 / top, 0.15, 0.9)))
            height = self._height(z, angle)
            if abs(angle - before[0]) < 1e-6 and abs(height - before[1]) < 1e-4:
                break
        return angle, height

    def _height(self, z: Array, angle: float) -> float:
        wanted = self.shape.girths["bust"]

        def excess(height: float) -> float:
            return float(girths(taped(self._bare(z, angle, height)))[0]) - wanted

        if excess(0.0) > 0:
            return 0.0
        if excess(400.0) < 0:
            raise BlockError(
                f"no breast form gives a bust girth of {wanted / 10:.1f} cm on an underbust of "
                f"{self.shape.girths['underbust'] / 10:.1f} cm; measure both again"
            )
        return float(brentq(excess, 0.0, 400.0, xtol=1e-4))

    @cached_property
    def _correction(self) -> CubicSpline:
        """The small factor that brings every level's tape girth exactly to its measurement."""
        levels = sorted(self.shape.girths, key=lambda level: self.shape.heights[level])
        z = np.array([self.shape.heights[level] for level in levels])
        drawn = girths(taped(self._bare(z, self._bust_angle, self._breast)))
        return fair_spline(z, np.array([self.shape.girths[level] for level in levels]) / drawn)

    def bare(self, z: Array) -> Array:
        """Radii of the body itself at heights z, shape (r, 361), mm: for pictures."""
        radii: Array = self._bare(z, self._bust_angle, self._breast) * self._correction(z)[:, None]
        return radii

    def taped(self, z: Array) -> Array:
        """Radii of the tape drawn round the body at heights z, shape (r, 361), mm: what cloth follows."""
        return taped(self.bare(z))

    def girth(self, z: float) -> float:
        """Tape girth at a height, mm."""
        return float(girths(self.taped(np.array([z])))[0])

    @property
    def bust_angle(self) -> float:
        """Angle of the bust point about the axis, radians from centre front."""
        return self._bust_angle
