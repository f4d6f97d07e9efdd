"""A cutting pattern as DXF: one block a piece, in millimetres at full scale.

Layers are numbered as in ASTM D6673, from memory: see `dxf_layers`. The cut line is a closed polyline, stitch lines and
lines inside are splines with exactly the cubics of the model. A block has its piece's own coordinates; the pieces lie
side by side in the model space, one INSERT each.
"""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from io import StringIO
from typing import Final

import numpy as np
from ezdxf import units
from ezdxf._options import options
from ezdxf.document import Drawing
from ezdxf.enums import InsertUnits, TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.blocklayout import BlockLayout

from panelwright.drawing.piece_line import marks, notch_ticks
from panelwright.drawing.scale import FULL
from panelwright.finish.cut_piece import CutPiece, CuttingPattern
from panelwright.geometry.arrays import cross
from panelwright.geometry.curve import Curve
from panelwright.output import dxf_layers as layers
from panelwright.output.piece_rows import piece_rows
from panelwright.pattern.mark import Point, as_point
from panelwright.pattern.piece import Piece

# Pattern programs and cutters that read splines and light polylines read this version.
VERSION: Final = "R2000"
LETTERS: Final = 5.0
SMALL_LETTERS: Final = 3.0
LEADING: Final = 1.6
# A curve nowhere farther from its chord is written as a straight line, mm.
STRAIGHT: Final = 1e-6


def dxf_bytes(cutting: CuttingPattern) -> bytes:
    """The pattern as a DXF file; equal patterns give equal bytes."""
    with _without_date():
        document = new(VERSION, units=units.MM)
        document.header["$MEASUREMENT"] = 1
        _layers(document)
        space, names = document.modelspace(), _block_names(cutting)
        for piece, cut in cutting.pieces:
            block = document.blocks.new(names[piece.id])
            block.units = InsertUnits.Millimeters
            _piece(block, piece, cut)
        shifts = piece_rows(cutting)
        for id, shift in shifts.items():
            space.add_blockref(names[id], shift, dxfattribs={"layer": layers.CUT})
        low, high = _extent(cutting, shifts)
        document.header["$EXTMIN"], document.header["$EXTMAX"] = (*low, 0.0), (*high, 0.0)
        text = StringIO()
        document.write(text)
    return document.encode(text.getvalue())


@contextmanager
def _without_date() -> Iterator[None]:
    """The library stamps a date and a random number on every file unless told not to."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _layers(document: Drawing) -> None:
    for name, meaning in layers.MEANING.items():
        layer = document.layers.add(name, color=layers.COLOUR[name])
        layer.description = meaning


def _block_names(cutting: CuttingPattern) -> dict[str, str]:
    """Piece id -> name of its block: the id with `_` for letters that no block may have."""
    names: dict[str, str] = {}
    for piece in cutting.pattern.pieces:
        plain = name = re.sub(r"[^\w .+-]", "_", piece.id)
        number = 1
        while name.lower() in {taken.lower() for taken in names.values()}:
            number += 1
            name = f"{plain}-{number}"
        names[piece.id] = name
    return names


def _extent(cutting: CuttingPattern, shifts: dict[str, Point]) -> tuple[Point, Point]:
    lines = np.concatenate([cut.cut_line + shifts[piece.id] for piece, cut in cutting.pieces])
    return as_point(lines.min(axis=0)), as_point(lines.max(axis=0))


def _piece(block: BlockLayout, piece: Piece, cut: CutPiece) -> None:
    block.add_lwpolyline(cut.cut_line.tolist(), close=True, dxfattribs={"layer": layers.CUT})
    for edge in piece.edges:
        _curve(block, edge.curve, layers.FOLD if edge.kind == "fold" else layers.SEW)
    for line in piece.inside:
        _curve(block, line.curve, layers.FOLD if line.kind == "fold" else layers.INSIDE)
        _text(block, line.id.rsplit("/", 1)[-1].replace("-", " "), as_point(line.curve.start), layers.INSIDE)
    _notches(block, piece, cut)
    for mark in marks(piece):
        block.add_point(mark.at, dxfattribs={"layer": layers.DRILL})
        _text(block, mark.id.rsplit("/", 1)[-1].replace("-", " "), mark.at, layers.DRILL)
    block.add_line(piece.grain.start, piece.grain.end, dxfattribs={"layer": layers.GRAIN})
    _written(block, piece, cut)


def _curve(block: BlockLayout, curve: Curve, layer: str) -> None:
    """The curve as a spline of its own cubics (every knot three times), or as a line where it is straight."""
    along = curve.chord / max(float(np.hypot(*curve.chord)), 1e-12)
    if np.abs(cross(curve.points - curve.start, along)).max() < STRAIGHT:
        block.add_line(as_point(curve.start), as_point(curve.end), dxfattribs={"layer": layer})
        return
    count = len(curve.cubics)
    knots = np.repeat(np.arange(count + 1), [4, *[3] * (count - 1), 4]).astype(float)
    points = [(x, y, 0.0) for x, y in curve.points.tolist()]
    block.add_open_spline(points, degree=3, knots=knots.tolist(), dxfattribs={"layer": layer})


def _notches(block: BlockLayout, piece: Piece, cut: CutPiece) -> None:
    """Each tick as a line from the cut line in to the stitch line, and a point where a cutter nicks the cut line.

    Where there is no allowance the line runs into the piece, from the point on its edge.
    """
    ticks = notch_ticks(piece, cut.notches, FULL)[::2]  # every other stroke is the bar across
    inwards = [tuple(notch.at) == tuple(notch.to) for notch in cut.notches for _ in range(notch.count)]
    for tick, bare in zip(ticks, inwards, strict=True):
        foot, head = as_point(tick.path.points[0]), as_point(tick.path.points[-1])
        block.add_line(foot, head, dxfattribs={"layer": layers.NOTCH})
        block.add_point(foot if bare else head, dxfattribs={"layer": layers.NOTCH})


def _written(block: BlockLayout, piece: Piece, cut: CutPiece) -> None:
    """The piece's text, from its middle upwards and down; its name for programs stands below, on the cut layer."""
    x, y = cut.text_at
    top = y + LEADING * LETTERS * (len(cut.text) - 1) / 2
    for k, line in enumerate(cut.text):
        _text(block, line, (x, top - LEADING * LETTERS * k), layers.TEXT, LETTERS, TextEntityAlignment.MIDDLE_CENTER)
    below = top - LEADING * LETTERS * len(cut.text)
    name = f"Piece Name: {cut.text[0] if cut.text else piece.label}"
    _text(block, name, (x, below), layers.CUT, SMALL_LETTERS, TextEntityAlignment.MIDDLE_CENTER)


def _text(
    block: BlockLayout,
    text: str,
    at: Point,
    layer: str,
    size: float = SMALL_LETTERS,
    align: TextEntityAlignment = TextEntityAlignment.LEFT,
) -> None:
    printed = "".join(letter if letter.isprintable() else " " for letter in text)
    block.add_text(printed, height=size, dxfattribs={"layer": layer}).set_placement(at, align=align)
