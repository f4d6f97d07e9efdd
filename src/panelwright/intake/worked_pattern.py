"""A pattern while it is trued: outlines whose corners hold together, with levels and notches that go along."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from panelwright.checks.level_girth import drawn_girth
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.intake.bent_end import with_ends
from panelwright.intake.own_grain import with_grain
from panelwright.intake.seam_station import NOTCH
from panelwright.pattern.mark import InsideLine, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

Moved = Callable[[float], float]


def with_edge(pattern: Pattern, piece_id: str, edge_id: str, curve: Curve, moved: Moved | None = None) -> Pattern:
    """The pattern with one edge drawn anew.

    The two edges beside it are carried to its new ends. Levels that end on any of them, and notches, go along.

    Args:
        moved: old arc position -> new one, mm in the edge's own sense; in proportion by default.
    """
    piece = pattern.piece(piece_id)
    k, count = piece.index(edge_id), len(piece.edges)
    curves = [edge.curve for edge in piece.edges]
    new = list(curves)
    new[k] = curve
    before, after = (k - 1) % count, (k + 1) % count
    new[before] = with_ends(new[before], new[before].start, curve.start)
    new[after] = with_ends(new[after], curve.end, new[after].end)
    ways: list[Moved] = [_in_proportion(old, other) for old, other in zip(curves, new, strict=True)]
    if moved is not None:
        ways[k] = moved

    def carried(point: Array) -> Array:
        hits = [old.nearest(point) for old in curves]
        nearest = min(range(count), key=lambda j: hits[j][1])
        arc, gap = hits[nearest]
        return new[nearest].point(ways[nearest](arc)) if gap < TOLERANCES.seam else point

    inside = tuple(_carried_line(line, curves, new, carried) for line in piece.inside)
    marks = tuple(
        replace(mark, at=as_point(carried(np.array(mark.at)))) if mark.id.startswith(NOTCH) else mark
        for mark in piece.marks
    )
    edges = tuple(replace(edge, curve=other) for edge, other in zip(piece.edges, new, strict=True))
    return pattern.with_pieces(replace(piece, edges=edges, inside=inside, marks=marks))


def settled(pattern: Pattern) -> Pattern:
    """The pattern with grain lines and the girths of its levels as the pieces now are."""
    pattern = pattern.with_pieces(*(with_grain(piece) for piece in pattern.pieces))
    levels = []
    for level in pattern.levels:
        drawn = drawn_girth(pattern, level)
        unknown = level.ease == 0.0
        levels.append(replace(level, body_girth=drawn) if unknown else replace(level, ease=drawn - level.body_girth))
    return replace(pattern, levels=tuple(levels))


def straightened(piece: Piece, edge_id: str, upright: bool) -> Curve:
    """An edge as one straight line between its ends; on x = 0 if it is to be `upright`."""
    curve = piece.edge(edge_id).curve
    start, end = curve.start.copy(), curve.end.copy()
    if upright:
        start[0] = end[0] = 0.0
    return Curve.straight(start, end)


def _in_proportion(old: Curve, new: Curve) -> Moved:
    factor = new.length / old.length
    return lambda arc: arc * factor


def _carried_line(
    line: InsideLine, old: list[Curve], new: list[Curve], carried: Callable[[Array], Array]
) -> InsideLine:
    """A level that is an edge stays that edge; one that ends on edges is carried to where their places have gone."""
    if line.kind != "level":
        return line
    for one, other in zip(old, new, strict=True):
        if line.curve == one:
            return replace(line, curve=other)
        if line.curve == one.reversed():
            return replace(line, curve=other.reversed())
    return replace(line, curve=with_ends(line.curve, carried(line.curve.start), carried(line.curve.end)))
