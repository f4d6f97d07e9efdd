"""Cutting every piece of a pattern along a style line, which becomes its finished top edge or hem."""

from collections.abc import Container, Mapping, Sequence
from dataclasses import replace
from typing import Literal

import numpy as np
import shapely
from shapely import LineString

from panelwright.body.worded_length import least_words, length_words
from panelwright.design.chain import EdgePart, resewn
from panelwright.design.line_stretch import SAME_CROSSING, LineStretch, line_stretches
from panelwright.design.outline_cut import OutlinePlace, cut_outline
from panelwright.design.position import spoken
from panelwright.design.remnant import Remnant, remnant
from panelwright.design.style_line import LinePlace, StyleLine
from panelwright.errors import DesignError, GeometryError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import Level
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece

Keep = Literal["below", "above"]
SHORTEST_SEAM = 15.0  # mm that a cut leaves of any upright edge
LEVEL_CHANGE = 0.8 * TOLERANCES.level  # of a girth, when its line is laid on the new edge
NEAR_END = 1e-6  # of a line's length


def cut_edge(pattern: Pattern, style: StyleLine, line: Line, keep: Keep) -> Pattern:
    """The pattern cut along a style line; what lies on the other side is gone, and its seams and levels with it.

    Args:
        pattern: any pattern whose pieces know their block panels.
        style: the line, on the block.
        line: the new line that the new edges lie on.
        keep: `below` for a top edge, `above` for a hem.

    Raises:
        DesignError: if the line meets the other finished edge or leaves less than 15 mm of a seam, or would cut
            off a whole piece.
    """
    remnants: dict[str, Remnant] = {}
    parts: dict[str, tuple[EdgePart, ...]] = {}
    for piece in pattern.pieces:
        stretches = line_stretches(piece, style)
        if piece.layer != "outer" or not stretches:
            continue
        ends = _ends(piece, stretches, keep)
        if ends is None:
            continue
        remnants[piece.id], made = _cut_piece(piece, stretches, ends, line, keep)
        parts.update(made)
    return put_in_place(pattern, remnants, parts, line)


def put_in_place(
    pattern: Pattern, remnants: Mapping[str, Remnant], parts: Mapping[str, tuple[EdgePart, ...]], line: Line
) -> Pattern:
    """The pattern with cut pieces, their seams on what is left of the edges, and the levels that remain whole."""
    levels = tuple(level for level in pattern.levels if _remains(level, pattern, remnants))
    lost = {level.id for level in pattern.levels} - {level.id for level in levels}
    pieces = tuple(
        remnants[piece.id].piece(lost) if piece.id in remnants else _unlevelled(piece, lost) for piece in pattern.pieces
    )
    bare = replace(pattern, pieces=pieces, seams=(), levels=(), lines=(*pattern.lines, line))
    return replace(bare, seams=resewn(pattern.seams, parts, pattern, bare), levels=levels)


def _remains(level: Level, pattern: Pattern, remnants: Mapping[str, Remnant]) -> bool:
    """Whether every line of a level is whole. One that the new edge runs along is measured there, and must agree."""
    if any(step.piece in remnants and step.inside not in remnants[step.piece].whole for step in level.path):
        return False
    change = 0.0
    for step in level.path:
        if step.piece in remnants and step.inside in remnants[step.piece].laid:
            old = pattern.piece(step.piece).inside_line(step.inside)
            new = next(line for line in remnants[step.piece].lines if line.id == step.inside)
            change += step.times * (new.curve.length - (old.curve.length if old else 0.0))
    return abs(change) < LEVEL_CHANGE


def _unlevelled(piece: Piece, lost: Container[str]) -> Piece:
    """A level that was cut open anywhere is a guide everywhere."""
    if not any(line.kind == "level" and line.id in lost for line in piece.inside):
        return piece
    inside = tuple(
        replace(line, kind="guide") if line.kind == "level" and line.id in lost else line for line in piece.inside
    )
    return replace(piece, inside=inside)


def _ends(piece: Piece, stretches: list[LineStretch], keep: Keep) -> tuple[OutlinePlace, OutlinePlace] | None:
    """Where the line meets the piece's outline, or None if the piece lies wholly on the side that is kept."""
    first, last = stretches[0], stretches[-1]
    start = _meets(piece, first.places[0], first.curves[0].start)
    end = _meets(piece, last.places[1], last.curves[-1].end)
    if start and end:
        return start, end
    missed = first.places[0] if not start else last.places[1]
    beyond = _beyond(piece, missed)
    if beyond is None:
        raise DesignError(
            f"{spoken_piece(piece)} no longer has the {spoken(missed.line)} edge that the line meets", piece.id
        )
    above, neighbour = beyond
    if neighbour.kind == "finished":
        raise DesignError(
            f"at the {spoken(missed.line)} line it lies beyond the {'top edge' if above else 'hem'} that "
            f"{spoken_piece(piece)} already has; {'lower' if above else 'raise'} it",
            piece.id,
        )
    if start or end:
        raise DesignError(
            f"in {spoken_piece(piece)} it crosses the seam between that piece and another; put this step first",
            piece.id,
        )
    if above == (keep == "below"):
        return None
    raise DesignError(f"it would cut away the whole of {spoken_piece(piece)}; change the height", piece.id)


def _beyond(piece: Piece, place: LinePlace) -> tuple[bool, Edge] | None:
    """(whether a place on a line lies above the piece, the edge that bounds the piece on that side)."""
    edges = piece.on_line(place.line)
    if not edges:
        return None
    top, bottom = max(edges, key=lambda e: e.interval[1]), min(edges, key=lambda e: e.interval[0])
    above = place.share >= top.interval[1] - NEAR_END
    edge = top if above else bottom
    return above, piece.after(edge) if edge.along_line == above else piece.before(edge)


def _meets(piece: Piece, place: LinePlace, point: Array) -> OutlinePlace | None:
    """The place on the piece's outline, or None if that part of the line is cut off. A whole piece has two edges of
    most lines: the nearer one is meant."""
    edges = piece.on_line(place.line)
    for edge in edges:
        low, high = edge.interval
        slack = TOLERANCES.seam / edge.curve.length
        share = (place.share - low) / (high - low)
        if -slack <= share <= 1 + slack:
            share = min(max(share, 0.0), 1.0)
            arc = (share if edge.along_line else 1 - share) * edge.curve.length
            if len(edges) == 1 or np.linalg.norm(edge.curve.point(arc) - point) < SAME_CROSSING:
                return OutlinePlace(edge.id, arc)
    return None


def _cut_piece(
    piece: Piece, stretches: list[LineStretch], ends: tuple[OutlinePlace, OutlinePlace], line: Line, keep: Keep
) -> tuple[Remnant, dict[str, tuple[EdgePart, ...]]]:
    new = _edges(piece, stretches, line, keep)
    leave, enter = ends if keep == "below" else ends[::-1]
    pointed = stretches[0].pointed[0] if keep == "below" else stretches[-1].pointed[1]
    _refuse_short(piece, ends, keep)
    outline = cut_outline(piece, leave, enter, new, pointed)
    cut = [curve for stretch in stretches for curve in stretch.curves]
    try:
        return remnant(piece, outline.edges, cut), outline.parts
    except GeometryError as error:
        raise DesignError(_why(piece, outline.edges, new, error), piece.id) from error


def _edges(piece: Piece, stretches: list[LineStretch], line: Line, keep: Keep) -> tuple[Edge, ...]:
    """The new finished edges in the sense of the outline."""
    found: list[tuple[Curve, bool, tuple[float, float], bool]] = []
    for stretch in stretches:
        joints = list(zip(stretch.shares, stretch.shares[1:], strict=False))
        for k, (curve, (a, b)) in enumerate(zip(stretch.curves, joints, strict=True)):
            turning = k + 1 < len(joints) or stretch.pointed[1]
            found.append((curve, stretch.along, (min(a, b), max(a, b)), turning))
    if keep == "above":
        turns = [stretches[0].pointed[0], *(turning for _, _, _, turning in found[:-1])]
        found = [
            (curve.reversed(), not along, interval, turning)
            for (curve, along, interval, _), turning in zip(found, turns, strict=True)
        ][::-1]
    return tuple(
        Edge(
            f"{piece.id}.{line.id}" + (f"-{k + 1}" if k else ""), line.id, "left" if along else "right", "finished",
            curve, interval, pointed,
        )
        for k, (curve, along, interval, pointed) in enumerate(found)
    )  # fmt: skip


def _refuse_short(piece: Piece, ends: tuple[OutlinePlace, OutlinePlace], keep: Keep) -> None:
    """Each upright edge that is cut keeps at least 15 mm. The first rises with the outline, the second falls."""
    for k, place in enumerate(ends):
        edge = piece.edge(place.edge)
        below = (k == 0) == (keep == "below")
        left = place.arc if below else edge.curve.length - place.arc
        if left < SHORTEST_SEAM:
            raise DesignError(
                f"it leaves {length_words(max(left, 0.0))} of the {spoken(edge.line)} edge of {spoken_piece(piece)}; "
                "leave "
                f"at least {least_words(SHORTEST_SEAM)}",
                piece.id,
            )


def _why(piece: Piece, edges: Sequence[Edge], new: Sequence[Edge], error: GeometryError) -> str:
    """Why the cut piece has no outline, in one sentence."""
    own = np.concatenate([edge.curve.polyline() for edge in new])
    if not LineString(own).is_simple:
        return f"the line crosses itself in {spoken_piece(piece)}; move its points apart"
    mine = {edge.id for edge in new}
    for other in edges:
        crosses = shapely.crosses(LineString(own), LineString(other.curve.polyline()))
        if other.id not in mine and other.kind == "finished" and crosses:
            return f"the line crosses the {spoken(other.line)} edge of {spoken_piece(piece)}; leave room between them"
    return f"the line does not leave a whole piece of {spoken_piece(piece)} ({error})"
