"""A panel as it lies on the body: the part of the taped torso between two lines."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.interpolate import CubicSpline

from panelwright.body.section import ANGLES, plane
from panelwright.body.torso import Torso
from panelwright.geometry.arrays import Array


@dataclass(frozen=True, eq=False)
class BodyRows:
    """The cloth's surface on the body, row by row: half sections from centre front to centre back, and above the
    upper-bust level, where front and back part, rows of one of the two sheets.

    Attributes:
        z: rising, shape (r,), mm: heights above the waist; along the sheets, how far up they go.
        sections: points (x to the wearer's side, y to the front, z up), shape (r, 361, 3), mm.
    """

    z: Array
    sections: Array

    @classmethod
    def of(cls, torso: Torso, z: Array, stretch: Array) -> "BodyRows":
        """Rows at heights z, each section scaled by `stretch` (r,): (body girth + ease) / body girth."""
        flat = plane(torso.taped(z) * stretch[:, None])
        height = np.broadcast_to(z[:, None, None], (*flat.shape[:2], 1))
        return cls(z, np.concatenate([flat, height], axis=-1))

    @cached_property
    def arcs(self) -> Array:
        """Arc length along each row from its first point, shape (r, 361)."""
        steps = np.linalg.norm(np.diff(self.sections, axis=1), axis=-1)
        sums: Array = np.concatenate([np.zeros((len(self.z), 1)), np.cumsum(steps, axis=1)], axis=1)
        return sums

    def arc_at(self, angles: Array) -> Array:
        """Arc position on each row of an angle about the axis, one a row, shape (r,)."""
        return np.array([np.interp(a, ANGLES, arc) for a, arc in zip(angles, self.arcs, strict=True)])

    def at_arcs(self, arcs: Array) -> Array:
        """Points in space at arc positions, shape (r, k) -> (r, k, 3)."""
        out = np.empty((*arcs.shape, 3))
        for row, (wanted, arc) in enumerate(zip(arcs, self.arcs, strict=True)):
            for k in range(3):
                out[row, :, k] = np.interp(wanted, arc, self.sections[row, :, k])
        return out

    def followed_by(self, upper: "BodyRows") -> "BodyRows":
        """These rows and those of a sheet above them."""
        return BodyRows(np.concatenate([self.z, upper.z]), np.concatenate([self.sections, upper.sections]))


@dataclass(frozen=True, eq=False)
class BodyPanel:
    """The part of the surface between a front and a back line.

    Attributes:
        rows: the surface.
        front, back: arc position of the two lines on each row, shape (r,), mm.
    """

    rows: BodyRows
    front: Array
    back: Array

    def points(self, u: Array) -> Array:
        """Points in space at places u (0 front line … 1 back line) of every row, shape (r, len(u), 3)."""
        return self.rows.at_arcs(self.front[:, None] + (self.back - self.front)[:, None] * u)

    def widths(self, z: Array) -> Array:
        """Arc length across the panel at heights z, shape (len(z),)."""
        width: Array = CubicSpline(self.rows.z, self.back - self.front)(z)
        return width

    def metric(self, z: Array, u: Array) -> tuple[Array, Array, Array]:
        """The surface's first fundamental form as an upper-triangular frame, each shape (len(z), len(u)).

        With e1 along the level and e2 square to it on the surface, dX/du = m11·e1, dX/dz = m12·e1 + m22·e2.
        """
        samples = np.linspace(0.0, 1.0, 33)
        surface = CubicSpline(samples, self.points(samples), axis=1)
        along = CubicSpline(self.rows.z, surface(u))(z, 1)
        across = CubicSpline(self.rows.z, surface(u, 1))(z)
        across *= (self.widths(z)[:, None] / np.linalg.norm(across, axis=-1))[..., None]
        m11 = np.linalg.norm(across, axis=-1)
        m12 = np.einsum("zuk,zuk->zu", across, along) / m11
        m22 = np.sqrt(np.einsum("zuk,zuk->zu", along, along) - m12**2)
        return m11, m12, m22

    def line_lengths(self, back: bool, z: Array) -> Array:
        """Length in space of the front or back line between successive heights z, shape (len(z) - 1,), mm."""
        line = CubicSpline(self.rows.z, self.points(np.array([1.0 if back else 0.0]))[:, 0])
        t, w = np.polynomial.legendre.leggauss(24)
        low, high = z[:-1, None], z[1:, None]
        speed = np.linalg.norm(line(low + (high - low) * (t + 1) / 2, 1), axis=-1)
        lengths: Array = (speed @ w) * (high - low)[:, 0] / 2
        return lengths
