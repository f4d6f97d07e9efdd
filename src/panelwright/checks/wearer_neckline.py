"""The neckline against the bust point, judged where it crosses the front princess seam, not at the centre front."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from panelwright.body.units import format_length
from panelwright.checks.corner import chain_corner
from panelwright.checks.practice import PRACTICE
from panelwright.checks.wearing import Wearing
from panelwright.finding import Finding
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.geometry.trace import trace
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import BUST, UNDERBUST, WAIST
from panelwright.pattern.line import FRONT_PRINCESS
from panelwright.pattern.mark import Point, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span

BUST_POINT = "bust-point"
RAISE = "Raise the top edge where it crosses the front princess seam; it may still dip at the centre front."


@dataclass(frozen=True)
class Stretch:
    """A part of the princess seam on one piece: from `low` up to `high`, arc positions along its line, mm."""

    piece: Piece
    edge: Edge
    low: float
    high: float


def check_neckline(pattern: Pattern, block: Pattern | None, wearing: Wearing) -> tuple[Finding, ...]:
    """`neckline-bust-point`: a warning below 40 mm above the bust point, an error below the bust point itself.

    Args:
        block: the pattern before any step. A top edge below the bust has cut its level away: only the block knows
            how far below; without it the finding's value is 0.
    """
    seams = (seam for seam in pattern.seams if any(pattern.edge(span).line == FRONT_PRINCESS for span in seam.a))
    return tuple(
        finding
        for seam in seams
        if seam.kind == "join" and all(pattern.piece(span.piece).layer == "outer" for span in seam.a + seam.b)
        for finding in _check(pattern, seam, block, wearing)
    )


def _check(pattern: Pattern, seam: Seam, block: Pattern | None, wearing: Wearing) -> Iterator[Finding]:
    sides = [_upwards(pattern, chain) for chain in (seam.a, seam.b) if _ends_in_neckline(pattern, chain)]
    if not sides:
        return
    top = sides[0][-1]
    where = top.piece.id, as_point(top.edge.line_curve.point(top.high))
    depth = _first_above(sides, BUST)
    if depth is not None and depth > 0:
        yield from _shallow(seam.id, depth, where, wearing)
    elif any(_first_above(sides, level) is not None for level in (UNDERBUST, WAIST)):
        yield _below(seam.id, _below_bust(sides, block), where, wearing)


def _shallow(seam: str, depth: float, where: tuple[str, Point], wearing: Wearing) -> Iterator[Finding]:
    if depth >= PRACTICE.neckline:
        return
    shown, least = (format_length(length, wearing.unit) for length in (depth, PRACTICE.neckline))
    message = f"The top edge crosses the front princess seam {shown} above the bust point; {least} is a sensible least."
    yield Finding("neckline-bust-point", "warning", seam, depth, PRACTICE.neckline, message, RAISE, *where)


def _below(seam: str, depth: float, where: tuple[str, Point], wearing: Wearing) -> Finding:
    by = f" by {format_length(-depth, wearing.unit)}" if depth < 0 else ""
    message = f"The top edge crosses the front princess seam below the bust point{by}: the bust is not held."
    return Finding("neckline-bust-point", "error", seam, depth, 0, message, RAISE, *where)


def _below_bust(sides: list[list[Stretch]], block: Pattern | None) -> float:
    """How far above the bust point the top edge crosses, below 0: by the block's length from a lower level up to it."""
    seam = next((s for s in block.seams if block.edge(s.a[0]).line == FRONT_PRINCESS), None) if block else None
    if block is None or seam is None:
        return 0.0
    whole = [_upwards(block, chain) for chain in (seam.a, seam.b)]
    bust = _first_above(whole, BUST)
    for level in (UNDERBUST, WAIST):
        kept, uncut = _first_above(sides, level), _first_above(whole, level)
        if kept is not None and uncut is not None and bust is not None:
            return min(0.0, kept - (uncut - bust))
    return 0.0


def _first_above(sides: list[list[Stretch]], level: str) -> float | None:
    return next((depth for side in sides if (depth := _above(side, level)) is not None), None)


def _ends_in_neckline(pattern: Pattern, chain: tuple[Span, ...]) -> bool:
    up = _runs_up(pattern, chain[0])
    return chain_corner(pattern, chain[-1 if up else 0], up) is not None


def _runs_up(pattern: Pattern, span: Span) -> bool:
    return (span.end > span.start) == pattern.edge(span).along_line


def _upwards(pattern: Pattern, chain: tuple[Span, ...]) -> list[Stretch]:
    """The chain's stretches from the hem to the top."""
    stretches = []
    for span in chain:
        edge = pattern.edge(span)
        length = edge.curve.length
        low, high = sorted((span.start * length, span.end * length))
        if not edge.along_line:
            low, high = length - high, length - low
        stretches.append(Stretch(pattern.piece(span.piece), edge, low, high))
    return stretches if _runs_up(pattern, chain[0]) else stretches[::-1]


def _above(side: list[Stretch], level: str) -> float | None:
    """Length of the seam from a level up to the top edge, mm, or None where the level does not meet the seam."""
    for k, stretch in enumerate(side):
        place = _place(stretch, level)
        if place is not None and stretch.low - TOLERANCES.seam <= place <= stretch.high + TOLERANCES.seam:
            return stretch.high - place + sum(later.high - later.low for later in side[k + 1 :])
    return None


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
