"""What a maker is told of an edge that was divided, because several edges are sewn to it."""

from collections.abc import Iterable, Mapping

from panelwright.body.units import Unit
from panelwright.body.worded_length import length_words, worded_in
from panelwright.checks.design_words import edge_words
from panelwright.file_words import in_file
from panelwright.finding import Finding, Severity
from panelwright.intake.divided import Division
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.seam_station import run_into
from panelwright.pattern.mark import as_point
from panelwright.pattern.pattern import Pattern


def division_findings(
    pattern: Pattern, divisions: Iterable[Division], drawn_at: Mapping[str, EdgeRef], unit: Unit
) -> tuple[Finding, ...]:
    """`edge-divided`: where, in which share; a warning where it had to be guessed at which end the first edge lies.

    Args:
        pattern: as it was drawn.
        drawn_at: edge id -> where it was drawn; the stretches of one edge in their order along it.
    """
    with worded_in(unit):
        return tuple(_told(pattern, division, drawn_at) for division in divisions)


def _told(pattern: Pattern, division: Division, drawn_at: Mapping[str, EdgeRef]) -> Finding:
    shared = division.shared
    ids = [id for id, ref in drawn_at.items() if ref == shared.whole]
    piece = pattern.piece(shared.whole.piece)
    first, second = piece.edge(ids[0]), piece.edge(ids[1])
    turned = piece.after(second) == first  # its outline was drawn the other way round
    outer, at = (piece.after(first), first.curve.start) if turned else (piece.before(first), first.curve.end)
    names = [pattern.piece(part.piece).label for part in shared.parts]
    places = [length_words(place) for place in division.places]
    message = (
        f"{piece.label}: its {edge_words(pattern, first.line)} is sewn to those of {_listed(names)}, in this order; "
        f"it is divided {_listed(places)} from {run_into(pattern, outer)}, in the share of their lengths."
    )
    remedy = "If they meet elsewhere on it, divide the edge there yourself and sew each part to its own partner."
    if not division.is_sure:
        message += " Which of them lies first, the pieces do not tell."
        remedy = f"Look whether {names[0]} lies there; if not, name these edges the other way round{in_file('seams')}."
    share = division.places[0] / sum(piece.edge(id).curve.length for id in ids)
    severity: Severity = "advice" if division.is_sure else "warning"
    return Finding("edge-divided", severity, shared.line, share, 1.0, message, remedy, piece.id, as_point(at), "of 1")


def _listed(words: list[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))
