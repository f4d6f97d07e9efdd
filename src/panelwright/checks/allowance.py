"""Rule 8: the cut line runs at the allowance, away from corners; it is simple and goes round the outline."""

from collections.abc import Iterator

from panelwright.checks.cut_shape import CutFault, CutShape, cut_faults
from panelwright.checks.outline import is_sound
from panelwright.checks.shell import repeats
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.piece import Piece


def check_allowances(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`cut-line-crosses`, `cut-line-inside`, `allowance` and `beyond-fold` errors."""
    repeated = repeats(cutting.pattern)
    found: list[Finding] = []
    for piece, cut in cutting.pieces:
        shape, source = CutShape.of(piece, cut), repeated.get(piece.id)
        if is_sound(piece) and (source is None or CutShape.of(source, cutting.cut[source.id]) != shape):
            for fault in cut_faults(shape):
                found += _finding(piece, shape, fault)
    return tuple(found)


def _finding(piece: Piece, shape: CutShape, fault: CutFault) -> Iterator[Finding]:
    edge = None if fault.edge is None else piece.edges[fault.edge]
    subject, where, value = edge.id if edge else piece.id, (piece.id, fault.at), abs(fault.value)
    if fault.kind == "crosses":
        message = f"{piece.label}: the cut line crosses itself."
        remedy = "Make the allowance narrower there, or the hollow wider."
        yield Finding("cut-line-crosses", "error", subject, 1, 0, message, remedy, *where, "times")
    elif fault.kind == "inside":
        message = f"{piece.label}: the cut line runs {value:.2f} mm inside the stitch line."
        remedy = "Draw the cut line again from the stitch line and its allowances."
        yield Finding("cut-line-inside", "error", subject, value, TOLERANCES.allowance, message, remedy, *where)
    elif fault.kind == "beyond-fold":
        message = f"{piece.label}: the cut line reaches {value:.2f} mm beyond the fold."
        remedy = "End the neighbouring allowances on the line of the fold."
        limit = TOLERANCES.allowance + TOLERANCES.straight
        yield Finding("beyond-fold", "error", subject, value, limit, message, remedy, *where)
    elif edge and fault.edge is not None:
        width = shape.widths[fault.edge]
        message = (
            f"{piece.label}: beside the edge {edge.line} the cut line is {value:.2f} mm off its allowance of "
            f"{width:g} mm; the limit is {TOLERANCES.allowance:g} mm."
        )
        remedy = "Draw the cut line again at the allowance, or state the allowance that is drawn."
        yield Finding("allowance", "error", subject, value, TOLERANCES.allowance, message, remedy, *where)
