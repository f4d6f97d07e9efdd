"""How far a seam or an opening reaches above a level, measured along it."""

from dataclasses import dataclass

import numpy as np

from panelwright.checks.practice import PRACTICE
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.geometry.trace import trace
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import BUST
from panelwright.pattern.mark import Point, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Span

BUST_POINT = "bust-point"


@dataclass(frozen=True)
class Stretch:
    """A part of a line that runs up the body, on one piece: from `low` up to `high`, arc positions along it, mm."""

    piece: Piece
    edge: Edge
    low: float
    high: float

    @property
    def top(self) -> Point:
        """Its upper end, on the piece."""
        return as_point(self.edge.line_curve.point(self.high))


def runs_up(pattern: Pattern, span: Span) -> bool:
    """Whether a span runs in its line's direction, up the body."""
    return (span.end > span.start) == pattern.edge(span).along_line


def upwards(pattern: Pattern, chain: tuple[Span, ...]) -> list[Stretch]:
    """The stretches of a seam's chain, from the hem to the top."""
    stretches = []
    for span in chain:
        edge = pattern.edge(span)
        length = edge.curve.length
        low, high = sorted((span.start * length, span.end * length))
        if not edge.along_line:
            low, high = length - high, length - low
        stretches.append(Stretch(pattern.piece(span.piece), edge, low, high))
    return stretches if runs_up(pattern, chain[0]) else stretches[::-1]


def above(side: list[Stretch], level: str) -> float | None:
    """Length from a level up to the end of the last stretch, mm, or None where the level does not meet them."""
    for k, stretch in enumerate(side):
        place = _place(stretch, level)
        if place is not None and stretch.low - TOLERANCES.seam <= place <= stretch.high + TOLERANCES.seam:
            return stretch.high - place + sum(later.high - later.low for later in side[k + 1 :])
    return None


def first_above(sides: list[list[Stretch]], level: str) -> float | None:
    """The same on the first side that the level meets."""
    return next((depth for side in sides if (depth := above(side, level)) is not None), None)


def _place(stretch: Stretch, level: str) -> float | None:
    """Where a level meets the stretch's edge, along its line; for the bust, else where the bust point is nearest."""
    line = stretch.piece.inside_line(level)
    edge = trace(stretch.edge.line_curve)
    if line is not None:
        apart, places = edge.nearest(np.array([line.curve.start, line.curve.end]))
        if apart.min() <= TOLERANCES.seam + TOLERANCES.polyline:
            return float(places[apart.argmin()])
    marks = [mark.at for mark in stretch.piece.marks if mark.id == BUST_POINT and level == BUST]
    if marks:
        apart, places = edge.nearest(np.array(marks))
        if apart[0] <= PRACTICE.bust_point_reach:
            return float(places[0])
    return None
