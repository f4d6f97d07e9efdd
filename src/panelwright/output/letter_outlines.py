"""The outlines of the typeface's letters, for pictures that are made of dots."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Final

import numpy as np
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

from panelwright.drawing.path import Path
from panelwright.drawing.typeface import typeface
from panelwright.geometry.arrays import Array

_STEPS: Final = np.linspace(0.0, 1.0, 7)[1:, None]


@lru_cache(maxsize=512)
def letter_outlines(bold: bool, letter: str) -> tuple[Array, ...]:
    """The outlines of a letter in ems, shape (n, 2) each, y up, from its place on the baseline."""
    with TTFont(typeface(bold).file, lazy=True) as font:
        glyphs, name = font.getGlyphSet(), font.getBestCmap()[ord(letter)]
        pen = DecomposingRecordingPen(glyphs)
        glyphs[name].draw(pen)
        em = float(font["head"].unitsPerEm)
    return tuple(ring / em for ring in _outlines(pen.value))


def _outlines(moves: Sequence[tuple[str, tuple[tuple[float, float] | None, ...]]]) -> list[Array]:
    """Polylines along what a pen of the typeface draws."""
    rings: list[list[Array]] = []
    for move, places in moves:
        if move == "qCurveTo" and places[-1] is None:  # a closed run of handles alone
            handles = np.array(places[:-1], float)
            start = (handles[-1] + handles[0]) / 2
            rings.append([start[None]])
            places = (*places[:-1], (float(start[0]), float(start[1])))
        points = np.array(places, float).reshape(-1, 2)
        if move == "moveTo":
            rings.append([points])
        elif move == "lineTo":
            rings[-1].append(points)
        elif move == "qCurveTo":
            rings[-1].append(_quadratics(rings[-1][-1][-1], points))
        elif move == "curveTo":
            rings[-1].append(Path("MC", np.concatenate([rings[-1][-1][-1:], points])).polylines[0][1:])
    return [np.concatenate(ring) for ring in rings]


def _quadratics(start: Array, points: Array) -> Array:
    """Points along a run of quadratic curves: handles, with their middles between them, and an end."""
    found, here = [], start
    handles, last = points[:-1], points[-1]
    for k, handle in enumerate(handles):
        end = last if k == len(handles) - 1 else (handle + handles[k + 1]) / 2
        t, s = _STEPS, 1 - _STEPS
        found.append(s * s * here + 2 * s * t * handle + t * t * end)
        here = end
    return np.concatenate(found) if found else last[None]
