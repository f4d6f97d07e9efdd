"""Rectangles to lay, whose best lay can be told by arithmetic."""

import numpy as np

from panelwright.lay.piece_to_cut import PieceToCut


def box(
    id: str, across: float, along: float, up: int = 1, down: int = 0, fold: bool = False, turned: float = 0.0
) -> PieceToCut:
    """A piece `across` mm wide and `along` mm high as it is drawn, its grain upright, turned by `turned` radians.

    With `fold`, its right edge lies on the fold.
    """
    outline = np.array([(-across, 0.0), (0.0, 0.0), (0.0, along), (-across, along)])
    grain = np.array([(-across / 2, along / 4), (-across / 2, 3 * along / 4)])
    c, s = np.cos(turned), np.sin(turned)
    turn = np.array([[c, s], [-s, c]])
    edge = outline[1:3] @ turn if fold else None
    return PieceToCut(id, f"Box {id}", "outer", outline @ turn, grain @ turn, edge, up, down)
