"""Darts whose mouth is too narrow for two full allowances between the legs."""

from collections.abc import Mapping
from typing import Final

import numpy as np

from panelwright.pattern.pattern import Pattern

# Of a dart's mouth that the allowance of one leg may fill, so that the cut stays open between the two.
OF_MOUTH: Final = 0.3


def dart_mouths(pattern: Pattern) -> dict[str, float]:
    """Line id -> how far the dart on it is open at its mouth, mm."""
    found: dict[str, float] = {}
    for seam in pattern.seams:
        if seam.kind == "dart":
            ends = pattern.span_curve(seam.a[0]).start, pattern.span_curve(seam.b[0]).start
            line = pattern.edge(seam.a[0]).line
            width = float(np.linalg.norm(ends[1] - ends[0]))
            found[line] = min(width, found.get(line, width))
    return found


def in_dart(width: float, line: str, mouths: Mapping[str, float]) -> float:
    """An allowance of `width` mm, or in half mm what the mouth of a dart on the line leaves room for."""
    if line not in mouths:
        return width
    return min(width, float(np.floor(2 * OF_MOUTH * mouths[line])) / 2)
