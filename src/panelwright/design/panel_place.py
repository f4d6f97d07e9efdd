"""Where the panels of a block lie in a piece, and whether a piece is worn in front or behind."""

import numpy as np

from panelwright.design.body_chart import BodyChart
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import SeamRegion

BESIDE = 0.25  # of a panel's width from the side line; a piece whose middle is nearer is a side piece


def panel_number(chart: BodyChart, panel: str) -> int | None:
    """Number of a panel in the right half's walk from the centre front, or None."""
    half = chart.panels[chart.centre :]
    return next((k for k, walked in enumerate(half) if walked.piece.id == panel), None)


def worn_region(chart: BodyChart, piece: Piece) -> SeamRegion:
    """Front, side or back: where the middle of the piece's panels lies. What comes from no panel counts as front."""
    found = {number for region in piece.material if (number := panel_number(chart, region.panel)) is not None}
    if not found:
        return "front"
    off = float(np.mean([number + 0.5 for number in found])) - chart.side
    return "side" if abs(off) < BESIDE else "front" if off < 0 else "back"
