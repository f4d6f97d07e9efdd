"""The skirt that hangs from a bodice: what it holds together where an upright edge runs into the waist seam."""

from dataclasses import replace
from typing import Final

from panelwright.pattern.closure import Closure
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

SKIRT: Final = "skirt"  # kind of the step that sews a skirt to a bodice
WAIST_SLOT: Final = "waist"  # its slot for the edges that are sewn


def waist_seams(pattern: Pattern) -> frozenset[str]:
    """Ids of the seams between bodice and skirt in the outer cloth."""
    return frozenset(f"{step.uid}/{WAIST_SLOT}" for step in pattern.steps if step.kind == SKIRT)


def runs_into_skirt(pattern: Pattern, piece: Piece, edge: Edge) -> bool:
    """Whether an upright edge ends, at its lower end, at an edge of its piece that a skirt is sewn to."""
    lower = piece.before(edge) if edge.along_line else piece.after(edge)
    waists = waist_seams(pattern)
    sewn = (span.edge for seam in pattern.seams if seam.id in waists for span in seam.a)
    return lower.id in sewn


def held_closures(pattern: Pattern) -> tuple[Closure, ...]:
    """The closures, each that would part the garment but runs into the waist seam of a skirt taken as ending there."""
    return tuple(_held(pattern, closure) for closure in pattern.closures)


def _held(pattern: Pattern, closure: Closure) -> Closure:
    seams = (seam for seam in pattern.seams if seam.id == closure.seam)
    spans = (span for seam in seams for span in seam.a + seam.b)
    held = closure.opens_flat and any(
        runs_into_skirt(pattern, pattern.piece(span.piece), pattern.edge(span)) for span in spans
    )
    return replace(closure, to_hem=False) if held else closure
