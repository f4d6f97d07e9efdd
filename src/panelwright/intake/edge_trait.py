"""What tells one drawn edge from another: its length, bend, levels, notches, place and name."""

from dataclasses import dataclass
from functools import cached_property
from typing import Final, Literal

import numpy as np

from panelwright.geometry.arrays import Array, turn, unit
from panelwright.geometry.curve import Curve
from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.piece_upright import CENTRES, tells_up, upwards
from panelwright.pattern import line as lines

Role = Literal["seam", "centre", "finished"]

ON_EDGE: Final = 4.0  # mm of the garment from an edge within which a level's end or a notch belongs to it
AT_CORNER: Final = 2.0  # mm
_UPRIGHT: Final = 0.7  # least share of an edge's chord that goes up the body, of an edge that is sewn upright
_PLUMB: Final = float(np.cos(np.radians(4.0)))  # the same of one that runs straight up
_EVEN: Final = 0.006  # of its length that a straight edge may bulge
_SLOPING: Final = (0.1, 0.7)  # the same of a shoulder
_STRAIGHT: Final = 0.04  # of its length that a shoulder seam may bend
_SHOULDER: Final = (40.0, 220.0)  # mm
_SAMPLES: Final = np.linspace(0.0, 1.0, 13)[1:-1]
FINISHED_LINES: Final = (lines.TOP, lines.NECKLINE, lines.ARMHOLE, lines.HEM)


@dataclass(frozen=True, eq=False)
class EdgeTrait:
    """One edge at full scale.

    Attributes:
        ref: where it is.
        piece: its piece.
        edge: the edge.
        role: `seam`: to be sewn to another edge; `centre`: a fold, an opening or a centre line; `finished`.
        levels: level -> arc position where it ends on the edge, mm.
        notches: (arc position, ticks), in the order of the outline.
        up: the direction up the body on the piece, or None where the piece does not tell.
    """

    ref: EdgeRef
    piece: DrawnPiece
    edge: DrawnEdge
    role: Role
    levels: dict[str, float]
    notches: tuple[tuple[float, int], ...]
    up: Array | None

    @property
    def curve(self) -> Curve:
        """The edge in the sense of its outline."""
        return self.edge.curve

    @cached_property
    def upwards(self) -> Array:
        """Up the body as well as the piece tells it: up the paper at the last."""
        return upwards(self.piece)

    @cached_property
    def upright(self) -> bool:
        """Whether it runs up the body rather than across it, as a shoulder seam does."""
        return abs(float(unit(self.curve.chord) @ self.upwards)) >= _UPRIGHT

    @property
    def rising(self) -> bool | None:
        """Whether its outline runs up the body there; None for an edge that runs across."""
        return float(self.curve.chord @ self.upwards) > 0 if self.upright else None

    @cached_property
    def plumb(self) -> bool:
        """Whether it is straight and runs straight up, as a centre front or a centre back does."""
        steep = abs(float(unit(self.curve.chord) @ self.upwards)) >= _PLUMB
        return steep and float(np.abs(self.bulge).max()) < _EVEN

    @cached_property
    def high(self) -> bool:
        """Whether it lies in the upper half of its piece."""
        return _above_middle(self.piece, self.edge, self.upwards)

    @cached_property
    def bulge(self) -> Array:
        """How far the edge bulges out of its piece at even shares of its length, as a share of it."""
        curve, chord = self.curve, self.curve.chord
        out = np.array([chord[1], -chord[0]]) / max(float(np.hypot(*chord)), 1e-9)
        places = np.array([curve.point(share * curve.length) for share in _SAMPLES])
        bulge: Array = (places - curve.start) @ out / curve.length
        return bulge

    @cached_property
    def corners(self) -> tuple[float, float]:
        """Inner angles of the piece where the edge starts and ends, radians."""
        edges, k = self.piece.edges, self.ref.number
        before, after = edges[k - 1].curve, edges[(k + 1) % len(edges)].curve
        return _inner(before, self.curve), _inner(self.curve, after)


def traits(drawn: DrawnPattern) -> tuple[EdgeTrait, ...]:
    """The traits of every edge of a pattern at full scale, in order."""
    return tuple(trait for piece in drawn.pieces for trait in _of_piece(piece))


def _of_piece(piece: DrawnPiece) -> list[EdgeTrait]:
    up, told = upwards(piece), tells_up(piece)
    ends = [(x.id, end) for x in piece.inside if x.kind == "level" for end in (x.curve.start, x.curve.end)]
    levels: list[dict[str, float]] = [{} for _ in piece.edges]
    for level, end in ends:
        for k, arc in _hits(piece, end, AT_CORNER):
            levels[k][level] = arc
    notches: list[list[tuple[float, int]]] = [[] for _ in piece.edges]
    for notch in piece.notches:
        for k, arc in _hits(piece, np.array(notch.at), 0.0):
            notches[k].append((arc, notch.count))
    made = []
    for k, edge in enumerate(piece.edges):
        role = _role(edge, levels[k], up, not told or _above_middle(piece, edge, up))
        ref = EdgeRef(piece.id, k)
        made.append(EdgeTrait(ref, piece, edge, role, levels[k], tuple(sorted(notches[k])), up if told else None))
    return made


def _hits(piece: DrawnPiece, at: Array, also: float) -> list[tuple[int, float]]:
    """(number, arc position) of the edge that a place belongs to, and of those that are only `also` mm farther off."""
    found = [edge.curve.nearest(at) for edge in piece.edges]
    least = min(gap for _, gap in found)
    return [(k, arc) for k, (arc, gap) in enumerate(found) if gap <= least + also and gap < ON_EDGE]


def _above_middle(piece: DrawnPiece, edge: DrawnEdge, up: Array) -> bool:
    """Whether an edge lies in the upper half of its piece."""
    heights = np.concatenate([other.curve.polyline() @ up for other in piece.edges])
    middle = float(heights.min() + heights.max()) / 2
    return float(edge.curve.point(edge.curve.length / 2) @ up) > middle


def _role(edge: DrawnEdge, levels: dict[str, float], up: Array, high: bool) -> Role:
    """What becomes of an edge: as it was said, else as its line is called, else as it lies."""
    if edge.kind in ("fold", "opening") or edge.line in CENTRES:
        return "centre"
    if edge.kind is not None:
        return "seam" if edge.kind == "seam" else "finished"
    if edge.line:
        return "finished" if edge.line in FINISHED_LINES else "seam"
    rise = abs(float(unit(edge.curve.chord) @ up))
    if rise >= _UPRIGHT or (len(levels) > 1 and rise > _SLOPING[1]):
        return "seam"
    bend = max(abs(edge.curve.length - float(np.hypot(*edge.curve.chord))), 0.0) / edge.curve.length
    shoulder = _SLOPING[0] <= rise and _SHOULDER[0] <= edge.curve.length <= _SHOULDER[1] and bend < _STRAIGHT / 4
    return "seam" if shoulder and high and not levels else "finished"


def _inner(before: Curve, after: Curve) -> float:
    return float(np.pi) - turn(before.end_tangent, after.start_tangent)
