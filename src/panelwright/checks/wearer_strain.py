"""Strain of the block's panels, the price of laying a round body flat, as advice that a maker can use."""

from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Final

import numpy as np

from panelwright.body.units import format_length
from panelwright.checks.design_words import line_words
from panelwright.checks.practice import PRACTICE
from panelwright.checks.wearing import Wearing
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.geometry.trace import trace
from panelwright.pattern.edge import Edge
from panelwright.pattern.mark import Point, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

# Where a design asks for one more seam on each side.
SEAMS: Final = f"more panels in the block{in_file('block.panels')}"


def check_strain(pattern: Pattern, strain: Mapping[str, float], wearing: Wearing) -> tuple[Finding, ...]:
    """`strain` advice for each panel over its limit.

    Args:
        strain: block panel -> 95th percentile of its length strain, as a share (0.03 is 3 %).
    """
    return tuple(finding for panel, share in strain.items() for finding in _check(pattern, panel, share, wearing))


def _check(pattern: Pattern, panel: str, share: float, wearing: Wearing) -> Iterator[Finding]:
    limit = PRACTICE.panel_strain.get(panel, PRACTICE.other_strain)
    piece = next(
        (p for p in pattern.pieces if p.layer == "outer" and any(region.panel == panel for region in p.material)), None
    )
    if not share > limit or piece is None:
        return
    strongly = share > PRACTICE.strong_strain
    remedy = f"Add a dart or another seam: {SEAMS}" if strongly else "Add a dart, or see at the toile where it pulls"
    where: tuple[str, Point | None] = (piece.id, None)
    place = _curved_seam(pattern, piece)
    if place is not None:
        edge, low, high = place
        # Own rule of thumb: the stretch of seam between two levels where the panel is roundest takes up the strain.
        ease = format_length(round(share * (high - low)), wearing.unit)
        where = piece.id, as_point(edge.curve.point((low + high) / 2))
        remedy = f"Ease about {ease} into the {line_words(pattern, edge.line)} seam here, or add a dart" + (
            f", or better another seam: {SEAMS}" if strongly else ""
        )
    message = (
        f"{piece.label}: laid flat, the cloth is {share:.1%} off the body's shape at its worst places; up to "
        f"{limit:.0%} sits well without help, more shows as folds or pulling."
    )
    numbers = share * 100, limit * 100
    yield Finding("strain", "advice", panel, *numbers, message, f"{remedy}.", *where, unit="%")


def _curved_seam(pattern: Pattern, piece: Piece) -> tuple[Edge, float, float] | None:
    """The stretch between two levels where a seam of the piece turns most: (edge, low, high), arc mm in its sense."""
    levels = [line for line in piece.inside if line.kind == "level"]
    sewn = {
        span.edge: seam.region
        for seam in pattern.seams
        if seam.kind == "join" and not seam.is_centre
        for span in seam.a + seam.b
    }
    best: tuple[float, tuple[Edge, float, float]] | None = None
    for edge in (edge for edge in piece.edges if sewn.get(edge.id) in ("front", "back")):
        ends = [point for line in levels for point in (line.curve.start, line.curve.end)]
        if not ends:
            continue
        apart, places = trace(edge.curve).nearest(np.array(ends))
        on = np.unique(places[apart <= TOLERANCES.seam + TOLERANCES.polyline].round(3))
        for low, high in pairwise(on.tolist()):
            a, b = edge.curve.tangent(low), edge.curve.tangent(high)
            bend = abs(float(np.arctan2(a[0] * b[1] - a[1] * b[0], a @ b)))
            if best is None or bend > best[0]:
                best = bend, (edge, low, high)
    return best[1] if best else None
