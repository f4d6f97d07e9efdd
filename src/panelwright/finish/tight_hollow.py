"""Armholes that bend more tightly than their allowance is wide: what can be turned there is less."""

import math
from collections.abc import Iterable, Mapping
from typing import Final

import numpy as np

from panelwright.finish.narrow_strip import TRIMMED
from panelwright.geometry.curve import Curve
from panelwright.pattern.line import ARMHOLE
from panelwright.pattern.piece import Piece

# Of a hollow's radius so much is left over, for layers inside that are a little smaller, mm.
LEFT: Final = 1.0
STEP: Final = 1.0  # mm between the places that are measured


def tight_hollows(pieces: Iterable[Piece]) -> dict[str, float]:
    """Line id -> smallest radius of a hollow in a bodice's armholes, mm; lines without a hollow are left out."""
    found: dict[str, float] = {}
    for piece in pieces:
        for edge in piece.edges:
            if edge.kind == "finished" and edge.line.rpartition("/")[2] == ARMHOLE:
                bend = _hollow(edge.curve)
                if bend > 0:
                    found[edge.line] = min(1 / bend, found.get(edge.line, math.inf))
    return found


def in_hollow(width: float, line: str, hollows: Mapping[str, float]) -> float:
    """An allowance of `width` mm, or in whole mm what a hollow of the line's radius holds, 6 mm at least.

    Offset by more than its radius a hollow runs into itself (geometry); armholes are sewn narrow anyway (CP).
    """
    radius = hollows.get(line, math.inf)
    if width <= radius - LEFT:
        return width
    return min(width, max(TRIMMED, float(math.floor(radius - LEFT))))


def _hollow(curve: Curve) -> float:
    """The greatest curvature towards the piece's inside, 1/mm; 0 where it bulges everywhere."""
    arcs = np.linspace(0.0, curve.length, max(3, math.ceil(curve.length / STEP)))
    return max(0.0, *(-curve.curvature(float(arc)) for arc in arcs))
