"""The grain line of a piece read off paper."""

import math
from dataclasses import replace
from typing import Final

import numpy as np

from panelwright.finish.grain_line import roomiest
from panelwright.geometry.arrays import Array, turn, unit
from panelwright.pattern import line as lines
from panelwright.pattern.level import WAIST
from panelwright.pattern.mark import Grain, as_point
from panelwright.pattern.piece import Piece

# A grain line that is off by less is meant along the centre or square to the waist: it was drawn by hand (own choice).
GRAIN_MEANT: Final = math.radians(2.0)
_OF_ROOM: Final = 0.7
_ACROSS: Final = np.linspace(0.25, 0.75, 11)


def with_grain(piece: Piece, drawn: bool = True) -> Piece:
    """The piece with its grain along the fold or centre front, else square to its waist, where it all but is.

    A grain line that is off by more than 2° was meant otherwise and stays. Where none was drawn, one is put in.
    """
    wanted = _wanted(piece)
    if not drawn:
        start, end = roomiest(piece.outline, wanted, _ACROSS)
        return replace(piece, grain=_about((start + end) / 2, (end - start) / 2 * _OF_ROOM))
    vector = piece.grain.vector
    along = wanted if vector @ wanted > 0 else -wanted
    if abs(turn(unit(vector), along)) > GRAIN_MEANT:
        return piece
    return replace(piece, grain=_about(np.add(piece.grain.start, piece.grain.end) / 2, along * piece.grain.length / 2))


def _about(middle: Array, half: Array) -> Grain:
    return Grain(as_point(middle - half), as_point(middle + half))


def _wanted(piece: Piece) -> Array:
    """Along the fold or the centre front, else square to the waist line, else up."""
    for edge in piece.edges:
        if edge.kind == "fold" or edge.line == lines.CENTRE_FRONT:
            chord = unit(edge.curve.chord)
            return chord if chord[1] > 0 else -chord
    waist = piece.inside_line(WAIST)
    if waist is None:
        return np.array([0.0, 1.0])
    across = unit(waist.curve.chord)
    return np.array([-across[1], across[0]])
