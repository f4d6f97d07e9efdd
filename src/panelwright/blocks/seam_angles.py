"""Where each seam lies on the torso: its angle about the body's axis at every level.

Angles on the rib cage, not shares of the girth: shares wiggle between underbust and bust, where the breasts
take girth that the ribs do not have.
"""

from collections.abc import Mapping

import numpy as np
from scipy.interpolate import PchipInterpolator

from panelwright.blocks.body_panel import BodyRows
from panelwright.blocks.options import BACK_UNDERARM, FRONT_UNDERARM, BlockOptions
from panelwright.body.section import ANGLES
from panelwright.body.torso import Torso
from panelwright.body.worded_length import given_words, length_words
from panelwright.errors import BlockError
from panelwright.geometry.arrays import Array
from panelwright.geometry.fair_spline import fair_spline
from panelwright.pattern import level as levels
from panelwright.pattern import line as lines

# Degrees from centre front, by level from the top down (upper bust, bust, underbust, waist, top hip, hip). They lie
# near where 24 model bodies cut at steady shares of their girth put them; the front princess passes over the bust
# point, whose angle is the wearer's.
_LEVELS = (levels.UPPER_BUST, levels.BUST, levels.UNDERBUST, levels.WAIST, levels.TOP_HIP, levels.HIP)
_DEGREES: Mapping[str, tuple[float | None, ...]] = {
    lines.FRONT_PRINCESS: (36.0, None, 40.0, 42.0, 42.0, 43.0),
    FRONT_UNDERARM: (64.0, 64.0, 64.0, 65.0, 65.0, 65.0),
    lines.SIDE: (86.0, 86.0, 86.0, 86.0, 86.0, 86.0),
    BACK_UNDERARM: (111.0, 111.0, 110.0, 109.0, 110.0, 110.0),
    lines.BACK_PRINCESS: (148.0, 147.0, 144.0, 140.0, 145.0, 146.0),
}
# In five panels the underarm panel is the side: it is narrower than two underarm panels together.
_FIVE: Mapping[str, float] = {FRONT_UNDERARM: 8.0, BACK_UNDERARM: -8.0}


def seam_arcs(torso: Torso, rows: BodyRows, options: BlockOptions, seams: tuple[str, ...]) -> dict[str, Array]:
    """Arc position of each seam on every row, mm from centre front, shape (r,) each.

    Raises:
        BlockError: if a chosen place lies off the half girth at its level.
    """
    heights = torso.shape.heights
    z = np.array([heights[level] for level in _LEVELS])[::-1]
    placed = {}
    for seam in seams:
        angles = fair_spline(z, _default(seam, torso, rows, options)[::-1])(rows.z)
        placed[seam] = rows.arc_at(angles + _shift(seam, angles, torso, rows, options))
    return placed


def _default(seam: str, torso: Torso, rows: BodyRows, options: BlockOptions) -> Array:
    degrees = _DEGREES[seam]
    angles = np.radians([np.nan if value is None else value for value in degrees])
    if options.panels == 5:
        angles += np.radians(_FIVE.get(seam, 0.0))
    if seam == lines.FRONT_PRINCESS:
        row = _row(rows, torso.shape.heights[levels.BUST])
        arc = np.interp(torso.bust_angle, ANGLES, rows.arcs[row]) + options.bust_point_offset
        angles[1] = np.interp(arc, rows.arcs[row], ANGLES)
    return angles


def _shift(seam: str, angles: Array, torso: Torso, rows: BodyRows, options: BlockOptions) -> Array:
    """How far the maker's places move the seam, radians on every row: smooth between the levels given.

    The front princess keeps its way past the bust point unless it is placed at the bust itself.
    """
    moved: dict[float, float] = {}
    for place in options.seams:
        if place.line != seam:
            continue
        height = torso.shape.heights[place.level]
        row = _row(rows, height)
        half = float(rows.arcs[row, -1])
        if place.distance >= half:
            raise BlockError(
                f"{seam} is placed {given_words(place.distance)} from the centre at the {place.level}, where half the "
                f"garment measures {length_words(half)}; place it nearer"
            )
        arc = half - place.distance if "back" in seam else place.distance
        moved[height] = float(np.interp(arc, rows.arcs[row], ANGLES) - angles[row])
    if not moved:
        return np.zeros(len(rows.z))
    if seam == lines.FRONT_PRINCESS:
        moved.setdefault(torso.shape.heights[levels.BUST], 0.0)
    at = sorted(moved)
    if len(at) == 1:
        return np.full(len(rows.z), moved[at[0]])
    shift: Array = PchipInterpolator(at, [moved[height] for height in at])(np.clip(rows.z, at[0], at[-1]))
    return shift


def _row(rows: BodyRows, height: float) -> int:
    return int(np.abs(rows.z - height).argmin())
