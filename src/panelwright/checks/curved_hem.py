"""Hems that are turned up although they are curved."""

from typing import Final

import numpy as np

from panelwright.body.units import format_length
from panelwright.checks.wearing import Wearing
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge
from panelwright.pattern.spoken_piece import spoken_piece

MOST_DIFFERENCE: Final = 5.0  # mm on one piece that can be eased into a turned hem (own choice)


def check_curved_hem(cutting: CuttingPattern, wearing: Wearing) -> tuple[Finding, ...]:
    """`curved-hem-turned`, advice: turned up, the allowance of a curved hem has another length than the hem.

    An edge that turns by an angle has a cut edge longer or shorter by allowance times that angle (geometry).
    """
    pattern = cutting.pattern
    hems = {line.id for line in pattern.lines if lines.is_hem(line)}
    faced = {edge.line for piece in pattern.pieces if piece.layer in ("facing", "lining") for edge in piece.edges}
    if hems & faced or any(sum(cut.count for cut in cutting.cut[p.id].cuts) > 2 for p in pattern.pieces):
        return ()
    found = [
        (cutting.cut[piece.id].allowances[edge.id] * _bend(edge), piece.id, edge)
        for piece in pattern.pieces
        if piece.layer == "outer"
        for edge in piece.edges
        if edge.line in hems
    ]
    worst = max(found, key=lambda entry: entry[0], default=None)
    if worst is None or worst[0] <= MOST_DIFFERENCE:
        return ()
    off, piece, edge = worst
    x, y = (float(value) for value in edge.curve.point(edge.curve.length / 2))
    amount, where = format_length(off, wearing.unit), spoken_piece(pattern.piece(piece))
    message = f"The hem is curved: turned up, its allowance is {amount} off on {where}."
    remedy = (
        "Finish it with a facing or a binding, or give the hem a narrow allowance"
        f"{in_file('finish.allowance_by_line_cm')}."
    )
    return (
        Finding(
            "curved-hem-turned", "advice", edge.id, off, MOST_DIFFERENCE, message, remedy, piece, (x, y)
        ),
    )  # fmt: skip


def _bend(edge: Edge) -> float:
    """The most that any stretch of an edge turns one way, radians."""
    ways = np.diff(edge.curve.polyline(), axis=0)
    angles = np.unwrap(np.arctan2(ways[:, 1], ways[:, 0]))
    return float(angles.max() - angles.min())
