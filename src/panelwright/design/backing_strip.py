"""A straight piece that lies behind a closure: a modesty panel, an underlap."""

from dataclasses import replace
from typing import Final

import numpy as np

from panelwright.design.fastening import Strip
from panelwright.errors import DesignError
from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Grain
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

BESIDE: Final = 40.0  # mm on paper from the piece that lies farthest left


def with_strip(pattern: Pattern, strip: Strip, uid: str) -> Pattern:
    """The pattern with a strip as a piece of its own, `<uid>-<name>`, left of all the others.

    It is whole, its grain runs up it, and its four edges are finished: nothing of the pattern is sewn to them.

    Raises:
        DesignError: if a piece is already called so.
    """
    id = f"{uid}-{strip.name}"
    if pattern.has_piece(id):
        raise DesignError(f"a piece is already called {id}; give this step another uid", id)
    right = min(float(piece.vertices[:, 0].min()) for piece in pattern.pieces) - BESIDE
    corners = np.array([(-strip.width, 0.0), (0.0, 0.0), (0.0, strip.height), (-strip.width, strip.height)])
    corners += [right, -strip.height / 2]
    line = Line(f"{uid}/{strip.name}", f"{strip.label}, edge", uid)
    edges = tuple(
        Edge(
            f"{id}.{line.id}" + (f"-{k + 1}" if k else ""), line.id, "left", "finished",
            Curve.straight(corners[k], corners[(k + 1) % 4]), (k / 4, (k + 1) / 4),
        )
        for k in range(4)
    )  # fmt: skip
    middle, reach = right - strip.width / 2, 0.35 * strip.height
    piece = Piece(id, strip.label, edges, "whole", "both", Grain((middle, -reach), (middle, reach)))
    return replace(pattern, pieces=(*pattern.pieces, piece), lines=(*pattern.lines, line))
