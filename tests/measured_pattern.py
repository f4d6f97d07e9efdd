"""Measuring a pattern file with a ruler: by its published contract alone (docs/pattern-file.md), without our geometry.

Lengths come from cubics in 400 steps: a step of a pattern's gentle curve misses its arc by less than a micron.
"""

import math
from typing import Any

import numpy as np

STEPS = 400


def cubics(points: list[list[float]]) -> np.ndarray:
    """Bézier points (3n+1, 2) as cubics (n, 4, 2)."""
    array = np.array(points, float)
    return np.stack([array[k : k + 4] for k in range(0, len(array) - 1, 3)])


def polyline(points: list[list[float]]) -> np.ndarray:
    """Points along a chain of cubics, from its start to its end."""
    t = np.linspace(0, 1, STEPS + 1)[:, None]
    weights = np.hstack([(1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3])
    return np.concatenate([weights @ cubic for cubic in cubics(points)])


def length(line: np.ndarray) -> float:
    """Length of a polyline, mm."""
    return float(np.linalg.norm(np.diff(line, axis=0), axis=1).sum())


class MeasuredPattern:
    """A pattern file, laid on the table."""

    def __init__(self, document: dict[str, Any]) -> None:
        self.document = document
        self.pieces = {piece["id"]: piece for piece in document["pieces"]}

    def edge(self, id: str) -> np.ndarray:
        """An edge as a polyline in the sense of the outline; an edge's id begins with its piece's."""
        for piece in self.pieces.values():
            for edge in piece["edges"]:
                if edge["id"] == id:
                    start, end = (piece["vertices"][k] for k in edge["v"])
                    return polyline([start, *edge["controls"], end])
        raise KeyError(id)

    def width(self, piece: str, level: str) -> float:
        """Length of a level line on a piece, mm."""
        (line,) = (line for line in self.pieces[piece]["inside"] if line["id"] == level)
        return length(polyline(line["bezier"]))

    def widths(self, level: str) -> dict[str, float]:
        """The same for every outer piece."""
        return {id: self.width(id, level) for id, piece in self.pieces.items() if piece["layer"] == "outer"}

    def half(self, level: str) -> float:
        """Half pattern at a level, mm."""
        return sum(self.widths(level).values())

    def seam_sides(self, seam: dict[str, Any]) -> tuple[float, float]:
        """Lengths of the two sides of a seam whose spans are whole edges."""
        a, b = (sum(length(self.edge(span["edge"])) for span in seam[side]) for side in "ab")
        return a, b

    def inner_angle(self, first: str, second: str) -> float:
        """Degrees between two neighbouring edges, inside their piece, at the corner where `first` ends."""
        before, after = self.edge(first), self.edge(second)
        assert np.allclose(before[-1], after[0]), (first, second)
        back, on = before[-2] - before[-1], after[1] - after[0]
        angle = math.degrees(math.atan2(back[1], back[0]) - math.atan2(on[1], on[0]))
        return angle % 360.0
