"""Grain lines turned until they are square to their piece's waist line, after the piece has changed its shape."""

import math
from collections.abc import Container
from dataclasses import replace
from functools import lru_cache

import numpy as np

from panelwright.design.grain_place import grain_inside
from panelwright.geometry.arrays import Array, cross
from panelwright.pattern.level import WAIST
from panelwright.pattern.line import is_centre_front
from panelwright.pattern.mark import Grain, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

KEPT = 256
LEAST_WAIST = 0.1  # mm; shorter bits of a level are dropped where a piece is cut
ENOUGH = math.radians(0.2)  # off square that nobody turns a grain line for


def squared(pattern: Pattern, ids: Container[str]) -> Pattern:
    """The pattern with the grain of these pieces along the centre front, else square to their waist line.

    A piece on the fold keeps its grain, and so does one with neither. The grain line is drawn where it has room.
    """
    return pattern.with_pieces(*(_turned(piece) for piece in pattern.pieces if piece.id in ids))


@lru_cache(maxsize=KEPT)
def _turned(piece: Piece) -> Piece:
    """Remembered by content, as `divided` is."""
    along = _wanted(piece)
    if along is None:
        return piece
    grain = piece.grain
    now = grain.vector / grain.length
    along = along if along @ now > 0 else -along
    if abs(math.asin(float(np.clip(cross(now, along), -1, 1)))) > ENOUGH:
        middle, half = np.add(grain.start, grain.end) / 2, grain.length / 2
        grain = Grain(as_point(middle - half * along), as_point(middle + half * along))
    return replace(piece, grain=grain_inside(piece.outline, grain))


def _wanted(piece: Piece) -> Array | None:
    """The direction that the grain should have, length 1."""
    if any(edge.kind == "fold" for edge in piece.edges):
        return None
    chord = next((edge.curve.chord for edge in piece.edges if is_centre_front(edge.line)), None)
    if chord is None:
        waist = piece.inside_line(WAIST)
        if waist is None or waist.kind != "level":
            return None
        chord = np.array([-waist.curve.chord[1], waist.curve.chord[0]])
    length = float(np.linalg.norm(chord))
    return chord / length if length > LEAST_WAIST else None
