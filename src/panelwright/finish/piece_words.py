"""The text on a piece, and where it goes."""

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from typing import Final

import numpy as np
import shapely
from shapely import LineString, Polygon

from panelwright.body.units import Unit, format_length
from panelwright.finish.cut_count import cut_words
from panelwright.finish.cut_piece import Cut
from panelwright.finish.piece_allowances import Widths, line_names
from panelwright.finish.piece_code import code_words, shape_of
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.mark import Grain, Point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

ESTIMATED: Final = "Estimated: measure before cutting"
NARROW: Final = "Edges trimmed: a narrow strip"
HOLLOW: Final = "Armhole trimmed: a tight curve"
DART: Final = "Dart trimmed: a narrow mouth"
# A block of text is about this many times as wide as it is high, and keeps this far from the grain line, mm.
_BLOCK: Final = 1.6
_FROM_GRAIN: Final = 4.0
_SIXTEENTH: Final = 25.4 / 16
# A width so near to the one that is written is sewn as written, mm.
_AS_GOOD_AS: Final = 0.2


def piece_words(piece: Piece, cuts: tuple[Cut, ...], pattern: Pattern, widths: Widths) -> tuple[str, ...]:
    """What is written on the piece, the name first; lengths in the maker's unit."""
    allowances = {edge.id: 0.0 if piece.layer == "interfacing" else widths.width(edge) for edge in piece.edges}
    code = code_words(shape_of(piece, {each.id: each for each in pattern.pieces}).id)
    lines = [f"{piece.label} ({code})", _whose(pattern)]
    lines += [cut_words(piece, cut, widths.options) for cut in cuts]
    lines.append(allowance_words(piece, allowances, pattern, widths.options.unit))
    lines += _edge_words(piece, widths)
    if pattern.estimated:
        lines.append(ESTIMATED)
    return tuple(lines)


def _whose(pattern: Pattern) -> str:
    """What the garment is called, for whom; its reference where it has no title."""
    name = pattern.title or pattern.design
    return f"{name}, wearer {pattern.worn_by}" if pattern.worn_by else name


def allowance_words(piece: Piece, allowances: Mapping[str, float], pattern: Pattern, unit: Unit) -> str:
    """`Seam allowance 1.0 cm, hem 2.5 cm`: the width of most lines, then those that differ.

    The one line of a piece's text that depends on the unit: it can be worded anew from what a cut piece holds.

    Args:
        allowances: edge id -> width, mm, as in `CutPiece.allowances`.
    """
    names = line_names(pattern)
    edges = [edge for edge in piece.edges if edge.kind != "fold"]
    own = {names[edge.line]: allowances[edge.id] for edge in edges}
    if not any(own.values()):
        return "No seam allowance"
    counts, sewn = list(own.values()), [allowances[edge.id] for edge in edges if edge.kind == "seam"]
    usual = max(counts, key=lambda width: (counts.count(width), sewn.count(width), -width))
    others = [f"{line} {width_words(width, unit)}" for line, width in own.items() if width != usual]
    return ", ".join([f"Seam allowance {width_words(usual, unit)}", *others])


def width_words(width: float, unit: Unit) -> str:
    """An allowance in mm in the maker's unit, never rounded by more than `_AS_GOOD_AS`.

    `1.0 cm`, `1.27 cm`; inches to the sixteenth, `5/8 in`. Between sixteenths it is `15 mm (about 9/16 in)`: a rounded
    allowance changes the girth by twice the rounding at every seam.
    """
    if not width:
        return "none"
    if unit is Unit.INCH:
        sixteenths = round(width / _SIXTEENTH)
        inches = _inches(sixteenths)
        exact = abs(width - sixteenths * _SIXTEENTH) <= _AS_GOOD_AS
        return inches if exact else f"{format_length(round(width, 1), Unit.MM)} (about {inches})"
    if unit is Unit.CM and abs(width - round(width)) > _AS_GOOD_AS:
        return f"{width / 10:.2f} cm"
    return format_length(width, unit)


def _inches(sixteenths: int) -> str:
    whole, part = divmod(sixteenths, 16)
    share = Fraction(part, 16)
    number = " ".join(filter(None, (str(whole) if whole or not part else "", str(share) if part else "")))
    return f"{number} in"


def _edge_words(piece: Piece, widths: Widths) -> list[str]:
    """Which edges are folds or openings, whether one is trimmed, and how the grain line is laid."""
    named = [f"{widths.names[edge.line]} {edge.kind}" for edge in piece.edges if edge.kind in ("fold", "opening")]
    if piece.layer != "interfacing" and any(widths.is_trimmed(edge) for edge in piece.edges):
        named.append(NARROW)
    if piece.layer != "interfacing" and any(widths.is_hollow(edge) for edge in piece.edges):
        named.append(HOLLOW)
    if piece.layer != "interfacing" and any(widths.is_darted(edge) for edge in piece.edges):
        named.append(DART)
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
