"""Moving one upright edge of a piece parallel: inwards for a gap, outwards for an overlap."""

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

import numpy as np
from scipy.optimize import brentq
from shapely import LineString

from panelwright.body.worded_length import given_words, length_words
from panelwright.design.chain import EdgePart
from panelwright.design.outline_cut import OutlinePlace, cut_outline
from panelwright.design.position import spoken
from panelwright.design.remnant import remnant
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array, turn
from panelwright.geometry.curve import Curve
from panelwright.geometry.parallel import extended, parallel
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.geometry.trace import Trace
from panelwright.pattern.edge import Edge
from panelwright.pattern.mark import InsideLine
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece

NARROWEST: Final = 15.0  # mm that are left of a piece
_STEP: Final = 5.0  # mm between places where a crossing is looked for
_PAST_ENDS: Final = 1.0  # mm
_SMOOTH: Final = math.radians(0.5)  # an edge that turns less runs on as one

# Old edge -> what is left of it, for the seams.
Parts = dict[str, tuple[EdgePart, ...]]


def moved_in(piece: Piece, edge: Edge, distance: float) -> tuple[Piece, Parts]:
    """The piece without the strip of `distance` mm along an edge; everything in it stays where it is.

    The edge keeps its id, line and interval; level lines, upper edge and hem end on it, at whatever angle they have
    there: a corner that is not a right angle is marked as meant so.

    Raises:
        DesignError: if less than 15 mm would be left of the piece, or it bends too sharply.
    """
    _refuse_narrow(piece, edge, distance)
    before, after = (_crossing(piece, edge, distance, forward) for forward in (False, True))
    reach = 3 * distance + 100.0
    beside = parallel(extended(edge.curve, reach), distance)
    ends = [_point(piece, place) for place in (before, after)]
    curve = beside.between(*(beside.nearest(end)[0] for end in ends)).ending_at(*ends)
    arriving, leaving = (piece.edge(place.edge).curve.tangent(place.arc) for place in (before, after))
    moved = replace(edge, curve=curve, pointed_end=not _is_square(curve.end_tangent, leaving))
    outline = cut_outline(piece, before, after, [moved], pointed=not _is_square(arriving, curve.start_tangent))
    regions = {} if any(region.boundary for region in piece.material) else {"material": piece.material}
    knife = extended(curve, _PAST_ENDS)  # a level that is drawn as the hem is cut too
    left = remnant(piece, outline.edges, [knife], keep_levels=True, **regions).piece()
    return left, {**outline.parts, edge.id: (EdgePart(piece.id, edge.id),)}


def moved_out(piece: Piece, edge: Edge, distance: float) -> tuple[Piece, Parts]:
    """The piece with a strip of `distance` mm added along an edge; everything in it stays where it is.

    Upper edge, hem and level lines run on square to the old edge; where they do not meet it at a right angle, upper
    edge and hem get a corner there. The old edge stays inside as a guide that is called after its line.

    Raises:
        DesignError: if the edge bends too sharply, or the piece would cross itself.
    """
    curve = parallel(edge.curve, -distance)
    before, after = piece.before(edge), piece.after(edge)
    out = Curve.straight(before.curve.end, curve.start), Curve.straight(curve.end, after.curve.start)
    moved = replace(edge, curve=curve, pointed_end=False)
    edges: list[Edge] = []
    for each in piece.edges:
        if each.id == before.id:
            edges += _run_on(each, out[0], True)
        elif each.id == after.id:
            edges += _run_on(each, out[1], False)
        else:
            edges.append(moved if each.id == edge.id else each)
    inside = tuple(_reaching(line, edge, distance) for line in piece.inside)
    guide = InsideLine(edge.line, "guide", edge.line_curve)
    made = replace(piece, edges=tuple(edges), inside=(*inside, guide))
    longer = [made.edge(each.id).curve.length / each.curve.length - 1.0 for each in (before, after)]
    parts: Parts = {
        before.id: (EdgePart(piece.id, before.id, 0.0, 1.0 + longer[0]),),
        after.id: (EdgePart(piece.id, after.id, -longer[1], 1.0),),
    }
    return made, parts


def _is_square(before: Array, after: Array) -> bool:
    """Whether an outline turns by a right angle from one direction to another.

    By half of what is allowed: on an unfolded garment the corner meets its own mirror image, and both are added.
    """
    return abs(turn(before, after) - math.pi / 2) <= TOLERANCES.right_angle / 2


def _refuse_narrow(piece: Piece, edge: Edge, distance: float) -> None:
    beside = {edge.id, piece.before(edge).id, piece.after(edge).id}
    line = LineString(edge.curve.polyline())
    width = min(line.distance(LineString(each.curve.polyline())) for each in piece.edges if each.id not in beside)
    if width - distance < NARROWEST:
        most = math.floor(max(0.0, width - NARROWEST))
        raise DesignError(
            f"it takes {length_words(distance, 2)} off the {spoken(edge.line)} edge of {spoken_piece(piece)}, which is "
            f"{length_words(width)} wide at its narrowest; make the gap {given_words(2 * most)} at most, so that "
            f"{given_words(NARROWEST)} of the piece are left",
            piece.id,
        )


def _crossing(piece: Piece, edge: Edge, distance: float, forward: bool) -> OutlinePlace:
    """Where the outline, walked from one end of the edge, is first `distance` mm away from it."""
    line = extended(edge.curve, 3 * distance + 100.0)
    for each in _walk(piece, edge, forward):
        found = _first_at(each.curve if forward else each.curve.reversed(), line, distance)
        if found is not None:
            return OutlinePlace(each.id, found if forward else each.curve.length - found)
    raise DesignError(f"{length_words(distance)} cannot be taken off {spoken_piece(piece)}; it is too narrow", piece.id)


def _walk(piece: Piece, edge: Edge, forward: bool) -> Iterator[Edge]:
    at = piece.index(edge.id)
    way = 1 if forward else -1
    for k in range(1, len(piece.edges)):
        yield piece.edges[(at + way * k) % len(piece.edges)]


def _first_at(curve: Curve, line: Curve, distance: float) -> float | None:
    """Arc position where a curve that starts near a line is first `distance` mm from it, or None."""
    arcs = np.linspace(0.0, curve.length, max(8, int(curve.length / _STEP)))
    away, _ = Trace(line.polyline()).nearest(np.array([curve.point(arc) for arc in arcs]))
    far = np.flatnonzero(away >= distance)
    if not len(far) or far[0] == 0:
        return 0.0 if len(far) else None
    low, high = float(arcs[far[0] - 1]), float(arcs[far[0]])

    def over(arc: float) -> float:
        return line.nearest(curve.point(arc))[1] - distance

    # Within the polyline's own error the crossing lies at an end of the step.
    if over(high) <= 0:
        return high
    if over(low) >= 0:
        return low
    return float(brentq(over, low, high, xtol=TOLERANCES.arc))


def _point(piece: Piece, place: OutlinePlace) -> Array:
    return piece.edge(place.edge).curve.point(place.arc)


def _run_on(edge: Edge, straight: Curve, at_end: bool) -> list[Edge]:
    """A neighbour run on by a straight bit at one end; a corner between them starts an edge of the same line."""
    first, second = (edge.curve, straight) if at_end else (straight, edge.curve)
    if abs(turn(first.end_tangent, second.start_tangent)) <= _SMOOTH:
        return [replace(edge, curve=first.joined(second), pointed_end=edge.pointed_end and not at_end)]
    low, high = edge.interval
    end = (low, low + (high - low) * 1e-6) if at_end != edge.along_line else (high - (high - low) * 1e-6, high)
    bit = replace(edge, id=f"{edge.id}-stand", curve=straight, interval=end, pointed_end=False)
    return [edge, bit] if at_end else [bit, edge]


def _reaching(line: InsideLine, edge: Edge, distance: float) -> InsideLine:
    """A level line that ends on the edge, run on square to it by `distance`."""
    if line.kind != "level":
        return line
    curve = line.curve
    for at_end in (False, True):
        arc, gap = edge.curve.nearest(curve.end if at_end else curve.start)
        if gap <= TOLERANCES.seam:
            along = edge.curve.tangent(arc)
            start = curve.end if at_end else curve.start
            out = start + distance * np.array([along[1], -along[0]])
            bit = Curve.straight(start, out) if at_end else Curve.straight(out, start)
            return replace(line, curve=curve.joined(bit) if at_end else bit.joined(curve))
    return line
