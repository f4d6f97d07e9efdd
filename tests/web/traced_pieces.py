"""The document that tracing pieces exactly would give."""

from typing import Any

import numpy as np

from panelwright.intake.drawn_pattern import DrawnPattern

Document = dict[str, Any]
PER_MM = 5.0


def pixels(points: np.ndarray) -> list[list[float]]:
    """Places of the paper on a picture of 5 pixels to the mm, y down."""
    rows: list[list[float]] = ((points * [1, -1] + [700.0, 400.0]) * PER_MM).tolist()
    return rows


def traced(drawn: DrawnPattern, clockwise: bool = False) -> Document:
    """The document that tracing these pieces exactly would give."""
    pieces = []
    for k, piece in enumerate(drawn.pieces):
        edges = [{"points": pixels(e.curve.points[::3]), "kind": e.kind, "line": e.line} for e in piece.edges]
        if clockwise:
            edges = [{**edge, "points": edge["points"][::-1]} for edge in reversed(edges)]
        for edge in edges:
            edge["points"] = [[x + 1500 * k, y] for x, y in edge["points"]]
        levels = [
            {"id": x.id, "points": [[u + 1500 * k, v] for u, v in pixels(x.curve.points[::3])]} for x in piece.inside
        ]
        pieces.append({"id": piece.id, "label": piece.label, "closed": True, "edges": edges, "levels": levels})
    ends = pixels(np.array([(0.0, 0.0), (100.0, 0.0)]))
    return {
        "format": "panelwright-trace/1",
        "ref": "own-01",
        "title": "My block",
        "picture": {"width": 4000, "height": 3000},
        "measured": {"kind": "length", "ends": ends, "mm": 100},
        "scale": 4,
        "pieces": pieces,
    }
