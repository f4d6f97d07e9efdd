"""A paper block as a scanner sees it: the pieces of a block in pencil at quarter scale, beside a ruler; where each line
lies on the picture is known.
"""

import io
from dataclasses import dataclass

import numpy as np
from intake.drawn_pieces import on_paper
from PIL import Image, ImageDraw, ImageFilter

from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.pattern.pattern import Pattern

PER_MM = 150 / 25.4  # a scan at 150 dots to the inch
FINER = 4
PENCIL = 0.4  # mm
PAPER, GRAPHITE, RULING = 244, 92, 214
MARGIN = 14.0
BETWEEN = 9.0
RULER = 100.0


@dataclass(frozen=True, eq=False)
class PaperBlock:
    """The picture of a block on paper.

    Attributes:
        drawn: the pieces, mm of the paper, each where it was drawn first.
        shifts: piece id -> where it lies on this sheet, mm.
        size: of the sheet, mm.
    """

    drawn: DrawnPattern
    shifts: dict[str, tuple[float, float]]
    size: tuple[float, float]

    @classmethod
    def of(cls, pattern: Pattern, spacing: float = 12.0) -> "PaperBlock":
        """The outer pieces side by side above a ruler."""
        drawn = on_paper(pattern, spacing=spacing)
        shifts, x, tall = {}, MARGIN, 0.0
        for piece in reversed(drawn.pieces):
            points = np.concatenate([edge.curve.points for edge in piece.edges])
            (left, bottom), (right, top) = points.min(axis=0), points.max(axis=0)
            shifts[piece.id] = (x - left, MARGIN + 12.0 - bottom)
            x, tall = x + right - left + BETWEEN, max(tall, top - bottom)
        return cls(drawn, shifts, (x - BETWEEN + MARGIN, tall + 2 * MARGIN + 12.0))

    @property
    def ruler(self) -> Array:
        """Its two ends, 100 mm apart, in pixels."""
        return self.pixels(np.array([(MARGIN, 9.0), (MARGIN + RULER, 9.0)]))

    def pixels(self, paper: Array) -> Array:
        """Pixels (x, y down) of places on the sheet, mm, y up; shape (n, 2)."""
        pixels: Array = np.column_stack([paper[:, 0], self.size[1] - paper[:, 1]]) * PER_MM
        return pixels

    def edge(self, piece: str, number: int) -> Array:
        """The points that an edge was drawn through, pixels, shape (n, 2); edges count from 0."""
        curve = self.drawn.piece(piece).edges[number].curve
        return self.pixels(curve.points[::3] + self.shifts[piece])

    def line(self, piece: str, curve: Curve, count: int = 160) -> Array:
        """A line of a piece as many pixels, shape (count, 2)."""
        points = np.array([curve.point(s) for s in np.linspace(0, curve.length, count)])
        return self.pixels(points + self.shifts[piece])

    def png(self) -> bytes:
        """The scan."""
        width, height = (round(side * PER_MM) for side in self.size)
        sheet = Image.new("L", (width * FINER, height * FINER), PAPER)
        pen = ImageDraw.Draw(sheet)
        for piece in self.drawn.pieces:
            for level in piece.inside:
                self._stroke(pen, self.line(piece.id, level.curve), 0.25, RULING - 60)
            for edge in piece.edges:
                self._stroke(pen, self.line(piece.id, edge.curve), PENCIL, GRAPHITE)
        (left, y), (right, _) = self.ruler
        self._stroke(pen, np.array([(left, y), (right, y)]), PENCIL, GRAPHITE)
        for k in range(11):
            x = left + (right - left) * k / 10
            self._stroke(pen, np.array([(x, y), (x, y - 12)]), 0.25, GRAPHITE)
        small = sheet.filter(ImageFilter.GaussianBlur(FINER * 0.5)).resize((width, height), Image.Resampling.BOX)
        grain = np.random.default_rng(5).normal(0, 4, (height, width))
        noisy = np.clip(np.asarray(small, float) + grain, 0, 255).astype(np.uint8)
        written = io.BytesIO()
        Image.fromarray(noisy).save(written, "PNG")
        return written.getvalue()

    @staticmethod
    def _stroke(pen: ImageDraw.ImageDraw, pixels: Array, width: float, shade: int) -> None:
        finer = pixels * FINER - 0.5
        thick = round(width * PER_MM * FINER)
        pen.line([(float(x), float(y)) for x, y in finer], shade, thick, joint="curve")
