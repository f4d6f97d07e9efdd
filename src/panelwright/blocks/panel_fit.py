"""A panel fitted: how it lies on the body, how it lies flat, and what that costs in strain."""

from dataclasses import dataclass

import numpy as np

from panelwright.blocks.body_panel import BodyPanel
from panelwright.blocks.tensor_spline import FlatPanel
from panelwright.geometry.arrays import Array


@dataclass(frozen=True, eq=False)
class PanelFit:
    """The two sides of a panel: body and paper share their coordinates (height, place across).

    Attributes:
        id, label: of the panel.
        body: the part of the body's surface that it covers.
        flat: its flat map, placed as the piece is drawn.
        strain_p95: 95th percentile of the length strain between the two (0.03 is 3 %).
    """

    id: str
    label: str
    body: BodyPanel
    flat: FlatPanel
    strain_p95: float

    def on_body(self, z: Array, u: Array) -> Array:
        """Points in space at heights z and places u, shape (len(z), len(u), 3), interpolated between rows."""
        grid = self.body.points(u)
        rows = self.body.rows.z
        flat = grid.reshape(len(rows), -1)
        points: Array = np.stack([np.interp(z, rows, column) for column in flat.T], axis=-1)
        return points.reshape(len(z), len(u), 3)


@dataclass(frozen=True)
class SeamSpan:
    """A seam between two levels: its length on the body and on paper, mm."""

    seam: str
    upper: str
    lower: str
    body: float
    paper: float

    @property
    def difference(self) -> float:
        """paper - body: negative where the flat seam comes out shorter than the body line."""
        return self.paper - self.body
