"""What a piece is drawn on by hand: a tracing of what is on paper already, or a cross on fresh paper."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from panelwright.drawing.hand_piece import HandPiece
from panelwright.drawing.scale import QUARTER
from panelwright.geometry.arrays import Array, unit
from panelwright.geometry.placement import Placement
from panelwright.pattern.piece import Piece


def drawn_on(piece: Piece, known: Mapping[str, tuple[HandPiece, Piece]]) -> tuple[HandPiece, Piece] | None:
    """What the piece is drawn on: itself, the piece that it repeats, or one of its first panel; None: fresh paper."""
    if piece.id in known:
        return known[piece.id]
    if piece.derived_from:
        return known.get(piece.derived_from)
    if not piece.material:
        return None
    panel = piece.material[0].panel
    of_panel = (entry for entry in known.values() if entry[1].material and entry[1].material[0].panel == panel)
    return next(of_panel, None)


def moved_to(before: Piece, after: Piece) -> Placement:
    """How what is on paper has to be moved to lie where the piece lies, mm on paper."""
    if not before.material or not after.material:
        return Placement()
    move = after.material[0].placement.after(before.material[0].placement.inverse)
    return replace(move, x=move.x * QUARTER.factor, y=move.y * QUARTER.factor)


def cross_of(piece: Piece) -> tuple[Array, Array]:
    """(origin, unit vector up) of a piece's cross: the grain, or the fold along it, where the waist meets it."""
    start, up = np.array(piece.grain.start), unit(piece.grain.vector)
    fold = next((edge for edge in piece.edges if edge.kind == "fold"), None)
    if fold is not None:
        start = fold.curve.start if fold.curve.chord @ up > 0 else fold.curve.end
    waist = piece.inside_line("waist")
    if waist is not None:
        run = waist.curve.polyline()
        right = np.array([up[1], -up[0]])
        places = (run - start) @ right
        order = np.argsort(places)
        height = float(np.interp(0.0, places[order], ((run - start) @ up)[order]))
        start = start + height * up
    return QUARTER.factor * start, up
