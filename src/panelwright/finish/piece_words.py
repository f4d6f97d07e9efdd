"""The text on a piece, and where it goes."""

from functools import lru_cache
from typing import Final

import numpy as np
import shapely
from shapely import LineString, Polygon

from panelwright.body.units import format_length
from panelwright.finish.cut_count import cut_words
from panelwright.finish.cut_piece import Cut
from panelwright.finish.piece_allowances import Widths
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.mark import Grain, Point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

ESTIMATED: Final = "Estimated: measure before cutting"
# A block of text is about this many times as wide as it is high, and keeps this far from the grain line, mm.
_BLOCK: Final = 1.6
_FROM_GRAIN: Final = 4.0


def piece_words(piece: Piece, cuts: tuple[Cut, ...], pattern: Pattern, widths: Widths) -> tuple[str, ...]:
    """What is written on the piece, the name first; lengths in the maker's unit."""
    lines = [f"{piece.label} ({piece.derived_from or piece.id})", f"{pattern.design}, wearer {pattern.wearer}"]
    lines += [cut_words(piece, cut, widths.options) for cut in cuts]
    lines.append(_allowance_words(piece, widths))
    lines += _edge_words(piece, widths)
    if pattern.estimated:
        lines.append(ESTIMATED)
    return tuple(lines)


def _allowance_words(piece: Piece, widths: Widths) -> str:
    """`Seam allowance 1.0 cm, hem 2.5 cm`: the width of most lines, then those that differ."""
    own = {widths.names[edge.line]: widths.width(edge) for edge in piece.edges if edge.kind != "fold"}
    if piece.layer == "interfacing" or not any(own.values()):
        return "No seam allowance"
    options, counts = widths.options, list(own.values())
    usual = max(counts, key=lambda width: (counts.count(width), width == options.allowance))
    others = [f"{line} {format_length(width, options.unit)}" for line, width in own.items() if width != usual]
    return ", ".join([f"Seam allowance {format_length(usual, options.unit)}", *others])


def _edge_words(piece: Piece, widths: Widths) -> list[str]:
    """Which edges are folds or openings, and how the grain line is laid."""
    named = [f"{widths.names[edge.line]} {edge.kind}" for edge in piece.edges if edge.kind in ("fold", "opening")]
    folded = any(edge.kind == "fold" for edge in piece.edges)
    return [*dict.fromkeys(named), "Grain along the fold" if folded else "Grain parallel to the selvage"]


@lru_cache(maxsize=512)
def text_place(outline: tuple[Curve, ...], grain: Grain) -> Point:
    """The middle of the roomiest place for a block of text inside an outline, clear of its edges and the grain line."""
    ring = np.concatenate([curve.polyline(TOLERANCES.coarse_polyline)[:-1] for curve in outline])
    room = Polygon(ring).difference(LineString([grain.start, grain.end]).buffer(_FROM_GRAIN, cap_style="flat"))
    narrowed = shapely.transform(room, lambda points: points / (_BLOCK, 1.0))
    middle = shapely.get_coordinates(shapely.maximum_inscribed_circle([narrowed], tolerance=1.0))[0]
    return float(middle[0]) * _BLOCK, float(middle[1])
