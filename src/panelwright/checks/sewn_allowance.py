"""Edges that are to be sewn but have no cloth to sew with."""

from panelwright.body.units import format_length
from panelwright.checks.design_words import line_words
from panelwright.checks.practice import PRACTICE
from panelwright.checks.wearing import Wearing
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.pattern.mark import as_point


def check_sewn_allowances(cutting: CuttingPattern, wearing: Wearing) -> tuple[Finding, ...]:
    """`no-allowance`, one warning that names every line of the outer pieces whose seam has less than 3 mm.

    Folds, openings and finished edges may go without (bound, laced edge to edge), and interfacing always does. A bare
    block is traced, not cut in cloth.
    """
    pattern = cutting.pattern
    if pattern.design == "block" and not pattern.steps:
        return ()
    bare = [
        (cut.allowances[edge.id], piece, edge)
        for piece, cut in cutting.pieces
        for edge in piece.edges
        if piece.layer == "outer" and edge.kind == "seam" and cut.allowances[edge.id] < PRACTICE.least_allowance
    ]
    if not bare:
        return ()
    width, piece, edge = min(bare, key=lambda row: row[0])
    named = ", ".join(dict.fromkeys(line_words(pattern, edge.line) for _, _, edge in bare))
    has = "no seam allowance" if width == 0 else f"a seam allowance of only {width:g} mm"
    least = PRACTICE.least_allowance
    message = (
        f"Cut with {has}: {named}. A seam with less than {least:g} mm frays out, and sewing further in makes the "
        "garment smaller than its measurements."
    )
    usual = format_length(PRACTICE.usual_allowance, wearing.unit)
    remedy = (
        f"Give an allowance{in_file('finish.allowance_cm or finish.allowance_by_line_cm')}; {usual} is usual. Or go "
        "on if "
        "you add it when you cut."
    )
    at = as_point(edge.curve.point(edge.curve.length / 2))
    return (Finding("no-allowance", "warning", edge.id, width, least, message, remedy, piece.id, at),)
