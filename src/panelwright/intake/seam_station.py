"""Places where the two sides of a seam meet: its ends, the levels that cross both, notches that pair."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from panelwright.checks.design_words import met_words
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import LEVELS
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span

NOTCH: Final = "notch-"
_APART: Final = 1.0  # mm: stations nearer than this to one before them say nothing new


@dataclass(frozen=True)
class Station:
    """A place on both sides, mm from the seam's start.

    Attributes:
        name: `waist`, `notch`, `the hem`.
    """

    name: str
    a: float
    b: float


@dataclass(frozen=True)
class Stretch:
    """What lies between two stations that follow one another."""

    start: Station
    end: Station

    @property
    def difference(self) -> float:
        """How much longer side b is than side a, mm."""
        return (self.end.b - self.start.b) - (self.end.a - self.start.a)


def walkable(seam: Seam) -> bool:
    """Whether a seam joins one whole edge to another: such are the seams of a pattern read off paper."""
    return seam.kind == "join" and not seam.is_centre and all(
        len(side) == 1 and side[0].share == 1.0 for side in (seam.a, seam.b)
    )  # fmt: skip


def stations(pattern: Pattern, seam: Seam) -> tuple[Station, ...]:
    """The stations of a walkable seam, from its start to its end."""
    (a,), (b,) = seam.a, seam.b
    whole = pattern.edge(a).curve.length, pattern.edge(b).curve.length
    found = [*_levels(pattern, a, b), *_notches(pattern, a, b)]
    kept = [Station(_end_name(pattern, a, False), 0.0, 0.0)]
    for station in sorted(found, key=lambda each: each.a):
        inside = station.a < whole[0] - _APART and station.b < whole[1] - _APART
        if inside and station.a > kept[-1].a + _APART and station.b > kept[-1].b + _APART:
            kept.append(station)
    return (*kept, Station(_end_name(pattern, a, True), *whole))


def stretches(pattern: Pattern, seam: Seam) -> tuple[Stretch, ...]:
    """The seam from station to station."""
    return tuple(Stretch(low, high) for low, high in pairwise(stations(pattern, seam)))


def place_on(span: Span, edge: Edge, arc: float) -> float:
    """Arc position on the edge, in its own sense, of a place so far along its whole span."""
    return arc if span.end > span.start else edge.curve.length - arc


def level_on(piece: Piece, edge: Edge, level: str) -> float | None:
    """Arc position where a level of the piece ends on an edge, in the edge's own sense, or None."""
    line = piece.inside_line(level)
    if line is None:
        return None
    arc, gap = min((edge.curve.nearest(end) for end in (line.curve.start, line.curve.end)), key=lambda hit: hit[1])
    return arc if gap < TOLERANCES.seam else None


def _levels(pattern: Pattern, a: Span, b: Span) -> Iterator[Station]:
    ids = dict.fromkeys((*LEVELS, *(line.id for line in pattern.piece(a.piece).inside if line.kind == "level")))
    for level in ids:
        arcs = []
        for span in (a, b):
            edge = pattern.edge(span)
            arc = level_on(pattern.piece(span.piece), edge, level)
            arcs.append(None if arc is None else place_on(span, edge, arc))
        if arcs[0] is not None and arcs[1] is not None:
            yield Station(level.replace("-", " "), arcs[0], arcs[1])


def _notches(pattern: Pattern, a: Span, b: Span) -> Iterator[Station]:
    """The notches of both sides in order, where both have as many."""
    sides = [sorted(_notch_arcs(pattern, span)) for span in (a, b)]
    if len(sides[0]) == len(sides[1]):
        for k, (mine, other) in enumerate(zip(*sides, strict=True), 1):
            yield Station("notch" if len(sides[0]) == 1 else f"notch {k}", mine, other)


def _notch_arcs(pattern: Pattern, span: Span) -> Iterator[float]:
    edge = pattern.edge(span)
    for mark in pattern.piece(span.piece).marks:
        if mark.id.startswith(NOTCH):
            arc, gap = edge.curve.nearest(mark.at)
            if gap < TOLERANCES.seam:
                yield place_on(span, edge, arc)


def _end_name(pattern: Pattern, span: Span, at_end: bool) -> str:
    """What the seam runs into at its end: `the hem`, `the upper edge`, `the neckline`."""
    piece, edge = pattern.piece(span.piece), pattern.edge(span)
    last = at_end == (span.end > span.start)
    return run_into(pattern, piece.after(edge) if last else piece.before(edge))


def run_into(pattern: Pattern, edge: Edge) -> str:
    """What a seam that ends at this edge runs into: `the hem`, `the upper edge`, or `edge 3` that nobody named."""
    return "the upper edge" if edge.line == lines.TOP else met_words(pattern, edge.line)
