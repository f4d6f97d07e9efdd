"""An armhole lowered at the side seam and moved inwards at the shoulder."""

from dataclasses import replace

import numpy as np

from panelwright.body.worded_length import given_words, length_words
from panelwright.design.chain import EdgePart
from panelwright.design.edge_cut import put_in_place
from panelwright.design.outline_cut import OutlinePlace, cut_outline
from panelwright.design.remnant import Remnant, remnant
from panelwright.errors import DesignError, GeometryError
from panelwright.geometry.arrays import Array, turn
from panelwright.geometry.curve import Curve
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece

SHOULDER_LEFT = 15.0  # mm
SIDE_LEFT = 60.0  # mm
# A hollow that bends more tightly than this swallows the usual seam allowances, mm.
LEAST_RADIUS = 17.0


def armhole_cut(pattern: Pattern, uid: str, lower: float, inwards: float) -> Pattern:
    """The pattern with every armhole edge redrawn.

    The end at the side seam comes `lower` mm down that seam, the end at the shoulder `inwards` mm along it; between
    them the curve follows, and where it crosses a princess seam it stays.

    Raises:
        DesignError: if shoulder or side seam have not that much to give.
    """
    if not lower and not inwards:
        return pattern
    line = Line(f"{uid}/armhole", "Armhole", uid)
    remnants: dict[str, Remnant] = {}
    parts: dict[str, tuple[EdgePart, ...]] = {}
    drawn = {piece.id: _drawn(piece, lower, inwards, line) for piece, _ in pattern.pieces_on_line(lines.ARMHOLE)}
    _run_on(pattern, drawn)
    for id, (ends, edge) in drawn.items():
        edge = replace(edge, curve=_gentle(edge.curve))
        piece = pattern.piece(id)
        try:
            outline = cut_outline(piece, *ends, (edge,))
            remnants[id] = remnant(piece, outline.edges, [edge.curve])
        except GeometryError as error:
            raise DesignError(
                f"the armhole does not fit into {spoken_piece(piece)} ({error}); make it smaller", id
            ) from error
        parts.update(outline.parts)
    return put_in_place(pattern, remnants, parts, line)


Drawn = tuple[tuple[OutlinePlace, OutlinePlace], Edge]


def _drawn(piece: Piece, lower: float, inwards: float, line: Line) -> Drawn:
    """(where the outline is left and joined again, the new edge)."""
    (old,) = piece.on_line(lines.ARMHOLE)
    before, after = piece.before(old), piece.after(old)
    ends, shifts = [], []
    for edge, at_start in ((before, True), (after, False)):
        give = {lines.SIDE: lower, lines.SHOULDER: inwards}.get(edge.line, 0.0)
        least = SIDE_LEFT if edge.line == lines.SIDE else SHOULDER_LEFT
        if give > edge.curve.length - least:
            raise DesignError(
                f"the armhole would leave {length_words(max(edge.curve.length - give, 0.0))} of the "
                f"{edge.line.replace('-', ' ')} edge of {spoken_piece(piece)}; leave {given_words(least)}",
                piece.id,
            )
        arc = edge.curve.length - give if at_start else give
        ends.append(OutlinePlace(edge.id, arc))
        shifts.append(edge.curve.point(arc) - (old.curve.start if at_start else old.curve.end))
    curve = _shifted(old.curve, shifts[0], shifts[1])
    return (ends[0], ends[1]), replace(old, id=f"{piece.id}.{line.id}", line=line.id, curve=curve)


def _shifted(curve: Curve, start: Array, end: Array) -> Curve:
    """The curve with its ends moved: its control points follow by the square of their way from the other end."""
    points = curve.points
    at = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    share = (at / at[-1])[:, None]
    moved = points + start * (1 - share) ** 2 + end * share**2
    moved[1] = moved[0] + _keep(points[1] - points[0], moved[1] - moved[0])
    moved[-2] = moved[-1] + _keep(points[-2] - points[-1], moved[-2] - moved[-1])
    return Curve.from_points(moved)


def _gentle(curve: Curve) -> Curve:
    """The curve, or, where it is one cubic that bends too tightly, one between the same tangents near an arc.

    An arc's handles are 4/3 tan(turn / 4) of its radius (G).
    """
    if len(curve.cubics) > 1 or _tightest(curve) >= LEAST_RADIUS:
        return curve
    turned = abs(turn(curve.start_tangent, curve.end_tangent))
    chord = float(np.linalg.norm(curve.end - curve.start))
    handle = chord / 3 if turned < 0.1 else 4 / 3 * np.tan(turned / 4) * chord / (2 * np.sin(turned / 2))
    points = curve.points.copy()
    points[1] = points[0] + handle * curve.start_tangent
    points[2] = points[3] - handle * curve.end_tangent
    rounder = Curve.from_points(points)
    return rounder if _tightest(rounder) > _tightest(curve) else curve


def _tightest(curve: Curve) -> float:
    """The smallest radius of a curve, mm."""
    arcs = np.linspace(0, curve.length, 41)
    return 1 / max(max(abs(curve.curvature(float(arc))) for arc in arcs), 1e-9)


def _keep(direction: Array, change: Array) -> Array:
    """A handle as long as it has become, in the direction that it had."""
    held: Array = direction / np.linalg.norm(direction) * np.linalg.norm(change)
    return held


def _run_on(pattern: Pattern, drawn: dict[str, Drawn]) -> None:
    """Front and back run on into each other across the side seam: both turn by half of what they would kink."""
    side = [pattern.seam(lines.SIDE)] if any(seam.id == lines.SIDE for seam in pattern.seams) else []
    for seam in side:
        front, back = seam.a[0].piece, seam.b[0].piece
        if front not in drawn or back not in drawn:
            continue
        (_, enter), edge = drawn[front]
        (leave, _), other = drawn[back]
        down = pattern.piece(front).edge(enter.edge).curve.tangent(enter.arc)
        up = pattern.piece(back).edge(leave.edge).curve.tangent(leave.arc)
        inner = 2 * np.pi - turn(edge.curve.end_tangent, down) - turn(up, other.curve.start_tangent)
        half = float(inner - np.pi) / 2
        drawn[front] = drawn[front][0], replace(edge, curve=_end_turned(edge.curve, -half, end=True))
        drawn[back] = drawn[back][0], replace(other, curve=_end_turned(other.curve, half, end=False))


def _end_turned(curve: Curve, angle: float, end: bool) -> Curve:
    points = curve.points.copy()
    fixed, handle = (-1, -2) if end else (0, 1)
    c, s = np.cos(angle), np.sin(angle)
    way = points[handle] - points[fixed]
    points[handle] = points[fixed] + np.array([c * way[0] - s * way[1], s * way[0] + c * way[1]])
    return Curve.from_points(points)
