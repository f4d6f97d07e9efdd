"""Rule 6 at a fold: straight, without allowance, along the grain, finished edges square to it."""

import math
from collections.abc import Iterator

import numpy as np

from panelwright.body.worded_length import length_words
from panelwright.checks.corner import Corner, degrees, finished_corner
from panelwright.checks.design_words import drawing_step, met_words
from panelwright.checks.outline import is_sound
from panelwright.checks.shell import own_pieces
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.arrays import Array, cross
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.geometry.trace import Trace, trace
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import CENTRE_BACK
from panelwright.pattern.mark import as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece


def check_folds(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`fold-straight`, `fold-allowance`, `fold-grain` and `fold-angle` errors."""
    own = {piece.id for piece in own_pieces(cutting.pattern)}
    found: list[Finding] = []
    for piece, cut in cutting.pieces:
        for edge in piece.edges:
            if edge.kind == "fold":
                found += _allowance(piece, edge, cut.allowances[edge.id])
                if piece.id in own and is_sound(piece):
                    found += _straight(piece, edge)
                    found += _grain(piece, edge)
                    found += _angles(cutting.pattern, piece, edge)
    return tuple(found)


def between_lines(u: Array, v: Array) -> float:
    """Angle between two undirected plane vectors, radians, 0 … π/2."""
    return math.atan2(abs(float(cross(u, v))), abs(float(u @ v)))


def _straight(piece: Piece, edge: Edge) -> Iterator[Finding]:
    points = trace(edge.curve).points
    away, _ = Trace(np.array([edge.curve.start, edge.curve.end])).nearest(points)
    off, at = float(away.max()), as_point(points[away.argmax()])
    if off > TOLERANCES.straight:
        message = f"{piece.label}: the fold bends {length_words(off, 2)} off the straight."
        remedy = "Draw the fold straight, or cut the piece whole or with a seam there."
        yield Finding("fold-straight", "error", edge.id, off, TOLERANCES.straight, message, remedy, piece.id, at)


def _allowance(piece: Piece, edge: Edge, width: float) -> Iterator[Finding]:
    if width > 0:
        message = f"{piece.label}: the fold has {length_words(width, 2)} of allowance; a fold takes none."
        remedy = "Set the allowance of the fold to 0."
        at = as_point(edge.curve.point(edge.curve.length / 2))
        yield Finding("fold-allowance", "error", edge.id, width, 0, message, remedy, piece.id, at)


def _grain(piece: Piece, edge: Edge) -> Iterator[Finding]:
    skew = between_lines(edge.curve.chord, piece.grain.vector)
    limit = TOLERANCES.fold_to_grain
    if skew > limit:
        message = f"{piece.label}: the grain line stands {degrees(skew)} off the fold; the limit is {degrees(limit)}."
        remedy = "Draw the grain line parallel to the fold."
        numbers = math.degrees(skew), math.degrees(limit)
        yield Finding("fold-grain", "error", edge.id, *numbers, message, remedy, piece.id, piece.grain.start, "°")


def _angles(pattern: Pattern, piece: Piece, edge: Edge) -> Iterator[Finding]:
    for at_end in (False, True):
        corner = finished_corner(piece, edge, at_end)
        if corner and square_off(corner) > TOLERANCES.right_angle:
            off, limit = math.degrees(square_off(corner)), math.degrees(TOLERANCES.right_angle)
            message, remedy = square_words(pattern, corner, "the fold")
            yield Finding("fold-angle", "error", edge.id, off, limit, message, remedy, piece.id, corner.at, "°")


def square_off(corner: Corner) -> float:
    """How far a corner is from a right angle, radians; 0 where a point was asked for."""
    return 0.0 if corner.pointed else abs(corner.angle - math.pi / 2)


def square_words(pattern: Pattern, corner: Corner, what: str) -> tuple[str, str]:
    """(message, remedy) for a finished edge that does not meet a fold or centre at a right angle."""
    edge, pointing = met_words(pattern, corner.finished.line), "a point" if corner.angle < math.pi / 2 else "a dip"
    message = (
        f"{corner.piece.label}: {edge} meets {what} at {degrees(corner.angle)}, not at 90°; "
        f"opened out it makes {pointing}."
    )
    step = drawing_step(pattern, corner.finished.line)
    if step is None:
        return message, "Draw the edge square to the centre for its last centimetre, or ask for a point there."
    if any(edge.line == CENTRE_BACK for edge in (corner.before, corner.piece.after(corner.before))):
        how = f"bring the height at centre back nearer to that at the side{in_file('back, side')}"
        return message, f"In {step} {how}, so that the edge ends level."
    way = f"take out the points nearest to the centre{in_file('points')}, so that the edge ends level"
    asked = f"ask for a point at the centre{in_file('point_at_centre, true')} if you want one there"
    return message, f"In {step} {way}, or {asked}."
