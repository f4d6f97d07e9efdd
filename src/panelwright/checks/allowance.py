"""Rule 8: the cut line runs at the allowance, away from corners; it is simple and goes round the outline."""

from collections.abc import Iterator
from typing import Final

from panelwright.body.worded_length import length_words
from panelwright.checks.cut_shape import CutFault, CutShape, cut_faults
from panelwright.checks.design_words import drawing_step, met_words
from panelwright.checks.outline import is_sound
from panelwright.checks.shell import repeats
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

# Where a design says how wide allowances are.
FIELDS: Final = in_file("finish.allowance_cm, or finish.allowance_by_line_cm for one line")


def check_allowances(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`cut-line-crosses`, `cut-line-inside`, `allowance` and `beyond-fold` errors."""
    repeated = repeats(cutting.pattern)
    found: list[Finding] = []
    for piece, cut in cutting.pieces:
        shape, source = CutShape.of(piece, cut), repeated.get(piece.id)
        if is_sound(piece) and (source is None or CutShape.of(source, cutting.cut[source.id]) != shape):
            for fault in cut_faults(shape):
                found += _finding(cutting.pattern, piece, shape, fault)
    return tuple(found)


def _finding(pattern: Pattern, piece: Piece, shape: CutShape, fault: CutFault) -> Iterator[Finding]:
    edge = None if fault.edge is None else piece.edges[fault.edge]
    subject, where, value = edge.id if edge else piece.id, (piece.id, fault.at), abs(fault.value)
    if fault.kind == "crosses":
        message = f"{piece.label}: the cut line crosses itself."
        remedy = f"Make the allowance narrower{FIELDS}, or the hollow wider."
        yield Finding("cut-line-crosses", "error", subject, 1, 0, message, remedy, *where, "times")
    elif fault.kind == "inside":
        message = f"{piece.label}: the cut line runs {length_words(value, 2)} inside the stitch line."
        remedy = "Draw the cut line again from the stitch line and its allowances."
        yield Finding("cut-line-inside", "error", subject, value, TOLERANCES.allowance, message, remedy, *where)
    elif fault.kind == "beyond-fold":
        message = f"{piece.label}: the cut line reaches {length_words(value, 2)} beyond the fold."
        remedy = "End the neighbouring allowances on the line of the fold."
        limit = TOLERANCES.allowance + TOLERANCES.straight
        yield Finding("beyond-fold", "error", subject, value, limit, message, remedy, *where)
    elif edge and fault.edge is not None:
        width = shape.widths[fault.edge]
        message = (
            f"{piece.label}: beside {met_words(pattern, edge.line)} the cut line is {_cm(value)} off its "
            f"allowance of {_cm(width)}; the limit is {_cm(TOLERANCES.allowance)}."
        )
        remedy = _gentler(pattern, piece, edge)
        yield Finding("allowance", "error", subject, value, TOLERANCES.allowance, message, remedy, *where)


def _gentler(pattern: Pattern, piece: Piece, edge: Edge) -> str:
    """What to do where an edge is too sharp for its allowance: change the edge itself, or one that meets it."""
    near = (edge, piece.before(edge), piece.after(edge))
    step = next((step for own in near if (step := drawing_step(pattern, own.line))), None)
    narrower = f"Reduce the allowance{FIELDS}"
    if step is None:
        return f"{narrower}, or draw the cut line again at the allowance."
    return f"{narrower}, or make the edge gentler: in {step} bring its heights and points nearer to one height."


def _cm(length: float) -> str:
    return f"{length / 10:.3g} cm"
