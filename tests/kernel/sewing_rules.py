"""The drafting rules that a kernel operation must keep, read off a pattern with arithmetic of its own.

Arc lengths come from scipy's quadrature of the Bernstein form, angles from end control points, closedness from the
numbers themselves; nothing here uses the project's own measuring.
"""

import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np
import shapely
from scipy.integrate import quad

from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span

SEAM_MM, GIRTH_MM, ANGLE_DEG, SAME_MM = 0.05, 1.0, 1e-3, 1e-9


def arc_length(curve: Curve) -> float:
    total = 0.0
    for cubic in curve.cubics:
        d = 3 * np.diff(cubic, axis=0)
        total += quad(
            lambda t, d=d: math.hypot(*((1 - t) ** 2 * d[0] + 2 * t * (1 - t) * d[1] + t * t * d[2])), 0, 1, epsabs=1e-9
        )[0]
    return total


def span_length(pattern: Pattern, span: Span) -> float:
    return abs(span.end - span.start) * arc_length(pattern.edge(span).curve)


def faults(pattern: Pattern) -> list[str]:
    """One line for every rule that is broken; a sound pattern has none."""
    return [
        *_open_outlines(pattern), *_unequal_seams(pattern), *_unsewn(pattern), *_kinks(pattern), *_levels(pattern),
        *_grain(pattern), *_extents(pattern),
    ]  # fmt: skip


def _open_outlines(pattern: Pattern) -> Iterator[str]:
    for piece in pattern.pieces:
        for before, after in zip(piece.edges, piece.edges[1:] + piece.edges[:1], strict=True):
            if np.abs(before.curve.points[-1] - after.curve.points[0]).max() > SAME_MM:
                yield f"{piece.id} is open between {before.id} and {after.id}"
        ring = np.concatenate([edge.curve.polyline(0.01)[:-1] for edge in piece.edges])
        outline = shapely.Polygon(ring)
        if not (outline.is_valid and outline.exterior.is_ccw):
            yield f"{piece.id} is not a simple anticlockwise outline"


def _unequal_seams(pattern: Pattern) -> Iterator[str]:
    for seam in pattern.seams:
        a, b = (sum(span_length(pattern, span) for span in chain) for chain in (seam.a, seam.b))
        if seam.kind != "closure" and abs(b - a * seam.ratio - seam.ease) > SEAM_MM:
            yield f"seam {seam.id}: {a:.3f} and {b:.3f} do not fit"
        for chain in (seam.a, seam.b):
            for one, other in pairwise(chain):
                if not _follows(pattern, seam, one, other):
                    yield f"seam {seam.id}: {one.edge} and {other.edge} are not neighbours in the chain"


def _follows(pattern: Pattern, seam: Seam, one: Span, other: Span) -> bool:
    """The end of one span is the start of the next: on one piece the same corner, on two a sewn pair of corners."""
    if one.piece == other.piece:
        corners = _end(pattern, one, True), _end(pattern, other, False)
        return bool(np.abs(corners[0] - corners[1]).max() < 1e-6) or _mouth(pattern, one.piece, corners)
    sewn = [
        ({s.piece for s in joined.a}, {s.piece for s in joined.b})
        for joined in pattern.seams
        if joined.id != seam.id and joined.kind == "join"
    ]
    return any((one.piece in a and other.piece in b) or (one.piece in b and other.piece in a) for a, b in sewn)


def _mouth(pattern: Pattern, piece: str, corners: tuple[np.ndarray, np.ndarray]) -> bool:
    """Whether two corners of a piece are the ends of a dart's mouth, which are sewn to each other."""
    for dart in pattern.seams:
        if dart.kind == "dart" and dart.a[0].piece == piece:
            ends = [_end(pattern, span, False) for span in (dart.a[0], dart.b[0])]
            if any(np.abs(np.array(ends[::way]) - np.array(corners)).max() < 1e-6 for way in (1, -1)):
                return True
    return False


def _end(pattern: Pattern, span: Span, at_end: bool) -> np.ndarray:
    share = span.end if at_end else span.start
    points = pattern.edge(span).curve.points
    return points[-1] if share > 0.5 else points[0]


def _unsewn(pattern: Pattern) -> Iterator[str]:
    """A seam edge lies in a seam along all of its length."""
    spans: dict[str, list[tuple[float, float]]] = {}
    for seam in pattern.seams:
        for span in seam.a + seam.b:
            spans.setdefault(span.edge, []).append((min(span.start, span.end), max(span.start, span.end)))
    for piece in pattern.pieces:
        for edge in piece.edges:
            covered = 0.0
            for low, high in sorted(spans.get(edge.id, [])):
                covered = high if low <= covered + 1e-9 else covered
            if edge.kind == "seam" and covered < 1 - 1e-9:
                yield f"edge {edge.id} is sewn to nothing from {covered:.3f} on"


def inner_degrees(piece: Piece, edge: Edge) -> float:
    """The inner angle where an edge ends."""
    after = piece.edges[(piece.edges.index(edge) + 1) % len(piece.edges)]
    u = edge.curve.points[-1] - edge.curve.points[-2]
    v = after.curve.points[1] - after.curve.points[0]
    return 180.0 - math.degrees(math.atan2(u[0] * v[1] - u[1] * v[0], u @ v))


def _corner(pattern: Pattern, span: Span, at_end: bool) -> tuple[float, bool] | None:
    """(inner angle, pointed) where a seam's end meets a finished edge."""
    piece, edge = pattern.piece(span.piece), pattern.edge(span)
    k = piece.edges.index(edge)
    outline_end = (span.end if at_end else span.start) > 0.5
    first = edge if outline_end else piece.edges[k - 1]
    other = piece.edges[(k + 1) % len(piece.edges)] if outline_end else first
    if other.kind != "finished":
        return None
    return inner_degrees(piece, first), first.pointed_end


def _kinks(pattern: Pattern) -> Iterator[str]:
    for seam in pattern.seams:
        for at_end in (False, True):
            corners = [_corner(pattern, chain[-1 if at_end else 0], at_end) for chain in (seam.a, seam.b)]
            if None in corners or any(corner[1] for corner in corners):
                continue
            total = sum(corner[0] for corner in corners)
            if seam.blend and abs(total - 180.0) > ANGLE_DEG:
                yield f"seam {seam.id}: inner angles add to {total:.4f}"
    for piece in pattern.pieces:
        for before, after in zip(piece.edges, piece.edges[1:] + piece.edges[:1], strict=True):
            kinds = {before.kind, after.kind}
            if kinds == {"fold", "finished"} and not before.pointed_end:
                angle = inner_degrees(piece, before)
                if abs(angle - 90.0) > ANGLE_DEG:
                    yield f"{piece.id}: {angle:.4f} at the fold"


def _levels(pattern: Pattern) -> Iterator[str]:
    for level in pattern.levels:
        drawn = 0.0
        for step in level.path:
            line = pattern.piece(step.piece).inside_line(step.inside)
            drawn += step.times * arc_length(line.curve)
        if abs(drawn + level.gap - level.overlap - level.body_girth - level.ease) > GIRTH_MM:
            yield f"level {level.id} measures {drawn:.2f}"


def _grain(pattern: Pattern) -> Iterator[str]:
    for piece in pattern.pieces:
        start, end = np.array(piece.grain.start), np.array(piece.grain.end)
        length = float(np.hypot(*(end - start)))
        ring = np.concatenate([edge.curve.polyline(0.01)[:-1] for edge in piece.edges])
        along = np.ptp(ring @ (end - start) / length)
        if not shapely.Polygon(ring).buffer(0.05).contains(shapely.LineString([start, end])):
            yield f"{piece.id}: the grain line leaves the piece"
        if length < along / 3:
            yield f"{piece.id}: the grain line is {length / along:.2f} of the piece"


def _extents(pattern: Pattern) -> Iterator[str]:
    for piece in pattern.pieces:
        if (piece.extent == "half_on_fold") != any(edge.kind == "fold" for edge in piece.edges):
            yield f"{piece.id} is {piece.extent}"
