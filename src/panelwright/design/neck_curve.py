"""A neckline on a bodice to the shoulder: from the centre to the shoulder seam, on one panel."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from panelwright.body.worded_length import given_words, length_words
from panelwright.design.chain import EdgePart
from panelwright.design.edge_cut import put_in_place
from panelwright.design.outline_cut import CutOutline, OutlinePlace, cut_outline
from panelwright.design.remnant import Remnant, remnant
from panelwright.errors import DesignError, GeometryError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece

NeckShape = Literal["round", "v", "square"]

# Of the way across and of the way up: how far a round neckline keeps the directions of its ends.
FULLNESS_LOW, FULLNESS_HIGH = 0.62, 0.5
SQUARE_LEAN = 0.06  # outwards for every mm up
STEEPEST_POINT = 0.9  # rise per mm of a V at its point
POINT_FLARE = 36.0  # mm over which a steep V leaves its point less steeply
SHOULDER_LEFT = 15.0  # mm of shoulder that stay on the panel
SEAM_CLEAR = 8.0  # mm between neckline and the panel's other seam
_FRONT_SHARE = 0.6  # of a whole neckline, from centre front to shoulder


@dataclass(frozen=True)
class NeckDesign:
    """A neckline as a design says it, mm: below the neck base at each centre, and along the shoulder."""

    shape: NeckShape
    front_depth: float
    back_depth: float
    width: float


def neckline_cut(pattern: Pattern, uid: str, design: NeckDesign) -> Pattern:
    """The pattern with its neckline lowered at the centres and moved along the shoulder.

    It stands square to the centres (a V has its point at the centre front) and to the shoulder, so front and back
    run on into each other.

    Raises:
        DesignError: if the panel at a centre has not that much of shoulder or centre, or too little width.
    """
    halves = ((lines.CENTRE_FRONT, design.front_depth, design.shape), (lines.CENTRE_BACK, design.back_depth, "round"))
    if not design.width and all(not depth and shape == "round" for _, depth, shape in halves):
        return pattern
    line = Line(f"{uid}/neckline", "Neckline", uid)
    remnants: dict[str, Remnant] = {}
    parts: dict[str, tuple[EdgePart, ...]] = {}
    for centre, depth, shape in halves:
        (piece, centre_edge), *_ = pattern.pieces_on_line(centre)
        new, outline = _cut(piece, centre_edge, depth, design.width, shape, line)
        _refuse_crowded(piece, new, centre)
        try:
            remnants[piece.id] = remnant(piece, outline.edges, [edge.curve for edge in new])
        except GeometryError as error:
            raise DesignError(
                f"the neckline does not fit into {spoken_piece(piece)} ({error}); make it smaller"
            ) from error
        parts |= outline.parts
    return put_in_place(pattern, remnants, parts, line)


def _cut(
    piece: Piece, centre: Edge, depth: float, width: float, shape: str, line: Line
) -> tuple[tuple[Edge, ...], CutOutline]:
    """(the new edges, the piece's outline with them)."""
    (shoulder,) = piece.on_line(lines.SHOULDER)
    most = shoulder.curve.length - SHOULDER_LEFT
    if width > most:
        raise DesignError(
            f"the neckline reaches {given_words(width)} along the shoulder, of which {spoken_piece(piece)} can give "
            f"{length_words(most)}; make it narrower, or lead the princess seam to the armhole",
            piece.id,
        )
    if depth > centre.curve.length - SHOULDER_LEFT:
        raise DesignError(f"the neckline lies below the hem of {spoken_piece(piece)}; raise it", piece.id)
    rising = centre.along_line
    low = OutlinePlace(centre.id, centre.curve.length - depth if rising else depth)
    high = OutlinePlace(shoulder.id, width if shoulder.along_line else shoulder.curve.length - width)
    new = _edges(piece, centre, low, shoulder, high, shape, line)
    leave, enter = (low, high) if rising else (high, low)
    return new, cut_outline(piece, leave, enter, new, shape == "v")


def _edges(
    piece: Piece, centre: Edge, low: OutlinePlace, shoulder: Edge, high: OutlinePlace, shape: str, line: Line
) -> tuple[Edge, ...]:
    """The new edges in the sense of the outline."""
    start, down = centre.curve.frame(low.arc)
    end, along = shoulder.curve.frame(high.arc)
    outwards = along if shoulder.along_line else -along
    front = centre.along_line
    up = down if front else -down
    away = _turned(up, 1.0 if front else -1.0)  # square to the centre, into the piece
    rising = _turned(outwards, -1.0 if front else 1.0)  # square to the shoulder, towards it
    curves = _curves(start, end, away, rising, shape)
    shares = [(0.0, _FRONT_SHARE)] if len(curves) == 1 else [(0.0, 0.3), (0.3, _FRONT_SHARE)]
    if not front:
        curves = [curve.reversed() for curve in curves][::-1]
        shares = [(_FRONT_SHARE, 1.0)]
    return tuple(
        Edge(
            f"{piece.id}.{line.id}" + (f"-{k + 1}" if k else ""), line.id, "left", "finished", curve, share,
            k + 1 < len(curves),
        )
        for k, (curve, share) in enumerate(zip(curves, shares, strict=True))
    )  # fmt: skip


def _curves(start: Array, end: Array, away: Array, rising: Array, shape: str) -> list[Curve]:
    """From the centre to the shoulder."""
    way = end - start
    sides = abs(float(way @ away)), abs(float(way @ _turned(away, 1.0)))
    if shape == "square":
        corner = start + (sides[0] - SQUARE_LEAN * sides[1]) * away
        wall = end - corner
        high = end - np.linalg.norm(wall) / 3 * rising
        return [Curve.straight(start, corner), Curve(np.array([[corner, corner + wall / 3, high, end]]))]
    if shape == "v":
        return [_pointed(start, end, away, rising, sides)]
    low, high = FULLNESS_LOW * sides[0] * away, FULLNESS_HIGH * sides[1] * rising
    return [Curve(np.array([[start, start + low, end - high, end]]))]


def _pointed(start: Array, end: Array, away: Array, rising: Array, sides: tuple[float, float]) -> Curve:
    """A V: from its point nearly straight to the shoulder, which it meets square.

    A V steeper than 45 degrees leaves the fold at that slope and steepens a little way off, or the allowances of its
    two sides would lie on each other at the point.
    """
    way = (end - start) / np.linalg.norm(end - start)
    if sides[1] <= sides[0] * STEEPEST_POINT:
        reach = float(np.linalg.norm(end - start)) / 3
        return Curve(np.array([[start, start + reach * way, end - reach * rising, end]]))
    upward = way - away * float(way @ away)
    first = away + STEEPEST_POINT * upward / np.linalg.norm(upward)
    first /= np.linalg.norm(first)
    joint = start + POINT_FLARE * first
    reach = float(np.linalg.norm(end - joint)) / 3
    bent = (end - joint) / np.linalg.norm(end - joint)
    low = np.array([start, start + POINT_FLARE * 0.4 * first, joint - POINT_FLARE * 0.4 * bent, joint])
    return Curve(np.array([low, [joint, joint + reach * bent, end - reach * rising, end]]))


def _refuse_crowded(piece: Piece, new: tuple[Edge, ...], centre: str) -> None:
    for other in piece.edges:
        if other.line in (centre, lines.SHOULDER, lines.NECKLINE, lines.HEM):
            continue
        gap = min(
            float(np.linalg.norm(edge.curve.polyline()[:, None] - other.curve.polyline(0.5)[None], axis=-1).min())
            for edge in new
        )
        if gap < SEAM_CLEAR:
            raise DesignError(
                f"the neckline comes within {length_words(gap)} of the {other.line.replace('-', ' ')} edge of "
                f"{spoken_piece(piece)}; make it narrower or less deep, or lead the princess seam to the armhole",
                piece.id,
            )


def _turned(vector: Array, way: float) -> Array:
    return np.array([-way * vector[1], way * vector[0]])
