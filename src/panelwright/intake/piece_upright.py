"""Which way is up on a piece that may lie anyhow on its paper."""

from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array, unit
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.pattern import line as lines
from panelwright.pattern.level import LEVELS, WAIST

UPPER_LINES: Final = (lines.TOP, lines.NECKLINE, lines.SHOULDER, lines.ARMHOLE)
CENTRES: Final = (lines.CENTRE_FRONT, lines.CENTRE_BACK)


def upwards(piece: DrawnPiece) -> Array:
    """The unit direction up the body, shape (2,), as well as the piece tells it.

    It is square to its waist line, or to the level nearest to it; else along its fold or centre, else along its grain,
    else up the paper. Which of the two ways is up is told by the order of its levels, else by an edge named as the
    upper one or the hem, else it is the way up the paper.
    """
    axis = _axis(piece)
    told = _told_sense(piece)
    sense = np.array([1e-3, 1.0]) if told is None else told  # a line level on the paper has its up on the right
    return axis if sense @ axis >= 0 else -axis


def tells_up(piece: DrawnPiece) -> bool:
    """Whether the piece itself tells which way is up, by its levels or the names of its edges."""
    return _told_sense(piece) is not None


def _axis(piece: DrawnPiece) -> Array:
    levels = {line.id: line.curve for line in piece.inside if line.kind == "level"}
    if levels:
        ranks = {id: abs(LEVELS.index(id) - LEVELS.index(WAIST)) if id in LEVELS else len(LEVELS) for id in levels}
        across = unit(levels[min(ranks, key=lambda id: ranks[id])].chord)
        return np.array([-across[1], across[0]])
    for edge in piece.edges:
        if edge.kind == "fold" or edge.line in CENTRES:
            return unit(edge.curve.chord)
    if piece.grain is not None:
        return unit(piece.grain.vector)
    return np.array([0.0, 1.0])


def _told_sense(piece: DrawnPiece) -> Array | None:
    """Any vector that points up rather than down, or None where nothing tells."""
    levels = {LEVELS.index(x.id): x.curve for x in piece.inside if x.kind == "level" and x.id in LEVELS}
    if len(levels) > 1:
        upper, lower = levels[min(levels)], levels[max(levels)]
        return np.asarray(upper.point(upper.length / 2) - lower.point(lower.length / 2))
    middle = np.mean([edge.curve.point(edge.curve.length / 2) for edge in piece.edges], axis=0)
    for edge in piece.edges:
        away = edge.curve.point(edge.curve.length / 2) - middle
        if edge.line in UPPER_LINES:
            return np.asarray(away)
        if edge.line == lines.HEM:
            return np.asarray(-away)
    return None
