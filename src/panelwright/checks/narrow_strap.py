"""Straps that are narrower than what is turned inside them."""

from collections.abc import Iterator
from typing import Final

import numpy as np
from shapely import get_coordinates, minimum_rotated_rectangle

from panelwright.body.units import format_length
from panelwright.checks.wearing import Wearing
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.pattern.line import SHOULDER
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

TURN: Final = 2.0  # mm of the width that the turned edges themselves take
USUAL: Final = 6.0  # mm of allowance in a narrow strap (CP)
_GROWN, _SEPARATE = ("strap-neckline", "strap-armhole"), ("strap-edge",)


def check_narrow_straps(cutting: CuttingPattern, wearing: Wearing) -> tuple[Finding, ...]:
    """`narrow-strap`, advice: two allowances lie one on the other inside a strap and make it thick and uneven."""
    return tuple(finding for piece, _ in cutting.pieces for finding in _narrow(piece, cutting, wearing))


def _narrow(piece: Piece, cutting: CuttingPattern, wearing: Wearing) -> Iterator[Finding]:
    if piece.layer != "outer":
        return
    edges = [edge for edge in piece.edges if edge.line.rpartition("/")[2] in (*_GROWN, *_SEPARATE)]
    widths = [cutting.cut[piece.id].allowances[edge.id] for edge in edges]
    strap = _width(piece, cutting.pattern)
    if not widths or strap is None or 2 * max(widths) <= strap - TURN:
        return
    both, wide, usual = (format_length(length, wearing.unit) for length in (2 * max(widths), strap, USUAL))
    line = edges[int(np.argmax(widths))].line.rpartition("/")[2]
    yield Finding(
        "narrow-strap", "advice", piece.id, 2 * max(widths), strap - TURN,
        f"The strap is {wide} wide: the allowances of its two edges, {both} together, do not lie side by side in it.",
        f"Give its edges about {usual} in finish.allowance_by_line_cm ({line}), or trim them after sewing.",
        piece.id,
    )  # fmt: skip


def _width(piece: Piece, pattern: Pattern) -> float | None:
    """At the shoulder of a grown strap, over all panels that it runs through; across a strip."""
    ends = [edge.line for edge in piece.edges if edge.line.rpartition("/")[2] == SHOULDER and edge.line != SHOULDER]
    for seam in pattern.seams:
        if ends and pattern.edge(seam.a[0]).line == ends[0]:
            return pattern.chain_length(seam.a)
    if any(edge.line.rpartition("/")[2] in _SEPARATE for edge in piece.edges):
        corners = get_coordinates(minimum_rotated_rectangle(piece.outline))
        return float(np.linalg.norm(np.diff(corners[:3], axis=0), axis=1).min())
    return None
