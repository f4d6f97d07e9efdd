"""The levels of a pattern read off paper: lines that end on the outline, and the girths that they make."""

import math
from collections.abc import Sequence
from typing import Final

import numpy as np
import shapely
from shapely import LineString

from panelwright.body.measurements import Measurements
from panelwright.body.torso import Torso
from panelwright.body.torso_shape import TorsoShape
from panelwright.checks.wearer_ease import GIRTHS
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.parallel import extended
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import LEVELS, WAIST, Level, LevelSpan
from panelwright.pattern.mark import InsideLine
from panelwright.pattern.piece import Piece

# How far a level line may stop short of the outline, or run past it, mm of the garment.
REACH: Final = 30.0
# A level drawn nearer than this along an edge is that edge, mm.
TWICE: Final = 4.0


def level_name(written: str) -> str:
    """`Lower Waist` as the levels are called: `lower-waist`."""
    return "-".join(written.lower().replace("_", " ").split())


def ended_on(line: InsideLine, edges: Sequence[Edge]) -> InsideLine | None:
    """A level line from one side of an outline exactly to the other, or None if it does not cross it.

    It is cut where it runs out into an allowance, and run on straight where it stops short. One that is drawn along an
    edge is that edge.
    """
    along = next((edge for edge in edges if _runs_along(line.curve, edge.curve)), None)
    if along is not None:
        return InsideLine(level_name(line.id), "level", along.curve)
    ring = LineString(np.concatenate([edge.curve.polyline()[:-1] for edge in edges] + [edges[0].curve.polyline()[:1]]))
    whole = extended(line.curve, REACH)
    points = shapely.get_coordinates(shapely.intersection(LineString(whole.polyline()), ring))
    arcs = sorted(whole.nearest(point)[0] for point in points)
    if len(arcs) < 2 or arcs[-1] - arcs[0] < 1.0:
        return None
    arcs = _pair(arcs, whole.length / 2)
    ends = [_on_outline(whole.point(arc), edges) for arc in arcs]
    curve = whole.between(*arcs).ending_at(*ends)
    return InsideLine(level_name(line.id), "level", curve)


def _runs_along(line: Curve, edge: Curve) -> bool:
    """Whether a line is the edge, drawn twice by hand."""
    if abs(line.length - edge.length) > 2 * TWICE:
        return False
    places = (line.point(share * line.length) for share in (0.0, 0.25, 0.5, 0.75, 1.0))
    return all(edge.nearest(place)[1] <= TWICE for place in places)


def _pair(arcs: list[float], middle: float) -> list[float]:
    """The two crossings on either side of the middle of the line; the outermost where all lie on one side."""
    before, after = [arc for arc in arcs if arc < middle], [arc for arc in arcs if arc >= middle]
    return [before[-1], after[0]] if before and after else [arcs[0], arcs[-1]]


def _on_outline(point: Array, edges: Sequence[Edge]) -> Array:
    hits = [(edge.curve.nearest(point), edge) for edge in edges]
    (arc, _), edge = min(hits, key=lambda hit: hit[0][1])
    return edge.curve.point(arc)


def own_levels(pieces: Sequence[Piece], wearer: Measurements | None) -> tuple[Level, ...]:
    """The levels that run through every piece that has levels at all, from the top down.

    The body's girth is the wearer's where one is given, measured or as the wearer's torso has it, else what is drawn:
    then nothing is said about ease. A height is how far the line lies above the waist on the pieces.
    """
    with_levels = [piece for piece in pieces if any(line.kind == "level" for line in piece.inside)]
    names = dict.fromkeys(line.id for piece in with_levels for line in piece.inside if line.kind == "level")
    whole = [name for name in names if all(piece.inside_line(name) for piece in with_levels)]
    base = WAIST if WAIST in whole else (whole[-1] if whole else "")
    torso = None if wearer is None else Torso(TorsoShape.of(wearer))
    found = [_level(name, base, with_levels, wearer, torso) for name in whole]
    return tuple(sorted(found, key=lambda level: -level.height))


def _level(name: str, base: str, pieces: Sequence[Piece], wearer: Measurements | None, torso: Torso | None) -> Level:
    times = {piece.id: 1 if piece.extent == "whole" else 2 for piece in pieces}
    lines = {piece.id: line.curve for piece in pieces if (line := piece.inside_line(name))}
    drawn = math.fsum(lines[id].length * times[id] for id in lines)
    rises = [_middle(lines[piece.id]) - _middle(low.curve) for piece in pieces if (low := piece.inside_line(base))]
    body = drawn
    if wearer is not None and torso is not None:
        if name in GIRTHS:
            body = wearer[GIRTHS[name]]
        elif name in LEVELS:
            body = torso.girth(torso.shape.heights[name])
    label = name.replace("-", " ").capitalize()
    path = tuple(LevelSpan(id, name, times[id]) for id in lines)
    return Level(name, label, float(np.mean(rises)), float(body), float(drawn - body), path)


def _middle(curve: Curve) -> float:
    return float(curve.point(curve.length / 2)[1])
