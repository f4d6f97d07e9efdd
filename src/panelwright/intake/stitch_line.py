"""From paper to stitch lines at full scale: the shape grows with the scale, the allowance taken off does not."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from panelwright.errors import GeometryError, InputError
from panelwright.geometry.arrays import cross
from panelwright.geometry.curve import Curve
from panelwright.geometry.parallel import extended, parallel
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.drawn_piece import DrawnNotch, DrawnPiece
from panelwright.pattern.mark import Grain, Mark, Point, as_point

# Two edges that meet at less than this run on smoothly (sine of the angle): their stitch lines need no corner.
_SMOOTH: Final = 0.02
_STEPS: Final = 40
_NEAR: Final = 1e-9
LEAST_EDGE: Final = 1.0  # mm of the garment


def stitch_lines(drawn: DrawnPattern) -> DrawnPattern:
    """The pieces at full scale, outlined by their stitch lines, with no allowance.

    Every edge is moved inwards by the allowance as it was drawn, none at a fold; where two moved edges meet is the
    stitch line's corner. Notches go square across to the stitch line, lines inside stay as they are. Where nobody has
    said that there is an allowance, the outline is taken for the stitch line.

    Raises:
        InputError: if an edge is too short or bends too sharply for its allowance; `where` names the piece.
    """
    width = drawn.allowance_on_paper * drawn.scale
    pieces = tuple(_bare(_grown(piece, drawn.scale), width) for piece in drawn.pieces)
    return replace(drawn, pieces=pieces, scale=1.0, allowance=0.0)


def _grown(piece: DrawnPiece, factor: float) -> DrawnPiece:
    """The piece with its shape multiplied."""
    if factor == 1.0:
        return piece

    def at(point: Point) -> Point:
        return point[0] * factor, point[1] * factor

    return replace(
        piece,
        edges=tuple(replace(edge, curve=edge.curve.scaled(factor)) for edge in piece.edges),
        grain=None if piece.grain is None else Grain(at(piece.grain.start), at(piece.grain.end)),
        inside=tuple(replace(line, curve=line.curve.scaled(factor)) for line in piece.inside),
        notches=tuple(DrawnNotch(at(notch.at), notch.count) for notch in piece.notches),
        marks=tuple(Mark(mark.id, mark.kind, at(mark.at)) for mark in piece.marks),
    )


def _bare(piece: DrawnPiece, width: float) -> DrawnPiece:
    """The piece without its allowance."""
    if width < TOLERANCES.polyline:
        return piece
    lines = [_moved(piece, k, edge, width) for k, edge in enumerate(piece.edges)]
    reach = 4 * width
    cuts = [_corner(a, b, reach) for a, b in zip(lines, lines[1:] + lines[:1], strict=True)]
    edges: list[DrawnEdge] = []
    for k, (edge, line) in enumerate(zip(piece.edges, lines, strict=True)):
        start, end = cuts[k - 1][1], cuts[k][0]
        if end - start < LEAST_EDGE:
            raise InputError(
                f"piece {piece.id}: edge {piece.drawn_number(k)} is too short for an allowance of {width / 10:g} cm "
                "beside its neighbours; say what allowance the drawing has, or draw the stitch line",
                piece.id,
            )
        edges.append(replace(edge, curve=extended(line, reach).between(start, end)))
    shut = tuple(
        replace(edge, curve=edge.curve.ending_at(start=before.curve.end))
        for before, edge in zip(edges[-1:] + edges[:-1], edges, strict=True)
    )
    notches = tuple(replace(notch, at=_across(piece.edges, shut, notch.at)) for notch in piece.notches)
    return replace(piece, edges=shut, notches=notches)


def _moved(piece: DrawnPiece, place: int, edge: DrawnEdge, width: float) -> Curve:
    if edge.kind == "fold":
        return edge.curve
    try:
        return parallel(edge.curve, width)
    except GeometryError as error:
        raise InputError(
            f"piece {piece.id}, edge {piece.drawn_number(place)}: {error}; divide it at its corner, or give the stitch "
            "line",
            piece.id,
        ) from error


def _corner(before: Curve, after: Curve, reach: float) -> tuple[float, float]:
    """Where two moved edges meet: arc positions on each of them run on by `reach` at both ends."""
    a, b = extended(before, reach), extended(after, reach)
    s, t = reach + before.length, reach
    for _ in range(_STEPS):
        (here, u), (there, v) = a.frame(s), b.frame(t)
        turning = float(cross(u, v))
        if abs(turning) < _SMOOTH:
            return reach + before.length, reach
        gap = there - here
        ds, dt = float(cross(gap, v)) / turning, float(cross(gap, u)) / turning
        s, t = (min(max(x, 0.0), whole) for x, whole in ((s + ds, a.length), (t + dt, b.length)))
        if abs(ds) + abs(dt) < _NEAR:
            break
    return s, t


def _across(cut: Sequence[DrawnEdge], stitched: Sequence[DrawnEdge], at: Point) -> Point:
    """The place on the stitch line across from a place on the cut line."""
    apart = [edge.curve.nearest(at)[1] for edge in cut]
    line = stitched[int(np.argmin(apart))].curve
    return as_point(line.point(line.nearest(at)[0]))
