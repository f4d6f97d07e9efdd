"""Lengths that taper: whole at one line of the block, nothing at the side."""

from collections.abc import Sequence

import numpy as np

from panelwright.blocks.fit_panels import PanelFitter
from panelwright.fitting.worked_panel import WorkedPanel
from panelwright.geometry.arrays import Array
from panelwright.pattern import line as lines


def tapering(panels: Sequence[WorkedPanel], fitter: PanelFitter, z: float, whole: int) -> list[float]:
    """Share at each line from the centre front: 1 at line `whole` and beyond it, falling evenly to 0 at the side.

    Args:
        panels: of the half.
        fitter: that made them.
        z: height at which the way is measured.
        whole: number of the line nearest to the side that has the whole amount.

    Where there is no side seam the side is the middle of the panel that stands there.
    """
    widths = [panel.width(z) for panel in panels]
    at = np.concatenate([[0.0], np.cumsum(widths)])
    if lines.SIDE in fitter.seams:
        side = float(at[fitter.seams.index(lines.SIDE) + 1])
    else:
        middle = len(panels) // 2
        side = float(at[middle] + at[middle + 1]) / 2
    shares = np.clip((side - at) / (side - at[whole]), 0.0, 1.0)
    return [float(share) for share in shares]


def raised(panel: WorkedPanel, amount: float, from_z: float, to_z: float, ends: tuple[float, float]) -> Array:
    """Movement up the paper of all that lies above two heights, growing between them.

    Args:
        panel: that moves.
        amount: mm; below 0: down.
        from_z, to_z: heights between which it grows.
        ends: its share at the panel's front and back line.
    """
    flat = panel.flat
    up = np.clip((flat.heights.places - from_z) / (to_z - from_z), 0.0, 1.0)
    along = np.interp(flat.across.places, [0.0, 1.0], ends)
    movement = np.zeros_like(flat.coefficients)
    movement[..., 1] = amount * up[:, None] * along[None]
    return movement
