"""Makes a block from measurements: torso, fitted panels, pieces; or a skirt, drawn from its girths."""

from dataclasses import replace

import numpy as np

from panelwright.blocks.block import Block
from panelwright.blocks.block_pieces import block_pattern
from panelwright.blocks.fit_panels import PanelFitter, Progress
from panelwright.blocks.make_skirt import make_skirt
from panelwright.blocks.options import BlockOptions
from panelwright.blocks.panel_fit import PanelFit
from panelwright.body.measurements import Measurements
from panelwright.body.torso import Torso
from panelwright.body.torso_shape import TorsoShape
from panelwright.body.upper_body import UpperShape
from panelwright.errors import BlockError, GeometryError

BETWEEN_PIECES = 40.0  # mm on paper


def make_block(wearer: Measurements, options: BlockOptions | None = None, progress: Progress | None = None) -> Block:
    """The block of a wearer, from the hip to the upper-bust level, or on to the shoulder; or a skirt.

    Args:
        wearer: measurements, complete with estimates.
        options: ease, seams, panels; a strapless four-panel block by default.
        progress: called with the size of each solver step, mm; may raise to cancel.

    Raises:
        BlockError: if these measurements and options give no block; the message says why.
    """
    chosen = options or BlockOptions()
    if chosen.is_skirt:
        return make_skirt(wearer, chosen)
    torso = Torso(TorsoShape.of(wearer))
    fitter = PanelFitter(torso, chosen, UpperShape.of(wearer) if chosen.top == "shoulder" else None)
    fits, spans = fitter.fit(progress)
    fits = laid_out(fits, chosen)
    try:
        pattern = block_pattern(fits, fitter, wearer)
    except GeometryError as error:
        raise BlockError(f"no block can be drawn for these measurements ({error}); take them again") from error
    return Block(pattern, wearer, chosen, torso, fits, spans, fitter)


def laid_out(fits: tuple[PanelFit, ...], options: BlockOptions) -> tuple[PanelFit, ...]:
    """Side by side, centre front at x = 0 on the right, every waist line level at y = 0: grain stands upright."""
    placed: list[PanelFit] = []
    right = 0.0
    for k, fit in enumerate(fits):
        waist = fit.flat.level(0.0)
        upright = k == 0 or (k == len(fits) - 1 and options.centre_back == "fold")
        across = waist.start - waist.end
        angle = 0.0 if upright else -float(np.arctan2(across[1], across[0]))
        turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
        turned = fit.flat.moved(turn, np.zeros(2))
        sides = np.concatenate([turned.line(back).polyline() for back in (False, True)])
        shift = np.array([right - sides[:, 0].max(), -turned.level(0.0).end[1]])
        flat = turned.moved(np.eye(2), shift)
        placed.append(replace(fit, flat=flat))
        right += sides[:, 0].min() - sides[:, 0].max() - BETWEEN_PIECES
    return tuple(placed)
