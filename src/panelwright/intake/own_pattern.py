"""A pattern read off paper becomes a pattern like any other."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import combinations

import numpy as np
from shapely import LineString

from panelwright.blocks.arm_of import arm_of
from panelwright.body.measurements import Measurements
from panelwright.checks.wearer_ease import GIRTHS
from panelwright.errors import GeometryError, InputError
from panelwright.intake.divided import Divided, divided
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.own_edges import OwnEdge, called, own_edges
from panelwright.intake.own_grain import with_grain
from panelwright.intake.own_levels import ended_on, own_levels
from panelwright.intake.own_placing import placements
from panelwright.intake.own_seams import own_seams
from panelwright.intake.piece_upright import upwards
from panelwright.intake.stitch_line import stitch_lines
from panelwright.pattern.edge import Edge, EdgeSide
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Grain, InsideLine, Mark, as_point
from panelwright.pattern.material import Region
from panelwright.pattern.pattern import NOBODY, Pattern
from panelwright.pattern.piece import Extent, Piece


def pattern_of(drawn: DrawnPattern, wearer: Measurements | None = None) -> Pattern:
    """The pattern at full scale: stitch lines, seams, levels and grain, lying as patterns lie here.

    Args:
        drawn: pieces with their confirmed seams; an edge that several share is divided.
        wearer: whom it is for: then levels tell the body's girth and the ease that the drawing gives.

    Edges in no seam that are to be sewn stay open, and a check says so. Levels may be missing: then no girth is known,
    and steps that speak of levels cannot be carried out. Drawn notches stay as points `notch-1`, … on the edge; pieces
    ready to cut get their notches as every pattern does.

    Raises:
        InputError: if a piece cannot be: an outline that crosses itself, an edge in two seams.
    """
    return sewn_pattern(divided(stitch_lines(drawn)), wearer)


def sewn_pattern(sewn: Divided, wearer: Measurements | None = None) -> Pattern:
    """The same of pieces at full scale whose shared edges are divided."""
    whole, edges = sewn.pattern, own_edges(sewn.pattern)
    flat = {piece.id: _piece(piece, edges) for piece in whole.pieces}
    at = placements(whole, flat, edges)
    placed = {id: _sided(piece.placed(at[id]), whole, edges) for id, piece in flat.items()}
    row = tuple(placed[id] for id in at)
    levels = own_levels(row, wearer)
    known = {level.id for level in levels}
    pieces = tuple(with_grain(_guided(piece, known), whole.piece(piece.id).grain is not None) for piece in row)
    measured = {GIRTHS[level.id] for level in levels if level.id in GIRTHS}
    return Pattern(
        pieces=pieces,
        seams=own_seams(whole, edges, pieces),
        lines=_lines(pieces),
        levels=levels,
        wearer=NOBODY if wearer is None else wearer.ref,
        estimated=() if wearer is None else tuple(id for id in wearer.estimated if id in measured),
        design=whole.ref,
        title=whole.title,
        arm=None if wearer is None else arm_of(wearer),
    )


def _piece(piece: DrawnPiece, edges: Mapping[EdgeRef, OwnEdge]) -> Piece:
    """The piece where it was drawn; the sides of its lines are found later."""
    own = [edges[EdgeRef(piece.id, k)] for k in range(len(piece.edges))]
    made = tuple(Edge(o.id, o.line, "left", o.kind, e.curve) for o, e in zip(own, piece.edges, strict=True))
    levels = [ended_on(line, made) for line in piece.inside if line.kind == "level"]
    inside = [line for line in levels if line is not None]
    inside += [line for line in piece.inside if line.kind != "level"]
    notches = tuple(Mark(f"notch-{k}", "point", notch.at) for k, notch in enumerate(piece.notches, 1))
    folded = any(edge.kind == "fold" for edge in made)
    extent: Extent = piece.extent or ("half_on_fold" if folded else "one_side")
    up = upwards(piece)
    try:
        return Piece.closed(
            made, id=piece.id, label=piece.label or piece.id, extent=extent, hand="both",
            grain=piece.grain or Grain((0.0, 0.0), as_point(up)), inside=tuple(inside),
            marks=(*piece.marks, *notches), material=(Region(piece.id),),
        )  # fmt: skip
    except GeometryError as error:
        raise InputError(f"{error}{_crossing(piece)}; put its points right, or draw it anew", piece.id) from error


def _crossing(piece: DrawnPiece) -> str:
    """Where its outline crosses itself, by the edges as whoever drew it counts them."""
    lines = [LineString(edge.curve.polyline()) for edge in piece.edges]
    for k, line in enumerate(lines):
        if not line.is_simple:
            return f" on edge {piece.drawn_number(k)}"
    for (j, one), (k, other) in combinations(enumerate(lines), 2):
        if one.crosses(other):
            first, second = sorted((piece.drawn_number(j), piece.drawn_number(k)))
            return f" where edges {first} and {second} meet"
    return ""


def _sided(piece: Piece, whole: DrawnPattern, edges: Mapping[EdgeRef, OwnEdge]) -> Piece:
    """The placed piece with its edges on the right sides of their lines, and its lines from left to right."""
    seconds = {edges[seam.b].id for seam in whole.seams}
    upright = {edge.id for edge in edges.values() if edge.rising is not None}
    made = []
    for edge in piece.edges:
        chord = edge.curve.chord
        along = chord[1] > 0 if edge.id in upright else chord[0] < 0
        if edge.id not in upright and edge.kind == "seam":
            along = edge.id not in seconds
        side: EdgeSide = "left" if along else "right"
        made.append(replace(edge, side=side))
    shared = tuple(replace(edge, interval=_interval(edge, made)) for edge in made)
    inside = tuple(_rightwards(line) if line.kind == "level" else line for line in piece.inside)
    material = (Region(piece.id),)
    return replace(piece, edges=shared, inside=inside, material=material)


def _interval(edge: Edge, edges: Sequence[Edge]) -> tuple[float, float]:
    """The share of its line, where several edges of the piece lie on it one after another."""
    same = [other for other in edges if other.line == edge.line and other.side == edge.side]
    if edge.side == "right":
        same.reverse()
    lengths = np.array([other.curve.length for other in same])
    ends = np.concatenate([[0.0], np.cumsum(lengths) / lengths.sum()])
    k = same.index(edge)
    return float(ends[k]), float(min(ends[k + 1], 1.0))


def _rightwards(line: InsideLine) -> InsideLine:
    return line if line.curve.chord[0] >= 0 else replace(line, curve=line.curve.reversed())


def _guided(piece: Piece, levels: set[str]) -> Piece:
    """A level that does not run all round is a guide."""
    inside = tuple(
        replace(line, kind="guide") if line.kind == "level" and line.id not in levels else line for line in piece.inside
    )
    return replace(piece, inside=inside)


def _lines(pieces: Sequence[Piece]) -> tuple[Line, ...]:
    owners: dict[str, list[str]] = {}
    for piece in pieces:
        for edge in piece.edges:
            owners.setdefault(edge.line, []).append(piece.id)
    return tuple(Line(name, called(name, tuple(dict.fromkeys(ids)))) for name, ids in owners.items())
