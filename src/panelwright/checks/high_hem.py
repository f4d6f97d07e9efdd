"""A hem that ends above the underbust: the bust is not covered, and so little cloth may be left that nothing holds."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from panelwright.body.units import format_length
from panelwright.checks.corner import finished_corner
from panelwright.checks.design_words import drawing_step, met_words
from panelwright.checks.practice import PRACTICE
from panelwright.checks.wearing import Wearing
from panelwright.finding import Finding
from panelwright.finish.facing_plan import hem_lines
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import UNDERBUST
from panelwright.pattern.line import BLOCK, CENTRE_BACK, CENTRE_FRONT, SIDE
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

# Line -> the field of a hem step that says its height there; seams between follow from their neighbours.
_FIELDS = {CENTRE_FRONT: "height at centre front", SIDE: "height at side", CENTRE_BACK: "height at centre back"}


@dataclass(frozen=True)
class HighEnd:
    """Where an upright edge of the shell ends in a hem that is too high.

    Attributes:
        by: how far above the underbust along the edge, mm.
        left: length of the edge from the hem up, mm.
    """

    piece: Piece
    edge: Edge
    hem: Edge
    at: Point
    by: float
    left: float


def check_high_hem(pattern: Pattern, block: Pattern | None, wearing: Wearing) -> tuple[Finding, ...]:
    """`high-hem`, once: a warning where the hem lies above the underbust, an error where hardly any cloth is left.

    Args:
        block: the pattern before any step, which knows where the underbust lies; without it nothing is found.
    """
    ends = list(_high_ends(pattern, block)) if block else []
    scant = [end for end in ends if end.left < PRACTICE.least_shell]
    if scant:
        return (_scant(pattern, min(scant, key=lambda end: end.left), wearing),)
    return (_high(pattern, max(ends, key=lambda end: end.by), wearing),) if ends else ()


def _high_ends(pattern: Pattern, block: Pattern) -> Iterator[HighEnd]:
    hems = hem_lines(pattern)
    for piece in (piece for piece in pattern.pieces if piece.layer == "outer"):
        for edge in piece.edges:
            upright = edge.line not in hems and pattern.line(edge.line).origin == BLOCK and edge.kind != "finished"
            low = finished_corner(piece, edge, not edge.along_line) if upright else None
            if low is None or low.finished.line not in hems:
                continue
            by = _above_underbust(piece, edge, low.at, block)
            if by > PRACTICE.tape:
                yield HighEnd(piece, edge, low.finished, low.at, by, edge.curve.length)


def _above_underbust(piece: Piece, edge: Edge, at: Point, block: Pattern) -> float:
    """How far a place on an edge lies above the underbust, along the panel's own edge in the block, mm; else 0."""
    for region in piece.material:
        if not block.has_piece(region.panel):
            continue
        panel, (place,) = block.piece(region.panel), region.placement.inverse.points(np.array([at]))
        for own in panel.on_line(edge.line):
            underbust = block.level_place(own, panel, UNDERBUST)
            arc, apart = own.line_curve.nearest(place)
            if underbust is not None and apart <= PRACTICE.bust_point_reach:
                return float(arc - underbust)
    return 0.0


def _scant(pattern: Pattern, end: HighEnd, wearing: Wearing) -> Finding:
    left, least, by = (format_length(each, wearing.unit) for each in (end.left, PRACTICE.least_shell, end.by))
    message = (
        f"At {met_words(pattern, end.edge.line)} the hem lies {by} above the underbust and leaves only {left} of "
        f"cloth above it; below {least} a garment over the bust does not hold together."
    )
    numbers = end.left, PRACTICE.least_shell
    return Finding("high-hem", "error", end.edge.id, *numbers, message, _remedy(pattern, end), end.piece.id, end.at)


def _high(pattern: Pattern, end: HighEnd, wearing: Wearing) -> Finding:
    message = (
        f"At {met_words(pattern, end.edge.line)} the hem lies {format_length(end.by, wearing.unit)} above the "
        "underbust: the bust is not covered down to its lower edge, and nothing holds the hem to the rib cage."
    )
    return Finding("high-hem", "warning", end.edge.id, end.by, 0, message, _remedy(pattern, end), end.piece.id, end.at)


def _remedy(pattern: Pattern, end: HighEnd) -> str:
    step = drawing_step(pattern, end.hem.line)
    field = _FIELDS.get(end.edge.line, "heights at centre front and side")
    how = f" (in {step} give the {field} the level {UNDERBUST} or a lower one)" if step else ""
    return f"Lower the hem there to the underbust or below{how}."
