"""The pieces of a lay as they lie on the cloth, each with its grain and its words, or a number where it is small."""

from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
import shapely

from panelwright.body.units import Unit
from panelwright.drawing import pen
from panelwright.drawing.drawing import Drawing, Fill, Lettering, Stroke
from panelwright.drawing.lay_label import number_on, outwards, words_on
from panelwright.drawing.lay_stretch import Stretch
from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen
from panelwright.drawing.symbol import arrow_head
from panelwright.geometry.arrays import Array
from panelwright.lay.lay import LaidPiece, Lay

PIECE: Final = Pen(0.35)
OPENED: Final = Pen(0.25, (1.6, 0.8))
STUB: Final = Pen(0.18)
# Lengths on the paper, mm.
ARROW: Final = 1.6
STUB_LENGTH: Final = 3.2
BRACKET: Final = 2.2
# Share of the way to the piece's edge that a stub takes where there is little room.
STUB_SHARE: Final = 0.8

Line = Stroke | Fill


@dataclass(frozen=True, eq=False)
class LayDrawing:
    """A lay at `factor` times its size, drawn stretch by stretch; the origin is the cloth's lower left corner.

    Its words are large for a `screen`.
    """

    lay: Lay
    stretches: tuple[Stretch, ...]
    factor: float
    unit: Unit
    screen: bool = False

    @cached_property
    def numbers(self) -> dict[LaidPiece, int]:
        """The pieces that have no room for their words in any stretch, numbered along the cloth, top down."""
        small = [laid for laid in self.lay.laid if not any(self._words.get((laid, each)) for each in self.stretches)]
        small.sort(key=lambda laid: (round(float(laid.outline[:, 0].min())), -float(laid.outline[:, 1].max())))
        return {laid: number for number, laid in enumerate(small, 1)}

    def drawing(self, stretch: Stretch) -> Drawing:
        """The pieces of which something lies in a stretch; lines are drawn whole, lettering stands inside it."""
        return Drawing.together(self._piece(laid, stretch) for laid in self._shown(stretch))

    @cached_property
    def _lines(self) -> dict[LaidPiece, list[Line]]:
        """The lines inside each piece."""
        return {laid: _inside_lines(self.lay, laid, self.factor) for laid in self.lay.laid}

    @cached_property
    def _words(self) -> dict[tuple[LaidPiece, Stretch], tuple[Lettering, ...] | None]:
        """What has room on each piece in each stretch that shows it."""
        return {
            (laid, each): words_on(self.lay, laid, each, self.factor, self.unit, self._paths(laid), self.screen)
            for each in self.stretches
            for laid in self._shown(each)
        }

    def _paths(self, laid: LaidPiece) -> list[Path]:
        return [line.path for line in self._lines[laid]]

    def _shown(self, stretch: Stretch) -> list[LaidPiece]:
        spans = ((laid, laid.outline[:, 0].min(), laid.outline[:, 0].max()) for laid in self.lay.laid)
        return [laid for laid, low, high in spans if low < stretch.high and high > stretch.low]

    def _piece(self, laid: LaidPiece, stretch: Stretch) -> Drawing:
        outline = Path.polyline(laid.outline * self.factor, closed=True)
        text = self._words[laid, stretch] or ()
        if laid in self.numbers:
            text = number_on(self.lay, laid, stretch, self.factor, self.numbers[laid], self._paths(laid))
        return Drawing((Fill(outline, 1.0, "sheet"), Stroke(outline, PIECE, "cut lines"), *self._lines[laid], *text))


def _inside_lines(lay: Lay, laid: LaidPiece, factor: float) -> list[Line]:
    lines = _grain(lay, laid, factor)
    if laid.piece.opened is not None:
        line = Path.polyline(laid.placement.points(laid.piece.opened) * factor)
        lines.append(Stroke(line, OPENED, "grain and fold"))
    if laid.piece.fold is not None:
        lines += _fold_bracket(laid, factor)
    return lines


def _grain(lay: Lay, laid: LaidPiece, factor: float) -> list[Line]:
    """The grain line, a head at each end, and at each end a short arrow towards the edge it is measured from."""
    start, end = laid.grain * factor
    head = min(ARROW, 0.35 * float(np.linalg.norm(end - start)))
    out = outwards(lay, laid)
    lines: list[Line] = [
        Stroke(Path.polyline([start, end]), pen.GRAIN, "grain and fold"),
        Fill(arrow_head(start, start - end, head), 0.0, "grain and fold"),
        Fill(arrow_head(end, end - start, head), 0.0, "grain and fold"),
    ]
    for at in (start, end):
        length = min(STUB_LENGTH, STUB_SHARE * _room(laid, at, out, factor))
        tip = at + length * out
        lines.append(Stroke(Path.polyline([at, tip]), STUB, "grain and fold"))
        lines.append(Fill(arrow_head(tip, out, min(0.7 * ARROW, 0.5 * length)), 0.0, "grain and fold"))
    return lines


def _room(laid: LaidPiece, at: Array, out: Array, factor: float) -> float:
    """How far the piece reaches from a place in it in a direction, mm on the paper."""
    ray = shapely.LineString([at, at + STUB_LENGTH / STUB_SHARE * out])
    inside = shapely.get_parts(shapely.intersection(ray, shapely.Polygon(laid.outline * factor)))
    return max((float(part.length) for part in inside if part.distance(shapely.Point(at)) < 1e-6), default=0.0)


def _fold_bracket(laid: LaidPiece, factor: float) -> list[Line]:
    """The bracket inside the piece whose two arrows touch the fold, over the middle third of the fold edge."""
    assert laid.piece.fold is not None
    start, end = laid.placement.points(laid.piece.fold) * factor
    tips = start + np.outer([1 / 3, 2 / 3], end - start)
    inwards = 1.0 if (laid.outline[:, 1] * factor).mean() > tips[0, 1] else -1.0
    feet = tips + np.array([0.0, inwards * BRACKET])
    path = Path.polyline([tips[0], feet[0], feet[1], tips[1]])
    heads = [Fill(arrow_head(tip, np.array([0.0, -inwards]), ARROW), 0.0, "grain and fold") for tip in tips]
    return [Stroke(path, pen.GRAIN, "grain and fold"), *heads]
