"""Truing a pattern read off paper: seams evened, folds straight, necklines and hems smooth across the seams."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from panelwright.errors import GeometryError, InputError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.parallel import extended
from panelwright.intake.bent_end import turned_end
from panelwright.intake.seam_station import place_on, stations, walkable
from panelwright.intake.worked_pattern import settled, straightened, with_edge
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import is_centre_front
from panelwright.pattern.mark import Point, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span

Master = Literal["a", "b", "both"]

# A seam whose sides differ by more, mm, is no matter of truing: its partners may be wrong, or fullness is meant.
MOST_EVENED: Final = 25.0
# A finished edge that misses a smooth run, or a right angle at a centre, by more is meant to have a point there.
MOST_TURNED: Final = math.radians(50.0)
# A change is told from here on, mm.
LEAST_TOLD: Final = 0.05
_ROUNDS: Final = 60
_ENOUGH: Final = 1e-7
_PROBES: Final = 240


@dataclass(frozen=True)
class TruingChange:
    """An edge that truing drew anew.

    Attributes:
        piece, edge: ids.
        most: how far the new line lies from the old one, or an end from where it was, at most, mm.
        at: where that is, on the new line.
        old, new: the two lines.
    """

    piece: str
    edge: str
    most: float
    at: Point
    old: Curve
    new: Curve


@dataclass(frozen=True)
class LeftSeam:
    """A seam that is not trued: by how much its sides differ, mm."""

    seam: str
    off: float


@dataclass(frozen=True)
class Trued:
    """What `trued` returns.

    Attributes:
        pattern: the trued pattern.
        changes: every edge that moved by 0.05 mm or more, the largest change first.
        left: seams that were left as they are, because their sides differ too much.
    """

    pattern: Pattern
    changes: tuple[TruingChange, ...]
    left: tuple[LeftSeam, ...]


def trued(pattern: Pattern, masters: Mapping[str, Master] | None = None) -> Trued:
    """The pattern with its seams evened and its finished edges smooth; a pure function, on request only.

    Folds and a centre front are made straight. Along every seam the stretches between its ends, levels and paired
    notches get one length on both sides: each side gives half of a difference, or follows the master. An edge keeps
    its shape: the places slide along it, and at its ends it is cut short or run on straight. Then finished edges are
    turned, within 6 cm of the corner, to run on across each seam and to meet folds and closed centres square.

    Args:
        pattern: as `pattern_of` gives it.
        masters: seam -> the side that is kept, `a`, `b` or `both` (meet in the middle); the seam's own by default.

    Raises:
        InputError: if a piece's outline would cross itself.
    """
    given = masters or {}
    try:
        new = _straight_centres(pattern)
        uneven = {seam.id: off for seam in new.seams if walkable(seam) and (off := _off(new, seam)) > MOST_EVENED}
        evened = [s for s in new.seams if walkable(s) and s.id not in uneven]
        for _ in range(_ROUNDS):
            before = new
            for seam in evened:
                new = _evened(new, seam, given.get(seam.id, seam.master))
            if _moved(before, new) < _ENOUGH:
                break
        new = _smooth(new)
    except GeometryError as error:
        raise InputError(f"the pattern cannot be trued: {error}; redraw that piece") from error
    new = settled(new)
    return Trued(new, _changes(pattern, new), tuple(LeftSeam(*each) for each in uneven.items()))


def _straight_centres(pattern: Pattern) -> Pattern:
    for piece in pattern.pieces:
        for edge in piece.edges:
            front = is_centre_front(edge.line)
            if edge.kind == "fold" or (front and edge.kind in ("opening", "seam") and piece.extent != "whole"):
                line = straightened(pattern.piece(piece.id), edge.id, front)
                pattern = with_edge(pattern, piece.id, edge.id, line)
    return pattern


def _off(pattern: Pattern, seam: Seam) -> float:
    return abs(pattern.chain_length(seam.b) - pattern.chain_length(seam.a) * seam.ratio - seam.ease)


def _evened(pattern: Pattern, seam: Seam, master: Master) -> Pattern:
    """Both sides with the same stretches, measured out from the waist where it crosses, else from the seam's start."""
    places = stations(pattern, seam)
    a, b = np.array([each.a for each in places]), np.array([each.b for each in places])
    ease = seam.ease * np.diff(a) / a[-1]
    own, other = np.diff(a), (np.diff(b) - ease) / seam.ratio
    if np.abs(own - other).max() < _ENOUGH / 10:
        return pattern
    wanted = {"a": own, "b": other, "both": (own + other) / 2}[master]
    base = next((k for k, each in enumerate(places) if each.name == "waist"), 0)
    pattern = _measured(pattern, seam.a[0], a, _from(a[base], base, wanted))
    return _measured(pattern, seam.b[0], b, _from(b[base], base, wanted * seam.ratio + ease))


def _from(fixed: float, base: int, steps: Array) -> Array:
    arcs: Array = np.concatenate([[0.0], np.cumsum(steps)])
    arcs += fixed - arcs[base]
    return arcs


def _measured(pattern: Pattern, span: Span, old: Array, new: Array) -> Pattern:
    """One side with its stations slid from `old` places along the span to `new` ones; its ends run on straight."""
    if np.abs(old - new).max() < _ENOUGH / 10:
        return pattern
    edge = pattern.edge(span)
    places = [sorted(place_on(span, edge, arc) for arc in arcs) for arcs in (old, new)]
    low, high = places[1][0], places[1][-1]
    reach = max(-low, high - edge.curve.length, 0.0) + 1.0
    curve = extended(edge.curve, reach).between(low + reach, high + reach)

    def moved(arc: float) -> float:
        return float(np.interp(arc, places[0], places[1])) - low

    return with_edge(pattern, span.piece, span.edge, curve, moved)


def _moved(before: Pattern, after: Pattern) -> float:
    pairs = zip(before.pieces, after.pieces, strict=True)
    return max(float(np.abs(a.vertices - b.vertices).max()) for a, b in pairs)


def _smooth(pattern: Pattern) -> Pattern:
    """Finished edges turned at the ends of seams, and where they meet a fold or a closed centre."""
    for seam in pattern.seams:
        for at_end in (False, True):
            a, b = (_corner(pattern, side[-1 if at_end else 0], at_end) for side in (seam.a, seam.b))
            if seam.is_centre and a is not None:
                pattern = _turned(pattern, a, math.pi / 2)
            elif not seam.is_centre and seam.blend and a is not None and b is not None:
                off = _angle(pattern, a) + _angle(pattern, b) - math.pi
                for corner in (a, b):
                    pattern = _turned(pattern, corner, _angle(pattern, corner) - off / 2, abs(off))
    for piece in pattern.pieces:
        for edge in piece.edges:
            if edge.kind == "fold":
                for k in (piece.index(edge.id) - 1, piece.index(edge.id)):
                    corner = (piece.id, k % len(piece.edges))
                    if "finished" in (e.kind for e in _beside(pattern, corner)):
                        pattern = _turned(pattern, corner, math.pi / 2)
    return pattern


# A corner: piece, and the number of the edge that ends there.
_Corner = tuple[str, int]


def _corner(pattern: Pattern, span: Span, at_end: bool) -> _Corner | None:
    """Where a seam's side ends, if it runs into a finished edge there."""
    share = span.end if at_end else span.start
    if share not in (0.0, 1.0):
        return None
    piece = pattern.piece(span.piece)
    k = piece.index(span.edge)
    corner = (piece.id, k if share == 1.0 else (k - 1) % len(piece.edges))
    beside = piece.edges[(k + 1 if share == 1.0 else k - 1) % len(piece.edges)]
    return corner if beside.kind == "finished" else None


def _beside(pattern: Pattern, corner: _Corner) -> tuple[Edge, Edge]:
    piece = pattern.piece(corner[0])
    return piece.edges[corner[1]], piece.edges[(corner[1] + 1) % len(piece.edges)]


def _angle(pattern: Pattern, corner: _Corner) -> float:
    piece: Piece = pattern.piece(corner[0])
    return piece.inner_angle(piece.edges[corner[1]])


def _turned(pattern: Pattern, corner: _Corner, wanted: float, off: float | None = None) -> Pattern:
    """The corner with the inner angle that is wanted, by turning its finished edge; a sharp one is called a point."""
    before, after = _beside(pattern, corner)
    by = _angle(pattern, corner) - wanted
    if (abs(by) if off is None else off) > MOST_TURNED or before.pointed_end:
        piece = pattern.piece(corner[0])
        edges = tuple(replace(e, pointed_end=True) if e.id == before.id else e for e in piece.edges)
        return pattern.with_pieces(replace(piece, edges=edges))
    if abs(by) < 1e-9:
        return pattern
    if after.kind == "finished":
        return with_edge(pattern, corner[0], after.id, turned_end(after.curve, False, by))
    return with_edge(pattern, corner[0], before.id, turned_end(before.curve, True, -by))


def _changes(old: Pattern, new: Pattern) -> tuple[TruingChange, ...]:
    found = []
    for piece, other in zip(old.pieces, new.pieces, strict=True):
        for edge, after in zip(piece.edges, other.edges, strict=True):
            most, at = _most(edge.curve, after.curve)
            if most >= LEAST_TOLD:
                found.append(TruingChange(piece.id, edge.id, most, at, edge.curve, after.curve))
    return tuple(sorted(found, key=lambda change: -change.most))


def _most(old: Curve, new: Curve) -> tuple[float, Point]:
    """(how far, where) the new line is farthest from the old one; its ends count from where they were."""
    places = [new.point(share * new.length) for share in np.linspace(0.0, 1.0, _PROBES)]
    off = [old.nearest(place)[1] for place in places]
    off[0], off[-1] = (float(np.linalg.norm(a - b)) for a, b in ((old.start, new.start), (old.end, new.end)))
    k = int(np.argmax(off))
    return off[k], as_point(places[k])
